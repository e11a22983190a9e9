package vessel

import "math"

// shape is a vessel reduced to what the formulas need, in metres. It is built
// anew for each question: a handful of square roots costs less than keeping
// a Vessel and its shape in step.
type shape struct {
	bottom  Bottom
	radius  float64 // of the shell
	depth   float64 // of the bottom
	brim    float64 // depth and straight side
	opening float64 // radius of the central opening, at most radius
	slope   float64 // cone: radius gained per height
	crown   float64 // dish: radius of the crown
	knuckle float64 // dish: radius of the knuckle
	ring    float64 // dish: radius of the circle on which the knuckle's centre lies
	tangent float64 // dish: height at which crown passes into knuckle
}

// Sizes beyond these belong to no tank and would only overflow or underflow.
const (
	smallest = 1e-6 // m; anything less counts as nothing
	largest  = 1e3  // m
)

func size(x float64) float64 {
	if !(x >= smallest) {
		return 0
	}
	return math.Min(x, largest)
}

// shape reads v. Measures that no vessel has are read as the nearest that one
// can have: below zero or not a number as nothing, an opening wider than the
// shell as the whole bottom. A cone angle that is not between 1° and 179°, and
// a bottom of no known name, make a flat bottom.
func (v Vessel) shape() shape {
	s := shape{bottom: v.Bottom, radius: size(float64(v.Bore)) / 2}
	s.opening = math.Min(size(float64(v.Opening))/2, s.radius)
	switch v.Bottom {
	case Cone:
		half := float64(v.ConeAngle) / 2
		const degree = math.Pi / 180
		if half >= 0.5*degree && half <= 89.5*degree {
			s.slope = math.Tan(half)
			s.depth = (s.radius - s.opening) / s.slope
		} else {
			s.bottom = Flat
		}
	case Klopper:
		s.dish(2*s.radius, 0.2*s.radius)
	case Korbbogen:
		s.dish(1.6*s.radius, 0.308*s.radius)
	default:
		s.bottom = Flat
	}
	s.brim = s.depth + size(float64(v.Straight))
	return s
}

// dish sets the heights of a torispherical bottom. The centre of the knuckle's
// arc lies on a ring inside the shell, level with the shell's lower edge, and
// where crown and knuckle touch both centres and the point are in one line.
func (s *shape) dish(crown, knuckle float64) {
	s.crown, s.knuckle = crown, knuckle
	s.ring = s.radius - knuckle
	between := crown - knuckle // of the two centres
	if between <= 0 {          // one arc, a hemisphere: all knuckle
		s.depth = crown
		return
	}
	drop := math.Sqrt(between*between - s.ring*s.ring)
	s.depth = crown - drop
	s.tangent = crown - crown*drop/between
}

func (s *shape) shellArea() float64 { return math.Pi * s.radius * s.radius }

// radiusAt returns the inside radius at height z, between 0 and the brim.
func (s *shape) radiusAt(z float64) float64 {
	switch {
	case z >= s.depth:
		return s.radius
	case s.bottom == Cone:
		return s.opening + s.slope*z
	case z <= s.tangent:
		return math.Sqrt(z * (2*s.crown - z))
	default:
		u := s.depth - z
		return s.ring + math.Sqrt((s.knuckle-u)*(s.knuckle+u))
	}
}

// bottomVolume returns the volume below z, which is at most depth.
func (s *shape) bottomVolume(z float64) float64 {
	switch {
	case z == 0 || s.radius == 0:
		return 0
	case s.bottom == Cone:
		r := s.opening + s.slope*z
		return math.Pi / 3 * z * (s.opening*s.opening + s.opening*r + r*r)
	case z <= s.tangent:
		return capVolume(s.crown, z)
	default:
		return capVolume(s.crown, s.tangent) + s.ringVolume(s.depth-s.tangent) - s.ringVolume(s.depth-z)
	}
}

// capVolume returns the volume of a cap of height z of a sphere.
func capVolume(radius, z float64) float64 { return math.Pi * z * z * (radius - z/3) }

// ringVolume returns the volume of the slice of the knuckle between the
// shell's lower edge and u below it: the integral of π (ring + √(knuckle² −
// u²))².
func (s *shape) ringVolume(u float64) float64 {
	c, r := s.ring, s.knuckle
	u = math.Min(u, r)
	return math.Pi * (c*(c*u+u*math.Sqrt((r-u)*(r+u))+r*r*math.Asin(u/r)) + u*(r*r-u*u/3))
}

// bottomLevel returns the height below which the bottom holds want, which is
// over 0 and at most the bottom's volume.
func (s *shape) bottomLevel(want float64) float64 {
	if s.bottom == Cone {
		// r³ = a³ + 3 k V/π; dividing by the frustum's three squares instead
		// of taking (r − a)/k keeps every digit of a thin layer.
		a := s.opening
		r := math.Cbrt(a*a*a + 3*s.slope*want/math.Pi)
		return math.Min(want*3/math.Pi/(a*a+a*r+r*r), s.depth)
	}
	return s.solve(want)
}

// solve finds the height by Newton's steps held inside a shrinking bracket,
// so that it ends whatever the shape. A dish widens upwards all the way,
// which makes its volume a convex function of height: after the first step
// Newton's method comes down on the answer from above without overshooting.
func (s *shape) solve(want float64) float64 {
	low, high := 0.0, s.depth
	z := math.Min(math.Sqrt(want/(math.Pi*s.crown)), s.depth) // the cap's height but for z/3
	for range 100 {
		miss := s.bottomVolume(z) - want
		switch {
		case miss == 0:
			return z
		case miss > 0:
			high = z
		default:
			low = z
		}
		r := s.radiusAt(z)
		next := z - miss/(math.Pi*r*r)
		if !(next > low && next < high) {
			next = low + (high-low)/2
		}
		if next == z || next == low || next == high || math.Abs(next-z) <= 1e-16*z {
			return next
		}
		z = next
	}
	return z
}
