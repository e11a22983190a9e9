package order

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

func length(s string) q.Entered[q.Length] { return q.MustParse[q.Length](s) }

// perry is a plant of ours with every kind of piece but a hose.
func perry() design.Design {
	return design.Design{
		Tank: design.Tank{Bore: length("1.1 m"), Height: length("1 m"), Outlet: design.Outlet{Size: "bs-4825/2.5in", End: "ring-joint/male"}},
		Under: []design.Piece{
			{Kind: design.Butterfly, In: "ring-joint/liner", Out: "ring-joint/male"},
			{Kind: design.Reducer, To: "bs-4825/1.5in", In: "ring-joint/liner", Out: "clamp/ferrule"},
			{Kind: design.Tee, In: "clamp/ferrule", Out: "clamp/ferrule"},
			{Kind: design.Bend, In: "clamp/ferrule"},
		},
		Run: []design.Piece{
			{Kind: design.Straight, Length: length("800 mm"), Out: "clamp/ferrule"},
			{Kind: design.Ball, In: "clamp/ferrule", Out: "clamp/ferrule"},
			{Kind: design.Bend, Turn: q.MustParse[q.Angle]("-90°"), In: "clamp/ferrule"},
			{Kind: design.Straight, Length: length("300 mm")},
			{Kind: design.Bend, Turn: q.MustParse[q.Angle]("90°"), Out: "clamp/ferrule"},
		},
		Pump: design.Pump{Away: length("2.4 m"), Aside: length("600 mm"), Height: length("400 mm"), InSize: "bs-4825/1.5in", InEnd: "clamp/ferrule"},
		Delivery: design.Delivery{Pieces: []design.Piece{
			{Kind: design.Straight, Length: length("900 mm"), In: "clamp/ferrule"},
			{Kind: design.Bend},
			{Kind: design.Straight, Length: length("1.5 m")},
		}},
	}.Filled()
}

func input(d design.Design) Input {
	return Input{Layout: route.Lay(d, q.Mm(900)), Frame: Frame{Legs: 3, Leg: q.Mm(850), LegOD: q.Mm(48.3), Wall: q.Mm(2), Pad: q.Mm(60)}}
}

// A cross has two open ports to close; a pocket and a cock none; a valve is
// bought with its ends; a hose on tails takes a clip at each and no seal.
func TestOtherPieces(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Delivery.Pieces = []design.Piece{
		{Kind: design.Straight, Length: length("900 mm"), In: "clamp/ferrule"},
		{Kind: design.Cross, Third: "valve"},
		{Kind: design.Pocket},
		{Kind: design.Cock, Out: "clamp/ferrule"},
		{Kind: design.Seat, In: "clamp/ferrule", Out: "clamp/ferrule"},
		{Kind: design.Straight, Length: length("200 mm"), In: "clamp/ferrule", Out: "hose-tail/tail"},
		{Kind: design.Hose, Length: length("2 m"), In: "hose-tail/hose", Out: "hose-tail/hose"},
		{Kind: design.Straight, Length: length("200 mm"), In: "hose-tail/tail"},
	}
	r := Check(input(d.Filled()))
	for slug, n := range map[string]float64{
		"bs-4825/1.5in/cross":                                  1,
		"bs-4825/1.5in/cap":                                    2, // the other port of the cross, and the tee under the tank
		"bs-4825/1.5in/thermometer-pocket":                     1,
		"bs-4825/1.5in/sample-cock":                            1,
		"bs-4825/1.5in/seat-valve/clamp-ferrule/clamp-ferrule": 1,
		"hose-tail/1.5in/tail":                                 2,
		"hose-tail/1.5in/clip":                                 2,
		"hose-tail/1.5in/hose":                                 0,
	} {
		assert.InDelta(t, n, count(r, slug), 1e-9, slug)
	}
	for _, l := range r.Lines {
		assert.False(t, strings.HasPrefix(l.Slug, "hose-tail/1.5in/seal"), "a hose on its tail takes no seal")
	}
	assert.InDelta(t, 1, count(r, "bs-4825/1.5in/butterfly-valve"), 1e-9, "on the cross")
}

