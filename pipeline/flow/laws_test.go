package flow_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// aLine draws a line that ends in the open, as a small plant might have it.
func aLine(t *rapid.T) flow.Line {
	bores := []q.Length{0.0221, 0.0260, 0.0348, 0.0475, 0.0602, 0.0729, 0.0974}
	bore := rapid.SampledFrom(bores).Draw(t, "bore")
	line := flow.Line{{Bore: bore, Loss: flow.Entrance(0)}}
	for range rapid.IntRange(1, 15).Draw(t, "pieces") {
		e := flow.Element{Bore: bore}
		switch rapid.IntRange(0, 6).Draw(t, "kind") {
		case 0, 1:
			e.Length, e.Roughness = q.Length(rapid.Float64Range(0.05, 20).Draw(t, "length")), flow.TubeRoughness
		case 2:
			e.Loss = flow.Bend(q.Angle(rapid.Float64Range(0.1, math.Pi).Draw(t, "turn")), rapid.Float64Range(1, 3).Draw(t, "r/D"), bore)
			e.Length, e.Roughness = 0.05, flow.TubeRoughness
		case 3:
			to := rapid.SampledFrom(bores).Draw(t, "to")
			e.Bore = min(bore, to)
			e.Loss = flow.Reducer(bore, to, flow.Included(bore, to, 0.08))
			bore = to
		case 4:
			e.Loss = flow.TeeBranch(bore)
		case 5:
			e.Loss = flow.ButterflyValve(bore, 90*q.Degree)
		case 6:
			e.Length, e.Roughness = q.Length(rapid.Float64Range(0.5, 5).Draw(t, "hose")), flow.HoseRoughness
		}
		line = append(line, e)
	}
	return append(line, flow.Element{Bore: bore, Loss: flow.Exit()})
}

func aLiquid(t *rapid.T) liquid.Properties {
	nu := math.Pow(10, rapid.Float64Range(-6.6, -3.3).Draw(t, "log ν"))
	return newtonian(rapid.Float64Range(900, 1300).Draw(t, "ρ"), nu)
}

func aRate(t *rapid.T, name string) q.Flow {
	return q.Flow(math.Pow(10, rapid.Float64Range(-6, -1.5).Draw(t, name)))
}

// aCurve draws a falling pump curve from no flow.
func aCurve(t *rapid.T) flow.Curve {
	head := rapid.Float64Range(2, 40).Draw(t, "shut-off")
	duties := []flow.Duty{{Head: q.Head(head), Required: 0.4}}
	rate, required := 0.0, 0.4
	for range rapid.IntRange(1, 6).Draw(t, "points") {
		rate += rapid.Float64Range(1e-4, 3e-3).Draw(t, "step")
		head *= rapid.Float64Range(0.3, 0.98).Draw(t, "drop")
		required += rapid.Float64Range(0, 1.5).Draw(t, "rise")
		duties = append(duties, flow.Duty{Flow: q.Flow(rate), Head: q.Head(head), Required: q.Head(required)})
	}
	return flow.NewCurve(duties)
}

// slack allows for rounding where two sums are made in another order.
const slack = 1 + 1e-12

func TestLossLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		line, p, rate := aLine(t), aLiquid(t), aRate(t, "log flow")
		loss := line.Loss(rate, p)
		assert.LessOrEqual(t, loss.Low, loss.High)
		assert.Positive(t, loss.Low)

		more := rate * q.Flow(1+rapid.Float64Range(0, 3).Draw(t, "more"))
		after := line.Loss(more, p)
		assert.LessOrEqual(t, loss.High, after.High*slack, "more flow loses no less")
		assert.LessOrEqual(t, loss.Low, after.High*slack)

		last := line[len(line)-1]
		last.Length, last.Roughness, last.Loss = 1, flow.TubeRoughness, flow.Fitting{}
		assert.Greater(t, append(slices.Clone(line), last).Loss(rate, p).Low, loss.Low, "longer loses more")

		back := slices.Clone(line)
		slices.Reverse(back)
		near(t, float64(loss.High), float64(back.Loss(rate, p).High), 1e-12, "the order does not matter")

		sum := q.Head(0)
		for _, e := range loss.Elements {
			sum += e.Loss
		}
		near(t, float64(sum), float64(loss.High), 1e-12, "the whole is the sum of its elements")

		assert.Zero(t, line.Loss(0, p).High)
		assert.Zero(t, line.Loss(-rate, p).High)
	})
}

