package pipeline

import (
	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/drain"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/stand"
	"drawoff/pipeline/surge"
	"drawoff/pipeline/vessel"
)

// What each room is told. Rooms know nothing of designs: this is where a
// design's words become what they work with.

func (p plant) flowInput() flow.Input {
	limits := p.design.Limits
	in := flow.Input{
		Layout:      p.layout,
		Liquid:      p.known.liquid,
		Temperature: p.known.temperature,
		Air:         p.known.air,
		Levels:      p.known.levels(p.known.foot(p.height)),
		Foot:        p.known.foot(p.height),
		Discharge:   p.discharge(),
		Stub:        p.known.stub,
		Finish:      p.design.Finish.Value(),
		Curve:       p.known.curve,
		Pump:        p.known.pump,
		Wanted:      p.design.Delivery.Flow.Value(),
		Recipe:      p.known.recipe,
		Limits: flow.Limits{
			SuctionMargin: limits.SuctionMargin.Value(),
			SuctionRatio:  float64(limits.SuctionRatio.Value()),
			SuctionSpeed:  limits.SuctionSpeed.Value(),
		},
	}
	if p.known.vessel.Bottom == vessel.Cone && !p.known.side {
		in.Cone = p.known.vessel.ConeAngle
	}
	return in
}

// discharge is how high the liquid comes out: as typed, else where the line ends.
func (p *plant) discharge() q.Length {
	if h := p.design.Delivery.Height; !h.IsZero() {
		return h.Value()
	}
	line, end := p.layout.Pieces(), p.layout.Outlet
	if !p.layout.Gravity {
		line, end = p.layout.Delivery, p.layout.PumpOut
	}
	if n := len(line); n > 0 {
		end = line[n-1].Out
	}
	return q.Length(end.At.Z)
}

func (p plant) surgeInput() surge.Input {
	in := surge.Input{
		Layout:  p.layout,
		Stub:    p.known.stub,
		Density: p.known.liquid.Density,
		Full:    p.known.foot(p.height) + p.known.full,
	}
	for _, point := range p.flow.Points {
		in.Flow = max(in.Flow, point.Flow)
	}
	in.Shutoff = p.mostHead()
	return in
}

// mostHead is the greatest head that the pump gives against a shut valve: of a
// positive pump what its relief valve opens at, or its last point where no
// valve is told.
func (p plant) mostHead() q.Head {
	var most q.Head
	for _, duty := range p.known.curve.Duties() {
		most = max(most, duty.Head)
	}
	if p.known.pump.Positive {
		most = max(most, q.Head(float64(p.known.pump.Relief)/(gravity*float64(p.known.liquid.Density))))
	}
	return most
}

// pumpOf returns what the design says of its pump, the zero Pump where there is none.
func pumpOf(p design.Pump) flow.Pump {
	if p.Kind == design.NoPump {
		return flow.Pump{}
	}
	out := flow.Pump{
		Positive: design.Positive(p.Kind),
		Shuts:    design.Shuts(p.Kind),
		Slips:    design.Slips(p.Kind),
		Rated:    p.Rated.Value(),
		Speed:    p.Speed.Value(),
		DryLift:  p.DryLift.Value(),
		Relief:   p.Relief.Value(),
	}
	if out.Positive {
		out.Duties = make([]flow.Duty, len(p.Slip))
		for i, s := range p.Slip {
			out.Duties[i] = flow.Duty{Flow: s.Flow.Value(), Pressure: s.Pressure.Value(), Required: s.HeadRequired.Value(), Efficiency: s.Efficiency.Value()}
		}
		return out
	}
	out.Duties = make([]flow.Duty, len(p.Curve))
	for i, c := range p.Curve {
		out.Duties[i] = flow.Duty{Flow: c.Flow.Value(), Head: c.Head.Value(), Required: c.HeadRequired.Value(), Efficiency: c.Efficiency.Value()}
	}
	return out
}

