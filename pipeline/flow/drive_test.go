package flow_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// Crane TP-410 example 7.33: 400 US gal/min, 126 ft and 17.5 hp at 3500 rpm are
// 194.286 US gal/min, 29.7257 ft and 2.00531 hp at 1700 rpm, through the
// curve and the power that a user sees.
func TestCrane733(t *testing.T) {
	t.Parallel()
	const gpm = usGal / 60
	pump := flow.Pump{
		Duties: []flow.Duty{{Head: 150 * foot, Efficiency: 0.5}, {Flow: 400 * gpm, Head: 126 * foot, Efficiency: 0.7}, {Flow: 600 * gpm, Head: 90 * foot, Efficiency: 0.6}},
		Rated:  3500 * q.RPM, Speed: 1700 * q.RPM,
	}
	water := newtonian(998.2, 1e-6)
	rate := q.Flow(194.286 * gpm)
	slow := pump.Run(water)
	head, outside := slow.Head(rate)
	assert.False(t, outside)
	near(t, 29.7257, float64(head)/foot, 3e-6, "six digits")
	shaft := func(c flow.Curve, rate q.Flow, head q.Head) float64 {
		e, assumed := c.Efficiency(rate, head)
		assert.False(t, assumed)
		return float64(flow.HydraulicPower(998.2, rate, head)) / float64(e)
	}
	pump.Speed = 0
	fast := shaft(pump.Run(water), 400*gpm, 126*foot)
	near(t, 2.00531/17.5, shaft(slow, rate, head)/fast, 6e-6)
}

// 2900 to 2400 rpm: 0.827586 of the flow, 0.684899 of the head, 0.566813 of the
// power (2400/2900 and its powers, exact).
func TestAffinity(t *testing.T) {
	t.Parallel()
	water := newtonian(998.2, 1e-6)
	is, was := perryPump(2900, 2400).Run(water), perryPump(2900, 2900).Run(water)
	near(t, 0.827586, float64(is.Last()/was.Last()), 1e-6)
	for i, d := range is.Duties() {
		near(t, 0.684899, float64(d.Head/was.Duties()[i].Head), 1e-6)
		near(t, 0.684899, float64(d.Required/was.Duties()[i].Required), 1e-6)
		if d.Flow > 0 {
			before := was.Duties()[i]
			near(t, 0.566813, float64(flow.HydraulicPower(998.2, d.Flow, d.Head)/flow.HydraulicPower(998.2, before.Flow, before.Head)), 1e-6)
		}
	}
	// From nothing to anything and back by the two ways there are.
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(0.2, 3).Draw(t, "a"), rapid.Float64Range(0.2, 3).Draw(t, "b")
		duties := aCurve(t).Duties()
		twice, once := flow.Affinity(flow.Affinity(duties, a), b), flow.Affinity(duties, a*b)
		for i := range once {
			assert.InDelta(t, float64(once[i].Flow), float64(twice[i].Flow), 1e-12)
			near(t, float64(once[i].Head), float64(twice[i].Head), 1e-12)
			near(t, float64(once[i].Required), float64(twice[i].Required), 1e-12)
		}
	})
}

// A pump that turns faster never moves less: centrifugal or positive.
func TestFasterMovesNoLess(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		line, p := aLine(t), aLiquid(t)
		static := q.Head(rapid.Float64Range(-5, 20).Draw(t, "static"))
		pump := flow.Pump{Duties: aCurve(t).Duties(), Rated: 2900 * q.RPM}
		if rapid.Bool().Draw(t, "positive") {
			pump = lobePump(300, 300)
		}
		at := func(ratio float64) (q.Flow, flow.Status) {
			pump.Speed = pump.Rated * q.Rotation(ratio)
			return flow.Operate(pump.Run(p), line, static, p)
		}
		ratio := rapid.Float64Range(0.3, 1.5).Draw(t, "ratio")
		slow, was := at(ratio)
		fast, is := at(ratio * rapid.Float64Range(1, 1.5).Draw(t, "faster"))
		if was == flow.TooThick || is == flow.OverPressure || is == flow.TooThick {
			return // nothing is claimed of it
		}
		if was == flow.BeyondEnd && is == flow.Running {
			return // the last point of the slower one is the most that was claimed of it
		}
		assert.GreaterOrEqual(t, float64(fast)*(1+1e-9), float64(slow))
	})
}

