package stand

import (
	"math"
	"strconv"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// A stretch of something round: a leg, a brace, a bit of the line.
type rod struct {
	from, to route.Vec
	radius   float64
	ref      string
}

// LegTurns returns where the legs stand about the tank's axis, from the way to
// the pump or the outflow (x) to the left, seen from above. Nobody says where
// the first goes, and a workshop has to weld it somewhere: it is where the line
// has the most room to pass between legs and braces. Where no piece of the line
// comes as far out as they do, a leg stands half a step to either side of that
// way; ours, no source. Drawings, templates and RuleClear have them from here.
func (in Input) LegTurns() []q.Angle {
	turn := math.Pi / float64(max(1, in.Legs))
	if line := in.underfoot(); len(line) > 0 && in.Rise() > 0 {
		turn, _, _ = in.roomiest(line)
	}
	return in.around(turn)
}

// around returns where all legs stand with the first at turn.
func (in Input) around(turn float64) []q.Angle {
	out := make([]q.Angle, max(0, in.Legs))
	for k := range out {
		out[k] = q.Angle(turn + 2*math.Pi*float64(k)/float64(in.Legs))
	}
	return out
}

// Degrees tells turns in whole degrees: "60°, 180°, 300°".
func Degrees(turns []q.Angle) string {
	s := ""
	for k, t := range turns {
		if k > 0 {
			s += ", "
		}
		s += strconv.Itoa(int(math.Round(t.Degrees()))%360) + "°"
	}
	return s
}

// Way says from where LegTurns are counted.
func (in Input) Way() string {
	end := "the pump"
	if in.Layout.Gravity {
		end = "the outflow"
	}
	return "counted to the left (anticlockwise, seen from above) from the way to " + end
}

// roomiest returns the turn of the first leg that leaves line the most room, how
// much that is, and the piece that has it.
func (in Input) roomiest(line []rod) (at, best float64, ref string) {
	// The stand looks the same again after a turn of 360°/N.
	const steps = 36
	period := 2 * math.Pi / float64(in.Legs)
	best = math.Inf(-1)
	members := make([]rod, 0, 2*in.Legs)
	try := func(turn float64) {
		members = in.membersAt(turn, members[:0])
		if room, nearest := roomFor(line, members, best+1e-6); room > best+1e-6 {
			best, at, ref = room, turn, line[nearest].ref
		} else { // as likely in the way at the next turn: it is asked about first
			line[0], line[nearest] = line[nearest], line[0]
		}
	}
	for i := range steps {
		try(period * float64(i) / steps)
	}
	for step := period / steps / 2; step > 1e-4; step /= 2 {
		middle := at
		try(middle - step)
		try(middle + step)
	}
	return math.Mod(at+period, period), best, ref
}

// clearVerdict asks whether the stand can be so turned about the tank's axis
// that the line passes between its legs and braces. Silent where no piece of the
// line comes as far out as the legs.
func clearVerdict(in Input) []finding.Verdict {
	line := in.underfoot()
	if len(line) == 0 || in.Rise() <= 0 || in.Legs < 1 { // nothing to pass, or nothing to be passed
		return nil
	}
	at, best, ref := in.roomiest(line)
	v := finding.Verdict{Rule: RuleClear, Level: finding.Sound, Piece: ref, Basis: "geometry: legs and braces as tubes, unions as wide as what closes them; handles, brackets and the bucket are not reckoned"}
	// Nothing that is welded up stands so true, and no hand with a cloth passes: ours, no source.
	const tight = 20 * q.Millimetre
	room := q.Length(best)
	advice := "Take fewer legs" + markIf(in.Braced, ", leave out the braces there") + ", set the feet further out, or lead the line out at one side."
	if room > 0 {
		v.Sentence = "With the legs at " + Degrees(in.around(at)) + ", " + in.Way() + ", the line passes them with " + q.Text(room) + " to spare: no other turn leaves it more. The side view shows them so."
		if room < tight {
			v.Level, v.Advice = finding.Look, advice
			v.Sentence += " That is too little to clean behind, and a leg set a little askew closes it."
			v.Limit = amount(tight)
			v.Basis += "; that " + q.Text(tight) + " is room enough: common practice, no source"
		}
		return []finding.Verdict{v}
	}
	v.Level, v.Advice = finding.Stop, advice
	v.Sentence = "However the stand is turned, a leg" + markIf(in.Braced, " or a brace") + " stands in the way of the line, by " + q.Text(-room) + " at best: so it is drawn."
	return []finding.Verdict{v}
}

// underfoot returns the line as rods, those that come as far out as the legs
// and as high as they do.
func (in Input) underfoot() []rod {
	top, floor := in.LegsAt()
	most := math.Max(float64(top), float64(floor)) + float64(in.LegOD)
	least := math.Min(float64(top), float64(floor)) - float64(in.LegOD)
	if in.Braced { // a brace comes nearer to the axis half way between two legs
		least *= math.Cos(math.Pi / float64(in.Legs))
	}
	ceiling := float64(in.Height + in.LegTop)
	pieces := in.Layout.Pieces()
	rods := make([]rod, 0, 8*len(pieces))
	for _, p := range pieces {
		for k := range p.Path {
			s := &p.Path[k]
			const bits = 12 // of an arc, each bowed by under a hundredth of its radius
			n := 1
			if s.Radius > 0 {
				n = bits
			}
			radius := float64(max(p.In.Half.Tube.OD, p.Out.Half.Tube.OD)) / 2
			from, _ := s.Point(0)
			for i := range n {
				to, _ := s.Point(float64(i+1) / float64(n))
				rods = append(rods, rod{from, to, radius, p.Ref})
				from = to
			}
		}
		rods = append(rods, rod{p.In.At, p.In.At, float64(p.In.Half.Outside()), p.Ref}, rod{p.Out.At, p.Out.At, float64(p.Out.Half.Outside()), p.Ref})
	}
	n := 0
	for _, r := range rods {
		inner, outer := reachOf(r)
		if outer+r.radius < least || inner-r.radius > most || math.Min(r.from.Z, r.to.Z)-r.radius > ceiling {
			continue
		}
		rods[n] = r
		n++
	}
	return rods[:n]
}

// reachOf returns how near to the tank's axis r comes in plan, and how far from it.
func reachOf(r rod) (inner, outer float64) {
	a, b := r.from, r.to
	a.Z, b.Z = 0, 0
	axis := rod{from: route.Vec{}, to: route.Vec{}}
	return between(rod{from: a, to: b}, axis), math.Max(a.Len(), b.Len())
}

// membersAt appends the legs and braces to members, with the first leg turned
// so far to the left.
func (in Input) membersAt(turn float64, members []rod) []rod {
	top, floor := in.LegsAt()
	high, low := float64(in.Height+in.LegTop), 0.0
	at := func(k int, r q.Length, z float64) route.Vec {
		sin, cos := math.Sincos(turn + 2*math.Pi*float64(k)/float64(in.Legs))
		return route.Vec{X: float64(r) * cos, Y: float64(r) * sin, Z: z}
	}
	for k := range in.Legs {
		foot := at(k, floor, low)
		members = append(members, rod{from: foot, to: at(k, top, high), radius: float64(in.LegOD) / 2})
		if in.Braced {
			members = append(members, rod{from: foot, to: at(k+1, top, high), radius: float64(in.BraceOD) / 2})
		}
	}
	return members
}

// roomFor returns the least that is free between line and members, and which of
// line has it. It looks no further once no more than enough is free.
func roomFor(line, members []rod, enough float64) (room float64, nearest int) {
	room = math.Inf(1)
	for i := range line {
		for _, m := range members {
			if free := between(line[i], m) - line[i].radius - m.radius; free < room {
				room, nearest = free, i
			}
		}
		if room <= enough {
			break
		}
	}
	return room, nearest
}

// between returns the distance between the axes of two rods, the nearest points
// of two segments (Ericson, Real-Time Collision Detection, 2005, 5.1.9). Two that
// are out of parallel by less than a millionth are taken as parallel, so that
// it may come out too large by that part of their length.
func between(p, r rod) float64 {
	u, v, w := p.to.Sub(p.from), r.to.Sub(r.from), p.from.Sub(r.from)
	a, e, f := u.Dot(u), v.Dot(v), v.Dot(w)
	clamp := func(x float64) float64 { return math.Max(0, math.Min(1, x)) }
	const (
		point    = 1e-18 // square of a length that is none
		parallel = 1e-6  // sine of an angle that is none
	)
	var s, t float64
	switch {
	case a <= point && e <= point:
	case a <= point:
		t = clamp(f / e)
	default:
		c := u.Dot(w)
		if e <= point {
			s = clamp(-c / a)
			break
		}
		b := u.Dot(v)
		if d := a*e - b*b; d > parallel*parallel*a*e {
			s = clamp((b*f - c*e) / d)
		}
		switch t = (b*s + f) / e; {
		case t < 0:
			t, s = 0, clamp(-c/a)
		case t > 1:
			t, s = 1, clamp((b-c)/a)
		}
	}
	return w.Add(u.Scale(s)).Sub(v.Scale(t)).Len()
}
