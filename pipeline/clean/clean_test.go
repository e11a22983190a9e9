package clean

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vessel"
)

// 1.5 m/s, the least of the Handbook of Hygiene Control in the Food Industry
// (2005) ch. 27, in bores of hygienic tube, in m³/h to three places: worked out
// apart with a calculator.
func TestFlowForTheSpeed(t *testing.T) {
	t.Parallel()
	for bore, want := range map[float64]float64{22.1: 2.071, 26: 2.867, 34.8: 5.136, 38: 6.124, 47.5: 9.569, 50: 10.603,
		60.2: 15.370, 66: 18.474, 72.9: 22.539, 97.4: 40.235, 100: 42.412} {
		flow := Flow(q.Mm(bore), 1.5)
		assert.InDelta(t, want, float64(flow/q.CubicMetrePerHour), 0.0006, "%v mm", bore)
		assert.InDelta(t, 1.5, float64(Speed(q.Mm(bore), flow)), 1e-12, "and back")
	}
}

// At 1.5 m/s in water of 75 °C the Reynolds number is 86 000 in the narrowest
// of those bores and 380 000 in the widest, far over the 10 000 that the same
// book asks (viscosity IAPWS R12-08).
func TestTurbulentEnough(t *testing.T) {
	t.Parallel()
	s := Step{Liquid: liquid.Water(q.Celsius(75))}
	assert.InEpsilon(t, 8.6e4, 1.5*0.0221/s.kinematic(), 0.01)
	assert.InEpsilon(t, 3.8e5, 1.5*0.0974/s.kinematic(), 0.01)
}

// 2 US gal/min for each foot of circumference (Franks & Seiberling 2008,
// p. 162) is 25 L/min for each metre, and wets four tanks with so much; 35 lies
// between the 2.5 and 3 of ASME BPE (from memory). A gallon is 3.785411784 L
// and a foot 0.3048 m, both exact.
func TestSprayFlow(t *testing.T) {
	t.Parallel()
	metric := func(gallons float64) float64 { return gallons * 3.785411784 / 0.3048 }
	each := func(wetting float64) float64 { return q.Flow(wetting).LitresPerMinute() }
	assert.InDelta(t, metric(2), each(LeastWetting), 0.2)
	assert.Greater(t, each(MostWetting), metric(2.5))
	assert.Less(t, each(MostWetting), metric(3))
	for bore, want := range map[float64]float64{0.6: 47.1, 1.0: 78.5, 1.5: 117.8, 2.0: 157.1} {
		assert.InDelta(t, want, Wetting(q.Length(bore), LeastWetting).LitresPerMinute(), 0.05, "%v m", bore)
	}
}

// 25 L/min for each metre of water at 70 °C run down a wall at a film Reynolds
// number 4 Γ/ν of 4038 as a film of 0.375 mm (Nusselt 1916, with the viscosity
// and density of the Python package iapws 1.5.2).
func TestFilm(t *testing.T) {
	t.Parallel()
	s := Step{Liquid: liquid.Water(q.Celsius(70))}
	assert.InEpsilon(t, 4038, 4*LeastWetting/s.kinematic(), 1e-3)
	assert.InEpsilon(t, 0.375e-3, float64(Film(LeastWetting, s.kinematic())), 1e-3)
	assert.Zero(t, Film(-1, 1e-6))
}

// The heat that takes water from one temperature to another is that between
// its enthalpies (iapws 1.5.2, IAPWS97, kJ/kg for each kelvin), within 0.1 %.
func TestHeatCapacity(t *testing.T) {
	t.Parallel()
	for _, mean := range []float64{4.183898, 4.185513, 4.182080, 4.182976} { // 10 to 80, 15 to 90, 10 to 60, 20 to 80 °C
		assert.InEpsilon(t, mean, heatCapacity/1000.0, 1e-3)
	}
}