// The worked example of ANSI/HI 9.6.7-2010 (from memory): 110 m³/h, 77 m, 68 % at 2950 rpm in
// water; a liquid of 120 mm²/s and 0.90. Printed B 5.50, recomputed 5.5208; CQ
// 0.9378, Cη 0.7380: 103.2 m³/h, 72.2 m, 50.2 %, 36.40 kW. CH at 0.6, 0.8 and 1.2
// of the best flow 0.9576, 0.9474, 0.9286.
func TestThickExample(t *testing.T) {
	t.Parallel()
	const best = 110 * q.CubicMetrePerHour
	pump := flow.Pump{Rated: 2950 * q.RPM}
	for _, d := range [][3]float64{{0, 90, 0.1}, {0.6, 85, 0.55}, {0.8, 82, 0.64}, {1, 77, 0.68}, {1.2, 70, 0.64}} {
		pump.Duties = append(pump.Duties, flow.Duty{Flow: q.Flow(d[0]) * best, Head: q.Head(d[1]), Efficiency: q.Fraction(d[2])})
	}
	oil := newtonian(900, 120e-6)
	c := pump.Run(oil)
	k := c.Thick()
	assert.False(t, k.BestAssumed || k.SpeedAssumed || k.Beyond || k.Refused())
	near(t, 1, float64(k.Best.Flow/best), 0.02, "the peak of the curve through five points")
	exact := flow.Correct(120e-6, flow.Duty{Flow: best, Head: 77}, 2950*q.RPM)
	near(t, 5.5208, exact.B, 1e-5)
	near(t, 5.50, exact.B, 0.005, "as printed")
	assert.InDelta(t, 0.9378, exact.Flow, 5e-5)
	assert.InDelta(t, 0.7380, exact.Efficiency, 5e-5)
	near(t, exact.B, k.B, 0.01)
	for part, want := range map[float64]float64{0.6: 0.9576, 0.8: 0.9474, 1: 0.9378, 1.2: 0.9286} {
		assert.InDelta(t, want, exact.Head(part), 5e-5)
	}
	// What the user's curve gives.
	rate := q.Flow(103.2) * q.CubicMetrePerHour
	head, outside := c.Head(rate)
	assert.False(t, outside)
	near(t, 72.2, float64(head), 0.002, "the best point of the spline is not just at the point typed")
	e, _ := c.Efficiency(rate, head)
	near(t, 0.502, float64(e), 0.005)
	near(t, 36.40e3, float64(flow.HydraulicPower(900, rate, head))/float64(e), 0.005)
}

func TestCorrectionLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		best := flow.Duty{Flow: aRate(t, "best"), Head: q.Head(rapid.Float64Range(0.5, 150).Draw(t, "head"))}
		speed := q.Rotation(rapid.Float64Range(0, 60).Draw(t, "speed"))
		nu := math.Pow(10, rapid.Float64Range(-6.5, -1).Draw(t, "log ν"))
		k := flow.Correct(nu, best, speed)
		part := rapid.Float64Range(0, 1.5).Draw(t, "part")
		for _, factor := range []float64{k.Flow, k.Efficiency, k.Head(part)} {
			assert.Positive(t, factor)
			assert.LessOrEqual(t, factor, 1.0)
		}
		if k.B <= 1 {
			assert.Equal(t, 1.0, k.Flow)
			assert.Equal(t, 1.0, k.Efficiency)
		}
		assert.Equal(t, k.B >= 40, k.Refused())
		thicker := flow.Correct(nu*1.5, best, speed)
		if !thicker.Refused() {
			assert.LessOrEqual(t, thicker.Flow, k.Flow)
			assert.LessOrEqual(t, thicker.Efficiency, k.Efficiency)
		}
	})
	// Clean cold water, to 1.5 mm²/s (ISO 9906, from memory), takes nothing off.
	c := perryPump(2900, 2900).Run(newtonian(1000, 1.5e-6))
	assert.Equal(t, perry().Curve.Duties(), c.Duties())
	assert.Zero(t, c.Thick().B)
	rate, status := flow.Operate(perryPump(2900, 2900).Run(newtonian(1000, 1e-2)), flow.Line{{Bore: 0.04, Loss: flow.Exit()}}, 1, newtonian(1000, 1e-2))
	assert.Equal(t, flow.TooThick, status)
	assert.Zero(t, rate)
}