func (p plant) standInput() stand.Input {
	s := p.design.Stand
	k := p.known
	toOutlet := k.stub
	if k.side {
		toOutlet = -k.above
	}
	in := stand.Input{
		Layout: p.layout,
		Tank: stand.TankShape{BottomToOutlet: toOutlet, Depth: k.vessel.BottomDepth() + k.vessel.Straight, Side: k.side,
			Vessel: k.vessel, Wall: p.design.Tank.Wall.Value(), Manway: p.design.Tank.Manway.Or(k.vessel.Brim()), Full: k.full},
		Height:      p.height,
		HeightTyped: !s.Height.IsZero(),
		Raise:       p.flow.Raise,
		RaiseKnown:  p.flow.RaiseKnown,
		FreeOutflow: p.layout.Gravity && p.design.Delivery.Height.IsZero(),
		Foot:        s.Foot.Value(),
		Legs:        s.Legs,
		Bucket:      s.Bucket.Value(),
		Clearance:   s.Clearance.Value(),
		Stock:       s.Stock.Value(),
		Kerf:        s.Kerf.Value(),
		FloorSpace:  p.design.Limits.FloorSpace.Value(),
		Ceiling:     p.design.Site.Ceiling.Value(),
		HasCeiling:  !p.design.Site.Ceiling.IsZero(),
		FallLimit:   p.design.Limits.Fall.Value(),

		Access:   s.Access.Value(),
		LegOD:    s.LegOD.Value(),
		LegWall:  s.LegWall.Value(),
		Feet:     s.Feet.Value(),
		Splay:    s.Splay.Value(),
		Braced:   s.Brace == design.DiagonalBrace,
		BraceOD:  s.BraceOD.Value(),
		Pad:      s.Pad.Value(),
		Adjust:   s.Adjust.Value(),
		Castors:  s.Castors.Value(),
		Anchored: s.Anchored,
		Load:     s.Load.Value(),

		Density:     k.liquid.Density,
		Temperature: k.temperature,

		FloorFall: p.design.Site.FloorFall.Value(),
		Uneven:    p.design.Site.Uneven.Value(),
		Door:      p.design.Site.Door.Value(),
		DoorWidth: p.design.Site.DoorWidth.Value(),
		Tip:       p.design.Limits.Tip.Value(),
		Reach:     p.design.Limits.Reach.Value(),
	}
	if in.LegTop = s.LegTop.Value(); s.LegTop.IsZero() {
		in.LegTop = in.Meets()
	}
	return in
}

func (p plant) jointInput() joint.Input {
	return joint.Input{
		Junctions:   p.layout.Junctions,
		Pieces:      p.layout.ToPump(),
		Medium:      medium(p.design.Liquid, p.known.temperature),
		Liquid:      p.known.liquid.Name,
		Temperature: p.known.temperature,
		Cleaning:    cleaning(p.design),
		Assumed:     len(p.design.Cleaning) == 0,
		Linings:     p.linings(),
		Heads: joint.Heads{
			Density: p.known.liquid.Density,
			Full:    p.known.foot(p.height) + p.known.full,
			Outflow: p.discharge(),
			ShutOff: p.mostHead(),
		},
		BoreStep: float64(p.design.Limits.BoreStep.Value()),
	}
}

// linings are those of its hoses that are told.
func (p plant) linings() (out []joint.Lining) {
	for _, piece := range p.layout.Pieces() {
		if piece.Kind == design.Hose && piece.Said != nil && piece.Said.Lining != "" {
			out = append(out, joint.Lining{Ref: piece.Ref, Material: piece.Said.Lining})
		}
	}
	return out
}

func (p plant) drainInput() drain.Input {
	return drain.Input{Layout: p.layout, Least: p.design.Limits.Fall.Value()}
}

func (p plant) orderInput() order.Input {
	s := p.design.Stand
	f := order.Frame{
		Legs: s.Legs, Leg: p.stand.LegLength, LegDoubt: p.stand.LegDoubt, LegOD: s.LegOD.Value(), Splay: s.Splay.Value(), Wall: s.LegWall.Value(),
		BraceOD: s.BraceOD.Value(), Foot: s.Foot.Value(), Pad: s.Pad.Value(), Adjust: s.Adjust.Value(), Castors: s.Castors.Value(),
	}
	if s.Brace == design.DiagonalBrace {
		f.Braces, f.Brace, f.BraceDoubt = s.Legs, p.stand.Brace, p.stand.BraceDoubt
	}
	return order.Input{Layout: p.layout, Frame: f}
}

// medium is what a liquid is to a seal. Fermented drinks are judged as ethanol
// to 40 %, the nearest that the seal tables have; what they have not is told
// in words, and no seal is then passed. Water is rated cold, up to what the
// tables call so, and hot.
func medium(l design.Liquid, t q.Temperature) string {
	switch l.Kind {
	case "water":
		if a, ok := catalog.FindAgent("water"); ok && t > a.Rated {
			return "hot-water"
		}
	case "fermented":
		return "ethanol"
	case "spirits":
		if l.Alcohol.Value() > 0.4 {
			return "alcohol over 40 %"
		}
		return "ethanol"
	case "skim", "cream", "whey":
		return "milk"
	case design.Other, design.PowerLaw, design.Bingham:
		if l.Medium == design.Unlike {
			return "your liquid"
		}
		return l.Medium
	}
	return l.Kind
}
