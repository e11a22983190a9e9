package route_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// measuredAs returns d with one more dimension measured.
func measuredAs(d design.Design, slug string, length q.Length) design.Design {
	d.Measured = append(d.Measured[:len(d.Measured):len(d.Measured)], design.Measurement{Part: slug, Length: metres(float64(length))})
	return d
}

// share returns what one dimension has to do with a doubt.
func share(d route.Doubt, slug string) q.Length {
	var by q.Length
	for _, s := range d.Hangs {
		if s.Dimension == slug || withEnds(s.Dimension, slug) {
			by += s.By
		}
	}
	return by
}

// withEnds reports whether slug is of the same body as own, which is measured
// between its weld ends, with ends on it: measuring that measures both.
func withEnds(slug, own string) bool {
	last := strings.LastIndexByte(own, '/')
	return slug != own && strings.HasPrefix(slug, own[:last+1]) && strings.HasSuffix(slug, own[last:])
}

// The doubt is what measuring would find: a length that turns out otherwise
// than it was taken moves a cut, a gap and a height by no more than its share,
// and by all of its share where it counts once. Laying the design again with
// the length measured is the check.
func TestDoubtIsWhatMeasuringFinds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d, h := designtest.Design(t).Filled(), height(t)
		l := route.Lay(d, h)
		times := map[string]int{}
		either := map[string]q.Length{}
		length := map[string]q.Length{}
		for _, p := range l.Pieces() {
			for _, dim := range p.Dims {
				if dim.Either > 0 {
					times[dim.Slug]++
					either[dim.Slug], length[dim.Slug] = dim.Either, dim.Length
				}
			}
		}
		if len(times) == 0 {
			t.Skip("nothing is in doubt")
		}
		slugs := make([]string, 0, len(times))
		for _, p := range l.Pieces() {
			for _, dim := range p.Dims {
				if times[dim.Slug] > 0 && either[dim.Slug] > 0 {
					slugs = append(slugs, dim.Slug)
				}
			}
		}
		slug := rapid.SampledFrom(slugs).Draw(t, "measured")
		for other := range times {
			if withEnds(other, slug) {
				times[slug]++
			}
		}
		// A small step, so that no straight runs out of length on the way.
		const step = 1e-3
		by := q.Length(step * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sign"))
		again := route.Lay(measuredAs(d, slug, length[slug]+by*either[slug]), h)
		const hair = 1e-7
		for i, p := range l.Pieces() {
			if !p.Fit || p.Kind != design.Straight || p.Cut < 1e-3 {
				continue
			}
			doubt := l.CutDoubt(&p)
			moved := math.Abs(float64(again.Pieces()[i].Cut - p.Cut))
			assert.LessOrEqual(t, moved, step*float64(share(doubt, slug))+hair, "the cut of %s, when %s is measured", p.Ref, slug)
			if times[slug] == 1 {
				assert.InDelta(t, step*float64(share(doubt, slug)), moved, hair, "the cut of %s, when %s is measured", p.Ref, slug)
			}
		}
		if !l.Gravity {
			moved := math.Abs(float64(again.Suction.Distance - l.Suction.Distance))
			assert.LessOrEqual(t, moved, step*float64(share(l.SuctionDoubt(), slug))+hair, "the gap at the pump, when %s is measured", slug)
		}
		if n := len(d.Under); n > 0 {
			low := func(l route.Layout) float64 { return l.Under[n-1].Out.At.Z }
			still := true
			for _, p := range l.Under {
				still = still && !p.Fit
			}
			if still {
				upright := route.TermsOf(l.Under, l.Junctions[:n]).Upright()
				assert.LessOrEqual(t, math.Abs(low(again)-low(l)), step*float64(share(upright, slug))+hair, "the end of the stack, when %s is measured", slug)
			}
		}
	})
}

// Worked by hand: a butterfly valve of 1½ in is 40 + 38.1/2 long, give or take
// a third, and the ferrule that comes on it in no doubt; each clamp leaves 1.5
// ± 1 open. A valve with one ferrule, upright: 19.7 + 1 and no more.
func TestDoubtByHand(t *testing.T) {
	t.Parallel()
	d := design.Design{
		Tank: design.Tank{Bore: metres(1), Height: metres(1), Outlet: design.Outlet{Size: "bs-4825/1.5in", End: "clamp/ferrule"}},
		Under: []design.Piece{
			{Kind: design.Butterfly, In: "clamp/ferrule"},
			{Kind: design.Straight, Fit: true},
		},
		Pump:     design.Pump{Kind: design.NoPump},
		Delivery: design.Delivery{Height: metres(0.3)},
	}.Filled()
	l := route.Lay(d, 1)
	doubt := l.CutDoubt(&l.Under[1])
	valve := (40 + 38.1/2) / 3
	assert.InDelta(t, valve+1, doubt.Either.Millimetres(), 1e-9)
	require.Len(t, doubt.Hangs, 2)
	assert.Equal(t, "bs-4825/1.5in/butterfly-valve/clamp-ferrule/weld/length", doubt.Hangs[0].Dimension, "to be measured first")
	assert.InDelta(t, valve, doubt.Hangs[0].By.Millimetres(), 1e-9)
	assert.Equal(t, "clamp/1.5in/gap", doubt.Hangs[1].Dimension)

	d.Under[1].Fit, d.Under[1].Length = false, metres(0.5)
	l = route.Lay(d, 1)
	assert.InDelta(t, valve+1, l.DischargeDoubt().Either.Millimetres(), 1e-9, "with nothing to take it up it is left over")
	assert.True(t, l.DischargeDoubt().Overturns(q.Mm(valve)))
	assert.False(t, l.DischargeDoubt().Overturns(q.Mm(valve+1)))
}

// A seat valve to weld at its inlet, with a ferrule at its outlet: hung upright,
// its run is in doubt downwards and its branch, level, not.
func TestDoubtOfASeatValve(t *testing.T) {
	t.Parallel()
	l := route.Lay(design.Design{
		Tank:  design.Tank{Bore: metres(1), Height: metres(1), Outlet: design.Outlet{Size: "bs-4825/1.5in"}},
		Under: []design.Piece{{Kind: design.Seat, Out: "clamp/ferrule"}},
		Pump:  design.Pump{Kind: design.NoPump},
	}.Filled(), 1)
	doubt := route.TermsOf(l.Under, nil).Upright()
	require.Len(t, doubt.Hangs, 1)
	assert.Equal(t, "bs-4825/1.5in/seat-valve/weld/clamp-ferrule/run", doubt.Hangs[0].Dimension)
	assert.InDelta(t, 38.1/2, doubt.Either.Millimetres(), 1e-9, "half an OD, our assumption")
}