func count(r Result, slug string) float64 {
	for _, l := range r.Lines {
		if l.Slug == slug {
			return l.Quantity
		}
	}
	return 0
}

func figure(t require.TestingT, r Result, slug string) float64 {
	for _, f := range r.Figures {
		if f.Slug == slug {
			return f.Amount.SI
		}
	}
	require.Fail(t, "no figure "+slug)
	return 0
}

// The whole list, counted by hand from the plant above. Parts of a ring
// joint: male part, liner, nut and ring (AS 1528.2-2001 contents); of a clamp
// joint: two ferrules, clamp and seal (trade guides).
func TestPerryList(t *testing.T) {
	t.Parallel()
	r := Check(input(perry()))
	for slug, want := range map[string]float64{
		"bs-4825/1.5in": 0.8 + 0.3 + 0.9 + 1.5,
		// Two ring joints: outlet to valve, valve to reducer. The male part of
		// the first is on the tank, the liner of the second on the reducer; the
		// valve brings the other two with it.
		"ring-joint/2.5in/male":      1,
		"ring-joint/2.5in/liner":     1,
		"ring-joint/2.5in/nut":       2,
		"ring-joint/2.5in/seal/epdm": 2,
		// Ferrules: reducer 1, tee 2, first bend 1, first straight 1, second bend
		// 1, third bend 1, delivery 1; the ball valve brings two, the pump two.
		"clamp/1.5in/ferrule": 8,
		// Clamps: reducer-tee, tee-bend, straight-ball, ball-bend, bend-pump, pump-delivery.
		"clamp/clamp/50.5mm":    6,
		"clamp/1.5in/seal/epdm": 6,
		"bs-4825/1.5in/cap":     1,
		"leg-tube/48.3x2":       3 * 0.85,
		"foot/60mm":             3,
	} {
		assert.InDelta(t, want, count(r, slug), 1e-9, slug)
	}
	var bends float64
	for _, l := range r.Lines {
		assert.NotEmpty(t, l.Name, l.Slug)
		assert.NotEmpty(t, l.Trust, l.Slug)
		if strings.Contains(l.Slug, "/bend/") {
			bends += l.Quantity
		}
	}
	assert.InDelta(t, 4, bends, 0)
	// Halves welded on: 1 tank, 1 liner, 8 ferrules. Tube to tube: under.3 to
	// run.0, run.2 to run.3, run.3 to run.4, delivery 0 to 1, 1 to 2. One cap.
	assert.InDelta(t, 10+5+1, figure(t, r, "welds"), 0)
	assert.InDelta(t, 3.5, figure(t, r, "tube-length"), 1e-9)
	assert.Empty(t, r.Verdicts)
}

func TestListReadsInOrder(t *testing.T) {
	t.Parallel()
	r := Check(input(perry()))
	first := func(part string) int {
		for i, l := range r.Lines {
			if strings.Contains(l.Slug, part) {
				return i
			}
		}
		t.Fatalf("no %s", part)
		return 0
	}
	order := []string{"bs-4825/1.5in", "/bend/", "/tee", "/reducer/", "valve", "/ferrule", "/nut", "/cap", "/seal/", "leg-tube", "foot/"}
	for i := 1; i < len(order); i++ {
		// The slug of a part with ends may hold the words of a half: take the first of each kind.
		if order[i] == "/ferrule" {
			continue
		}
		assert.Less(t, first(order[i-1]), first(order[i]), "%s before %s", order[i-1], order[i])
	}
	seen := map[string]bool{}
	for _, l := range r.Lines {
		assert.False(t, seen[l.Slug], "%s listed twice", l.Slug)
		seen[l.Slug] = true
	}
}

