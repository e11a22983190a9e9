package draw

import (
	"math"
	"strconv"

	q "drawoff/pipeline/quantity"
)

// in returns the number that v is in the unit that is shown for its kind: what
// is written on an axis. Of those kinds that stand on one, zero is zero in any unit.
func in[Q q.Quantity](v Q) float64 { return q.Of(v).In(q.Shown()) }

// of returns what is written on an axis: a name with the unit shown for k.
func of(name string, k q.Kind) string { return name + ", " + k.Unit(q.Shown()) }

// axis is a panel of a diagram: its place on the canvas.
type axis struct {
	c          *canvas
	from, to   float64 // pixels, x
	foot, tall float64 // pixel y of its lower edge, and height
}

// scale writes the ticks from low to high, both rounded outwards to a tick and
// zero among them, at the pixel column at, and returns the pixel y of a value.
func (a axis) scale(low, high float64, anchor string, at float64) func(float64) float64 {
	step := nice(math.Max(high-low, 1e-3) / 4)
	low, high = math.Floor(low/step)*step, math.Max(math.Ceil(high/step), 1)*step
	y := func(v float64) float64 { return a.foot - (v-low)/(high-low)*a.tall }
	for v := low; v <= high+step/2; v += step {
		if anchor == "end" {
			a.c.line("grid", a.from, y(v), a.to, y(v))
		}
		a.c.words("small", anchor, at, y(v)+4, tick(v, step))
	}
	return y
}

// tick writes a multiple of step.
func tick(v, step float64) string {
	if step < 0.1 {
		return strconv.FormatFloat(v, 'f', 1-int(math.Log10(step)), 64)
	}
	return decimal(v)
}
