package pipeline_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
)

func braced(t require.TestingT) design.Design {
	d, faults := design.Demo().Apply(design.Edit{Path: "stand.brace", Value: "diagonal"}, design.Edit{Path: "stand.legs", Value: "4"}, design.Edit{Path: "stand.adjust", Value: "40 mm"})
	require.Empty(t, faults)
	return d
}

// shelfFor draws a shelf with some of what a report asks for on it.
func shelfFor(t *rapid.T, r pipeline.Report) design.Shelf {
	var s design.Shelf
	put := func(path, typed string) {
		var f *design.Fault
		s, f = s.Put(path, typed)
		require.Nil(t, f)
	}
	for _, l := range r.Parts {
		if rapid.Bool().Draw(t, "in hand") {
			put("items:"+l.Slug+":inHand", rapid.SampledFrom([]string{"0", "1", "3", "12"}).Draw(t, "n"))
		}
	}
	for _, c := range r.Cuts {
		if rapid.Bool().Draw(t, "offcut") {
			put("rack:"+c.Tube, rapid.SampledFrom([]string{"250 mm", "900 mm", "1.4 m", "2.9 m"}).Draw(t, "length"))
		}
	}
	put("rack:other/tube", "700 mm")
	put("shop.trim", rapid.SampledFrom([]string{"", "12 mm"}).Draw(t, "trim"))
	put("shop.keep", rapid.SampledFrom([]string{"", "800 mm"}).Draw(t, "keep"))
	put("shop.gap", rapid.SampledFrom([]string{"", "1 mm"}).Draw(t, "gap"))
	return s
}

// Conservation: what the plant takes, piece by piece, and its spares are what
// is bought and what comes off the shelf; every cut of the report is sawn
// once; and the metal of every tube is there before the saw and after it.
func TestWorkConserves(t *testing.T) {
	t.Parallel()
	var reports []pipeline.Report
	for _, e := range design.Examples() {
		reports = append(reports, pipeline.Check(e.Design))
	}
	reports = append(reports, pipeline.Check(braced(t)))
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(reports).Draw(t, "plant")
		shelf := shelfFor(t, r)
		w := r.Work(shelf)

		require.Len(t, w.Buy, len(r.Parts))
		for i, p := range w.Buy {
			assert.Equal(t, r.Parts[i].Slug, p.Slug)
			assert.InDelta(t, p.Quantity+p.Spare, p.Shelf+p.Buy, 0, p.Slug)
			if r.Parts[i].Unit == "pcs" {
				assert.InDelta(t, r.Parts[i].Quantity, p.Quantity, 0, p.Slug)
			}
		}

		sawn := 0
		after := map[string]float64{}
		for _, o := range w.RackLeft {
			after[o.Tube] += float64(o.Length.Value())
		}
		before := map[string]float64{}
		for _, o := range shelf.Rack {
			before[o.Tube] += float64(o.Length.Value())
		}
		assert.InDelta(t, before["other/tube"], after["other/tube"], 1e-12, "what is not for this design stays on the rack")
		for _, s := range w.Saw {
			sawn += len(s.Pieces)
			assert.Len(t, s.Marks, len(s.Pieces))
			seen := make([]int, len(s.Pieces))
			there, gone := before[s.Tube], 0.0
			for _, b := range s.Plan.Bars {
				if b.Rack < 0 {
					there += float64(b.Length)
				}
				gone += float64(b.Trim)
				for _, c := range b.Cuts {
					seen[c.Piece]++
					gone += float64(c.Length) + float64(s.Stock.Kerf)
				}
				if b.Left == 0 {
					gone -= float64(s.Stock.Kerf) // at most: the last cut may run out of the end
				} else if !b.Kept {
					gone += float64(b.Left)
				}
			}
			for _, i := range s.Plan.TooLong {
				seen[i]++
			}
			for i := range seen {
				assert.Equal(t, 1, seen[i])
			}
			// What goes back is read off a tape, to the millimetre below.
			slack := 1e-3*float64(len(s.Plan.Bars)) + float64(s.Stock.Kerf)*float64(len(s.Plan.Bars)) + 1e-6
			assert.InDelta(t, there, gone+after[s.Tube], slack, s.Tube)
		}
		assert.Equal(t, len(r.Cuts), sawn)
	})
}

