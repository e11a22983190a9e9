package flow

import (
	"math"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what Check needs. All heights are above the floor.
type Input struct {
	Layout      route.Layout
	Liquid      liquid.Properties
	Temperature q.Temperature // of the liquid, for the caution on scalding; 0 when not known
	Air         q.Pressure    // over the tank, absolute
	Levels      []Level       // the fullest first
	Foot        q.Length      // lowest inside point of the tank
	Discharge   q.Length      // of the outflow, or of the level it enters, whichever is higher
	Cone        q.Angle       // full included angle of a cone that runs down to the outlet; 0 for an outlet flush in a dish, a flat bottom or the side
	Stub        q.Length      // tank to outlet face, a straight of the outlet's bore
	Finish      q.Length      // Ra of every bore of metal; 0 is smooth
	Curve       Curve         // as the pump gives it in this liquid at its speed; the zero Curve when there is no pump, or no curve of it
	Pump        Pump          // that the curve is of, for what its sheet says besides; may be zero
	Wanted      q.Flow        // at the outflow; 0 where nothing is said
	Recipe      liquid.Recipe // of the liquid, for Reserves to warm it
	Wash        bool          // Liquid is what washes, not the plant's own: a drop measured with that says nothing of it
	Limits      Limits
}

// Level is a height of the liquid in the tank.
type Level struct {
	Slug   string   // "full", "half", "lowest"
	Name   string   // "full", "half full", "lowest"
	Height q.Length // of the liquid's surface above the floor
}

// Limits are what the suction is held to, the usual values already put in.
type Limits struct {
	SuctionMargin q.Head     // over what the pump requires
	SuctionRatio  float64    // as a multiple of what the pump requires
	SuctionSpeed  q.Velocity // fastest in the suction line
}

// Result is what flow has to say.
type Result struct {
	finding.Findings
	Points     []Point      // one for each level, as given
	Pieces     []PieceFlow  // "tank" (its outlet), every piece and "delivery" (the outflow), in flow order, at the first level's flow
	System     []CurvePoint // for drawing: line and pump at the last level, by rising flow; nil without a pump curve
	Drawn      float64      // what leaves the tank for each unit of a point's flow; not 1 where a tee before the pump draws off or joins a share
	Raise      q.Length     // how much higher the tank must stand for the pump to deliver and the suction margin to hold at the last level; negative: how much lower it may stand
	RaiseKnown bool         // whether Raise could be found within the pump's curve
}

// Piece returns the flow through the piece at ref.
func (r Result) Piece(ref string) (PieceFlow, bool) {
	for _, p := range r.Pieces {
		if p.Ref == ref {
			return p, true
		}
	}
	return PieceFlow{}, false
}

// Point is where pump and line meet at one level.
type Point struct {
	Level            Level
	Status           Status
	Flow             q.Flow
	FlowLeast        q.Flow // by gravity: Flow by the method that says the line loses most; 0 with a pump
	Head             q.Head // that the pump gives; 0 by gravity
	Static           q.Head // discharge over level: what must be lifted; by gravity level over discharge
	SuctionLoss      q.Head // tank to pump inlet; by gravity the whole line
	DeliveryLoss     q.Head // pump outlet to outflow; 0 by gravity
	SuctionMost      q.Head // SuctionLoss by whichever method says most; what SuctionAvailable is reckoned with
	SuctionAvailable q.Head // 0 where nothing flows
	SuctionRequired  q.Head // by the pump, without margin
	Margin           q.Head // available over what the pump requires and the limits add
	SuctionKnown     bool   // whether SuctionRequired and Margin are known: there is a flow and the curve says what the pump requires
}

// CurvePoint is a flow with the head that the line asks and that the pump gives.
type CurvePoint struct {
	Flow         q.Flow
	System, Pump q.Head
	Required     q.Head // suction head that the pump requires, 0 where not known
}

// plant is an Input prepared for many flows.
type plant struct {
	*Input
	suction, delivery Line
	up, down, whole   circuit // suction, delivery, both
	boils             bool
}

// newPlant prepares in for many flows.
func newPlant(in *Input) plant {
	p := plant{Input: in, boils: in.Liquid.VapourPressure >= in.Air}
	p.suction, p.delivery = in.lines()
	p.circuits()
	return p
}

// circuits prepares the lines for the liquid.
func (p *plant) circuits() {
	p.up = newCircuit(p.Liquid, p.suction)
	p.down = newCircuit(p.Liquid, p.delivery)
	p.whole = newCircuit(p.Liquid, p.suction, p.delivery)
}

// Check computes the flow through in.Layout at every level. A liquid whose
// vapour pressure is not under the air's boils: its suction head is then the
// level over the pump less what the line loses, at any altitude.
func Check(in Input) Result {
	p := newPlant(&in)
	r := Result{Drawn: p.suction[0].Share}
	if len(in.Levels) == 0 {
		return r
	}
	r.Points = make([]Point, len(in.Levels))
	for i, level := range in.Levels {
		r.Points[i] = p.at(level)
	}
	r.Pieces = p.pieces(r.Points[0].Flow)
	if !in.Layout.Gravity && !in.Curve.IsZero() {
		r.System = p.system(in.Levels[len(in.Levels)-1])
		r.Raise, r.RaiseKnown = p.raise(in.Levels[len(in.Levels)-1])
	}
	p.figures(&r)
	p.verdicts(&r)
	return r
}

// at returns where the line runs with the tank filled to level.
func (p *plant) at(level Level) Point {
	pt := Point{Level: level}
	if p.Layout.Gravity {
		pt.Static = q.Head(level.Height - p.Discharge)
		pt.Flow = p.whole.gravity(float64(pt.Static))
		pt.FlowLeast = p.whole.gravityLeast(float64(pt.Static), pt.Flow)
		pt.SuctionLoss = q.Head(p.up.loss(float64(pt.Flow)))
		if pt.Flow == 0 {
			pt.Status = NoFall
		}
		return pt
	}
	pt.Static = q.Head(p.Discharge - level.Height)
	pt.Flow, pt.Head, pt.Status = p.whole.operate(&p.Curve, float64(pt.Static))
	pt.SuctionLoss = q.Head(p.up.loss(float64(pt.Flow)))
	pt.DeliveryLoss = q.Head(p.down.loss(float64(pt.Flow)))
	_, most := p.up.band(float64(pt.Flow))
	pt.SuctionMost = q.Head(most)
	if pt.Flow == 0 {
		return pt
	}
	pt.SuctionAvailable = SuctionAvailable(p.Air, p.Liquid.VapourPressure, p.Liquid.Density, p.over(level), pt.SuctionMost)
	if p.Curve.RequiredKnown() {
		pt.SuctionKnown = true
		pt.SuctionRequired, _ = p.Curve.Required(pt.Flow)
		pt.Margin = pt.SuctionAvailable - p.Limits.Need(pt.SuctionRequired)
	}
	return pt
}

// over returns level over the centre of the pump's inlet.
func (p *plant) over(level Level) q.Head {
	return q.Head(level.Height) - q.Head(p.Layout.PumpIn.At.Z)
}

// pieces returns the flow through every element.
func (p *plant) pieces(flow q.Flow) []PieceFlow {
	nu := viscosity(p.Liquid)
	out := make([]PieceFlow, 0, len(p.suction)+len(p.delivery))
	var seen memo
	for _, line := range [...]Line{p.suction, p.delivery} {
		for i := range line {
			var f PieceFlow
			f.fill(&line[i], float64(flow), &nu, &seen)
			if n := len(out); n > 0 && out[n-1].Ref == f.Ref {
				out[n-1].add(&f)
				continue
			}
			out = append(out, f)
		}
	}
	return out
}

// add counts a second element of the same piece, the step at its joint.
func (p *PieceFlow) add(o *PieceFlow) {
	p.Velocity = max(p.Velocity, o.Velocity)
	p.Loss += o.Loss
	p.LossLow += o.LossLow
	p.Least += o.Least
	p.Most += o.Most
}

// systemPoints is how many points draw the curves.
const systemPoints = 24

// system returns the curves of line and pump with the tank filled to level.
func (p *plant) system(level Level) []CurvePoint {
	first, last := p.Curve.First(), p.Curve.Last()
	if p.Curve.positive {
		first = 0 // its own flows are too near each other to show what the line asks
	}
	out := make([]CurvePoint, systemPoints)
	for i := range out {
		c := &out[i]
		c.Flow = first + (last-first)*q.Flow(i)/(systemPoints-1)
		c.Pump, _ = p.Curve.Head(c.Flow)
		c.Required, _ = p.Curve.Required(c.Flow)
		c.System = q.Head(p.Discharge-level.Height) + q.Head(p.whole.loss(float64(c.Flow)))
	}
	return out
}

// raise returns how much higher the tank must stand for the pump to deliver
// and its suction margin to hold with the tank filled to level.
//
// Every point of the pump's curve belongs to one height of the tank: the one
// whose static head is what the line leaves of the pump's head. So the margin
// is a plain function of the point, the level drops out, and one root finds the
// height that a search through heights would need a solved operating point for
// at every step.
func (p *plant) raise(level Level) (q.Length, bool) {
	if !p.Curve.RequiredKnown() {
		return 0, false
	}
	base := float64(SuctionAvailable(p.Air, p.Liquid.VapourPressure, p.Liquid.Density, p.over(level), 0))
	lift := float64(p.Discharge - level.Height)
	raised := func(t float64) float64 {
		flow, head := p.Curve.at(t)
		return lift - head + p.whole.loss(flow)
	}
	margin := func(t float64) float64 {
		flow, _ := p.Curve.at(t)
		required, _ := p.Curve.required.at(flow)
		_, most := p.up.band(flow)
		return base + raised(t) - most - float64(p.Limits.Need(q.Head(required)))
	}
	from, to := p.Curve.ends()
	atFrom, atTo := margin(from), margin(to)
	t := from
	switch {
	case atFrom >= 0: // it may sink until the pump can lift no more
	case atTo < 0: // it would run beyond the curve, where nothing is known
		return 0, false
	default:
		t = root(margin, from, atFrom, to, atTo)
	}
	by := raised(t)
	if math.IsNaN(by) || math.IsInf(by, 0) {
		return 0, false
	}
	return q.Length(by), true
}
