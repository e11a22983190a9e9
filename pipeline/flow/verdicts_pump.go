package flow

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// pumpRange says where on its curve the pump runs: one verdict for each way in
// which it runs off it, or one that it does not.
func (p *plant) pumpRange(r *Result) []finding.Verdict {
	const basis = "the pump's curve as given"
	base := finding.Verdict{Rule: "pump-range", Piece: refPump, Basis: basis}
	if p.Curve.IsZero() {
		base.Level = finding.Look
		base.Sentence = "No curve of the pump is given, so neither its flow nor its suction head can be worked out."
		base.Advice = "Type in a few points of its data sheet: flow, head and the suction head it requires (NPSHr)."
		return []finding.Verdict{base}
	}
	var out []finding.Verdict
	first, last := p.Curve.Duties()[0], p.Curve.Last()
	for _, status := range [...]Status{DeadHeaded, BelowStart, BeyondEnd} {
		pt := worst(r.Points, status)
		if pt == nil {
			continue
		}
		v := base
		v.Figure = "static-lift-" + pt.Level.Slug
		v.Limit = new(q.Of(first.Head))
		switch status {
		case DeadHeaded:
			v.Level = finding.Stop
			held, lifted := q.Head(p.whole.loss(0)), q.Text(pt.Static)
			if held > 0 {
				lifted += ", its yield stress holds " + q.Text(held) + " more,"
			}
			v.Sentence = pt.Level.at() + " nothing flows: the liquid must be lifted " + lifted +
				" and the pump gives " + q.Text(first.Head) + " at no flow, " + q.Text(pt.Static+held-first.Head) +
				" too little. A pump that runs so heats what stands in it." + p.caution()
			v.Advice = "Lower the discharge or raise the tank by more than that, or take a pump of more head."
		case BelowStart:
			v.Level = finding.Stop
			v.Sentence = pt.Level.at() + " the line asks more than the " + q.Text(first.Head) +
				" of the curve's first point at " + q.Text(first.Flow) + ": whether anything flows is not known."
			v.Advice = "Add the curve's point at no flow, or take a pump of more head."
		case BeyondEnd:
			spare := pt.Head - pt.Static - pt.SuctionLoss - pt.DeliveryLoss
			v.Level = finding.Look
			v.Figure = "flow-" + pt.Level.Slug
			v.Limit = new(q.Of(last))
			v.Sentence = pt.Level.at() + " the pump runs beyond the end of its curve: at the last point, " + q.Text(last) +
				", the line leaves " + q.Text(spare) + " of its head unused. The true flow is higher and not known; figures are for the last point."
			v.Advice = "Throttle the delivery by that head, slow the pump, or add points to the curve."
		}
		out = append(out, v)
	}
	if out == nil {
		least, most := p.slowest(r.Points).Flow, fastest(r.Points).Flow
		base.Figure = "flow-" + p.slowest(r.Points).Level.Slug
		base.Limit = new(q.Of(last))
		base.Sentence = "The pump runs on its curve, from " + q.Text(least) + " to " + q.Text(most) +
			"; the curve ends at " + q.Text(last) + "."
		out = []finding.Verdict{base}
	}
	return out
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
		if p.boils || p.Curve.IsZero() || fastest(r.Points).Flow == 0 {
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
	has := pt.Level.at() + " the pump has " + q.Text(pt.SuctionAvailable) + " of suction head and requires " + q.Text(pt.SuctionRequired)
	switch {
	case pt.SuctionAvailable < pt.SuctionRequired:
		v.Level = finding.Stop
		v.Sentence = has + ": " + q.Text(pt.SuctionRequired-pt.SuctionAvailable) +
			" short, and " + q.Text(-pt.Margin) + " short with the margin. It would cavitate: lose its flow and eat its impeller."
	case pt.Margin < 0:
		v.Level = finding.Look
		v.Sentence = has + ": " + q.Text(-pt.Margin) + " short of the " + q.Text(need) + " that leaves a margin."
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
