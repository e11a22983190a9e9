package pipeline

import (
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
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
			Working: finding.Working{Formula: "V = V_b + π/4 D² H", Source: geometry, Range: geometric, Inputs: []finding.Input{
				finding.In("V_b", "what the bottom holds", v.VolumeAt(v.BottomDepth())), finding.In("D", "bore of the tank", v.Bore), finding.In("H", "straight side", v.Straight)}}},
		{Slug: "tank-fill", Name: "Liquid when full", Amount: q.Of(k.fill), Piece: "tank",
			Working: finding.Working{Formula: p.fillFormula(), Source: "the design", Range: "what is typed, or the usual", Inputs: []finding.Input{finding.In("V_t", "tank, brimful", v.Brimful())}}},
		{Slug: "level-full", Name: "Level when full, over the lowest inside point", Amount: q.Of(k.full), Piece: "tank",
			Working: finding.Working{Formula: "V(h) = V, solved for h", Source: geometry, Range: geometric, Inputs: []finding.Input{finding.In("V", "liquid when full", k.fill)}}},
		{Slug: "left-in-tank", Name: "Left in the tank at the lowest level", Amount: q.Of(v.VolumeAt(k.lowest)), Piece: "tank",
			Working: finding.Working{Formula: "V(h)", Source: geometry, Range: geometric, Inputs: level(k.lowest)}},
		{Slug: "air-pressure", Name: "Air pressure at this altitude", Amount: q.Of(k.air), Piece: "site",
			Working: finding.Working{Formula: "p = 101325 (1 - 0.0065 r H/((r + H) 288.15))^5.25587981, in Pa and m", Source: "ISO 2533:1975, standard atmosphere", Range: "altitudes to 11 km; the weather moves it by up to 5 %",
				Inputs: []finding.Input{finding.In("H", "altitude", p.design.Site.Altitude.Value()), finding.In("r", "radius of the Earth, of the standard", q.Length(6356766))}}},
	}
	figures = append(figures, p.liquid()...)
	if k.side {
		figures = append(figures, finding.Figure{
			Slug: "heel", Name: "Left below a side outlet", Amount: q.Of(v.VolumeAt(p.lowerLip())), Piece: "tank",
			Working: finding.Working{Formula: "V(h) at the lower lip of the outlet", Source: geometry, Range: geometric, Inputs: level(p.lowerLip())},
		})
	}
	return finding.Findings{Figures: figures, Verdicts: p.ranges()}
}

// lowerLip is the level under which nothing runs out of the tank by itself,
// over the lowest inside point: of a side outlet its lower edge.
func (p *plant) lowerLip() q.Length {
	if !p.known.side {
		return 0
	}
	return max(0, p.known.above-outletBore(p.design.Tank)/2)
}

func (p plant) fillFormula() string {
	if p.design.Tank.Fill.IsZero() {
		return "V = 0.9 V_t"
	}
	return "V as typed; V_t is the most"
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
	if n := len(p.flow.Points); n > 0 && p.known.pump.Positive && !p.known.pump.Shuts && p.flow.Points[0].Status == flow.BeyondEnd { // full, it drives it most
		out = append(out, "The liquid runs through this pump by itself: shut a valve in the line before it is stopped and left, or the tank empties.")
	}
	if c := hazard(p.design.Liquid.Kind); c != "" {
		out = append(out, c)
	}
	out = append(out, p.cleaningCautions()...)
	if boil := liquid.BoilingPoint(p.known.air); p.known.temperature > boil-10 {
		out = append(out, "Water boils at "+q.Text(boil)+" here: so near to that a pump draws vapour, and a hose or joint may spit.")
	}
	out = append(out, "Before a tank is entered to clean or weld, it is a confined space: carbon dioxide and purge gas kill without warning. Follow your local code and licensed practice.")
	return out
}
