package flow

import (
	"math"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// scalds is the temperature from which a splash burns in seconds: 50 °C to 60 °C
// is where the burn thresholds of ISO 13732-1 for brief contact begin (from memory).
const scalds = q.Temperature(273.15 + 50)

// verdicts adds every verdict of r to it.
func (p *plant) verdicts(r *Result) {
	add := func(v finding.Verdict) { r.Verdicts = append(r.Verdicts, v) }
	if p.boils {
		add(p.boiling())
	}
	if p.Layout.Gravity {
		add(p.gravityFlow(r))
	} else {
		r.Verdicts = append(r.Verdicts, p.pumpRange(r)...)
		if v, ok := p.suctionMargin(r); ok {
			add(v)
		}
	}
	flow := fastest(r.Points).Flow
	if !p.Layout.Gravity && flow > 0 {
		add(p.suctionSpeed(flow))
	}
	if flow > 0 {
		add(p.regime(r))
	}
	if v, ok := p.flooded(r); ok {
		add(v)
	}
}

// at says in words which level is meant, to begin a sentence.
func (l Level) at() string {
	switch l.Slug {
	case "full":
		return "With the tank full"
	case "half":
		return "With the tank half full"
	case "lowest":
		return "At the lowest level"
	}
	return "At the level " + l.Name
}

// caution returns what to add to a sentence about a hot liquid.
func (p *plant) caution() string {
	if p.Temperature <= scalds {
		return ""
	}
	return " At " + q.Text(p.Temperature) + " it scalds: drain and vent the line before any joint is opened."
}

func (p *plant) boiling() finding.Verdict {
	boils := q.Text(liquid.BoilingPoint(p.Air))
	return finding.Verdict{
		Rule: "boiling", Level: finding.Stop, Piece: refTank,
		Sentence: "The liquid boils: its vapour presses with " + q.Text(p.Liquid.VapourPressure) +
			", the air over it with " + q.Text(p.Air) + ", under which water boils at " + boils +
			". Nothing can be said of how a boiling liquid is drawn off." + p.caution(),
		Advice: "Cool it well under " + boils + " before it is drawn off.",
		Limit:  new(q.Of(p.Air)),
		Basis:  "vapour pressure against the pressure of the air; water's by IAPWS R7-97(2012)",
	}
}

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
			v.Sentence = pt.Level.at() + " nothing flows: the liquid must be lifted " + q.Text(pt.Static) +
				" and the pump gives " + q.Text(first.Head) + " at no flow, " + q.Text(pt.Static-first.Head) +
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
		least, most := slowest(r.Points).Flow, fastest(r.Points).Flow
		base.Figure = "flow-" + slowest(r.Points).Level.Slug
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

// slowest returns the point with the least flow.
func slowest(points []Point) *Point {
	least := &points[0]
	for i := range points {
		if points[i].Flow < least.Flow {
			least = &points[i]
		}
	}
	return least
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

func (p *plant) suctionSpeed(flow q.Flow) finding.Verdict {
	limit := p.Limits.SuctionSpeed
	e := narrowest(p.suction)
	speed := speedIn(e, flow)
	v := finding.Verdict{
		Rule: "suction-speed", Piece: e.Ref, Figure: "suction-velocity", Limit: new(q.Of(limit)),
		Basis: "ANSI/HI 9.6.6, 8 ft/s, from memory",
	}
	reaches := "The liquid reaches " + q.Text(speed) + " in the suction line"
	if speed > limit {
		v.Level = finding.Look
		v.Sentence = reaches + ", " + q.Text(speed-limit) + " over the limit of " + q.Text(limit) + ": the pump draws unevenly and takes in air sooner."
		v.Advice = "Slow the pump to " + q.Text(q.Flow(float64(flow)*float64(limit)/float64(speed))) + ", or take the next larger tube."
		return v
	}
	v.Sentence = reaches + ", within the limit of " + q.Text(limit) + "."
	return v
}

// regime warns where the flow is neither surely laminar nor surely turbulent
// at some level.
func (p *plant) regime(r *Result) finding.Verdict {
	nu := viscosity(p.Liquid)
	v := finding.Verdict{Rule: "flow-regime", Figure: "reynolds", Basis: "Moody 1944: between Reynolds numbers 2000 and 4000 no formula holds"}
	least, most := math.Inf(1), 0.0
	for i := range r.Points {
		flow := float64(r.Points[i].Flow)
		for _, line := range [...]Line{p.suction, p.delivery} {
			for j := range line {
				if line[j].Length <= 0 {
					continue // K does not depend on the regime as friction does
				}
				re := reachOf(line[j], nu).reynolds * flow
				least, most = math.Min(least, re), math.Max(most, re)
				if re <= LaminarTo || re >= TurbulentFrom || v.Level != finding.Sound {
					continue
				}
				low := 0.0
				for k := range p.whole {
					l, _ := p.whole[k].loss(flow)
					low += l
				}
				v.Level, v.Piece = finding.Look, line[j].Ref
				v.Sentence = r.Points[i].Level.at() + " the flow in the " + q.Text(line[j].Bore) + " bore is neither laminar nor turbulent (Reynolds number " +
					q.Text(q.Number(re)) + "): the line loses between " + q.Text(q.Head(low)) + " and " + q.Text(q.Head(p.whole.loss(flow))) +
					", and may swing from one to the other. The higher is used."
				v.Advice = "Leave room for both, or move the flow out of that range with another bore or pump speed."
			}
		}
	}
	switch {
	case v.Level != finding.Sound:
	case most <= LaminarTo:
		v.Sentence = "The flow is laminar."
	case least >= TurbulentFrom && !math.IsInf(least, 1):
		v.Sentence = "The flow is turbulent."
	default:
		v.Sentence = "The flow is laminar in the wide bores and turbulent in the narrow ones; no bore is in between."
	}
	return v
}

// gravityFlow judges the level with the least flow.
func (p *plant) gravityFlow(r *Result) finding.Verdict {
	low := slowest(r.Points)
	v := finding.Verdict{Rule: "gravity-flow", Piece: refDelivery, Figure: "flow-" + low.Level.Slug, Basis: "energy equation; Crane TP-410"}
	if low.Flow > 0 {
		v.Sentence = "By gravity it runs at " + q.Text(fastest(r.Points).Flow) + " at most and at " + q.Text(low.Flow) + " at least." + p.caution()
		return v
	}
	over := -low.Static
	v.Level = finding.Stop
	v.Sentence = low.Level.at() + " nothing flows: the discharge stands " + q.Text(over) + " over the liquid." + p.caution()
	if over <= 0 {
		v.Sentence = low.Level.at() + " nothing flows: the discharge stands level with the liquid." + p.caution()
	}
	v.Advice = "Lower the discharge, or raise the tank, by more than " + q.Text(max(over, 0)) + ", or set a pump in the line."
	return v
}

// flooded warns where the line rises over the lowest level on its way: it
// does not fill of itself.
func (p *plant) flooded(r *Result) (finding.Verdict, bool) {
	top, ref := highest(&p.Layout)
	low := r.Points[0].Level
	for i := range r.Points {
		if r.Points[i].Level.Height < low.Height {
			low = r.Points[i].Level
		}
	}
	by := top - low.Height
	v := finding.Verdict{
		Rule: "flooded-line", Piece: ref, Limit: new(q.Of(low.Height)),
		Basis: "common practice, no source",
	}
	if by > 0 {
		v.Level = finding.Look
		v.Sentence = "The line rises " + q.Text(by) + " over the liquid at its lowest: it does not fill of itself, and air that gathers there stops the flow."
		v.Advice = "Lead it under the liquid all the way, raise the tank by as much, or prime it each time and see that it draws no air."
		return v, true
	}
	v.Sentence = "The line lies under the liquid all the way, so it fills of itself."
	return v, true
}