// A straight that no length holds is put together from as few parts as there
// can be, as long as it is with the gaps at its seams, none too short to weld
// on; and as many lengths are bought. By sums alone.
func TestLongStraightIsPutTogether(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		away := rapid.IntRange(7000, 18000).Draw(t, "away")
		d, faults := design.Demo().Apply(design.Edit{Path: "pump.away", Value: strconv.Itoa(away) + " mm"})
		require.Empty(t, faults)
		shelf, fault := design.Shelf{}.Put("shop.gap", rapid.SampledFrom([]string{"0 mm", "1 mm", "3 mm"}).Draw(t, "gap"))
		require.Nil(t, fault)
		gap := float64(shelf.Shop.Gap.Value())
		w := pipeline.Check(d).Work(shelf)
		s := w.Saw[0]
		longer, faults := d.Apply(design.Edit{Path: "stand.stock", Value: "20 m"})
		require.Empty(t, faults)
		var whole order.Cut // out of a length that holds it
		for _, c := range pipeline.Check(longer).Work(shelf).Saw[0].Pieces {
			if c.Ref == "run.0" {
				whole = c
			}
		}
		require.Greater(t, float64(whole.Length), 5.0)
		parts, sum := 0, 0.0
		for i, c := range s.Pieces {
			if c.Ref == "run.0" {
				parts++
				sum += float64(c.Length)
				assert.LessOrEqual(t, float64(c.Length), 6.0)
				assert.True(t, c.Length >= 200*q.Millimetre || parts == 1)
				assert.True(t, s.Marks[i] == "4" || s.Marks[i] == "4."+strconv.Itoa(parts), s.Marks[i])
			}
		}
		assert.InDelta(t, float64(whole.Length), sum+gap*float64(parts-1), 1e-9)
		assert.GreaterOrEqual(t, 6*float64(parts), sum)
		assert.LessOrEqual(t, 6*float64(parts-1), sum+gap+float64(whole.Either), "one part fewer, with a seam and its gap fewer, would not reach")
		assert.Empty(t, s.Plan.TooLong)
		assert.InDelta(t, float64(s.Plan.New), w.Buy[0].Buy, 0)
		assert.GreaterOrEqual(t, 6*w.Buy[0].Buy, sum)
		assert.Equal(t, parts > 1, strings.Contains(s.Said, "welded up from 4.1 to 4."+strconv.Itoa(parts)))
	})
}

// Braces are as long as Pythagoras has them: four legs at the corners of a
// square, from the foot of one to the top of the next.
func TestBracesAreCut(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(braced(t))
	var legs, braces []order.Cut
	for _, c := range r.Cuts {
		switch {
		case strings.HasPrefix(c.Tube, "leg-tube/"):
			legs = append(legs, c)
		case strings.HasPrefix(c.Tube, "brace-tube/"):
			braces = append(braces, c)
		}
	}
	require.Len(t, legs, 4)
	require.Len(t, braces, 4)
	top, floor := r.Scene.Stand.LegsAt()
	require.InDelta(t, float64(top), float64(floor), 1e-12, "upright")
	across, rise := float64(top), float64(legs[0].Length) // R √2 is the side of the square
	assert.InDelta(t, 2*across*across+rise*rise, float64(braces[0].Length)*float64(braces[0].Length), 1e-9)

	// A height in doubt puts leg and brace out: by h itself, and by the brace's
	// own growth with it.
	d := braced(t)
	d.Stand.Height = q.Entered[q.Length]{}
	r = pipeline.Check(d)
	for _, c := range r.Cuts {
		if !strings.HasPrefix(c.Tube, "brace-tube/") {
			continue
		}
		var leg order.Cut
		for _, l := range r.Cuts {
			if strings.HasPrefix(l.Tube, "leg-tube/") {
				leg = l
			}
		}
		if leg.Either > 0 {
			up := float64(leg.Length + leg.Either)
			want := q.Length(up*up - float64(leg.Length)*float64(leg.Length) + float64(c.Length)*float64(c.Length))
			assert.InDelta(t, float64(want), float64((c.Length+c.Either)*(c.Length+c.Either)), 1e-9)
		}
	}
}

// A gap at every seam of the line makes it longer by as much, and what is made
// to fit takes that up; one whose length was typed stays as typed. Counted by
// hand in the demo, s being its fall of 1:80 and c the cosine of that: three
// seams run down (both of the reducer's, the one before the bend) and one along
// (behind the bend); four lie with the run to the pump, (c, -s c), and two with
// its drop, (-s c, -c). These two are square to each other, so that each takes
// what runs its way. The riser has its own two.
func TestGapAtSeams(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	shelf, f := design.Shelf{}.Put("shop.gap", "1.5 mm")
	require.Nil(t, f)
	closed, open := r.Work(design.Shelf{}), r.Work(shelf)
	const s = 1.0 / 80
	c := 1 / math.Sqrt(1+s*s)
	want := map[string]float64{"run.0": 4 + c + 3*s*c, "run.2": 2 - s*c + 3*c, "delivery.pieces.0": 2}
	for i, saw := range closed.Saw {
		for k, piece := range saw.Pieces {
			off := (piece.Length - open.Saw[i].Pieces[k].Length).Millimetres()
			assert.InDelta(t, 1.5*want[piece.Ref], off, 1e-6, piece.Ref)
			delete(want, piece.Ref)
		}
	}
	assert.Empty(t, want)
}

