package transfer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
	"drawoff/pipeline/vessel"
)

// plant is a tank that somebody could build over a line that drains it.
type plant struct {
	vessel   vessel.Vessel
	from, to q.Length
	end      q.Head // of the line, under the lowest inside point; negative: over it
	bore     float64
	length   float64
	fittings float64
	liquid   liquid.Properties
}

func anyPlant(t *rapid.T) plant {
	p := plant{
		vessel: vessel.Vessel{
			Bore:      q.Length(rapid.Float64Range(0.3, 4).Draw(t, "tank")),
			Straight:  q.Length(rapid.Float64Range(0.3, 5).Draw(t, "straight")),
			Bottom:    rapid.SampledFrom([]vessel.Bottom{vessel.Cone, vessel.Klopper, vessel.Korbbogen, vessel.Flat}).Draw(t, "bottom"),
			ConeAngle: q.Angle(rapid.Float64Range(40, 150).Draw(t, "cone")) * q.Degree,
		},
		end:      q.Head(rapid.Float64Range(-0.5, 2).Draw(t, "end")),
		bore:     rapid.Float64Range(0.01, 0.1).Draw(t, "bore"),
		length:   rapid.Float64Range(0.1, 30).Draw(t, "length"),
		fittings: rapid.Float64Range(0, 20).Draw(t, "K"),
		liquid:   liquid.Properties{Density: 1050, Viscosity: q.Viscosity(1.05 * math.Pow(10, rapid.Float64Range(-3.2, -0.5).Draw(t, "log ν")))},
	}
	p.from = p.vessel.Brim() * q.Length(rapid.Float64Range(0.3, 1).Draw(t, "from"))
	p.to = p.from * q.Length(rapid.Float64Range(0, 0.95).Draw(t, "to"))
	return p
}

func (p plant) at(level q.Length) transfer.Draw {
	line := flow.Line{
		{Bore: q.Length(p.bore), Length: q.Length(p.length), Roughness: flow.TubeRoughness, Loss: flow.Fitting{Laminar: 800, Turbulent: p.fittings}},
		{Bore: q.Length(p.bore), Loss: flow.Exit()},
	}
	return transfer.Draw{Flow: flow.Gravity(line, q.Head(level)+p.end, p.liquid)}
}

func (p plant) run() transfer.Result {
	return transfer.Run(transfer.Input{Vessel: p.vessel, From: p.from, To: p.to, At: p.at, Bore: q.Length(p.bore)})
}

// The level never rises, nor does the flow; time runs on; and what ran
// through the line between two moments is what left the tank: no more than at
// the flow before, no less than at the flow after. So the area under the curve
// of flow against time is the volume drawn off.
func TestVolumeUnderTheCurve(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlant(t)
		r := p.run()
		if len(r.Curve) == 0 {
			require.True(t, r.Stops)
			return
		}
		assert.InEpsilon(t, float64(p.from), float64(r.Curve[0].Level), 1e-12)
		assert.InEpsilon(t, float64(p.vessel.VolumeAt(p.from)), float64(r.Curve[0].Left), 1e-12)
		hair := 1e-4 * float64(r.End().Time) // the error that the method allows itself, and more
		least, most := 0.0, 0.0
		for i := 1; i < len(r.Curve); i++ {
			a, b := r.Curve[i-1], r.Curve[i]
			assert.LessOrEqual(t, b.Level, a.Level)
			assert.LessOrEqual(t, float64(b.Flow), float64(a.Flow)*(1+1e-9))
			assert.GreaterOrEqual(t, b.Time, a.Time)
			dt := float64(b.Time - a.Time)
			least += float64(b.Flow) * dt
			most += float64(a.Flow) * dt
			assert.LessOrEqual(t, float64(b.Flow)*(dt-hair), float64(a.Left-b.Left))
			assert.GreaterOrEqual(t, float64(a.Flow)*(dt+hair), float64(a.Left-b.Left))
		}
		drawn := float64(r.Curve[0].Left - r.End().Left)
		assert.LessOrEqual(t, least, drawn*(1+1e-4))
		assert.GreaterOrEqual(t, most, drawn*(1-1e-4))
		if r.Stops {
			assert.InDelta(t, float64(-p.end), float64(r.Rest), 1e-6, "it dies where the level meets the outflow")
		} else {
			assert.InDelta(t, float64(p.to), float64(r.End().Level), 1e-9)
		}
	})
}

// A wider line never empties the tank more slowly.
func TestWiderIsNeverSlower(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlant(t)
		narrow := p.run()
		p.bore *= rapid.Float64Range(1, 2).Draw(t, "wider by")
		wide := p.run()
		assert.LessOrEqual(t, float64(wide.End().Time), float64(narrow.End().Time)*(1+1e-4))
	})
}

// By Torricelli a cylinder takes 1 - 1/√2 of its time to empty for the upper
// half of its liquid, whatever its size and the opening's.
func TestHalvesOfACylinder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		tank := cylinder(rapid.Float64Range(0.1, 5).Draw(t, "bore"))
		at := orifice(circle(rapid.Float64Range(0.002, 0.1).Draw(t, "opening")))
		full := q.Length(rapid.Float64Range(0.1, 10).Draw(t, "full"))
		whole := seconds(t, transfer.Input{Vessel: tank, From: full, At: at})
		upper := seconds(t, transfer.Input{Vessel: tank, From: full, To: full / 2, At: at})
		assert.InEpsilon(t, 1-1/math.Sqrt2, upper/whole, 1e-4)
	})
}

// Whatever it is asked, no number comes out that is not one.
func TestNoNonsense(t *testing.T) {
	t.Parallel()
	odd := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e300, 1e-300, 1}
	for _, a := range odd {
		for _, b := range odd {
			for _, c := range odd {
				r := transfer.Run(transfer.Input{
					Vessel: vessel.Vessel{Bore: q.Length(c), Straight: 1, Bottom: vessel.Flat},
					From:   q.Length(a), To: q.Length(b), Bore: q.Length(c),
					At: func(level q.Length) transfer.Draw { return transfer.Draw{Flow: q.Flow(min(c, 10))} },
				})
				for _, m := range append(r.Curve, r.Air) {
					for _, x := range []float64{float64(m.Time), float64(m.Left), float64(m.Flow)} {
						assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "from %v to %v with %v: %+v", a, b, c, m)
					}
				}
			}
		}
	}
}

func BenchmarkRun(b *testing.B) {
	v := vessel.Vessel{Bore: 0.96, Straight: 1.2, Bottom: vessel.Cone, ConeAngle: 75 * q.Degree, Opening: 0.06}
	in := transfer.Input{Vessel: v, From: 1.5, To: 0.05, At: orifice(circle(0.03)), Bore: 0.06}
	b.ReportAllocs()
	for b.Loop() {
		transfer.Run(in)
	}
}
