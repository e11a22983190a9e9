package paper

import (
	"encoding/xml"
	"image"
	"image/color"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/www/view"
)

func of(d design.Design) string {
	r := pipeline.Check(d)
	return Sheets(view.Bench{Design: d, Report: r, Shop: &view.Shop{Work: r.Work(design.Shelf{})}, Width: 360}, "https://example.org/drawoff/")
}

var bars = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`)

// painted paints the code on a sheet, as its SVG says, and reads it with a
// library that knows nothing of the one that wrote it.
func painted(t require.TestingT, sheets string) string {
	const side = 4
	_, svg, ok := strings.Cut(sheets, `<svg class="code"`)
	require.True(t, ok, "there is a code")
	svg, _, _ = strings.Cut(svg, "</svg>")
	size, err := strconv.Atoi(regexp.MustCompile(`viewBox="0 0 (\d+)`).FindStringSubmatch(svg)[1])
	require.NoError(t, err)
	picture := image.NewGray(image.Rect(0, 0, size*side, size*side))
	for i := range picture.Pix {
		picture.Pix[i] = 255
	}
	for _, b := range bars.FindAllStringSubmatch(svg, -1) {
		x, _ := strconv.Atoi(b[1])
		y, _ := strconv.Atoi(b[2])
		n, _ := strconv.Atoi(b[3])
		for px := x * side; px < (x+n)*side; px++ {
			for py := y * side; py < (y+1)*side; py++ {
				picture.SetGray(px, py, color.Gray{})
			}
		}
	}
	bitmap, err := gozxing.NewBinaryBitmapFromImage(picture)
	require.NoError(t, err)
	code, err := qrcode.NewQRCodeReader().Decode(bitmap, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true})
	require.NoError(t, err)
	return code.GetText()
}

// The code on paper opens the design that it was printed from.
func TestCodeOpensTheDesign(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		e.Design.Date = "27 November"
		text := painted(t, of(e.Design))
		address, fragment, ok := strings.Cut(text, "#")
		require.True(t, ok)
		assert.Equal(t, "https://example.org/drawoff/", address)
		d, faults := design.ReadLink(fragment)
		assert.Empty(t, faults)
		assert.Equal(t, design.WriteFile(e.Design), design.WriteFile(d), e.Name)
	}
}

// A code holds what it was given, to the last character that ISO/IEC 18004
// says a version 25 code of level L holds, 1273 (its table 7); one more is
// told to be too long.
func TestLongestCode(t *testing.T) {
	t.Parallel()
	assert.Equal(t, 1273, most)
	letters := strings.Repeat("aZ09-_.#", 200)
	assert.Equal(t, letters[:most], painted(t, opener(letters[:most])))
	over := opener(letters[:most+1])
	assert.NotContains(t, over, "<svg")
	assert.Contains(t, over, "too long for a code")
	assert.Contains(t, over, letters[:most+1], "the link stands there all the same")
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, most).Draw(t, "length")
		assert.Equal(t, letters[:n], painted(t, opener(letters[:n])))
	})
}

// A link that opens nowhere else is told to be one.
func TestLinkOfOneMachine(t *testing.T) {
	t.Parallel()
	const told = "only there does the link open"
	assert.Contains(t, opener("http://127.0.0.1:8080/#1.x"), told)
	assert.Contains(t, opener("http://localhost:8080/#1.x"), told)
	assert.NotContains(t, opener("https://example.org/#1.x"), told)
}

// What is printed is well-formed, whatever was typed, and markup stays words.
func TestSheetsAreWhole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		if len(pipeline.Check(d).Faults) > 0 {
			t.Skip("no sheets")
		}
		d.Title, d.Date = "</td><script>", `"<&`
		html := of(d)
		assert.False(t, strings.Contains(html, "<script"), "markup is written as words")
		drawn := regexp.MustCompile(`="[^"]*NaN`).FindString(html)
		assert.Empty(t, drawn, "numbers only")
		var any struct{}
		require.NoError(t, xml.Unmarshal([]byte("<all>"+html+"</all>"), &any))
	})
}

// Each sheet says what it is, of how many, of what plant and when.
func TestHeads(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	n := strings.Count(of(d), `class="leaf`)
	assert.GreaterOrEqual(t, n, 6)
	assert.Contains(t, of(d), "Date: <span", "a line to write on")
	d.Date = "28.11."
	html := of(d)
	assert.Equal(t, n, strings.Count(html, "Date: 28.11."))
	assert.Equal(t, n, strings.Count(html, d.Title))
	for i := range n {
		assert.Contains(t, html, "Sheet "+strconv.Itoa(i+1)+" of "+strconv.Itoa(n))
	}
	// Every piece, cut and weld of the report is on paper.
	r := pipeline.Check(d)
	for _, p := range r.Pieces {
		assert.Contains(t, html, "<b>"+strconv.Itoa(p.Number)+"</b> "+labelled(p))
	}
	assert.Len(t, regexp.MustCompile(`<td>W\d`).FindAllString(html, -1), len(r.Welds))
}

func BenchmarkSheets(b *testing.B) {
	r := pipeline.Check(design.Demo())
	bench := view.Bench{Design: design.Demo(), Report: r, Shop: &view.Shop{Work: r.Work(design.Shelf{})}, Width: 360}
	b.ReportAllocs()
	for b.Loop() {
		Sheets(bench, "https://example.org/")
	}
}
