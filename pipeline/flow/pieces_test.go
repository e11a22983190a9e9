package flow_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

func said[Q q.Quantity](text string) q.Entered[Q] { return q.MustParse[Q](text) }

// A device loses what its sheet says at every point (definition), nothing at
// no flow, never less at more flow, and beyond the last point four times at twice the flow.
func TestDrops(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var points []flow.Drop
		rate, drop := 0.0, 0.0
		for range rapid.IntRange(1, 6).Draw(t, "points") {
			rate += rapid.Float64Range(1e-5, 1e-3).Draw(t, "flow")
			drop += rapid.Float64Range(0, 1e5).Draw(t, "drop")
			points = append(points, flow.Drop{Flow: q.Flow(rate), Drop: q.Pressure(drop)})
		}
		d := flow.NewDrops(points, 1000)
		for _, p := range points {
			assert.InDelta(t, float64(p.Drop)/(1000*g0), float64(d.Head(p.Flow)), 1e-9)
			assert.False(t, d.Beyond(p.Flow))
		}
		assert.Zero(t, d.Head(0))
		a := q.Flow(rapid.Float64Range(0, 2*rate).Draw(t, "a"))
		b := q.Flow(rapid.Float64Range(0, 2*rate).Draw(t, "b"))
		assert.LessOrEqual(t, d.Head(min(a, b)), d.Head(max(a, b))+1e-12)
		assert.True(t, d.Beyond(q.Flow(rate*1.01)))
		assert.InDelta(t, 4*float64(d.Head(q.Flow(rate))), float64(d.Head(q.Flow(2*rate))), 1e-9)
	})
	assert.Zero(t, flow.NewDrops(nil, 1000).Head(1), "no points, no drop")
	assert.False(t, math.IsNaN(float64(flow.NewDrops([]flow.Drop{{Flow: q.Flow(math.NaN()), Drop: 1}}, 1000).Head(1))))
}

// device is the perry plant with its hose made a plate cooler.
func device(drops []design.DropPoint, kv string) flow.Input {
	in := perry()
	p := &in.Layout.Run[4]
	p.Kind, p.Said = design.Device, &design.Piece{Kind: design.Device, Drops: drops}
	if kv != "" {
		p.Said.Kv = said[q.Number](kv)
	}
	return in
}

func TestDeviceInALine(t *testing.T) {
	t.Parallel()
	points := []design.DropPoint{
		{Flow: said[q.Flow]("30 L/min"), Drop: said[q.Pressure]("5 kPa")},
		{Flow: said[q.Flow]("60 L/min"), Drop: said[q.Pressure]("20 kPa")},
	}
	r := flow.Check(device(points, "0.5"))
	p, ok := r.Piece("run.4")
	require.True(t, ok)
	near(t, float64(flow.NewDrops([]flow.Drop{{Flow: 30 * q.LitrePerMinute, Drop: 5000}, {Flow: 60 * q.LitrePerMinute, Drop: 20000}}, 1000).Head(r.Points[0].Flow)), float64(p.Loss), 1e-9, "points count before Kv")
	pt := r.Points[0]
	near(t, float64(pt.Head), float64(pt.Static+pt.SuctionLoss+pt.DeliveryLoss), 1e-9, "the energy equation closes")
	if pt.Flow > 60*q.LitrePerMinute {
		assert.Equal(t, finding.Look, verdict(t, r, "device-range").Level)
	}
	few := flow.Check(device(points[:1], ""))
	assert.Equal(t, finding.Look, verdict(t, few, "device-range").Level, "one point at 30 L/min is soon passed")

	// By Kv alone: 10 m³/h at 1 bar (IEC 60534-1, from memory), on the liquid's density.
	r = flow.Check(device(nil, "10"))
	p, _ = r.Piece("run.4")
	cubic := float64(r.Points[0].Flow) * 3600
	near(t, 1e5/(1000*g0)*math.Pow(cubic/10, 2), float64(p.Loss), 1e-9)
}