// A cone between two bores against slices of it, thin enough that the sum is
// within a millionth; two cones that meet hold what the whole does.
func TestFrustum(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0.01, 0.1).Draw(t, "from"), rapid.Float64Range(0.01, 0.1).Draw(t, "to")
		length := rapid.Float64Range(0.001, 3).Draw(t, "length")
		const slices = 1000
		sum := 0.0
		for i := range slices {
			d := a + (b-a)*(float64(i)+0.5)/slices
			sum += math.Pi / 4 * d * d * length / slices
		}
		whole := Frustum(q.Length(a), q.Length(b), q.Length(length))
		assert.InEpsilon(t, sum, float64(whole), 1e-6)
		middle := q.Length(a+b) / 2
		halves := Frustum(q.Length(a), middle, q.Length(length/2)) + Frustum(middle, q.Length(b), q.Length(length/2))
		assert.InEpsilon(t, float64(whole), float64(halves), 1e-12)
	})
	assert.InEpsilon(t, math.Pi/4*0.01, float64(Frustum(0.1, 0.1, 1)), 1e-12, "a tube")
	assert.Zero(t, Frustum(0.1, 0.1, -1))
}

// bench is a wash of one tank without anything about it: a line of 10 L, a
// tank of no wall, so that what a step takes can be told by hand.
func bench(t require.TestingT, steps ...Step) *wash {
	in := &Input{
		Vessel: vessel.Vessel{Bore: 1, Straight: 0, Bottom: vessel.Flat},
		Steps:  steps, Sump: 0.09, Supply: q.Celsius(10), Element: 3000, Rinses: 3, Speed: 1.5,
		Line:  func(liquid.Properties, q.Flow, q.Flow) Run { return Run{} },
		Level: func(liquid.Properties, q.Flow) q.Length { return 0 },
	}
	w := &wash{Input: in, line: 0.01, need: q.Flow(0.1 / 60), spray: q.Flow(0.1 / 60), flow: q.Flow(0.1 / 60), runs: make([]Run, len(steps))}
	require.Zero(t, w.wall)
	return w
}

func step(t require.TestingT, agent string, celsius, strength float64, minutes q.Duration) Step {
	a, ok := catalog.FindAgent(agent)
	require.True(t, ok)
	l, ok := liquid.Of(liquid.Recipe{Kind: agent, Strength: q.Strength(strength)}, q.Celsius(celsius))
	if !ok {
		l = liquid.Water(q.Celsius(celsius))
	}
	return Step{Agent: a, Temperature: q.Celsius(celsius), Strength: q.Fraction(strength), Time: minutes * q.Minute, Liquid: l}
}

// What a programme takes, by hand. A batch is 10 L of line and 90 L of sump:
// 100 L of 2 % caustic at 20 °C weigh 102.07 kg (CRC Handbook, 102nd ed.) and
// hold 2.0414 kg; from 10 °C to 80 °C 100 L of water of 971.80 kg/m³ (IAPWS R7-97)
// take 97.18 × 4.184 × 70 kJ = 7.906 kWh, which 3 kW give in 2 h 38 min. 10 L
// at 100 L/min reside 6 s; a rinse of 1 min is 100 L, ten times the line.
func TestProgrammeByHand(t *testing.T) {
	t.Parallel()
	w := bench(t, step(t, "water", 15, 0, 1), step(t, "caustic", 20, 0.02, 20), step(t, "water", 15, 0, 1), step(t, "phosphoric", 60, 0.01, 10), step(t, "water", 15, 0, 1), step(t, "hot-water", 80, 0, 10))
	p := w.programme()
	require.Len(t, p.Rows, 6)
	names := make([]string, len(p.Rows))
	for i, r := range p.Rows {
		names[i] = r.Name
	}
	assert.Equal(t, []string{"pre-rinse", "caustic", "rinse", "acid", "rinse", "sanitise"}, names)

	rinse, caustic, hot := p.Rows[0], p.Rows[1], p.Rows[5]
	assert.InEpsilon(t, 0.1, float64(rinse.Water), 1e-12)
	assert.InEpsilon(t, 10, rinse.Displaced, 1e-12)
	assert.Zero(t, rinse.Pure)
	assert.InEpsilon(t, 0.1, float64(caustic.Water), 1e-12)
	assert.InEpsilon(t, 2.0414, float64(caustic.Pure), 1e-4)
	assert.InEpsilon(t, 20*60-6, float64(caustic.Contact), 1e-12)
	assert.InEpsilon(t, 97.180*4.184*70/3600, hot.Heat, 1e-4)
	assert.InEpsilon(t, 97.180*4.184*70/3, float64(hot.Warming), 1e-4)
	assert.Equal(t, q.Duration(43*60), p.Totals.Time)
	assert.InEpsilon(t, 0.6, float64(p.Totals.Water), 1e-12)
	require.Len(t, p.Totals.Chemicals, 2)
	assert.Equal(t, "phosphoric acid", p.Totals.Chemicals[1].Name)
}

