package route

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Doubts are added up as the worst case: each length out by all of its doubt
// and all of them the same way, no root of the sum of squares. Three reasons.
// A width of doubt is no standard deviation: it is meant to hold whatever is
// on the market. Lengths are not out each for itself: the ferrules of one
// order come from one maker and are all long or all short together. And there
// are only a few of them, with a saw cut at the end that cannot be put back.

// Doubt is how far an answer may be out until parts are measured.
type Doubt struct {
	Either q.Length        // half-width, the worst case
	Hangs  []finding.Share // what it hangs on, the largest first: the one to measure first
}

// Terms are the lengths of a stretch of line whose mark is lower than
// standard, each with the way it runs. A length that counts twice is there twice.
type Terms []term

type term struct {
	dim   *catalog.Dimension
	along Vec // unit
}

// TermsOf returns the terms of pieces and of the joints before them; a joint
// more than there are pieces is the one after the last.
func TermsOf(pieces []Piece, joints []Junction) Terms {
	ts := make(Terms, 0, 2*len(pieces))
	add := func(d *catalog.Dimension, along Vec) {
		if d.Either > 0 || d.Trust == catalog.Memory || d.Trust == catalog.Custom {
			ts = append(ts, term{d, along})
		}
	}
	for i := range joints {
		if i <= len(pieces) {
			add(&joints[i].Gap, joints[i].Up.Dir)
		}
	}
	for i := range pieces {
		for k := range pieces[i].Dims {
			add(&pieces[i].Dims[k], pieces[i].runs(k))
		}
	}
	return ts
}

// runs returns the way that the length Dims[k] runs: that of the half
// downstream and the last length of the body along the flow out of the piece,
// any other along the flow into it. What is bought with its ends on has none of
// halves.
func (p *Piece) runs(k int) Vec {
	down := -1
	if !p.Out.Half.Plain() && !withEnds(p.Kind) {
		down = 0
		if !p.In.Half.Plain() {
			down = 1
		}
	}
	if k == down || k == len(p.Dims)-1 {
		return p.Out.Dir
	}
	return p.In.Dir
}

// Upright returns how far the terms put the heights of the two ends of their
// stretch out against each other.
func (ts Terms) Upright() Doubt {
	return ts.weighed(func(along Vec) float64 { return along.Z })
}

// weighed adds up the terms, each by the part of it that weigh tells.
func (ts Terms) weighed(weigh func(Vec) float64) Doubt {
	d := Doubt{}
	if len(ts) > 0 {
		d.Hangs = make([]finding.Share, 0, min(len(ts), 6))
	}
next:
	for i := range ts {
		by := math.Abs(weigh(ts[i].along))
		if by < small {
			continue
		}
		share := finding.Share{Dimension: ts[i].dim.Slug, Trust: string(ts[i].dim.Trust), By: ts[i].dim.Either * q.Length(by)}
		d.Either += share.By
		for k := range d.Hangs {
			if d.Hangs[k].Dimension == share.Dimension {
				d.Hangs[k].By += share.By
				continue next
			}
		}
		d.Hangs = append(d.Hangs, share)
	}
	if len(d.Hangs) == 0 {
		return Doubt{}
	}
	for i := range d.Hangs { // a handful: sorted in as they stand
		for k := i; k > 0 && d.Hangs[k].By > d.Hangs[k-1].By; k-- {
			d.Hangs[k], d.Hangs[k-1] = d.Hangs[k-1], d.Hangs[k]
		}
	}
	return d
}

// CutDoubt returns the doubt about the length of p, a piece of l that is made
// to fit: it takes up that of every length in its line that runs its way. The
// zero Doubt for any other piece.
//
// The lengths of straights made to fit are the least-norm solution of
// D x = miss (see fits), so that the k-th is out by d_k · (D Dᵀ)⁺ along for
// each term: a straight that has the direction for itself takes all of it, and
// straights side by side share it.
func (l *Layout) CutDoubt(p *Piece) Doubt {
	if !p.Fit {
		return Doubt{}
	}
	pieces, joints, held := l.lineOf(p)
	if p.Kind == design.Hose {
		s := &p.Path[0]
		if taut := q.Length(s.To.Sub(s.From).Len()) >= p.Length-q.Millimetre; !taut {
			return Doubt{} // its slack takes it up
		}
		return TermsOf(pieces, joints).weighed(held.only(p.Path[0].Dir).Dot)
	}
	taken := spanned(pieces, held).inverse(held.only(p.In.Dir))
	return TermsOf(pieces, joints).weighed(taken.Dot)
}

// Lengthens returns by how much p, a straight made to fit, gets longer when the
// start of its line is raised by one; negative where it gets shorter. 0 where
// nothing that is made to fit takes up a height, or not without missing aside.
func (l *Layout) Lengthens(p *Piece) float64 {
	pieces, _, held := l.lineOf(p)
	var m [3][3]float64
	for i := range pieces {
		if other := &pieces[i]; other.Fit && other.Kind == design.Straight {
			outer(&m, held.only(other.In.Dir))
		}
	}
	s, up := spanOf(m), held.only(Vec{Z: 1})
	if up.Sub(s.onto(up)).Len() > small {
		return 0
	}
	return -s.inverse(held.only(p.In.Dir)).Dot(up)
}

