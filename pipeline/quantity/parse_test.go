package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reading is something typed and the SI value that it means.
type reading struct {
	kind Kind
	text string
	want float64
}

// The factors are those of NIST SP 811 (2008), appendix B, which prints exact
// ones in bold and others to seven figures; the imperial gallon is BS 350's.
// Exact ones are held to the last bits of a float64, others to half a unit of
// the last printed figure.
func TestUnitsAgainstPublishedFactors(t *testing.T) {
	t.Parallel()
	const exact = 1e-15 // relative: a rounding or two
	for _, c := range []struct {
		reading
		within float64
	}{
		{reading{KindLength, "1 in", 0.0254}, exact},
		{reading{KindLength, "1 ft", 0.3048}, exact},
		{reading{KindLength, "1 µm", 1e-6}, exact},
		{reading{KindVolume, "1 US gal", 3.785411784e-3}, exact},     // 231 in³, NIST Handbook 44 appendix C
		{reading{KindVolume, "128 US fl oz", 3.785411784e-3}, exact}, // a gallon: NIST Handbook 44 appendix C
		{reading{KindLength, "32 µin", 0.8128e-6}, exact},            // an inch is 25.4 mm
		{reading{KindVolume, "1 imp gal", 4.54609e-3}, exact},
		{reading{KindVolume, "1 hL", 0.1}, exact},
		{reading{KindFlow, "1 US gal/min", 6.309020e-5}, 0.5e-11 / 6.3e-5},
		{reading{KindFlow, "1 imp gal/min", 7.576817e-5}, 0.5e-11 / 7.5e-5},
		{reading{KindFlow, "1 L/min", 1.666667e-5}, 0.5e-11 / 1.6e-5},
		{reading{KindFlow, "1 m³/h", 2.777778e-4}, 0.5e-10 / 2.7e-4},
		{reading{KindVelocity, "1 ft/s", 0.3048}, exact},
		{reading{KindPressure, "1 psi", 6894.757}, 0.5e-3 / 6894},
		{reading{KindPressure, "1 psi", 6894.757293168}, 0.5e-9 / 6894}, // BS 350-1, to more figures
		{reading{KindPressure, "1 bar", 1e5}, exact},
		{reading{KindPressure, "1 mbar", 100}, exact},
		{reading{KindTemperature, "32 °F", 273.15}, exact},
		{reading{KindTemperature, "212 °F", 373.15}, exact},
		{reading{KindTemperature, "-40 °F", 233.15}, exact},
		{reading{KindTemperature, "-40 °C", 233.15}, exact},
		{reading{KindAngle, "1°", 1.745329e-2}, 0.5e-8 / 1.7e-2},
		{reading{KindAngle, "1'", 2.908882e-4}, 0.5e-10 / 2.9e-4},
		{reading{KindAngle, `1"`, 4.848137e-6}, 0.5e-12 / 4.8e-6},
		{reading{KindDensity, "1 g/cm³", 1000}, exact},
		{reading{KindViscosity, "1 cP", 1e-3}, exact},
		{reading{KindMass, "1 lb", 0.45359237}, exact},
		{reading{KindPower, "1 hp", 745.6999}, 0.5e-4 / 745},
		{reading{KindPower, "1 PS", 735.4988}, 0.5e-4 / 735},
	} {
		a, err := ParseAmount(c.kind, c.text)
		require.NoError(t, err, c.text)
		assert.Equal(t, c.kind, a.Kind)
		assert.InEpsilon(t, c.want, a.SI, c.within, c.text)
	}
}