// Steel takes heat too: 1 m² of 2 mm is 15.8 kg, at 500 J/(kg K) 0.154 kWh for
// 70 K (EN 10088-1; the heat capacity from memory).
func TestSteelIsWarmed(t *testing.T) {
	t.Parallel()
	w := bench(t, step(t, "hot-water", 80, 0, 10))
	bare := w.programme().Rows[0].Heat
	w.steel = 15.8
	assert.InEpsilon(t, 0.1536, w.programme().Rows[0].Heat-bare, 1e-3)
}

// Sums are the sums of their parts, nothing is negative, nothing is in touch
// for longer than the step lasts, and more of a sump never takes less of
// anything.
func TestProgrammeLaws(t *testing.T) {
	t.Parallel()
	agents := catalog.Agents()
	rapid.Check(t, func(t *rapid.T) {
		var steps []Step
		for range rapid.IntRange(1, 8).Draw(t, "steps") {
			a := rapid.SampledFrom(agents).Draw(t, "agent")
			steps = append(steps, step(t, a.Slug, rapid.Float64Range(5, 95).Draw(t, "t"), min(float64(a.Strength), 1)*rapid.Float64Range(0, 2).Draw(t, "w"), q.Duration(rapid.IntRange(1, 60).Draw(t, "minutes"))))
		}
		w := bench(t, steps...)
		w.Sump = q.Volume(rapid.Float64Range(0, 1).Draw(t, "sump"))
		p := w.programme()
		var water q.Volume
		var time q.Duration
		var pure, chemicals q.Mass
		heat := 0.0
		for _, r := range p.Rows {
			assert.GreaterOrEqual(t, float64(r.Water), 0.0)
			assert.GreaterOrEqual(t, r.Heat, 0.0)
			assert.LessOrEqual(t, float64(r.Contact), float64(r.Time))
			water, time, heat, pure = water+r.Water, time+r.Time, heat+r.Heat, pure+r.Pure
		}
		for _, c := range p.Totals.Chemicals {
			chemicals += c.Mass
		}
		assert.InDelta(t, float64(water), float64(p.Totals.Water), 1e-9)
		assert.InDelta(t, float64(time), float64(p.Totals.Time), 1e-9)
		assert.InDelta(t, heat, p.Totals.Heat, 1e-9)
		assert.InDelta(t, float64(pure), float64(chemicals), 1e-9)
		w.Sump += 0.05
		more := w.programme()
		for i := range p.Rows {
			assert.GreaterOrEqual(t, float64(more.Rows[i].Water), float64(p.Rows[i].Water))
			assert.GreaterOrEqual(t, float64(more.Rows[i].Pure), float64(p.Rows[i].Pure))
			assert.GreaterOrEqual(t, more.Rows[i].Heat, p.Rows[i].Heat)
		}
	})
}

// Two chemicals without a rinse between them are told, and hypochlorite beside
// acid with what it gives off.
func TestClashIsTold(t *testing.T) {
	t.Parallel()
	w := bench(t, step(t, "hypochlorite", 15, 0.0002, 10), step(t, "nitric", 60, 0.01, 10), step(t, "water", 15, 0, 1), step(t, "caustic", 80, 0.02, 10))
	r := Result{Programme: w.programme()}
	w.says(&r)
	require.NotEmpty(t, r.Says)
	assert.Contains(t, r.Says[0], "Step 2, acid: there is no rinse")
	assert.Contains(t, r.Says[0], "chlorine, which kills")
	for _, s := range r.Says[1:] {
		assert.NotContains(t, s, "no rinse")
	}
}

// Nothing to wash, nothing to say.
func TestNothingToWash(t *testing.T) {
	t.Parallel()
	assert.Empty(t, Check(Input{}))
}