// Seams returns how many welded seams of its line a straight p made to fit
// stands for: by so many gaps it is sawn shorter, where one is left at every
// seam. Each counts by the part of it that runs the way of p, and straights side
// by side share it, as for CutDoubt; one that runs across all that is made to
// fit is nobody's. A piece that is bought with its ends on has no seam there.
func (l *Layout) Seams(p *Piece) float64 {
	pieces, joints, held := l.lineOf(p)
	taken := spanned(pieces, held).inverse(held.only(p.In.Dir))
	n := 0.0
	for i := range joints {
		if i <= len(pieces) && joints[i].Up.Half.Plain() && joints[i].Down.Half.Plain() {
			n += taken.Dot(joints[i].Up.Dir)
		}
	}
	for i := range pieces {
		other := &pieces[i]
		if withEnds(other.Kind) || other.Kind == design.Cap {
			continue
		}
		for _, end := range [...]*End{&other.In, &other.Out} {
			if !end.Half.Plain() {
				n += taken.Dot(end.Dir)
			}
		}
	}
	return n
}

// SuctionDoubt returns the doubt about l.Suction, less what is made to fit there.
func (l *Layout) SuctionDoubt() Doubt {
	n := len(l.Under) + len(l.Run)
	return leftOver(l.Pieces()[:n], l.Junctions[:min(n+1, len(l.Junctions))], target{held: Vec{1, 1, 1}})
}

// DischargeDoubt returns the same of l.Discharge.
func (l *Layout) DischargeDoubt() Doubt {
	pieces, first := l.Delivery, len(l.Under)+len(l.Run)+1
	if l.Gravity {
		pieces, first = l.Pieces(), 0
	}
	return leftOver(pieces, l.Junctions[min(first, len(l.Junctions)):], l.outflow)
}

// leftOver is what straights made to fit cannot take up: terms that run across
// all of them. A hose made to fit takes up everything.
func leftOver(pieces []Piece, joints []Junction, t target) Doubt {
	if n := len(pieces); n > 0 && pieces[n-1].Fit && pieces[n-1].Kind == design.Hose {
		return Doubt{}
	}
	s := spanned(pieces, t)
	return TermsOf(pieces, joints).weighed(func(along Vec) float64 {
		along = t.only(along)
		return along.Sub(s.onto(along)).Len()
	})
}

// lineOf returns the line that p is in, its joints and where it should come to.
func (l *Layout) lineOf(p *Piece) ([]Piece, []Junction, target) {
	n := len(l.Under) + len(l.Run)
	switch {
	case l.Gravity:
		return l.Pieces(), l.Junctions, l.outflow
	case p.Number <= n:
		return l.Pieces()[:n], l.Junctions[:min(n+1, len(l.Junctions))], target{held: Vec{1, 1, 1}}
	}
	return l.Delivery, l.Junctions[min(n+1, len(l.Junctions)):], l.outflow
}

// span is the space that the straights made to fit can move in.
type span struct {
	values  [3]float64
	vectors [3]Vec
}

// spanned returns the span of those of pieces that are made to fit and have a
// length; one without cannot give.
func spanned(pieces []Piece, t target) span {
	var m [3][3]float64
	for i := range pieces {
		if p := &pieces[i]; p.Fit && p.Kind == design.Straight && p.Cut > small {
			outer(&m, t.only(p.In.Dir))
		}
	}
	return spanOf(m)
}

// spanOf returns the span of the directions d of which m is Σ d dᵀ.
func spanOf(m [3][3]float64) span {
	s := span{}
	s.values, s.vectors = eigen(m)
	// Two straights that differ by less than 1 in 100 000 count as parallel.
	floor := 1e-10 * max(s.values[0], s.values[1], s.values[2])
	for i, l := range s.values {
		if l <= floor {
			s.values[i] = 0
		}
	}
	return s
}

// outer adds d dᵀ to m.
func outer(m *[3][3]float64, d Vec) {
	c := [3]float64{d.X, d.Y, d.Z}
	for j := range c {
		for k := range c {
			m[j][k] += c[j] * c[k]
		}
	}
}

// inverse returns (Σ d dᵀ)⁺ v.
func (s span) inverse(v Vec) Vec {
	var y Vec
	for i, l := range s.values {
		if l > 0 {
			y = y.Add(s.vectors[i].Scale(s.vectors[i].Dot(v) / l))
		}
	}
	return y
}

// onto returns the part of v that lies in the span.
func (s span) onto(v Vec) Vec {
	var y Vec
	for i, l := range s.values {
		if l > 0 {
			y = y.Add(s.vectors[i].Scale(s.vectors[i].Dot(v)))
		}
	}
	return y
}

// Overturns reports whether a verdict with spare to its limit (negative: it
// falls short by that) could turn out the other way.
func (d Doubt) Overturns(spare q.Length) bool {
	return float64(d.Either) > math.Abs(float64(spare))+float64(q.Millimetre)/100
}

// Mark says in v, which rests on an answer in doubt by d with spare to its
// limit, that it could turn out the other way, and what to measure first. What
// was sound is then for a person to look at.
func (d Doubt) Mark(v *finding.Verdict, spare q.Length) {
	if !d.Overturns(spare) {
		return
	}
	v.Measure = d.Hangs[0].Dimension
	either := "± " + q.Text(d.Either)
	if q.Text(d.Either) == q.Text(max(spare, -spare)) {
		either = q.Hair + " more"
	}
	lengths := "A length that nobody has measured puts"
	if len(d.Hangs) > 1 {
		lengths = "Lengths that nobody has measured put"
	}
	v.Sentence += " " + lengths + " this in doubt by " + either + ", so it may turn out the other way."
	if v.Level == finding.Sound {
		v.Level = finding.Look
		v.Advice = "Before you cut or order, measure the " + catalog.DimensionName(v.Measure) + ": nothing here is in more doubt."
	}
}
