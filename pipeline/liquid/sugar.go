package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Sucrose stands for whatever is dissolved in must, wort and juice: their
// tables are made so. Real wort of the same strength is 3 to 4 % more viscous
// (compare maltose with sucrose in the CRC Handbook, 102nd edition,
// "Concentrative properties of aqueous solutions").

// sugarDensity holds the polynomial of ICUMSA method SPS-4 (1998) for what
// sugar adds to water: a row for each power of (t − 20 °C)/100 from 0, in it a
// coefficient for each power of the mass fraction from 1.
var sugarDensity = [...][6]float64{
	{385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890},
	{-46.2720, -7.1720, 1.1597, 5.1126, 17.5254},
	{59.7712, 7.2491, 12.3630, -35.4791},
	{-47.2207, -21.6977, 27.6301},
	{18.3184, 12.3081},
}

// kellDensity returns the density of water free of air at t degrees Celsius
// under 101.325 kPa, by G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, which
// SPS-4 builds on. Within 0.02 kg/m³ of IAPWS from 0 to 80 °C.
func kellDensity(t float64) float64 {
	return (999.83952 + t*(16.952577+t*(-7.9905127e-3+t*(-46.241757e-6+t*(105.84601e-9-t*281.03006e-12))))) /
		(1 + 16.887236e-3*t)
}

// SugarDensity returns the density of a sucrose solution under 101.325 kPa, by
// ICUMSA method SPS-4 (1998): 0 to 85 % by mass, 0 to 80 °C; beyond that w
// and t are held at the edge. These are true densities, not weights in air.
func SugarDensity(t q.Temperature, w q.Strength) q.Density {
	celsius := held(t.Celsius(), 0, 80)
	x := held(float64(w), 0, 0.85)
	warm := (celsius - 20) / 100
	added := 0.0
	for i := len(sugarDensity) - 1; i >= 0; i-- {
		row := 0.0
		for j := len(sugarDensity[i]) - 1; j >= 0; j-- {
			row = (row + sugarDensity[i][j]) * x
		}
		added = added*warm + row
	}
	return q.Density(kellDensity(celsius) + added)
}

// moleFraction returns the mole fraction of sucrose at mass fraction w.
func moleFraction(w float64) float64 {
	const sucrose, water = 342.3, 18.016 // g/mol, as Génotelle rounds them
	return w / sucrose / (w/sucrose + (1-w)/water)
}

// genotelle returns the viscosity in Pa s of a sucrose solution at t degrees
// Celsius and mole fraction x, by J. Génotelle, Industries alimentaires et
// agricoles 95 (1978) 747, as given in Mathlouthi and Reiser, "Sucrose:
// Properties and Applications" (1995).
func genotelle(t, x float64) float64 {
	log10 := 22.46*x - 0.114 + (30-t)/(91+t)*(1.1+43.1*math.Pow(x, 1.25))
	return math.Exp(log10*math.Ln10) * 1e-3
}

// blendBelow is the strength under which Génotelle's formula is bent to meet
// water: at no sugar it is 3.5 % too thin at 20 °C.
const blendBelow = 0.08

// sugarViscosity returns the viscosity at a temperature and strength inside
// the range. From 8 °Bx down, Génotelle's value is multiplied by the ratio of
// water after IAPWS R12-08 to Génotelle's water, raised to a power that goes
// evenly from 0 at 8 °Bx to 1 at 0. The bend is ours.
func sugarViscosity(t q.Temperature, w float64) q.Viscosity {
	celsius := t.Celsius()
	mu := genotelle(celsius, moleFraction(w))
	if w < blendBelow {
		water := float64(WaterViscosity(t, q.Density(kellDensity(celsius))))
		mu *= math.Pow(water/genotelle(celsius, 0), 1-w/blendBelow)
	}
	return q.Viscosity(mu)
}

// sugarVapourPressure returns p = γ x p_water, the activity coefficient γ of
// the water by M. Starzak and S. D. Peacock, Zuckerindustrie 123 (1998) 433:
// ln γ = Q/(R T) (1 + a x + b x²) x², x the mole fraction of sucrose.
func sugarVapourPressure(t q.Temperature, w float64) q.Pressure {
	const (
		energy = -17638.0 // J/mol
		a, b   = -1.0038, -0.24653
		gas    = 8.314462618 // J/(mol K), CODATA 2018
	)
	x := moleFraction(w)
	activity := math.Exp(energy/(gas*float64(t))*(1+a*x+b*x*x)*x*x) * (1 - x)
	return q.Pressure(activity) * SaturationPressure(t)
}

// Ranges of Sugar: SPS-4 ends at 80 °C, Génotelle's data at about 75 °Bx.
var (
	sugarWarmth   = span{0, 80, "density and viscosity", "0 to 80 °C (ICUMSA SPS-4 and Génotelle)"}
	sugarStrength = span{0, 75, "density, viscosity and vapour pressure", "0 to 75 °P (Génotelle's viscosity)"}
)

var sugarSources = Sources{
	Density:        "ICUMSA SPS-4 (1998), sucrose, 0 to 80 °C, 0 to 75 °P",
	Viscosity:      "Génotelle (1978), sucrose, 0 to 80 °C, 0 to 75 °P; within 6 % from 20 to 60 °C up to 60 °P, up to 15 % high near 0 °C; below 8 °P bent to meet IAPWS R12-08",
	VapourPressure: "Starzak and Peacock (1998) on IAPWS R7-97(2012), sucrose, 0 to 150 °C, 0 to 75 °P",
}

// Sugar returns the properties of a sucrose solution of strength w at t under
// 101.325 kPa: must, wort, juice and syrup, before fermentation.
//
// Over 80 °C density and viscosity go on as water's do, and the vapour
// pressure by its own formula to 150 °C.
func Sugar(t q.Temperature, w q.Strength) Properties {
	var outside []Outside
	temperature := sugarWarmth.temperature(t, &outside)
	strength := sugarStrength.part("strength", float64(w), "°P", &outside)
	p := Properties{
		Name:           name(percent(float64(w), "°P")+" sugar solution", t),
		Density:        SugarDensity(temperature, q.Strength(strength)),
		Viscosity:      sugarViscosity(temperature, strength),
		VapourPressure: sugarVapourPressure(hottest(t, 150, &outside), strength),
		Sources:        sugarSources,
	}
	p.warm(temperature, t)
	p.Outside = outside
	return p
}

// Gravity returns what a hydrometer shows of a sugar solution at 20 °C over
// water at 20 °C: weighed in air of 1.2 kg/m³, as the tables of Plato and the
// ASBC are, and the true ratio of densities.
func Gravity(w q.Strength) (inAir, ratio float64) {
	const air = 1.2
	water, rho := kellDensity(20), float64(SugarDensity(q.Celsius(20), w))
	return (rho - air) / (water - air), rho / water
}
