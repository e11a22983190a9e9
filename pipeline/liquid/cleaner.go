package liquid

import q "drawoff/pipeline/quantity"

// What cleans is water with a little dissolved in it. Density and viscosity
// are the CRC Handbook of Chemistry and Physics', 102nd edition (2021),
// "Concentrative properties of aqueous solutions", at 20 °C; at other
// temperatures they keep the ratio to water that they have there.

// solutionRow is a strength of a solution in water at 20 °C.
type solutionRow struct {
	percent   float64 // by mass
	density   float64 // g/cm³
	viscosity float64 // mPa s
}

var causticTable = [...]solutionRow{
	{0, 0.9982, 1.002},
	{0.5, 1.0039, 1.027},
	{1, 1.0095, 1.054},
	{2, 1.0207, 1.112},
	{3, 1.0318, 1.176},
	{4, 1.0428, 1.248},
	{5, 1.0538, 1.329},
}

var nitricTable = [...]solutionRow{
	{0, 0.9982, 1.002},
	{0.5, 1.0009, 1.004},
	{1, 1.0037, 1.005},
	{2, 1.0091, 1.007},
	{3, 1.0146, 1.010},
	{4, 1.0202, 1.014},
	{5, 1.0257, 1.018},
}

var phosphoricTable = [...]solutionRow{
	{0, 0.9982, 1.002},
	{0.5, 1.0010, 1.010},
	{1, 1.0038, 1.020},
	{2, 1.0092, 1.050},
	{3, 1.0146, 1.079},
	{4, 1.0200, 1.108},
	{5, 1.0254, 1.138},
}

// solutionOver returns how many times as dense and as viscous as water at
// 20 °C a solution of so many per cent is, by straight lines between the rows.
func solutionOver(table []solutionRow, percent float64) (density, viscosity float64) {
	water := table[0]
	i := 1
	for i < len(table)-1 && percent > table[i].percent {
		i++
	}
	a, b := table[i-1], table[i]
	part := (percent - a.percent) / (b.percent - a.percent)
	return (a.density + part*(b.density-a.density)) / water.density,
		(a.viscosity + part*(b.viscosity-a.viscosity)) / water.viscosity
}

// Ranges of what cleans.
var (
	solutionWarmth   = span{0, 100, "density and viscosity", "0 to 100 °C"}
	solutionStrength = span{0, 5, "density and viscosity", "0 to 5 % (CRC Handbook, 102nd edition)"}
	peraceticRange   = span{0, 0.5, "density and viscosity", "0 to 0.5 %, as it is used"}
)

const (
	waterVapour      = "water's, IAPWS R7-97(2012), which is a little more than the solution's"
	solutionWarmed   = "CRC Handbook, 102nd edition, at 20 °C, warmed as water is; "
	solutionNotWarm  = solutionWarmed + "not checked when hot"
	solutionToEighty = solutionWarmed + "within 0.2 % to 80 °C for caustic, not checked when hot for acids"
)

var (
	solutionSources  = Sources{Density: solutionToEighty, Viscosity: solutionNotWarm, VapourPressure: waterVapour}
	peraceticSources = Sources{
		Density:        "water's: no table that can be trusted was found. A solution of 0.5 % with the acetic acid and peroxide that come with it is up to about 1 % denser (acetic acid 1 %: 0.14 %, CRC Handbook, 102nd edition; the rest from memory)",
		Viscosity:      "water's: no table that can be trusted was found. A solution of 0.5 % is up to about 5 % more viscous (acetic acid 1 %: 2 %, CRC Handbook, 102nd edition; the rest from memory)",
		VapourPressure: "water's, IAPWS R7-97(2012)",
	}
)

// Caustic returns the properties of cleaning caustic, sodium hydroxide of mass
// fraction strength in water, up to 5 % and 100 °C.
func Caustic(t q.Temperature, strength q.Fraction) Properties {
	return solution("caustic", causticTable[:], t, strength)
}

// Nitric returns the properties of dilute nitric acid of mass fraction
// strength, up to 5 % and 100 °C.
func Nitric(t q.Temperature, strength q.Fraction) Properties {
	return solution("nitric acid", nitricTable[:], t, strength)
}

// Phosphoric returns the properties of dilute phosphoric acid of mass fraction
// strength, up to 5 % and 100 °C.
func Phosphoric(t q.Temperature, strength q.Fraction) Properties {
	return solution("phosphoric acid", phosphoricTable[:], t, strength)
}

func solution(what string, table []solutionRow, t q.Temperature, strength q.Fraction) Properties {
	var outside []Outside
	temperature := solutionWarmth.temperature(t, &outside)
	part := solutionStrength.part("strength", float64(strength), "%", &outside)
	p := Water(temperature)
	denser, thicker := solutionOver(table, 100*part)
	p.Name = name(percent(float64(strength), "%")+" "+what, t)
	p.Density *= q.Density(denser)
	p.Viscosity *= q.Viscosity(thicker)
	p.VapourPressure = SaturationPressure(hottest(t, 150, &outside))
	p.warm(temperature, t)
	p.Sources = solutionSources
	p.Outside = outside
	return p
}

// Peracetic returns the properties of peracetic acid as it disinfects, up to
// 0.5 % and 100 °C: those of water, within the doubt that its sources state.
func Peracetic(t q.Temperature, strength q.Fraction) Properties {
	var outside []Outside
	temperature := solutionWarmth.temperature(t, &outside)
	peraceticRange.part("strength", float64(strength), "%", &outside)
	p := Water(temperature)
	p.Name = name(percent(float64(strength), "%")+" peracetic acid", t)
	p.VapourPressure = SaturationPressure(hottest(t, 150, &outside))
	p.warm(temperature, t)
	p.Sources = peraceticSources
	p.Outside = outside
	return p
}
