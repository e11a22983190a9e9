package draw

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/route"
)

// Half of a square is below its middle, a corner of it below a slanted cut is a triangle.
func TestClipped(t *testing.T) {
	t.Parallel()
	square := []route.Vec{{X: 0, Z: 0}, {X: 1, Z: 0}, {X: 1, Z: 1}, {X: 0, Z: 1}}
	area := func(shape []route.Vec) float64 { // the surveyor's formula
		sum := 0.0
		for i, a := range shape {
			b := shape[(i+1)%len(shape)]
			sum += (a.X*b.Z - b.X*a.Z) / 2
		}
		return sum
	}
	assert.InDelta(t, 0.25, area(clipped(square, 0.25, 1)), 1e-12)
	assert.InDelta(t, 0.75, area(clipped(square, 0.25, -1)), 1e-12)
	assert.InDelta(t, 1, area(clipped(square, 2, 1)), 1e-12)
	assert.Empty(t, clipped(square, -1, 1))
}

// Every pool and every pocket of air is drawn, marked with its letter and told in words.
func TestStaysMarksEveryPool(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(
		design.Edit{Op: "insert", Path: "run.1"}, design.Edit{Path: "run.1.kind", Value: "tee"}, design.Edit{Path: "run.1.turn", Value: "180°"},
		design.Edit{Op: "insert", Path: "delivery.pieces.0"}, design.Edit{Path: "delivery.pieces.0.kind", Value: "non-return-valve"},
	)
	require.Empty(t, faults)
	r := pipeline.Check(d)
	s := r.Stays()
	require.Len(t, s.Pools, 2)
	for _, width := range []int{280, 390, 1280} {
		svg := Stays(r, s, width)
		assert.Equal(t, strings.Count(svg, "<svg"), strings.Count(svg, "</svg>"))
		assert.GreaterOrEqual(t, strings.Count(svg, `class="held"`), 2)
		assert.GreaterOrEqual(t, strings.Count(svg, `class="held rest"`), 2)
		for i := range s.Pools {
			assert.Contains(t, svg, ">"+StaysMark(i)+"</text>")
			assert.Contains(t, svg, s.Pools[i].Name)
		}
		assert.NotContains(t, svg, "NaN")
	}
	assert.Equal(t, "AA", StaysMark(26))
}
