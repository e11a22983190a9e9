package pipeline

import (
	"drawoff/pipeline/finding"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// tank tells what the tank holds, what is left in it, and the liquid's properties.
func (p plant) tank() finding.Findings {
	k := p.known
	v := k.vessel
	geometry := "geometry of the tank, inside measures"
	level := func(l q.Length) []finding.Input {
		return []finding.Input{
			finding.In("D", "bore of the tank", v.Bore),
			finding.In("h", "level over the lowest inside point", l),
		}
	}
	figures := []finding.Figure{
		{Slug: "tank-brimful", Name: "Tank, brimful", Amount: q.Of(v.Brimful()), Piece: "tank",
			Working: finding.Working{Formula: "V = V(bottom) + π/4 D² H", Source: geometry, Inputs: []finding.Input{
				finding.In("D", "bore of the tank", v.Bore), finding.In("H", "straight side", v.Straight)}}},
		{Slug: "tank-fill", Name: "Liquid when full", Amount: q.Of(k.fill), Piece: "tank",
			Working: finding.Working{Formula: "as typed, or 90 % of brimful", Source: "the design", Inputs: level(k.full)}},
		{Slug: "level-full", Name: "Level when full, over the lowest inside point", Amount: q.Of(k.full), Piece: "tank",
			Working: finding.Working{Formula: "V(h) = fill, solved for h", Source: geometry, Inputs: []finding.Input{finding.In("V", "liquid when full", k.fill)}}},
		{Slug: "left-in-tank", Name: "Left in the tank at the lowest level", Amount: q.Of(v.VolumeAt(k.lowest)), Piece: "tank",
			Working: finding.Working{Formula: "V(h)", Source: geometry, Inputs: level(k.lowest)}},
		{Slug: "liquid-density", Name: "Density of the liquid", Amount: q.Of(k.liquid.Density), Piece: "liquid",
			Working: finding.Working{Formula: "ρ(t, strength)", Source: k.liquid.Sources.Density, Inputs: p.liquidInputs()}},
		{Slug: "liquid-viscosity", Name: "Viscosity of the liquid", Amount: q.Of(k.liquid.Viscosity), Piece: "liquid",
			Working: finding.Working{Formula: "μ(t, strength)", Source: k.liquid.Sources.Viscosity, Inputs: p.liquidInputs()}},
		{Slug: "liquid-vapour-pressure", Name: "Vapour pressure of the liquid", Amount: q.Of(k.liquid.VapourPressure), Piece: "liquid",
			Working: finding.Working{Formula: "pv(t, strength)", Source: k.liquid.Sources.VapourPressure, Inputs: p.liquidInputs()}},
		{Slug: "air-pressure", Name: "Air pressure at this altitude", Amount: q.Of(k.air), Piece: "site",
			Working: finding.Working{Formula: "p = 101 325 Pa (1 - 0.0065 H / 288.15)^5.25588", Source: "ISO 2533:1975, standard atmosphere",
				Inputs: []finding.Input{finding.In("H", "altitude", p.design.Site.Altitude.Value())}}},
	}
	if k.side {
		figures = append(figures, finding.Figure{
			Slug: "heel", Name: "Left below a side outlet", Amount: q.Of(v.VolumeAt(max(0, k.above-outletBore(p.design.Tank)/2))), Piece: "tank",
			Working: finding.Working{Formula: "V(h) at the lower lip of the outlet", Source: geometry, Inputs: level(max(0, k.above-outletBore(p.design.Tank)/2))},
		})
	}
	return finding.Findings{Figures: figures, Verdicts: p.ranges()}
}

func (p plant) liquidInputs() []finding.Input {
	in := []finding.Input{finding.In("t", "temperature", p.known.temperature)}
	l := p.design.Liquid
	switch l.Kind {
	case "sugar", "caustic":
		in = append(in, finding.In("w", "strength", l.Strength.Value()))
	case "fermented":
		in = append(in, finding.In("A", "alcohol by volume", l.Alcohol.Value()), finding.In("w", "extract left", l.Strength.Value()))
	case "milk":
		in = append(in, finding.In("f", "fat", l.Fat.Value()))
	}
	return in
}

// ranges says where a property was asked for outside its source's range: what
// rests on it is then no more than a hint.
func (p plant) ranges() []finding.Verdict {
	var out []finding.Verdict
	for _, o := range p.known.liquid.Outside {
		out = append(out, finding.Verdict{
			Rule:     "liquid-range",
			Level:    finding.Stop,
			Piece:    "liquid",
			Sentence: "The liquid's " + o.What + ", " + o.Given + ", is outside what its source covers (" + o.Range + "): the nearest value inside was used, and no figure that rests on it can be relied on.",
			Advice:   "Give a value inside that range, or measure the liquid.",
			Basis:    p.known.liquid.Sources.Density,
		})
	}
	return out
}

// scald is where water burns skin within seconds rather than minutes.
// From memory; local codes on hot surfaces and water put limits from 48 to 65 °C.
var scald = q.Celsius(50)

// cautions are what can hurt somebody who builds or runs this plant.
func (p plant) cautions() []string {
	out := []string{
		"Drawoff covers vessels open to the air. It does not judge anything under pressure or vacuum: a closed tank needs a licensed designer and your local codes. A tank that is pumped out or cooled with its lid and vents shut folds up.",
		p.stand.Caution,
	}
	if p.known.temperature >= scald {
		out = append(out, "At "+q.Text(p.known.temperature)+" the liquid scalds. Wear what your site prescribes, and never open a joint on a hot or full line.")
	}
	if p.known.pump.Positive {
		out = append(out, "A positive pump does not stop pushing: against a shut valve, a blocked line or a frozen hose the pressure rises until something bursts. Never run one without a relief valve or bypass that nobody can shut off, and let the pressure out before a joint is opened.")
	}
	if p.design.Liquid.Kind == "caustic" {
		out = append(out, "Caustic burns skin and blinds. Goggles, gloves and water at hand; add caustic to water, never water to caustic; never let it meet carbon dioxide in a closed tank, which it empties into a vacuum.")
	}
	if boil := liquid.BoilingPoint(p.known.air); p.known.temperature > boil-10 {
		out = append(out, "Water boils at "+q.Text(boil)+" here: so near to that a pump draws vapour, and a hose or joint may spit.")
	}
	out = append(out, "Before a tank is entered to clean or weld, it is a confined space: carbon dioxide and purge gas kill without warning. Follow your local code and licensed practice.")
	return out
}
