package pipeline_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/clean"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vent"
)

// washed is d with edits.
func washed(t require.TestingT, d design.Design, pairs ...string) design.Design {
	var edits []design.Edit
	for i := 0; i < len(pairs); i += 2 {
		edits = append(edits, design.Edit{Path: pairs[i], Value: pairs[i+1]})
	}
	d, faults := d.Apply(edits...)
	require.Empty(t, faults)
	return d
}

func figureOf(t require.TestingT, figures []finding.Figure, slug string) finding.Figure {
	for _, f := range figures {
		if f.Slug == slug {
			return f
		}
	}
	require.Fail(t, "no figure", slug)
	return finding.Figure{}
}

// The flow of the wash, put back: what the pump gives is lifted and lost, and
// by gravity what is lost is the fall.
func TestWashFlowsPutBack(t *testing.T) {
	t.Parallel()
	checked := 0
	for name, d := range plants(t) {
		r := pipeline.Check(d)
		for _, f := range r.Wash().Figures {
			if f.Slug != "wash-flow-had" || f.Amount.SI == 0 || !r.Scene.Layout.Gravity && f.Amount.SI >= float64(r.Scene.FlowInput.Curve.Last())*0.999 {
				continue
			}
			assert.InDelta(t, input(t, f, "H"), input(t, f, "z")+input(t, f, "h_f"), 1e-6, name)
			checked++
		}
	}
	assert.Greater(t, checked, 8)
}

// A flat tank whose outlet is a bare hole of 60.3 mm, flush and sharp: Crane TP-410
// loses 0.5 of the velocity head there and 1 in the open, and 40 mm of stub a
// few hundredths. What runs off is the spray.
func TestPoolRunsOff(t *testing.T) {
	t.Parallel()
	d := washed(t, design.Demo(), "tank.bottom", "flat", "tank.fill", "700 L", "wash.spray", "300 L/min")
	d.Under = []design.Piece{{Kind: design.Straight, In: "clamp/ferrule", Out: "clamp/ferrule", Length: q.MustParse[q.Length]("60 mm")}}
	d.Tank.Outlet.Stub = q.MustParse[q.Length]("0 mm")
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	bore := 0.0603
	v := 0.3 / 60 * 4 / (math.Pi * bore * bore)
	head := v * v / (2 * 9.80665)
	w := r.Wash()
	pool := figureOf(t, w.Figures, "wash-pool")
	// The line ends so far under the tank's lowest inside point.
	drop := float64(r.Scene.TankFoot) - r.Scene.Layout.Under[0].Out.At.Z
	level := input(t, pool, "h")
	assert.InDelta(t, 1.5*head-drop, level, 0.05*head+1e-3)
	assert.Greater(t, level, 0.0)
	assert.InEpsilon(t, math.Pi/4*0.96*0.96*level, pool.Amount.SI, 1e-9)
}

// By gravity the whole line carries the spray away at just the level that is
// told: the flow at that level is asked of package flow, which solves it the
// other way round.
func TestPoolIsTheLevelThatCarries(t *testing.T) {
	t.Parallel()
	checked := 0
	for _, spray := range []string{"40 L/min", "60 L/min", "90 L/min"} {
		d := washed(t, plants(t)["gravity"], "tank.bottom", "flat", "tank.fill", "700 L", "delivery.height", "0.78 m", "wash.spray", spray)
		r := pipeline.Check(d)
		require.Empty(t, r.Faults)
		pool := figureOf(t, r.Wash().Figures, "wash-pool")
		in := r.Scene.FlowInput
		in.Liquid = liquid.Caustic(q.Celsius(80), 0.02)
		at := flow.NewSteady(in).At(in.Foot + q.Length(input(t, pool, "h")))
		assert.InEpsilon(t, input(t, pool, "Q"), float64(at.Flow), 1e-6, spray)
		checked++
	}
	assert.Equal(t, 3, checked)
}

// What the line holds: cylinders and frustums by their textbook volumes, added
// over the demo's pieces by hand, from nothing but their bores and lengths.
func TestLineHolds(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	const big, small = 0.0603, 0.0349 // BS 4825-1: 63.5 and 38.1 mm, walls of 1.6
	// The reducer is a ferrule of 21.5 mm, a cone, and a ferrule; all after it is tube.
	pieces := r.Scene.Layout.Pieces()
	cone := float64(pieces[0].Length) - 2*0.0215
	sum := math.Pi/4*0.0215*(big*big+small*small) + math.Pi/12*cone*(big*big+big*small+small*small)
	for i, p := range pieces[1:] {
		assert.InDelta(t, small, float64(p.Out.Bore()), 1e-9, "piece %d", i)
		sum += math.Pi / 4 * small * small * float64(p.Length)
	}
	stub := math.Pi / 4 * big * big * 0.04
	got := figureOf(t, r.Wash().Figures, "wash-line-volume")
	assert.InEpsilon(t, sum+stub, got.Amount.SI, 1e-6)
}