// Straight tube alone: longer, thicker liquid or narrower bore loses more.
// Viscosity is moved within one regime or from laminar flow up: in the critical
// zone the higher answer is turbulent.
func TestTubeLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.01, 0.15).Draw(t, "bore")
		length := rapid.Float64Range(0.1, 100).Draw(t, "length")
		p, rate := aLiquid(t), aRate(t, "log flow")
		lose := func(d, length float64, p liquid.Properties) (float64, float64) {
			l := flow.Line{straight(d, length, 2e-6)}.Loss(rate, p)
			return float64(l.High), l.Elements[0].Reynolds
		}
		high, re := lose(d, length, p)
		longer, _ := lose(d, length*2, p)
		near(t, 2*high, longer, 1e-12)

		by := 1 + rapid.Float64Range(0.01, 1).Draw(t, "by")
		thick := p
		thick.Viscosity *= q.Viscosity(by)
		thicker, thickRe := lose(d, length, thick)
		if regime(re) == regime(thickRe) {
			assert.Greater(t, thicker, high, "a thicker liquid loses more")
		}
		narrower, _ := lose(d/by, length, p)
		assert.Greater(t, narrower, high, "a narrower bore loses more")
	})
}

func regime(re float64) bool { return re > flow.LaminarTo }

func TestOperateLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		line, p, curve := aLine(t), aLiquid(t), aCurve(t)
		static := q.Head(rapid.Float64Range(-10, 40).Draw(t, "static"))
		rate, status := flow.Operate(curve, line, static, p)
		head, outside := curve.Head(rate)
		assert.False(t, outside)
		switch status {
		case flow.DeadHeaded:
			assert.Zero(t, rate)
			assert.LessOrEqual(t, head, static)
		case flow.BeyondEnd:
			assert.Equal(t, curve.Last(), rate)
			assert.Greater(t, head, static+line.Loss(rate, p).High)
		case flow.Running:
			// The point lies on both curves; where the system curve jumps, at the
			// edge of the critical zone, it lies in the jump.
			asked := static + line.Loss(rate, p).High
			under := static + line.Loss(rate*(1-1e-9), p).High
			scale := math.Abs(float64(static)) + float64(head)
			assert.LessOrEqual(t, float64(under), float64(head)+1e-7*scale)
			assert.GreaterOrEqual(t, float64(asked), float64(head)-1e-9*scale)
		default:
			t.Fatalf("status %v", status)
		}

		lower, was := flow.Operate(curve, line, static-q.Head(rapid.Float64Range(0, 5).Draw(t, "lower")), p)
		assert.GreaterOrEqual(t, float64(lower)*slack, float64(rate), "less to lift, no less flow")
		if status == flow.BeyondEnd {
			assert.Equal(t, flow.BeyondEnd, was)
		}
	})
}

func TestGravityLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		line, p := aLine(t), aLiquid(t)
		fall := q.Head(rapid.Float64Range(1e-3, 20).Draw(t, "fall"))
		rate := flow.Gravity(line, fall, p)
		assert.Positive(t, rate)
		near(t, 1, math.Min(1, float64(line.Loss(rate, p).High/fall)), 1e-9, "all the fall is lost")
		assert.LessOrEqual(t, float64(line.Loss(rate*(1-1e-9), p).High), float64(fall)*(1+1e-9))
		assert.GreaterOrEqual(t, float64(flow.Gravity(line, fall*1.1, p))*slack, float64(rate), "more fall, no less flow")
		assert.Zero(t, flow.Gravity(line, -fall, p))
		assert.Zero(t, flow.Gravity(line, 0, p))
	})
}

// Torricelli: an opening that loses nothing but its velocity head runs at √2gh (exact).
func TestTorricelli(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.005, 0.2).Draw(t, "bore")
		fall := rapid.Float64Range(0.01, 20).Draw(t, "fall")
		rate := flow.Gravity(flow.Line{{Bore: q.Length(d), Loss: flow.Exit()}}, q.Head(fall), newtonian(1000, 1e-6))
		near(t, math.Sqrt(2*g0*fall)*math.Pi/4*d*d, float64(rate), 1e-12)
	})
	assert.Zero(t, flow.Gravity(nil, 1, newtonian(1000, 1e-6)), "nothing resists, so nothing can be said")
}

// Hagen and Poiseuille: laminar flow in a tube is π g h D⁴/(128 ν L) (exact).
func TestHagenPoiseuille(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.005, 0.1).Draw(t, "bore")
		length := rapid.Float64Range(1, 50).Draw(t, "length")
		nu := rapid.Float64Range(1e-4, 1e-2).Draw(t, "ν")
		re := rapid.Float64Range(1e-3, 1999).Draw(t, "Re")
		rate := re * nu * math.Pi * d / 4
		fall := 128 * nu * length * rate / (math.Pi * g0 * d * d * d * d)
		near(t, rate, float64(flow.Gravity(flow.Line{straight(d, length, 0)}, q.Head(fall), newtonian(1000, nu))), 1e-9)
	})
}

func TestSuctionLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		air := q.Pressure(rapid.Float64Range(6e4, 1.1e5).Draw(t, "air"))
		static := q.Head(rapid.Float64Range(-5, 5).Draw(t, "static"))
		lost := q.Head(rapid.Float64Range(0, 5).Draw(t, "loss"))
		celsius := rapid.Float64Range(1, 95).Draw(t, "°C")
		has := func(celsius float64, static, lost q.Head) float64 {
			w := liquid.Water(q.Celsius(celsius))
			return float64(flow.SuctionAvailable(air, w.VapourPressure, w.Density, static, lost))
		}
		base := has(celsius, static, lost)
		assert.GreaterOrEqual(t, has(celsius, static+0.1, lost), base, "a higher level, no less suction head")
		assert.LessOrEqual(t, has(celsius, static, lost+0.1), base)
		// Vapour pressure always gains more than the density gives back: 10 mm a
		// step at 1 °C, where water still grows heavier, and more from there.
		if boils := liquid.BoilingPoint(air); q.Celsius(celsius+2) < boils {
			assert.Less(t, has(celsius+2, static, lost), base, "hotter, less suction head")
		} else { // an open vessel gets no hotter
			assert.LessOrEqual(t, has(celsius+2, static, lost), base)
		}
		up := q.Length(rapid.Float64Range(1, 500).Draw(t, "up"))
		low, high := liquid.AirPressure(0), liquid.AirPressure(up)
		w := liquid.Water(q.Celsius(celsius))
		assert.LessOrEqual(t, flow.SuctionAvailable(high, w.VapourPressure, w.Density, static, lost),
			flow.SuctionAvailable(low, w.VapourPressure, w.Density, static, lost), "higher, no more")
	})
}

// Whatever goes in, numbers come out.
func TestNothingInfinite(t *testing.T) {
	t.Parallel()
	any := func() *rapid.Generator[float64] {
		return rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 5e-324, math.MaxFloat64, 1, 1e-3}))
	}
	finite := func(t *rapid.T, xs ...float64) {
		for _, x := range xs {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%v among %v", x, xs)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		x := func(name string) float64 { return any().Draw(t, name) }
		bore, other := q.Length(x("bore")), q.Length(x("other"))
		line := flow.Line{
			{Bore: bore, Length: q.Length(x("length")), Roughness: q.Length(x("roughness"))},
			{Bore: bore, Loss: flow.Bend(q.Angle(x("turn")), x("ratio"), bore)},
			{Bore: min(bore, other), Loss: flow.Reducer(bore, other, flow.Included(bore, other, q.Length(x("cone"))))},
			{Bore: bore, Loss: flow.Fitting{Laminar: x("K1"), Turbulent: x("K")}},
			{Bore: bore, Loss: flow.Entrance(q.Angle(x("entrance")))},
		}
		p := liquid.Properties{Density: q.Density(x("ρ")), Viscosity: q.Viscosity(x("μ"))}
		loss := line.Loss(q.Flow(x("flow")), p)
		finite(t, float64(loss.Low), float64(loss.High))
		for _, e := range loss.Elements {
			finite(t, float64(e.Velocity), e.Reynolds, e.Friction.Low, e.Friction.High, e.K, float64(e.LossLow), float64(e.Loss))
		}
		curve := flow.NewCurve([]flow.Duty{
			{Flow: q.Flow(x("Q0")), Head: q.Head(x("H0")), Required: q.Head(x("R0"))},
			{Flow: q.Flow(x("Q1")), Head: q.Head(x("H1")), Required: q.Head(x("R1"))},
			{Flow: q.Flow(x("Q2")), Head: q.Head(x("H2")), Required: q.Head(x("R2"))},
		})
		static := q.Head(x("static"))
		rate, _ := flow.Operate(curve, line, static, p)
		head, _ := curve.Head(rate)
		required, _ := curve.Required(q.Flow(x("at")))
		finite(t, float64(rate), float64(head), float64(required))
		finite(t, float64(flow.Gravity(line, static, p)))
		finite(t, float64(flow.SuctionAvailable(q.Pressure(x("p")), q.Pressure(x("pv")), p.Density, static, loss.High)))
		finite(t, float64(flow.VelocityHead(q.Velocity(x("v")))))
	})
}
