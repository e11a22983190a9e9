package route

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns v - w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Scale returns v, k times as long.
func (v Vec) Scale(k float64) Vec { return Vec{v.X * k, v.Y * k, v.Z * k} }

// Dot returns the scalar product of v and w.
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Cross returns the vector product of v and w.
func (v Vec) Cross(w Vec) Vec {
	return Vec{v.Y*w.Z - v.Z*w.Y, v.Z*w.X - v.X*w.Z, v.X*w.Y - v.Y*w.X}
}

// Len returns the length of v.
func (v Vec) Len() float64 { return math.Sqrt(v.Dot(v)) }

// Unit returns the direction of v, or v itself where it has none.
func (v Vec) Unit() Vec {
	n := v.Len()
	if n == 0 {
		return v
	}
	return v.Scale(1 / n)
}

// Angle returns the angle between v and w, 0 where either has no direction.
// It is taken from both products, since the arc cosine alone loses half its
// digits near 0. The 0 that is added makes a -0 of no direction plain: its arc
// tangent would be 180°.
func (v Vec) Angle(w Vec) q.Angle { return q.Angle(math.Atan2(v.Cross(w).Len(), v.Dot(w)+0)) }
