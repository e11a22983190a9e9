package pipeline

import (
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// liquidRange is said of every property: whether it holds is judged apart.
const liquidRange = "the strength and temperature that its source covers; the verdict liquid-range says when they are left"

// liquid tells the liquid's properties, each with its source.
func (p plant) liquid() []finding.Figure {
	l := &p.known.liquid
	inputs := p.liquidInputs()
	figure := func(slug, name, formula, source string, amount q.Amount) finding.Figure {
		return finding.Figure{Slug: slug, Name: name, Amount: amount, Piece: "liquid",
			Working: finding.Working{Formula: formula, Source: source, Range: liquidRange, Inputs: inputs}}
	}
	density := figure("liquid-density", "Density of the liquid", "ρ(t, strength)", l.Sources.Density, q.Of(l.Density))
	if p.design.Liquid.Kind == "sugar" {
		density.Source += ". " + hydrometer(p.design.Liquid.Strength.Value())
	}
	viscosity := figure("liquid-viscosity", "Viscosity of the liquid", "μ(t, strength)", l.Sources.Viscosity, q.Of(l.Viscosity))
	vapour := figure("liquid-vapour-pressure", "Vapour pressure of the liquid", "p_v(t, strength)", l.Sources.VapourPressure, q.Of(l.VapourPressure))
	switch r := l.Rheology; {
	case r.Newtonian():
		return []finding.Figure{density, viscosity, vapour}
	case r.Index != 0:
		viscosity.Name, viscosity.Formula = "Apparent viscosity at a shear rate of 100 1/s", "μ = K γ^(n-1)"
		return []finding.Figure{density, viscosity, vapour,
			figure("liquid-consistency", "Consistency of the liquid, K", "τ = K γ^n", "as typed", q.Of(r.Consistency)),
			figure("liquid-index", "Index of the liquid, n", "τ = K γ^n", "as typed", q.Of(r.Index))}
	default:
		viscosity.Name, viscosity.Formula = "Plastic viscosity of the liquid", "τ = τ0 + μp γ"
		return []finding.Figure{density, viscosity, vapour,
			figure("liquid-yield-stress", "Yield stress of the liquid", "τ = τ0 + μp γ", "as typed", q.Of(r.Yield))}
	}
}

func (p plant) liquidInputs() []finding.Input {
	in := append(make([]finding.Input, 0, 3), finding.In("t", "temperature", p.known.temperature))
	l := p.design.Liquid
	switch l.Kind {
	case "sugar", "caustic", "nitric", "phosphoric", "peracetic":
		in = append(in, finding.In("w", "strength", l.Strength.Value()))
	case "fermented":
		in = append(in, finding.In("A", "alcohol by volume", l.Alcohol.Value()), finding.In("w", "extract left", l.Strength.Value()))
	case "spirits":
		in = append(in, finding.In("A", "alcohol by volume", l.Alcohol.Value()))
	case "milk", "skim", "cream":
		in = append(in, finding.In("f", "fat", l.Fat.Value()))
	case design.PowerLaw:
		in = append(in, finding.In("K", "consistency", l.Consistency.Value()), finding.In("n", "index", l.Index.Value()))
	}
	return in
}

// hydrometer says what a hydrometer shows of a sugar solution, in both
// conventions, since neither is a thousandth of the density above.
func hydrometer(w q.Strength) string {
	apparent, ratio := liquid.Gravity(w)
	text := func(sg float64) string { return strconv.FormatFloat(sg, 'f', 4, 64) }
	return "This is a true density and no gravity: at 20 °C the same sugar is SG " + text(apparent) + " in air (20/20 °C, the tables of Plato and the ASBC), " +
		text(ratio) + " true"
}

// ranges says which property was asked for outside its source's range, and
// what was used in its place.
func (p plant) ranges() []finding.Verdict {
	var out []finding.Verdict
	for _, o := range p.known.liquid.Outside {
		out = append(out, finding.Verdict{
			Rule:  "liquid-range",
			Level: finding.Look,
			Piece: "liquid",
			Sentence: "For the liquid's " + o.Property + " the source covers " + o.Range + "; its " + o.What + " is " + o.Given +
				". Instead, " + o.Used + ", is used.",
			Advice: "Leave room for it in whatever rests on it, give a value inside that range, or measure the liquid and type its own figures.",
			Basis:  basis(p.known.liquid.Sources, o.Property),
		})
	}
	return out
}

// basis returns the source of a property, or of the first of several.
func basis(s liquid.Sources, property string) string {
	switch {
	case strings.HasPrefix(property, "viscosity"):
		return s.Viscosity
	case strings.HasPrefix(property, "vapour"):
		return s.VapourPressure
	}
	return s.Density
}

// hazard is what in the liquid itself can hurt, "" where the usual cautions say it.
func hazard(kind string) string {
	switch kind {
	case "caustic":
		return "Caustic burns skin and blinds. Goggles, gloves and water at hand; add caustic to water, never water to caustic; never let it meet carbon dioxide in a closed tank, which it empties into a vacuum." + defers
	case "nitric":
		return "Nitric acid burns skin and eyes, and its fumes harm hours after they were breathed. Goggles, gloves, water at hand and air; add acid to water; never let it meet caustic, alcohol or anything with chlorine in it." + defers
	case "phosphoric":
		return "Phosphoric acid burns skin and eyes. Goggles, gloves and water at hand; add acid to water; never let it meet anything with chlorine in it: that gives off chlorine gas." + defers
	case "peracetic":
		return "Peracetic acid burns skin and eyes and its vapour chokes. Goggles, gloves, water at hand and air. It gives off oxygen: never shut it in between two valves or in a closed vessel, and never let it meet caustic, chlorine or alcohol." + defers
	case "spirits":
		return "Spirits give off a vapour that burns, at 40 % from about room temperature on. Keep fire and sparks away, earth the plant, and use only a pump, motor and lights that are made for such air." + defers
	case design.Other, design.PowerLaw, design.Bingham:
		return "Drawoff knows nothing of this liquid but the figures that were typed: read its safety data sheet before it is pumped." + defers
	}
	return ""
}

const defers = " Follow its safety data sheet and your local code."
