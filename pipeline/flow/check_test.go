package flow_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// end is a face of a tube of the given bore.
func end(bore q.Length, x, z float64, dir route.Vec) route.End {
	tube := catalog.Tube{OD: bore + 0.0032, Wall: 0.0016}
	return route.End{At: route.Vec{X: x, Z: z}, Dir: dir, Half: &catalog.Half{Tube: tube}}
}

var (
	down  = route.Vec{Z: -1}
	ahead = route.Vec{X: 1}
	up    = route.Vec{Z: 1}
)

// pieceOf is a piece from a bore to a bore.
func pieceOf(ref, kind string, from, to q.Length, in, out route.Vec, z float64) route.Piece {
	return route.Piece{Ref: ref, Kind: kind, Label: kind, In: end(from, 0, z, in), Out: end(to, 0, z, out)}
}

// perry is a farm perry maker's plant: a 2½ in outlet, reduced to 1½ in, a
// valve, a bend, a run to the pump and a rise to a bottling tank. Fifteen pieces.
func perry() flow.Input {
	const wide, bore = q.Length(0.0602), q.Length(0.0348)
	bend := func(ref string, in, out route.Vec, z float64) route.Piece {
		p := pieceOf(ref, design.Bend, bore, bore, in, out, z)
		p.Turned, p.Radius = 90*q.Degree, 1.5*bore
		p.Path = []route.Segment{{Length: 0.02}, {Radius: p.Radius, Angle: p.Turned, Length: 0.082}, {Length: 0.02}}
		p.Length = 0.122
		return p
	}
	length := func(p route.Piece, l q.Length) route.Piece {
		p.Length = l
		return p
	}
	in := flow.Input{
		Liquid:      liquid.Water(q.Celsius(12)),
		Temperature: q.Celsius(12),
		Air:         101325,
		Levels: []flow.Level{
			{Slug: "full", Name: "full", Height: 2.1},
			{Slug: "half", Name: "half full", Height: 1.5},
			{Slug: "lowest", Name: "lowest", Height: 0.95},
		},
		Discharge: 2.4,
		Finish:    flow.UsualFinish,
		Curve: flow.NewCurve([]flow.Duty{
			{Flow: 0, Head: 6, Required: 0.6},
			{Flow: 40 * q.LitrePerMinute, Head: 5.6, Required: 0.8},
			{Flow: 80 * q.LitrePerMinute, Head: 4.4, Required: 1.3},
			{Flow: 120 * q.LitrePerMinute, Head: 1.8, Required: 2.4},
		}),
		Limits: flow.Limits{SuctionMargin: 0.6, SuctionRatio: 1.1, SuctionSpeed: 2.4},
	}
	in.Layout = route.Layout{
		Outlet: end(wide, 0, 0.9, down),
		Under: []route.Piece{
			length(pieceOf("under.0", design.Reducer, wide, bore, down, down, 0.9), 0.076),
			length(pieceOf("under.1", design.Butterfly, bore, bore, down, down, 0.8), 0.06),
			bend("under.2", down, ahead, 0.7),
		},
		Run: []route.Piece{
			length(pieceOf("run.0", design.Straight, bore, bore, ahead, ahead, 0.6), 0.9),
			length(pieceOf("run.1", design.Tee, bore, bore, ahead, ahead, 0.59), 0.11),
			length(pieceOf("run.2", design.Straight, bore, bore, ahead, ahead, 0.58), 0.6),
			bend("run.3", ahead, ahead, 0.57),
			length(pieceOf("run.4", design.Hose, bore, bore, ahead, ahead, 0.56), 1.2),
			length(pieceOf("run.5", design.Straight, bore, bore, ahead, ahead, 0.55), 0.3),
		},
		PumpIn:  end(bore, 3, 0.5, ahead),
		PumpOut: end(bore, 3, 0.65, up),
		Delivery: []route.Piece{
			length(pieceOf("delivery.pieces.0", design.Ball, bore, bore, up, up, 0.7), 0.07),
			length(pieceOf("delivery.pieces.1", design.Straight, bore, bore, up, up, 0.8), 1.5),
			bend("delivery.pieces.2", up, ahead, 2.3),
			length(pieceOf("delivery.pieces.3", design.Straight, bore, bore, ahead, ahead, 2.4), 2),
			length(pieceOf("delivery.pieces.4", design.Tee, bore, bore, ahead, down, 2.4), 0.1),
			length(pieceOf("delivery.pieces.5", design.Straight, bore, bore, down, down, 2.3), 0.2),
		},
	}
	return in
}

