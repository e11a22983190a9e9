package flow

import "math"

// spline is a monotone piecewise cubic (PCHIP): it goes through every point
// and nowhere over or under its neighbours. F. N. Fritsch & R. E. Carlson, SIAM
// J. Numer. Anal. 17 (1980) 238, with the slopes of F. N. Fritsch & J. Butland,
// SIAM J. Sci. Stat. Comput. 5 (1984) 300.
type spline struct{ x, y, slope []float64 }

func (s *spline) add(x, y float64) {
	s.x = append(s.x, x)
	s.y = append(s.y, y)
}

// shape sets the slopes; the x must rise.
func (s *spline) shape() {
	n := len(s.x)
	s.slope = make([]float64, n)
	if n < 2 {
		return
	}
	h := func(i int) float64 { return s.x[i+1] - s.x[i] }
	rise := func(i int) float64 { return (s.y[i+1] - s.y[i]) / h(i) }
	if n == 2 {
		s.slope[0], s.slope[1] = rise(0), rise(0)
		return
	}
	for i := 1; i < n-1; i++ {
		before, after := rise(i-1), rise(i)
		if before*after > 0 { // else a peak or a flat: slope 0
			w1, w2 := 2*h(i)+h(i-1), h(i)+2*h(i-1)
			s.slope[i] = (w1 + w2) / (w1/before + w2/after)
		}
	}
	s.slope[0] = endSlope(h(0), h(1), rise(0), rise(1))
	s.slope[n-1] = endSlope(h(n-2), h(n-3), rise(n-2), rise(n-3))
}

// endSlope is the three-point slope at an end, held so that it stays monotone.
func endSlope(h0, h1, rise0, rise1 float64) float64 {
	d := ((2*h0+h1)*rise0 - h0*rise1) / (h0 + h1)
	switch {
	case d*rise0 <= 0:
		return 0
	case rise0*rise1 <= 0 && math.Abs(d) > 3*math.Abs(rise0):
		return 3 * rise0
	}
	return d
}

// meets reports whether x is an end of the points but for the last digits, as
// the flow is that a positive pump is held back to.
func meets(x, end float64) bool { return math.Abs(x-end) <= 1e-9*math.Abs(end) }

// at returns the value at x, held at the ends, and whether x lies beyond them.
func (s *spline) at(x float64) (y float64, outside bool) {
	n := len(s.x)
	switch {
	case n == 0:
		return 0, true
	case !(x > s.x[0]): // also NaN
		return s.y[0], !meets(x, s.x[0])
	case x >= s.x[n-1]:
		return s.y[n-1], !meets(x, s.x[n-1])
	}
	i := 1
	for x > s.x[i] {
		i++
	}
	h := s.x[i] - s.x[i-1]
	t := (x - s.x[i-1]) / h
	u := 1 - t
	return u*u*((1+2*t)*s.y[i-1]+t*h*s.slope[i-1]) + t*t*((1+2*u)*s.y[i]-u*h*s.slope[i]), false
}
