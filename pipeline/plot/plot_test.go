package plot

import (
	"encoding/xml"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sample is a drawing of w by h millimetres, with everything in it.
func sample(w, h float64) Drawing {
	d := Drawing{Name: "sample", Title: "Sample: ½ in × 37.5° (äöü) ± 1", Notes: []string{"A note."}}
	d.Loop(Cut, Point{}, Point{X: w}, Point{w, h}, Point{Y: h})
	d.Line(Centre, Point{X: w / 2}, Point{w / 2, h})
	d.Line(Mark, Arc(Point{w / 2, h / 2}, math.Min(w, h)/4, 0, 2*math.Pi)...)
	d.Word(Point{5, 5}, 3, 90, "up")
	return d
}

func TestArcIsRound(t *testing.T) {
	t.Parallel()
	points := Arc(Point{3, 4}, 500, 0, math.Pi)
	for i, p := range points {
		assert.InDelta(t, 500, math.Hypot(p.X-3, p.Y-4), 1e-9)
		if i > 0 {
			b := points[i-1]
			assert.Greater(t, math.Hypot((p.X+b.X)/2-3, (p.Y+b.Y)/2-4), 500-0.021)
		}
	}
}

// The SVG is well formed, and a millimetre of it is a millimetre.
func TestSVGIsAtFullSize(t *testing.T) {
	t.Parallel()
	text := SVG(sample(120, 80))
	var svg struct {
		Width   string `xml:"width,attr"`
		Height  string `xml:"height,attr"`
		ViewBox string `xml:"viewBox,attr"`
		Paths   []struct {
			Class string `xml:"class,attr"`
			D     string `xml:"d,attr"`
		} `xml:"path"`
		Texts []string `xml:"text"`
	}
	require.NoError(t, xml.Unmarshal([]byte(text), &svg))
	assert.Equal(t, "0 0 "+strings.TrimSuffix(svg.Width, "mm")+" "+strings.TrimSuffix(svg.Height, "mm"), svg.ViewBox)
	check := ""
	for _, p := range svg.Paths {
		if p.Class == "CHECK" {
			check = p.D
		}
	}
	assert.Contains(t, check, "h100m", "the check line is 100 mm")
	assert.Contains(t, strings.Join(svg.Texts, "|"), "Sample: ½ in × 37.5° (äöü) ± 1")
}

// ofPDF writes a PDF to a file and runs one of poppler's readers on it.
func ofPDF(t *testing.T, pdf string, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		t.Skip("needs poppler's " + program)
	}
	file := filepath.Join(t.TempDir(), "a.pdf")
	require.NoError(t, os.WriteFile(file, []byte(pdf), 0o600))
	for i := range args {
		args[i] = strings.ReplaceAll(args[i], "FILE", file)
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	require.NoError(t, err, string(out))
	assert.NotContains(t, string(out), "Error")
	return string(out)
}

// Poppler, an independent reader, finds pages of A4 and the words.
func TestPDFByPoppler(t *testing.T) {
	t.Parallel()
	pdf := PDF(sample(120, 80))
	info := ofPDF(t, pdf, "pdfinfo", "FILE")
	assert.Regexp(t, `Pages:\s+1\n`, info)
	assert.Regexp(t, `Page size:\s+595\.2\d* x 841\.8\d* pts \(A4\)`, info)
	words := ofPDF(t, pdf, "pdftotext", "-layout", "FILE", "-")
	assert.Contains(t, words, "Sample: ½ in × 37.5° (äöü) ± 1")
	assert.Contains(t, words, "must measure 100 mm")
	for _, c := range []byte(pdf) {
		require.Less(t, c, byte(0x80), "plain ASCII, so that it survives as text")
	}
}

// The check line measures 100 mm on the page as poppler prints it: the longest
// dark row near the foot, counted in pixels.
func TestPDFPrintsAtFullSize(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("needs poppler's pdftoppm")
	}
	file := filepath.Join(t.TempDir(), "a.pdf")
	require.NoError(t, os.WriteFile(file, []byte(PDF(sample(120, 80))), 0o600))
	const dpi = 254 // ten pixels a millimetre
	out, err := exec.Command("pdftoppm", "-gray", "-r", strconv.Itoa(dpi), file).Output()
	require.NoError(t, err)
	head := regexp.MustCompile(`^P5\n(\d+) (\d+)\n255\n`).FindSubmatch(out)
	require.NotNil(t, head)
	wide, _ := strconv.Atoi(string(head[1]))
	high, _ := strconv.Atoi(string(head[2]))
	pixels := out[len(head[0]):]
	assert.InDelta(t, 2100, wide, 1)
	assert.InDelta(t, 2970, high, 1)
	longest := func(from, to int) int {
		most := 0
		for y := from; y < to; y++ {
			run := 0
			for x := range wide {
				if pixels[y*wide+x] > 160 {
					run = 0
					continue
				}
				run++
				most = max(most, run)
			}
		}
		return most
	}
	assert.InDelta(t, 1000, longest(high-350, high-280), 6, "the check line")
	assert.InDelta(t, 1200, longest(high-1300, high-380), 8, "120 mm of the drawing")
}