// A positive pump goes through the points of its sheet at its speed, whatever
// the liquid weighs; at another it pushes out in proportion and slips as much (definition).
func TestPositive(t *testing.T) {
	t.Parallel()
	for _, rho := range []float64{790, 998.2, 1330} {
		p := newtonian(rho, 1e-5)
		for _, speed := range []float64{150, 300, 600} {
			c := lobePump(300, speed).Run(p)
			for _, row := range [][2]float64{{0, 60}, {2e5, 54}, {4e5, 50}} {
				want := row[1] + 60*(speed/300-1)
				// A line that asks just that pressure: all of it static.
				static := q.Head(row[0] / (rho * g0))
				rate, status := flow.Operate(c, flow.Line{{Bore: 10, Loss: flow.Exit()}}, static+1e-9, p)
				if row[0] == 4e5 {
					assert.Equal(t, flow.OverPressure, status)
					continue
				}
				require.Equal(t, flow.Running, status)
				near(t, want, rate.LitresPerMinute(), 1e-6)
				back, _ := c.Head(rate)
				assert.InDelta(t, float64(static), float64(back), 1e-3)
			}
		}
	}
	// Three litres in fifteen turns are 200 mL a turn.
	r := flow.Check(func() flow.Input {
		in := perry()
		in.Pump = lobePump(300, 300)
		in.Curve = in.Pump.Run(in.Liquid)
		return in
	}())
	near(t, 0.2e-3, figure(t, r, "displacement"), 1e-12)
	for _, pt := range r.Points {
		assert.InDelta(t, float64(pt.Head), float64(pt.Static+pt.SuctionLoss+pt.DeliveryLoss), 1e-9, "the energy equation closes")
	}
	// A sheet that begins over no pressure goes back to it in a straight line.
	late := lobePump(300, 300)
	late.Duties = late.Duties[1:]
	near(t, 58, late.Run(newtonian(1000, 1e-6)).Last().LitresPerMinute(), 1e-12)
}

// A throttle of the Kv shown, put into the delivery, lets the wanted flow
// through; so does the speed shown, with everything open.
func TestWantedFlowIsMet(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		line, p := aLine(t), aLiquid(t)
		static := q.Head(rapid.Float64Range(-2, 10).Draw(t, "static"))
		c := aCurve(t)
		open, status := flow.Operate(c, line, static, p)
		if status != flow.Running && status != flow.BeyondEnd {
			return
		}
		want := open * q.Flow(rapid.Float64Range(0.2, 0.95).Draw(t, "part"))
		asked := static + line.Loss(want, p).High
		head, _ := c.Head(want)
		if burn := head - asked; burn > 0.01 {
			// IEC 60534-2-1: the throttle loses (Q/Kv)² bar of water at 1000 kg/m³.
			kv := flow.Kv(want, burn)
			const bore = 0.02
			speed := 4 / (math.Pi * bore * bore)
			perQ2 := 1e5 / (1000 * g0) * 3600 * 3600 / (kv * kv)
			throttle := constant(bore, perQ2*2*g0/(speed*speed))
			through := flow.Line{throttle}.Loss(want, p).High
			near(t, float64(burn), float64(through), 1e-9)
			got, _ := flow.Operate(c, append(append(flow.Line{}, line...), throttle), static, p)
			near(t, float64(want), float64(got), 1e-3)
		}
		if ratio, ok := c.SpeedFor(want, asked); ok && asked >= 0 {
			slow := flow.NewCurve(flow.Affinity(c.Duties(), ratio))
			got, _ := slow.Head(want)
			assert.InDelta(t, float64(asked), float64(got), 1e-6*(1+float64(asked)))
		}
		lobe := lobePump(300, 300)
		slip := lobe.Run(p)
		if ratio, ok := slip.SpeedFor(want, max(0, asked)); ok {
			lobe.Speed = lobe.Rated * q.Rotation(ratio)
			got, status := flow.Operate(lobe.Run(p), line, static, p)
			if status == flow.Running {
				near(t, float64(want), float64(got), 1e-3)
			}
		}
	})
}

