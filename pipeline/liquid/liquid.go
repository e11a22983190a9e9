// Package liquid gives the density, viscosity and vapour pressure of what a
// small plant pumps, and the pressure of the air over it.
package liquid

import q "drawoff/pipeline/quantity"

// Properties are a liquid's at one temperature, at atmospheric pressure.
type Properties struct {
	Name           string // "water at 20 °C", "12 °P sugar solution at 10 °C"
	Density        q.Density
	Viscosity      q.Viscosity
	VapourPressure q.Pressure
	Sources        Sources
	Outside        []Outside // ranges that were left; the values are then held at the range's edge
}

// Sources names where each property comes from and the range it holds in.
type Sources struct{ Density, Viscosity, VapourPressure string }

// Outside says that a correlation was asked beyond its range.
type Outside struct {
	What  string // "temperature"
	Given string // "-5 °C"
	Range string // "0 to 150 °C (IAPWS R7-97 region 1)"
}

// Recipe says what a liquid is made of. Which fields count depends on Kind.
type Recipe struct {
	Kind     string     // "water" or "", "sugar", "fermented", "milk" or "caustic"
	Strength q.Strength // sugar; the extract left in what is fermented; caustic: by mass
	Alcohol  q.Fraction // fermented: by volume
	Fat      q.Fraction // milk: by mass
}

// Of returns the properties of what r describes at temperature t, and whether
// its kind is known.
func Of(r Recipe, t q.Temperature) (Properties, bool) {
	switch r.Kind {
	case "", "water":
		return Water(t), true
	case "sugar":
		return Sugar(t, r.Strength), true
	case "fermented":
		return Fermented(t, r.Alcohol, r.Strength), true
	case "milk":
		return Milk(t, r.Fat), true
	case "caustic":
		return Caustic(t, q.Fraction(r.Strength)), true
	}
	return Properties{}, false
}
