package liquid

import q "drawoff/pipeline/quantity"

// causticRow is a strength of caustic soda in water at 20 °C.
type causticRow struct {
	percent   float64 // NaOH by mass
	density   float64 // g/cm³
	viscosity float64 // mPa s
}

// causticTable is from the CRC Handbook of Chemistry and Physics, 102nd edition
// (2021), "Concentrative properties of aqueous solutions", at 20 °C.
var causticTable = [...]causticRow{
	{0, 0.9982, 1.002},
	{0.5, 1.0039, 1.027},
	{1, 1.0095, 1.054},
	{2, 1.0207, 1.112},
	{3, 1.0318, 1.176},
	{4, 1.0428, 1.248},
	{5, 1.0538, 1.329},
}

// causticOver returns how many times as dense and as viscous as water at 20 °C
// a solution of so many per cent is, by straight lines between the rows.
func causticOver(percent float64) (density, viscosity float64) {
	water := causticTable[0]
	i := 1
	for i < len(causticTable)-1 && percent > causticTable[i].percent {
		i++
	}
	a, b := causticTable[i-1], causticTable[i]
	part := (percent - a.percent) / (b.percent - a.percent)
	return (a.density + part*(b.density-a.density)) / water.density,
		(a.viscosity + part*(b.viscosity-a.viscosity)) / water.viscosity
}

// Ranges of Caustic.
var (
	causticWarmth   = span{0, 100, "0 to 100 °C"}
	causticStrength = span{0, 5, "0 to 5 % (CRC Handbook, 102nd edition)"}
)

var causticSources = Sources{
	Density:        "CRC Handbook, 102nd edition, at 20 °C, warmed as water is; within 0.2 % to 80 °C",
	Viscosity:      "CRC Handbook, 102nd edition, at 20 °C, warmed as water is; not checked when hot",
	VapourPressure: "water's, IAPWS R7-97(2012), which is a little more than caustic's",
}

// Caustic returns the properties of cleaning caustic, sodium hydroxide of mass
// fraction strength in water, up to 5 % and 100 °C. The ratio to water is the
// one at 20 °C.
func Caustic(t q.Temperature, strength q.Fraction) Properties {
	var outside []Outside
	temperature := causticWarmth.temperature(t, &outside)
	part := causticStrength.part("strength", float64(strength), "%", &outside)
	p := Water(temperature)
	denser, thicker := causticOver(100 * part)
	p.Name = name(percent(float64(strength), "%")+" caustic", t)
	p.Density *= q.Density(denser)
	p.Viscosity *= q.Viscosity(thicker)
	p.Sources = causticSources
	p.Outside = outside
	return p
}
