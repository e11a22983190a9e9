package vessel

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Contents returns what stands in the tank up to level: its volume, the level
// of its centre, which is what tips with the tank, and its free surface in
// square metres, as VolumeAt and Area give them. Nothing in the tank has its
// centre at 0. Closed forms, the first moments of those of VolumeAt.
func (v Vessel) Contents(level q.Length) (volume q.Volume, centre q.Length, surface float64) {
	s := v.shape()
	z := hold(float64(level), s.brim)
	low := math.Min(z, s.depth)
	held, moment := s.bottomVolume(low), s.bottomMoment(low)
	if z > s.depth {
		above := s.shellArea() * (z - s.depth)
		held, moment = held+above, moment+above*(z+s.depth)/2
	}
	r := s.radiusAt(z)
	surface = math.Pi * r * r
	if !(held > 0) {
		return 0, 0, surface
	}
	return q.Volume(held), q.Length(math.Min(moment/held, z)), surface
}

// bottomMoment returns the integral of height over the volume below z, which
// is at most depth.
func (s *shape) bottomMoment(z float64) float64 {
	switch {
	case z == 0 || s.radius == 0:
		return 0
	case s.bottom == Cone:
		a, k := s.opening, s.slope
		return math.Pi * z * z * (a*a/2 + 2*a*k*z/3 + k*k*z*z/4)
	case z <= s.tangent:
		return capMoment(s.crown, z)
	default:
		// In the knuckle height is depth − u.
		deep, shallow := s.depth-s.tangent, s.depth-z
		volume := s.ringVolume(deep) - s.ringVolume(shallow)
		return capMoment(s.crown, s.tangent) + s.depth*volume - (s.ringMoment(deep) - s.ringMoment(shallow))
	}
}

// capMoment returns the first moment about its apex of a cap of height z of a sphere.
func capMoment(radius, z float64) float64 { return math.Pi * z * z * z * (2*radius/3 - z/4) }

// ringMoment returns the integral of u π (ring + √(knuckle² − u²))² from 0 to u.
func (s *shape) ringMoment(u float64) float64 {
	c, r := s.ring, s.knuckle
	u = math.Min(u, r)
	rest := (r - u) * (r + u)
	return math.Pi * (u*u*(c*c+r*r)/2 + 2*c/3*(r*r*r-rest*math.Sqrt(rest)) - u*u*u*u/4)
}

// BottomWall returns the area of the bottom's plate in square metres, as if
// it had no thickness and no opening but a cone's, and the level of its centre.
func (v Vessel) BottomWall() (area float64, centre q.Length) {
	s := v.shape()
	switch {
	case s.bottom == Cone:
		// Zones of a frustum: area goes with the mean of its radii.
		a, b := s.opening, s.radius
		if a+b == 0 {
			return 0, 0
		}
		return math.Pi * (a + b) * math.Hypot(b-a, s.depth), q.Length(s.depth * (a + 2*b) / (a + b) / 3)
	case s.crown > 0:
		// A zone of a sphere is as wide as it is high; then the knuckle's torus.
		crown := 2 * math.Pi * s.crown * s.tangent
		r, c := s.knuckle, s.ring
		a := math.Asin(math.Min(1, math.Max(-1, s.radiusAt(s.tangent)/s.crown))) // where the arcs touch, from the axis
		turn, sin, cos := math.Pi/2-a, math.Sin(a), math.Cos(a)
		ring := c*turn + r*cos
		knuckle := 2 * math.Pi * r * ring
		low := r * (c*(1-sin) + r*cos*cos/2) // how far its centre is below the shell's edge, × ring
		area = crown + knuckle
		if !(area > 0) {
			return 0, 0
		}
		return area, q.Length((crown*s.tangent/2 + knuckle*(s.depth-low/ring)) / area)
	}
	return s.shellArea(), 0
}
