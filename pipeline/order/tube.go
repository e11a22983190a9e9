package order

import (
	"math"
	"slices"
	"sort"
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// tubes adds up the cuts of each tube and says how many lengths to buy.
func (b *builder) tubes() {
	var slugs []string
	for _, c := range b.r.Cuts {
		if !slices.Contains(slugs, c.Tube) {
			slugs = append(slugs, c.Tube)
		}
	}
	for _, slug := range slugs {
		tube, ok := catalog.FindTube(slug)
		part, trust := catalog.Part{Slug: slug, Name: "tube, " + slug}, catalog.Unknown
		if ok {
			part, trust = catalog.TubePart(tube), tube.Trust
		}
		var cuts []q.Length
		var total q.Length
		for _, c := range b.r.Cuts {
			if c.Tube != slug {
				continue
			}
			cuts = append(cuts, c.Length)
			total += c.Length
			if c.Either > 0 {
				trust = catalog.Unknown
			}
		}
		b.list.add(rankTube, Line{Slug: part.Slug, Name: part.Name, Quantity: wholeMillimetres(total), Unit: metres, Note: b.stockNote(cuts), Trust: trust})
	}
}

// wholeMillimetres returns l in metres, rounded up to a millimetre.
func wholeMillimetres(l q.Length) float64 {
	return math.Ceil(l.Millimetres()-1e-6) / 1000
}

func (b *builder) stockNote(cuts []q.Length) string {
	n := StockLengths(cuts, b.in.Stock, b.in.Kerf)
	switch {
	case n == 0:
		return ""
	case n == 1:
		return "at least 1 length of " + q.Text(b.in.Stock)
	}
	return "at least " + strconv.Itoa(n) + " lengths of " + q.Text(b.in.Stock)
}

// StockLengths returns how many stock lengths the cuts come out of, the
// longest first and each out of the first length that still has it. That
// packing needs at most 11/9 of the least number and 6/9 more (Dósa 2007), so
// a patient person may do with one fewer. A cut longer than the stock takes
// whole lengths of its own, to be welded together. All in one unit; 0 where
// there is no stock.
func StockLengths(cuts []q.Length, stock, kerf q.Length) int {
	if stock <= 0 {
		return 0
	}
	kerf = max(kerf, 0)
	order := slices.Clone(cuts)
	sort.SliceStable(order, func(i, j int) bool { return order[i] < order[j] })
	var left []q.Length // of each length begun, a saw cut in hand for the last piece
	whole := 0
next:
	for i := len(order) - 1; i >= 0; i-- {
		c := order[i]
		if c > stock {
			n := math.Ceil(float64(c / stock))
			whole += int(min(n, 1e6))
			continue
		}
		for j := range left {
			if c+kerf <= left[j]+hair {
				left[j] -= c + kerf
				continue next
			}
		}
		left = append(left, stock-c)
	}
	return whole + len(left)
}

// hair is a difference in length that means nothing, far under any saw.
const hair = q.Length(1e-9)

// legs buys the legs. What tube they are of depends on what they carry, which
// is not ours to say.
func (b *builder) legs() {
	n, l := b.in.Legs, b.in.LegLength
	if n < 1 || l <= 0 {
		return
	}
	for i := range n {
		b.r.Cuts = append(b.r.Cuts, Cut{Ref: "stand", Name: "leg " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n), Length: l, Either: b.in.LegDoubt.Either, Hangs: b.in.LegDoubt.Hangs})
	}
	trust := catalog.Derived
	if b.in.LegDoubt.Either > 0 {
		trust = catalog.Unknown
	}
	b.list.add(rankLeg, Line{Slug: "leg-tube", Name: "leg tube, " + give(l, b.in.LegDoubt) + " each", Quantity: float64(n), Unit: pieces,
		Note: "size and wall by whoever checks the stand", Trust: trust})
}

// give tells a length with the doubt about it.
func give(l q.Length, d route.Doubt) string {
	if d.Either == 0 {
		return q.Text(l)
	}
	return q.Text(l) + " ± " + q.Text(d.Either)
}

// figures counts up.
func (b *builder) figures() []finding.Figure {
	var tube q.Length
	for _, c := range b.r.Cuts {
		if c.Tube != "" {
			tube += c.Length
		}
	}
	parts := 0.0
	for _, l := range b.r.Lines {
		if l.Unit == pieces {
			parts += l.Quantity
		}
	}
	count := func(slug, name, formula string, a q.Amount) finding.Figure {
		return finding.Figure{Slug: slug, Name: name, Amount: a, Working: finding.Working{Formula: formula, Source: "counted from the layout", Range: "the pieces of the design, nothing spare"}}
	}
	return []finding.Figure{
		count("welds", "Welds to make", "tube ends that meet, and one for every half or cap that is welded on", q.Of(q.Number(len(b.r.Welds)))),
		count("tube-length", "Tube to cut for the line", "the sum of the cuts, saw cuts not counted, legs not counted", q.Of(tube)),
		count("parts", "Parts to buy", "the sum of what is counted in pieces", q.Of(q.Number(parts))),
	}
}
