package view

// The fields of the liquid: which count depends on its kind, and so do the
// words that explain them.
var (
	strengthOf = map[string]field{
		"sugar":      {"liquid.strength", "Strength", "12 °P or °Bx by mass; SG 1.048 (in air, 20/20 °C); SG 1.048 true; 1046 kg/m³ at 20 °C"},
		"fermented":  {"liquid.strength", "Extract left", "real extract by mass, not what a hydrometer shows in the drink"},
		"caustic":    {"liquid.strength", "Strength", "sodium hydroxide by mass, as used: to 5 %"},
		"nitric":     {"liquid.strength", "Strength", "acid by mass, as used: to 5 %"},
		"phosphoric": {"liquid.strength", "Strength", "acid by mass, as used: to 5 %"},
		"peracetic":  {"liquid.strength", "Strength", "peracetic acid by mass, as used: to 0.5 %"},
	}
	alcoholField = field{"liquid.alcohol", "Alcohol", "by volume, as on a label"}
	fatField     = field{"liquid.fat", "Fat", "by mass"}
	densityField = field{"liquid.density", "Density", "at its temperature"}
	newtonField  = field{"liquid.viscosity", "Viscosity", "at its temperature; yeast slurry too, up to about 200 kg/m³"}
	// Apple sauce of 11 % solids at 30 °C: K 11.6, n 0.34 (Steffe 1996, appendix, from memory).
	powerFields = []field{
		{"liquid.consistency", "Consistency K", "as measured; 11.6 Pa·s^n is an apple purée at 30 °C"},
		{"liquid.index", "Index n", "1 is Newtonian; 0.34 is that purée"},
	}
	yieldFields = []field{
		{"liquid.yield", "Yield stress", "what it bears before it moves; 5 Pa is only a start"},
		{"liquid.viscosity", "Plastic viscosity", "how stress grows with shear rate; 50 mPa·s is only a start"},
	}
	typedFields = []field{
		{"liquid.vapourPressure", "Vapour pressure", "absolute; water's if left empty, too little for anything with alcohol"},
		{"liquid.medium", "To seals it is like", ""},
	}
	placeFields = []field{
		{"liquid.temperature", "Temperature", ""},
		{"seal", "Seals", "unless a joint names its own"},
		{"finish", "Finish inside", "Ra of the bores"},
		{"site.altitude", "Altitude", "over the sea"},
		{"site.ceiling", "Ceiling", "not checked if left empty"},
	}
)

// liquidFields returns the fields that count for a kind of liquid.
func liquidFields(kind string) []field {
	out := []field{{"liquid.kind", "Liquid", ""}}
	switch kind {
	case "fermented", "spirits":
		out = append(out, alcoholField)
	case "milk", "skim", "cream":
		out = append(out, fatField)
	case "other":
		out = append(append(out, densityField, newtonField), typedFields...)
	case "power-law":
		out = append(append(append(out, densityField), powerFields...), typedFields...)
	case "bingham":
		out = append(append(append(out, densityField), yieldFields...), typedFields...)
	}
	if strength, ok := strengthOf[kind]; ok {
		out = append(out, strength)
	}
	return append(out, placeFields...)
}