// What is larger than a page comes on several that overlap, and tiles with
// nothing on them are left out.
func TestPDFTiles(t *testing.T) {
	t.Parallel()
	info := ofPDF(t, PDF(sample(400, 300)), "pdfinfo", "FILE")
	// 400 = 185 + 175 + 40 across, 300 = 235 + 65 up; only the rim, the middle and a circle are drawn.
	assert.Regexp(t, `Pages:\s+6\n`, info)
	ring := Drawing{Name: "ring", Title: "Ring"}
	ring.Line(Cut, Arc(Point{}, 600, 0, 2*math.Pi)...)
	pages := func(d Drawing) int {
		m := regexp.MustCompile(`Pages:\s+(\d+)`).FindStringSubmatch(ofPDF(t, PDF(d), "pdfinfo", "FILE"))
		require.NotNil(t, m)
		n, _ := strconv.Atoi(m[1])
		return n
	}
	n := pages(ring)
	all := count(1200, tileWide) * count(1200, tileHigh)
	assert.Less(t, n, all, "the middle of a ring is empty")
	assert.Greater(t, n, all/2)
}

// What nobody would glue together is said to be so, on one page.
func TestTooLargeToPrint(t *testing.T) {
	t.Parallel()
	pdf := PDF(sample(6000, 6000))
	assert.Less(t, len(pdf), 10000)
	assert.Contains(t, ofPDF(t, pdf, "pdftotext", "FILE", "-"), "Too large to print")
	assert.Regexp(t, `Pages:\s+1\n`, ofPDF(t, pdf, "pdfinfo", "FILE"))
}

// Every point of a drawing lies on some tile.
func TestTilesCoverAll(t *testing.T) {
	t.Parallel()
	for _, size := range []float64{10, 184.9, 185, 185.1, 360, 361, 1000} {
		n := count(size, tileWide)
		assert.GreaterOrEqual(t, tileWide+float64(n-1)*(tileWide-overlap), size-1e-6)
		if n > 1 {
			assert.Less(t, tileWide+float64(n-2)*(tileWide-overlap), size, "and none too many")
		}
	}
}

// A reader of the published group codes (DXF reference, release 12): pairs of
// lines, sections, tables and entities.
type entity struct {
	kind   string
	groups map[int][]string
}

func readDXF(t *testing.T, text string) (header map[string]string, layers []string, entities []entity) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n")
	require.Zero(t, len(lines)%2, "groups are pairs of lines")
	header = map[string]string{}
	section, variable := "", ""
	ended := false
	for i := 0; i < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		require.NoError(t, err)
		value := lines[i+1]
		require.False(t, ended, "nothing after EOF")
		switch {
		case code == 999:
		case code == 0 && value == "SECTION":
			section = ""
		case code == 0 && value == "ENDSEC":
			section = "-"
		case code == 0 && value == "EOF":
			ended = true
		case section == "" && code == 2:
			section = value
		case section == "HEADER":
			if code == 9 {
				variable = value
			} else {
				header[variable] += value + " "
			}
		case code == 0:
			entities = append(entities, entity{kind: value, groups: map[int][]string{}})
		case len(entities) > 0:
			e := &entities[len(entities)-1]
			e.groups[code] = append(e.groups[code], value)
		}
	}
	require.True(t, ended)
	var drawn []entity
	for _, e := range entities {
		switch e.kind {
		case "LAYER":
			layers = append(layers, e.groups[2]...)
		case "LINE", "POLYLINE", "VERTEX", "SEQEND", "TEXT":
			drawn = append(drawn, e)
		}
	}
	return header, layers, drawn
}

func TestDXFReadBack(t *testing.T) {
	t.Parallel()
	d := sample(120, 80)
	header, layers, entities := readDXF(t, DXF(d))
	assert.Equal(t, "AC1009 ", header["$ACADVER"])
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	var lines []Line
	open, texts := false, 0
	for _, e := range entities {
		layer := e.groups[8][0]
		assert.Contains(t, layers, layer)
		stroke := Outline
		for s := Cut; s <= Outline; s++ {
			if s.Layer() == layer {
				stroke = s
			}
		}
		switch e.kind {
		case "LINE":
			lines = append(lines, Line{Stroke: stroke, Points: []Point{{number(e.groups[10][0]), number(e.groups[20][0])}, {number(e.groups[11][0]), number(e.groups[21][0])}}})
		case "POLYLINE":
			require.False(t, open)
			open = true
			assert.Equal(t, "1", e.groups[66][0], "vertices follow")
			lines = append(lines, Line{Stroke: stroke, Closed: e.groups[70][0] == "1"})
		case "VERTEX":
			require.True(t, open)
			l := &lines[len(lines)-1]
			l.Points = append(l.Points, Point{number(e.groups[10][0]), number(e.groups[20][0])})
		case "SEQEND":
			open = false
		case "TEXT":
			texts++
			assert.Equal(t, "90", e.groups[50][0])
		}
	}
	require.Len(t, lines, len(d.Lines))
	for i, want := range d.Lines {
		assert.Equal(t, want.Stroke, lines[i].Stroke)
		assert.Equal(t, want.Closed, lines[i].Closed)
		require.Len(t, lines[i].Points, len(want.Points))
		for k, p := range want.Points {
			assert.InDelta(t, p.X, lines[i].Points[k].X, 1e-4)
			assert.InDelta(t, p.Y, lines[i].Points[k].Y, 1e-4)
		}
	}
	assert.Equal(t, 1, texts)
	for _, c := range []byte(DXF(d)) {
		require.Less(t, c, byte(0x80), "release 12 knows no other")
	}
}

func TestNothingIsStillAFile(t *testing.T) {
	t.Parallel()
	var d Drawing
	assert.NotEmpty(t, SVG(d))
	assert.NotEmpty(t, DXF(d))
	assert.Contains(t, PDF(d), "%%EOF")
}
