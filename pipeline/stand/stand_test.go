package stand

import (
	"encoding/json"
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
	"drawoff/pipeline/vessel"
)

func length(s string) q.Entered[q.Length] { return q.MustParse[q.Length](s) }

// plant is a perry tank of ours in 2 in tube, all welded: 100 mm of straight
// under the outlet, and a run that goes down, round a bend and along to a
// pump 300 mm up. A 90° short bend is 88.5 mm centre to end (BS 4825-2 bend
// table, stockholder's reproduction), so that from bend to pump there are
// exactly 2 m of level run.
type plant struct {
	drop   design.Piece // the straight after the stack
	along  design.Piece // the straight to the pump
	gentle bool         // no pump: the line runs out in the open
}

var (
	fits    = design.Piece{Kind: design.Straight, Fit: true}
	fixed   = design.Piece{Kind: design.Straight, Length: length("200 mm")}
	falling = design.Piece{Kind: design.Straight, Fit: true, Fall: q.MustParse[q.Slope]("1:80")}
)

const bend = 88.5 // mm

func (p plant) design() design.Design {
	d := design.Design{
		Tank:  design.Tank{Bore: length("1.1 m"), Height: length("1 m"), Outlet: design.Outlet{Size: "bs-4825/2in"}},
		Under: []design.Piece{{Kind: design.Straight, Length: length("100 mm")}},
		Run:   []design.Piece{p.drop, {Kind: design.Bend, Shape: "short"}, p.along},
		Pump:  design.Pump{Away: length("2088.5 mm"), Height: length("300 mm"), InSize: "bs-4825/2in"},
	}
	if p.gentle {
		d.Pump = design.Pump{Kind: "none"}
		d.Delivery = design.Delivery{Height: length("300 mm"), Away: length("2088.5 mm")}
	}
	return d.Filled()
}

// at returns what Check is told with the outlet face at mm over the floor.
func (p plant) at(mm float64) Input {
	in := Input{
		Layout:     route.Lay(p.design(), q.Mm(mm)),
		Tank:       TankShape{BottomToOutlet: q.Mm(40), Depth: q.Mm(1900)},
		Height:     q.Mm(mm),
		Legs:       3,
		Clearance:  q.Mm(20),
		Stock:      6,
		Kerf:       q.Mm(2.5),
		FloorSpace: q.Mm(150),
		FallLimit:  0.01,
	}
	return in
}

func driver(t testing.TB, in Input, slug string) Driver {
	t.Helper()
	for _, d := range Check(in).Drivers {
		if d.Slug == slug {
			return d
		}
	}
	t.Fatalf("no driver %s", slug)
	return Driver{}
}

func byRule(from []finding.Verdict, rule string) []finding.Verdict {
	var out []finding.Verdict
	for _, v := range from {
		if v.Rule == rule {
			out = append(out, v)
		}
	}
	return out
}

// Worked by hand from the lengths above: the pump at 300, a bend of 88.5, the
// stack of 100, and the fall over 2 m.
func TestFallToPump(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		plant plant
		want  float64 // mm
	}{
		"1:80 typed":           {plant{drop: fits, along: falling}, 300 + bend + 100 + 2000.0/80},
		"level, wants 1:100":   {plant{drop: fits, along: fits}, 300 + bend + 100 + 2000.0/100},
		"nothing gives":        {plant{drop: fixed, along: falling}, 300 + bend + 100 + 200 + 2000.0/80},
		"nothing gives, level": {plant{drop: fixed, along: fits}, 300 + bend + 100 + 200},
	} {
		for _, laid := range []float64{200, 640, 1500} {
			// A sloping straight that cannot reach takes up a trace of the miss: 1 part in 80².
			assert.InDelta(t, c.want, driver(t, c.plant.at(laid), driverFall).Needed.Millimetres(), 1200.0/80/80, "%s laid at %g", name, laid)
		}
		assert.InDelta(t, c.want, driver(t, c.plant.at(c.want), driverFall).Needed.Millimetres(), 1e-6, name)
	}
}