// A valve brings its ends; one with plain ends is welded in.
func TestValveBringsItsEnds(t *testing.T) {
	t.Parallel()
	r := Check(input(perry()))
	var valve Line
	for _, l := range r.Lines {
		if strings.Contains(l.Slug, "butterfly-valve") {
			valve = l
		}
	}
	assert.Contains(t, valve.Name, "ends: 2½ in ring joint liner and 2½ in ring joint male")
	assert.NotContains(t, valve.Name, "to weld")
	assert.NotEmpty(t, valve.Note)
	for _, w := range r.Welds {
		assert.NotEqual(t, "under.0", w.Ref, "nothing to weld on a valve with its ends")
	}

	d := perry()
	d.Tank.Outlet.End, d.Under = design.Weld, []design.Piece{{Kind: design.Butterfly}}
	d.Run = []design.Piece{{Kind: design.Straight, Length: length("1 m")}}
	r = Check(input(d))
	assert.InDelta(t, 1, count(r, "bs-4825/2.5in/butterfly-valve"), 0)
	for i, ref := range []string{"under.0", "run.0"} {
		w := r.Welds[i]
		w.At = route.Vec{}
		assert.Equal(t, Weld{Number: i + 1, Ref: ref, Tube: "bs-4825/2.5in", Kind: weldEnds}, w)
	}
}

func TestOpenPortOfATee(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Under[2].Third = "valve"
	r := Check(input(d))
	assert.Zero(t, count(r, "bs-4825/1.5in/cap"))
	assert.InDelta(t, 1, count(r, "bs-4825/1.5in/butterfly-valve"), 0)

	// A ferrule on the port takes a blank cap, a clamp and a seal.
	in := input(perry())
	before := Check(in)
	in.Layout.Under[2].Third.Half = in.Layout.Under[2].In.Half
	after := Check(in)
	for _, slug := range []string{"clamp/1.5in/ferrule", "clamp/clamp/50.5mm", "clamp/1.5in/seal/epdm", "clamp/1.5in/cap"} {
		assert.InDelta(t, 1, count(after, slug)-count(before, slug), 0, slug)
	}
	assert.Zero(t, count(after, "bs-4825/1.5in/cap"))
	assert.Len(t, after.Welds, len(before.Welds), "the ferrule's weld for the cap's")
}

func TestSealsAsAsked(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Under[2].Seal = "ptfe"
	d.Under[3].Seal = "none"
	r := Check(input(d))
	assert.InDelta(t, 1, count(r, "clamp/1.5in/seal/ptfe"), 0)
	assert.InDelta(t, 4, count(r, "clamp/1.5in/seal/epdm"), 0)
	assert.InDelta(t, 6, count(r, "clamp/clamp/50.5mm"), 0, "the clamp is needed seal or no seal")
}

// Ends that do not belong together are joined by nothing that can be bought.
func TestWrongEndsAreNotClosed(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Under[0].In = "clamp/ferrule"
	r := Check(input(d))
	assert.InDelta(t, 1, count(r, "ring-joint/2.5in/nut"), 0)
	assert.Zero(t, count(r, "clamp/clamp/77.5mm"))
}

func TestHoseIsOrderedByItsLength(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Run = []design.Piece{{Kind: design.Hose, Length: length("2 m"), In: "clamp/ferrule", Out: "clamp/ferrule"}}
	d.Under[3].Out = "clamp/ferrule"
	in := input(d)
	r := Check(in)
	var hoses []Line
	for _, l := range r.Lines {
		if strings.HasPrefix(l.Slug, "hose/") {
			hoses = append(hoses, l)
		}
	}
	require.Len(t, hoses, 1)
	assert.InDelta(t, 1, hoses[0].Quantity, 0)
	assert.Contains(t, hoses[0].Name, q.Text(in.Layout.Run[0].Length))
	assert.Contains(t, hoses[0].Name, "both ends: 1½ in clamp joint ferrule")
}

