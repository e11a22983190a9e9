// Package vessel turns level into volume and volume into level, exactly
// inverse, for an upright round tank on a cone, a dished or a flat bottom.
//
// Levels are measured from the lowest inside point: for a cone that is the
// plane where it has narrowed to the bore of the outlet, for a dish its apex,
// whatever is cut out there for an outlet (of a 50 mm hole in a dish of 1 m
// that is 0.3 mm).
//
// The standards for dished ends give crown and knuckle as parts of the outside
// diameter. Here they are parts of the bore, as if the wall had no thickness,
// which makes a dish deeper than theirs by about a tenth of the wall. They
// also give an end a short straight flange: count it as part of Straight.
package vessel

import q "drawoff/pipeline/quantity"

// Vessel is the inside of a tank.
type Vessel struct {
	Bore      q.Length
	Straight  q.Length // height of the shell over the bottom
	Bottom    Bottom
	ConeAngle q.Angle  // full included angle
	Opening   q.Length // bore of a central bottom outlet, 0 when it is at the side
}

// Bottom is the shape of a vessel's bottom.
type Bottom string

// The bottoms.
const (
	Cone      Bottom = "cone"
	Klopper   Bottom = "klopper"   // torispherical, crown radius D, knuckle 0.1 D (DIN 28011)
	Korbbogen Bottom = "korbbogen" // torispherical, crown radius 0.8 D, knuckle 0.154 D (DIN 28013)
	Flat      Bottom = "flat"
)

// Dish returns the radii of crown and knuckle of a dished bottom, inside; 0 of
// a cone or a flat bottom.
func (v Vessel) Dish() (crown, knuckle q.Length) {
	s := v.shape()
	return q.Length(s.crown), q.Length(s.knuckle)
}