// What the driver says is what the layout does: at the height it needs the
// line meets the pump, and lower it does not.
func TestFallToPumpAgreesWithTheLayout(t *testing.T) {
	t.Parallel()
	for _, p := range []plant{{drop: fits, along: falling}, {drop: fixed, along: falling}} {
		need := driver(t, p.at(900), driverFall).Needed.Millimetres()
		need = driver(t, p.at(need), driverFall).Needed.Millimetres()
		assert.Less(t, p.at(need).Layout.Suction.Distance.Millimetres(), 0.01)
		assert.Greater(t, p.at(need-10).Layout.Suction.Distance.Millimetres(), 9.0)
		higher := p.at(need + 10).Layout.Suction.Distance.Millimetres()
		if p.drop.Fit {
			assert.Less(t, higher, 0.01, "what is made to fit takes up more height")
		} else {
			assert.Greater(t, higher, 9.0, "nothing takes up more height")
		}
	}
}

// The ends of a straight that is made to fit cannot be used up as its tube is:
// laid at the height needed, nothing is left of the tube and the line still
// meets the pump; 5 mm lower it does not.
func TestEndsOfAFittedStraightAreNotUsedUp(t *testing.T) {
	t.Parallel()
	p := plant{drop: fits, along: fixed}
	p.drop.In, p.drop.Out = "clamp/ferrule", "clamp/ferrule"
	p.along.Length = length("2 m")
	in := p.at(900)
	in.FallLimit = 0 // nor does the level run ask for any
	need := driver(t, in, driverFall).Needed
	at := func(h q.Length) (cut, gap q.Length) {
		l := route.Lay(p.design(), h)
		return l.Run[0].Cut, q.Length(math.Abs(l.Suction.By.Z))
	}
	cut, gap := at(need)
	assert.InDelta(t, 0, float64(cut), 1e-9)
	assert.InDelta(t, 0, float64(gap), 1e-9)
	_, gap = at(need - q.Mm(5))
	assert.InDelta(t, 5, gap.Millimetres(), 1e-6)
}

func TestRigidLineIsNotRounded(t *testing.T) {
	t.Parallel()
	in := plant{drop: fixed, along: falling}.at(713.5)
	assert.InDelta(t, 713.5, Needed(in).Millimetres(), 1e-6)
	r := Check(in)
	require.Len(t, byRule(r.Verdicts, RuleHeight), 1)
	assert.Equal(t, finding.Sound, r.Verdicts[0].Level)
	assert.Contains(t, r.Verdicts[0].Sentence, "any other height misses the pump")
	// With something that gives, 513.5 mm is rounded up to 5 mm.
	assert.InDelta(t, 515, Needed(plant{drop: fits, along: falling}.at(900)).Millimetres(), 1e-6)
}

func TestFallToOutflow(t *testing.T) {
	t.Parallel()
	in := plant{drop: fits, along: falling, gentle: true}.at(900)
	assert.InDelta(t, 513.5, driver(t, in, driverOutflow).Needed.Millimetres(), 1e-6)
	in.FreeOutflow = true
	for _, d := range Check(in).Drivers {
		assert.NotEqual(t, driverOutflow, d.Slug)
	}
}

// A straight made to fit that runs up can reach down to any height, by climbing.
func TestRiserNeedsNoFall(t *testing.T) {
	t.Parallel()
	p := plant{drop: fixed, along: fits}
	in := p.at(900)
	in.Layout.Run[2].In.Dir = route.Vec{Z: 1}
	for _, d := range Check(in).Drivers {
		assert.NotEqual(t, driverFall, d.Slug)
	}
}

// A hose reaches its pump from any height, and needs its fall along the way.
func TestHoseGives(t *testing.T) {
	t.Parallel()
	p := plant{drop: fixed, along: design.Piece{Kind: design.Hose, Fit: true}}
	for _, laid := range []float64{400, 900} {
		// 300 for the pump, 2 m at 1:100, and the rigid part above it.
		assert.InDelta(t, 300+20+bend+200+100, driver(t, p.at(laid), driverFall).Needed.Millimetres(), 1e-6)
	}
}