// Arithmetic that anybody can do in the head, so no source is needed.
func TestParseReadsWhatPeopleType(t *testing.T) {
	t.Parallel()
	for _, c := range []reading{
		{KindLength, "240 mm", 0.24},
		{KindLength, "240mm", 0.24},
		{KindLength, "  240   mm ", 0.24},
		{KindLength, "0,9 m", 0.9},
		{KindLength, "0,900 m", 0.9},
		{KindLength, "1,5 m", 1.5},
		{KindLength, ".5 m", 0.5},
		{KindLength, "5. m", 5},
		{KindLength, "+5 m", 5},
		{KindLength, "1 500 mm", 1.5},
		{KindLength, "1\u202f500 mm", 1.5}, // narrow no-break space, as ISO 80000-1 groups digits
		{KindLength, "1 234 567 mm", 1234.567},
		{KindLength, "1500.25 mm", 1.50025},
		{KindLength, "1234,567 mm", 1.234567}, // no one groups four digits
		{KindLength, "\u2212\u00a05\u00a0mm", -0.005},
		{KindLength, "- 5 mm", -0.005},
		{KindLength, "5 Metres", 5},
		{KindLength, "5 MM", 0.005},
		{KindLength, "0", 0},
		{KindLength, "-0", 0},
		{KindLength, "0.0 ", 0},
		{KindLength, "2 1/2 in", 0.0635},
		{KindLength, `2 1/2"`, 0.0635},
		{KindLength, "2-1/2 in", 0.0635},
		{KindLength, "2.5in", 0.0635},
		{KindLength, "2.5 in.", 0.0635},
		{KindLength, "2½ in", 0.0635},
		{KindLength, "2 ½ in", 0.0635},
		{KindLength, "½ in", 0.0127},
		{KindLength, "1½″", 0.0381},
		{KindLength, "1½”", 0.0381},
		{KindLength, "1 1/2''", 0.0381},
		{KindLength, "1⁄2 in", 0.0127}, // fraction slash
		{KindLength, `3/4"`, 0.01905},
		{KindLength, "9/16 inches", 0.0142875},
		{KindLength, "-1/2 in", -0.0127},
		{KindLength, "6 ft 2 in", 1.8796},
		{KindLength, "6ft2in", 1.8796},
		{KindLength, `6' 2 1/2"`, 1.8923},
		{KindLength, `6'-2½"`, 1.8923},
		{KindLength, "6’2”", 1.8796},
		{KindLength, "-6 ft 2 in", -1.8796},
		{KindLength, "6 ft .5 in", 1.8415},
		{KindHead, "0.9 m", 0.9},
		{KindHead, "5 ft", 1.524},
		{KindVolume, "900 L", 0.9},
		{KindVolume, "900 litres", 0.9},
		{KindVolume, "9 hl", 0.9},
		{KindVolume, "0.9 m3", 0.9},
		{KindVolume, "0.9 m^3", 0.9},
		{KindVolume, "0.9 cbm", 0.9},
		{KindVolume, "250 ml", 0.00025},
		{KindVolume, "1 U.S. gallon", 3.785411784e-3},
		{KindFlow, "60 L/min", 0.001},
		{KindFlow, "60 l / min", 0.001},
		{KindFlow, "60 lpm", 0.001},
		{KindFlow, "60 LPM", 0.001},
		{KindFlow, "60 litres per minute", 0.001},
		{KindFlow, "60 litres/min.", 0.001},
		{KindFlow, "1 litre per second", 0.001},
		{KindFlow, "3.6 m3/h", 0.001},
		{KindFlow, "3.6 cbm/hr", 0.001},
		{KindFlow, "36 hl/h", 0.001},
		{KindFlow, "3600 L/h", 0.001},
		{KindFlow, "1 US gpm", 3.785411784e-3 / 60},
		{KindFlow, "1 US gallon per minute", 3.785411784e-3 / 60},
		{KindVelocity, "1.5 metres per second", 1.5},
		{KindPressure, "101.325 kPa", 101325},
		{KindPressure, "0.1 MPa", 1e5},
		{KindPressure, "1 bar(a)", 1e5},
		{KindPressure, "1013 hPa", 101300},
		{KindTemperature, "12 °C", 285.15},
		{KindTemperature, "12C", 285.15},
		{KindTemperature, "12 degC", 285.15},
		{KindTemperature, "12 deg C", 285.15},
		{KindTemperature, "12 º C", 285.15},
		{KindTemperature, "12℃", 285.15},
		{KindTemperature, "-5 °C", 268.15},
		{KindTemperature, "300 K", 300},
		{KindTemperature, "0 K", 0},
		{KindAngle, "90°", math.Pi / 2},
		{KindAngle, "90 deg", math.Pi / 2},
		{KindAngle, "1°30'", math.Pi / 120},
		{KindAngle, "1° 30′ 0″", math.Pi / 120},
		{KindAngle, "2 rad", 2},
		{KindSlope, "1:100", 0.01},
		{KindSlope, "1 : 100", 0.01},
		{KindSlope, "1 in 100", 0.01},
		{KindSlope, "1 to 100", 0.01},
		{KindSlope, "-1:50", -0.02},
		{KindSlope, "rising 1:50", -0.02},
		{KindSlope, "Rising 2 %", -0.02},
		{KindSlope, "falling 1:50", 0.02},
		{KindSlope, "1 %", 0.01},
		{KindSlope, "10 mm/m", 0.01},
		{KindSlope, "10 mm per metre", 0.01},
		{KindSlope, "1/4 in/ft", 0.25 / 12},
		{KindSlope, `1/4" per ft`, 0.25 / 12},
		{KindSlope, "level", 0},
		{KindSlope, "Level", 0},
		{KindSlope, "0", 0},
		{KindDensity, "1.048 g/mL", 1048},
		{KindDensity, "1048 kg/m3", 1048},
		{KindDensity, "1.048 kg/l", 1048},
		{KindViscosity, "1.5 mPa·s", 0.0015},
		{KindViscosity, "1.5 mPa.s", 0.0015},
		{KindViscosity, "1.5 mPas", 0.0015},
		{KindViscosity, "1.5 cp", 0.0015},
		{KindViscosity, "2 Pa s", 2},
		{KindMass, "2 t", 2000},
		{KindDuration, "45 s", 45},
		{KindDuration, "12 minutes", 720},
		{KindDuration, "2 h 05 min", 7500},
		{KindDuration, "2h05min", 7500},
		{KindDuration, "3 min 20 s", 200},
		{KindPower, "0.75 kW", 750},
		{KindPower, "550 w", 550},
		{KindFraction, "15 %", 0.15},
		{KindFraction, "0,15", 0.15},
		{KindFraction, "1", 1},
		{KindFraction, "150%", 1.5},
		{KindNumber, "1.1", 1.1},
		{KindNumber, "-3", -3},
		{KindNumber, "1/4", 0.25},
		{KindStrength, "12 °P", 0.12},
		{KindStrength, "12 P", 0.12},
		{KindStrength, "12 Plato", 0.12},
		{KindStrength, "12 °Bx", 0.12},
		{KindStrength, "12 brix", 0.12},
		{KindStrength, "12 %", 0.12},
		{KindStrength, "SG 1.000", 0},
		{KindRotation, "2900 rpm", 2900.0 / 60},
		{KindForce, "2.5 kN", 2500},
		{KindForce, "1 lbf", 4.4482216152605}, // NIST SP 811 B.8
		{KindMoment, "250 N·m", 250},
		{KindMoment, "1 lbf·ft", 1.3558179483314004}, // NIST SP 811 B.8, from its exact factors
		{KindRotation, "60 r/min", 1},
	} {
		a, err := ParseAmount(c.kind, c.text)
		if assert.NoError(t, err, c.text) {
			assert.InDelta(t, c.want, a.SI, 1e-14*math.Max(1, math.Abs(c.want)), c.text)
			assert.False(t, math.Signbit(a.SI) && a.SI == 0, "%q came out as -0", c.text)
		}
	}
}

