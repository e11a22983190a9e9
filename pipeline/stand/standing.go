package stand

import (
	"math"
	"strconv"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

const (
	tipBasis = "IEC 60335-1 clause 20.1: 10° at the most unfavourable fill, castors blocked; written for appliances, here as guidance. " +
		"The free surface by the wall-sided formula of naval architecture, summed up where it comes down to a bottom nearly flat"
	pushBasis = "IEC 62368-1: 13 % of the weight, at most 250 N, at no more than 1.5 m; written for equipment, here as guidance"
	loadBasis = "EN 1993-1-4 clause 5.4.2 with the loads times 1.5 as EN 1990 has it, from memory; a third of the weight on each of three feet, half of it on each of the worst two of more; " +
		"steel 1.4301, EN 10088-1, its strength at heat EN 10028-7, from memory"
)

func tipVerdict(s *steady, worst Posture) finding.Verdict {
	in := s.in
	v := finding.Verdict{Rule: RuleTip, Level: finding.Sound, Piece: "stand", Limit: new(q.Of(in.Tip)), Basis: tipBasis}
	slant := in.slant()
	v.Sentence = "It tips on an incline of " + q.Text(worst.Tip) + ", soonest " + fillWords(in, worst.Level) + ", with its " + strconv.Itoa(in.Legs) + " feet " + q.Text(in.feet()) + " from the axis"
	if in.Castors > 0 {
		v.Sentence += " and the castors swivelled inwards"
	}
	v.Sentence += "."
	if slant > 0 {
		v.Sentence += " Its floor has it lean by " + q.Text(slant) + " already."
	}
	left := worst.Tip - slant
	switch {
	case in.Anchored:
		v.Sentence += " It is anchored: what holds it must be made for that, and checked."
	case left < in.Tip:
		v.Level = finding.Look
		if left <= 0 {
			v.Level = finding.Stop
		}
		if q.Text(left) == q.Text(in.Tip) { // rounded it would seem to be enough
			v.Sentence += " That is " + q.By(in.Tip-left) + " short."
		}
		v.Advice = "Set the feet " + q.Text(s.feetFor(in.Tip+slant, worst)) + " from the axis, " + markIf(in.Legs < 6, "take one leg more, ") + "stand the tank lower, or anchor it to floor or wall."
	}
	return v
}

// feetFor returns the radius of the feet with which the tank tips on no less
// than tip, at the level that is worst for it: where that is does not hang on the arm by much.
func (s *steady) feetFor(tip q.Angle, worst Posture) q.Length {
	t := math.Tan(float64(tip))
	most := 0.0
	for _, p := range [...]Posture{s.with(0), worst, s.with(s.in.Tank.Full)} {
		aside, height := s.centre(p.Level, t)
		most = math.Max(most, aside+height*t)
	}
	return q.Length((most + float64(s.in.Castors)) / math.Cos(math.Pi/float64(max(3, s.in.Legs))))
}

func pushVerdict(s *steady) finding.Verdict {
	in := s.in
	v := finding.Verdict{Rule: RulePush, Level: finding.Sound, Piece: "stand", Basis: pushBasis}
	empty := s.with(0) // the lightest is pushed over with the least, and held to the least
	want := q.Force(math.Min(250, 0.13*float64(empty.Mass)*gravity))
	full := s.with(in.Tank.Full)
	if wantFull := q.Force(math.Min(250, 0.13*float64(full.Mass)*gravity)); full.Push-wantFull < empty.Push-want {
		empty, want = full, wantFull
	}
	v.Limit = new(q.Of(want))
	push, least := q.Apart(empty.Push, want)
	v.Sentence = "A level push of " + push + " at " + q.Text(in.pushAt()) + " tips it, " + fillWords(in, empty.Level) + " and " + q.Text(empty.Mass) + " in all."
	if empty.Push < want && !in.Anchored {
		v.Level = finding.Look
		v.Sentence += " It should take " + least + "."
		v.Advice = "Set the feet further out, or anchor it: somebody who leans on it pushes as hard."
	}
	return v
}

// nearlyEmpty is a level that nobody on the shop floor would call a filling. Ours, no source.
const nearlyEmpty = 5 * q.Millimetre

// fillWords says how full the tank is at level.
func fillWords(in Input, level q.Length) string {
	switch {
	case level <= 0:
		return "empty"
	case level < nearlyEmpty:
		return "all but empty"
	case level >= in.Tank.Full:
		return "full"
	}
	return "filled to " + q.Text(level) + " over the lowest inside point"
}

func rockVerdict(in Input) finding.Verdict {
	need := in.adjusters()
	v := finding.Verdict{Rule: RuleRock, Level: finding.Sound, Piece: "stand", Limit: amount(need),
		Basis: "geometry: three points lie in one plane, more do not; the floor as typed"}
	short := in.Adjust < need-q.Millimetre/100
	has, wants := q.Apart(in.Adjust, need)
	switch {
	case in.Legs == 3 && !short:
		v.Sentence = "Three legs never rock."
		if in.FloorFall > 0 {
			v.Sentence += " Its adjusters, " + q.Text(in.Adjust) + ", take up the fall of the floor, " + q.Text(need) + " from foot to foot."
		}
	case in.Legs == 3:
		v.Level = finding.Look
		v.Sentence = "Three legs never rock, but the floor falls " + wants + " between the feet and the adjusters take up " + has + ": the tank leans."
		v.Advice = "Give each foot an adjuster of at least " + q.Text(need) + ", or cut the legs to the floor."
	case short:
		v.Level = finding.Look
		v.Sentence = strconv.Itoa(in.Legs) + " legs rock on a floor that is not flat: they need " + wants + " of adjustment here and have " + has + "."
		v.Advice = "Give each foot an adjuster of at least " + q.Text(need) + ", or stand it on three."
	default:
		v.Sentence = "The adjusters, " + q.Text(in.Adjust) + ", let all " + strconv.Itoa(in.Legs) + " feet touch; the floor takes " + q.Text(need) + "."
	}
	return v
}

func loadVerdict(s *steady, full Posture) finding.Verdict {
	in := s.in
	l := s.loads(full.Mass)
	v := finding.Verdict{Rule: RuleLoad, Level: finding.Sound, Piece: "stand", Limit: new(q.Of(q.Fraction(1))), Basis: loadBasis}
	how := "free to sway"
	if in.Braced {
		how = "braced"
	}
	used, _ := q.Apart(q.Fraction(l.used), 1)
	v.Sentence = "Full, the tank and its stand weigh " + q.Text(full.Mass) + "; a leg carries up to " + q.Text(q.Force(l.each)) + ", which is " + used +
		" of what a tube of " + q.Text(in.LegOD) + " × " + q.Text(in.LegWall) + " resists " + how + " at " + q.Text(in.Temperature) + ", the load taken half as much again."
	if !(l.used <= 1) {
		v.Level = finding.Stop
		v.Advice = "Take a thicker tube" + markIf(!in.Braced, ", brace the legs") + markIf(in.Splay > 0 && !in.Braced, ", splay them less") + " or shorten them."
	}
	return v
}

// bracket is what bends the shell where a leg beside it is held.
type bracket struct {
	arm    q.Length // from the shell to the axis of a leg, where the floor's push is taken: at its foot unless braces hold it
	moment q.Moment // of the load on a leg about the shell
}

// bracket returns it, and whether there is any: a leg whose axis stands outside
// the shell. The floor pushes a leg up at its foot; braces between the legs take
// what bends one that leans, and the rest comes up at its top.
func (s *steady) bracket(l loads) (bracket, bool) {
	top, floor := s.in.LegsAt()
	shell := s.in.Tank.Vessel.Bore/2 + s.in.Tank.Wall
	if top <= shell {
		return bracket{}, false
	}
	b := bracket{arm: floor - shell}
	if s.in.Braced {
		b.arm = top - shell
	}
	b.moment = moment(q.Force(l.each), b.arm)
	return b, true
}

// moment returns that of a force over an arm.
func moment(f q.Force, arm q.Length) q.Moment { return q.Moment(float64(f) * float64(arm)) }

// bracketVerdict says what bends the shell and who is to judge it. What a thin
// shell bears in one spot hangs on bracket, plate and weld, of which nothing is
// known here, and is no sum for a sketch.
func bracketVerdict(s *steady, full Posture) []finding.Verdict {
	l := s.loads(full.Mass)
	b, ok := s.bracket(l)
	if !ok {
		return nil
	}
	from := "axis"
	if s.in.Splay > 0 && !s.in.Braced {
		from = "foot"
	}
	return []finding.Verdict{{
		Rule: RuleBracket, Level: finding.Look, Piece: "stand",
		Sentence: "The legs stand beside the shell, each held to it from the side. Full and at rest, the load on a leg, " + q.Text(q.Force(l.each)) + ", " + q.Text(b.arm) + " from the shell to its " + from +
			", bends its bracket or weld, and the shell behind it, " + q.Text(s.in.Tank.Wall) + " thick, with up to " + q.Text(b.moment) + ". Whether they bear that is not judged here.",
		Advice: "Have what holds them designed, with the plate behind it, by somebody who may design vessels where you are, for that moment and for what pushes the tank besides; or set the legs under the tank.",
		Basis:  "statics; what a shell bears in one spot: not judged, EN 13445-3 clause 16 for whoever may, from memory",
	}}
}

// markIf returns s where cond holds.
func markIf(cond bool, s string) string {
	if cond {
		return s
	}
	return ""
}