// perryPump is its pump, rated at one speed and run at another, rpm.
func perryPump(rated, speed float64) flow.Pump {
	return flow.Pump{
		Duties: perry().Curve.Duties(),
		Rated:  q.Rotation(rated) * q.RPM,
		Speed:  q.Rotation(speed) * q.RPM,
	}
}

// lobePump is a lobe pump in its stead.
func lobePump(rated, speed float64) flow.Pump {
	return flow.Pump{
		Positive: true,
		Duties: []flow.Duty{
			{Pressure: 0, Flow: 60 * q.LitrePerMinute, Required: 2},
			{Pressure: 2 * q.Bar, Flow: 54 * q.LitrePerMinute, Required: 2},
			{Pressure: 4 * q.Bar, Flow: 50 * q.LitrePerMinute, Required: 2},
		},
		Rated: q.Rotation(rated) * q.RPM,
		Speed: q.Rotation(speed) * q.RPM,
	}
}

// byGravity turns a plant into one without a pump.
func byGravity(in flow.Input, discharge q.Length) flow.Input {
	in.Layout.Gravity = true
	in.Layout.PumpIn, in.Layout.PumpOut = route.End{}, route.End{}
	in.Curve = flow.Curve{}
	in.Discharge = discharge
	return in
}

func verdict(t assert.TestingT, r flow.Result, rule string) finding.Verdict {
	for _, v := range r.Verdicts {
		if v.Rule == rule {
			return v
		}
	}
	assert.Fail(t, "no verdict", rule)
	return finding.Verdict{}
}

func hasRule(r flow.Result, rule string) bool {
	for _, v := range r.Verdicts {
		if v.Rule == rule {
			return true
		}
	}
	return false
}

func figure(t assert.TestingT, r flow.Result, slug string) float64 {
	for _, f := range r.Figures {
		if f.Slug == slug {
			return f.Amount.SI
		}
	}
	assert.Fail(t, "no figure", slug)
	return 0
}