func TestDoubtfulCuts(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Run[0] = design.Piece{Kind: design.Straight, Fit: true, Out: "clamp/ferrule"}
	in := input(d)
	fit := &in.Layout.Run[0]
	doubt := in.Layout.CutDoubt(fit).Either
	require.Positive(t, doubt, "ring joints and valves have no published length")
	r := Check(in)
	require.Equal(t, "run.0", r.Cuts[0].Ref)
	assert.InDelta(t, float64(doubt), float64(r.Cuts[0].Either), 0)
	assert.InDelta(t, float64(fit.Cut), float64(r.Cuts[0].Length), 0)
	for _, l := range r.Lines {
		if l.Slug == "bs-4825/1.5in" {
			assert.Equal(t, catalog.Unknown, l.Trust)
		}
	}

	fit.Cut = doubt / 2
	r = Check(in)
	require.Len(t, r.Verdicts, 1)
	assert.Equal(t, finding.Look, r.Verdicts[0].Level)
	assert.Contains(t, r.Verdicts[0].Sentence, "there may be no room")
	fit.Cut = 0
	r = Check(in)
	require.Len(t, r.Verdicts, 1)
	assert.Equal(t, "run.0", r.Verdicts[0].Piece)
	assert.Len(t, r.Cuts, 3+3, "three straights and three legs")
}

// Trust is the least of what a part rests on: a BS 4825-2 bend is in the
// standard, a valve's length is in none.
func TestTrust(t *testing.T) {
	t.Parallel()
	for _, l := range Check(input(perry())).Lines {
		switch {
		case strings.Contains(l.Slug, "/bend/"):
			assert.Equal(t, catalog.Standard, l.Trust, l.Slug)
		case strings.Contains(l.Slug, "valve"), strings.Contains(l.Slug, "ring-joint/2.5in/male"):
			assert.Equal(t, catalog.Unknown, l.Trust, l.Slug)
		}
	}
	order := []catalog.Trust{"", catalog.Measured, catalog.Standard, catalog.Memory, catalog.Derived, catalog.Custom, catalog.Unknown}
	for i, a := range order {
		for j, b := range order {
			assert.Equal(t, order[max(i, j)], lesser(a, b))
		}
	}
}

// Pieces placed are pieces listed: whatever the line, every body, half, union
// and seal in it is bought once, but for what is on the pump already.
func TestNothingIsLostOrBoughtTwice(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		end := rapid.SampledFrom([]string{design.Weld, "clamp/ferrule", "ring-joint/male", "ring-joint/liner"})
		piece := rapid.Custom(func(t *rapid.T) design.Piece {
			p := design.Piece{
				Kind: rapid.SampledFrom([]string{design.Straight, design.Bend, design.Tee, design.Butterfly, design.Ball, design.Hose}).Draw(t, "kind"),
				In:   end.Draw(t, "in"), Out: end.Draw(t, "out"),
			}
			if p.Kind == design.Straight || p.Kind == design.Hose {
				p.Length = length("500 mm")
			}
			return p
		})
		d := perry()
		d.Under = rapid.SliceOfN(piece, 0, 5).Draw(t, "under")
		d.Run = rapid.SliceOfN(piece, 0, 8).Draw(t, "run")
		d.Tank.Outlet.Size, d.Pump.InSize = "bs-4825/2in", "bs-4825/2in"
		in := input(d)
		r := Check(in)

		var bodies, halves, straights, caps, unions, welded, ports float64
		if !in.Layout.Outlet.Half.Plain() {
			halves++
		}
		for _, p := range in.Layout.Pieces() {
			switch p.Kind {
			case design.Straight:
				straights++
			case design.Tee:
				bodies++
				ports++
			default:
				bodies++
			}
			for _, e := range []route.End{p.In, p.Out} {
				if !e.Half.Plain() && p.Kind != design.Butterfly && p.Kind != design.Ball && p.Kind != design.Hose {
					halves++
				}
			}
		}
		for _, j := range in.Layout.Junctions {
			up, down := j.Up.Half, j.Down.Half
			switch {
			case up.Plain() && down.Plain():
				welded++
			case up.Joint.Family == down.Joint.Family:
				unions++
			}
		}
		var feet, gotBodies, gotHalves, gotClosers, gotSeals, total float64
		for _, l := range r.Lines {
			if l.Unit == metres {
				continue
			}
			total += l.Quantity
			switch {
			case strings.HasPrefix(l.Slug, "foot/"):
				feet += l.Quantity
			case strings.Contains(l.Slug, "/seal/"):
				gotSeals += l.Quantity
			case strings.HasSuffix(l.Slug, "/nut"), strings.HasPrefix(l.Slug, "clamp/clamp/"):
				gotClosers += l.Quantity
			case strings.HasSuffix(l.Slug, "/cap"):
				caps += l.Quantity
			case strings.HasPrefix(l.Slug, "bs-4825/"), strings.HasPrefix(l.Slug, "hose/"):
				gotBodies += l.Quantity
			default:
				gotHalves += l.Quantity
			}
		}
		assert.InDelta(t, bodies, gotBodies, 0, "bodies")
		assert.InDelta(t, halves, gotHalves, 0, "halves")
		assert.InDelta(t, unions, gotClosers, 0, "closers")
		assert.InDelta(t, unions, gotSeals, 0, "seals")
		assert.InDelta(t, ports, caps, 0, "caps")
		assert.InDelta(t, in.Frame.Legs, feet, 0, "feet")
		assert.Len(t, r.Cuts, int(straights)+in.Frame.Legs)
		assert.Len(t, r.Welds, int(welded+halves+ports))
		assert.InDelta(t, total, figure(t, r, "parts"), 0)
		for _, l := range r.Lines {
			assert.False(t, math.IsNaN(l.Quantity) || l.Quantity <= 0, l.Slug)
		}
	})
}

