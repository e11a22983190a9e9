package quantity

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Rounding as a person reads it: common practice, no source.
func TestText(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		kind           Kind
		si             float64
		metric, inches string
	}{
		{KindLength, 0.24, "240 mm", "9 7/16 in"},
		{KindLength, 0.2404, "240 mm", "9 15/32 in"},
		{KindLength, 0.0635, "63.5 mm", "2 1/2 in"},
		{KindLength, 0.0381, "38.1 mm", "1 1/2 in"},
		{KindLength, 0.0016, "1.6 mm", "0.063 in"},
		{KindLength, 0.0254 / 16, "1.6 mm", "1/16 in"},
		{KindLength, 0.0254 * 7 / 32, "5.6 mm", "7/32 in"},
		{KindLength, 0.0254 * 3 / 64, "1.2 mm", "0.047 in"},
		{KindLength, -0.96, "-960 mm", "-37 25/32 in"},
		{KindLength, 0.00025, "0.25 mm", "0.01 in"},
		{KindLength, 0.0000008, "0.0008 mm", "31.5 µin"},
		{KindLength, 0.09996, "100 mm", "3 15/16 in"},
		{KindLength, 1.8, "1800 mm", "70 7/8 in"},
		{KindLength, 25.4, "25.4 m", "83.3 ft"},
		{KindLength, 0, "0 mm", "0 in"},
		{KindLength, -1e-12, "0 mm", "0 in"},
		{KindLength, -0.005, "-5 mm", "-0.197 in"},
		{KindLength, -0.0127, "-12.7 mm", "-1/2 in"},
		{KindHead, 3.4, "3.40 m", "11.2 ft"},
		{KindHead, -0.001, "0.00 m", "0.00 ft"},
		{KindHead, 0.03, "0.03 m", "0.10 ft"},
		{KindHead, 0.30480, "0.30 m", "1.0 ft"},
		{KindVolume, 0.9, "900 L", "238 US gal"},
		{KindVolume, 0.00025, "250 mL", "8.45 US fl oz"},
		{KindVolume, 0, "0 mL", "0 US fl oz"},
		{KindVolume, 3.785411784e-3, "3.79 L", "1 US gal"},
		{KindVolume, 3.785411784e-3 / 8, "473 mL", "16 US fl oz"}, // a pint: NIST Handbook 44 appendix C
		{KindVolume, 1.2345, "1230 L", "326 US gal"},
		{KindFlow, 38.52e-3 / 60, "38.5 L/min", "10.2 US gal/min"},
		{KindVelocity, 1.234, "1.23 m/s", "4.05 ft/s"},
		{KindPressure, 101325, "101 kPa", "14.7 psi"},
		{KindPressure, 1705, "1.71 kPa", "0.247 psi"},
		{KindTemperature, 285.15, "12 °C", "53.6 °F"},
		{KindTemperature, 273.1499999, "0 °C", "32 °F"},
		{KindTemperature, 268.15, "-5 °C", "23 °F"},
		{KindAngle, math.Pi / 2, "90°", "90°"},
		{KindAngle, math.Pi / 120, "1.5°", "1.5°"},
		{KindSlope, 0.01, "1:100", "1:100"},
		{KindSlope, 0, "level", "level"},
		{KindSlope, -0.02, "rising 1:50", "rising 1:50"},
		{KindSlope, 0.4, "1:2.5", "1:2.5"},
		{KindSlope, 1, "1:1", "1:1"},
		{KindSlope, 1e-9, "level", "level"},
		{KindDensity, 998.207, "998.2 kg/m³", "8.33 lb/US gal"},
		{KindViscosity, 0.0010016, "1 mPa·s", "1 cP"},
		{KindViscosity, 0.012345, "12.3 mPa·s", "12.3 cP"},
		{KindMass, 80, "80 kg", "176 lb"},
		{KindDuration, 45, "45 s", "45 s"},
		{KindDuration, 2.46, "2.5 s", "2.5 s"},
		{KindDuration, 200, "3 min 20 s", "3 min 20 s"},
		{KindDuration, 720, "12 min", "12 min"},
		{KindDuration, 599.7, "10 min", "10 min"},
		{KindDuration, 3599, "1 h 00 min", "1 h 00 min"},
		{KindDuration, 7500, "2 h 05 min", "2 h 05 min"},
		{KindDuration, 0, "0 s", "0 s"},
		{KindPower, 750, "750 W", "1.01 hp"},
		{KindPower, 1100, "1.1 kW", "1.48 hp"},
		{KindFraction, 0.15, "15 %", "15 %"},
		{KindNumber, 1.2345, "1.23", "1.23"},
		{KindNumber, 123456, "123000", "123000"},
		{KindStrength, 0.0404, "4 °P", "4 °P"},
		{KindRotation, 2847.0 / 60, "2847 rpm", "2847 rpm"},
		{KindForce, 250, "250 N", "56.2 lbf"},
		{KindForce, 3433, "3.43 kN", "772 lbf"},
		{KindMoment, 1.355818, "1.36 N·m", "1 lbf·ft"}, // NIST SP 811 B.8
		{KindPressure, 405e3, "405 kPa", "58.7 psi"},
		{KindPressure, 210e6, "210 MPa", "30500 psi"},
		{KindFlow, math.NaN(), "not a number", "not a number"},
		{KindFlow, math.Inf(-1), "not a number", "not a number"},
	} {
		a := Amount{c.kind, c.si}
		assert.Equal(t, c.metric, a.Text(Metric), "%v %v", kinds[c.kind].name, c.si)
		assert.Equal(t, c.inches, a.Text(Inches), "%v %v", kinds[c.kind].name, c.si)
	}
}

