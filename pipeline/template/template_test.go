package template

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/plot"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vessel"
)

const degree = math.Pi / 180

// Points of a wrap, put back into both equations: of the tube and of what it
// meets, within 1e-9 of their size.
func putBack(t require.TestingT, tube Tube, cut []float64, surface func(p Vec) float64, size float64) {
	for i, s := range cut {
		p := along(tube.Line(2*math.Pi*float64(i)/steps), tube.Dir, s)
		from := p.add(tube.At.times(-1))
		axial := from.dot(tube.Dir)
		across := from.add(tube.Dir.times(-axial)).length()
		assert.InDelta(t, tube.Radius, across, 1e-9*size, "on the tube")
		assert.InDelta(t, 0, surface(p)/size, 1e-9, "on the other")
	}
}

// Two cylinders whose axes cross at an angle, offset: the closed form of
// drawing-office handbooks, for each line φ of the branch,
// s = (√(R² − (e − r sin φ)²) + r cos φ cos β)/sin β, from the crossing
// outwards: furthest, for axes that cross, at φ 0 in the sharp corner.
func TestSaddleClosedForm(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		R := rapid.Float64Range(10, 800).Draw(t, "R")
		r := R * rapid.Float64Range(0.05, 0.8).Draw(t, "r/R")
		beta := rapid.Float64Range(15, 165).Draw(t, "angle") * degree
		offset := (R - r) * rapid.Float64Range(0, 0.9).Draw(t, "offset")
		tube := SaddleTube(r, beta, offset, R)
		cut, ok := Wrap(tube, Cylinder{R})
		require.True(t, ok)
		putBack(t, tube, cut, func(p Vec) float64 { return math.Hypot(p.X, p.Y) - R }, R+r)
		far := (R + r) * 4
		for i, s := range cut {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
			want := (math.Sqrt(R*R-(offset-r*sin)*(offset-r*sin)) + r*cos*math.Cos(beta)) / math.Sin(beta)
			assert.InDelta(t, want, far-s, 1e-9*far, "line %d", i)
		}
	})
}

// Equal tubes at right angles cut a mitre of two halves: the depth is r at
// the sides and 0 in the middle (from memory, any sheet-metal handbook).
func TestEqualTee(t *testing.T) {
	t.Parallel()
	cut, ok := Wrap(SaddleTube(25, 90*degree, 0, 25), Cylinder{25})
	require.True(t, ok)
	least, most := extent(cut)
	assert.InDelta(t, 25, most-least, 1e-6)
	assert.InDelta(t, most, cut[90], 1e-5, "the sides reach the axis")
}

func anyTank(t *rapid.T) Tank {
	tank := Tank{Radius: rapid.Float64Range(200, 1200).Draw(t, "radius"), Wall: rapid.Float64Range(1, 6).Draw(t, "wall")}
	switch rapid.SampledFrom([]string{"cone", "klopper", "korbbogen", "flat"}).Draw(t, "bottom") {
	case "cone":
		tank.Half = rapid.Float64Range(15, 75).Draw(t, "half") * degree
		tank.Opening = rapid.Float64Range(10, 60).Draw(t, "opening")
	case "klopper":
		tank.Crown, tank.Knuckle = 2*tank.Radius, 0.2*tank.Radius
	case "korbbogen":
		tank.Crown, tank.Knuckle = 1.6*tank.Radius, 0.308*tank.Radius
	}
	return tank
}

// Legs under every sort of bottom, upright and splayed: their points lie on
// the tube and on the bottom's outside, whose equation is written here again.
func TestLegOnBottom(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		tank := anyTank(t)
		r := rapid.Float64Range(12, 45).Draw(t, "leg")
		splay := rapid.Float64Range(0, 25).Draw(t, "splay") * degree
		at := rapid.Float64Range(r+tank.Opening+10, tank.Radius-r).Draw(t, "at the top")
		leg := NewTube(r, Vec{X: at + 800*math.Tan(splay), Z: -800}, Vec{-math.Sin(splay), 0, math.Cos(splay)}, Vec{X: -1})
		cut, ok := Wrap(leg, tank)
		if !ok {
			t.Skip("the leg misses the bottom")
		}
		out := func(p Vec) float64 {
			rho := math.Hypot(p.X, p.Y)
			shell := rho - tank.Radius - tank.Wall
			if tank.Half > 0 {
				// The distance from the inner cone is a wall.
				inner := tank.Opening + p.Z*math.Tan(tank.Half)
				if cone := (rho-inner)*math.Cos(tank.Half) - tank.Wall; math.Abs(cone) < math.Abs(shell) {
					return cone
				}
				return shell
			}
			if tank.Crown > 0 {
				crown := math.Hypot(rho, p.Z-tank.Crown) - tank.Crown - tank.Wall
				depth := float64(vesselOf(tank).BottomDepth()) * 1000
				knuckle := math.Hypot(rho-(tank.Radius-tank.Knuckle), p.Z-depth) - tank.Knuckle - tank.Wall
				return least(crown, knuckle, shell)
			}
			return least(p.Z+tank.Wall, shell)
		}
		putBack(t, leg, cut, out, tank.Radius+800)
	})
}