// The plant's elements by hand, from Hooper's and Crane's constants: what
// Check builds from the layout must lose the same.
func TestCheckCountsEachLossOnce(t *testing.T) {
	t.Parallel()
	in := perry()
	r := flow.Check(in)
	const wide, bore = q.Length(0.0602), q.Length(0.0348)
	inch := float64(bore / q.Inch)
	hooper := func(k1, k float64) flow.Fitting { return flow.Fitting{Laminar: k1, Turbulent: k * (1 + 1/inch)} }
	tube := func(l float64) flow.Element { return straight(float64(bore), l, 5.863*0.8e-6) }
	fitting := func(f flow.Fitting) flow.Element { return flow.Element{Bore: bore, Loss: f} }
	cone := 2 * math.Atan(float64(wide-bore)/2/0.076)
	beta2 := math.Pow(float64(bore/wide), 2)

	suction := flow.Line{
		{Bore: wide, Loss: flow.Fitting{Laminar: 160, Turbulent: 0.5}},
		fitting(flow.Fitting{Turbulent: 0.8 * math.Sin(cone/2) * (1 - beta2)}),
		fitting(hooper(800, 0.25)), fitting(hooper(800, 0.20)), tube(0.04),
		tube(0.9), fitting(hooper(150, 0.05)), tube(0.6),
		fitting(hooper(800, 0.20)), tube(0.04),
		straight(float64(bore), 1.2, 0.01e-3), tube(0.3),
	}
	delivery := flow.Line{
		fitting(hooper(300, 0.10)), tube(1.5), fitting(hooper(800, 0.20)), tube(0.04), tube(2),
		fitting(hooper(800, 0.80)), tube(0.2), fitting(flow.Fitting{Turbulent: 1}),
	}
	for _, pt := range r.Points {
		require.Equal(t, flow.Running, pt.Status)
		near(t, float64(suction.Loss(pt.Flow, in.Liquid).High), float64(pt.SuctionLoss), 1e-12)
		near(t, float64(delivery.Loss(pt.Flow, in.Liquid).High), float64(pt.DeliveryLoss), 1e-12)
		// The energy equation closes at every level.
		assert.InDelta(t, float64(pt.Head), float64(pt.Static+pt.SuctionLoss+pt.DeliveryLoss), 1e-9)
		assert.InDelta(t, float64(in.Discharge-pt.Level.Height), float64(pt.Static), 1e-12)
		// And so does the definition of NPSHa, the inlet's centre at 0.5 m.
		p := in.Liquid
		has := float64(in.Air-p.VapourPressure)/(float64(p.Density)*g0) + float64(pt.Level.Height) - 0.5 - float64(pt.SuctionMost)
		assert.GreaterOrEqual(t, pt.SuctionMost, pt.SuctionLoss, "reckoned on the worse")
		assert.InDelta(t, has, float64(pt.SuctionAvailable), 1e-9)
		slug := pt.Level.Slug
		assert.Equal(t, float64(pt.Flow), figure(t, r, "flow-"+slug))
		assert.Equal(t, float64(pt.Head), figure(t, r, "pump-head-"+slug))
		assert.Equal(t, float64(pt.SuctionLoss), figure(t, r, "suction-loss-"+slug))
		assert.Equal(t, float64(pt.DeliveryLoss), figure(t, r, "delivery-loss-"+slug))
		assert.Equal(t, float64(pt.Static), figure(t, r, "static-lift-"+slug))
		assert.Equal(t, float64(pt.SuctionAvailable), figure(t, r, "suction-head-available-"+slug))
		assert.Equal(t, float64(pt.SuctionRequired), figure(t, r, "suction-head-required-"+slug))
		assert.Equal(t, float64(pt.Margin), figure(t, r, "suction-margin-"+slug))
	}
	assert.Greater(t, r.Points[0].Flow, r.Points[2].Flow, "a fuller tank runs faster")
}

func TestCheckPieces(t *testing.T) {
	t.Parallel()
	r := flow.Check(perry())
	require.Len(t, r.Pieces, 15+2)
	sum := q.Head(0)
	for _, p := range r.Pieces {
		sum += p.Loss
	}
	full := r.Points[0]
	near(t, float64(full.SuctionLoss+full.DeliveryLoss), float64(sum), 1e-12)
	// Continuity: v = 4 Q/(π D²).
	p, ok := r.Piece("run.2")
	require.True(t, ok)
	near(t, float64(full.Flow)*4/(math.Pi*0.0348*0.0348), float64(p.Velocity), 1e-12)
	near(t, figure(t, r, "suction-velocity"), float64(p.Velocity), 1e-12)
	_, ok = r.Piece("run.99")
	assert.False(t, ok)
}

func TestCheckSound(t *testing.T) {
	t.Parallel()
	r := flow.Check(perry())
	for _, rule := range []string{"suction-margin", "suction-speed", "flow-regime", "pump-range", "flooded-line"} {
		v := verdict(t, r, rule)
		assert.Equal(t, finding.Sound, v.Level, v.Sentence)
		assert.Empty(t, v.Advice)
	}
	assert.Contains(t, verdict(t, r, "suction-margin").Sentence, "At the lowest level the pump has ")
	assert.False(t, hasRule(r, "gravity-flow"))
	assert.False(t, hasRule(r, "boiling"))
}

