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
	Loss      Fitting
}

// Roughness of bores.
const (
	// TubeRoughness is for new stainless steel tube: 0.002 mm (Çengel & Cimbala,
	// Fluid Mechanics, Table 8-2). Drawn tubing is 0.0015 mm (Moody 1944). A
	// product side of Ra 0.8 µm, the most that AS 1528.2:2019 1.7.2 allows,
	// would be 0.0047 mm by 5.863 Ra (Adams, Grant & Watson 2012); the friction
	// of a 1½ in tube at Re 100 000 differs by 3 % between the least and the most of these.
	TubeRoughness q.Length = 0.002e-3
	// HoseRoughness is for smooth rubber, 0.01 mm (White, Fluid Mechanics, Table 6.1, from memory).
	HoseRoughness q.Length = 0.01e-3
)

// Line is a line's elements in flow order. A bore under 0.1 mm counts as 0.1 mm.
type Line []Element

// Loss is the head that a line loses at one flow.
type Loss struct {
	Low, High q.Head // the same outside the critical zone
	Elements  []PieceFlow
}

// PieceFlow is the flow through one element, and the head that it loses.
type PieceFlow struct {
	Ref           string // the element's: "tank", "run.2", "delivery"
	Velocity      q.Velocity
	Reynolds      float64
	Friction      Band    // Darcy; zero where nothing flows or nothing is straight
	K             float64 // of its fitting; 0 where nothing flows
	Loss, LossLow q.Head  // the higher and the lower; the same outside the critical zone
}

// Loss returns what each element and the whole line lose at the given flow,
// (f L/D + K) v²/2g. Nothing flows backwards: a flow under zero counts as none.
func (l Line) Loss(flow q.Flow, p liquid.Properties) Loss {
	nu := viscosity(p)
	loss := Loss{Elements: make([]PieceFlow, len(l))}
	for i := range l {
		e := pieceFlow(&l[i], float64(flow), nu)
		loss.Elements[i] = e
		loss.Low += e.LossLow
		loss.High += e.Loss
	}
	return loss
}

func pieceFlow(e *Element, flow, nu float64) PieceFlow {
	flow = within(flow, 0, greatestFlow)
	r := reachOf(e, nu)
	out := PieceFlow{Ref: e.Ref, Velocity: q.Velocity(r.velocity * flow), Reynolds: r.reynolds * flow}
	if flow == 0 {
		return out
	}
	out.K = e.Loss.K(out.Reynolds)
	low, high := r.loss(flow)
	out.Loss, out.LossLow = q.Head(high), q.Head(low)
	if r.straight > 0 {
		out.Friction = Friction(out.Reynolds, r.rough)
	}
	return out
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
}

func reachOf(e *Element, nu float64) reach {
	d := within(float64(e.Bore), leastBore, greatestBore)
	f := e.Loss.held()
	v := 4 / (math.Pi * d * d)
	return reach{
		bore:      d,
		velocity:  v,
		reynolds:  v * d / nu,
		drag:      nu / d,
		rough:     within(float64(e.Roughness)/d, 0, greatestRough),
		straight:  within(float64(e.Length), 0, greatestRun) / d,
		laminar:   f.Laminar,
		turbulent: f.Turbulent,
	}
}

// loss returns the head lost at a flow in m³/s, metres. Laminar terms are
// written without dividing by the Reynolds number, so that they vanish with the flow.
func (r *reach) loss(flow float64) (low, high float64) {
	flow = within(flow, 0, greatestFlow)
	v := r.velocity * flow
	re := r.reynolds * flow
	fitting := r.laminar*r.drag + v*r.turbulent
	laminar := 64 * r.straight * r.drag
	scale := v / (2 * gravity)
	if re <= LaminarTo || r.straight == 0 {
		low = scale * (laminar + fitting)
		return low, low
	}
	turbulent := v * r.straight * Colebrook(re, r.rough)
	high = scale * (turbulent + fitting)
	if re >= TurbulentFrom {
		return high, high
	}
	return scale * (laminar + fitting), high
}

// circuit is a line prepared for the solver, order lost.
type circuit []reach

// newCircuit prepares lines that are passed one after another.
func newCircuit(p liquid.Properties, lines ...Line) circuit {
	nu := viscosity(p)
	c := make(circuit, 0, 8)
	for _, l := range lines {
		for i := range l {
			c = c.add(reachOf(&l[i], nu))
		}
	}
	return c
}

func (c circuit) add(r reach) circuit {
	for i := range c {
		have := &c[i]
		// An element without a straight has no use for its roughness.
		if have.bore != r.bore || have.rough != r.rough && r.straight > 0 && have.straight > 0 {
			continue
		}
		if have.straight == 0 {
			have.rough = r.rough
		}
		have.straight += r.straight
		have.laminar += r.laminar
		have.turbulent += r.turbulent
		return c
	}
	return append(c, r)
}

// loss returns the most that the circuit can lose at a flow in m³/s, metres.
func (c circuit) loss(flow float64) float64 {
	sum := 0.0
	for i := range c {
		_, high := c[i].loss(flow)
		sum += high
	}
	return sum
}