// least returns the value nearest to nought.
func least(values ...float64) float64 {
	best := values[0]
	for _, v := range values {
		if math.Abs(v) < math.Abs(best) {
			best = v
		}
	}
	return best
}

func vesselOf(t Tank) vessel.Vessel {
	bottom := vessel.Klopper
	if t.Crown < 1.9*t.Radius {
		bottom = vessel.Korbbogen
	}
	return vessel.Vessel{Bore: q.Mm(2 * t.Radius), Straight: 1, Bottom: bottom}
}

// An upright leg on a cone, worked out the short way: z = (ρ − a)/tan α less
// the wall's height, ρ² = (c + r cos φ)² + (r sin φ)².
func TestUprightLegOnCone(t *testing.T) {
	t.Parallel()
	tank := Tank{Radius: 480, Wall: 2, Half: 37.5 * degree, Opening: 30.15}
	leg := NewTube(24.15, Vec{X: 440, Z: -700}, Vec{Z: 1}, Vec{X: -1})
	cut, ok := Wrap(leg, tank)
	require.True(t, ok)
	for i, s := range cut {
		a := 2 * math.Pi * float64(i) / steps
		rho := math.Hypot(440-24.15*math.Cos(a), 24.15*math.Sin(a))
		want := (rho-30.15)/math.Tan(37.5*degree) - 2/math.Sin(37.5*degree)
		if rho <= 482 && s-700 < tank.Edge() {
			assert.InDelta(t, want, s-700, 1e-9, i)
		}
	}
}

// The strip is as long as the tube is round, and the length along the curve of
// its quarter points is arc length.
func TestDevelopedLengths(t *testing.T) {
	t.Parallel()
	cut, ok := Wrap(SaddleTube(24.15, 60*degree, 5, 50), Cylinder{50})
	require.True(t, ok)
	d := Sheet("a", "A", 24.15, cut, [4]string{"0", "90", "180", "270"})
	low, high := d.Box()
	assert.InDelta(t, 2*math.Pi*24.15, d.Lines[0].Points[steps].X, 1e-9)
	assert.InDelta(t, 0, low.X, 1e-9)
	assert.GreaterOrEqual(t, high.X, 2*math.Pi*24.15-1e-9)
	tube := SaddleTube(24.15, 60*degree, 5, 50)
	// The curve's length in space, point to point, is its length on paper, but
	// for the chord of each degree on the tube.
	space, paper := 0.0, 0.0
	for i := range steps {
		a := along(tube.Line(2*math.Pi*float64(i)/steps), tube.Dir, cut[i])
		b := along(tube.Line(2*math.Pi*float64(i+1)/steps), tube.Dir, cut[i+1])
		space += a.add(b.times(-1)).length()
		p, n := d.Lines[0].Points[i], d.Lines[0].Points[i+1]
		paper += math.Hypot(n.X-p.X, n.Y-p.Y)
	}
	assert.InEpsilon(t, space, paper, 2e-5)
}

// The hole is where the tube is: the same points in space, unrolled.
func TestHole(t *testing.T) {
	t.Parallel()
	outline, ok := Hole(25, 482, 90*degree, 0)
	require.True(t, ok)
	for _, p := range outline {
		// In a hole square to the shell the chord R sin(x/R) and the height make the tube's circle.
		assert.InDelta(t, 25, math.Hypot(482*math.Sin(p.X/482), p.Y), 1e-9)
	}
	d := HoleSheet("hole", "Hole", outline, "around", "up")
	low, high := d.Box()
	assert.Greater(t, high.X-low.X, 2*482*math.Asin(25.0/482))
}

