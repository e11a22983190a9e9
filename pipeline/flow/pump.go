package flow

import (
	"math"
	"slices"
	"sort"

	q "drawoff/pipeline/quantity"
)

// Duty is one point of a pump's published curve.
type Duty struct {
	Flow     q.Flow
	Head     q.Head // over the pump
	Required q.Head // suction head required (NPSHr); 0 where not given
}

// Curve is a pump's curve at one speed. The zero Curve is no curve. It is not
// corrected for viscosity: what a maker publishes is for water, and holds to
// a few per cent up to about ten times water's viscosity (common practice, no source).
type Curve struct {
	duties   []Duty
	head     spline
	required spline
}

// NewCurve draws a curve through the points given, in any order. Points with
// a flow or head under zero or not finite are left out; of two at one flow
// the lower head counts.
func NewCurve(duties []Duty) Curve {
	var c Curve
	for _, d := range duties {
		if usable(float64(d.Flow)) && usable(float64(d.Head)) {
			c.duties = append(c.duties, d)
		}
	}
	sort.SliceStable(c.duties, func(i, j int) bool {
		a, b := c.duties[i], c.duties[j]
		return a.Flow < b.Flow || a.Flow == b.Flow && a.Head < b.Head
	})
	c.duties = slices.CompactFunc(c.duties, func(a, b Duty) bool { return a.Flow == b.Flow })
	for _, d := range c.duties {
		c.head.add(float64(d.Flow), float64(d.Head))
		if usable(float64(d.Required)) && d.Required > 0 {
			c.required.add(float64(d.Flow), float64(d.Required))
		}
	}
	c.head.shape()
	c.required.shape()
	return c
}

// usable reports whether a pump can have x, in SI units, of anything.
func usable(x float64) bool { return x >= 0 && x <= 1e6 }

// IsZero reports whether c is no curve.
func (c Curve) IsZero() bool { return len(c.duties) == 0 }

// Duties returns the points that the curve goes through, by rising flow.
func (c Curve) Duties() []Duty { return slices.Clone(c.duties) }

// First returns the least flow of the curve, 0 when its points start at shut-off.
func (c Curve) First() q.Flow {
	if c.IsZero() {
		return 0
	}
	return c.duties[0].Flow
}

// Last returns the greatest flow of the curve.
func (c Curve) Last() q.Flow {
	if c.IsZero() {
		return 0
	}
	return c.duties[len(c.duties)-1].Flow
}

// Head returns the pump's head at flow. Beyond the curve's ends, where outside
// is true, it is held at the last point.
func (c Curve) Head(flow q.Flow) (head q.Head, outside bool) {
	y, outside := c.head.at(float64(flow))
	return q.Head(y), outside
}

// Required returns the suction head that the pump requires at flow (NPSHr).
// Beyond the points that give it, where outside is true, it is held at the
// nearest of them; it is 0 when none does.
func (c Curve) Required(flow q.Flow) (head q.Head, outside bool) {
	y, outside := c.required.at(float64(flow))
	return q.Head(y), outside
}

// RequiredKnown reports whether any point gives the suction head required.
func (c Curve) RequiredKnown() bool { return len(c.required.x) > 0 }

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

// at returns the value at x, held at the ends, and whether x lies beyond them.
func (s *spline) at(x float64) (y float64, outside bool) {
	n := len(s.x)
	switch {
	case n == 0:
		return 0, true
	case !(x > s.x[0]): // also NaN
		return s.y[0], x != s.x[0]
	case x >= s.x[n-1]:
		return s.y[n-1], x > s.x[n-1]
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
