package template

import (
	"math"

	"drawoff/pipeline/plot"
)

// Hole returns the outline that a tube of radius r leaves on the outside of a
// cylinder of radius R that it enters, unrolled flat about the middle of the
// hole: x along the cylinder's circumference, y along its axis. beta is the
// angle between the axes, which are offset apart.
func Hole(r, R, beta, offset float64) ([]plot.Point, bool) {
	t := SaddleTube(r, beta, offset, R)
	cut, ok := Wrap(t, Cylinder{R})
	if !ok {
		return nil, false
	}
	out := make([]plot.Point, steps)
	for i := range out {
		p := along(t.Line(2*math.Pi*float64(i)/steps), t.Dir, cut[i])
		out[i] = plot.Point{X: R * math.Atan2(p.Y, p.X), Y: p.Z}
	}
	return out, true
}

// SaddleTube is a tube that runs at an angle beta to the z axis into a
// cylinder of radius R about it, from the side of x, its axis offset from the
// cylinder's along y. Its 0° line lies below: in the sharp corner where beta
// is less than a right angle.
func SaddleTube(r, beta, offset, R float64) Tube {
	sin, cos := math.Sincos(beta)
	dir := Vec{-sin, 0, cos}
	far := (R + r) * 4 // well outside
	return NewTube(r, Vec{0, offset, 0}.add(dir.times(-far)), dir, Vec{Z: -1})
}

// HoleSheet draws the hole with its centre lines.
func HoleSheet(name, title string, outline []plot.Point, around, upward string, notes ...string) plot.Drawing {
	d := plot.Drawing{Name: name, Title: title, Notes: notes}
	d.Loop(plot.Cut, outline...)
	low, high := d.Box()
	const over = 15.0
	mx, my := (low.X+high.X)/2, (low.Y+high.Y)/2
	d.Line(plot.Centre, plot.Point{X: low.X - over, Y: my}, plot.Point{X: high.X + over, Y: my})
	d.Line(plot.Centre, plot.Point{X: mx, Y: low.Y - over}, plot.Point{X: mx, Y: high.Y + over})
	d.Word(plot.Point{X: high.X + over + 1, Y: my - 1}, 2.4, 0, around)
	d.Word(plot.Point{X: mx + 1, Y: high.Y + over - 2}, 2.4, 0, upward)
	return d
}