func TestBucket(t *testing.T) {
	t.Parallel()
	in := plant{drop: fits, along: falling}.at(400)
	in.Bucket = q.Mm(300)
	d := driver(t, in, driverBucket)
	assert.InDelta(t, 100+300+20, d.Needed.Millimetres(), 1e-9)
	assert.InDelta(t, -20, d.Slack.Millimetres(), 1e-9)
	r := Check(in)
	var unmet []finding.Verdict
	for _, v := range byRule(r.Verdicts, RuleHeight) {
		if v.Limit != nil && v.Limit.SI == float64(d.Needed) {
			unmet = append(unmet, v)
		}
	}
	require.Len(t, unmet, 1)
	assert.Equal(t, finding.Look, unmet[0].Level)
	assert.Contains(t, unmet[0].Advice, "20 mm")
	for _, f := range r.Figures {
		if f.Slug == figureBucket {
			assert.InDelta(t, 0.3, f.Amount.SI, 1e-9)
		}
	}
}

// A stack that is made to fit down to the pump stays where it is.
func TestBucketUnderAStackThatFits(t *testing.T) {
	t.Parallel()
	d := plant{drop: fits, along: falling}.design()
	d.Under[0] = d.Run[0]
	d.Run = d.Run[1:]
	in := plant{}.at(900)
	in.Layout, in.Bucket = route.Lay(d, q.Mm(900)), q.Mm(500)
	assert.InDelta(t, 520, driver(t, in, driverBucket).Needed.Millimetres(), 1e-9, "the tank only has to be over the bucket")
	v := byRule(Check(in).Verdicts, RuleBucket)
	require.Len(t, v, 1)
	// Free under the stack: the pump's 300, a bend and the fall of 25.
	assert.Contains(t, v[0].Advice, q.Text(q.Mm(520-300-bend-25)))
}

func TestDoubtReachesTheLegs(t *testing.T) {
	t.Parallel()
	in := plant{drop: fits, along: falling}.at(900)
	in.Bucket = q.Mm(800)
	in.Layout.Under[0].Dims = []catalog.Dimension{{Slug: "ferrule", Either: q.Mm(7)}}
	in.Layout.Junctions[0].Gap = catalog.Dimension{Slug: "gap", Either: q.Mm(1)}
	r := Check(in)
	require.Equal(t, driverBucket, r.Drivers[0].Slug)
	assert.True(t, r.Drivers[0].Governs)
	assert.InDelta(t, 8, r.LegDoubt.Either.Millimetres(), 1e-9)
	assert.Equal(t, "ferrule", r.LegDoubt.Hangs[0].Dimension, "which is to be measured first")
	in.HeightTyped = true
	assert.Zero(t, Check(in).LegDoubt.Either, "a height that was asked for is cut as asked")
}

// 150 mm (6 in) under equipment on the floor: FDA Food Code 4-402.12.
func TestFloorSpace(t *testing.T) {
	t.Parallel()
	p := plant{drop: fits, along: falling}
	in := p.at(900)
	assert.InDelta(t, 250, driver(t, in, driverFloor).Needed.Millimetres(), 1e-9, "stack and floor space")
	assert.Empty(t, byRule(Check(in).Verdicts, RuleFloor))

	d := p.design()
	d.Pump.Height = length("160 mm") // the underside of 2 in tube is then at 134.6 mm
	in.Layout = route.Lay(d, q.Mm(900))
	v := byRule(Check(in).Verdicts, RuleFloor)
	require.Len(t, v, 1)
	assert.Equal(t, finding.Look, v[0].Level)
	assert.Contains(t, v[0].Sentence, q.Text(q.Mm(134.6)))

	d.Pump.Height = length("10 mm")
	in.Layout = route.Lay(d, q.Mm(900))
	assert.Equal(t, finding.Stop, byRule(Check(in).Verdicts, RuleFloor)[0].Level)
}

func TestSuctionHead(t *testing.T) {
	t.Parallel()
	in := plant{drop: fits, along: falling}.at(900)
	in.RaiseKnown, in.Raise = true, q.Mm(85)
	d := driver(t, in, driverSuction)
	assert.InDelta(t, 985, d.Needed.Millimetres(), 1e-9)
	v := byRule(Check(in).Verdicts, RuleHeight)
	require.Len(t, v, 1)
	assert.Equal(t, finding.Stop, v[0].Level)
	assert.Contains(t, v[0].Advice, "85 mm")
	in.Raise = q.Mm(-300)
	assert.InDelta(t, 600, driver(t, in, driverSuction).Needed.Millimetres(), 1e-9, "it could do with less")
	in.Raise = -5
	d = driver(t, in, driverSuction)
	assert.Zero(t, d.Needed, "no tank stands under the floor")
	assert.Contains(t, d.Why, "at any height")
}

