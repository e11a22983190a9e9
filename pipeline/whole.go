package pipeline

import (
	"slices"

	"drawoff/pipeline/clean"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/holdup"
	"drawoff/pipeline/pressure"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/surge"
	"drawoff/pipeline/vent"
)

// Check works out everything about d. It never panics, never returns a number
// that is not one, and has no clock, no randomness and no I/O: the terminal,
// the page's workshop and the edge worker all call it and get the same report.
//
// A design that cannot be worked out comes back with its faults and nothing else.
func Check(d design.Design) Report { return Glance(d).Whole() }

// Whole adds to what Glance told what Check tells beside: whoever has seen at
// a glance that a change is no good need not work out the rest of it.
func (r Report) Whole() Report {
	if r.plant == nil {
		return r
	}
	later := r.plant.later()
	r = r.With(later.Verdicts)
	r.later.Figures = later.Figures
	r.Figures = slices.Concat(r.Figures, later.Figures)
	return r
}

// With returns what Glance told with the verdicts of Later put among its own,
// as Check has them. Who asked Whole of one thread and shows the report in
// another hands them over so; the figures of Later are not in it.
func (r Report) With(later []finding.Verdict) Report {
	r.later.Verdicts = later
	r.Verdicts = mostPressingFirst(append(r.Verdicts[:len(r.Verdicts):len(r.Verdicts)], later...))
	r.Level = finding.Worst(r.Verdicts)
	levels := gravest(r.Verdicts)
	r.Pieces = append([]Piece(nil), r.Pieces...)
	for i := range r.Pieces {
		r.Pieces[i].Level = levels[r.Pieces[i].Ref]
	}
	return r
}

// later is what the rooms find that Glance leaves out: what does not follow
// the finger on a keystroke, and would weigh on the page's first load.
func (p plant) later() finding.Findings {
	var vents []finding.Verdict
	if !p.design.Vent.Bore.IsZero() { // without one there is none, whatever it must be
		vents = p.breathing(p.wash().Programme).Verdicts
	}
	return finding.Join(
		surge.Check(p.surgeInput()),
		finding.Findings{Verdicts: p.stability().Verdicts},
		p.assumed(),
		pressure.Check(p.pressureInput()),
		p.washPressure(),
		finding.Findings{Verdicts: flow.Beyond(p.flowInput(), p.flow)},
		holdup.Findings(p.holdupInput()),
		finding.Findings{Verdicts: clean.Verdicts(p.washInput())},
		finding.Findings{Verdicts: vents},
	)
}

// Wash returns how line and tank are washed in place, and what has to be taken
// apart for it. It is worked out when it is asked for; its verdicts are in the
// report of Check. A report on a design that could not be worked out has none.
func (r Report) Wash() clean.Result {
	if r.plant == nil {
		return clean.Result{}
	}
	return r.plant.wash()
}

// Breathing returns what air the tank must draw and give, as Wash is returned.
func (r Report) Breathing() vent.Result {
	if r.plant == nil {
		return vent.Result{}
	}
	return r.plant.breathing(r.plant.wash().Programme)
}

// Later returns what Check found beyond Glance; it is in the report, too.
func (r Report) Later() finding.Findings { return r.later }

// Stays returns what stays behind when the plant is emptied, and how to get it
// out, as Wash is returned.
func (r Report) Stays() holdup.Result {
	if r.plant == nil {
		return holdup.Result{}
	}
	return holdup.Check(r.plant.holdupInput())
}

func (p *plant) holdupInput() holdup.Input {
	in := holdup.Input{
		Layout:    p.layout,
		Vessel:    p.known.vessel,
		Full:      p.known.full,
		Lip:       p.lowerLip(),
		Limit:     float64(p.design.Limits.DeadEnd.Value()),
		Time:      p.design.Limits.DrainTime.Value(),
		Density:   p.known.liquid.Density,
		Viscosity: p.known.liquid.Viscosity,
		Newtonian: p.known.liquid.Rheology.Newtonian(),
		Speeds:    make(map[string]q.Velocity, len(p.flow.Pieces)),
		Flow:      p.flow.Points[0].Flow,
	}
	if !p.layout.Gravity {
		in.Casing, in.Shut = p.design.Pump.Casing.Value(), p.known.pump.Shuts
	}
	for i := range p.flow.Pieces {
		in.Speeds[p.flow.Pieces[i].Ref] = p.flow.Pieces[i].Velocity
	}
	return in
}
