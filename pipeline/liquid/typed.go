package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Typed is a liquid by its own figures, at the temperature that it has.
type Typed struct {
	Density        q.Density
	Viscosity      q.Viscosity // Newtonian; plastic where Yield is given; not used where Index is
	VapourPressure q.Pressure  // 0 for water's
	Index          q.Number    // n of a power-law liquid, else 0
	Consistency    q.Consistency
	Yield          q.Pressure // of a Bingham liquid, else 0
}

// apparentRate is the shear rate, 1/s, at which one viscosity is told of a
// power-law liquid: about that in a 1½ in line at half a metre a second.
const apparentRate = 100

var typedSources = Sources{
	Density:        "as typed, taken to be at the liquid's temperature",
	Viscosity:      "as typed, taken to be at the liquid's temperature",
	VapourPressure: "as typed, taken to be at the liquid's temperature",
}

const vapourAsWater = "none was typed: water's, IAPWS R7-97(2012), which is more than that of anything dissolved or stirred into water, and less than that of anything with alcohol in it"

// at returns the properties of l. An index of 1 is a Newtonian liquid whose
// viscosity is the consistency, and a yield stress of 0 one whose viscosity is
// the plastic one: they are made so, that nothing differs between the two.
//
// Yeast stirred into beer is Newtonian up to about 200 kg of pressed yeast in
// a cubic metre (J. Food Eng. 44 (2000) 225): only what is thicker, cropped
// slurry, needs a rheology.
func (l Typed) at(what string, t q.Temperature) Properties {
	p := Properties{
		Name:      name(what, t),
		Density:   q.Density(held(float64(l.Density), 1, 1e5)),
		Viscosity: q.Viscosity(held(float64(l.Viscosity), 1e-6, 1e6)),
		Sources:   typedSources,
	}
	switch {
	case l.Index != 0:
		n := held(float64(l.Index), 0.05, 3)
		k := held(float64(l.Consistency), 1e-6, 1e6)
		p.Viscosity = q.Viscosity(k * math.Pow(apparentRate, n-1))
		p.Sources.Viscosity = "K and n as typed; the apparent viscosity is K γ^(n-1) at a shear rate of 100 1/s"
		if n != 1 {
			p.Rheology = Rheology{Index: q.Number(n), Consistency: q.Consistency(k)}
		}
	case l.Yield > 0:
		p.Rheology.Yield = q.Pressure(held(float64(l.Yield), 0, 1e6))
		p.Sources.Viscosity = "plastic viscosity and yield stress as typed"
	}
	p.VapourPressure = q.Pressure(held(float64(l.VapourPressure), 0, 1e7))
	if p.VapourPressure == 0 {
		p.VapourPressure = SaturationPressure(q.Temperature(held(float64(t), regionOneColdest, float64(q.Celsius(waterRange.high)))))
		p.Sources.VapourPressure = vapourAsWater
	}
	return p
}
