package pipeline

import (
	"drawoff/catalog"
	"drawoff/pipeline/clean"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/vent"
)

// wash runs the line again with what it is washed with.
func (p *plant) wash() clean.Result {
	joints := joint.Check(p.jointInput())
	in := p.washInput()
	in.Joints = p.washJoints(joints)
	for _, m := range p.wetted(joints) {
		for i := range in.Steps {
			s := &in.Steps[i]
			s.Stands = append(s.Stands, stands(m, s.Agent.Slug))
		}
	}
	r := clean.Check(in)
	r.Cautions = p.cleaningCautions()
	return r
}

// washInput is all that verdicts on the wash rest on: its joints are left out.
func (p *plant) washInput() clean.Input {
	w := p.design.Wash
	return clean.Input{
		Layout: p.layout,
		Stub:   p.known.stub,
		Vessel: p.known.vessel,
		Wall:   p.design.Tank.Wall.Value(),
		Steps:  p.washSteps(),

		Speed:    w.Speed.Value(),
		Fed:      w.Flow.Value(),
		Spray:    w.Spray.Value(),
		Pressure: w.Pressure.Value(),
		Scavenge: w.Scavenge.Value(),
		Sump:     w.Sump.Value(),
		Supply:   w.Supply.Value(),
		Element:  w.Element.Value(),
		Rinses:   float64(w.Rinses.Value()),

		Line:  p.washRun,
		Level: p.runoffLevel,
	}
}

// washSteps are the steps that are told, or the usual ones.
func (p *plant) washSteps() []clean.Step {
	list := p.design.Cleaning
	if len(list) == 0 {
		list = design.Design{Cleaning: design.UsualCleaning()}.Filled().Cleaning
	}
	var out []clean.Step
	for _, c := range list {
		a, ok := catalog.FindAgent(c.Agent)
		if !ok {
			continue
		}
		step := clean.Step{Agent: a, Temperature: c.Temperature.Value(), Time: c.Time.Value(), Liquid: washLiquid(c)}
		if a.Strength > 0 {
			step.Strength = c.Strength.Value()
		}
		out = append(out, step)
	}
	return out
}

// washLiquid is what a step runs with. Hypochlorite is as dilute as water.
func washLiquid(c design.Cleaning) liquid.Properties {
	l, ok := liquid.Of(liquid.Recipe{Kind: c.Agent, Strength: q.Strength(c.Strength.Value())}, c.Temperature.Value())
	if !ok {
		l = liquid.Water(c.Temperature.Value())
	}
	return l
}

// wetted are the materials of the line's seals and hose linings, once each.
func (p *plant) wetted(joints joint.Result) (out []catalog.Material) {
	add := func(m catalog.Material) {
		for _, have := range out {
			if have.Slug == m.Slug {
				return
			}
		}
		out = append(out, m)
	}
	for _, j := range joints.Joints {
		if _, m, ok := catalog.FindSeal(j.Seal.Slug); ok {
			add(m)
		}
	}
	for _, l := range p.linings() {
		if m, ok := catalog.FindMaterial(l.Material); ok {
			add(m)
		}
	}
	return out
}

// stands looks up how a material stands an agent; the verdicts on it are package joint's.
func stands(m catalog.Material, agent string) clean.Stand {
	s := clean.Stand{Material: m.Name, Rating: "not known"}
	if rating, _, _, ok := catalog.Stands(m.Slug, agent); ok {
		s.Rating = string(rating)
	}
	return s
}

// washJoints are the line's joints, with what is wrong with their bores.
func (p *plant) washJoints(joints joint.Result) []clean.Joint {
	steps := map[string]bool{}
	for _, v := range joints.Verdicts {
		if v.Rule == joint.RuleStep && v.Level != finding.Sound {
			steps[v.Piece] = true
		}
	}
	out := make([]clean.Joint, len(joints.Joints))
	for i, j := range joints.Joints {
		out[i] = clean.Joint{Ref: j.Ref, Family: j.Kind, Name: j.Name, Seal: j.Seal.Name, Faulty: steps[j.Ref]}
	}
	return out
}

// washFlow is the line with what washes it running in it.
func (p *plant) washFlow(l liquid.Properties) flow.Input {
	in := p.flowInput()
	in.Liquid, in.Wash = l, true
	if !p.layout.Gravity {
		in.Curve = p.known.pump.Run(l)
	}
	return in
}

