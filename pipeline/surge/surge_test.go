package surge_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/surge"
)

const (
	foot = 0.3048
	psi  = 6894.757293168
)

// In a rigid tube a wave runs at the speed of sound in water. IAPWS R7-97
// (python3-iapws 1.5.4) at 0.1 MPa: 1402.9, 1483.4, 1557.9 and 1545.1 m/s at 0,
// 20, 74 and 100 °C, the last at 0.11 MPa; Greenspan & Tschiegg, J. Res. NBS 59 (1957) 249: 1483
// m/s at 20 °C. With the stiffness of 20 °C throughout the error is what the
// figure's range says: 5 % high at 0 °C, 4 % low at 74 °C.
func TestWaveInFreeWater(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		density, want, part float64
	}{
		{998.21, 1483.4, 0.001},
		{998.21, 1483, 0.0015},
		{999.85, 1402.9, 0.06},
		{975.45, 1557.9, 0.04},
		{958.36, 1545.1, 0.04},
	} {
		got := surge.WaveSpeed(surge.Stiffness, q.Density(test.density), 0.0348, 0, surge.Steel)
		assert.InEpsilon(t, test.want, float64(got), test.part)
	}
}

// ANSI/AWWA M11, steel pipe: a = 4660/√(1 + (k/E)(d/t)) ft/s, with k 300 000
// psi and E 30 000 000 psi (from memory). Its 4660 ft/s is the round speed of
// sound of that stiffness, 1.3 % under √(K/ρ).
func TestWaveInSteelPipe(t *testing.T) {
	t.Parallel()
	for _, ratio := range []float64{10, 21.75, 50, 100, 250} { // bore over wall
		want := 4660 * foot / math.Sqrt(1+ratio*300e3/30e6)
		got := surge.WaveSpeed(300e3*psi, 999, q.Length(ratio*1e-3), 1e-3, 30e6*psi)
		assert.InEpsilon(t, want, float64(got), 0.015)
	}
}

// The rule of thumb of the water trade: each foot per second that is stopped
// at once in steel pipe costs some 100 ft of head (from memory; 4000 ft/s over
// 32.2 ft/s² is 124 ft, 3220 ft/s the 100).
func TestSudden(t *testing.T) {
	t.Parallel()
	got := surge.Sudden(1000, q.Velocity(3220*foot), q.Velocity(foot))
	assert.InEpsilon(t, 100*foot*1000*32.2*foot, float64(got), 0.001)
}

// The trade's rule for quick valves, Δp = 0.07 v L/t in psi, ft/s, ft and s,
// printed by makers of valves and in engineering handbooks on the web: Michaud
// over the part of the turn that works comes within 4 %.
func TestQuickValve(t *testing.T) {
	t.Parallel()
	got := surge.Slow(999, 100*foot, 5*foot, 0.5*surge.Working)
	assert.InEpsilon(t, 0.07*5*100/0.5*psi, float64(got), 0.045)
}

// Michaud meets Joukowsky where the valve shuts just as the wave is back, in 2L/a.
func TestMichaudMeetsJoukowsky(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		density := q.Density(rapid.Float64Range(900, 1400).Draw(t, "density"))
		length := rapid.Float64Range(0.1, 100).Draw(t, "length")
		v := q.Velocity(rapid.Float64Range(0.01, 5).Draw(t, "speed"))
		bore := rapid.Float64Range(0.01, 0.2).Draw(t, "bore")
		a := surge.WaveSpeed(surge.Stiffness, density, q.Length(bore), 1.6e-3, surge.Steel)
		assert.InEpsilon(t, float64(surge.Sudden(density, a, v)), float64(surge.Slow(density, q.Length(length), v, q.Duration(2*length/float64(a)))), 1e-12)
		wider := surge.WaveSpeed(surge.Stiffness, density, q.Length(1.1*bore), 1.6e-3, surge.Steel)
		assert.Less(t, wider, a, "a wider tube of one wall gives more")
	})
}