// Every verdict can be read by itself and leads to what it judged.
func TestCheckVerdictsReadWell(t *testing.T) {
	t.Parallel()
	hot := perry()
	hot.Temperature = q.Celsius(95)
	hot.Liquid = liquid.Water(hot.Temperature)
	low := perry()
	low.Levels[2].Height = 0.2
	long := perry()
	long.Discharge = 30
	far := perry()
	far.Discharge = -20
	boiling := perry()
	boiling.Air, boiling.Temperature, boiling.Liquid = 79501, q.Celsius(98), liquid.Water(q.Celsius(98))
	thick := perry()
	thick.Liquid = newtonian(1050, 2e-5)
	bare := perry()
	bare.Curve = flow.Curve{}
	silent := perry()
	silent.Curve = flow.NewCurve([]flow.Duty{{Head: 11}, {Flow: 0.002, Head: 5}})
	slow := perry()
	slow.Limits.SuctionSpeed = 0.5
	driven := func(pump flow.Pump) flow.Input {
		in := perry()
		in.Pump = pump
		in.Curve = pump.Run(in.Liquid)
		return in
	}
	inLiquid := func(nu float64) flow.Input {
		in := perry()
		in.Liquid = newtonian(1050, nu)
		in.Curve = perryPump(2900, 2900).Run(in.Liquid)
		return in
	}
	tooThick, thicker := inLiquid(5e-3), inLiquid(3e-4)
	faster, slower := driven(perryPump(2900, 3200)), driven(perryPump(2900, 2400))
	wanted, muchWanted := driven(perryPump(2900, 2900)), driven(perryPump(2900, 2900))
	wanted.Wanted, muchWanted.Wanted = 40*q.LitrePerMinute, 110*q.LitrePerMinute
	sheet := lobePump(300, 300)
	aLobe, lobeWanted, pressed, dropped := driven(sheet), driven(sheet), driven(sheet), driven(sheet)
	lobeWanted.Wanted, pressed.Discharge, dropped.Discharge = 30*q.LitrePerMinute, 60, -20
	sheet.Relief = 3 * q.Bar
	relieved := driven(sheet)
	sheet.Relief = 12 * q.Bar
	lateRelief := driven(sheet)
	idle := driven(lobePump(300, 1))
	open := driven(sheet)
	open.Discharge = -20
	for _, line := range []*[]route.Piece{&open.Layout.Under, &open.Layout.Run, &open.Layout.Delivery} {
		*line = slices.DeleteFunc(slices.Clone(*line), func(p route.Piece) bool { return p.Kind == design.Butterfly || p.Kind == design.Ball })
	}
	primed, unprimed := low, low
	primed.Pump.DryLift, unprimed.Pump.DryLift = 4, 0.2
	for name, row := range map[string]struct {
		in    flow.Input
		rule  string
		level finding.Level
	}{
		"hot":            {hot, "suction-margin", finding.Stop},
		"suction lift":   {low, "flooded-line", finding.Look},
		"dead-headed":    {long, "pump-range", finding.Stop},
		"beyond the end": {far, "pump-range", finding.Look},
		"boiling":        {boiling, "boiling", finding.Look},
		"boiling, flows": {byGravity(boiling, 0.3), "boiling", finding.Look},
		"too thick":      {tooThick, "pump-range", finding.Stop},
		"thick":          {thicker, "thick-liquid", finding.Look},
		"faster":         {faster, "pump-speed", finding.Look},
		"slower":         {slower, "pump-speed", finding.Sound},
		"wanted":         {wanted, "wanted-flow", finding.Sound},
		"wanted much":    {muchWanted, "wanted-flow", finding.Look},
		"wanted, falls":  {byGravity(wanted, 0.3), "wanted-flow", finding.Sound},
		"lobe":           {aLobe, "pump-range", finding.Sound},
		"no relief":      {aLobe, "relief-valve", finding.Look},
		"relief":         {relieved, "relief-valve", finding.Sound},
		"relief high":    {lateRelief, "relief-valve", finding.Look},
		"over pressure":  {pressed, "pump-range", finding.Stop},
		"slips back":     {idle, "pump-range", finding.Stop},
		"runs by itself": {dropped, "pump-range", finding.Sound},
		"runs on":        {open, "pump-range", finding.Look},
		"lobe, wanted":   {lobeWanted, "wanted-flow", finding.Sound},
		"primes":         {primed, "flooded-line", finding.Sound},
		"primes not":     {unprimed, "flooded-line", finding.Look},
		"critical zone":  {thick, "flow-regime", finding.Look},
		"no curve":       {bare, "pump-range", finding.Look},
		"no NPSHr":       {silent, "suction-margin", finding.Look},
		"speed":          {slow, "suction-speed", finding.Look},
		"no fall":        {byGravity(perry(), 3), "gravity-flow", finding.Stop},
		"falls":          {byGravity(perry(), 0.3), "gravity-flow", finding.Sound},
	} {
		r := flow.Check(row.in)
		v := verdict(t, r, row.rule)
		assert.Equal(t, row.level, v.Level, "%s: %s", name, v.Sentence)
		t.Log(name+":", v.Sentence, "|", v.Advice)
		known := map[string]bool{"": true}
		for _, f := range r.Figures {
			assert.False(t, known[f.Slug], "%s twice", f.Slug)
			known[f.Slug] = true
			assert.NotEmpty(t, f.Formula, f.Slug)
			assert.NotEmpty(t, f.Source, f.Slug)
			assert.NotEmpty(t, f.Inputs, f.Slug)
			assert.NotEmpty(t, f.Name)
		}
		for _, v := range r.Verdicts {
			assert.True(t, strings.HasSuffix(v.Sentence, "."), "%s: %q", name, v.Sentence)
			assert.Equal(t, v.Level == finding.Sound, v.Advice == "", "%s: %q", name, v.Sentence)
			assert.NotEmpty(t, v.Basis)
			assert.NotEmpty(t, v.Rule)
			assert.True(t, known[v.Figure], "%s: %s judges %s, which is not a figure", name, v.Rule, v.Figure)
		}
		_, err := json.Marshal(r)
		assert.NoError(t, err, "every number is one")
	}
	assert.Contains(t, verdict(t, flow.Check(hot), "suction-margin").Sentence, "scald")
	// Water boils at 93.3 °C at 2000 m (ISO 2533:1975 with IAPWS-IF97).
	assert.Contains(t, verdict(t, flow.Check(boiling), "boiling").Sentence, "93.3 °C")
}