// A quantity typed in millimetres is the same float64 as one written in code.
func TestMillimetresAreMm(t *testing.T) {
	t.Parallel()
	for text, mm := range map[string]float64{"47.5 mm": 47.5, "38.1 mm": 38.1, "240 mm": 240, "0.1 mm": 0.1} {
		assert.Equal(t, Mm(mm), MustParse[Length](text).Value(), text)
	}
}

func TestParseRefuses(t *testing.T) {
	t.Parallel()
	const gallons = "write US gal (3.785 L) or imp gal (4.546 L)"
	for _, c := range []struct {
		kind       Kind
		text       string
		what, hint string
	}{
		{KindLength, "900", "has no unit", "write 900 mm or 900 in"},
		{KindVolume, "900", "has no unit", "write 900 L or 900 hL"},
		{KindTemperature, "0", "has no unit", "write 0 °C or 0 °F"},
		{KindTemperature, "-5", "has no unit", "write -5 °C or -5 °F"},
		{KindTemperature, "12°", "does not say which degrees", "write °C or °F"},
		{KindTemperature, "-300 °C", "is below absolute zero", "write it like 12 °C or 54 °F"},
		{KindSlope, "0.01", "has no unit", "write a fall like 1:100, 1 % or 10 mm/m"},
		{KindSlope, "1/80", "has no unit", "write a fall like 1:100, 1 % or 10 mm/m"},
		{KindSlope, "1:0", "falls over a run of nothing", "write it like 1:100, 1 % or 10 mm/m"},
		{KindSlope, "1°", "is an angle", "write the fall over the run, like 1:100 or 10 mm/m"},
		{KindSlope, "1:x", "does not begin with a number", "write it like 1:100, 1 % or 10 mm/m"},
		{KindSlope, "1:100 m", "is not two numbers", "write it like 1:100, 1 % or 10 mm/m"},
		{KindStrength, "1.048", "has no unit", "write SG 1.048, or 1.048 °P"},
		{KindStrength, "SG 1.5", "is outside the specific gravities that can be turned into sugar", "write SG from 1.000 to 1.130, or a density at 20 °C from 998.2 to 1128 kg/m³"},
		{KindStrength, "SG 1.048 x", "is not a specific gravity", "write SG 1.048, or SG 1.048 true where it was not weighed in air"},
		{KindFraction, "15", "is more than the whole", "write 15 % if you mean percent"},
		{KindRotation, "50 Hz", "is the frequency of the supply, which a motor's shaft falls short of", "write the rpm of its plate"},
		{KindRotation, "2900", "has no unit", "write 2900 rpm"},
		{KindForce, "25 kg", "is a mass", "write N; 1 kg weighs 9.81 N"},
		{KindLength, "1,500 mm", "may be read two ways: 1500, or 1.500", "write 1500 or 1.500"},
		{KindLength, "1,500.5 mm", "has more than one point or comma in a number", "write 1234.5, without marks between the thousands"},
		{KindLength, "1.2.3 mm", "has more than one point or comma in a number", "write 1234.5, without marks between the thousands"},
		{KindLength, "", "is empty", "write it like 240 mm or 9 1/2 in"},
		{KindLength, " \u00a0 ", "is empty", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "NaN mm", "does not begin with a number", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "Inf", "does not begin with a number", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "-", "has no number", "write it like 240 mm or 9 1/2 in"},
		{KindLength, ". mm", "does not begin with a number", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "96x", "has \"x\", which is not a unit of length", "use mm, cm, m, in, ft, µm or µin"},
		{KindLength, "0x10 mm", "is not a plain number", "write it in ordinary digits"},
		{KindLength, "1e-3 m", "has a number with an exponent", "write the number out, like 0.001"},
		{KindLength, "1/0 in", "is divided by nothing", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "2 5/4 in", "has a fraction of one or more after a whole number", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "5 M", "has a capital M, which is not the metre", "write m for metres, mm for millimetres"},
		{KindLength, "40 L/min", "is in L/min, a unit of flow, not of length", "use mm, cm, m, in, ft, µm or µin"},
		{KindLength, "5 furlongs", `has "furlongs", which is not a unit of length`, "use mm, cm, m, in, ft, µm or µin"},
		{KindNumber, "5 mm", "is in mm, a unit of length, not of number", "write it like 1.1"},
		{KindLength, "6 ft 2", "ends in 2 without a unit", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "6 ft 14 in", "14 in is a whole ft or more", "carry it over"},
		{KindLength, "5 m 3 mm", "has something more after m", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "6 ft 2 mm", "holds two quantities, ft and mm", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "5-10 mm", "holds more than one number", "write one, with its unit after it"},
		{KindLength, "2000000 km", `has "km", which is not a unit of length`, "use mm, cm, m, in, ft, µm or µin"},
		{KindLength, "2000000000 m", "is larger than anything Drawoff handles", "write it like 240 mm or 9 1/2 in"},
		{KindLength, strings.Repeat("9", 60) + " m", "is larger than anything Drawoff handles", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "5 m\xff", "holds bytes that are not text", "write it like 240 mm or 9 1/2 in"},
		{KindLength, "5" + strings.Repeat(" ", 100) + "m", "is longer than 64 characters", "write it like 240 mm or 9 1/2 in"},
		{KindVolume, "5 gal", "has a gallon, which differs by a fifth between countries", gallons},
		{KindVolume, "5 Gallons", "has gallons, which differ by a fifth between countries", gallons},
		{KindVolume, "5 ML", "has ML, which is a million litres", "write mL for millilitres, L for litres"},
		{KindFlow, "10 gpm", "has gallons, which differ by a fifth between countries", "write US gal/min (3.785 L/min) or imp gal/min (4.546 L/min)"},
		{KindFlow, "10 gallons per minute", "has gallons, which differ by a fifth between countries", gallons},
		{KindFlow, "10 ML/min", "has ML, which is a million litres", "write mL for millilitres, L for litres"},
		{KindPressure, "2 barg", gaugeWhat, gaugeHint},
		{KindPressure, "2 bar(g)", gaugeWhat, gaugeHint},
		{KindPressure, "30 PSIG", gaugeWhat, gaugeHint},
		{KindPressure, "2 mPa", "may be a thousandth of a pascal or a million", "write MPa for a million pascals, or use kPa or bar"},
		{KindViscosity, "5 cSt", "is kinematic", "multiply it by the density in g/mL and write mPa·s"},
		{KindViscosity, "5 MPa·s", "has a capital M, which makes it a million pascal seconds", "write mPa·s with a small m"},
		{KindMass, "2 tons", "has tons, which may be 1000, 1016 or 907 kg", "write t for 1000 kg, or kg"},
		{KindDuration, "5 m", "has m, which is the metre", "write min for minutes"},
	} {
		_, err := ParseAmount(c.kind, c.text)
		var pe *ParseError
		if !assert.ErrorAs(t, err, &pe, c.text) {
			continue
		}
		assert.Equal(t, c.what, pe.What, c.text)
		assert.Equal(t, c.hint, pe.Hint, c.text)
		assert.NotContains(t, pe.What+pe.Hint, "\n")
		assert.False(t, strings.HasSuffix(pe.What, ".") || strings.HasSuffix(pe.Hint, "."), "a clause has no full stop: %v", pe)
	}
}

