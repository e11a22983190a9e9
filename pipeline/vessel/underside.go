package vessel

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Underside returns how high over the lowest inside point the outside of the
// bottom lies at a distance r from the axis, below the point as a negative
// height. The outside runs at the thickness of the wall from the inside, out to
// where the plate ends. Beyond that it is what it is there: what stands further
// out meets no bottom.
func (v Vessel) Underside(r, wall q.Length) q.Length {
	s := v.shape()
	w := size(float64(wall))
	x := math.Max(0, math.Min(size(float64(r)), s.radius+w))
	switch s.bottom {
	case Cone:
		half := math.Atan(s.slope)
		x = math.Min(x, s.radius+w*math.Cos(half))
		return q.Length(math.Max(0, x-s.opening)/s.slope - w/math.Sin(half))
	case Klopper, Korbbogen:
		// The crown's arc passes into the knuckle's on the line through both
		// centres, outside as inside.
		if between := s.crown - s.knuckle; between > 0 && x <= (s.crown+w)*s.ring/between {
			return q.Length(s.crown - leg(s.crown+w, x))
		}
		return q.Length(s.depth - leg(s.knuckle+w, x-s.ring))
	}
	return q.Length(-w)
}

// leg is the other short side of a right triangle with the long side c.
func leg(c, a float64) float64 { return math.Sqrt(math.Max(0, c*c-a*a)) }
