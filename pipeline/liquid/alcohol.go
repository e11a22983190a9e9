package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Cider, perry, beer and wine are taken as water, ethanol and what sugar and
// other extract is left. Each part has a formula; how the parts join is
// written at Fermented.

// ethanolDensity holds A1 to A12 of the general formula of OIML R 22 (1973),
// "International Alcoholometric Tables", Annex, after H. Wagenbreth and W.
// Blanke, PTB-Mitteilungen 81 (1971) 412: density at 20 °C by powers of the
// mass fraction.
var ethanolDensity = [...]float64{
	998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388,
	306287.4042, -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
}

// ethanolWarmth holds the rest of that formula: a row for each power of
// t − 20 °C from 1, in it B first and then C by powers of the mass fraction.
var ethanolWarmth = [...][12]float64{
	{
		-0.20618513, 0.1693443461530087, -10.46914743455169, 71.96353469546523, -704.7478054272792, 3924.090430035045,
		-12101.64659068747, 22486.46550400788, -26055.62982188164, 18523.73922069467, -7420.201433430137, 1285.617841998974,
	},
	{
		-5.2682542e-3, -1.193013005057010e-2, 0.2517399633803461, -2.170575700536993, 13.53034988843029, -50.29988758547014,
		109.6355666577570, -142.2753946421155, 108.0435942856230, -44.14153236817392, 7.442971530188783,
	},
	{
		3.6130013e-5, -6.802995733503803e-4, 1.876837790289664e-2, -0.2002561813734156, 1.022992966719220,
		-2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461, -0.5411227621436812,
	},
	{-3.8957702e-7, 4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6},
	{7.1693540e-9, -2.788074354782409e-8, 1.345612883493354e-8},
	{-9.9739231e-11},
}

// series returns c[0] + c[1] x + c[2] x² + ...
func series(c []float64, x float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = sum*x + c[i]
	}
	return sum
}

// EthanolDensity returns the density of a mixture of water and ethanol of
// mass fraction byMass, by the general formula of OIML R 22: −20 to 40 °C, all
// strengths; beyond that t and byMass are held at the edge.
func EthanolDensity(t q.Temperature, byMass q.Fraction) q.Density {
	p := held(float64(byMass), 0, 1)
	d := held(t.Celsius(), -20, 40) - 20
	warmth := 0.0
	for i := len(ethanolWarmth) - 1; i >= 0; i-- {
		warmth = (warmth + series(ethanolWarmth[i][:], p)) * d
	}
	return q.Density(series(ethanolDensity[:], p) + warmth)
}

// EthanolByMass returns the mass fraction of ethanol in a mixture with water
// that holds byVolume of it at 20 °C, as a label states it: q = p ρ(p)/ρ(1)
// after OIML R 22, 789.24 kg/m³ being pure ethanol. 10 % by volume are 8.01 %
// by mass.
func EthanolByMass(byVolume q.Fraction) q.Fraction {
	want := held(float64(byVolume), 0, 1) * 789.24
	p := want / 1000
	// p ρ(p) rises evenly, so that each step wins about two digits in weak
	// mixtures, and half of the step's error still at full strength.
	for range 60 {
		next := held(want/float64(EthanolDensity(q.Celsius(20), q.Fraction(p))), 0, 1)
		if math.Abs(next-p) < 1e-14 {
			return q.Fraction(next)
		}
		p = next
	}
	return q.Fraction(p)
}

// melinder holds the viscosity of ethanol and water after Å. Melinder,
// "Properties of Secondary Working Fluids for Indirect Systems" (IIR, 2010):
// ln μ/mPa s, a row for each power of the strength in % less 29.2361, in it a
// coefficient for each power of the temperature in °C less 8.1578.
var melinder = [...][4]float64{
	{1.474, -0.04745, 4.314e-4, -3.023e-6},
	{1.565e-2, -4.106e-5, -5.135e-6, 7.004e-8},
	{-8.435e-4, 1.64e-5, -1.091e-7, -1.967e-9},
	{7.552e-6, -1.118e-7, 1.899e-9},
	{1.529e-7, -9.481e-10},
	{-4.13e-9},
}

// ethanolThickening returns how many times as viscous as water a mixture with
// ethanol is. The ratio of Melinder's values, not the values, so that no
// alcohol is IAPWS water to the last digit.
func ethanolThickening(t q.Temperature, byMass float64) float64 {
	const strength, warmth = 29.2361, 8.1578
	d := t.Celsius() - warmth
	mixed, water := 0.0, 0.0
	for i := len(melinder) - 1; i >= 0; i-- {
		c := series(melinder[i][:], d)
		mixed = mixed*(100*byMass-strength) + c
		water = water*-strength + c
	}
	return math.Exp(mixed - water)
}

