package vessel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	q "drawoff/pipeline/quantity"
)

// Plane geometry: a cone of half-angle 30° rises √3 times what it widens, and
// its outside lies 2 mm/sin 30° = 4 mm lower on a plumb line; a flat bottom lies
// its wall lower; a dish is lowest, by its wall, under its apex, and ends at the
// shell's edge level with the knuckle's centre, less what the wall leaves of it.
func TestUndersideClosedForms(t *testing.T) {
	t.Parallel()
	under := func(v Vessel, r float64) float64 {
		return v.Underside(q.Length(r)*q.Millimetre, 2*q.Millimetre).Millimetres()
	}
	cone := Vessel{Bore: 1000 * q.Millimetre, Straight: 1, Bottom: Cone, ConeAngle: 60 * q.Degree, Opening: 50 * q.Millimetre}
	assert.InDelta(t, (500-25)*math.Sqrt(3)-4, under(cone, 500), 1e-6)
	assert.InDelta(t, (300-25)*math.Sqrt(3)-4, under(cone, 300), 1e-6)
	// The plate ends square: its outside 2 mm sin 30° below its inside.
	assert.InDelta(t, (500-25)*math.Sqrt(3)-1, under(cone, 700), 1e-6, "further out there is no bottom")
	flat := Vessel{Bore: 1000 * q.Millimetre, Straight: 1, Bottom: Flat}
	assert.InDelta(t, -2, under(flat, 400), 1e-9)
	for _, bottom := range []Bottom{Klopper, Korbbogen} {
		dish := Vessel{Bore: 1000 * q.Millimetre, Straight: 1, Bottom: bottom}
		_, knuckle := dish.Dish()
		assert.InDelta(t, -2, under(dish, 0), 1e-9)
		k := knuckle.Millimetres()
		assert.InDelta(t, dish.BottomDepth().Millimetres()-math.Sqrt((k+2)*(k+2)-k*k), under(dish, 500), 1e-6)
		assert.InDelta(t, dish.BottomDepth().Millimetres(), under(dish, 700), 1e-5, "level with the shell's edge: the root of a small difference, which halves the digits")
	}
}

// Without a wall the underside is the inside: the circle at its height has the
// radius that was asked for. It rises all the way out.
func TestUndersideIsTheInside(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		v := anyVessel().Draw(t, "vessel")
		edge := float64(v.Bore) / 2
		r := rapid.Float64Range(float64(v.Opening)/2, edge).Draw(t, "r")
		z := v.Underside(q.Length(r), 0)
		if depth := v.BottomDepth(); z > depth*1e-6 && z < depth*(1-1e-6) {
			assert.InEpsilon(t, math.Pi*r*r, v.Area(z), 1e-6)
		}
		assert.LessOrEqual(t, float64(z), float64(v.Underside(q.Length(edge), 0))+1e-9)
	})
}
