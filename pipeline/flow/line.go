package flow

import (
	"math"

	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// Element is one piece of a line: a straight, a fitting, or a fitting with
// straight ends.
type Element struct {
	Ref       string   // path of its piece in the design
	Name      string   // for people
	Bore      q.Length // that its velocity is taken in; a reducer: the small one
	Length    q.Length // of straight only; see the package comment
	Roughness q.Length // of the bore, equivalent sand grain
	Share     float64  // of the line's flow that passes it, where tees split it or join another; 0 counts as 1
	Loss      Fitting
	Drops     *Drops // as typed, in the place of Length and Loss; nil where nothing is
}

// Roughness of bores.
const (
	// UsualFinish is Ra of a product side, 0.8 µm: the most that AS 1528.2:2019 1.7.2 allows.
	UsualFinish q.Length = 0.8e-6
	// RoughFinish is Ra of a bore as it should not be, 3.2 µm, to show how little hangs on it.
	RoughFinish q.Length = 3.2e-6
	// TubeRoughness is that of tube with the usual finish.
	TubeRoughness = UsualFinish * sandGrain
	// HoseRoughness is for smooth rubber, 0.01 mm (White, Fluid Mechanics, Table 6.1, from memory).
	HoseRoughness q.Length = 0.01e-3

	// sandGrain is ε over Ra (T. Adams, C. Grant & H. Watson, Int. J. Mech. Eng.
	// Mechatronics 1 (2012) 66; the factor from memory).
	sandGrain = 5.863
)

// Roughness returns the equivalent sand grain of a bore whose finish is ra:
// 5.863 Ra by Adams, Grant & Watson. For new stainless steel tube handbooks
// give 0.002 mm (Çengel & Cimbala, Fluid Mechanics, Table 8-2), for drawn tubing
// 0.0015 mm (Moody 1944); Ra 0.8 µm comes out at 0.0047 mm, a little rougher
// than both. It is not for rusty or scaled pipe.
func Roughness(ra q.Length) q.Length {
	return q.Length(within(float64(ra), 0, 1e-3)) * sandGrain
}

// Line is a line's elements in flow order. A bore under 0.1 mm counts as 0.1 mm.
type Line []Element

// Loss is the head that a line loses at one flow.
type Loss struct {
	Low, High   q.Head // by the default methods; the same outside the critical zone
	Least, Most q.Head // by whichever methods say least and most, over the critical zone too
	Elements    []PieceFlow
}

// PieceFlow is the flow through one element, and the head that it loses.
type PieceFlow struct {
	Ref           string // the element's: "tank", "run.2", "delivery"
	Velocity      q.Velocity
	Reynolds      float64
	Friction      Band    // Darcy; zero where nothing flows or nothing is straight
	K             float64 // of its fitting; 0 where nothing flows
	Loss, LossLow q.Head  // the higher and the lower; the same outside the critical zone
	Least, Most   q.Head  // by whichever methods say least and most
}

// Loss returns what each element and the whole line lose at the given flow,
// (f L/D + K) v²/2g. Nothing flows backwards: a flow under zero counts as none.
func (l Line) Loss(flow q.Flow, p liquid.Properties) Loss {
	nu := viscosity(p)
	loss := Loss{Elements: make([]PieceFlow, len(l))}
	var seen memo
	for i := range l {
		e := &loss.Elements[i]
		e.fill(&l[i], float64(flow), &nu, &seen)
		loss.Low += e.LossLow
		loss.High += e.Loss
		loss.Least += e.Least
		loss.Most += e.Most
	}
	return loss
}

// memo is the last friction factor: what follows in a line mostly has the
// bore and the flow of what was before.
type memo struct{ re, rough, f float64 }

func (m *memo) colebrook(re, rough float64) float64 {
	if m.f == 0 || m.re != re || m.rough != rough {
		*m = memo{re, rough, Colebrook(re, rough)}
	}
	return m.f
}

// fill makes p the flow through e.
func (p *PieceFlow) fill(e *Element, flow float64, nu *viscous, seen *memo) {
	flow = within(flow, 0, greatestFlow)
	r := reachOf(e, nu)
	p.Ref, p.Velocity, p.Reynolds = e.Ref, q.Velocity(r.velocity*flow), r.reynolds*flow
	if flow == 0 {
		return
	}
	p.K = r.laminar/math.Max(p.Reynolds, 1e-12) + r.turbulent
	f := 0.0
	if r.thick == nil && p.Reynolds > LaminarTo && r.straight+r.least.Lengths+r.most.Lengths > 0 {
		f = seen.colebrook(p.Reynolds, r.rough)
	}
	low, high, least, most := r.losses(flow, f)
	p.LossLow, p.Loss, p.Least, p.Most = q.Head(low), q.Head(high), q.Head(least), q.Head(most)
	switch {
	case r.thick != nil:
		r.thick.fill(&r, flow, p)
	case r.straight > 0:
		p.Friction = regimes(p.Reynolds, f)
	}
}

// reach is everything of one bore and roughness in a line, prepared for
// many flows of one liquid. What multiplies with the flow is taken out here,
// so that the solver's loop costs one Colebrook for each bore of the line.
type reach struct {
	bore      float64
	velocity  float64 // m/s for each m³/s
	reynolds  float64 // for each m³/s
	drag      float64 // ν/D: velocity over Reynolds number
	rough     float64 // ε/D
	straight  float64 // Σ L/D
	laminar   float64 // Σ Fitting.Laminar
	turbulent float64 // Σ Fitting.Turbulent

	least, most Coefficient // Σ Fitting.Low, Σ Fitting.High

	share float64 // of the line's flow
	drops *Drops  // as typed, which make a reach of their own

	thick *thick // nil where the liquid is Newtonian
}

func reachOf(e *Element, nu *viscous) reach {
	d := within(float64(e.Bore), leastBore, greatestBore)
	f := e.Loss.held()
	share := 1.0
	if e.Share != 0 {
		share = within(e.Share, 0, 1e3)
	}
	v := share * 4 / (math.Pi * d * d)
	thick := nu.in(d)
	if thick != nil && e.Ref != refDelivery { // the velocity head that leaves is no fitting's
		f.Laminar = math.Max(f.Laminar, steffe*f.Turbulent)
	}
	return reach{
		bore:      d,
		velocity:  v,
		reynolds:  v * d / nu.nu,
		drag:      nu.nu / d,
		rough:     within(float64(e.Roughness)/d, 0, greatestRough),
		straight:  within(float64(e.Length), 0, greatestRun) / d,
		laminar:   f.Laminar,
		turbulent: f.Turbulent,
		least:     f.Low,
		most:      f.High,
		share:     share,
		drops:     e.Drops,
		thick:     thick,
	}
}

// regime returns the Reynolds number at a flow in m³/s, and those to which the
// flow is surely laminar and from which surely turbulent.
func (r *reach) regime(flow float64) (re, laminarTo, turbulentFrom float64) {
	if t := r.thick; t != nil {
		v := r.velocity * flow
		return t.reynolds(v, t.wall(v)), t.laminarTo, t.turbulentFrom
	}
	return r.reynolds * flow, LaminarTo, TurbulentFrom
}

// loss returns the most that the reach loses by the default methods at a flow
// in m³/s, metres. It is the solver's inner loop.
func (r *reach) loss(flow float64) float64 {
	flow = within(flow, 0, greatestFlow)
	f, re := 0.0, r.reynolds*flow
	if r.thick == nil && re > LaminarTo && r.straight > 0 {
		f = Colebrook(re, r.rough)
	}
	_, high := r.usual(flow, f)
	return high
}

// usual returns what the reach loses by the default methods, by the one
// regime and the other in the critical zone; f is Colebrook's factor where
// the flow may be turbulent. Laminar terms are written without dividing by the
// Reynolds number, so that they vanish with the flow.
func (r *reach) usual(flow, f float64) (low, high float64) {
	if r.drops != nil {
		low = r.dropped(flow)
		return low, low
	}
	if r.thick != nil {
		return r.thick.loss(r, flow)
	}
	v := r.velocity * flow
	re := r.reynolds * flow
	fitting := r.laminar*r.drag + v*r.turbulent
	scale := v / (2 * gravity)
	low = scale * (64*r.straight*r.drag + fitting)
	if re <= LaminarTo || r.straight == 0 {
		return low, low
	}
	high = scale * (v*r.straight*f + fitting)
	if re >= TurbulentFrom {
		return high, high
	}
	return low, high
}

// losses returns what usual does, and the least and the most that any method
// and either regime give; the default is never outside those. Laminar flow,
// and a liquid that is not Newtonian, have the default method only.
func (r *reach) losses(flow, f float64) (low, high, least, most float64) {
	low, high = r.usual(flow, f)
	if r.drops != nil || r.thick != nil || r.reynolds*flow <= LaminarTo {
		return low, high, low, high
	}
	v := r.velocity * flow
	by := func(c *Coefficient) float64 {
		return v / (2 * gravity) * (c.Laminar*r.drag + v*(c.Turbulent+f*(r.straight+c.Lengths)))
	}
	return low, high, math.Min(low, by(&r.least)), math.Max(high, by(&r.most))
}

// circuit is a line prepared for the solver, order lost.
type circuit []reach

// newCircuit prepares lines that are passed one after another.
func newCircuit(p liquid.Properties, lines ...Line) circuit {
	nu := viscosity(p)
	c := make(circuit, 0, 8)
	for _, l := range lines {
		for i := range l {
			c = c.add(reachOf(&l[i], &nu))
		}
	}
	return c
}

func (c circuit) add(r reach) circuit {
	for i := range c {
		have := &c[i]
		// An element without a straight has no use for its roughness.
		if r.drops != nil || have.drops != nil || have.velocity != r.velocity || have.bore != r.bore || have.rough != r.rough && r.straight > 0 && have.straight > 0 {
			continue
		}
		if have.straight == 0 {
			have.rough = r.rough
		}
		have.straight += r.straight
		have.laminar += r.laminar
		have.turbulent += r.turbulent
		have.least.add(r.least)
		have.most.add(r.most)
		return c
	}
	return append(c, r)
}

// loss returns the most that the circuit loses by the default methods at a
// flow in m³/s, metres. At no flow it is what a yield stress holds before
// anything moves.
func (c circuit) loss(flow float64) float64 {
	sum := 0.0
	for i := range c {
		sum += c[i].loss(flow)
	}
	return sum
}

// band returns the least and the most that any method and either regime give
// for the circuit at a flow in m³/s, metres.
func (c circuit) band(flow float64) (least, most float64) {
	flow = within(flow, 0, greatestFlow)
	for i := range c {
		r := &c[i]
		f, re := 0.0, r.reynolds*flow
		if r.thick == nil && re > LaminarTo && r.straight+r.least.Lengths+r.most.Lengths > 0 {
			f = Colebrook(re, r.rough)
		}
		_, _, l, m := r.losses(flow, f)
		least += l
		most += m
	}
	return least, most
}

// low returns what the circuit loses where all of the critical zone is laminar.
func (c circuit) low(flow float64) float64 {
	flow = within(flow, 0, greatestFlow)
	sum := 0.0
	for i := range c {
		r := &c[i]
		f, re := 0.0, r.reynolds*flow
		if re >= TurbulentFrom && r.straight > 0 {
			f = Colebrook(re, r.rough)
		}
		l, _ := r.usual(flow, f)
		sum += l
	}
	return sum
}

func (c *Coefficient) add(o Coefficient) {
	c.Laminar += o.Laminar
	c.Turbulent += o.Turbulent
	c.Lengths += o.Lengths
}
