// Package plot holds drawings at full size for the workshop, and writes them
// as files: SVG and PDF that print at 1:1, and DXF for a cutting machine. It
// knows lines and words and nothing of tanks.
package plot

import "math"

// Point is a point of a drawing in millimetres, x to the right and y up.
type Point struct{ X, Y float64 }

// Stroke says what a line is for.
type Stroke uint8

// The strokes.
const (
	Cut     Stroke = iota // where to cut
	Mark                  // where to mark, scribe or weld
	Centre                // centre lines and quarter lines
	Outline               // what is there, for the look of it
)

// Layer is the stroke's name in a file that has layers.
func (s Stroke) Layer() string { return [...]string{"CUT", "MARK", "CENTRE", "OUTLINE"}[s] }

// Line is a row of points joined by straight lines.
type Line struct {
	Stroke Stroke
	Points []Point
	Closed bool
}

// Words is a line of text.
type Words struct {
	At   Point
	Size float64 // height of a capital, more or less, mm
	Turn float64 // degrees anticlockwise
	Text string
}

// Drawing is a drawing at full size.
type Drawing struct {
	Name  string // of a file, without its ending: "leg-on-cone"
	Title string
	Notes []string // how to use it, printed with it
	Lines []Line
	Words []Words
}

// Line adds a row of points.
func (d *Drawing) Line(s Stroke, points ...Point) {
	d.Lines = append(d.Lines, Line{Stroke: s, Points: points})
}

// Loop adds a row of points that ends where it began.
func (d *Drawing) Loop(s Stroke, points ...Point) {
	d.Lines = append(d.Lines, Line{Stroke: s, Points: points, Closed: true})
}

// Word adds a line of text.
func (d *Drawing) Word(at Point, size, turn float64, text string) {
	d.Words = append(d.Words, Words{At: at, Size: size, Turn: turn, Text: text})
}

// Arc returns points on a circle about centre from one angle to another, in
// radians, so near that the chords miss the arc by less than 0.02 mm.
func Arc(centre Point, radius, from, to float64) []Point {
	const miss = 0.02
	n := 2
	if radius > miss {
		n = max(2, min(2000, int(math.Ceil(math.Abs(to-from)/(2*math.Acos(1-miss/radius))))))
	}
	out := make([]Point, n+1)
	for i := range out {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(n))
		out[i] = Point{centre.X + radius*cos, centre.Y + radius*sin}
	}
	return out
}

// Box returns the corners of what the lines and words of d take.
func (d *Drawing) Box() (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	reach := func(p Point) {
		low = Point{math.Min(low.X, p.X), math.Min(low.Y, p.Y)}
		high = Point{math.Max(high.X, p.X), math.Max(high.Y, p.Y)}
	}
	for _, l := range d.Lines {
		for _, p := range l.Points {
			reach(p)
		}
	}
	for _, w := range d.Words {
		sin, cos := math.Sincos(w.Turn * math.Pi / 180)
		long := w.Size * 0.75 * float64(len([]rune(w.Text)))
		reach(w.At)
		reach(Point{w.At.X + long*cos - w.Size*sin, w.At.Y + long*sin + w.Size*cos})
	}
	if math.IsInf(low.X, 0) {
		return Point{}, Point{}
	}
	return low, high
}

// caption returns the lines that are printed with a drawing.
func (d *Drawing) caption() []string {
	return append([]string{d.Title}, d.Notes...)
}

// CheckLine is the length of the line that shows whether a print came out at 1:1.
const CheckLine = 100.0 // mm
