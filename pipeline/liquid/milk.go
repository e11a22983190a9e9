package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// milkPart is a component of milk: its density at 0 °C and how that falls with
// each degree, after Y. Choi and M. R. Okos, "Effects of temperature and
// composition on the thermal properties of foods" (1986), as reprinted in the
// ASHRAE Handbook, Refrigeration; −40 to 150 °C. From memory.
type milkPart struct{ ofSkim, density, fall float64 }

// What is dissolved in the part of milk that is not fat, by mass: an average
// cow's milk of 3.4 % protein, 4.8 % lactose and 0.7 % ash. Common practice,
// no source: breed and season move it by a tenth.
var milkSolids = [...]milkPart{
	{0.0352, 1329.9, 0.51840}, // protein
	{0.0497, 1599.1, 0.31046}, // lactose
	{0.0073, 2423.8, 0.28063}, // ash
}

// milkDensity adds up volumes of the components at t degrees Celsius, with
// Choi and Okos's fat and water of IAPWS: their own water is 0.1 to 0.3 % light.
func milkDensity(t, fat, water float64) float64 {
	volume, solids := fat/(925.59-0.41757*t), 0.0
	for _, p := range milkSolids {
		part := p.ofSkim * (1 - fat)
		solids += part
		volume += part / (p.density - p.fall*t)
	}
	return 1 / (volume + (1-fat-solids)/water)
}

// milkViscosity returns Pa s at t degrees Celsius: A. S. Bakshi and D. E.
// Smith, J. Dairy Sci. 67 (1984) 1157, measured from 0 to 30 °C; L. W. Phipps,
// J. Dairy Res. 36 (1969) 417, from 40 to 80 °C (coefficients from memory);
// between them ln μ runs straight over 1/T.
func milkViscosity(t, fat float64) float64 {
	const cold, hot = 30, 40
	switch {
	case t <= cold:
		return 1e-3 * math.Exp(-8.9+0.1*100*fat+2721.5/kelvin(t))
	case t >= hot:
		rise := (1.2876 + 11.07e-4*t) * (fat + math.Pow(fat, 5.0/3))
		return 1e-3 * math.Exp(math.Ln10*(rise+768.7/kelvin(t)-2.4370))
	}
	part := (1/kelvin(t) - 1/kelvin(hot)) / (1/kelvin(cold) - 1/kelvin(hot))
	return math.Pow(milkViscosity(cold, fat), part) * math.Pow(milkViscosity(hot, fat), 1-part)
}

func kelvin(celsius float64) float64 { return float64(q.Celsius(celsius)) }

// Ranges of Milk.
var (
	milkWarmth = span{0, 80, "0 to 80 °C (Bakshi and Smith 1984, Phipps 1969)"}
	milkFat    = span{0, 10, "0 to 10 % fat (milk; cream is thicker and need not be Newtonian)"}
)

var milkSources = Sources{
	Density:        "Choi and Okos (1986) by components, average cow's milk, 0 to 80 °C; up to 0.6 % low",
	Viscosity:      "Bakshi and Smith (1984) to 30 °C, Phipps (1969) from 40 to 80 °C, joined between; whole and skimmed milk within about 15 %",
	VapourPressure: "water's, IAPWS R7-97(2012), which is a little more than milk's",
}

// Milk returns the properties of cow's milk with so much fat by mass, 0 to
// 80 °C.
func Milk(t q.Temperature, fat q.Fraction) Properties {
	var outside []Outside
	temperature := milkWarmth.temperature(t, &outside)
	f := milkFat.part("fat", float64(fat), "%", &outside)
	water := Water(t)
	celsius := temperature.Celsius()
	return Properties{
		Name:           name("milk of "+percent(float64(fat), "% fat"), t),
		Density:        q.Density(milkDensity(celsius, f, kellDensity(celsius))),
		Viscosity:      q.Viscosity(milkViscosity(celsius, f)),
		VapourPressure: water.VapourPressure,
		Sources:        milkSources,
		Outside:        outside,
	}
}
