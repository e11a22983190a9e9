package joint

import (
	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// hair is a difference in length that means nothing: a thousandth of a
// micrometre, far over what floating point adds and far under any tolerance.
const hair = q.Length(1e-9)

// widest is the largest limit that is taken at its word, in walls: beyond it nothing is a step.
const widest = 1000

// step is how far two ends miss each other, on one side.
type step struct {
	outside, bore q.Length // both 0 or more
	wall          q.Length // the thinner
}

func stepOf(up, down catalog.Half) step {
	return step{
		outside: abs(up.Tube.OD-down.Tube.OD) / 2,
		bore:    abs(up.Tube.Bore()-down.Tube.Bore()) / 2,
		wall:    min(up.Tube.Wall, down.Tube.Wall),
	}
}

// counts returns the step that is held against the limit. For a weld it is
// the larger of the two, since the weld has to bridge both; the outside of a
// union's tubes does not matter to anybody.
func (s step) counts(weld bool) q.Length {
	if weld {
		return max(s.outside, s.bore)
	}
	return s.bore
}

// large are the sizes of tube that ASME BPE-2012 Table MJ-8.4-1 allows more
// on the outside of a butt weld than 15 % of the wall, for the wider tolerance
// of their OD, which is as much: a tube within that of its nominal OD is one.
var large = [...]struct{ od, outside q.Length }{
	{101.6 * q.Millimetre, 0.38 * q.Millimetre}, // 4 in
	{152.4 * q.Millimetre, 0.76 * q.Millimetre}, // 6 in
}

// bpePart is the part of the wall that the table allows. Who holds a plant to
// less does not get its exceptions either.
const bpePart = 0.15

// allowance is how far two ends may miss each other on one side.
type allowance struct{ outside, bore q.Length }

// allowed returns what a limit, as a part of the thinner wall, comes to for two ends.
func allowed(up, down catalog.Half, limit float64) allowance {
	if !(limit > 0) {
		limit = 0
	}
	a := q.Length(min(limit, widest) * float64(min(up.Tube.Wall, down.Tube.Wall)))
	out := allowance{outside: a, bore: a}
	for _, l := range large {
		if limit >= bpePart && abs(up.Tube.OD-l.od) <= l.outside+hair && abs(down.Tube.OD-l.od) <= l.outside+hair {
			out.outside = max(a, l.outside)
		}
	}
	return out
}

// within reports whether s is no more than a. The outside of a union's tubes
// does not matter to anybody.
func (s step) within(a allowance, weld bool) bool {
	return s.bore <= a.bore+hair && (!weld || s.outside <= a.outside+hair)
}

// stepFault holds the step between two ends against the limit.
func stepFault(up, down catalog.Half, limit float64) (Fault, bool) {
	s := stepOf(up, down)
	weld := up.Plain() && down.Plain()
	a := allowed(up, down, limit)
	if s.within(a, weld) {
		return Fault{}, false
	}
	f := Fault{Rule: RuleStep, Level: finding.Stop}
	ledge, allowed := q.CaliperApart(s.bore, a.bore)
	where := ", where " + allowed + " is allowed (" + percent(max(0, min(limit, widest))) + " of the " + q.Caliper(s.wall) + " wall)."
	switch {
	case !weld && up.Joint.Family == down.Joint.Family:
		f.Sentence = sentence(closes(up.Joint) + ", but the bores differ (" + q.Caliper(up.Tube.Bore()) + " and " + q.Caliper(down.Tube.Bore()) +
			"): a ledge of " + ledge + " all round, which nobody sees from outside and no seal covers" + where)
		f.Advice = "Make both halves for the same tube; where the size has to change, change it in a reducer."
	case !weld:
		f.Sentence = "Whatever joins these two ends, the bores differ (" + q.Caliper(up.Tube.Bore()) + " and " + q.Caliper(down.Tube.Bore()) +
			"): a ledge of " + ledge + " all round" + where
		f.Advice = "Use the same tube on both sides; where the size has to change, change it in a reducer."
	case s.counts(true) > s.wall:
		f.Sentence = "Tube of " + q.Caliper(up.Tube.OD) + " meets tube of " + q.Caliper(down.Tube.OD) + ": they miss each other by " +
			q.Caliper(s.counts(true)) + " all round, more than the wall is thick, and cannot be welded."
		f.Advice = "Put a reducer between them, or use the same tube on both sides."
	case s.bore <= a.bore+hair:
		outside, most := q.CaliperApart(s.outside, a.outside)
		if a.outside > a.bore {
			where = ", where " + most + " is allowed on tube of this size."
		}
		f.Sentence = "The bores are level, but the outsides step by " + outside + " all round" + where
		f.Advice = "Use the same tube on both sides, or have the end prepared to match before it is welded."
	default:
		f.Sentence = "Tube of " + tubeSize(up.Tube) + " meets tube of " + tubeSize(down.Tube) +
			": they look alike, but the bore steps by " + ledge + " all round" + where
		f.Advice = "Use the same tube on both sides, or have the end prepared to match before it is welded."
	}
	f.Basis = stepBasis(weld)
	return f, true
}

func stepBasis(weld bool) string {
	if weld {
		return "ASME BPE-2012 Table MJ-8.4-1; that the larger of the steps outside and in the bore counts is our reading"
	}
	return "ASME BPE-2012 Table MJ-8.4-1, written for butt welds; that it holds for the bores in a union is our reading"
}

func abs(l q.Length) q.Length { return max(l, -l) }
