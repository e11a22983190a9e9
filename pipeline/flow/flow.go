// Package flow computes what runs through a line: velocity, friction, losses,
// the pump's operating point, the suction head it has and needs, or the flow
// by gravity where there is no pump.
//
// The lower half (friction, fittings, lines, pumps) knows nothing of layouts
// and follows the handbooks; Check applies it to a design that has been laid
// out. It covers steady flow of a liquid that fills a round bore and is open to
// the air at both ends: Newtonian (wort, juice, beer, milk, water), or purée
// and slurry by a power law or with a yield stress.
//
// # What is counted where
//
// Each loss is counted once:
//   - straight tube, hose and the straight tangents of a bend lose by friction
//     over their length;
//   - the arc of a bend, the body of a tee, a valve and a reducer lose by
//     their coefficient K, which holds their own friction, so their length is
//     no part of any straight;
//   - the velocity head that leaves at the outflow is lost there, once, as
//     K = 1. A pump's flange is not an outflow.
package flow

import (
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// gravity is standard gravity, m/s², exact (3rd CGPM, 1901).
const gravity = 9.80665

// within returns x held between lo and hi, and lo where x is not a number, so
// that nothing infinite or undefined can come out of the formulas. The bounds
// used lie far outside any plant; design validation refuses such values first.
func within(x, lo, hi float64) float64 {
	if !(x > lo) { // also true of NaN
		return lo
	}
	if x > hi {
		return hi
	}
	return x
}

// Bounds for within, SI units.
const (
	leastBore     = 1e-4 // m
	greatestBore  = 1e2
	greatestRun   = 1e6 // m
	greatestFlow  = 1e3 // m³/s
	greatestK     = 1e9
	greatestRough = 0.1 // of the bore, beyond which Colebrook means nothing
)

// viscosity returns how p resists being moved.
func viscosity(p liquid.Properties) viscous {
	return viscous{
		nu:       within(float64(p.Viscosity)/float64(p.Density), 1e-9, 1e2),
		rho:      within(float64(p.Density), 1, 1e6),
		rheology: p.Rheology,
	}
}

// VelocityHead returns v²/2g, the head that a stream at v carries as speed.
func VelocityHead(v q.Velocity) q.Head {
	s := within(float64(v), 0, 1e9)
	return q.Head(s * s / (2 * gravity))
}