// A liquid that boils has the level over the pump less what is lost, and so
// much at any altitude (definition of NPSHa with p = pv), also where it is
// said to be hotter than it can get.
func TestBoilingHasTheSameAnywhere(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := perry()
		in.Air = liquid.AirPressure(q.Length(rapid.Float64Range(0, 5000).Draw(t, "altitude")))
		in.Temperature = liquid.BoilingPoint(in.Air) + q.Temperature(rapid.Float64Range(0, 8).Draw(t, "over"))
		in.Liquid = liquid.Water(in.Temperature)
		in.Liquid.VapourPressure = max(in.Liquid.VapourPressure, in.Air)
		r := flow.Check(in)
		assert.Contains(t, verdict(t, r, "boiling").Sentence, "scalds")
		for _, pt := range r.Points {
			if pt.Flow > 0 {
				assert.InDelta(t, float64(pt.Level.Height)-0.5-float64(pt.SuctionMost), float64(pt.SuctionAvailable), 1e-9)
			}
		}
	})
}

// Raise is what it says: with the tank that much higher the margin at the
// lowest level is just nothing, or the pump just delivers.
func TestRaise(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := perry()
		in.Temperature = q.Celsius(rapid.Float64Range(5, 97).Draw(t, "°C"))
		in.Liquid = liquid.Water(in.Temperature)
		in.Discharge = q.Length(rapid.Float64Range(0.5, 14).Draw(t, "discharge"))
		in.Curve = aCurve(t)
		r := flow.Check(in)
		if !r.RaiseKnown {
			return
		}
		raised := func(by q.Length) flow.Point {
			other := in
			other.Levels = []flow.Level{in.Levels[2]}
			other.Levels[0].Height += by
			return flow.Check(other).Points[0]
		}
		above := raised(r.Raise + 1e-6)
		if above.Status == flow.BeyondEnd {
			return // the root lies at the curve's last point
		}
		require.Equal(t, flow.Running, above.Status)
		assert.GreaterOrEqual(t, float64(above.Margin), -1e-5, "so high, it holds")
		below := raised(r.Raise - 1e-3)
		if below.Status == flow.Running {
			assert.Less(t, float64(below.Margin), 1e-5, "lower, it does not")
		} else {
			assert.Equal(t, flow.DeadHeaded, below.Status)
		}
	})
}