// tee returns the perry plant with the tee in its run splitting off share.
func tee(share string) flow.Input {
	in := perry()
	in.Layout.Run[1].Said = &design.Piece{Kind: design.Tee, Share: said[q.Fraction](share)}
	return in
}

// What is drawn off before the pump has flowed through the tank's outlet: with
// 20 % drawn off the tank gives 1/0.8 of what the pump takes, with 20 % joining
// 0.8 of it (continuity). The pieces between tee and pump carry the pump's flow.
func TestSplitBeforeThePump(t *testing.T) {
	t.Parallel()
	for share, drawn := range map[string]float64{"20 %": 1.25, "-20 %": 0.8, "0 %": 1} {
		r := flow.Check(tee(share))
		near(t, drawn, r.Drawn, 1e-12, share)
		area := math.Pi / 4 * 0.0348 * 0.0348
		before, _ := r.Piece("run.0")
		after, _ := r.Piece("run.2")
		near(t, drawn*float64(r.Points[0].Flow)/area, float64(before.Velocity), 1e-12, share)
		near(t, float64(r.Points[0].Flow)/area, float64(after.Velocity), 1e-12, share)
		pt := r.Points[0]
		near(t, float64(pt.Head), float64(pt.Static+pt.SuctionLoss+pt.DeliveryLoss), 1e-9, "the energy equation closes")
		if drawn == 1 {
			continue
		}
		// What passes the third port makes up the difference.
		near(t, math.Abs(drawn-1)*float64(pt.Flow), figure(t, r, "split-run-1"), 1e-12)
	}
}

// Behind the pump, and by gravity, the line after the tee carries the rest.
func TestSplitAfter(t *testing.T) {
	t.Parallel()
	in := perry()
	in.Layout.Delivery[4].Said = &design.Piece{Kind: design.Tee, Share: said[q.Fraction]("30 %")}
	for _, in := range []flow.Input{in, byGravity(in, 0.4)} {
		r := flow.Check(in)
		assert.Equal(t, 1.0, r.Drawn)
		before, _ := r.Piece("delivery.pieces.3")
		after, _ := r.Piece("delivery.pieces.5")
		near(t, 0.7*float64(before.Velocity), float64(after.Velocity), 1e-12)
		end, _ := r.Piece("delivery")
		near(t, float64(after.Velocity), float64(end.Velocity), 1e-12)
	}
}

// A joint whose bores do not match loses as a sudden step (Crane TP-410), once,
// as a part of the piece before it.
func TestStepAtAJoint(t *testing.T) {
	t.Parallel()
	in := perry()
	in.Layout.Run[2] = pieceOf("run.2", design.Straight, 0.038, 0.038, ahead, ahead, 0.58)
	in.Layout.Run[2].Length = 0.6
	r := flow.Check(in)
	require.Len(t, r.Pieces, 15+2, "no piece more")
	rate, p := r.Points[0].Flow, in.Liquid
	room := 1 - math.Pow(0.0348/0.038, 2)
	one := func(e flow.Element) float64 { return float64(flow.Line{e}.Loss(rate, p).High) }
	tee, _ := r.Piece("run.1")
	near(t, one(flow.Element{Bore: 0.0348, Loss: flow.TeeRun(0.0348)})+one(constant(0.0348, room*room)), float64(tee.Loss), 1e-9)
	wide, _ := r.Piece("run.2")
	near(t, one(straight(0.038, 0.6, float64(flow.TubeRoughness)))+one(constant(0.0348, 0.5*room)), float64(wide.Loss), 1e-9)

	// At the pump's inlet too.
	in = perry()
	in.Layout.PumpIn = end(0.0475, 3, 0.5, ahead)
	last, _ := flow.Check(in).Piece("run.5")
	before, _ := flow.Check(perry()).Piece("run.5")
	assert.Greater(t, last.Loss, before.Loss)
}

