package pipeline

import (
	"drawoff/pipeline/flow"
	"drawoff/pipeline/pressure"
)

// pressureInput is what the room of the pressure along the line is told.
func (p plant) pressureInput() pressure.Input {
	in := pressure.Input{
		Layout:    p.layout,
		Air:       p.known.air,
		Vapour:    p.known.liquid.VapourPressure,
		Density:   p.known.liquid.Density,
		Discharge: p.discharge(),
		Margin:    p.design.Limits.SuctionMargin.Value(),
		Pump:      p.design.Pump.Kind,
		ShutOff:   p.mostHead(),
	}
	if p.known.curve.First() > 0 && !p.known.curve.Positive() {
		in.ShutOff = 0 // its first point is not what it gives at no flow
	}
	asked := p.flowInput()
	for _, pt := range p.flow.Points {
		level := pressure.Level{When: "with the tank " + pt.Level.Name, Height: pt.Level.Height, Flow: pt.Flow > 0, Pieces: map[string]pressure.Run{}}
		if pt.Level.Slug == "lowest" {
			level.When = "at the lowest level"
		}
		if level.Flow {
			for ref, t := range flow.AllThrough(asked, pt.Flow) {
				level.Pieces[ref] = pressure.Run{Flow: t.Flow, Loss: t.Loss, Least: t.Least, Most: t.Most}
			}
		}
		in.Levels = append(in.Levels, level)
	}
	return in
}
