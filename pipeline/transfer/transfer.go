// Package transfer answers how long a tank takes to empty through its line,
// and from which level on air may be drawn with the liquid.
//
// The level sinks as slowly as the tank is wide, so at every moment the line
// runs as if the level stood still (quasi-steady flow): what flows at a level
// is asked of the caller, and the time is the integral of dV/Q. The few
// seconds in which the liquid in the line gathers speed are left out; for 10 m
// of line they are a second or two.
//
//	tank, levels, flow at a level -> level, flow and margin against time
package transfer

import (
	"math"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vessel"
)

// Input is what Run needs. Levels are over the lowest inside point of the tank.
type Input struct {
	Vessel   vessel.Vessel
	From, To q.Length                  // the level at the start, and the one at which the transfer is stopped
	At       func(level q.Length) Draw // what the line draws; more or as much at a higher level
	Bore     q.Length                  // of the tank's outlet; 0 leaves the question of air out
	Lip      q.Length                  // where the outlet's upper edge lies: 0 for a bottom outlet
	Near     q.Length                  // how close over the level of rest the transfer counts as ended; 0: 1 mm
}

// Draw is what the line draws at one level.
type Draw struct {
	Flow        q.Flow
	Margin      q.Head // suction head to spare over what the pump must have
	MarginKnown bool
}

// Moment is a point of the curve.
type Moment struct {
	Time        q.Duration `json:"time"`
	Level       q.Length   `json:"level"` // over the lowest inside point
	Left        q.Volume   `json:"left"`  // in the tank
	Flow        q.Flow     `json:"flow"`
	Margin      q.Head     `json:"margin,omitzero"` // of suction head; without a meaning unless MarginKnown
	MarginKnown bool       `json:"-"`
}

// Result is how the tank empties.
type Result struct {
	Curve    []Moment // from the start to the end, time rising; empty where nothing flows
	Stops    bool     // the flow dies before the level To
	Rest     q.Length // the level at which it dies, when Stops; when nothing flows at all, the level From
	Air      Moment   // when air may first be drawn
	AirDrawn bool     // whether that happens before the end
}

// End returns the last moment of the curve, the zero Moment where there is none.
func (r Result) End() Moment {
	if len(r.Curve) == 0 {
		return Moment{}
	}
	return r.Curve[len(r.Curve)-1]
}

// draw is At with nothing running backwards.
func (in *Input) draw(level q.Length) Draw {
	d := in.At(level)
	if !(d.Flow > 0) { // also not a number
		d.Flow = 0
	}
	return d
}

// dies reports whether the flow has died at the level To: nothing runs there,
// or next to nothing beside what runs close above it. To arrive there with
// a thousandth of that takes as long, near enough, as to arrive with none.
func (in *Input) dies(close q.Length) bool {
	return in.draw(in.To).Flow <= in.draw(in.To+close).Flow/1000
}

// held returns level between the lowest inside point and the brim.
func held(level, brim q.Length) q.Length {
	if !(level > 0) { // also not a number
		return 0
	}
	return min(level, brim)
}

// near is how close over the level of rest a transfer counts as ended. The
// last flow creeps and, being laminar, would take for ever to arrive.
const near = 1 * q.Millimetre

// least is the flow, m³/s, under which none is counted when something is
// divided by it: a drop a year.
const least = 1e-15

// Run empties the tank. The time is right to 1 part in 100 000 against the
// closed forms for a cylinder, a cone and a hemisphere through an opening and
// through a line (Choudhary & Prakash, Fluid Mechanics, ch. 6, and its like).
func Run(in Input) Result {
	var r Result
	brim := in.Vessel.Brim()
	in.From, in.To = held(in.From, brim), held(in.To, brim)
	if !(in.From > in.To) {
		return r
	}
	v := solver{in: &in, base: float64(in.To), span: float64(in.From - in.To)}
	if in.draw(in.From).Flow == 0 {
		r.Stops, r.Rest = true, in.From
		return r
	}
	last := 0.0 // of the variable s, see solver
	close := float64(in.Near)
	if close <= 0 {
		close = float64(near)
	}
	if in.dies(q.Length(close)) {
		r.Stops, r.Rest = true, v.rest()
		v.base, v.span = float64(r.Rest), float64(in.From-r.Rest)
		if close >= v.span {
			return r
		}
		last = math.Sqrt(close / v.span)
	}
	v.run(last)
	r.Curve = v.curve
	if in.Bore > 0 {
		r.Air, r.AirDrawn = in.air(r.Curve)
	}
	return r
}