// The stub of the tank is a straight of the outlet's bore.
func TestStubCounts(t *testing.T) {
	t.Parallel()
	in := perry()
	in.Stub = 0.3
	r := flow.Check(in)
	p, _ := r.Piece("tank")
	want := flow.Line{{Bore: 0.0602, Length: 0.3, Roughness: flow.TubeRoughness, Loss: flow.Entrance(0)}}.Loss(r.Points[0].Flow, in.Liquid)
	near(t, float64(want.High), float64(p.Loss), 1e-12)
}

// A non-return valve wants 45/√ρ m/s to stand open (Crane TP-410 appendix A).
func TestNonReturnOpens(t *testing.T) {
	t.Parallel()
	in := perry()
	in.Layout.Delivery[0].Kind = "non-return-valve"
	r := flow.Check(in)
	v := verdict(t, r, "non-return-opens")
	slow := r.Points[2].Flow
	open := float64(slow)/(math.Pi/4*0.0348*0.0348) >= 45/math.Sqrt(float64(in.Liquid.Density))
	assert.Equal(t, open, v.Level == finding.Sound)
}

// A valve half shut, a rough hose, a rough finish: each loses more and lets less flow.
func TestWhatTheUserSays(t *testing.T) {
	t.Parallel()
	base := flow.Check(perry())
	less := func(name string, change func(*flow.Input)) {
		in := perry()
		change(&in)
		r := flow.Check(in)
		assert.Less(t, r.Points[0].Flow, base.Points[0].Flow, name)
	}
	say := func(p *route.Piece, s design.Piece) { s.Kind = p.Kind; p.Said = &s }
	less("valve at 45°", func(in *flow.Input) { say(&in.Layout.Under[1], design.Piece{Open: said[q.Angle]("45°")}) })
	less("ball at 60°", func(in *flow.Input) { say(&in.Layout.Delivery[0], design.Piece{Open: said[q.Angle]("60°")}) })
	less("valve of Kv 5", func(in *flow.Input) { say(&in.Layout.Under[1], design.Piece{Kv: said[q.Number]("5")}) })
	less("corrugated hose", func(in *flow.Input) { say(&in.Layout.Run[4], design.Piece{Roughness: said[q.Length]("1 mm")}) })
	less("rough finish", func(in *flow.Input) { in.Finish = flow.RoughFinish })
	assert.Positive(t, figure(t, base, "finish-loss"))
	smooth := perry()
	smooth.Finish = 0
	assert.Zero(t, figure(t, flow.Check(smooth), "finish-loss"))
}

// By gravity the flow at least is that by the method that says most; all the
// fall is lost by it too.
func TestGravityLeast(t *testing.T) {
	t.Parallel()
	r := flow.Check(byGravity(perry(), 0.4))
	for _, pt := range r.Points {
		assert.Positive(t, pt.FlowLeast)
		assert.Less(t, pt.FlowLeast, pt.Flow)
		assert.Greater(t, float64(pt.FlowLeast), 0.7*float64(pt.Flow), "methods differ by less than twice in loss, so by less than √2 in flow (common practice, no source)")
	}
}

// A reducer's cone lies between the halves that are welded to it: 76.2 mm from
// 60.3 to 34.9 mm is 18.9° wide, however long the ferrules at its ends, and
// loses 0.8 sin(θ/2) (1 - β²) (Crane TP-410 appendix A).
func TestReducerBetweenFerrules(t *testing.T) {
	t.Parallel()
	in := perry()
	p := &in.Layout.Under[0]
	p.In.Half.Tube.OD, p.Out.Half.Tube.OD = 0.0635, 0.0381
	p.Path = []route.Segment{{Length: 0.0215, BoreFrom: 0.0603, BoreTo: 0.0603}, {Length: 0.0762, BoreFrom: 0.0603, BoreTo: 0.0349}, {Length: 0.0215, BoreFrom: 0.0349, BoreTo: 0.0349}}
	p.Length = 0.1192
	beta := 0.0349 / 0.0603
	for _, e := range flow.Check(in).Pieces {
		if e.Ref == "under.0" {
			assert.InEpsilon(t, 0.8*math.Sin(math.Atan(12.7/76.2))*(1-beta*beta), e.K, 1e-6)
			return
		}
	}
	assert.Fail(t, "no reducer")
}