// A file from before steps had a time or a strength reads as it did: the same
// agents at the same temperatures, and written again it is the same file.
func TestOldCleaningReadsAsItDid(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	d.Cleaning = []design.Cleaning{{Agent: "caustic", Temperature: q.MustParse[q.Temperature]("70 °C")}, {Agent: "peracetic"}}
	file := design.WriteFile(d)
	assert.NotContains(t, string(file), "strength\": \"2")
	back, faults := design.ReadFile(file)
	require.Empty(t, faults)
	assert.Equal(t, d, back)
	rows := pipeline.Check(back).Wash().Programme.Rows
	require.Len(t, rows, 2)
	assert.Equal(t, "caustic soda, 2 %", rows[0].Agent)
	assert.InDelta(t, 70, rows[0].Temperature.Celsius(), 1e-9)
	assert.Equal(t, "peracetic acid, 0.2 %", rows[1].Agent)
	assert.InDelta(t, 15, rows[1].Temperature.Celsius(), 1e-9)
}

// Where nothing is said the wash is the whole of it, and what seals were held
// against before, hot water and caustic, is in it as it was.
func TestUsualWash(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	var names []string
	for _, row := range r.Wash().Programme.Rows {
		names = append(names, row.Name)
	}
	assert.Equal(t, []string{"pre-rinse", "caustic", "rinse", "acid", "rinse", "sanitise"}, names)
	fkm := pipeline.Check(washed(t, design.Demo(), "seal", "fkm"))
	require.NotEmpty(t, verdictsOf(fkm, joint.RuleCleaning))
	assert.Contains(t, verdictsOf(fkm, joint.RuleCleaning)[0].Sentence, "FKM seals do not stand cleaning with caustic soda, 2 %, at 80 °C")
	assert.Contains(t, verdictsOf(fkm, joint.RuleCleaning)[0].Sentence, "Nothing is said of how this line is cleaned")
}

// Each step is held against each seal and each hose lining in its path, at its
// temperature and its strength (the seal maker's manual: FKM avoids caustic;
// EPDM is rated to 2 % of it).
func TestStepsAgainstSealsAndHoses(t *testing.T) {
	t.Parallel()
	d := withPiece(design.Piece{Kind: design.Hose, In: "clamp/ferrule", Out: "clamp/ferrule", Length: q.MustParse[q.Length]("1 m")})
	require.Empty(t, pipeline.Check(d).Faults)
	untold := verdictsOf(pipeline.Check(d), clean.RuleHose)
	require.Len(t, untold, 1)
	assert.Equal(t, "delivery.pieces.0", untold[0].Piece)
	assert.Contains(t, untold[0].Sentence, "up to 80 °C")

	d.Cleaning = []design.Cleaning{{Agent: "caustic"}}
	d.Delivery.Pieces[0].Lining = "fkm"
	r := pipeline.Check(d)
	assert.Empty(t, verdictsOf(r, clean.RuleHose))
	lining := verdictsOf(r, joint.RuleLining)
	require.NotEmpty(t, lining)
	assert.Equal(t, finding.Stop, lining[0].Level)
	assert.Equal(t, "delivery.pieces.0", lining[0].Piece)
	assert.Contains(t, lining[0].Sentence, "FKM hose linings do not stand")
	assert.Equal(t, []clean.Stand{{Material: "EPDM", Rating: "good"}, {Material: "FKM", Rating: "avoid"}}, r.Wash().Programme.Rows[0].Stands)

	d.Delivery.Pieces[0].Lining = "epdm"
	assert.Empty(t, verdictsOf(pipeline.Check(d), joint.RuleLining))
	d.Cleaning[0].Strength = q.MustParse[q.Fraction]("3 %")
	strong := pipeline.Check(d)
	require.Len(t, verdictsOf(strong, joint.RuleCleaning), 1)
	assert.Contains(t, verdictsOf(strong, joint.RuleCleaning)[0].Sentence, "caustic soda, 2 %, at most; this is 3 %")
	require.Len(t, verdictsOf(strong, joint.RuleLining), 1)
}