// ethanolVapourPressure returns the pressure of water and ethanol over their
// mixture by Raoult's law with the activity coefficients of van Laar; constants
// 1.6798 and 0.9227 at 101.325 kPa as in Perry's Chemical Engineers' Handbook,
// and ethanol alone by Antoine's 8.20417, 1642.89, 230.300 (mmHg, °C), both
// from memory. At 30 °C it is 3 to 5 % over what was measured, on the safe
// side for a pump.
func ethanolVapourPressure(t q.Temperature, byMass float64) q.Pressure {
	const (
		ethanol, water = 46.068, 18.0153 // g/mol
		a, b           = 1.6798, 0.9227
		torr           = 101325.0 / 760
	)
	x := byMass / ethanol / (byMass/ethanol + (1-byMass)/water)
	pure := torr * math.Exp((8.20417-1642.89/(t.Celsius()+230.3))*math.Ln10)
	// van Laar, cleared of quotients that would be 0/0 at either end.
	both := a*x + b*(1-x)
	ofEthanol := math.Exp(a * sq(b*(1-x)/both))
	ofWater := math.Exp(b * sq(a*x/both))
	return q.Pressure((1-x)*ofWater)*SaturationPressure(t) + q.Pressure(x*ofEthanol*pure)
}

func sq(x float64) float64 { return x * x }

// Ranges of Fermented.
var (
	fermentWarmth  = span{0, 40, "density and viscosity", "0 to 40 °C (OIML R 22, Melinder)"}
	fermentAlcohol = span{0, 20, "density, viscosity and vapour pressure", "0 to 20 % vol (where the parts were checked together)"}
	fermentExtract = span{0, 15, "density and viscosity", "0 to 15 % (where the parts were checked together)"}
	spiritsAlcohol = span{0, 65, "density, viscosity and vapour pressure", "0 to 65 % vol (Melinder's viscosity ends at 60 % by mass)"}
)

var fermentSources = Sources{
	Density:        "OIML R 22 for water and ethanol, ICUMSA SPS-4 (1998) for the extract, joined by Tabarié's rule; 0 to 40 °C; within about 1 kg/m³",
	Viscosity:      "IAPWS R12-08 times the thickening by ethanol (Melinder 2010) and by sugar (Génotelle 1978); 0 to 40 °C; within about 10 %, common practice, no source",
	VapourPressure: "Raoult's law, van Laar and Antoine constants from memory, without dissolved carbon dioxide, which comes out of solution long before",
}

// Fermented returns the properties of cider, perry, beer or wine with so much
// alcohol by volume at 20 °C, as on its label, and so much extract left by
// mass: real extract, as an analysis gives it, not the lower apparent extract
// that a hydrometer shows in the presence of alcohol.
//
// Density follows Tabarié's rule, the one behind the total dry extract of the
// OIV's Compendium of methods (OIV-MA-AS2-03B): what the extract adds to water
// it adds to the water and ethanol. Viscosity multiplies the two thickenings.
// The vapour pressure leaves out dissolved carbon dioxide: a fizzing drink
// gives gas to a suction line at any pressure under the one it was kept at.
func Fermented(t q.Temperature, alcohol q.Fraction, extract q.Strength) Properties {
	var outside []Outside
	temperature := fermentWarmth.temperature(t, &outside)
	byVolume := fermentAlcohol.part("alcohol", float64(alcohol), "% vol", &outside)
	sugar := fermentExtract.part("extract", float64(extract), "%", &outside)

	added := SugarDensity(temperature, q.Strength(sugar)) - q.Density(kellDensity(temperature.Celsius()))
	p := spirit(t, temperature, byVolume, sugarViscosity(temperature, sugar), &outside)
	p.Name = name("fermented drink of "+percent(float64(alcohol), "% vol")+" and "+percent(float64(extract), "% extract"), t)
	p.Density += added
	p.Sources = fermentSources
	p.warm(temperature, t)
	p.Outside = outside
	return p
}

var spiritsSources = Sources{
	Density:        "OIML R 22 for water and ethanol, 0 to 40 °C, 0 to 65 % vol; sugar and oak left out",
	Viscosity:      "IAPWS R12-08 times the thickening by ethanol (Melinder 2010), 0 to 40 °C, 0 to 65 % vol; within 5 %",
	VapourPressure: "Raoult's law, van Laar and Antoine constants from memory, 0 to 100 °C; up to 5 % high at 30 °C",
}

// Spirits returns the properties of water and ethanol with so much alcohol by
// volume at 20 °C, up to 65 % and 40 °C.
func Spirits(t q.Temperature, alcohol q.Fraction) Properties {
	var outside []Outside
	temperature := fermentWarmth.temperature(t, &outside)
	byVolume := spiritsAlcohol.part("alcohol", float64(alcohol), "% vol", &outside)
	water := WaterViscosity(temperature, q.Density(kellDensity(temperature.Celsius())))
	p := spirit(t, temperature, byVolume, water, &outside)
	p.Name = name("spirits of "+percent(float64(alcohol), "% vol"), t)
	p.Sources = spiritsSources
	p.warm(temperature, t)
	p.Outside = outside
	return p
}

// spirit returns water and ethanol at the temperature that their ranges allow,
// thickened from the viscosity of what is in it beside ethanol, and the vapour
// pressure at t.
func spirit(t, temperature q.Temperature, byVolume float64, rest q.Viscosity, outside *[]Outside) Properties {
	byMass := EthanolByMass(q.Fraction(byVolume))
	return Properties{
		Density:        EthanolDensity(temperature, byMass),
		Viscosity:      rest * q.Viscosity(ethanolThickening(temperature, float64(byMass))),
		VapourPressure: ethanolVapourPressure(hottest(t, 100, outside), float64(byMass)),
	}
}