// What was given is repeated, but not a whole page of it.
func TestParseErrorRepeatsWhatWasGiven(t *testing.T) {
	t.Parallel()
	_, err := ParseAmount(KindLength, "900")
	assert.EqualError(t, err, `"900": has no unit; write 900 mm or 900 in`)

	_, err = ParseAmount(KindLength, strings.Repeat("é", 1000))
	var pe *ParseError
	require.ErrorAs(t, err, &pe)
	assert.Equal(t, strings.Repeat("é", MaxText)+"…", pe.Text)
}

// Every spelling in the tables is read as its own unit and no other, as
// written and in capitals unless those are refused.
func TestEverySpellingIsRead(t *testing.T) {
	t.Parallel()
	for k := range kinds {
		for _, u := range kinds[k].units {
			for _, word := range append([]string{u.symbol}, u.words...) {
				want := u.toSI(7)
				a, err := ParseAmount(Kind(k), "7 "+word)
				if assert.NoError(t, err, word) {
					assert.Equal(t, want, a.SI, word)
				}
				a, err = ParseAmount(Kind(k), "7 "+strings.ToUpper(word))
				if err == nil {
					assert.Equal(t, want, a.SI, "capitals of %s", word)
				}
			}
		}
	}
}

// The hints' own examples can be typed.
func TestSamplesAreRead(t *testing.T) {
	t.Parallel()
	for k := range kinds {
		for _, part := range strings.Split(kinds[k].sample, ", ") {
			for _, sample := range strings.Split(part, " or ") {
				_, err := ParseAmount(Kind(k), sample)
				assert.NoError(t, err)
			}
		}
		for _, symbol := range kinds[k].usual {
			_, err := ParseAmount(Kind(k), "1 "+symbol)
			assert.NoError(t, err)
		}
	}
}