// And so it is through Check: the throttle of its figures set into the plant.
func TestWantedFlowFigures(t *testing.T) {
	t.Parallel()
	in := perry()
	in.Wanted = 40 * q.LitrePerMinute
	in.Pump = perryPump(2900, 2900)
	r := flow.Check(in)
	for _, pt := range r.Points {
		slug := pt.Level.Slug
		burn := figure(t, r, "throttle-head-"+slug)
		assert.InDelta(t, 2.4/math.Sqrt(burn*1000*g0/1e5), figure(t, r, "throttle-kv-"+slug), 1e-9, "2.4 m³/h")
		slowed := in
		slowed.Pump.Speed = q.Rotation(figure(t, r, "speed-for-flow-"+slug))
		slowed.Curve = slowed.Pump.Run(in.Liquid)
		slowed.Levels = []flow.Level{pt.Level}
		near(t, 40, flow.Check(slowed).Points[0].Flow.LitresPerMinute(), 1e-3)
	}
}

// Outputs of IEC 60072-1 and the margin of ISO 13709, from memory.
func TestMotor(t *testing.T) {
	t.Parallel()
	for shaft, want := range map[q.Power]q.Power{40: 60, 60: 90, 178: 250, 440: 550, 441: 750, 1000: 1500, 3000: 4000, 17600: 22e3, 25e3: 30e3} {
		output, least, ok := flow.Motor(shaft)
		assert.True(t, ok)
		assert.Equal(t, want, output, "%v W", shaft)
		assert.GreaterOrEqual(t, output, least)
	}
	_, _, ok := flow.Motor(1e6)
	assert.False(t, ok)
}

// Crane TP-410 example 7.15: 421 ft, 100 US gal/min of water at 70 °F, 70 %: 15.2 hp.
func TestCrane715Power(t *testing.T) {
	t.Parallel()
	const hp = 550 * 4.4482216152605 * foot
	power := float64(flow.HydraulicPower(62.298*poundFt, 100*usGal/60, 421*foot)) / 0.7
	assert.InDelta(t, 15.2, power/hp, 0.05)
}

// Water at sea level is drawn as high as stated, 10.35 m at the very most at 20 °C
// (ISO 2533 air over IAPWS vapour: 0.239 m less than 10.351 m), and thin air or
// a hot liquid takes some of it.
func TestDryLift(t *testing.T) {
	t.Parallel()
	cold := liquid.Water(q.Celsius(20))
	near(t, 5, float64(flow.DryLift(5, 101325, cold.VapourPressure, cold.Density)), 1e-4)
	near(t, 10.351-0.239, float64(flow.DryLift(20, 101325, cold.VapourPressure, cold.Density)), 1e-4)
	near(t, 5*79501.0/101325, float64(flow.DryLift(5, 79501, cold.VapourPressure, cold.Density)), 1e-4)
	rapid.Check(t, func(t *rapid.T) {
		stated := q.Head(rapid.Float64Range(0, 9).Draw(t, "stated"))
		air := q.Pressure(rapid.Float64Range(5e4, 1.05e5).Draw(t, "air"))
		celsius := rapid.Float64Range(1, 90).Draw(t, "°C")
		at := func(celsius float64, air q.Pressure) float64 {
			w := liquid.Water(q.Celsius(celsius))
			return float64(flow.DryLift(stated, air, w.VapourPressure, w.Density))
		}
		base := at(celsius, air)
		assert.GreaterOrEqual(t, base, 0.0)
		assert.LessOrEqual(t, at(celsius, air*0.9), base)
		// Warm, the liquid is lighter by up to 4 %, which lifts it that much higher as long as it does not boil.
		assert.LessOrEqual(t, at(celsius+5, air), base*1.05)
	})
}

