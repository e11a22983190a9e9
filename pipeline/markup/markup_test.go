package markup

import (
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Whatever a person typed comes back as the same words from an independent
// parser, whether it was written as text or as an attribute.
func TestEscapes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringMatching(`[ -~äß°½]*`).Draw(t, "words")
		var w Writer
		w.Open("p", "title", words)
		w.Text(words)
		w.Close("p")
		d := xml.NewDecoder(strings.NewReader(w.String()))
		var text, title string
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err)
			switch token := token.(type) {
			case xml.StartElement:
				for _, a := range token.Attr {
					title = a.Value
				}
			case xml.CharData:
				text += string(token)
			}
		}
		assert.Equal(t, words, text)
		assert.Equal(t, words, title)
	})
}

func TestAttributes(t *testing.T) {
	var w Writer
	w.Void("input", "checked", Empty, "value", "", "name", "a<b")
	assert.Equal(t, `<input checked name="a&lt;b"/>`, w.String())
}

func TestNumber(t *testing.T) {
	for x, want := range map[float64]string{0: "0", -0.04: "0", -0.06: "-0.1", 12.34: "12.3", 12.96: "13", -3: "-3", math.Inf(1): "0", math.NaN(): "0"} {
		var w Writer
		w.Number(x)
		assert.Equal(t, want, w.String(), "%v", x)
	}
}

// Writers that are written in turns do not write into each other's room, and
// what one returned stays when the next gets its room.
func TestWritersKeepApart(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var writers [6]Writer
		var want [6]string
		var got, all []string
		for _, i := range rapid.SliceOfN(rapid.IntRange(0, 2*len(writers)-1), 1, 100).Draw(t, "turns") {
			if i >= len(writers) {
				i -= len(writers)
				got, all = append(got, writers[i].String()), append(all, want[i])
				want[i] = ""
				continue
			}
			s := strings.Repeat(string(rune('a'+i)), i+1)
			writers[i].Raw(s)
			want[i] += s
		}
		assert.Equal(t, all, got)
	})
}
