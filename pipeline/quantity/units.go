package quantity

// unit is one unit of one kind: a number n typed in it is
// (n + offset) × mul / div in SI units. Mul and div are kept apart so that
// "240 mm" is 240/1000 exactly as Mm gives it, with one rounding and not two.
// Every conversion is exact by definition unless the comment says otherwise.
type unit struct {
	symbol   string   // as it is printed, and as it may be typed
	words    []string // other spellings: lower case unless case matters; no spaces, dots or "per" (see unitKey)
	mul, div float64
	offset   float64
	step     float64 // what a workshop moves a number by, in this unit; common practice, no source
	then     string  // symbol of the smaller unit that may follow it, as in 6 ft 2 in
	system   System  // that it goes with, Metric or Inches
	own      bool    // AsTyped shows it: other units are shown in that of their system
}

// refusal is a spelling that people use and that does not say enough.
type refusal struct {
	word string // as unit.words; one with capitals is refused only as written so
	what string
	hint string
}

// kindTable is all that is known of a kind's units.
type kindTable struct {
	name    string // as in "a unit of flow"
	units   []unit
	refused []refusal
	sample  string    // examples for a hint: "240 mm or 9 1/2 in"
	usual   [2]string // symbols offered to somebody who typed none
}

var lengthUnits = []unit{
	{symbol: "mm", words: []string{"millimetre", "millimetres", "millimeter", "millimeters", "mms"}, mul: 1, div: 1000, step: 5},
	{symbol: "cm", words: []string{"centimetre", "centimetres", "centimeter", "centimeters", "cms"}, mul: 1, div: 100, step: 0.5, own: true},
	{symbol: "m", words: []string{"metre", "metres", "meter", "meters"}, mul: 1, div: 1, step: 0.01},
	{symbol: "in", words: []string{`"`, "inch", "inches", "ins"}, mul: 254, div: 10000, step: 0.25, system: Inches}, // yard and pound agreement 1959; NIST SP 811 B.8
	{symbol: "ft", words: []string{"'", "foot", "feet"}, mul: 3048, div: 10000, step: 0.01, then: "in", system: Inches},
	{symbol: "µm", words: []string{"um", "micron", "microns", "micrometre", "micrometres"}, mul: 1, div: 1e6, step: 0.1},
	{symbol: "µin", words: []string{"uin", "microinch", "microinches"}, mul: 254, div: 1e10, step: 1, system: Inches}, // a finish
}

var lengthRefused = []refusal{
	{"M", "has a capital M, which is not the metre", "write m for metres, mm for millimetres"},
	{"mil", "has a mil, which is a thousandth of an inch to some and a millimetre to others", "write mm or in"},
	{"mils", "has mils, which are thousandths of an inch to some and millimetres to others", "write mm or in"},
}

