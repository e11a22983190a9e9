package template

import (
	"math"

	"drawoff/pipeline/plot"
)

// Tube is a round tube that runs along Dir from At. Its 0° line is on the side
// of U, and angles turn from there towards Dir × U.
type Tube struct {
	Radius     float64 // outside
	At, Dir, U Vec     // Dir and U are unit vectors, square to each other
}

// NewTube returns a tube from at along dir whose 0° line is turned to side as
// nearly as it can be.
func NewTube(radius float64, at, dir, side Vec) Tube {
	dir = dir.unit()
	u := side.add(dir.times(-side.dot(dir)))
	if u.length() < 1e-12 { // side is along the tube: any will do
		u = dir.cross(Vec{X: 1})
		if u.length() < 1e-6 {
			u = dir.cross(Vec{Y: 1})
		}
	}
	return Tube{radius, at, dir, u.unit()}
}

// Line returns where the line at angle phi of the tube's outside begins.
func (t Tube) Line(phi float64) Vec {
	sin, cos := math.Sincos(phi)
	return t.At.add(t.U.times(t.Radius * cos)).add(t.Dir.cross(t.U).times(t.Radius * sin))
}

// Steps of a wrap: one for each degree.
const steps = 360

// Wrap returns how far along the tube each of its lines meets a surface, one
// for each degree and the first once more at the end; false where one of them
// does not.
func Wrap(t Tube, on Surface) ([]float64, bool) {
	out := make([]float64, steps+1)
	for i := range out {
		s, ok := on.Meet(t.Line(2*math.Pi*float64(i%steps)/steps), t.Dir)
		if !ok || math.IsNaN(s) || math.IsInf(s, 0) {
			return nil, false
		}
		out[i] = s
	}
	return out, true
}

// extent returns the least and the most of a wrap.
func extent(cut []float64) (least, most float64) {
	least, most = cut[0], cut[0]
	for _, s := range cut {
		least, most = math.Min(least, s), math.Max(most, s)
	}
	return least, most
}

// Sheet draws a wrap as a template: a strip as long as the tube is round, with
// a square edge that goes round the tube in its own plane, the curve to cut
// to, the four quarter lines, and the centre of the 0° line dashed. quarters
// are what the lines at 0°, 90°, 180° and 270° point to.
func Sheet(name, title string, radius float64, cut []float64, quarters [4]string, notes ...string) plot.Drawing {
	const strip = 40.0 // between the square edge and the nearest point of the cut
	d := plot.Drawing{Name: name, Title: title, Notes: notes}
	least, _ := extent(cut)
	round := 2 * math.Pi * radius
	curve := make([]plot.Point, len(cut))
	for i, s := range cut {
		curve[i] = plot.Point{X: round * float64(i) / steps, Y: s - least + strip}
	}
	d.Line(plot.Cut, curve...)
	d.Line(plot.Outline, curve[0], plot.Point{}, plot.Point{X: round}, curve[len(curve)-1])
	size := math.Min(2.6, round/60)
	for i := range 5 {
		x := round * float64(i) / 4
		d.Line(plot.Centre, plot.Point{X: x}, plot.Point{X: x, Y: curve[i*steps/4].Y})
		if i < 4 {
			d.Word(plot.Point{X: x + size + 1, Y: 2}, size, 90, quarters[i])
		}
	}
	d.Word(plot.Point{X: round/8 + size, Y: 2}, size, 90, "square edge below")
	return d
}
