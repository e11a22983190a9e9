package flow

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// DryLift returns how high a self-priming pump draws a liquid with air in its
// line, when its sheet says stated, metres of water at sea level. Empty, a pump
// makes a vacuum in a ratio to the air around it, so a thin air leaves it less;
// and no liquid can be drawn up by more than what the air presses over its own
// vapour (definition; the ratio: common practice, no source). It is never under 0.
func DryLift(stated q.Head, air, vapour q.Pressure, density q.Density) q.Head {
	const seaLevel, water = 101325.0, 998.2 // Pa (ISO 2533:1975), kg/m³ at 20 °C (IAPWS R7-97)
	outside := within(float64(air), 0, 1e9)
	vacuum := within(float64(stated), 0, 1e3) * water * gravity * outside / seaLevel
	vacuum = min(vacuum, max(0, outside-within(float64(vapour), 0, 1e9)))
	return q.Head(vacuum / (within(float64(density), 1, 1e6) * gravity))
}

// dryLift is what the pump of p draws here, 0 where it draws nothing or its sheet does not say.
func (p *plant) dryLift() q.Head {
	if p.Layout.Gravity || p.Pump.DryLift <= 0 {
		return 0
	}
	return DryLift(p.Pump.DryLift, p.Air, p.Liquid.VapourPressure, p.Liquid.Density)
}

// primes judges a line that rises by over the liquid at its lowest.
func (p *plant) primes(v *finding.Verdict, by q.Length) {
	rises := "The line rises " + q.By(by) + " over the liquid at its lowest: it does not fill of itself, and air that gathers there stops the flow."
	v.Level = finding.Look
	draws := p.dryLift()
	switch {
	case p.Layout.Gravity || p.Pump.DryLift <= 0:
		v.Sentence = rises
		v.Advice = "Lead it under the liquid all the way, raise the tank by as much, or prime it each time and see that it draws no air."
		if !p.Layout.Gravity {
			v.Advice += " If the pump primes itself, type in the lift that its sheet states for it dry."
		}
	case draws < q.Head(by):
		v.Figure = "dry-lift"
		v.Limit = new(q.Of(draws))
		v.Sentence = rises + " Dry, the pump draws this liquid up " + q.Text(draws) + " here, " + q.By(q.Head(by)-draws) + " too little."
		v.Advice = "Set the pump lower or the tank higher by more than that, or fill the line by hand each time."
	default:
		v.Level = finding.Sound
		v.Figure = "dry-lift"
		v.Limit = new(q.Of(draws))
		v.Sentence = "The line rises " + q.Text(by) + " over the liquid at its lowest and does not fill of itself; dry, the pump draws it up " + q.Text(draws) +
			" here, " + q.Text(draws-q.Head(by)) + " more than that. Let the air out through an open delivery, and keep the joints tight."
		if !p.Pump.Shuts {
			v.Sentence += " Wet the pump before its first turn."
		}
	}
}

// primeFigures adds what the pump draws dry against what it has to.
func (p *plant) primeFigures(r *Result) {
	if p.Layout.Gravity || p.Pump.DryLift <= 0 {
		return
	}
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "dry-lift", Name: "Lift that the pump draws dry, here", Piece: refPump, Amount: q.Of(p.dryLift()),
		Working: finding.Working{
			Formula: "L = min(L_s ρ_w g p/p_0, p - p_v) / (ρ g)",
			Inputs: []finding.Input{
				finding.In("L_s", "dry lift stated, of water at sea level", p.Pump.DryLift),
				finding.In("ρ_w", "density of water at 20 °C", q.Density(998.2)),
				finding.In("g", "gravity, m/s²", q.Number(gravity)),
				finding.In("p", "pressure of the air, absolute", p.Air),
				finding.In("p_0", "pressure of the air at sea level", q.Pressure(101325)),
				finding.In("p_v", "vapour pressure of the liquid, absolute, at most p", min(p.Liquid.VapourPressure, p.Air)),
				finding.In("ρ", "density", p.Liquid.Density),
			},
			Source: "what a vacuum lifts; that a dry pump makes it in a ratio to the air around: common practice, no source",
			Range:  "a wetted pump in good order, tight joints and an open delivery",
		},
	})
}
