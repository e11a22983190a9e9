package pressure

import (
	"math"
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

const (
	// folds is how far under the air's pressure a hose without a spiral is not
	// to stand: ours, no source.
	folds = 10 * q.Kilopascal
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
	return finding.Figure{
		Slug: "least-pressure", Name: "Least pressure in the line, absolute, " + p.When, Piece: p.Ref, Amount: q.Of(p.Pressure),
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
	v := finding.Verdict{Rule: "line-pressure", Piece: p.Ref, Figure: "least-pressure", Limit: new(q.Of(in.Vapour)), Basis: lineSource}
	where := "At No " + strconv.Itoa(piece.Number) + " (" + piece.Label + "), " + q.Text(p.At) + " above the floor, the pressure "
	near := in.Vapour + q.Pressure(float64(in.Density)*gravity*float64(in.Margin))
	// Where it stays at the air's it is no nearer to boiling than in the tank: that is not the line's doing.
	if p.Pressure <= in.Vapour || p.Pressure < min(near, in.Air-bore) {
		v.Advice = "Lead the line lower there, throttle it at its end, or cool the liquid."
		if p.lost >= 0 && !in.Layout.Gravity {
			v.Advice = "Lead the line lower there, make it wider or shorter up to there, slow the pump, or cool the liquid."
		}
		boils := q.Text(in.Vapour) + " the liquid boils"
		if p.Pressure <= in.Vapour {
			v.Level = finding.Stop
			v.Sentence = where + "would fall to " + q.Text(max(p.Pressure, 0)) + " absolute " + p.When + ", and at " + boils + ": the stream parts there, and the flow told here is not reached."
			return v
		}
		v.Level = finding.Look
		v.Sentence = where + "falls to " + q.Text(p.Pressure) + " absolute " + p.When + "; at " + boils + ", and less than " + q.Text(in.Margin) + " of head lies between: gas may come out of it there, and the flow break off."
		return v
	}
	if p.Pressure >= in.Air {
		v.Sentence = "All along the line the pressure stays over the air's: nothing is drawn in."
		return v
	}
	v.Sentence = where + "is the least, " + q.Text(in.Air-p.Pressure) + " under the air's " + p.When + ", and the liquid boils only at " + q.Text(in.Air-in.Vapour) +
		" under it. A joint that leaks there draws air in instead of dripping."
	return v
}

// hoses judges what the hose must bear that stands the furthest under the air's
// pressure: of those that nobody says are made for it, if one of them must bear any.
func (in *Input) hoses() []finding.Verdict {
	var worst *route.Piece
	under, when := folds, ""
	made := func(p *route.Piece) bool { return p.Said != nil && p.Said.Suction }
	for i := range in.Levels {
		if !in.Levels[i].Flow {
			continue
		}
		in.Along(&in.Levels[i], func(p Point) {
			piece := in.piece(p.Ref)
			if piece.Kind != design.Hose || in.Air-p.Pressure < folds {
				return
			}
			softer := worst != nil && made(worst) && !made(piece)
			harder := worst != nil && made(piece) && !made(worst)
			if softer || !harder && in.Air-p.Pressure >= under {
				worst, under, when = piece, in.Air-p.Pressure, p.When
			}
		})
	}
	if worst == nil {
		return nil
	}
	v := finding.Verdict{
		Rule: "hose-suction", Piece: worst.Ref, Limit: new(q.Of(folds)), Basis: lineSource + "; what a soft hose bears: common practice, no source",
		Sentence: "The hose No " + strconv.Itoa(worst.Number) + " stands up to " + q.Text(under) + " under the air's pressure, " + when,
	}
	if made(worst) {
		v.Sentence += ". It is said to be made for suction: see that its maker rates it for that at the temperature that runs through it."
	} else {
		v.Level = finding.Look
		v.Sentence += ": one that is not made for suction folds flat and stops the flow."
		v.Advice = "Take a suction hose, with a spiral in its wall, and say so; or lay rigid tube there."
	}
	return []finding.Verdict{v}
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
	v.Sentence = "Before the delivery runs full the liquid must be lifted over No " + strconv.Itoa(piece.Number) + " (" + piece.Label + "), " + q.Text(lift) + " " + low.When + "; at no flow the pump gives " + q.Text(in.ShutOff)
	if lift >= in.ShutOff {
		v.Level = finding.Stop
		v.Sentence += ", " + q.Text(lift-in.ShutOff) + " too little: it never gets over, though the flow told here would run once it had."
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
	v := finding.Verdict{Rule: "pump-stops", Piece: "pump", Basis: "hydrostatics; that a pump which stands is open to what would run through it, a lobe or impeller pump by its gaps, and a hose pump shut: common practice, no source"}
	if on < even && back < even {
		return nil
	}
	if in.Pump == design.Peristaltic {
		v.Sentence = "When the pump stops it squeezes its hose shut: nothing runs on or back while the hose is sound."
		return []finding.Verdict{v}
	}
	runs, slowly := " runs ", ""
	if design.Positive(in.Pump) {
		runs, slowly = " slips ", " slowly, through the gaps of the pump"
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
