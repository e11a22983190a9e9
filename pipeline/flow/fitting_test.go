package flow_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// Crane TP-410's equations for reducers, as evaluated by python3-fluids 1.0.22
// (contraction_conical_Crane, diffuser_conical_Crane); printed to 6 decimals.
func TestReducerCrane(t *testing.T) {
	t.Parallel()
	for _, row := range []struct{ from, to, degrees, k float64 }{
		{50, 38, 20, 0.058679},
		{50, 38, 60, 0.149341},
		{50, 38, 180, 0.211200},
		{38, 50, 20, 0.080555},
		{38, 50, 60, 0.178422},
		{38, 50, 180, 0.178422},
		{47.5, 34.8, 30, 0.095919},
		{34.8, 47.5, 30, 0.144412},
	} {
		k := flow.Reducer(q.Mm(row.from), q.Mm(row.to), q.Angle(row.degrees)*q.Degree).K(1e5)
		assert.InDelta(t, row.k, k, 0.5e-6, "%v", row)
	}
}

// A sudden enlargement loses (v1 - v2)²/2g: Borda and Carnot, exact.
func TestBordaCarnot(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Float64Range(0.005, 0.2).Draw(t, "small")
		large := small * rapid.Float64Range(1, 5).Draw(t, "ratio")
		rate := rapid.Float64Range(1e-5, 0.05).Draw(t, "flow")
		v1, v2 := rate*4/(math.Pi*small*small), rate*4/(math.Pi*large*large)
		line := flow.Line{{Bore: q.Length(small), Loss: flow.Reducer(q.Length(small), q.Length(large), math.Pi)}}
		loss := float64(line.Loss(q.Flow(rate), newtonian(1000, 1e-6)).High)
		assert.InDelta(t, (v1-v2)*(v1-v2)/(2*g0), loss, 1e-9*(1+v1*v1))
	})
}

// A K on another bore's velocity head is the fourth power of the bores' ratio
// times as large: the same head either way.
func TestBasisOfK(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0.01, 0.2).Draw(t, "a")
		b := rapid.Float64Range(0.01, 0.2).Draw(t, "b")
		k := rapid.Float64Range(0.01, 10).Draw(t, "K")
		p := newtonian(1000, 1e-6)
		one := flow.Line{constant(a, k)}.Loss(1e-3, p).High
		other := flow.Line{constant(b, k*math.Pow(b/a, 4))}.Loss(1e-3, p).High
		near(t, float64(one), float64(other), 1e-12)
	})
}

// Hooper's long-radius 90° bend in a 34.8 mm bore, by python3-fluids 1.0.22
// Hooper2K, printed to 5 decimals.
func TestBendHooper(t *testing.T) {
	t.Parallel()
	bend := flow.Bend(90*q.Degree, 1.5, q.Mm(34.8))
	for re, k := range map[float64]float64{1e2: 8.34598, 1e3: 1.14598, 1e4: 0.42598, 1e5: 0.35398, 1e6: 0.34678} {
		assert.InDelta(t, k, bend.K(re), 0.5e-5, "Re %v", re)
	}
}

// The other fittings' constants as Hooper printed them (Chem. Eng., 24 Aug
// 1981, p. 96), at a bore of 1 in, where K∞ counts twice.
func TestHooperConstants(t *testing.T) {
	t.Parallel()
	inch := q.Inch
	for name, row := range map[string]struct {
		fitting   flow.Fitting
		laminar   float64
		turbulent float64
	}{
		"bend 45°, r/D 1":    {flow.Bend(45*q.Degree, 1, inch), 500, 0.20},
		"bend 45°, r/D 1.5":  {flow.Bend(45*q.Degree, 1.5, inch), 500, 0.15},
		"bend 90°, r/D 1":    {flow.Bend(90*q.Degree, 1, inch), 800, 0.25},
		"bend 180°, r/D 1":   {flow.Bend(180*q.Degree, 1, inch), 1000, 0.35},
		"bend 180°, r/D 1.5": {flow.Bend(180*q.Degree, 1.5, inch), 1000, 0.30},
		"tee, run":           {flow.TeeRun(inch), 150, 0.05},
		"tee, branch":        {flow.TeeBranch(inch), 800, 0.80},
		"butterfly":          {flow.ButterflyValve(inch, 90*q.Degree), 800, 0.25},
		"ball, full bore":    {flow.BallValve(inch, 90*q.Degree), 300, 0.10},
	} {
		near(t, row.laminar, row.fitting.Laminar, 1e-12, name)
		near(t, 2*row.turbulent, row.fitting.Turbulent, 1e-12, name)
	}
}

// Crane TP-410 appendix A: flush sharp entrance 0.5, exit 1.0; and the exit
// loses all the velocity head, once.
func TestEnds(t *testing.T) {
	t.Parallel()
	assert.Equal(t, 0.5, flow.Entrance(0).Turbulent)
	assert.Equal(t, 0.5, flow.Entrance(math.Pi).Turbulent)
	assert.Less(t, flow.Entrance(60*q.Degree).Turbulent, 0.5, "a cone leads in more gently")
	out := flow.Line{{Bore: 0.05, Loss: flow.Exit()}}.Loss(2e-3, newtonian(1000, 1e-6))
	near(t, float64(flow.VelocityHead(out.Elements[0].Velocity)), float64(out.High), 1e-12)
}

func TestIncluded(t *testing.T) {
	t.Parallel()
	// A cone as long as it narrows has a half angle of atan(1/2).
	near(t, 2*math.Atan(0.5), float64(flow.Included(0.05, 0.04, 0.01)), 1e-12)
	near(t, math.Pi, float64(flow.Included(0.05, 0.04, 0)), 1e-12)
	assert.Zero(t, flow.Included(0.05, 0.05, 0.01))
}

func TestBendLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		bore := q.Length(rapid.Float64Range(0.005, 0.2).Draw(t, "bore"))
		ratio := rapid.Float64Range(1, 3).Draw(t, "ratio")
		re := math.Pow(10, rapid.Float64Range(0, 7).Draw(t, "log Re"))
		turn := q.Angle(rapid.Float64Range(0, math.Pi).Draw(t, "turn"))
		more := q.Angle(rapid.Float64Range(0, math.Pi-float64(turn)).Draw(t, "more"))
		k := flow.Bend(turn, ratio, bore).K(re)
		assert.LessOrEqual(t, k, flow.Bend(turn+more, ratio, bore).K(re)*(1+1e-12), "turning more loses more")
		assert.GreaterOrEqual(t, k*(1+1e-12), flow.Bend(turn, ratio+0.5, bore).K(re), "a wider bend loses no more")
	})
	assert.Zero(t, flow.Bend(0, 1.5, 0.05).K(1e5), "a bend that does not turn")
}
