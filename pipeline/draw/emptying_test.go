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
)

// The picture of any transfer is well-formed and lies inside its frame; its
// line of levels never rises, which on a screen is a y that never falls.
func TestEmptyingIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := pipeline.Check(designtest.Design(t)).Transfer()
		svg := Emptying(tr, rapid.IntRange(200, 900).Draw(t, "width"))
		if len(tr.Curve) < 2 {
			assert.Empty(t, svg)
			return
		}
		assert.NotContains(t, svg, "NaN")
		assert.NotContains(t, svg, "Inf")
		var w, h float64
		first := true
		walk(t, svg, func(name string, attr map[string]string) {
			if name == "svg" {
				w, _ = strconv.ParseFloat(attr["width"], 64)
				h, _ = strconv.ParseFloat(attr["height"], 64)
			}
			if name != "path" {
				return
			}
			last := 0.0
			for _, p := range strings.Fields(strings.TrimPrefix(attr["d"], "M")) {
				xs, ys, _ := strings.Cut(p, ",")
				x, err := strconv.ParseFloat(xs, 64)
				require.NoError(t, err)
				y, err := strconv.ParseFloat(ys, 64)
				require.NoError(t, err)
				assert.True(t, x >= 0 && x <= w && y >= 0 && y <= h, "%s outside %g by %g", p, w, h)
				if first {
					assert.GreaterOrEqual(t, y, last, "the level rises")
					last = y
				}
			}
			first = false
		})
	})
}

func TestEmptyingShowsWhereAirIsDrawn(t *testing.T) {
	tr := pipeline.Check(design.Demo()).Transfer()
	require.True(t, tr.Drawn)
	svg := Emptying(tr, 400)
	for _, words := range []string{"air from here", "suction head to spare", "limit", "level, mm", "flow, L/min", "time, min"} {
		assert.Contains(t, svg, words)
	}
	assert.Empty(t, Emptying(pipeline.Transfer{}, 400))
}