// kinds is indexed by Kind.
var kinds = [...]kindTable{
	KindLength: {
		name: "length", units: lengthUnits, refused: lengthRefused,
		sample: "240 mm or 9 1/2 in", usual: [2]string{"mm", "in"},
	},
	KindHead: {
		name: "head", units: lengthUnits[:5], refused: lengthRefused,
		sample: "3.5 m or 11.5 ft", usual: [2]string{"m", "ft"},
	},
	KindVolume: {
		name: "volume",
		units: []unit{
			{symbol: "L", words: []string{"l", "ltr", "ltrs", "litre", "litres", "liter", "liters"}, mul: 1, div: 1000, step: 5},
			{symbol: "mL", words: []string{"ml", "millilitre", "millilitres", "milliliter", "milliliters"}, mul: 1, div: 1e6, step: 50},
			{symbol: "hL", words: []string{"hl", "hectolitre", "hectolitres", "hectoliter", "hectoliters"}, mul: 1, div: 10, step: 0.1, own: true},
			{symbol: "m³", words: []string{"m3", "cbm", "cubicmetre", "cubicmetres", "cubicmeter", "cubicmeters"}, mul: 1, div: 1, step: 0.01, own: true},
			{symbol: "US gal", words: []string{"usgal", "usgals", "usgallon", "usgallons"}, mul: 3.785411784, div: 1000, step: 1, system: Inches},    // 231 in³; NIST SP 811 B.8
			{symbol: "US fl oz", words: []string{"usfloz", "usfluidounce", "usfluidounces"}, mul: 3.785411784, div: 128000, step: 1, system: Inches}, // a 128th of the gallon
			{symbol: "imp gal", words: []string{"impgal", "impgals", "imperialgallon", "imperialgallons", "ukgal", "ukgallon", "ukgallons"}, mul: 4.54609, div: 1000, step: 1, system: Inches, own: true},
		},
		refused: []refusal{
			{"ML", "has ML, which is a million litres", "write mL for millilitres, L for litres"},
			{"Ml", "has Ml, which is a million litres", "write mL for millilitres, L for litres"},
			{"gal", "has a gallon, which differs by a fifth between countries", "write US gal (3.785 L) or imp gal (4.546 L)"},
			{"gals", "has gallons, which differ by a fifth between countries", "write US gal (3.785 L) or imp gal (4.546 L)"},
			{"gallon", "has a gallon, which differs by a fifth between countries", "write US gal (3.785 L) or imp gal (4.546 L)"},
			{"gallons", "has gallons, which differ by a fifth between countries", "write US gal (3.785 L) or imp gal (4.546 L)"},
			{"bbl", "has a barrel, which has a dozen sizes", "write it in L, US gal or imp gal"},
		},
		sample: "900 L or 240 US gal", usual: [2]string{"L", "hL"},
	},
	KindFlow: {
		name: "flow",
		units: []unit{
			{symbol: "L/min", words: []string{"lpm"}, mul: 1, div: 60e3, step: 1},
			{symbol: "L/h", words: []string{"lph"}, mul: 1, div: 3600e3, step: 50, own: true},
			{symbol: "L/s", words: []string{"lps"}, mul: 1, div: 1000, step: 0.05, own: true},
			{symbol: "m³/h", words: []string{"m3/h"}, mul: 1, div: 3600, step: 0.1, own: true},
			{symbol: "hL/h", mul: 1, div: 36000, step: 1, own: true},
			{symbol: "US gal/min", words: []string{"usgal/min", "usgpm"}, mul: 3.785411784, div: 60e3, step: 0.5, system: Inches},
			{symbol: "ft³/h", words: []string{"ft3/h", "cfh", "scfh"}, mul: 0.028316846592, div: 3600, step: 1, system: Inches}, // of gas
			{symbol: "imp gal/min", words: []string{"impgal/min", "impgpm", "ukgpm", "igpm"}, mul: 4.54609, div: 60e3, step: 0.5, system: Inches, own: true},
		},
		refused: []refusal{
			{"gpm", "has gallons, which differ by a fifth between countries", "write US gal/min (3.785 L/min) or imp gal/min (4.546 L/min)"},
			{"gal/min", "has gallons, which differ by a fifth between countries", "write US gal/min (3.785 L/min) or imp gal/min (4.546 L/min)"},
		},
		sample: "40 L/min or 2.4 m³/h", usual: [2]string{"L/min", "m³/h"},
	},
	KindVelocity: {
		name: "speed",
		units: []unit{
			{symbol: "m/s", mul: 1, div: 1, step: 0.1},
			{symbol: "ft/s", words: []string{"fps"}, mul: 3048, div: 10000, step: 0.5, system: Inches},
		},
		sample: "1.5 m/s or 5 ft/s", usual: [2]string{"m/s", "ft/s"},
	},
	KindPressure: {
		name: "pressure",
		units: []unit{
			{symbol: "kPa", words: []string{"kilopascal", "kilopascals"}, mul: 1000, div: 1, step: 10},
			{symbol: "Pa", words: []string{"pascal", "pascals"}, mul: 1, div: 1, step: 1},
			{symbol: "MPa", mul: 1e6, div: 1, step: 0.01},
			{symbol: "bar", words: []string{"bars", "bara", "bar(a)", "barabs"}, mul: 1e5, div: 1, step: 0.1, own: true},
			{symbol: "mbar", words: []string{"millibar", "millibars", "hpa"}, mul: 100, div: 1, step: 10},
			// lbf over in²: 0.453 592 37 kg × 9.806 65 m/s² / (0.0254 m)², all exact; NIST SP 811 B.8.
			{symbol: "psi", words: []string{"psia", "lb/in2", "lbf/in2"}, mul: 4.4482216152605, div: 0.00064516, step: 1, system: Inches},
		},
		refused: []refusal{
			{"barg", gaugeWhat, gaugeHint}, {"bar(g)", gaugeWhat, gaugeHint}, {"bargauge", gaugeWhat, gaugeHint},
			{"psig", gaugeWhat, gaugeHint}, {"psi(g)", gaugeWhat, gaugeHint},
			{"kpag", gaugeWhat, gaugeHint}, {"kpa(g)", gaugeWhat, gaugeHint},
			{"mpa", "may be a thousandth of a pascal or a million", "write MPa for a million pascals, or use kPa or bar"},
		},
		sample: "101.3 kPa or 1.013 bar", usual: [2]string{"kPa", "bar"},
	},
	KindTemperature: {
		name: "temperature",
		units: []unit{
			{symbol: "°C", words: []string{"c", "degc", "degreec", "degreesc", "celsius", "degcelsius", "degreescelsius"}, mul: 1, div: 1, step: 1, offset: zeroCelsius},
			{symbol: "°F", words: []string{"f", "degf", "degreef", "degreesf", "fahrenheit", "degfahrenheit", "degreesfahrenheit"}, mul: 5, div: 9, step: 1, offset: 459.67, system: Inches},
			{symbol: "K", words: []string{"k", "kelvin", "kelvins"}, mul: 1, div: 1, step: 1},
		},
		refused: []refusal{
			{"°", "does not say which degrees", "write °C or °F"},
			{"deg", "does not say which degrees", "write °C or °F"},
			{"degrees", "does not say which degrees", "write °C or °F"},
		},
		sample: "12 °C or 54 °F", usual: [2]string{"°C", "°F"},
	},
	KindAngle: {
		name: "angle",
		units: []unit{
			// π is the one factor here that is not exact; its rounding is one part in 10^16.
			{symbol: "°", words: []string{"deg", "degs", "degree", "degrees"}, mul: float64(Degree), div: 1, step: 1, then: "'"},
			{symbol: "'", words: []string{"arcmin"}, mul: float64(Degree), div: 60, step: 1, then: `"`},
			{symbol: `"`, words: []string{"arcsec"}, mul: float64(Degree), div: 3600, step: 1},
			{symbol: "rad", words: []string{"radian", "radians"}, mul: 1, div: 1, step: 0.01},
		},
		sample: "45° or 22.5 deg", usual: [2]string{"deg", "°"},
	},
	KindSlope: {
		name: "fall",
		units: []unit{
			{symbol: "%", words: []string{"percent"}, mul: 1, div: 100, step: 0.1, own: true},
			{symbol: "mm/m", mul: 1, div: 1000, step: 1, own: true},
			{symbol: "cm/m", mul: 1, div: 100, step: 0.1, own: true},
			{symbol: "in/ft", mul: 1, div: 12, step: 0.05, own: true},
		},
		refused: []refusal{
			{"°", "is an angle", "write the fall over the run, like 1:100 or 10 mm/m"},
			{"deg", "is an angle", "write the fall over the run, like 1:100 or 10 mm/m"},
		},
		sample: "1:100, 1 % or 10 mm/m", usual: [2]string{"%", "mm/m"},
	},
	KindDensity: {
		name: "density",
		units: []unit{
			{symbol: "kg/m³", words: []string{"kg/m3"}, mul: 1, div: 1, step: 1},
			{symbol: "g/cm³", words: []string{"g/cm3", "g/cc"}, mul: 1000, div: 1, step: 0.001, own: true},
			{symbol: "g/mL", mul: 1000, div: 1, step: 0.001, own: true},
			{symbol: "kg/L", mul: 1000, div: 1, step: 0.001, own: true},
			{symbol: "lb/US gal", words: []string{"ppg"}, mul: 0.45359237, div: 3.785411784e-3, step: 0.01, system: Inches},                             // NIST SP 811 B.8
			{symbol: "lb/ft³", words: []string{"lb/ft3", "lbs/ft3", "pcf"}, mul: 0.45359237, div: 0.028316846592, step: 0.1, system: Inches, own: true}, // a foot of 0.3048 m
		},
		refused: []refusal{
			{"lb/gal", "has a gallon, which differs by a fifth between countries", "write lb/US gal, lb/ft³ or kg/m³"},
			{"lbs/gal", "has a gallon, which differs by a fifth between countries", "write lb/US gal, lb/ft³ or kg/m³"},
		},
		sample: "1048 kg/m³ or 1.048 g/mL", usual: [2]string{"kg/m³", "g/mL"},
	},
	KindViscosity: {
		name: "viscosity",
		units: []unit{
			{symbol: "mPa·s", words: []string{"mPas", "mpas"}, mul: 1, div: 1000, step: 1},
			{symbol: "Pa·s", words: []string{"Pas", "pas"}, mul: 1, div: 1, step: 0.1},
			{symbol: "cP", words: []string{"cp", "cps", "centipoise"}, mul: 1, div: 1000, step: 1, own: true},
		},
		refused: []refusal{
			{"MPas", "has a capital M, which makes it a million pascal seconds", "write mPa·s with a small m"},
			{"cst", "is kinematic", "multiply it by the density in g/mL and write mPa·s"},
			{"mm2/s", "is kinematic", "multiply it by the density in g/mL and write mPa·s"},
		},
		sample: "1.5 mPa·s or 1.5 cP", usual: [2]string{"mPa·s", "cP"},
	},
	KindMass: {
		name: "mass",
		units: []unit{
			{symbol: "kg", words: []string{"kgs", "kilogram", "kilograms", "kilo", "kilos"}, mul: 1, div: 1, step: 5},
			{symbol: "g", words: []string{"gram", "grams"}, mul: 1, div: 1000, step: 50},
			{symbol: "t", words: []string{"tonne", "tonnes"}, mul: 1000, div: 1, step: 0.01},
			{symbol: "lb", words: []string{"lbs", "pound", "pounds"}, mul: 0.45359237, div: 1, step: 10, system: Inches}, // NIST SP 811 B.8
		},
		refused: []refusal{
			{"ton", "has a ton, which may be 1000, 1016 or 907 kg", "write t for 1000 kg, or kg"},
			{"tons", "has tons, which may be 1000, 1016 or 907 kg", "write t for 1000 kg, or kg"},
		},
		sample: "80 kg or 176 lb", usual: [2]string{"kg", "lb"},
	},
	KindDuration: {
		name: "time",
		units: []unit{
			{symbol: "s", words: []string{"sec", "secs", "second", "seconds"}, mul: 1, div: 1, step: 5},
			{symbol: "min", words: []string{"mins", "minute", "minutes"}, mul: 60, div: 1, step: 1, then: "s"},
			{symbol: "h", words: []string{"hr", "hrs", "hour", "hours"}, mul: 3600, div: 1, step: 0.5, then: "min"},
		},
		refused: []refusal{{"m", "has m, which is the metre", "write min for minutes"}},
		sample:  "12 min or 1 h 30 min", usual: [2]string{"min", "s"},
	},
	KindPower: {
		name: "power",
		units: []unit{
			{symbol: "kW", words: []string{"kilowatt", "kilowatts"}, mul: 1000, div: 1, step: 0.1},
			{symbol: "W", words: []string{"watt", "watts"}, mul: 1, div: 1, step: 10},
			// The mechanical horsepower, 550 ft·lbf/s; NIST SP 811 B.8 prints 745.6999 W.
			{symbol: "hp", words: []string{"bhp", "horsepower"}, mul: 550 * 4.4482216152605 * 0.3048, div: 1, step: 0.5, system: Inches},
			{symbol: "PS", words: []string{"metrichp", "hpmetric"}, mul: 735.49875, div: 1, step: 0.5, own: true}, // 75 kgf·m/s
		},
		sample: "0.75 kW or 1 hp", usual: [2]string{"kW", "W"},
	},
	KindFraction: {
		name:   "a part of the whole",
		units:  []unit{{symbol: "%", words: []string{"percent"}, mul: 1, div: 100, step: 1}},
		sample: "15 % or 0.15", usual: [2]string{"%", "%"},
	},
	KindNumber: {name: "number", sample: "1.1"},
	KindStrength: {
		name: "sugar strength",
		units: []unit{
			{symbol: "°P", words: []string{"p", "plato", "°plato", "degp", "degplato", "degreesplato"}, mul: 1, div: 100, step: 0.5},
			{symbol: "°Bx", words: []string{"bx", "brix", "°brix", "degbx", "degbrix", "degreesbrix"}, mul: 1, div: 100, step: 0.5},
			{symbol: "%", words: []string{"percent", "%w/w", "%mas", "%mass"}, mul: 1, div: 100, step: 0.5},
		},
		refused: []refusal{{"°", "does not say which degrees", "write 12 °P, 12 °Bx or SG 1.048"}},
		sample:  "12 °P, 12 %, SG 1.048 or 1046 kg/m³", usual: [2]string{"°P", "°Bx"},
	},
	KindConsistency: {
		name: "consistency",
		units: []unit{
			{symbol: "Pa·sⁿ", words: []string{"Pasn", "pasn", "Pas", "pas"}, mul: 1, div: 1, step: 0.1},
			{symbol: "mPa·sⁿ", words: []string{"mPasn", "mpasn", "mPas", "mpas"}, mul: 1, div: 1000, step: 10},
		},
		refused: []refusal{{"MPasn", "has a capital M, which makes it a million", "write mPa·s^n with a small m"}},
		sample:  "11.6 Pa·s^n or 800 mPa·s^n", usual: [2]string{"Pa·sⁿ", "mPa·sⁿ"},
	},
	KindRotation: {
		name:    "speed of turning",
		units:   []unit{{symbol: "rpm", words: []string{"r/min", "rev/min", "revs/min", "turns/min", "/min"}, mul: 1, div: 60, step: 10}},
		refused: []refusal{{"hz", "is the frequency of the supply, which a motor's shaft falls short of", "write the rpm of its plate"}},
		sample:  "2900 rpm", usual: [2]string{"rpm", "rpm"},
	},
	KindForce: {
		name: "force",
		units: []unit{
			{symbol: "N", words: []string{"newton", "newtons"}, mul: 1, div: 1, step: 10},
			{symbol: "kN", mul: 1000, div: 1, step: 0.1},
			{symbol: "lbf", mul: 4.4482216152605, div: 1, step: 5, system: Inches}, // 0.453 592 37 kg × 9.806 65 m/s²; NIST SP 811 B.8
		},
		refused: []refusal{{"kg", "is a mass", "write N; 1 kg weighs 9.81 N"}},
		sample:  "250 N", usual: [2]string{"N", "kN"},
	},
	KindMoment: {
		name: "moment",
		units: []unit{
			{symbol: "N·m", words: []string{"Nm"}, mul: 1, div: 1, step: 10},
			{symbol: "lbf·ft", words: []string{"lbfft", "ftlbf"}, mul: 4.4482216152605 * 0.3048, div: 1, step: 5, system: Inches}, // NIST SP 811 B.8: 1.355 818
		},
		sample: "250 N·m", usual: [2]string{"N·m", "lbf·ft"},
	},
}

const (
	gaugeWhat = "is a gauge pressure, counted from the air around"
	gaugeHint = "write it absolute: add the air's pressure, 1.013 bar or 14.7 psi at sea level"
)