func TestCeiling(t *testing.T) {
	t.Parallel()
	in := plant{drop: fits, along: falling}.at(900)
	assert.Empty(t, byRule(Check(in).Verdicts, RuleCeiling))
	in.HasCeiling, in.Ceiling = true, q.Mm(900+40+1900)
	require.Len(t, byRule(Check(in).Verdicts, RuleCeiling), 1)
	assert.Equal(t, finding.Sound, byRule(Check(in).Verdicts, RuleCeiling)[0].Level)
	in.Ceiling -= q.Mm(40)
	v := byRule(Check(in).Verdicts, RuleCeiling)[0]
	assert.Equal(t, finding.Stop, v.Level)
	assert.Contains(t, v.Sentence, "40 mm over the ceiling")
	// A side outlet lies over the lowest inside point.
	in.Tank = TankShape{BottomToOutlet: q.Mm(-120), Depth: q.Mm(1900), Side: true}
	assert.InDelta(t, 900-120+1900, Check(in).Overall.Millimetres(), 1e-9)
}

// Six legs out of 6 m with a 2.5 mm saw are at most (6000 - 5 × 2.5) / 6 mm
// each. Common practice, no source.
func TestSixLegsOutOfSixMetres(t *testing.T) {
	t.Parallel()
	most := q.Length((6.0 - 5*0.0025) / 6)
	assert.Equal(t, 6, PerLength(most, 6, q.Mm(2.5)))
	assert.Equal(t, 6, PerLength(q.Mm(997.9), 6, q.Mm(2.5)))
	assert.Equal(t, 5, PerLength(q.Mm(998), 6, q.Mm(2.5)))
	assert.Equal(t, 5, PerLength(1, 6, q.Mm(2.5)), "six of 1 m need 6012.5 mm")
	assert.Equal(t, 6, PerLength(1, 6, 0), "a saw without width")
	assert.Equal(t, 1, PerLength(6, 6, q.Mm(2.5)))
	assert.Equal(t, 0, PerLength(6.001, 6, q.Mm(2.5)))

	in := plant{drop: fits, along: falling}.at(900)
	in.Legs, in.LegTop, in.Foot = 6, q.Mm(200), q.Mm(60)
	r := Check(in)
	assert.InDelta(t, 1040, r.LegLength.Millimetres(), 1e-9)
	assert.Equal(t, 5, r.PerLength)
	assert.Equal(t, 2, r.Lengths)
	assert.InDelta(t, 6000-1040-2.5, r.Offcut.Millimetres(), 1e-9)
	assert.NotEmpty(t, r.Caution)
}

func TestLegsThatCannotBe(t *testing.T) {
	t.Parallel()
	in := plant{drop: fits, along: falling}.at(900)
	in.Foot = q.Mm(1000)
	require.Len(t, byRule(Check(in).Verdicts, RuleLegs), 1)
	assert.Zero(t, Check(in).LegLength)
	in.Foot, in.Stock = 0, q.Mm(500)
	require.Len(t, byRule(Check(in).Verdicts, RuleLegs), 1)
	assert.Contains(t, byRule(Check(in).Verdicts, RuleLegs)[0].Sentence, "longer than")
}

// As many as fit, and not one more.
func TestPerLengthLaw(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		piece := rapid.Float64Range(0.05, 8).Draw(t, "piece")
		stock := rapid.Float64Range(0.05, 13).Draw(t, "stock")
		kerf := rapid.Float64Range(0, 0.01).Draw(t, "kerf")
		n := float64(PerLength(q.Length(piece), q.Length(stock), q.Length(kerf)))
		used := func(n float64) float64 { return n*piece + (n-1)*kerf }
		if n > 0 {
			assert.LessOrEqual(t, used(n), stock*(1+1e-8))
		}
		assert.Greater(t, used(n+1), stock*(1-1e-8))
	})
}

func TestHeightLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := plant{drop: rapid.SampledFrom([]design.Piece{fits, fixed}).Draw(t, "drop"), along: rapid.SampledFrom([]design.Piece{fits, falling}).Draw(t, "along")}
		in := p.at(rapid.Float64Range(100, 2000).Draw(t, "laid"))
		in.Bucket = q.Mm(rapid.Float64Range(0, 800).Draw(t, "bucket"))
		in.RaiseKnown = rapid.Bool().Draw(t, "known")
		in.Raise = q.Mm(rapid.Float64Range(-500, 500).Draw(t, "raise"))

		more := in
		more.Bucket += q.Mm(rapid.Float64Range(0, 300).Draw(t, "more"))
		assert.GreaterOrEqual(t, Needed(more), Needed(in), "a higher bucket never lowers the tank")
		more = in
		more.FloorSpace += q.Mm(rapid.Float64Range(0, 300).Draw(t, "space"))
		assert.GreaterOrEqual(t, Needed(more), Needed(in), "more floor space never lowers the tank")

		r := Check(in)
		governing := 0
		for _, d := range r.Drivers {
			assert.LessOrEqual(t, d.Needed, r.Drivers[0].Needed)
			assert.LessOrEqual(t, float64(d.Needed-Needed(in)), 2e-6, "what is needed meets every need")
			assert.InDelta(t, float64(in.Height-d.Needed), float64(d.Slack), 1e-12)
			if d.Governs {
				governing++
			}
		}
		assert.Equal(t, 1, governing)
		for _, f := range r.Figures {
			assert.False(t, math.IsNaN(f.Amount.SI) || math.IsInf(f.Amount.SI, 0), f.Slug)
		}
		for _, v := range r.Verdicts {
			assert.Equal(t, v.Level == finding.Sound, v.Advice == "", v.Sentence)
		}
	})
}

// Laid at what is needed, nothing of the height is left to complain of.
func TestNeededIsEnough(t *testing.T) {
	t.Parallel()
	for _, p := range []plant{{drop: fits, along: falling}, {drop: fits, along: fits}} {
		first := p.at(1000)
		first.Bucket = q.Mm(520)
		need := Needed(first)
		again := p.at(need.Millimetres())
		again.Bucket = first.Bucket
		assert.InDelta(t, float64(need), float64(Needed(again)), 1e-9, "it settles")
		for _, v := range byRule(Check(again).Verdicts, RuleHeight) {
			assert.Equal(t, finding.Sound, v.Level, v.Sentence)
			assert.Contains(t, v.Sentence, "bucket under the stack")
		}
	}
}

func TestCheckNothing(t *testing.T) {
	t.Parallel()
	r := Check(Input{})
	for _, f := range r.Figures {
		assert.False(t, math.IsNaN(f.Amount.SI), f.Slug)
	}
	assert.Zero(t, Needed(Input{}))
}

func TestDriverJSON(t *testing.T) {
	t.Parallel()
	b, err := json.Marshal(Driver{Slug: driverBucket, Needed: q.Mm(420), Slack: q.Mm(5), Governs: true})
	require.NoError(t, err)
	assert.JSONEq(t, `{"slug":"bucket","name":"","why":"","needed":{"value":420,"unit":"mm"},"slack":{"value":5,"unit":"mm"},"governs":true,"until":{"value":0,"unit":"mm"},"either":{"value":0,"unit":"mm"}}`, string(b))
}

func BenchmarkCheck(b *testing.B) {
	in := plant{drop: fits, along: falling}.at(900)
	in.Bucket = q.Mm(300)
	for b.Loop() {
		Check(in)
	}
}

