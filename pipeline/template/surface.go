// Package template works out how tubes, shells and cones meet, unrolled flat:
// what is wrapped round the end of a tube, or laid on a plate, to mark where
// to cut. Millimetres throughout.
//
// Every template is drawn on the outside of what it is wrapped round, and cut
// to the outside of what is met: the tube then touches all round at its outer
// edge, and the gap inside is the weld's. That is how the trade's templates
// are drawn; common practice, no source.
package template

import "math"

// Vec is a place or a direction in millimetres.
type Vec struct{ X, Y, Z float64 }

func (a Vec) add(b Vec) Vec         { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) times(k float64) Vec   { return Vec{k * a.X, k * a.Y, k * a.Z} }
func (a Vec) dot(b Vec) float64     { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func (a Vec) length() float64       { return math.Sqrt(a.dot(a)) }
func (a Vec) unit() Vec             { return a.times(1 / a.length()) }
func (a Vec) cross(b Vec) Vec       { return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X} }
func along(o, d Vec, s float64) Vec { return o.add(d.times(s)) }

// Surface is the outside of something that a tube runs into.
type Surface interface {
	// Meet returns how far from o along d, a unit vector, the surface is met
	// first, coming from far away; false where it is not met.
	Meet(o, d Vec) (s float64, ok bool)
}

// Cylinder stands about the z axis.
type Cylinder struct{ Radius float64 }

// Meet implements Surface: a quadratic in s.
func (c Cylinder) Meet(o, d Vec) (float64, bool) {
	s, _, ok := roots(d.X*d.X+d.Y*d.Y, o.X*d.X+o.Y*d.Y, o.X*o.X+o.Y*o.Y-c.Radius*c.Radius)
	return s, ok
}

// roots returns the roots of a s² + 2 b s + c, the smaller first; without loss
// of digits where b is large.
func roots(a, b, c float64) (first, second float64, ok bool) {
	under := b*b - a*c
	if under < 0 {
		if under < -1e-9*(b*b+math.Abs(a*c)) {
			return 0, 0, false
		}
		under = 0 // the tubes are of one size: they only touch here
	}
	root := -b - math.Copysign(math.Sqrt(under), b)
	switch {
	case math.Abs(a) < 1e-15:
		if b == 0 {
			return 0, 0, false
		}
		s := -c / (2 * b)
		return s, s, true
	case root == 0:
		return 0, 0, true
	}
	first, second = root/a, c/root
	return math.Min(first, second), math.Max(first, second), true
}

// Tank is the outside of an upright tank: its bottom, and the shell over it.
// z is 0 at the lowest inside point.
type Tank struct {
	Radius  float64 // of the shell, inside
	Wall    float64
	Half    float64 // cone: half of its full angle, radians; 0 for none
	Opening float64 // cone: radius of its opening, inside
	Crown   float64 // dish: radii inside; 0 for none
	Knuckle float64
}

// Apex is where the sides of the cone would meet, outside.
func (t Tank) Apex() float64 { return -t.Opening/math.Tan(t.Half) - t.Wall/math.Sin(t.Half) }

// Edge is where the shell begins, outside: the lower end of the cylinder.
func (t Tank) Edge() float64 {
	switch {
	case t.Half > 0:
		return t.Apex() + (t.Radius+t.Wall)/math.Tan(t.Half)
	case t.Crown > 0:
		return t.depth()
	}
	return -t.Wall
}

// depth of a dish.
func (t Tank) depth() float64 {
	between, ring := t.Crown-t.Knuckle, t.Radius-t.Knuckle
	return t.Crown - math.Sqrt(math.Max(0, between*between-ring*ring))
}

// Meet implements Surface.
func (t Tank) Meet(o, d Vec) (float64, bool) {
	best, found := 0.0, false
	take := func(s float64, low, high float64) {
		z := o.Z + s*d.Z
		if z >= low-1e-9 && z <= high+1e-9 && (!found || s < best) {
			best, found = s, true
		}
	}
	edge := t.Edge()
	if s, ok := (Cylinder{t.Radius + t.Wall}).Meet(o, d); ok {
		take(s, edge, math.Inf(1))
	}
	switch {
	case t.Half > 0:
		apex, k := t.Apex(), math.Tan(t.Half)
		a := d.X*d.X + d.Y*d.Y - k*k*d.Z*d.Z
		b := o.X*d.X + o.Y*d.Y - k*k*(o.Z-apex)*d.Z
		c := o.X*o.X + o.Y*o.Y - k*k*(o.Z-apex)*(o.Z-apex)
		if first, second, ok := roots(a, b, c); ok {
			low := apex + t.Opening/k
			take(first, low, edge)
			take(second, low, edge)
		}
	case t.Crown > 0:
		if s, ok := t.meetDish(o, d); ok {
			take(s, math.Inf(-1), edge)
		}
	case d.Z != 0:
		s := (-t.Wall - o.Z) / d.Z
		if p := along(o, d, s); math.Hypot(p.X, p.Y) <= t.Radius+t.Wall+1e-9 {
			take(s, math.Inf(-1), edge)
		}
	}
	return best, found
}

// Under returns the height of the dish's outside at a distance from the axis:
// the crown's sphere, and the knuckle's arc about its own centre.
func (t Tank) Under(r float64) float64 {
	ring := t.Radius - t.Knuckle
	// Where crown and knuckle touch, both centres and the point are in one line.
	touch := 0.0
	if between := t.Crown - t.Knuckle; between > 0 {
		touch = ring / between * (t.Crown + t.Wall)
	}
	if r <= touch {
		R := t.Crown + t.Wall
		return t.Crown - math.Sqrt(math.Max(0, R*R-r*r))
	}
	k := t.Knuckle + t.Wall
	return t.depth() - math.Sqrt(math.Max(0, k*k-(r-ring)*(r-ring)))
}

// meetDish halves the stretch between below the dish and its edge.
func (t Tank) meetDish(o, d Vec) (float64, bool) {
	if d.Z <= 0 {
		return 0, false
	}
	low, high := (-t.Wall-1-o.Z)/d.Z, (t.Edge()-o.Z)/d.Z
	over := func(s float64) float64 {
		p := along(o, d, s)
		r := math.Hypot(p.X, p.Y)
		if r > t.Radius+t.Wall {
			return -1
		}
		return p.Z - t.Under(r)
	}
	if over(high) < 0 {
		return 0, false
	}
	for range 80 {
		mid := low + (high-low)/2
		if over(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return high, true
}
