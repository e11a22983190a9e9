// Package clean answers whether line and tank come clean in place: the flow
// that the widest bore asks, what wets the tank's wall, whether that runs off
// again, what a wash of several steps takes in water, chemical, heat and time,
// and what has to be taken apart because no flow cleans it.
//
// The wash goes the way of the liquid: drawn off the tank, through the line,
// and on to a spray ball at the tank's brim. How the line runs with a liquid in
// it is asked of the caller.
//
//	line, tank, steps, how it runs -> programme, figures, verdicts, strip list
package clean

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/vessel"
)

// Input is what Check needs.
type Input struct {
	Layout route.Layout
	Stub   q.Length // tank to outlet face, of the outlet's bore
	Vessel vessel.Vessel
	Wall   q.Length // of shell and bottom, which the wash warms
	Joints []Joint  // in flow order
	Steps  []Step   // in order

	Speed    q.Velocity    // least, in the widest bore
	Fed      q.Flow        // of a pump that is taken for the wash; 0: it runs as the liquid does
	Spray    q.Flow        // of the spray ball; 0: none is told
	Pressure q.Pressure    // that it needs, over the air's
	Scavenge q.Flow        // of a pump that draws the wash off the tank; 0: it runs off by gravity
	Sump     q.Volume      // left where the wash is drawn from
	Supply   q.Temperature // of the water
	Element  q.Power       // what heats it; 0: not told
	Rinses   float64       // times that a rinse is to displace what the line holds

	// How the line runs, with the tank drawn down to its lowest level.
	Line func(l liquid.Properties, wanted, spray q.Flow) Run
	// How high the wash stands over the lowest inside point where so much of it
	// runs off by gravity; under 0 where the outlet is not covered.
	Level func(l liquid.Properties, flow q.Flow) q.Length
}

// Step is one step of a wash.
type Step struct {
	Agent       catalog.Agent
	Temperature q.Temperature
	Strength    q.Fraction // of the pure agent, by mass; 0: of nothing
	Time        q.Duration
	Liquid      liquid.Properties // at that temperature and strength
	Stands      []Stand           // what of seals and hose linings in the line stands it
}

// Stand is how a material stands a step.
type Stand struct {
	Material string `json:"material"` // its name
	Rating   string `json:"rating"`   // as a catalog.Rating tells it, or "not known"
}

// Run is how the line runs with a step's liquid in it.
type Run struct {
	Pump        bool
	Known       bool   // Flow is known: there is a pump's curve, or a fall
	Flow        q.Flow // by itself, out at the end of the line
	AtLeast     bool   // the pump runs beyond its curve: Flow is the curve's end
	Work        Work   // at Flow
	Asked       q.Head // that a pump must give for the wanted flow: what is lifted and lost
	Suction     Suction
	MarginKnown bool // Suction is known
	Boils       bool

	Ball      Work // at the spray's flow, to a ball at the brim
	BallKnown bool // whether the pump's curve tells it
}

// Work is what becomes of a pump's head: some of it lifts, some is lost, and
// what is left presses. Without a pump Head is 0 and Lift under 0.
type Work struct{ Head, Lift, Lost q.Head }

// Left returns what is left of it.
func (w Work) Left() q.Head { return w.Head - w.Lift - w.Lost }

// Suction is the suction head that a pump has and needs.
type Suction struct {
	Has, Requires q.Head
	Over          q.Head  // that it must have more than it requires
	Times         float64 // or this many times what it requires, whichever is more
}

// Margin returns what is to spare.
func (s Suction) Margin() q.Head { return s.Has - max(s.Requires+s.Over, s.Requires*q.Head(s.Times)) }

// The flow that wets the wall of an upright tank, per metre of its
// circumference, m³/s for each metre.
const (
	// LeastWetting is 2 US gal/min for each foot, 25 L/min for each metre:
	// Franks & Seiberling in Seiberling (ed), Clean-in-Place for
	// Biopharmaceutical Processes (2008) p. 162.
	LeastWetting = 25e-3 / 60
	// MostWetting is 35 L/min for each metre, between the 2.5 and 3 US gal/min
	// for each foot (31 to 37 L/min) of ASME BPE, from memory.
	MostWetting = 35e-3 / 60
)

const (
	leastWettingSource = "25 L/min for each metre: Franks & Seiberling in Seiberling (ed), Clean-in-Place for Biopharmaceutical Processes (2008) p. 162"
	mostWettingSource  = "35 L/min for each metre: within the 31 to 37 of ASME BPE, from memory"
)

const (
	gravity = 9.80665 // m/s², exact (3rd CGPM, 1901)

	// heatCapacity is that of water, mean of 10 to 80 °C: 4184 J/(kg K) (IAPWS
	// R7-97). A cleaning solution takes up to a few per cent less.
	heatCapacity = 4184
	// steelCapacity and steelDensity are those of 1.4301, EN 10088-1; the
	// first from memory.
	steelCapacity = 500  // J/(kg K)
	steelDensity  = 7900 // kg/m³
	// kilowattHour in joules, exact.
	kilowattHour = 3.6e6
)

// Flow returns what runs at speed v in a bore.
func Flow(bore q.Length, v q.Velocity) q.Flow {
	return q.Flow(math.Pi / 4 * float64(bore) * float64(bore) * float64(v))
}

// Speed returns the mean speed of flow in a bore, 0 where there is none.
func Speed(bore q.Length, flow q.Flow) q.Velocity {
	if bore <= 0 {
		return 0
	}
	return q.Velocity(float64(flow) * 4 / (math.Pi * float64(bore) * float64(bore)))
}

// Wetting returns the flow that wets the wall of a tank at so much for each
// metre of its circumference, m³/s for each metre.
func Wetting(bore q.Length, each float64) q.Flow { return q.Flow(math.Pi * float64(bore) * each) }

// Film returns the thickness of a film that runs down an upright wall, flow
// in m³/s for each metre of its width and nu its kinematic viscosity in m²/s:
// ∛(3 ν Γ/g), W. Nusselt 1916. It holds for smooth laminar films; the film of
// a spray (Re 4 Γ/ν of some thousand) is wavy and in the mean as thick or a
// little thicker.
func Film(flow, nu float64) q.Length {
	return q.Length(math.Cbrt(3 * nu * max(flow, 0) / gravity))
}

// Result is what Check has to say.
type Result struct {
	Figures   []finding.Figure  `json:"figures"`
	Verdicts  []finding.Verdict `json:"-"` // a report has them among its own
	Programme Programme         `json:"programme"`
	Strip     Strip             `json:"strip"`
	Says      []string          `json:"says"`     // in sentences, what of it matters besides
	Cautions  []string          `json:"cautions"` // what can hurt somebody who does it, for the card
}

// Verdicts are those of Check alone, which are told at every check.
func Verdicts(in Input) []finding.Verdict {
	w := newWash(&in)
	if w.widest.bore <= 0 || len(in.Steps) == 0 {
		return nil
	}
	return w.verdicts()
}

// Check works out the wash. Without steps, or without a bore to wash, there is
// nothing to say.
func Check(in Input) Result {
	w := newWash(&in)
	if w.widest.bore <= 0 || len(in.Steps) == 0 {
		return Result{}
	}
	r := Result{Programme: w.programme(), Strip: in.strip()}
	w.figures(&r)
	r.Verdicts = w.verdicts()
	w.says(&r)
	return r
}
