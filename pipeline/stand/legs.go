package stand

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/vessel"
)

// Legs is what the legs come to.
type Legs struct {
	LegCount  int
	LegLength q.Length    // of one leg tube; 0 where the height leaves none
	LegDoubt  route.Doubt // about LegLength
	PerLength int         // out of one stock length; 0 where a leg is longer than that
	Lengths   int         // stock lengths to buy
	Offcut    q.Length    // left of the last

	Brace      q.Length    // of one brace, where there are any: between the middles of two legs
	BraceDoubt route.Doubt // about Brace
}

// heightDoubt returns how far the height may be out. A height that somebody
// asked for stands as asked. One that follows from the needs is the largest of
// them: it may come out as high as any of them may, and no lower than each at
// its least.
func heightDoubt(in Input, ds []Driver) route.Doubt {
	if in.HeightTyped || len(ds) == 0 {
		return route.Doubt{}
	}
	high, low := &ds[0], &ds[0]
	for i := range ds {
		if ds[i].Needed+ds[i].Either > high.Needed+high.Either {
			high = &ds[i]
		}
		if ds[i].Needed-ds[i].Either > low.Needed-low.Either {
			low = &ds[i]
		}
	}
	up, down := high.Needed+high.Either-ds[0].Needed, ds[0].Needed-low.Needed+low.Either
	if down > up {
		return route.Doubt{Either: down, Hangs: ds[0].Hangs}
	}
	return route.Doubt{Either: up, Hangs: high.Hangs}
}

// legsOf works the legs out; height is the doubt about the height, which they share.
func legsOf(in Input, height route.Doubt) Legs {
	l := Legs{LegCount: in.Legs, LegLength: in.leg()}
	if in.Rise() <= 0 || in.Legs < 1 {
		l.LegLength = 0
		return l
	}
	l.LegDoubt = in.follows(height, Input.leg)
	if in.Braced {
		l.Brace, l.BraceDoubt = in.brace(), in.follows(height, Input.brace)
	}
	l.PerLength = PerLength(l.LegLength, in.Stock, in.Kerf)
	if l.PerLength == 0 {
		return l
	}
	l.Lengths = (in.Legs + l.PerLength - 1) / l.PerLength
	last := q.Length(in.Legs - (l.Lengths-1)*l.PerLength)
	l.Offcut = max(0, in.Stock-last*(l.LegLength+in.Kerf))
	return l
}

// brace is the length of a brace, between the middles of two legs.
func (in Input) brace() q.Length {
	_, length := in.BraceRun()
	return length
}

// leg is the length of the tube that a leg is sawn from.
func (in Input) leg() q.Length {
	return q.Length(float64(in.Rise())/math.Cos(float64(in.Splay))) + in.skew()
}

// skew is how much longer than any side of it the tube is that a leaning leg
// for a flat bottom is sawn from: both its ends are sawn level, and end on
// opposite sides. Under any other bottom its outside reaches furthest at both ends.
func (in Input) skew() q.Length {
	if in.Tank.Vessel.Bottom != vessel.Flat {
		return 0
	}
	return in.LegOD * q.Length(math.Tan(float64(in.Splay)))
}

// follows returns how far a length is out that follows from a height which is:
// of a brace by more on the way up than on the way down, so that is what counts.
func (in Input) follows(height route.Doubt, length func(Input) q.Length) (d route.Doubt) {
	by := func(higher q.Length) q.Length {
		up := in
		up.Height += higher
		return length(up) - length(in)
	}
	d.Either = by(height.Either)
	for _, s := range height.Hangs {
		s.By = by(s.By)
		d.Hangs = append(d.Hangs, s)
	}
	return d
}

// PerLength returns how many pieces come out of a stock length. There is a
// saw cut between pieces and none after the last where nothing is left over:
//
//	n·piece + (n − 1)·kerf ≤ stock
//
// Common practice, no source. Lengths in one unit; 0 for a piece that is too
// long or no piece at all.
func PerLength(piece, stock, kerf q.Length) int {
	kerf = max(kerf, 0)
	if piece <= 0 || piece > stock {
		return 0
	}
	// A part in a thousand million forgives floating point and no saw.
	return int(math.Min(maxPerLength, math.Floor(float64((stock+kerf)/(piece+kerf))*(1+1e-9))))
}

// maxPerLength keeps a count of absurdly short pieces within an int.
const maxPerLength = 1e6

func legVerdicts(in Input, l Legs) []finding.Verdict {
	v := finding.Verdict{
		Rule:   RuleLegs,
		Level:  finding.Stop,
		Piece:  "stand",
		Figure: figureLeg,
		Basis:  "geometry",
	}
	switch {
	case l.LegLength <= 0:
		v.Sentence = "There is no length left for the legs: the outlet face is " + q.Text(in.Height) + " over the floor, their top " +
			q.Text(in.LegTop) + " over that, and the foot takes " + q.Text(in.Foot) + "."
		v.Advice = "Raise the tank, fix the legs higher up, or use a lower foot."
	case l.PerLength == 0:
		leg, stock := q.Apart(l.LegLength, in.Stock)
		v.Sentence = "A leg of " + leg + " is longer than the " + stock + " it is to be cut from."
		v.Advice = "Buy longer stock, or lower the tank."
		v.Limit = amount(in.Stock)
	default:
		return nil
	}
	return []finding.Verdict{v}
}

func amount(l q.Length) *q.Amount {
	a := q.Of(l)
	return &a
}
