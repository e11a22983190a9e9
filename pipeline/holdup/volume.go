package holdup

import (
	"math"

	"drawoff/pipeline/route"
)

// gauss are the nodes and weights of the 16-point rule on -1 to 1, the half
// over zero (Abramowitz & Stegun, table 25.4).
var gauss = [8][2]float64{
	{0.095012509837637440185, 0.189450610455068496285}, {0.281603550779258913230, 0.182603415044923588867},
	{0.458016777657227386342, 0.169156519395002538189}, {0.617876244402643748447, 0.149595988816576732081},
	{0.755404408355003033895, 0.124628971255533872052}, {0.865631202387831743880, 0.095158511682492784810},
	{0.944575023073232576078, 0.062253523938647892863}, {0.989400934991649932596, 0.027152459411754094852},
}

// integral returns the integral of f from a to b.
func integral(f func(float64) float64, a, b float64) (sum float64) {
	middle, half := (a+b)/2, (b-a)/2
	for _, g := range gauss {
		sum += g[1] * (f(middle-half*g[0]) + f(middle+half*g[0]))
	}
	return sum * half
}

// disc returns the area of a disc of that radius below y over its centre, and
// the first moment of that area about the centre, upwards positive.
func disc(radius, y float64) (area, moment float64) {
	switch {
	case y >= radius:
		return math.Pi * radius * radius, 0
	case y <= -radius:
		return 0, 0
	}
	half := math.Sqrt((radius - y) * (radius + y))
	return radius*radius*(math.Pi/2+math.Asin(y/radius)) + y*half, -2.0 / 3 * half * half * half
}

// wet returns the area of the bore of s a part t of the way along it that lies
// below level, each bit weighed by how much longer or shorter an arc is there
// than along its centre (Pappus).
func wet(s *route.Segment, t, level float64) float64 {
	c := s.SectionAt(t)
	across := route.Levelness(c.Dir)
	over := level - c.At.Z
	if across < 1e-12 {
		if over < 0 {
			return 0
		}
		return math.Pi * c.Radius * c.Radius
	}
	area, moment := disc(c.Radius, over/across)
	if s.Radius > 0 && moment != 0 {
		sin, cos := math.Sincos(float64(s.Angle) * t)
		inward := s.Toward.Scale(cos).Sub(s.Dir.Scale(sin))
		// The disc's steepest line, upwards.
		up := route.Vec{X: -c.Dir.Z * c.Dir.X, Y: -c.Dir.Z * c.Dir.Y, Z: across * across}.Scale(1 / across)
		area -= inward.Dot(up) * moment / float64(s.Radius)
	}
	return max(0, area)
}

// volume returns what s holds below level between a and b, parts of the way
// along it between which its invert and crown rise or fall all the way. It is
// exact but for the rule of integration, which is right to a part in a million.
func volume(s *route.Segment, a, b, level float64) float64 {
	if b <= a {
		return 0
	}
	if math.IsInf(level, 1) { // full: a frustum, or Pappus' ring
		from, to := float64(s.BoreFrom)+a*float64(s.BoreTo-s.BoreFrom), float64(s.BoreFrom)+b*float64(s.BoreTo-s.BoreFrom)
		return math.Pi / 12 * (from*from + from*to + to*to) * (b - a) * float64(s.Length)
	}
	invert := func(t float64) float64 { return s.SectionAt(t).Invert - level }
	crown := func(t float64) float64 { return s.SectionAt(t).Crown - level }
	edges := [4]float64{a, crossing(invert, a, b), crossing(crown, a, b), b}
	if edges[1] > edges[2] {
		edges[1], edges[2] = edges[2], edges[1]
	}
	sum := 0.0
	for i := range 3 {
		if edges[i+1] > edges[i] {
			// Between the edges the wet part begins and ends as a power 3/2.
			sum += integral(func(t float64) float64 { return wet(s, t, level) }, edges[i], edges[i+1])
		}
	}
	return sum * float64(s.Length)
}

// crossing returns where f, which rises or falls all the way from a to b, is
// zero; a where it is not.
func crossing(f func(float64) float64, a, b float64) float64 {
	low, high := f(a), f(b)
	if low == 0 || high == 0 || (low > 0) == (high > 0) {
		return a
	}
	from := a
	for range 60 {
		middle := (a + b) / 2
		if m := f(middle); m == 0 || middle == a || middle == b {
			return middle
		} else if (m > 0) == (low > 0) {
			a = middle
		} else {
			b = middle
		}
	}
	return max(from, (a+b)/2)
}