// The strip list goes with the flow, each union that does not come clean in
// place with its seal, hoses and ball valves besides, and clamps stay (BS 4825-5
// and DIN 11851: a gap at the seal; the rest common practice).
func TestStripList(t *testing.T) {
	t.Parallel()
	const male, liner = "ring-joint/male", "ring-joint/liner"
	d := design.Demo()
	d.Delivery.Pieces = []design.Piece{
		{Kind: design.Straight, In: "clamp/ferrule", Out: male, Length: q.MustParse[q.Length]("300 mm")},
		{Kind: design.Ball, In: liner, Out: male},
		{Kind: design.Hose, In: liner, Out: male, Length: q.MustParse[q.Length]("2 m"), Lining: "epdm"},
		{Kind: design.Straight, In: liner, Length: q.MustParse[q.Length]("300 mm")},
	}
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	s := r.Wash().Strip
	var order []string
	for _, p := range s.Apart {
		order = append(order, p.Ref)
	}
	at := "delivery.pieces."
	assert.Equal(t, []string{at + "1", at + "1", at + "2", at + "2", at + "3"}, order, "joint, ball valve, joint, hose, joint")
	require.Len(t, s.Seals, 1)
	assert.Equal(t, 3, s.Seals[0].Count)
	assert.Contains(t, s.Seals[0].Name, "EPDM")
	assert.Contains(t, s.Seals[0].Name, "1½ in")
	for _, p := range s.Stays {
		assert.NotContains(t, p.Name, "ring joint")
	}
	assert.NotEmpty(t, s.Stays)
}

// Every joint but a weld, and every piece that is more than tube, is on one
// side of the strip list and not on both; seals to lay out are those of the
// joints that come apart.
func TestStripListIsWhole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		if len(r.Faults) > 0 {
			t.Skip()
		}
		s := r.Wash().Strip
		seals, laid := 0, 0
		names := map[string]bool{}
		for _, p := range s.Apart {
			names[p.Name] = true
			if p.Seal != "" {
				seals++
			}
		}
		for _, p := range s.Stays {
			assert.False(t, names[p.Name], p.Name)
		}
		for _, seal := range s.Seals {
			laid += seal.Count
		}
		assert.Equal(t, seals, laid)
		unions := 0
		for _, j := range joint.Check(joint.Input{Junctions: r.Scene.Layout.Junctions}).Joints {
			if j.Kind != "weld" && j.Kind != "none" {
				unions++
			}
		}
		listed := 0
		for _, p := range append(s.Apart, s.Stays...) {
			if !strings.HasPrefix(p.Name, "piece ") {
				listed++
			}
		}
		if len(r.Wash().Programme.Rows) > 0 {
			assert.Equal(t, unions, listed)
		}
	})
}

// The pump is judged on the wash itself: hot caustic leaves it less to draw
// from than cold, by about the head of the vapour pressure: 4.7 m between 20
// and 80 °C (IAPWS R7-97: 47.4 less 2.3 kPa, in water of 972 kg/m³).
func TestSuctionOnTheWash(t *testing.T) {
	t.Parallel()
	margin := func(celsius string) float64 {
		d := design.Demo()
		d.Cleaning = []design.Cleaning{{Agent: "caustic", Temperature: q.MustParse[q.Temperature](celsius)}}
		return input(t, figureOf(t, pipeline.Check(d).Wash().Figures, "wash-suction-margin"), "NPSH_a")
	}
	assert.InDelta(t, 4.75-0.24, margin("20 °C")-margin("80 °C"), 0.3)

	d := design.Demo()
	d.Site.Altitude = q.MustParse[q.Length]("2000 m")
	d.Cleaning = []design.Cleaning{{Agent: "hot-water", Temperature: q.MustParse[q.Temperature]("95 °C")}}
	v := verdictsOf(pipeline.Check(d), clean.RuleSuction)
	require.Len(t, v, 1)
	assert.Equal(t, finding.Stop, v[0].Level, "water boils at 93.3 °C there (ISO 2533:1975, IAPWS R7-97)")
}

