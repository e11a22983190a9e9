package pipeline

import (
	"slices"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/pressure"
	q "drawoff/pipeline/quantity"
)

// washPressure judges the pressure along the line while it is washed. Of a pump
// that is taken for the wash nobody has said where it is connected: nothing is said.
func (p *plant) washPressure() finding.Findings {
	if p.design.Wash.Flow.Value() > 0 {
		return finding.Findings{}
	}
	var steps []pressure.Input
	line := p.pressureAlong()
	for _, s := range p.washSteps() {
		with := s.With()
		if slices.ContainsFunc(steps, func(done pressure.Input) bool { return done.With == with }) || s.Liquid.VapourPressure >= p.known.air {
			continue // a wash rinses more than once; that it boils in the tank package clean says
		}
		asked := p.washFlow(s.Liquid)
		height := asked.Foot + p.known.lowest
		pt := flow.NewSteady(asked).At(height)
		in := line
		in.With, in.Vapour, in.Density = with, s.Liquid.VapourPressure, s.Liquid.Density
		in.Levels = []pressure.Level{p.runs("with the tank down to its lowest level", height, asked, pt)}
		steps = append(steps, in)
	}
	return pressure.Wash(steps)
}

// runs is what the line runs at a level.
func (p *plant) runs(when string, height q.Length, asked flow.Input, pt flow.Point) pressure.Level {
	level := pressure.Level{When: when, Height: height, Flow: pt.Flow > 0, AtLeast: p.more(pt), Pieces: map[string]pressure.Run{}}
	if level.Flow {
		for ref, t := range flow.AllThrough(asked, pt.Flow) {
			level.Pieces[ref] = pressure.Run{Flow: t.Flow, Loss: t.Loss, Least: t.Least, Most: t.Most}
		}
	}
	return level
}

// pressureInput is what the room of the pressure along the line is told.
func (p plant) pressureInput() pressure.Input {
	in := p.pressureAlong()
	asked := p.flowInput()
	for _, pt := range p.flow.Points {
		when := "with the tank " + pt.Level.Name
		if pt.Level.Slug == "lowest" {
			when = "at the lowest level"
		}
		in.Levels = append(in.Levels, p.runs(when, pt.Level.Height, asked, pt))
	}
	return in
}

// pressureAlong is it without what runs.
func (p *plant) pressureAlong() pressure.Input {
	in := pressure.Input{
		Line:      pressure.NewLine(p.layout),
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
	return in
}
