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

// Of returns the properties of the named kind at temperature t, and whether
// the kind is known: "water" or "", which take no notice of strength, or
// "sugar".
func Of(kind string, strength q.Strength, t q.Temperature) (Properties, bool) {
	switch kind {
	case "", "water":
		return Water(t), true
	case "sugar":
		return Sugar(t, strength), true
	}
	return Properties{}, false
}
