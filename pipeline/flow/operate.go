package flow

import (
	"math"

	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// Status says how a pump, or gravity, and a line meet.
type Status uint8

// The statuses.
const (
	Running      Status = iota // where the two curves cross
	DeadHeaded                 // the static head, with what a yield stress holds, is over the pump's at no flow: nothing moves
	BelowStart                 // the line asks more than the first point of a curve that does not start at no flow: what flows is not known
	BeyondEnd                  // the line asks less than the last point of the curve: more flows than the curve covers
	NoFall                     // gravity: the discharge stands at the level or over it, or a yield stress holds the liquid
	NoCurve                    // there is a pump but no curve of it
	TooThick                   // the liquid is too thick for the pump's curve to be corrected
	OverPressure               // the line asks a positive pump more than the last pressure of its points
	SlipsBack                  // a positive pump turns so slowly that all it pushes out slips back
)

// String returns the status in words.
func (s Status) String() string {
	return [...]string{"running", "dead-headed", "under the curve's first point", "beyond the curve's end", "no fall", "no pump curve",
		"too thick", "over the last pressure", "all slips back"}[s]
}

// Operate returns the flow at which curve gives the head that the line asks:
// static and the most it can lose. Static is the discharge over the level,
// negative where the level is the higher. A flow comes with Running and with
// BeyondEnd, where it is that of the curve's last point (a positive pump: of
// no pressure), which is the most that can be claimed; otherwise it is 0.
func Operate(curve Curve, line Line, static q.Head, p liquid.Properties) (q.Flow, Status) {
	flow, _, status := newCircuit(p, line).operate(&curve, float64(static))
	return flow, status
}

// operate returns the head as well; where nothing flows it is the curve's first.
func (c circuit) operate(curve *Curve, static float64) (q.Flow, q.Head, Status) {
	switch {
	case curve.thick.Refused():
		return 0, 0, TooThick
	case curve.IsZero():
		return 0, 0, NoCurve
	}
	static = within(static, -1e9, 1e9)
	over := func(t float64) float64 {
		flow, head := curve.at(t)
		return head - static - c.loss(flow)
	}
	from, to := curve.ends()
	atFrom, atTo := over(from), over(to)
	first, most := curve.at(from)
	none := q.Head(most)
	switch {
	case atFrom <= 0 && curve.positive:
		return 0, none, OverPressure
	case atFrom <= 0 && first > 0:
		return 0, none, BelowStart
	case atFrom <= 0:
		return 0, none, DeadHeaded
	case atTo > 0:
		flow, head := curve.at(to)
		return q.Flow(flow), q.Head(head), BeyondEnd
	}
	flow, head := curve.at(root(over, from, atFrom, to, atTo))
	if curve.positive && flow == 0 {
		return 0, none, SlipsBack
	}
	return q.Flow(flow), q.Head(head), Running
}

// Gravity returns the flow that a fall of static, level over discharge,
// drives through line, which must hold its entrance and its Exit. It is 0
// where there is no fall, where a yield stress holds it, and where the line
// holds nothing that resists.
func Gravity(line Line, static q.Head, p liquid.Properties) q.Flow {
	return newCircuit(p, line).gravity(float64(static))
}

func (c circuit) gravity(static float64) q.Flow {
	static = within(static, 0, 1e9)
	if static == 0 {
		return 0
	}
	// Friction is nowhere less than laminar, so the root of
	// quadratic·Q² + linear·Q = static without turbulent friction is over it.
	linear, quadratic := 0.0, 0.0
	for i := range c {
		r := &c[i]
		scale := r.velocity / (2 * gravity)
		quadratic += scale * r.velocity * r.turbulent
		if r.thick == nil { // else its laminar friction is no straight line over the flow
			linear += scale * r.drag * (64*r.straight + r.laminar)
		}
	}
	quadratic = math.Max(quadratic, 0)
	most := greatestFlow
	if linear > 0 || quadratic > 0 {
		most = math.Min(most, 2*static/(linear+math.Sqrt(linear*linear+4*quadratic*static)))
	}
	most *= 1 + 1e-9 // rounding must not leave the root outside
	over := func(flow float64) float64 { return static - c.loss(flow) }
	atNone, atMost := over(0), over(most)
	if atNone <= 0 { // a yield stress holds it
		return 0
	}
	if atMost > 0 { // what a tee gives back can lie beyond the bound
		if most, atMost = greatestFlow, over(greatestFlow); atMost > 0 {
			return 0
		}
	}
	return q.Flow(root(over, 0, atNone, most, atMost))
}

// gravityLeast returns the flow by the methods that say most of the losses,
// where usual is that by the default ones.
func (c circuit) gravityLeast(static float64, usual q.Flow) q.Flow {
	over := func(flow float64) float64 {
		_, most := c.band(flow)
		return static - most
	}
	atUsual := over(float64(usual))
	if usual == 0 || atUsual >= 0 {
		return usual
	}
	return q.Flow(root(over, 0, over(0), float64(usual), atUsual))
}