// A seal of another material is offered where the line's own rules say nothing
// against it, and nowhere else.
func TestSealsOfferedAreSound(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		d := e.Design
		w := pipeline.Check(d).Work(design.Shelf{})
		for _, m := range catalog.Materials() {
			other := d.Clone()
			other.Seal = m.Slug
			for _, line := range [][]design.Piece{other.Under, other.Run, other.Delivery.Pieces} {
				for i := range line {
					line[i].Seal = ""
				}
			}
			other.Pump.Seal = ""
			against := false
			for _, v := range pipeline.Check(other).Verdicts {
				switch v.Rule {
				case joint.RuleMedium, joint.RuleTemperature, joint.RuleCleaning:
					against = against || v.Level > 0
				}
			}
			for _, p := range w.Buy {
				_, own, seal := catalog.FindSeal(p.Slug)
				if !seal || own.Slug == m.Slug {
					continue
				}
				offered := strings.Contains(strings.Join(p.Instead, "\n"), ", "+m.Name+":")
				assert.Equal(t, !against, offered, "%s: %s for %s", d.Title, m.Name, p.Slug)
			}
		}
	}
}

// Prices are added up as typed, and what has none is told.
func TestBill(t *testing.T) {
	t.Parallel()
	var s design.Shelf
	for path, typed := range map[string]string{
		"items:clamp/1.5in/ferrule:price":   "4,25",
		"items:clamp/1.5in/ferrule:inHand":  "2",
		"items:clamp/1.5in/seal/epdm:price": "1.10",
		"items:bs-4825/1.5in:price":         "96",
		"items:clamp/2.5in/ferrule:inHand":  "5",
		"items:clamp/2.5in/ferrule:price":   "7",
	} {
		var f *design.Fault
		s, f = s.Put(path, typed)
		require.Nil(t, f)
	}
	w := pipeline.Check(design.Demo()).Work(s)
	// 6 ferrules less 2, 5 seals and a spare, one length of tube; the large ferrules are in hand.
	assert.InDelta(t, 4*4.25+6*1.10+96, w.Cost, 1e-9)
	lines := 0
	for _, p := range w.Buy {
		if p.Buy > 0 {
			lines++
		}
	}
	assert.Equal(t, lines-3, w.Unpriced)
}

// A report on a design that could not be worked out has no work in it.
func TestNoWork(t *testing.T) {
	t.Parallel()
	w := pipeline.Check(design.Design{}).Work(design.Shelf{})
	assert.Empty(t, w.Saw)
	assert.Empty(t, w.Buy)
	assert.Empty(t, w.Welds)
}

// Lengths that would just do are told to be in doubt where the cuts are.
func TestDoubtAboutLengthsToBuy(t *testing.T) {
	t.Parallel()
	said := func(stock string) string {
		d, faults := design.Demo().Apply(design.Edit{Path: "stand.stock", Value: stock})
		require.Empty(t, faults)
		return pipeline.Check(d).Work(design.Shelf{}).Saw[0].Said
	}
	// The demo's cuts come to 4426 mm, their doubts to 51.7 mm, with four saw cuts between them.
	assert.Contains(t, said("4.45 m"), "1 length of 4450 mm")
	assert.Contains(t, said("4.45 m"), "at its longest, it takes 2")
	assert.NotContains(t, said("4.5 m"), "longest")
}

// Four legs of 1498 mm and three saw cuts of 2.5 mm leave 0.5 mm of 6 m, where
// nobody said what squaring the ends takes: that is said. 15 mm for it, and a
// second length is needed for the fourth leg.
func TestTightLength(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(design.Edit{Path: "stand.legs", Value: "4"})
	require.Empty(t, faults)
	d, faults = d.Apply(design.Edit{Path: "stand.height", Value: "760 mm"}, design.Edit{Path: "stand.legTop", Value: "738 mm"})
	require.Empty(t, faults)
	said := func(shelf design.Shelf) string {
		saw := pipeline.Check(d).Work(shelf).Saw
		return saw[len(saw)-1].Said
	}
	assert.Contains(t, said(design.Shelf{}), "Next to nothing is left of length 1")
	trimmed, fault := design.Shelf{}.Put("shop.trim", "15 mm")
	require.Nil(t, fault)
	assert.Contains(t, said(trimmed), "2 lengths")
	assert.NotContains(t, said(trimmed), "Next to nothing")
}