func TestCheckNothing(t *testing.T) {
	t.Parallel()
	r := Check(Input{})
	assert.Empty(t, r.Lines)
	assert.Empty(t, r.Cuts)
	assert.Empty(t, r.Welds)
}

func TestCutJSON(t *testing.T) {
	t.Parallel()
	b, err := json.Marshal(Cut{Ref: "run.0", Name: "straight", Length: q.Mm(812.5), Tube: "bs-4825/2in"})
	require.NoError(t, err)
	assert.JSONEq(t, `{"ref":"run.0","name":"straight","length":{"value":812.5,"unit":"mm"},"either":{"value":0,"unit":"mm"},"tube":"bs-4825/2in"}`, string(b))
}

func BenchmarkCheck(b *testing.B) {
	in := input(perry())
	for b.Loop() {
		Check(in)
	}
}

// A foot of which nobody said how high it is lifts the tank by what it is: the
// list that it is ordered from says so. One with a height has it in its name.
func TestFootWithoutAHeight(t *testing.T) {
	t.Parallel()
	for _, castors := range []float64{0, 40} {
		for _, high := range []float64{0, 15} {
			in := input(perry())
			in.Frame.Foot, in.Frame.Castors = q.Mm(high), q.Mm(castors)
			told := ""
			for _, l := range Check(in).Lines {
				if strings.HasPrefix(l.Slug, "foot/") || strings.HasPrefix(l.Slug, "castor/") {
					told = l.Name + l.Note
				}
			}
			assert.Equal(t, high == 0, strings.Contains(told, "the tank stands higher by it"), told)
			assert.Equal(t, high > 0, strings.Contains(told, "15 mm high under the leg"), told)
		}
	}
}

// A straight that is not in doubt, and still too short to be made: 10 mm is the
// least, common practice, no source.
func TestStraightTooShort(t *testing.T) {
	t.Parallel()
	for typed, told := range map[string]bool{"3 mm": true, "9.9 mm": true, "10 mm": false, "300 mm": false} {
		d := perry()
		d.Run[3].Length = length(typed)
		said := ""
		for _, v := range Check(input(d)).Verdicts {
			assert.Equal(t, RuleCut, v.Rule)
			assert.Equal(t, finding.Look, v.Level)
			said += v.Sentence
		}
		assert.Equal(t, told, strings.Contains(said, "comes out at "+typed+": too short"), said)
	}
}
