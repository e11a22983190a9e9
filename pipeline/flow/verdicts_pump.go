package flow

import (
	"math"
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// pumpRange says where on its curve the pump runs: one verdict for each way in
// which it runs off it, or one that it does not.
func (p *plant) pumpRange(r *Result) []finding.Verdict {
	const basis = "the pump's curve as given"
	base := finding.Verdict{Rule: "pump-range", Piece: refPump, Basis: basis}
	thick := p.Curve.thick
	if thick.Refused() {
		base.Level = finding.Stop
		base.Basis = thickSource
		base.Sentence = "The liquid is too thick for this pump's curve to be corrected: its parameter B is " + q.Text(q.Number(thick.B)) +
			", and from " + q.Text(q.Number(thickest)) + " on no method is made. Nothing is known of its flow."
		base.Advice = "Warm or thin the liquid, or take a lobe, flexible-impeller or peristaltic pump."
		return []finding.Verdict{base}
	}
	if p.Curve.IsZero() {
		base.Level = finding.Look
		base.Sentence = "No curve of the pump is given, so neither its flow nor its suction head can be worked out."
		base.Advice = "Type in a few points of its data sheet: flow, head and the suction head it requires (NPSHr)."
		return []finding.Verdict{base}
	}
	var out []finding.Verdict
	for _, status := range [...]Status{DeadHeaded, BelowStart, OverPressure, SlipsBack, BeyondEnd} {
		if pt := worst(r.Points, status); pt != nil {
			out = append(out, p.offCurve(base, pt))
		}
	}
	if out == nil {
		least, most := p.slowest(r.Points).Flow, fastest(r.Points).Flow
		last := p.Curve.Last()
		base.Figure = "flow-" + p.slowest(r.Points).Level.Slug
		base.Limit = new(q.Of(last))
		base.Sentence = "The pump runs on its curve, from " + q.Text(least) + " to " + q.Text(most) + "; the curve ends at " + q.Text(last) + "."
		if p.Curve.positive {
			base.Sentence = "The pump runs within its points, from " + q.Text(least) + " to " + q.Text(most) + "; against nothing it pushes out " + q.Text(last) + "."
		}
		out = []finding.Verdict{base}
	}
	return out
}

// offCurve fills v, which holds what all such verdicts share, for a point that
// does not lie on the curve.
func (p *plant) offCurve(v finding.Verdict, pt *Point) finding.Verdict {
	first, last := p.Curve.duties[0], p.Curve.Last()
	v.Level = finding.Stop
	v.Figure = "static-lift-" + pt.Level.Slug
	v.Limit = new(q.Of(first.Head))
	at := pt.Level.at()
	switch pt.Status {
	case DeadHeaded:
		held := q.Head(p.whole.loss(0))
		lifted, gives := q.Apart(pt.Static, first.Head)
		if held > 0 {
			holds, _ := q.Apart(held, first.Head)
			lifted += ", its yield stress holds " + holds + " more,"
		}
		much, by := ", "+q.By(pt.Static+held-first.Head)+" too little", " by more than that"
		if pt.Static == first.Head && held <= 0 {
			gives, much, by = "just that", "", ""
		}
		v.Sentence = at + " nothing flows: the liquid must be lifted " + lifted +
			" and the pump gives " + gives + " at no flow" + much + ". A pump that runs so heats what stands in it." + p.caution()
		v.Advice = "Lower the discharge or raise the tank" + by + ", or take a pump of more head."
	case BelowStart:
		v.Sentence = at + " the line asks more than the " + q.Text(first.Head) +
			" of the curve's first point at " + q.Text(first.Flow) + ": whether anything flows is not known."
		v.Advice = "Add the curve's point at no flow, or take a pump of more head."
	case OverPressure:
		v.Sentence = at + " the line asks more than the " + q.Text(p.pressure(first.Head)) +
			" of the pump's last point. A positive pump goes on pushing: the pressure rises until its relief valve opens or something bursts." + p.caution()
		v.Advice = "Turn the pump slower, widen or shorten the line, or lower the discharge."
	case SlipsBack:
		v.Sentence = at + " nothing flows: the pump turns so slowly that all it pushes out slips back through it."
		v.Advice = "Turn the pump faster."
		if p.Pump.Shuts {
			v.Sentence = at + " nothing flows, by the pump's points: what it loses there under pressure is more than it pushes out when it turns so slowly. But little slips back through a sound hose, so the points may not hold at this speed."
			v.Advice = "Turn the pump faster, or take its points at this speed."
		}
	case BeyondEnd:
		spare := pt.Head - pt.Static - pt.SuctionLoss - pt.DeliveryLoss
		v.Level = finding.Look
		v.Figure = "flow-" + pt.Level.Slug
		v.Limit = new(q.Of(last))
		if p.Curve.positive {
			v.Sentence = at + " the liquid would run by itself, with " + q.Text(spare) + " over: the pump holds it back to about " + q.Text(last)
			if p.Pump.Shuts {
				v.Level = finding.Sound
				v.Sentence += ", and while it stands it squeezes its hose shut: nothing runs while the hose is sound."
				return v
			}
			v.Sentence += ", and rather more as some slips forward"
			if p.Pump.Slips != "" {
				v.Sentence += " " + p.Pump.Slips
			}
			v.Sentence += "."
			if shut := p.shutOff(); shut != nil {
				v.Level = finding.Sound
				v.Sentence += " When it stands, No " + strconv.Itoa(shut.Number) + " (" + shut.Label + ") can shut the line."
				return v
			}
			v.Advice = "Do without the pump, or put in a valve that is shut when it stands."
			return v
		}
		v.Sentence = at + " the pump runs beyond the end of its curve: at the last point, " + q.Text(last) +
			", the line leaves " + q.Text(spare) + " of its head unused. The true flow is higher and not known; figures are for the last point."
		v.Advice = "Throttle the delivery by that head, slow the pump, or add points to the curve."
	}
	return v
}

// shutOff returns the first valve of the line that can be shut, nil where there is none.
func (p *plant) shutOff() *route.Piece {
	pieces := p.Layout.Pieces()
	for i := range pieces {
		switch pieces[i].Kind {
		case design.Butterfly, design.Ball, design.Seat, design.Diaphragm:
			return &pieces[i]
		}
	}
	return nil
}

// pressure returns what a head of the liquid presses with.
func (p *plant) pressure(h q.Head) q.Pressure {
	return q.Pressure(float64(h) * within(float64(p.Liquid.Density), 1, 1e6) * gravity)
}

// worst returns the point of that status with the most to lift (beyond the
// curve's end: the least), nil when there is none.
func worst(points []Point, status Status) *Point {
	var out *Point
	for i := range points {
		pt := &points[i]
		if pt.Status == status && (out == nil || pt.Static > out.Static == (status != BeyondEnd)) {
			out = pt
		}
	}
	return out
}

// suctionMargin judges the level with the least margin; there is nothing to
// judge where nothing flows.
func (p *plant) suctionMargin(r *Result) (finding.Verdict, bool) {
	var pt *Point
	for i := range r.Points {
		if c := &r.Points[i]; c.SuctionKnown && (pt == nil || c.Margin < pt.Margin) {
			pt = c
		}
	}
	v := finding.Verdict{
		Rule: "suction-margin", Piece: refPump,
		Basis: "ANSI/HI 9.6.1, from memory: the greater of the margin in metres and the ratio",
	}
	if pt == nil {
		if p.Curve.IsZero() || fastest(r.Points).Flow == 0 {
			return v, false
		}
		v.Level = finding.Look
		v.Sentence = "The pump's curve does not say what suction head it requires, so nothing can be said of whether it cavitates." + p.caution()
		v.Advice = "Type in the suction head required (NPSHr) of its data sheet."
		return v, true
	}
	need := p.Limits.Need(pt.SuctionRequired)
	v.Figure = "suction-head-available-" + pt.Level.Slug
	v.Limit = new(q.Of(need))
	had, required := q.Apart(pt.SuctionAvailable, pt.SuctionRequired)
	wants := q.Text(need)
	if pt.Margin < 0 && pt.SuctionAvailable >= pt.SuctionRequired {
		had, wants = q.Apart(pt.SuctionAvailable, need)
	}
	has := pt.Level.at() + " the pump has " + had + " of suction head and requires " + required
	switch {
	case pt.SuctionAvailable < pt.SuctionRequired:
		v.Level = finding.Stop
		v.Sentence = has + ": " + q.By(pt.SuctionRequired-pt.SuctionAvailable) +
			" short, and " + q.By(-pt.Margin) + " short with the margin. It would cavitate: lose its flow and eat its impeller."
	case pt.Margin < 0:
		v.Level = finding.Look
		v.Sentence = has + ": " + q.By(-pt.Margin) + " short of the " + wants + " that leaves a margin."
	default:
		v.Sentence = has + ": " + q.Text(pt.Margin) + " to spare over the margin."
	}
	if v.Level != finding.Sound {
		v.Advice = "Slow the pump, cool the liquid, or make the suction line shorter or wider."
		if r.RaiseKnown && r.Raise > 0 {
			v.Advice = "Raise the tank by " + q.Text(r.Raise) + ", slow the pump, cool the liquid, or make the suction line shorter or wider."
		}
	}
	if _, outside := p.Curve.Required(pt.Flow); outside {
		v.Sentence += " The curve gives no required head at " + q.Text(pt.Flow) + "; the nearest is used."
		if v.Level == finding.Sound {
			v.Level = finding.Look
			v.Advice = "Type in the suction head required (NPSHr) at every point of the curve."
		}
	}
	v.Sentence += p.caution()
	return v, true
}

const thickSource = "ANSI/HI 9.6.7 (2010), formulas from memory"

// driven judges how the pump is run: the liquid that it is not made for, its
// speed, and what holds the pressure of a positive pump.
func (p *plant) driven() (out []finding.Verdict) {
	if t := p.Curve.thick; t.Applies() {
		out = append(out, p.thickened(t))
	}
	if v, ok := p.speedRange(); ok {
		out = append(out, v)
	}
	if p.Curve.positive && !p.Curve.IsZero() {
		out = append(out, p.relief())
	}
	return out
}

// thickened says what a thick liquid takes off the pump.
func (p *plant) thickened(t Thick) finding.Verdict {
	loses := func(factor float64) string { return q.Text(q.Fraction(math.Round(1000*(1-factor)) / 1000)) }
	v := finding.Verdict{Rule: "thick-liquid", Piece: refPump, Figure: "viscosity-parameter", Limit: new(q.Of(q.Number(thickest))), Basis: thickSource}
	v.Sentence = "The liquid is thicker than the water that the curve is for. At its best point the pump loses " + loses(t.Flow) +
		" of flow and of head and " + loses(t.Efficiency) + " of its efficiency; every figure reckons with it. What it requires of suction head is left as in water."
	if t.BestAssumed {
		v.Sentence += " The best point is taken where flow times head is greatest, " + q.Text(t.Best.Flow) + "."
	}
	if t.SpeedAssumed {
		v.Sentence += " Its speed is taken as " + q.Text(t.Speed) + "."
	}
	if t.Beyond && t.Flow < 0.97 {
		v.Level = finding.Look
		v.Sentence += " Pumps so small, or liquids so thick, were not among those that the method was made from: take it as a hint."
		v.Advice = "Ask the maker for a curve in this liquid, or leave room for a good deal less flow."
	}
	return v
}

// speedRange warns of a speed far from the one that the points hold for.
func (p *plant) speedRange() (finding.Verdict, bool) {
	ratio := p.Pump.ratio()
	if ratio == 1 {
		return finding.Verdict{}, false
	}
	v := finding.Verdict{
		Rule: "pump-speed", Piece: refPump, Limit: new(q.Of(p.Pump.Rated)),
		Basis: "affinity laws, Crane TP-410 ex. 7.33; how far they reach: common practice, no source",
	}
	if p.Curve.positive {
		v.Basis = "flow goes with the speed, slip with the pressure: common practice, no source"
	}
	share, _ := q.Apart(q.Fraction(ratio), 1)
	if ratio < 0.5 {
		share, _ = q.Apart(q.Fraction(ratio), 0.5)
	}
	v.Sentence = "The pump turns at " + q.Text(p.Pump.Speed) + ", " + share + " of the speed of its points; they are moved to it."
	switch {
	case ratio > 1:
		v.Level = finding.Look
		v.Sentence += " Faster than its points it takes more power, with the cube of the speed, and requires more suction head; its shaft, seal and motor may not bear it."
		v.Advice = "Run no pump over the speed that its maker allows."
	case ratio < 0.5 && !p.Curve.positive:
		v.Level = finding.Look
		v.Sentence += " So slow the laws that move them are no longer sure."
		v.Advice = "Ask the maker for a curve at that speed, or take a smaller pump."
	}
	return v, true
}

// relief judges what holds the pressure when somebody shuts a valve on a
// positive pump.
func (p *plant) relief() finding.Verdict {
	v := finding.Verdict{Rule: "relief-valve", Piece: refPump, Basis: "common practice, no source; local codes on pressure equipment come first"}
	shut := "A positive pump does not stop pushing against a shut valve or a blocked line: the pressure rises until "
	if p.Pump.Relief <= 0 {
		v.Level = finding.Look
		v.Sentence = shut + "a hose, a joint or the pump gives way. No relief valve or bypass is given." + p.caution()
		v.Advice = "Fit a relief valve or bypass between the pump and the first valve, set under what the weakest part bears, leading where it hurts nobody; then type in what it opens at."
		return v
	}
	v.Limit = new(q.Of(p.Pump.Relief))
	most := p.pressure(p.Curve.duties[0].Head)
	if p.Pump.Relief > most*(1+1e-9) {
		opens, last := q.Apart(p.Pump.Relief, most)
		v.Level = finding.Look
		v.Sentence = shut + "the relief valve opens at " + opens + ", which is over the " + last + " of the pump's last point. See that every part bears it." + p.caution()
		v.Advice = "Set the relief valve to no more than the pump and the weakest part of the line are made for."
		return v
	}
	v.Sentence = shut + "the relief valve opens at " + q.Text(p.Pump.Relief) + ". See that every part of the line bears that, and that what it lets out hurts nobody." + p.caution()
	return v
}
