package route

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// steep is the sine of 60°, from which a flow has no up or down to count a
// turn from. The margin keeps a bend of exactly 60° on the level side.
const steep = 0.8660254037844386 + 1e-9

// Steep reports whether dir runs steeper than 60° from level, up or down.
func Steep(dir Vec) bool { return math.Abs(dir.Z) > steep }

// toward returns the unit vector across d that a turn points to: counted
// clockwise looking along d, from up, or from +x (in plan from the tank
// towards the pump) where d is steep.
func toward(d Vec, turn q.Angle) Vec {
	from := Vec{Z: 1}
	if Steep(d) {
		from = Vec{X: 1}
	}
	ahead := from.Sub(d.Scale(from.Dot(d))).Unit()
	right := d.Cross(ahead)
	sin, cos := math.Sincos(float64(turn))
	return tidy(ahead.Scale(cos).Add(right.Scale(sin)))
}

// fallen returns d tilted in its own plan bearing to fall by s over a level
// run of 1.
func fallen(d Vec, s q.Slope) Vec {
	plan := Vec{X: d.X, Y: d.Y}.Unit()
	return Vec{X: plan.X, Y: plan.Y, Z: -float64(s)}.Unit()
}

// tidy returns the unit vector of v with the dust of rounding taken off its
// components, so that what was meant to be level or parallel is.
func tidy(v Vec) Vec { return Vec{dusted(v.X), dusted(v.Y), dusted(v.Z)}.Unit() }

func dusted(c float64) float64 {
	if math.Abs(c) < 1e-14 {
		return 0
	}
	return c
}

// Toward returns the unit vector across d that a turn points to.
func Toward(d Vec, turn q.Angle) Vec { return toward(d, turn) }

// Turn returns the turn, from 0° to 360°, that points a piece laid along d to
// side, of which only what lies across d counts: what Lay makes of a turn,
// the other way round.
func Turn(d, side Vec) q.Angle {
	from := toward(d, 0)
	turn := math.Atan2(side.Dot(d.Cross(from)), side.Dot(from))
	if turn < 0 {
		turn += 2 * math.Pi
	}
	return q.Angle(turn)
}

// Fallen returns d laid to fall by s in its own plan bearing, as Lay lays a
// straight; d itself where it is steep.
func Fallen(d Vec, s q.Slope) Vec {
	if Steep(d) {
		return d
	}
	return fallen(d, s)
}
