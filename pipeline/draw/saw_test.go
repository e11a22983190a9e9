package draw

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
)

// Every piece has its mark on the picture, every length its name, and what is
// left of it; nothing runs out at the side, on a phone or a screen.
func TestSawIsWhole(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(design.Edit{Path: "stand.brace", Value: "diagonal"}, design.Edit{Path: "stand.legs", Value: "6"})
	require.Empty(t, faults)
	for _, width := range []int{300, 390, 1280} {
		for _, s := range pipeline.Check(d).Work(design.Shelf{}).Saw {
			svg := Saw(s, width)
			pieces := 0
			var words []string
			walk(t, svg, func(name string, attr map[string]string) {
				switch {
				case name == "rect":
					x, err := strconv.ParseFloat(attr["x"], 64)
					require.NoError(t, err)
					w, err := strconv.ParseFloat(attr["width"], 64)
					require.NoError(t, err)
					assert.GreaterOrEqual(t, x, 0.0)
					assert.LessOrEqual(t, x+w, float64(width)+0.1)
					if attr["class"] == "leg" {
						pieces++
					}
				case name == "text":
					words = append(words, attr["x"])
				}
			})
			sawn := 0
			for _, b := range s.Plan.Bars {
				sawn += len(b.Cuts)
				assert.Contains(t, svg, b.Name())
				assert.Contains(t, svg, b.Rest())
			}
			assert.Equal(t, sawn, pieces)
			assert.Len(t, words, 2*len(s.Plan.Bars)+sawn)
			for _, mark := range s.Marks {
				assert.True(t, strings.Contains(svg, ">"+mark+"<") || strings.Contains(svg, ">"+mark+": "), mark)
			}
		}
	}
	assert.Empty(t, Saw(pipeline.Sawing{}, 390))
}
