package pressure

import (
	"math"
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// The rules of the line under suction, of the liquid and of the wash.
const (
	RuleLine     = "line-pressure"
	ruleHose     = "hose-suction"
	RuleWash     = "wash-pressure"
	RuleWashHose = "wash-hose"
)

const (
	figureLeast = "least-pressure"
	figureWash  = "wash-least-pressure"
)

const (
	// fold is how far under the air's pressure a hose without a spiral is not
	// to stand: ours, no source.
	fold = 10 * q.Kilopascal
	// top is how much higher than its end a delivery may lead before it counts
	// as leading over a top: about what a bend does.
	top = 100 * q.Millimetre
	// bore is about what the liquid in a bore weighs: so far a level end of a line,
	// with the air's pressure at its middle, may lie under that at its top.
	bore = 1 * q.Kilopascal
	// even is how far two surfaces differ that stand level: nothing runs then.
	even = 5 * q.Head(q.Millimetre)
)

func (in *Input) figure(p Point) finding.Figure {
	slug, name := figureLeast, "Least pressure in the line, absolute, "+p.When
	if in.With != "" {
		slug, name = figureWash, "Least pressure in the line on the wash, absolute, with "+in.With
	}
	return finding.Figure{
		Slug: slug, Name: name, Piece: p.Ref, Amount: q.Of(p.Pressure),
		Working: finding.Working{
			Formula: "p_least = p + ρ g (z_s - z - h_f) - ρ v^2/2",
			Inputs: []finding.Input{
				finding.In("p", "pressure of the air, absolute", in.Air), finding.In("ρ", "density", in.Density), finding.In("g", "gravity, m/s²", q.Number(gravity)),
				finding.In("z_s", "surface it is reckoned from, above the floor", p.from), finding.In("z", "top of the bore there, above the floor", p.At),
				finding.In("h_f", "lost from that surface to there; under 0 where it is reckoned back from the outflow", p.lost), finding.In("v", "speed there", p.speed),
			},
			Source: lineSource, Range: lineRange,
		},
	}
}

// judge says whether the liquid stays whole at the point of the least pressure.
func (in *Input) judge(p Point) finding.Verdict {
	piece := in.piece(p.Ref)
	v := finding.Verdict{Rule: RuleLine, Piece: p.Ref, Figure: figureLeast, Limit: new(q.Of(in.Vapour)), Basis: lineSource}
	where := "At No "
	if in.With != "" {
		v.Rule, v.Figure = RuleWash, figureWash
		where = "With " + in.With + ", at No "
	}
	where += strconv.Itoa(piece.Number) + " (" + piece.Label + "), " + q.Text(p.At) + " above the floor, the pressure "
	more := ""
	if p.atLeast {
		more = " More may run than the pump's curve tells, and the pressure is then lower."
	}
	near := in.Vapour + q.Pressure(float64(in.Density)*gravity*float64(in.Margin))
	// Where it stays at the air's it is no nearer to boiling than in the tank: that is not the line's doing.
	if p.Pressure <= in.Vapour || p.Pressure < min(near, in.Air-bore) {
		v.Advice = "Lead the line lower there, throttle it at its end, or " + in.cooler() + "."
		if p.lost >= 0 && !in.Layout.Gravity {
			v.Advice = "Lead the line lower there, make it wider or shorter up to there, slow the pump, or " + in.cooler() + "."
		}
		v.Level = finding.Look
		boils := q.Text(in.Vapour) + " the liquid boils"
		falls, _ := q.Apart(max(p.Pressure, 0), in.Vapour)
		if p.Pressure > in.Vapour {
			v.Sentence = where + "falls to " + falls + " absolute " + p.When + "; at " + boils + ", and less than " + q.Text(in.Margin) + " of head lies between: gas may come out of it there, and the flow break off." + more
		} else {
			if in.With == "" {
				v.Level = finding.Stop
			}
			v.Sentence = where + "would fall to " + falls + " absolute " + p.When + ", and at " + boils + ": the stream parts there, and the flow told here is not reached."
		}
		if in.With != "" {
			v.Sentence += " " + asLaid
		}
		return v
	}
	if in.With != "" {
		v.Sentence = "In no step of the wash does the line bring what runs in it near to boiling. The nearest: " + lower(where) + "is " + q.Text(p.Pressure) + " absolute " + p.When + ", and at " + q.Text(in.Vapour) + " it boils." + more + " " + asLaid
		return v
	}
	if p.Pressure >= in.Air {
		v.Sentence = "All along the line the pressure stays over the air's: nothing is drawn in." + more
		return v
	}
	v.Sentence = where + "is the least, " + q.Text(in.Air-p.Pressure) + " under the air's " + p.When + ", and the liquid boils only at " + q.Text(in.Air-in.Vapour) +
		" under it. A joint that leaks there draws air in instead of dripping." + more
	return v
}

// asLaid says how the wash is taken to go.
const asLaid = "This is for a wash that goes the way of the liquid, out at the end of the line."

// cooler is what makes it boil less.
func (in *Input) cooler() string {
	if in.With != "" {
		return "wash cooler"
	}
	return "cool the liquid"
}

// lower returns s with a small first letter.
func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// hosed is a hose under suction: of those that nobody says are made for it, if
// one of them must bear any, the one that stands the furthest under the air's
// pressure.
type hosed struct {
	piece *route.Piece // nil where there is none
	under q.Pressure
	when  string
}

// made reports whether it is said to be made for suction.
func (h hosed) made() bool { return h.piece.Said != nil && h.piece.Said.Suction }

// over reports whether h is to be told of rather than o.
func (h hosed) over(o hosed) bool {
	if h.piece == nil || o.piece == nil {
		return h.piece != nil
	}
	if h.made() != o.made() {
		return o.made()
	}
	return h.under > o.under
}

// folds judges what a hose must bear.
func (in *Input) folds(h hosed) finding.Verdict {
	v := finding.Verdict{
		Rule: ruleHose, Piece: h.piece.Ref, Limit: new(q.Of(fold)), Basis: lineSource + "; what a soft hose bears: common practice, no source",
		Sentence: "The hose No " + strconv.Itoa(h.piece.Number) + " stands up to " + q.Text(h.under) + " under the air's pressure, " + h.when,
	}
	if in.With != "" {
		v.Rule = RuleWashHose
		v.Sentence = "With " + in.With + ", " + lower(v.Sentence)
	}
	if h.made() {
		v.Sentence += ". It is said to be made for suction: see that its maker rates it for that at the temperature that runs through it."
		return v
	}
	v.Level = finding.Look
	v.Sentence += ": one that is not made for suction folds flat and stops the flow."
	if in.With != "" {
		v.Sentence += " A hot hose folds sooner. " + asLaid
	}
	v.Advice = "Take a suction hose, with a spiral in its wall, and say so; or lay rigid tube there."
	return v
}

func (in *Input) piece(ref string) *route.Piece {
	pieces := in.Layout.Pieces()
	for i := range pieces {
		if pieces[i].Ref == ref {
			return &pieces[i]
		}
	}
	return &route.Piece{}
}

// ends reports whether the line ends elsewhere than it is said to let the
// liquid out: what holds between its end and the pump is then not known.
func (in *Input) ends() bool { return math.Abs(in.Layout.Discharge.By.Z) > float64(top) }

// overTop judges a delivery that leads over a top before it comes down to its end.
func (in *Input) overTop() []finding.Verdict {
	if in.Layout.Gravity || !(in.ShutOff > 0) || len(in.Levels) == 0 {
		return nil
	}
	// Over a top it runs as soon as it stands over the floor of the bore there.
	high, ref := in.Discharge+top, ""
	for _, c := range route.Profile(in.Layout.Delivery) {
		if q.Length(c.Invert) > high {
			high, ref = q.Length(c.Invert), in.Layout.Delivery[c.Piece].Ref
		}
	}
	if ref == "" || in.ends() {
		return nil
	}
	low := in.Levels[len(in.Levels)-1]
	lift := q.Head(high - low.Height)
	if lift <= 0 {
		return nil
	}
	piece := in.piece(ref)
	v := finding.Verdict{
		Rule: "over-the-top", Piece: ref, Limit: new(q.Of(in.ShutOff)),
		Basis: "hydrostatics: until the far side has filled, all must be lifted to the top",
	}
	lifted, gives := q.Apart(lift, in.ShutOff)
	v.Sentence = "Before the delivery runs full the liquid must be lifted over No " + strconv.Itoa(piece.Number) + " (" + piece.Label + "), " + lifted + " " + low.When + "; at no flow the pump gives " + gives
	if lift >= in.ShutOff {
		v.Level = finding.Stop
		v.Sentence += ", " + q.By(lift-in.ShutOff) + " too little: it never gets over, though the flow told here would run once it had."
		v.Advice = "Lead the delivery lower, raise the tank, or take a pump of more head."
		return []finding.Verdict{v}
	}
	v.Sentence += ". What falls beyond the top helps only once that side has filled."
	return []finding.Verdict{v}
}

// stands says what runs on, or back, when the pump stops.
func (in *Input) stands() []finding.Verdict {
	if in.Layout.Gravity || len(in.Levels) == 0 {
		return nil
	}
	full, low := in.Levels[0], in.Levels[len(in.Levels)-1]
	on, back := q.Head(full.Height-in.Discharge), q.Head(in.Discharge-low.Height)
	v := finding.Verdict{Rule: "pump-stops", Piece: "pump", Basis: "hydrostatics; that a pump which stands is open to what would run through it, a lobe pump by its gaps, a flexible impeller past its vanes, and a hose pump shut: common practice, no source"}
	if on < even && back < even {
		return nil
	}
	if design.Shuts(in.Pump) {
		v.Sentence = "When the pump stops it squeezes its hose shut: nothing runs on or back while the hose is sound."
		return []finding.Verdict{v}
	}
	runs, slowly := " runs ", ""
	if by := design.Slips(in.Pump); by != "" {
		runs, slowly = " slips ", " slowly through the pump, "+by
	}
	if on >= even {
		v.Sentence = "When the pump stops the liquid" + runs + "on of itself" + slowly + ": full, the tank stands " + q.Text(on) + " over the outflow."
	}
	if back >= even {
		if on >= even {
			v.Sentence += " At the lowest level it"
		} else {
			v.Sentence = "When the pump stops the liquid"
		}
		v.Sentence += runs + "back" + slowly + ": the outflow stands up to " + q.Text(back) + " over the tank. What is in the line comes back, and where its end dips under the liquid all of that liquid, too."
	}
	var shut, check *route.Piece
	pieces := in.Layout.Pieces()
	for i := range pieces {
		switch pieces[i].Kind {
		case design.Butterfly, design.Ball, design.Seat, design.Diaphragm:
			if shut == nil {
				shut = &pieces[i]
			}
		case design.NonReturn:
			check = &pieces[i]
		}
	}
	switch {
	case shut != nil:
		v.Sentence += " Shut No " + strconv.Itoa(shut.Number) + " (" + shut.Label + ") when it stops."
	case check != nil && on < even:
		v.Sentence += " No " + strconv.Itoa(check.Number) + " (" + check.Label + ") holds it."
	default:
		v.Level = finding.Look
		v.Sentence += " Nothing in the line can be shut."
		v.Advice = "Put in a valve that is shut when the pump stops, or end the line over the surface of the liquid it runs to."
		if on >= even {
			v.Advice = "Put in a valve that is shut when the pump stops."
		}
	}
	return []finding.Verdict{v}
}