// Raising the tank never lowers the suction head that is left over the need.
func TestRaisingHelps(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := perry()
		in.Liquid = liquid.Water(q.Celsius(rapid.Float64Range(5, 97).Draw(t, "°C")))
		by := q.Length(rapid.Float64Range(0, 2).Draw(t, "by"))
		before := flow.Check(in)
		for i := range in.Levels {
			in.Levels[i].Height += by
		}
		for i, pt := range flow.Check(in).Points {
			assert.GreaterOrEqual(t, float64(pt.SuctionAvailable), float64(before.Points[i].SuctionAvailable)-1e-9)
			assert.GreaterOrEqual(t, float64(pt.Flow)*slack, float64(before.Points[i].Flow))
		}
	})
}

func TestCheckGravity(t *testing.T) {
	t.Parallel()
	in := byGravity(perry(), 0.3)
	r := flow.Check(in)
	assert.Nil(t, r.System)
	for _, pt := range r.Points {
		require.Positive(t, pt.Flow)
		assert.InDelta(t, float64(pt.Level.Height-in.Discharge), float64(pt.Static), 1e-12)
		assert.InDelta(t, float64(pt.Static), float64(pt.SuctionLoss), 1e-9, "all the fall is lost")
		assert.Zero(t, pt.SuctionAvailable)
		assert.Equal(t, float64(pt.Flow), figure(t, r, "flow-"+pt.Level.Slug))
	}
	require.Len(t, r.Pieces, 15+2)
}

func TestSystemCurve(t *testing.T) {
	t.Parallel()
	in := perry()
	r := flow.Check(in)
	require.Len(t, r.System, 24)
	assert.Zero(t, r.System[0].Flow)
	assert.InDelta(t, float64(in.Discharge-in.Levels[2].Height), float64(r.System[0].System), 1e-12)
	assert.Equal(t, in.Curve.Last(), r.System[23].Flow)
	for i := 1; i < len(r.System); i++ {
		assert.Greater(t, r.System[i].System, r.System[i-1].System)
		assert.Less(t, r.System[i].Pump, r.System[i-1].Pump)
	}
}

// A plant with nothing in it, or nonsense, is answered without a panic and
// without a number that is not one.
func TestCheckSurvives(t *testing.T) {
	t.Parallel()
	empty := flow.Input{Levels: []flow.Level{{Slug: "full"}}}
	nonsense := perry()
	nonsense.Layout.Run[0].Length = q.Length(math.NaN())
	nonsense.Layout.Run[1].In.Half = &catalog.Half{}
	nonsense.Liquid.Density = 0
	for _, in := range []flow.Input{{}, empty, byGravity(empty, 0), byGravity(empty, -1), nonsense, byGravity(nonsense, 0)} {
		r := flow.Check(in)
		_, err := json.Marshal(r)
		assert.NoError(t, err)
	}
}