// r/sin(half angle) and 360° sin(half angle), any sheet-metal handbook: a cone
// of 60° unrolls to half a disc, one of 90° to 254.56°.
func TestConeUnrolled(t *testing.T) {
	t.Parallel()
	f := Unroll(Tank{Radius: 500, Half: 30 * degree, Opening: 50}, 0)
	assert.InDelta(t, 1000, f.Outer, 1e-9)
	assert.InDelta(t, 100, f.Inner, 1e-9)
	assert.InDelta(t, 180, f.Angle/degree, 1e-9)
	f = Unroll(Tank{Radius: 500, Half: 45 * degree, Opening: 50}, 0)
	assert.InDelta(t, 360*math.Sqrt2/2, f.Angle/degree, 1e-9)
	rapid.Check(t, func(t *rapid.T) {
		tank := Tank{Radius: rapid.Float64Range(100, 2000).Draw(t, "radius"), Wall: rapid.Float64Range(0, 6).Draw(t, "wall"), Half: rapid.Float64Range(10, 80).Draw(t, "half") * degree, Opening: rapid.Float64Range(5, 50).Draw(t, "opening")}
		gap := rapid.Float64Range(0, 4).Draw(t, "gap")
		f := Unroll(tank, gap)
		// Arcs are as long as the rims, in the middle of the plate; the difference
		// of the radii is the slant.
		mid := tank.Radius + tank.Wall/2*math.Cos(tank.Half)
		assert.InEpsilon(t, 2*math.Pi*mid, f.Outer*f.Angle, 1e-12)
		assert.InEpsilon(t, (tank.Radius-tank.Opening)/math.Sin(tank.Half), f.Outer-f.Inner, 1e-9)
		// The gap is as wide at every radius, measured square to the seam's middle.
		for _, radius := range []float64{f.Inner, f.Outer} {
			assert.InDelta(t, gap/2, radius*math.Sin(f.Angle/2-f.edge(radius)), 1e-9)
		}
		// Distances on the plate are those on the cone: along a side, and around.
		turn := rapid.Float64Range(-3, 3).Draw(t, "turn")
		r1, r2 := tank.Opening+tank.Wall, tank.Radius
		a, b := f.Place(r1, turn), f.Place(r2, turn)
		assert.InDelta(t, math.Abs(r2-r1)/math.Sin(tank.Half), math.Hypot(a.X-b.X, a.Y-b.Y), 1e-6)
	})
}

func TestConeSheetMarksLegs(t *testing.T) {
	t.Parallel()
	tank := Tank{Radius: 480, Wall: 2, Half: 37.5 * degree, Opening: 30}
	var legs []Tube
	for i := range 3 {
		a := -math.Pi + (float64(i)+0.5)*2*math.Pi/3
		legs = append(legs, NewTube(24, Vec{300 * math.Cos(a), 300 * math.Sin(a), -700}, Vec{Z: 1}, Vec{-math.Cos(a), -math.Sin(a), 0}))
	}
	f := Unroll(tank, 1)
	d := ConeSheet("cone", "Cone", tank, f, legs)
	marks := 0
	for _, l := range d.Lines {
		if l.Stroke == plot.Mark {
			marks++
			for _, p := range l.Points {
				radius := math.Hypot(p.X, p.Y)
				assert.Greater(t, radius, f.Inner)
				assert.Less(t, radius, f.Outer)
				assert.Less(t, math.Abs(math.Atan2(p.X, p.Y)), f.edge(radius), "clear of the seam")
			}
		}
	}
	assert.Equal(t, 3, marks)
}

// What cannot be met is said, not drawn.
func TestMissesAreTold(t *testing.T) {
	t.Parallel()
	_, ok := Wrap(NewTube(24, Vec{X: 600, Z: -700}, Vec{Z: 1}, Vec{X: -1}), Tank{Radius: 480, Wall: 2, Half: 0.6, Opening: 30})
	assert.False(t, ok, "beside the tank")
	_, ok = Wrap(SaddleTube(30, 90*degree, 0, 20), Cylinder{20})
	assert.False(t, ok, "a branch that is larger than the run")
}
