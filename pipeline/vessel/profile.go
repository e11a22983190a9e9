package vessel

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Point is a point of a vessel's inside outline: its distance from the axis
// and its level.
type Point struct{ R, Z q.Length }

// Steps of the polyline of a dish. The knuckle turns through about 64° and
// the crown through about 26°, so that no corner turns more than about 4°:
// on a drawing 100 mm wide the chords miss the arcs by less than a hairline.
const (
	crownSteps   = 12
	knuckleSteps = 16
)

// Profile returns the inside outline of one half of the vessel, from the edge
// of the central opening (from the axis where there is none) up to the brim.
// The arcs of a dish come as short chords whose ends lie on the arc.
func (v Vessel) Profile() []Point {
	s := v.shape()
	points := make([]Point, 0, crownSteps+knuckleSteps+3)
	add := func(r, z float64) { points = append(points, Point{q.Length(r), q.Length(z)}) }
	if s.crown > 0 && s.depth > 0 {
		// Crown: angle at its centre from the axis to the tangent point.
		touch := math.Asin(math.Min(1, s.radiusAt(s.tangent)/s.crown))
		from := math.Asin(math.Min(s.opening/s.crown, math.Sin(touch)))
		for i := range crownSteps + 1 {
			a := from + (touch-from)*float64(i)/crownSteps
			half := math.Sin(a / 2)
			add(s.crown*math.Sin(a), 2*s.crown*half*half)
		}
		// Knuckle: the same angle at its own centre, on to the horizontal.
		for i := 1; i <= knuckleSteps; i++ {
			a := touch + (math.Pi/2-touch)*float64(i)/knuckleSteps
			add(s.ring+s.knuckle*math.Sin(a), s.depth-s.knuckle*math.Cos(a))
		}
	} else {
		add(s.opening, 0)
		add(s.radius, s.depth)
	}
	// The shell's lower edge by its exact numbers, not the sine of 90°.
	points[len(points)-1] = Point{q.Length(s.radius), q.Length(s.depth)}
	add(s.radius, s.brim)
	return points
}
