package flow

import (
	"strings"

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
		r.Verdicts = append(r.Verdicts, p.driven()...)
	}
	if v, ok := p.wantedFlow(r); ok {
		add(v)
	}
	flow := fastest(r.Points).Flow
	if !p.Layout.Gravity && flow > 0 {
		add(p.suctionSpeed(flow))
	}
	if flow > 0 {
		add(p.regime(r))
	}
	p.pieceVerdicts(r)
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

// when says the same to end a sentence.
func (l Level) when() string {
	at := l.at()
	return strings.ToLower(at[:1]) + at[1:]
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
	v := finding.Verdict{
		Rule: "boiling", Level: finding.Look, Piece: refTank,
		Sentence: "The liquid boils: under " + q.Text(p.Air) + " of air water does at " + boils +
			", and an open tank gets no hotter. Nothing but the height of the liquid over the pump, less what the line loses, keeps it from boiling in the pump.",
		Advice: "Let it cool well under " + boils + " before it is drawn off, or keep the tank high and the suction short.",
		Limit:  new(q.Of(p.Air)),
		Basis:  "vapour pressure against the pressure of the air; water's by IAPWS R7-97(2012)",
	}
	if p.Layout.Gravity {
		v.Sentence = "The liquid boils: under " + q.Text(p.Air) + " of air water does at " + boils +
			", and an open tank gets no hotter. Wherever the line rises over the liquid it fills with vapour and stops."
		v.Advice = "Let it cool well under " + boils + " before it is drawn off, or lead the line downhill all the way."
	}
	v.Sentence += p.caution()
	return v
}

func (p *plant) suctionSpeed(flow q.Flow) finding.Verdict {
	limit := p.Limits.SuctionSpeed
	e := narrowest(p.suction)
	speed := speedIn(e, flow)
	v := finding.Verdict{
		Rule: "suction-speed", Piece: e.Ref, Figure: "suction-velocity", Limit: new(q.Of(limit)),
		Basis: "ANSI/HI 9.6.6, 8 ft/s, from memory",
	}
	runs, most := q.Apart(speed, limit)
	reaches := "The liquid reaches " + runs + " in the suction line"
	if speed > limit {
		v.Level = finding.Look
		v.Sentence = reaches + ", " + q.By(speed-limit) + " over the limit of " + most + ": the pump draws unevenly and takes in air sooner."
		v.Advice = "Slow the pump to " + q.Text(q.Flow(float64(flow)*float64(limit)/float64(speed))) + ", or take the next larger tube."
		return v
	}
	v.Sentence = reaches + ", within the limit of " + most + "."
	return v
}

// regime warns where the flow is neither surely laminar nor surely turbulent
// at some level.
func (p *plant) regime(r *Result) finding.Verdict {
	nu := viscosity(p.Liquid)
	v := finding.Verdict{Rule: "flow-regime", Figure: "reynolds", Basis: p.said().regime}
	laminar, turbulent := true, true
	for i := range r.Points {
		flow := float64(r.Points[i].Flow)
		for _, line := range [...]Line{p.suction, p.delivery} {
			for j := range line {
				if line[j].Length <= 0 {
					continue // K does not depend on the regime as friction does
				}
				in := reachOf(&line[j], &nu)
				re, laminarTo, turbulentFrom := in.regime(flow)
				laminar = laminar && re <= laminarTo
				turbulent = turbulent && re >= turbulentFrom
				if re <= laminarTo || re >= turbulentFrom || v.Level != finding.Sound {
					continue
				}
				low, high := q.Apart(q.Head(p.whole.low(flow)), q.Head(p.whole.loss(flow)))
				v.Level, v.Piece = finding.Look, line[j].Ref
				loses := "between " + low + " and " + high
				if low == high {
					loses = high + " either way"
				}
				v.Sentence = r.Points[i].Level.at() + " the flow in the " + q.Text(line[j].Bore) + " bore is neither laminar nor turbulent (Reynolds number " +
					q.Text(q.Number(re)) + "): the line loses " + loses +
					", and may swing from one to the other. The higher is used."
				v.Advice = "Leave room for both, or move the flow out of that range with another bore or pump speed."
			}
		}
	}
	switch {
	case v.Level != finding.Sound:
	case laminar:
		v.Sentence = "The flow is laminar."
	case turbulent:
		v.Sentence = "The flow is turbulent."
	default:
		v.Sentence = "The flow is laminar in the wide bores and turbulent in the narrow ones; no bore is in between."
	}
	return v
}

// slowest returns the point with the least flow; where several have none, the
// one with the most to lift (by gravity: the least fall).
func (p *plant) slowest(points []Point) *Point {
	least := &points[0]
	for i := range points {
		pt := &points[i]
		worse := pt.Static > least.Static
		if p.Layout.Gravity {
			worse = pt.Static < least.Static
		}
		if pt.Flow < least.Flow || pt.Flow == least.Flow && worse {
			least = pt
		}
	}
	return least
}

// gravityFlow judges the level with the least flow.
func (p *plant) gravityFlow(r *Result) finding.Verdict {
	low := p.slowest(r.Points)
	v := finding.Verdict{Rule: "gravity-flow", Piece: refDelivery, Figure: "flow-" + low.Level.Slug, Basis: "energy equation; Crane TP-410"}
	if low.Flow > 0 {
		v.Sentence = "By gravity it runs at " + q.Text(fastest(r.Points).Flow) + " at most and at " + q.Text(low.FlowLeast) + " at least, by the method that says the line loses most." + p.caution()
		return v
	}
	over := -low.Static
	v.Level = finding.Stop
	if held := q.Head(p.whole.loss(0)); low.Static > 0 && held > 0 {
		holds, falls := q.Apart(held, low.Static)
		v.Sentence = low.Level.at() + " nothing flows: the liquid's yield stress holds " + holds + " in this line, and the fall is " + falls + "." + p.caution()
		v.Advice = "Raise the tank by more than " + q.By(held-low.Static) + ", make the line wider or shorter, or set a pump in it."
		return v
	}
	v.Sentence = low.Level.at() + " nothing flows: the discharge stands " + q.By(over) + " over the liquid." + p.caution()
	if over <= 0 {
		v.Sentence = low.Level.at() + " nothing flows: the discharge stands level with the liquid." + p.caution()
	}
	v.Advice = "Lower the discharge, or raise the tank, by more than " + q.By(max(over, 0)) + ", or set a pump in the line."
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
		p.primes(&v, by)
		return v, true
	}
	v.Sentence = "The line lies under the liquid all the way, so it fills of itself."
	return v, true
}