// In gives the number that belongs to Unit, and a parse of both gives the amount back.
func TestInAndUnitBelongTogether(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 240, Of(Mm(240)).In(Metric), 1e-12)
	assert.Equal(t, "mm", KindLength.Unit(Metric))
	assert.InDelta(t, 12, Of(Celsius(12)).In(Metric), 1e-12)
	for k := range kinds {
		for _, s := range []System{Metric, Inches} {
			symbol := Kind(k).Unit(s)
			if symbol == "" {
				assert.Contains(t, []Kind{KindSlope, KindNumber}, Kind(k), "%s has no unit to show", kinds[k].name)
				continue
			}
			a, err := ParseAmount(Kind(k), "3 "+symbol)
			require.NoError(t, err)
			assert.InDelta(t, 3, a.In(s), 1e-12, symbol)
		}
	}
}

// coarseness is the most that the rounding of Text may move a value: half a
// unit of the last figure shown, looked at from the widest rounding of each kind.
func coarseness(k Kind, s System, si float64) float64 {
	third := math.Abs(si) * 0.5e-2 * 1.001 // three figures
	switch k {
	case KindLength:
		if math.Abs(si) >= 19.9 {
			return 0.05*0.3048 + 1e-9
		}
		return 0.0005 + 1e-9
	case KindHead:
		return 0.05*0.3048 + 1e-9
	case KindVelocity:
		return 0.005 + 1e-9
	case KindTemperature:
		return 0.05 + 1e-9
	case KindAngle:
		return 0.05*float64(Degree) + 1e-9
	case KindStrength:
		return 0.0005 + 1e-9
	case KindSlope:
		return math.Max(1e-5, math.Abs(si)*0.06)
	case KindDuration:
		return 30.001
	}
	least := 1e-9 // of the unit shown; under it, 0 is shown
	if u, ok := k.bySymbol(k.Unit(s)); ok {
		least *= u.mul / u.div
	}
	return third + least
}

// Whatever is shown can be typed back, and means the same within the
// rounding; and typing back what is shown shows the same again.
func TestWhatIsShownCanBeTyped(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := Kind(rapid.IntRange(0, len(kinds)-1).Draw(t, "kind"))
		s := System(rapid.IntRange(0, 1).Draw(t, "system"))
		si := rapid.Float64Range(-1e6, 1e6).Draw(t, "si")
		switch k {
		case KindTemperature:
			si = math.Abs(si)
		case KindSlope:
			si = rapid.Float64Range(-1, 1).Draw(t, "slope")
		}
		text := Amount{k, si}.Text(s)
		assert.NotContains(t, text, "-0 ")
		assert.NotContains(t, text, "NaN")

		a, err := ParseAmount(k, text)
		if k == KindTemperature && si < 0.1 {
			return // the last tenth may round to just under absolute zero
		}
		require.NoError(t, err)
		assert.InDelta(t, si, a.SI, coarseness(k, s, si), text)
		if k != KindLength || s != Inches { // 3.2461 in is shown as 3.25 in, which is 3 1/4 in
			assert.Equal(t, text, a.Text(s), "shown twice")
		}
	})
}

// Where lengths are shown in another way on the one side of a bound than on the other.
func TestWhatIsShownAtABoundCanBeTyped(t *testing.T) {
	t.Parallel()
	for _, mm := range []float64{0.00049, 0.000499, 0.0005, 0.000501, 0.9449, 0.945, 0.9496, 0.95, 0.9501, 99.94, 99.96, 100, 19994, 19999.6, 20000} {
		text := Amount{KindLength, mm / 1000}.Text(Metric)
		a, err := ParseAmount(KindLength, text)
		require.NoError(t, err)
		assert.Equal(t, text, a.Text(Metric), "%v mm", mm)
	}
}

