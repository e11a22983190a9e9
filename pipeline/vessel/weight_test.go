package vessel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	q "drawoff/pipeline/quantity"
)

func centre(v Vessel, level q.Length) q.Length {
	_, at, _ := v.Contents(level)
	return at
}

// Euclid and Archimedes: the centre of a cone lies at 3/4 of its height from
// the apex, that of a hemisphere at 5/8 of its radius from the pole, that of
// a cylinder in the middle.
func TestCentroidClosedForms(t *testing.T) {
	t.Parallel()
	cone := Vessel{Bore: 1, Straight: 1, Bottom: Cone, ConeAngle: 90 * q.Degree}
	assert.InEpsilon(t, 0.75*0.5, float64(centre(cone, 0.5)), 1e-12)
	flat := Vessel{Bore: 1, Straight: 2, Bottom: Flat}
	assert.InEpsilon(t, 0.7, float64(centre(flat, 1.4)), 1e-12)
	ball := shape{bottom: Klopper, radius: 0.6}
	ball.dish(0.6, 0.6)
	assert.InEpsilon(t, 0.6*5/8, ball.bottomMoment(0.6)/ball.bottomVolume(0.6), 1e-12)
}

// The centre is the mean height of what lies below the level: summed from
// volumes alone, by parts.
func TestCentroidIsTheMeanHeight(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		v := anyVessel().Draw(t, "vessel")
		level := v.Brim() * q.Length(rapid.Float64Range(0.02, 1).Draw(t, "part of the height"))
		volume, _, surface := v.Contents(level)
		assert.InEpsilon(t, float64(v.VolumeAt(level)), float64(volume), 1e-12)
		assert.Equal(t, v.Area(level), surface)
		// ∫ z dV = z V(z) − ∫ V dz, by Simpson on each side of the shell's lower edge.
		sum := 0.0
		s := v.shape()
		for _, span := range [][2]float64{{0, math.Min(s.tangent, float64(level))}, {math.Min(s.tangent, float64(level)), math.Min(s.depth, float64(level))}, {math.Min(s.depth, float64(level)), float64(level)}} {
			const n = 2000
			h := (span[1] - span[0]) / n
			for i := range n {
				z := span[0] + float64(i)*h
				sum += h / 6 * float64(v.VolumeAt(q.Length(z))+4*v.VolumeAt(q.Length(z+h/2))+v.VolumeAt(q.Length(z+h)))
			}
		}
		want := float64(level) - sum/float64(v.VolumeAt(level))
		assert.InEpsilon(t, want, float64(centre(v, level)), 1e-6)
	})
}

// The plate of a dish by turning its outline about the axis (Pappus): chords
// of a fine polyline.
func TestBottomWallByPappus(t *testing.T) {
	t.Parallel()
	for _, v := range []Vessel{
		{Bore: 1.2, Straight: 1, Bottom: Klopper}, {Bore: 0.8, Straight: 1, Bottom: Korbbogen},
		{Bore: 0.96, Straight: 1, Bottom: Cone, ConeAngle: 75 * q.Degree, Opening: 0.06}, {Bore: 1, Straight: 1, Bottom: Flat},
	} {
		area, moment := 0.0, 0.0
		s := v.shape()
		const n = 200000
		r0, z0 := s.radiusAt(0), 0.0
		if v.Bottom == Flat {
			r0 = 0
		}
		for i := 1; i <= n; i++ {
			u := 1 - float64(i)/n // evenly in the root, for the vertical end of the knuckle
			z := s.depth * (1 - u*u)
			r := s.radiusAt(z)
			if i == n {
				r, z = s.radius, s.depth
			}
			a := math.Pi * (r + r0) * math.Hypot(r-r0, z-z0)
			area, moment = area+a, moment+a*(z+z0)/2
			r0, z0 = r, z
		}
		got, centre := v.BottomWall()
		assert.InEpsilon(t, area, got, 1e-5, v.Bottom)
		assert.InDelta(t, moment/area, float64(centre), 1e-5, v.Bottom)
	}
}

func TestWeightOfNothing(t *testing.T) {
	t.Parallel()
	assert.Zero(t, centre(Vessel{}, 1))
	area, centre := Vessel{Bottom: Klopper}.BottomWall()
	assert.Zero(t, area)
	assert.Zero(t, centre)
}
