// Package liquid gives the density, viscosity and vapour pressure of what a
// small plant pumps, and the pressure of the air over it.
package liquid

import q "drawoff/pipeline/quantity"

// Properties are a liquid's at one temperature, at atmospheric pressure.
type Properties struct {
	Name           string // "water at 20 °C", "12 °P sugar solution at 10 °C"
	Density        q.Density
	Viscosity      q.Viscosity // of a Bingham liquid the plastic one; of a power-law liquid the apparent one at 100 1/s
	VapourPressure q.Pressure
	Rheology       Rheology // zero where the liquid is Newtonian
	Sources        Sources
	Outside        []Outside // ranges that were left, and what was used instead
}

// Rheology is how a liquid that is not Newtonian resists being sheared. It is
// a power-law liquid where Index is not 0, stress = Consistency × rate^Index;
// else a Bingham liquid where Yield is not 0, stress = Yield + the plastic
// viscosity × rate, and still below Yield.
type Rheology struct {
	Index       q.Number
	Consistency q.Consistency
	Yield       q.Pressure
}

// Newtonian reports whether viscosity says it all.
func (r Rheology) Newtonian() bool { return r.Index == 0 && r.Yield == 0 }

// Sources names where each property comes from and the range it holds in.
type Sources struct{ Density, Viscosity, VapourPressure string }

// Outside says that a correlation was asked beyond its range.
type Outside struct {
	Property string // "density and viscosity"
	What     string // "temperature"
	Given    string // "-5 °C"
	Range    string // "0 to 150 °C (IAPWS R7-97 region 1)"
	Used     string // "the value at 0 °C"
}

// Recipe says what a liquid is made of. Which fields count depends on Kind.
type Recipe struct {
	Kind     string     // as in Of, or "" for water
	Strength q.Strength // sugar; the extract left in what is fermented; what cleans: by mass
	Alcohol  q.Fraction // fermented, spirits: by volume
	Fat      q.Fraction // milk, skim, cream: by mass
	Typed    Typed      // other, power-law, bingham
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
	case "spirits":
		return Spirits(t, r.Alcohol), true
	case "milk":
		return milk("milk", t, r.Fat), true
	case "skim":
		return milk("skim milk", t, r.Fat), true
	case "cream":
		return milk("cream", t, r.Fat), true
	case "whey":
		return Whey(t), true
	case "caustic":
		return Caustic(t, q.Fraction(r.Strength)), true
	case "nitric":
		return Nitric(t, q.Fraction(r.Strength)), true
	case "phosphoric":
		return Phosphoric(t, q.Fraction(r.Strength)), true
	case "peracetic":
		return Peracetic(t, q.Fraction(r.Strength)), true
	case "other":
		r.Typed.Index, r.Typed.Yield = 0, 0
		return r.Typed.at("your liquid", t), true
	case "power-law":
		r.Typed.Yield = 0
		return r.Typed.at("your power-law liquid", t), true
	case "bingham":
		r.Typed.Index = 0
		return r.Typed.at("your Bingham liquid", t), true
	}
	return Properties{}, false
}
