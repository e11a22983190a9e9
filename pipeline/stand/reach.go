package stand

import (
	"math"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// line is how the suction line (by gravity: the whole line) answers to a
// change in the height of the tank.
//
// What lies before the first length that gives moves up and down with the
// tank; what lies after it stays with the pump. A line in which nothing gives
// meets the pump at one height only.
type line struct {
	toPump bool          // the line ends at a pump
	free   bool          // its end may be at any height
	rigid  bool          // nothing in it gives and its end is not free
	climbs bool          // a riser is made to fit, so any lower height is reached too, by climbing
	miss   q.Length      // target over the line's end, as laid
	give   q.Length      // how far the outlet face could come down before all that gives is used up
	level  q.Length      // run of what is laid flatter than the least fall
	fall   q.Length      // what that run would drop by, laid to the least fall, over what it drops now
	pieces []route.Piece // all of it, in flow order
	first  int           // index of the first that gives; pieces before it move with the tank
	under  int           // how many of pieces hang under the outlet
	doubt  route.Doubt   // about the drop of what is rigid
}

// moves returns what goes up and down with the tank.
func (l line) moves() []route.Piece { return l.pieces[:l.first] }

// stays returns what keeps its height when the tank is raised.
func (l line) stays() []route.Piece { return l.pieces[l.first:] }

// end returns what the line has to meet.
func (l line) end() string {
	if l.toPump {
		return "the pump inlet"
	}
	return "the outflow"
}

// stack returns how many of the pieces under the outlet move with the tank.
func (l line) stack() int { return min(l.under, l.first) }

// steep is the sine of 60°, over which a straight is said to run up or down
// rather than along; the same division as for the turn of a piece.
const steep = 0.8660254037844386

func reach(in Input) line {
	lay := in.Layout
	l := line{toPump: !lay.Gravity, miss: q.Length(lay.Suction.By.Z), under: len(lay.Under)}
	l.pieces = lay.ToPump()
	if lay.Gravity {
		l.miss, l.free = q.Length(lay.Discharge.By.Z), in.FreeOutflow
	}
	l.first = len(l.pieces)
	for i := range l.pieces {
		p := &l.pieces[i]
		level, drop := extent(p)
		fit := p.Fit
		switch {
		case fit && p.Kind == design.Hose:
			// A hose reaches any height; it has to fall over its level reach.
			l.give += drop
			l.allow(level, 0, in.FallLimit)
			l.first = min(l.first, i)
		case fit && p.In.Dir.Z <= -steep:
			l.give += q.Length(-p.In.Dir.Z) * p.Cut // its ends cannot be used up
			l.first = min(l.first, i)
		case fit && p.In.Dir.Z >= steep:
			l.climbs = true
			l.first = min(l.first, i)
		default:
			if runsLevel(p) {
				l.allow(level, drop, in.FallLimit)
			}
		}
	}
	if l.first == len(l.pieces) {
		l.slants(in.Layout)
	}
	l.doubt = route.TermsOf(l.pieces, lay.Junctions).Upright()
	l.rigid = !l.free && l.first == len(l.pieces)
	return l
}

// slants looks for what gives in a line without a straight that runs up or
// down: one that runs down at 45°, say, between bends of that angle, whose
// length and that of a level one together take up any height. So does one laid
// to a fall whose end may be anywhere in plan.
func (l *line) slants(lay route.Layout) {
	const share = 0.05 // of a change of height that one must take up to count: far over what a usual fall does
	give := q.Length(math.Inf(1))
	for i := range l.pieces {
		p := &l.pieces[i]
		if !p.Fit || p.Kind != design.Straight {
			continue
		}
		longer := lay.Lengthens(p)
		if -longer*p.In.Dir.Z < share {
			continue
		}
		l.first = min(l.first, i)
		if longer < 0 {
			l.climbs = true
		} else {
			give = min(give, p.Cut/q.Length(longer))
		}
	}
	if l.first < len(l.pieces) && !l.climbs {
		l.give += give
	}
}

// allow adds the fall that a level run still wants. A run that climbs more
// than a hair is somebody's intention, which the rules of draining judge.
func (l *line) allow(level, drop q.Length, limit q.Slope) {
	want := q.Length(float64(limit) * float64(level))
	if drop >= want || drop < -want {
		return
	}
	l.level += level
	l.fall += want - drop
}

// extent returns how far p runs along the level and how far it drops.
func extent(p *route.Piece) (level, drop q.Length) {
	x, y := p.Out.At.X-p.In.At.X, p.Out.At.Y-p.In.At.Y
	return q.Length(math.Sqrt(x*x + y*y)), q.Length(p.In.At.Z - p.Out.At.Z)
}

// runsLevel reports whether p is a straight, or something as straight, that
// runs along rather than up or down. A bend only passes from one to the other.
func runsLevel(p *route.Piece) bool {
	return p.Kind != design.Bend && math.Abs(p.In.Dir.Z) < steep && math.Abs(p.Out.Dir.Z) < steep
}

// heightOf returns the doubt about the height over the floor of the piece at
// ref: of what lies between it and the tank while it moves with the tank, of
// what lies between it and the pump where it stays with the pump.
func (l line) heightOf(in Input, ref string) route.Doubt {
	joints := in.Layout.Junctions
	n := len(l.pieces)
	upTo := func(i int) []route.Junction { return joints[:min(i, len(joints))] }
	for k := range l.pieces {
		switch {
		case l.pieces[k].Ref != ref:
		case k < l.first:
			return route.TermsOf(l.pieces[:k+1], upTo(k+1)).Upright()
		default:
			after := upTo(n + 1)
			return route.TermsOf(l.pieces[k:], after[min(k+1, len(after)):]).Upright()
		}
	}
	for k := range in.Layout.Delivery {
		if in.Layout.Delivery[k].Ref == ref {
			up := upTo(n + 2 + k)
			return route.TermsOf(in.Layout.Delivery[:k+1], up[min(n+1, len(up)):]).Upright()
		}
	}
	return route.Doubt{}
}

// hanging returns how far the first n pieces reach below the outlet face, and
// the doubt about it.
func (l line) hanging(in Input, n int) (q.Length, route.Doubt) {
	if n == 0 {
		return 0, route.Doubt{}
	}
	doubt := route.TermsOf(l.pieces[:n], in.Layout.Junctions[:min(n, len(in.Layout.Junctions))]).Upright()
	return max(0, in.Height-route.Lowest(l.pieces[:n])), doubt
}
