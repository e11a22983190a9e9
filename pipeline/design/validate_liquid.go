package design

import q "drawoff/pipeline/quantity"

// liquid judges what is said of the liquid. A kind that is told by its own
// figures has no usual ones: guessed for somebody, they would look like his.
func (v *validator) liquid(l Liquid) {
	v.choice("liquid.kind", l.Kind, liquids)
	v.choice("liquid.medium", l.Medium, mediums)
	span(v, "liquid.strength", l.Strength, 0, 0.85, "0 to 85 %")
	span(v, "liquid.alcohol", l.Alcohol, 0, 1, "0 to 100 %")
	span(v, "liquid.fat", l.Fat, 0, 0.5, "0 to 50 %")
	span(v, "liquid.temperature", l.Temperature, q.Celsius(-5), q.Celsius(150), "-5 °C to 150 °C")
	span(v, "liquid.vapourPressure", l.VapourPressure, 0, 1e6, "0 to 1000 kPa, absolute")

	kind := l.Kind
	typed := kind == Other || kind == PowerLaw || kind == Bingham
	ask(v, typed, "liquid.density", l.Density, 500, 2500, "the density of the liquid", "500 to 2500 kg/m³")
	meaning := "the viscosity of the liquid"
	if kind == Bingham {
		meaning = "the plastic viscosity, the slope of stress over shear rate"
	}
	ask(v, typed && kind != PowerLaw, "liquid.viscosity", l.Viscosity, 1e-4, 1000, meaning, "0.1 mPa·s to 1000 Pa·s")
	ask(v, kind == PowerLaw, "liquid.consistency", l.Consistency, 1e-4, 1000, "the consistency K", "0.1 mPa·s^n to 1000 Pa·s^n")
	ask(v, kind == PowerLaw, "liquid.index", l.Index, 0.1, 1.5, "the index n, 1 for a Newtonian liquid and less for purée", "0.1 to 1.5")
	ask(v, kind == Bingham, "liquid.yield", l.Yield, 0, 2000, "the yield stress", "0 to 2000 Pa")
}

// ask is need for a field that only some kinds have no usual value of.
func ask[Q q.Quantity](v *validator, needed bool, path string, e q.Entered[Q], low, high Q, meaning, limits string) {
	if needed {
		need(v, path, e, low, high, meaning, limits)
		return
	}
	span(v, path, e, low, high, limits)
}