// The tube that a leaning leg is sawn from, worked out by its four corners in
// the plane of its lean: where each side of the tube meets the floor and the
// bottom, along the axis of the leg. A flat bottom, a cone of 60° and one of 120°.
func TestLegOfALeaningStand(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		bottom vessel.Bottom
		cone   float64
	}{{vessel.Flat, 0}, {vessel.Cone, 60}, {vessel.Cone, 120}} {
		for _, splay := range []float64{0, 3, 8, 14} {
			in := standingAt(3, 0.45)
			in.Feet, in.Splay, in.Foot = 0.42, q.Angle(splay)*q.Degree, q.Mm(10)
			in.Tank.BottomToOutlet = q.Mm(40)
			in.Tank.Vessel.Bottom, in.Tank.Vessel.ConeAngle = c.bottom, q.Angle(c.cone)*q.Degree
			in.LegTop = in.Meets()
			require.Positive(t, float64(in.Rise()))

			sin, cos := math.Sincos(splay * math.Pi / 180)
			half, wall := float64(in.LegOD)/2, float64(in.Tank.Wall)
			// A point s along the axis, up from where it meets the level of the
			// foot, on the outer (1) or the inner (-1) side.
			point := func(s, side float64) (r, z float64) {
				return 0.42 - s*sin + side*half*cos, float64(in.Foot) + s*cos + side*half*sin
			}
			underside := func(r float64) float64 {
				z := float64(in.Height) + 0.04
				if c.bottom == vessel.Flat {
					return z - wall
				}
				a := c.cone / 2 * math.Pi / 180
				return z + (r-0.03)/math.Tan(a) - wall/math.Sin(a)
			}
			least, most := math.Inf(1), math.Inf(-1)
			for _, side := range []float64{1, -1} {
				low := -side * half * sin / cos // z = foot
				lo, hi := 0.0, 3.0
				for range 80 {
					s := (lo + hi) / 2
					if r, z := point(s, side); z < underside(r) {
						lo = s
					} else {
						hi = s
					}
				}
				least, most = math.Min(least, low), math.Max(most, lo)
			}
			assert.InDelta(t, most-least, float64(Check(in).LegLength), 1e-7, "%s %v°, splayed by %v°", c.bottom, c.cone, splay)
		}
	}
}

// A line that comes down at 45° between a level straight and another meets the
// pump at any height over the least, at which nothing is left of the slant:
// 100 mm of straight, a short bend of 88.5 mm, and two bends of 45° whose legs
// on the slant are R tan 22.5° and the 8.5 mm of the 90° bend's leg long, R 80 mm
// (BS 4825-2 bend table, stockholder's reproduction; geometry).
func TestASlantGives(t *testing.T) {
	t.Parallel()
	d := plant{drop: fits, along: fits}.design()
	turned := func(turn string) design.Piece {
		return design.Piece{Kind: design.Bend, Shape: "short", Angle: q.MustParse[q.Angle]("45°"), Turn: q.MustParse[q.Angle](turn)}
	}
	d.Run = []design.Piece{{Kind: design.Bend, Shape: "short"}, fits, turned("180°"), fits, turned("0°"), fixed}
	leg := 80*math.Tan(math.Pi/8) + 8.5
	want := 300 + 100 + bend + 2*leg*math.Sin(math.Pi/4)
	for _, mm := range []float64{want - 40, want, want + 1, 700, 1000} {
		in := plant{drop: fits, along: fits}.at(mm)
		in.Layout, in.FallLimit = route.Lay(d.Filled(), q.Mm(mm)), 0
		fall := driver(t, in, driverFall)
		assert.InDelta(t, want, fall.Needed.Millimetres(), 1e-6, "laid at %v mm", mm)
		assert.NotContains(t, fall.Why, "no other")
		assert.Equal(t, mm >= want, float64(in.Layout.Suction.Distance) < 1e-9, "it meets the pump from there on")
	}
}

// Where the liquid may come out anywhere along the way, a run laid to a fall
// comes down by being longer: from where it has no length on, at any height.
func TestAFallGives(t *testing.T) {
	t.Parallel()
	d := plant{gentle: true}.design()
	d.Run = []design.Piece{{Kind: design.Bend, Shape: "short"}, falling}
	d.Delivery.Away = q.Entered[q.Length]{}
	for _, mm := range []float64{488.5, 500, 520} {
		in := plant{drop: fits, along: fits}.at(mm)
		in.Layout = route.Lay(d.Filled(), q.Mm(mm))
		fall := driver(t, in, driverOutflow)
		assert.InDelta(t, 300+100+bend, fall.Needed.Millimetres(), 1e-6, "laid at %v mm", mm)
		assert.NotContains(t, fall.Why, "no other")
	}
}