// Spaces, their kind, and the case of letters where that is forgiven, change nothing.
func TestSpacingChangesNothing(t *testing.T) {
	t.Parallel()
	spaces := rapid.StringOf(rapid.SampledFrom([]rune{' ', '\u00a0', '\u2009', '\u202f', '\t'}))
	rapid.Check(t, func(t *rapid.T) {
		k := Kind(rapid.IntRange(0, len(kinds)-1).Draw(t, "kind"))
		if len(kinds[k].units) == 0 {
			return
		}
		u := rapid.SampledFrom(kinds[k].units).Draw(t, "unit")
		number := rapid.SampledFrom([]string{"3", "2.5", "2,5", "0,125"}).Draw(t, "number")
		want, err := ParseAmount(k, number+" "+u.symbol)
		require.NoError(t, err)

		spaced := spaces.Draw(t, "before") + number + spaces.Draw(t, "between") + u.symbol + spaces.Draw(t, "after")
		if len([]rune(spaced)) > MaxText {
			return
		}
		got, err := ParseAmount(k, spaced)
		require.NoError(t, err)
		assert.Equal(t, want, got)

		upper, err := ParseAmount(k, strings.ToUpper(spaced))
		if err == nil {
			assert.Equal(t, want, upper, "capitals may be refused, but never mean something else")
		}
	})
}

// Fractions of an inch as typed are the fractions that they say.
func TestFractions(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.IntRange(0, 400).Draw(t, "whole")
		num := rapid.IntRange(1, 31).Draw(t, "of 32")
		e := MustParse[Length](Amount{KindLength, (float64(whole) + float64(num)/32) * 0.0254}.Text(Inches))
		assert.InDelta(t, (float64(whole)*32+float64(num))*0.0254/32, float64(e.Value()), 1e-12)
	})
}

// The words typed are kept to the letter, and mean the same when read again.
func TestEnteredKeepsTheWords(t *testing.T) {
	t.Parallel()
	e, err := Parse[Length](" 2½ IN ")
	require.NoError(t, err)
	assert.Equal(t, " 2½ IN ", e.String())
	assert.Equal(t, KindLength, e.Kind())
	assert.InDelta(t, 63.5, e.Value().Millimetres(), 1e-12)

	data, err := json.Marshal(e)
	require.NoError(t, err)
	assert.Equal(t, `" 2½ IN "`, string(data))
	var back Entered[Length]
	require.NoError(t, json.Unmarshal(data, &back))
	assert.Equal(t, e, back)

	again, err := Parse[Length](e.String())
	require.NoError(t, err)
	assert.Equal(t, e, again)

	require.NoError(t, back.UnmarshalText(nil))
	assert.True(t, back.IsZero())
	assert.Equal(t, Mm(5), back.Or(Mm(5)))
	assert.Equal(t, e.Value(), e.Or(Mm(5)))

	var pe *ParseError
	require.ErrorAs(t, back.UnmarshalText([]byte("900")), &pe)
	assert.True(t, back.IsZero(), "a bad word changes nothing")
	assert.Panics(t, func() { MustParse[Length]("900") })
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := Parse[Length]("2 1/2 in"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkParseRatio(b *testing.B) {
	for b.Loop() {
		if _, err := Parse[Flow]("40 litres per minute"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkText(b *testing.B) {
	a := Of(Mm(240))
	for b.Loop() {
		a.Text(Metric)
	}
}

// What goes into a working is shown with five digits, half a unit of the last
// of which is 5e-5 of it at most: by what rounding to five digits means.
func TestFineKeepsFiveDigits(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]Kind{KindPressure, KindNumber}).Draw(t, "kind")
		unit := 1.0
		if kind == KindPressure {
			unit = 1000 // kPa
		}
		a := Amount{Kind: kind, SI: rapid.Float64Range(0.1, 9990).Draw(t, "n") * unit}
		back, err := ParseAmount(kind, a.Fine())
		require.NoError(t, err)
		assert.InEpsilon(t, a.SI, back.SI, 5.001e-5, a.Fine())
	})
	assert.Equal(t, "101.33 kPa", Of(Pressure(101325)).Fine(), "the standard atmosphere, ISO 2533")
	assert.Equal(t, "240 mm", Of(Length(0.24)).Fine(), "lengths stay as they are read")
}