// A spray ball is judged by what wets the wall and by what presses it.
func TestSprayBall(t *testing.T) {
	t.Parallel()
	judged := func(pairs ...string) finding.Verdict {
		v := verdictsOf(pipeline.Check(washed(t, design.Demo(), pairs...)), clean.RuleSpray)
		require.Len(t, v, 1)
		return v[0]
	}
	assert.Empty(t, verdictsOf(pipeline.Check(design.Demo()), clean.RuleSpray), "none is told")
	assert.Contains(t, judged("wash.spray", "70 L/min").Sentence, "stripes stay dry", "π 0.96 m × 25 L/min are 75.4 L/min")
	assert.Contains(t, judged("wash.spray", "80 L/min").Sentence, "it dribbles", "a pump of 6.4 m there does not press 1 bar")
	assert.Equal(t, finding.Sound, judged("wash.spray", "80 L/min", "wash.pressure", "0.1 bar").Level)
}

// A pump that is taken for the wash runs as fast as it gives: π/4 D² 1.5 m/s in
// the widest bore is enough, a litre less is not, and of the plant's own pump
// nothing is asked then.
func TestPumpTakenForTheWash(t *testing.T) {
	t.Parallel()
	judged := func(flow string) (finding.Verdict, pipeline.Report) {
		r := pipeline.Check(washed(t, design.Demo(), "wash.flow", flow))
		v := verdictsOf(r, clean.RuleSpeed)
		require.Len(t, v, 1)
		return v[0], r
	}
	need := math.Pi / 4 * 0.0603 * 0.0603 * 1.5 * 60e3 // 2½ in of BS 4825-1: 63.5 mm less two walls of 1.6 mm
	little, _ := judged(fmt.Sprintf("%.0f L/min", math.Floor(need)))
	assert.Equal(t, finding.Look, little.Level, little.Sentence)
	enough, r := judged(fmt.Sprintf("%.0f L/min", math.Ceil(need)))
	assert.Equal(t, finding.Sound, enough.Level, enough.Sentence)
	assert.Contains(t, enough.Sentence, "must give against")
	assert.Empty(t, verdictsOf(r, clean.RuleSuction))
}

// What cannot run off is drawn off, or fills the tank.
func TestRunoff(t *testing.T) {
	t.Parallel()
	judged := func(pairs ...string) finding.Verdict {
		v := verdictsOf(pipeline.Check(washed(t, design.Demo(), pairs...)), clean.RuleRunoff)
		require.Len(t, v, 1)
		return v[0]
	}
	assert.Equal(t, finding.Sound, judged().Level)
	assert.Equal(t, finding.Sound, judged("wash.spray", "100 L/min", "wash.scavenge", "100 L/min").Level)
	assert.Contains(t, judged("wash.spray", "100 L/min", "wash.scavenge", "60 L/min").Sentence, "fills by 40 L/min")
	assert.Equal(t, finding.Stop, judged("under.1.open", "20°", "wash.spray", "800 L/min").Level)
}

// The vent that is needed follows what leaves the tank, and one that is told
// and too small is a stop.
func TestVentOfThePlant(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	assert.Empty(t, verdictsOf(r, vent.RuleVent))
	out := figureOf(t, r.Breathing().Figures, "vent-drawing")
	full, _ := r.Figure("flow-full")
	assert.InEpsilon(t, full.Amount.SI, input(t, out, "Q"), 1e-9)
	small := pipeline.Check(washed(t, design.Demo(), "vent.bore", "10 mm"))
	require.Len(t, verdictsOf(small, vent.RuleVent), 1)
	assert.Equal(t, finding.Stop, small.Level)
	assert.Empty(t, verdictsOf(pipeline.Check(washed(t, design.Demo(), "vent.bore", "60 mm")), vent.RuleVent), "and no pass")
	assert.Equal(t, vent.Result{}, pipeline.Report{}.Breathing())
	assert.Equal(t, clean.Result{}, pipeline.Report{}.Wash())
}

// Whatever the plant: no number that is not one, in figures, programme or words.
func TestWashIsWhole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		w, b := r.Wash(), r.Breathing()
		for _, f := range append(w.Figures, b.Figures...) {
			require.False(t, math.IsNaN(f.Amount.SI) || math.IsInf(f.Amount.SI, 0), f.Slug)
		}
		said, err := json.Marshal(struct{ W, B any }{w, b})
		require.NoError(t, err)
		require.NotContains(t, string(said), "not a number")
		for _, v := range append(w.Verdicts, b.Verdicts...) {
			require.Contains(t, r.Verdicts, v, "a check tells what the wash does")
		}
		for _, row := range w.Programme.Rows {
			require.GreaterOrEqual(t, float64(row.Water), 0.0)
			require.Greater(t, float64(row.Flow), 0.0)
		}
	})
}