// washRun runs the line, and feeds a ball at the brim, with the tank at its lowest level.
func (p *plant) washRun(l liquid.Properties, wanted, spray q.Flow) clean.Run {
	in := p.washFlow(l)
	steady := flow.NewSteady(in)
	level := in.Foot + p.known.lowest
	pt := steady.At(level)
	run := clean.Run{Pump: !p.layout.Gravity, Flow: pt.Flow, AtLeast: p.more(pt), Boils: steady.Boils()}
	run.Work = clean.Work{Head: pt.Head, Lift: pt.Static, Lost: pt.SuctionLoss + pt.DeliveryLoss}
	if !run.Pump {
		run.Work.Lift = -pt.Static
	}
	switch pt.Status {
	case flow.NoCurve, flow.BelowStart, flow.TooThick:
	default:
		run.Known = true
	}
	run.Asked = steady.Loss(wanted)
	if run.Pump {
		run.Asked += pt.Static
		run.Suction, run.MarginKnown = clean.Suction{Has: pt.SuctionAvailable, Requires: pt.SuctionRequired, Over: in.Limits.SuctionMargin, Times: in.Limits.SuctionRatio}, pt.SuctionKnown
		if head, outside := in.Curve.Head(spray); !outside && !p.known.pump.Positive && !in.Curve.IsZero() {
			run.Ball = clean.Work{Head: head, Lift: q.Head(in.Foot + p.known.vessel.Brim() - level), Lost: steady.Loss(spray)}
			run.BallKnown = true
		}
	}
	return run
}

// more reports whether more may run at pt than the pump's curve tells. A pump
// that lets nothing through but what it pushes out holds it to that.
func (p *plant) more(pt flow.Point) bool { return pt.Status == flow.BeyondEnd && !p.known.pump.Shuts }

// openLine is the line by which the tank runs empty by gravity: without a
// pump the whole, else what hangs under it, open at its end.
func (p *plant) openLine() flow.Input {
	in := p.flowInput()
	if p.layout.Gravity {
		return in
	}
	in.Layout = route.Layout{Outlet: p.layout.Outlet, Under: p.layout.Under, Gravity: true}
	end := p.layout.Outlet
	if n := len(p.layout.Under); n > 0 {
		end = p.layout.Under[n-1].Out
	}
	in.Discharge = q.Length(end.At.Z)
	in.Curve, in.Pump = flow.Curve{}, flow.Pump{}
	return in
}

// runoffLevel is how high the wash stands over the lowest inside point where
// so much of it runs off. A side outlet draws only what is over its lower edge.
func (p *plant) runoffLevel(l liquid.Properties, wash q.Flow) q.Length {
	in := p.openLine()
	in.Liquid, in.Wash = l, true
	level := in.Discharge + q.Length(flow.NewSteady(in).Loss(wash)) - in.Foot
	if p.known.side {
		level = max(level, p.known.above-outletBore(p.design.Tank)/2)
	}
	return level
}

// breathing reckons what air the tank must draw and give.
func (p *plant) breathing(programme clean.Programme) vent.Result {
	k := &p.known
	in := vent.Input{
		Air:      k.air,
		Pressure: p.design.Vent.Pressure.Value(),
		Bore:     p.design.Vent.Bore.Value(),
		Pumped:   !p.layout.Gravity,
		Filled:   p.design.Vent.Fill.Value(),
		Told:     !p.design.Vent.Fill.IsZero(),
		Supply:   p.design.Wash.Supply.Value(),
		Brimful:  k.vessel.Brimful(),
	}
	for _, pt := range p.flow.Points {
		in.Drawn = max(in.Drawn, pt.Flow*q.Flow(p.flow.Drawn))
	}
	in.Run = flow.NewSteady(p.openLine()).At(k.foot(p.height) + k.full).Flow
	if !in.Told {
		in.Filled = max(in.Drawn, in.Run)
	}
	in.Rinse = programme.Spray
	for _, row := range programme.Rows {
		in.Hottest = max(in.Hottest, row.Temperature)
	}
	for _, c := range programme.Totals.Chemicals {
		if c.Agent == "caustic" {
			in.Caustic = c.Mass
		}
	}
	in.Density, in.Boiling = liquid.Water(in.Supply).Density, liquid.BoilingPoint(p.known.air)
	in.Vapour, in.Cold = liquid.SaturationPressure(in.Hottest), liquid.SaturationPressure(in.Supply)
	return vent.Check(in)
}
