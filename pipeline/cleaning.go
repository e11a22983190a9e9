package pipeline

import (
	"slices"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/joint"
	q "drawoff/pipeline/quantity"
)

// cleaning is what the line is cleaned with, or what is usual.
func cleaning(d design.Design) []joint.Cleaning {
	list := d.Cleaning
	if len(list) == 0 {
		list = design.UsualCleaning()
	}
	out := make([]joint.Cleaning, 0, len(list))
	for _, c := range list {
		if a, ok := catalog.FindAgent(c.Agent); ok {
			step := joint.Cleaning{Agent: a, Temperature: c.Temperature.Or(a.Usual), Strength: c.Strength.Or(a.Strength)}
			if !slices.Contains(out, step) { // a wash rinses more than once
				out = append(out, step)
			}
		}
	}
	return out
}

// cleaningCautions are what can hurt somebody who cleans this plant.
func (p plant) cleaningCautions() (out []string) {
	var hottest q.Temperature
	var chlorine, acid, caustic bool
	for _, c := range cleaning(p.design) {
		hottest = max(hottest, c.Temperature)
		switch c.Agent.Slug {
		case "hypochlorite":
			chlorine = true
		case "nitric", "phosphoric", "peracetic":
			acid = true
		case "caustic":
			caustic = true
		}
	}
	if chlorine && acid {
		out = append(out, "Hypochlorite and acid together give off chlorine, which kills. Rinse the whole line with water between them, never mix them, and keep their drums apart.")
	}
	if acid {
		out = append(out, "Cleaning acid burns skin and eyes. Goggles and gloves; add acid to water, never water to acid; follow the data sheet of what you buy and your local code.")
	}
	switch {
	case caustic && p.design.Liquid.Kind != "caustic":
		out = append(out, "Cleaning caustic burns skin and blinds, the more so hot. Goggles, gloves and water at hand; drain and rinse the line before a joint is opened; add caustic to water, never water to caustic; never let it meet carbon dioxide in a closed tank, which it empties into a vacuum.")
	case hottest >= scald:
		out = append(out, "Cleaning at "+q.Text(hottest)+" scalds: drain the line and let it cool before a joint is opened.")
	}
	if hottest >= scald {
		out = append(out, "A tank that is full of hot air and rinsed cold pulls a vacuum as fast as it cools: keep it wide open to the air.")
	}
	return out
}