// What Reserves finds is the edge: on this side of it the margin holds in a
// Check of its own, beyond it does not.
func TestReserves(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := perry()
		in.Temperature = q.Celsius(rapid.Float64Range(5, 97).Draw(t, "°C"))
		in.Liquid = liquid.Water(in.Temperature)
		in.Pump = perryPump(2900, rapid.Float64Range(2200, 3200).Draw(t, "rpm"))
		in.Curve = in.Pump.Run(in.Liquid)
		in.Foot = 0.9
		r := flow.Reserves(in)
		require.Len(t, r.Points, 17)
		for _, f := range r.Figures {
			assert.NotEmpty(t, f.Source, f.Slug)
		}
		margins := func(in flow.Input) (least q.Head, known bool) {
			least, known = 1e9, true
			for i, pt := range flow.Check(in).Points {
				if i != 1 {
					known = known && pt.SuctionKnown
					least = min(least, pt.Margin)
				}
			}
			return
		}
		if r.Hottest > 0 {
			for _, by := range []q.Temperature{-0.01, 0.01} {
				other := in
				other.Temperature += r.Hottest - in.Temperature + by
				other.Liquid = liquid.Water(other.Temperature)
				other.Curve = other.Pump.Run(other.Liquid)
				least, known := margins(other)
				assert.Equal(t, by < 0, known && least >= 0, "%v K from the hottest", by)
			}
		}
		if r.RunsOut > 0 {
			for _, by := range []q.Length{-1e-4, 1e-4} {
				other := in
				other.Levels = []flow.Level{{Height: r.RunsOut + by}}
				pt := flow.Check(other).Points[0]
				assert.Equal(t, by > 0, pt.Margin >= 0)
			}
		}
		if r.Greatest > 0 && r.Greatest < in.Curve.Last() {
			low := in.Levels[2]
			for _, part := range []q.Flow{1 - 1e-5, 1 + 1e-5} {
				required, _ := in.Curve.Required(r.Greatest * part)
				lost := suctionLoss(in, r.Greatest*part)
				has := flow.SuctionAvailable(in.Air, in.Liquid.VapourPressure, in.Liquid.Density, q.Head(low.Height)-0.5, lost)
				assert.Equal(t, part < 1, has >= in.Limits.Need(required))
			}
		}
	})
	assert.Empty(t, flow.Reserves(byGravity(perry(), 0.3)).Says)
	assert.Empty(t, flow.Reserves(flow.Input{}).Points)
}

// suctionLoss is what the suction line of in loses at a flow: by a gravity
// plant that ends where the pump would stand, less its outflow.
func suctionLoss(in flow.Input, rate q.Flow) q.Head {
	in.Curve = flow.NewCurve([]flow.Duty{{Head: 1e3}, {Flow: rate, Head: 1e3 - 1e-6}})
	in.Pump = flow.Pump{}
	in.Levels = in.Levels[:1]
	pt := flow.Check(in).Points[0] // its line asks far less, so it runs at the last point
	return pt.SuctionMost
}

// More flow leaves no more suction head (with temperature and altitude: TestSuctionLaws).
func TestSuctionHeadFallsWithFlow(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := perry()
		rate := aRate(t, "flow")
		more := rate * q.Flow(1+rapid.Float64Range(0.01, 1).Draw(t, "more"))
		has := func(rate q.Flow) q.Head {
			return flow.SuctionAvailable(in.Air, in.Liquid.VapourPressure, in.Liquid.Density, 1, suctionLoss(in, rate))
		}
		assert.LessOrEqual(t, has(more), has(rate))
	})
}

// The liquid that a positive pump is judged in, and its cautions.
func TestPositiveCautions(t *testing.T) {
	t.Parallel()
	in := perry()
	in.Pump = lobePump(300, 300)
	in.Curve = in.Pump.Run(in.Liquid)
	v := verdict(t, flow.Check(in), "relief-valve")
	assert.Equal(t, finding.Look, v.Level)
	assert.Contains(t, v.Advice, "relief valve")
	in.Pump = flow.Pump{}
	in.Curve = perry().Curve
	assert.False(t, hasRule(flow.Check(in), "relief-valve"))
}
