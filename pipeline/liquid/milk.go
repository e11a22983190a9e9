package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// dairyPart is a component of milk or whey: its density at 0 °C and how that falls with
// each degree, after Y. Choi and M. R. Okos, "Effects of temperature and
// composition on the thermal properties of foods" (1986), as reprinted in the
// ASHRAE Handbook, Refrigeration; −40 to 150 °C. From memory.
type dairyPart struct{ part, density, fall float64 }

// What is dissolved in the part of milk that is not fat, by mass: an average
// cow's milk of 3.4 % protein, 4.8 % lactose and 0.7 % ash; and in sweet whey.
// Common practice, no source: breed and season move them by a tenth.
var (
	milkSolids = [...]dairyPart{
		{0.0352, 1329.9, 0.51840}, // protein
		{0.0497, 1599.1, 0.31046}, // lactose
		{0.0073, 2423.8, 0.28063}, // ash
	}
	wheySolids = [...]dairyPart{
		{0.0080, 1329.9, 0.51840},
		{0.0490, 1599.1, 0.31046},
		{0.0060, 2423.8, 0.28063},
	}
)

// dairyDensity adds up volumes of the components at t degrees Celsius, with
// Choi and Okos's fat and water of IAPWS: their own water is 0.1 to 0.3 % light when cold.
func dairyDensity(solids [3]dairyPart, t, fat, water float64) float64 {
	volume, dry := fat/(925.59-0.41757*t), 0.0
	for _, p := range solids {
		part := p.part * (1 - fat)
		dry += part
		volume += part / (p.density - p.fall*t)
	}
	return 1 / (volume + (1-fat-dry)/water)
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

// Ranges of Milk and Whey. Bakshi and Smith measured from skimmed milk to
// whipping cream, 1 to 60 mPa s, which is 30 % fat in their formula; Phipps
// found cream Newtonian up to 100 1/s and his formula to hold to 40 % fat.
var (
	dairyWarmth = span{0, 80, "density and viscosity", "0 to 80 °C (Bakshi and Smith 1984, Phipps 1969)"}
	wheyWarmth  = span{0, 80, "density and viscosity", "0 to 80 °C"}
	fatCold     = span{0, 30, "viscosity", "0 to 30 % fat under 40 °C (Bakshi and Smith 1984); thicker cream need not be Newtonian"}
	fatHot      = span{0, 40, "viscosity", "0 to 40 % fat from 40 °C (Phipps 1969)"}
)

var milkSources = Sources{
	Density:        "Choi and Okos (1986) by components, average cow's milk, 0 to 80 °C; up to 0.6 % low",
	Viscosity:      "Bakshi and Smith (1984), 0 to 30 °C, 0 to 30 % fat; Phipps (1969), 40 to 80 °C, 0 to 40 % fat; joined between. Whole and skimmed milk within about 15 %; cold cream of 20 % and more may be half as viscous, churned or clotted cream more",
	VapourPressure: "water's, IAPWS R7-97(2012), which is a little more than milk's",
}

var wheySources = Sources{
	Density:        "Choi and Okos (1986) by components, sweet whey of 0.8 % protein, 4.9 % lactose and 0.6 % ash, 0 to 80 °C; up to 0.6 % low",
	Viscosity:      "1.25 times water's (Walstra, Wouters and Geurts, Dairy Science and Technology, rennet whey at 20 °C, from memory), warmed as water is; within about 10 %. Lactose alone gives 1.15 (CRC Handbook, 102nd edition)",
	VapourPressure: milkSources.VapourPressure,
}

// Milk returns the properties of cow's milk or cream with so much fat by mass,
// 0 to 80 °C.
func Milk(t q.Temperature, fat q.Fraction) Properties { return milk("milk", t, fat) }

func milk(what string, t q.Temperature, fat q.Fraction) Properties {
	var outside []Outside
	temperature := dairyWarmth.temperature(t, &outside)
	celsius := temperature.Celsius()
	limits := fatCold
	if celsius >= 40 {
		limits = fatHot
	}
	f := limits.part("fat", float64(fat), "%", &outside)
	p := Properties{
		Name:           name(what+" of "+percent(float64(fat), "% fat"), t),
		Density:        q.Density(dairyDensity(milkSolids, celsius, held(float64(fat), 0, 1), kellDensity(celsius))),
		Viscosity:      q.Viscosity(milkViscosity(celsius, f)),
		VapourPressure: SaturationPressure(hottest(t, 150, &outside)),
		Sources:        milkSources,
	}
	p.warm(temperature, t)
	p.Outside = outside
	return p
}

// Whey returns the properties of sweet whey, 0 to 80 °C.
func Whey(t q.Temperature) Properties {
	const thicker = 1.25
	var outside []Outside
	temperature := wheyWarmth.temperature(t, &outside)
	celsius := temperature.Celsius()
	p := Water(temperature)
	p.Name = name("whey", t)
	p.Density = q.Density(dairyDensity(wheySolids, celsius, 0, kellDensity(celsius)))
	p.Viscosity *= thicker
	p.VapourPressure = SaturationPressure(hottest(t, 150, &outside))
	p.Sources = wheySources
	p.warm(temperature, t)
	p.Outside = outside
	return p
}