// layout is a pump's line of that many metres of DN 40 tube in dairy unions,
// with a butterfly valve at its end.
func layout(t *testing.T, metres float64) route.Layout {
	t.Helper()
	tube, ok := catalog.FindTube("din-11866-a/dn40")
	require.True(t, ok)
	male, ok := catalog.FindHalf("dairy-union/male", tube)
	require.True(t, ok)
	require.NotZero(t, male.Joint.Pressure, "the catalogue rates this union")
	at := func(x float64) route.End { return route.End{At: route.Vec{X: x, Z: 1}, Half: male} }
	return route.Layout{
		Outlet: at(0),
		Under: []route.Piece{
			{Ref: "under.0", Kind: design.Straight, In: at(0), Out: at(metres), Length: q.Length(metres)},
			{Ref: "under.1", Kind: design.Butterfly, In: at(metres), Out: at(metres + 0.1), Length: 0.1},
		},
		Junctions: []route.Junction{{Ref: "under.0", Up: at(0), Down: at(0)}},
	}
}

// A long line that is stopped fast goes over the rating of its unions, a short
// one does not; and the closing time advised brings it back to the rating.
func TestRating(t *testing.T) {
	t.Parallel()
	in := surge.Input{Layout: layout(t, 400), Density: 1000, Flow: 120 * q.LitrePerMinute * 2.5, Full: 3, Shutoff: 20}
	f := surge.Check(in)
	require.Len(t, f.Verdicts, 1)
	v := f.Verdicts[0]
	assert.Equal(t, finding.Look, v.Level, v.Sentence)
	assert.NotEmpty(t, v.Advice)

	by := map[string]float64{}
	for _, fig := range f.Figures {
		by[fig.Slug] = fig.Amount.SI
	}
	bore := 0.038 // DIN 11850 range 2, DN 40: 41 × 1.5 mm
	speed := float64(in.Flow) * 4 / (math.Pi * bore * bore)
	standing := 1000 * 9.80665 * 2.0 // before the pump: 3 m over a line at 1 m
	rise := float64(surge.Slow(1000, 400.1, q.Velocity(speed), q.Duration(by["surge-closing-time"]*surge.Working)))
	assert.InEpsilon(t, 40e5, rise+standing, 1e-6, "DIN 11851 DN 40 is rated 40 bar (from memory)")

	in.Layout = layout(t, 5)
	f = surge.Check(in)
	require.Len(t, f.Verdicts, 1)
	assert.Equal(t, finding.Sound, f.Verdicts[0].Level)

	in.Flow = 0
	assert.Empty(t, surge.Check(in).Figures, "nothing to stop")
}

// What is stopped is all of the liquid from the tank on, ρ Q ∫ ds/A: 40 mm of
// stub at 60 mm of bore, a cone of 80 mm from 60 to 30 mm, halved by hand into
// slices, and 100 mm of valve at 30 mm (Michaud 1878 over that mass).
func TestStubAndConeAreStopped(t *testing.T) {
	t.Parallel()
	at := func(bore q.Length) route.End {
		return route.End{Half: &catalog.Half{Tube: catalog.Tube{OD: bore + 0.003, Wall: 0.0015}}}
	}
	l := route.Layout{Outlet: at(0.06), Under: []route.Piece{
		{Ref: "under.0", Kind: design.Reducer, In: at(0.06), Out: at(0.03), Length: 0.08, Path: []route.Segment{{Length: 0.08, BoreFrom: 0.06, BoreTo: 0.03}}},
		{Ref: "under.1", Kind: design.Butterfly, In: at(0.03), Out: at(0.03), Length: 0.1, Path: []route.Segment{{Length: 0.1, BoreFrom: 0.03, BoreTo: 0.03}}},
	}}
	along := 0.0 // ∫ ds/A
	area := func(d float64) float64 { return math.Pi / 4 * d * d }
	const slices = 10000
	for i := range slices {
		along += 0.08 / slices / area(0.06-0.03*(float64(i)+0.5)/slices)
	}
	along += 0.04/area(0.06) + 0.1/area(0.03)
	flow := 60 * q.LitrePerMinute
	for _, f := range surge.Check(surge.Input{Layout: l, Stub: 0.04, Density: 1000, Flow: flow, Full: 2}).Figures {
		if f.Slug == "surge-quick" {
			assert.InEpsilon(t, 2*1000*float64(flow)*along/(0.5*0.4), f.Amount.SI, 1e-6)
			return
		}
	}
	assert.Fail(t, "no rise")
}
