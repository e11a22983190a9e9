package draw

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	q "drawoff/pipeline/quantity"
)

// Two plants side by side are drawn to one scale: tanks of one bore are as
// wide as each other, however high they are.
func TestPairIsToOneScale(t *testing.T) {
	t.Parallel()
	low, high := design.Demo(), design.Demo()
	high.Tank.Height = q.MustParse[q.Length]("3 m")
	high.Tank.Fill = q.MustParse[q.Volume]("2000 L")
	pair := Pair(pipeline.Check(low), pipeline.Check(high), 300)
	shown := func(svg string) (across float64) {
		part := 0.0
		walk(t, svg, func(name string, attr map[string]string) {
			number := func(s string) float64 {
				x, err := strconv.ParseFloat(s, 64)
				require.NoError(t, err)
				return x
			}
			switch {
			case name == "svg":
				part = number(attr["width"]) / number(strings.Fields(attr["viewBox"])[2])
			case attr["class"] == "surface" && across == 0: // the full level is on the straight side
				across = (number(attr["x2"]) - number(attr["x1"])) * part
			}
		})
		return across
	}
	assert.InDelta(t, shown(pair[0]), shown(pair[1]), 0.3, "pixels; each number is written to a tenth")
	assert.Greater(t, shown(pair[0]), 20.0)
	assert.Less(t, len(Small(pipeline.Report{}, 300))+len(Pair(pipeline.Report{}, pipeline.Report{}, 300)[0]), 1)
}

// It is well-formed and no larger than asked for, whatever the plant.
func TestSmallStaysSmall(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		if len(r.Faults) > 0 {
			t.Skip("nothing to draw")
		}
		width := rapid.IntRange(100, 600).Draw(t, "width")
		walk(t, Small(r, width), func(name string, attr map[string]string) {
			if name == "svg" {
				for _, side := range []string{"width", "height"} {
					size, err := strconv.ParseFloat(attr[side], 64)
					require.NoError(t, err)
					assert.LessOrEqual(t, size, float64(width)+1, side)
				}
			}
		})
	})
}
