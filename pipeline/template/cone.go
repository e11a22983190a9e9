package template

import (
	"math"
	"strconv"

	"drawoff/pipeline/plot"
)

// Flat is a cone's plate unrolled: a sector between two radii, measured in the
// middle of the plate, where rolling neither stretches nor shrinks it.
type Flat struct {
	Inner, Outer float64 // radii of the flat sector, mm
	Angle        float64 // of the sector, radians, before the weld gap is taken off
	Gap          float64 // left open at the seam
	half         float64 // of the cone's angle
	wall         float64
}

// Unroll returns the flat plate of the cone of t, of which the seam is to be
// welded with a gap:
//
//	radius = r/sin(half angle), angle = 360° sin(half angle)
//
// with r in the middle of the plate, half a wall outside the inside radius.
// Edges are cut square to the plate.
func Unroll(t Tank, gap float64) Flat {
	sin, cos := math.Sincos(t.Half)
	mid := t.Wall / 2 * cos
	return Flat{
		Inner: (t.Opening + mid) / sin,
		Outer: (t.Radius + mid) / sin,
		Angle: 2 * math.Pi * sin,
		Gap:   gap,
		half:  t.Half,
		wall:  t.Wall,
	}
}

// Place returns where a point on the cone's outside lies on the plate, whose
// centre is at the apex and whose middle points up. turn is its angle about
// the tank's axis, from the side opposite the seam; r its distance from the axis.
func (f Flat) Place(r, turn float64) plot.Point {
	sin, cos := math.Sincos(f.half)
	radius := r/sin - f.wall/2*cos/sin // along the side, from the apex of the plate's middle
	s, c := math.Sincos(turn * sin)
	return plot.Point{X: radius * s, Y: radius * c}
}

// edge returns the angle, from the middle of the plate, of its side at a radius.
func (f Flat) edge(radius float64) float64 {
	if radius <= f.Gap/2 {
		return 0
	}
	return f.Angle/2 - math.Asin(f.Gap/2/radius)
}

// ConeSheet draws the plate with its middle line, quarter lines, and the
// outlines of the legs that meet it.
func ConeSheet(name, title string, t Tank, f Flat, legs []Tube, notes ...string) plot.Drawing {
	d := sheet{plot.Drawing{Name: name, Title: title, Notes: notes}}
	arc := func(radius float64) []plot.Point {
		half := f.edge(radius)
		return plot.Arc(plot.Point{}, radius, math.Pi/2+half, math.Pi/2-half)
	}
	outer, inner := arc(f.Outer), arc(f.Inner)
	for i, j := 0, len(inner)-1; i < j; i, j = i+1, j-1 {
		inner[i], inner[j] = inner[j], inner[i]
	}
	d.Loop(plot.Cut, append(append([]plot.Point{}, outer...), inner...)...)
	ray := func(turn float64, what string) {
		s, c := math.Sincos(turn)
		d.Line(plot.Centre, plot.Point{X: f.Inner * s, Y: f.Inner * c}, plot.Point{X: f.Outer * s, Y: f.Outer * c})
		at := f.Inner + 0.06*(f.Outer-f.Inner)
		d.Word(plot.Point{X: at*s + 2*c, Y: at*c - 2*s}, 2.6, 90-turn*180/math.Pi, what)
	}
	ray(0, "middle, opposite the seam")
	ray(-f.Angle/4, "quarter")
	ray(f.Angle/4, "quarter")
	edge := f.edge(f.Outer) - 8/f.Outer
	s, c := math.Sincos(edge)
	at := f.Inner + 0.3*(f.Outer-f.Inner)
	d.Word(plot.Point{X: at * s, Y: at * c}, 2.6, 90-edge*180/math.Pi, "seam")
	for i, leg := range legs {
		d.footprint(t, f, leg, "leg "+strconv.Itoa(i+1))
	}
	return d.Drawing
}

// sheet is a cone's plate in the making.
type sheet struct{ plot.Drawing }

// footprint marks where the outside of a tube meets the cone; what of it runs
// up beside the shell is left open.
func (d *sheet) footprint(t Tank, f Flat, leg Tube, name string) {
	cut, ok := Wrap(leg, t)
	if !ok {
		return
	}
	apex, edge := t.Apex(), t.Edge()
	at := func(k int) (plot.Point, bool) {
		p := along(leg.Line(2*math.Pi*float64(k%steps)/steps), leg.Dir, cut[k%steps])
		r := math.Hypot(p.X, p.Y)
		onCone := p.Z <= edge+1e-6 && math.Abs(r-(p.Z-apex)*math.Tan(f.half)) < 1e-6*(1+r)
		return f.Place(r, math.Atan2(p.Y, p.X)), onCone
	}
	first := 0 // the first that is on the cone after one that is not
	for k := range steps {
		_, before := at(k)
		if _, on := at(k + 1); on && !before {
			first = k + 1
		}
	}
	var points []plot.Point
	var middle plot.Point
	for k := range steps {
		p, on := at(first + k)
		if !on {
			break
		}
		points = append(points, p)
		middle = plot.Point{X: middle.X + p.X, Y: middle.Y + p.Y}
	}
	switch n := float64(len(points)); {
	case n < 2:
		return
	case len(points) == steps:
		d.Loop(plot.Mark, points...)
	default:
		d.Line(plot.Mark, points...)
	}
	d.Word(plot.Point{X: middle.X/float64(len(points)) - 6, Y: middle.Y/float64(len(points)) - 1}, 2.6, 0, name)
}
