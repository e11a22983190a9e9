package vent

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

const sea = q.Pressure(101325)

// 5 m³/h pumped out ask openings of 12.0, 10.1 and 8.5 mm for 0.25, 0.5 and 1 kPa:
// worked out apart from the energy equation with a discharge coefficient of 0.6.
func TestOpeningForPumping(t *testing.T) {
	t.Parallel()
	rho := AirDensity(sea)
	assert.InDelta(t, 1.204, float64(rho), 0.0005, "dry air at 20 °C, ISO 2533:1975's gas law")
	for kilopascals, want := range map[q.Pressure]float64{0.25: 12.0, 0.5: 10.1, 1: 8.5} {
		assert.InDelta(t, want, Orifice(5*q.CubicMetrePerHour, kilopascals*q.Kilopascal, rho).Millimetres(), 0.06, "%v kPa", kilopascals)
	}
	assert.Zero(t, Orifice(0, 250, rho))
	assert.Zero(t, Orifice(1, 0, rho))
}

// 20 L/min of water of 15 °C that warms to 90 °C condenses 0.0463 kg/s of
// steam of 100 °C, 77.5 L/s: 232 times its own volume. It asks an opening of
// 63.5 mm at 1 kPa and of 42.5 mm at 5 kPa (heat balance with the properties
// of the Python package iapws 1.5.2; discharge coefficient 0.6).
func TestColdRinseIntoSteam(t *testing.T) {
	t.Parallel()
	cold := 20 * q.LitrePerMinute
	steam := Condensed(cold, liquid.Water(q.Celsius(15)).Density, q.Celsius(15), q.Celsius(90), steamDensity)
	assert.InEpsilon(t, 0.0463, float64(steam)*steamDensity, 1e-3)
	assert.InEpsilon(t, 77.5e-3, float64(steam), 1e-3)
	assert.InDelta(t, 232, float64(steam/cold), 0.6)
	assert.InDelta(t, 63.5, Orifice(steam, 1*q.Kilopascal, AirDensity(sea)).Millimetres(), 0.1)
	assert.InDelta(t, 42.5, Orifice(steam, 5*q.Kilopascal, AirDensity(sea)).Millimetres(), 0.1)
	assert.Zero(t, Condensed(cold, 1000, q.Celsius(90), q.Celsius(15), steamDensity), "hot water condenses nothing")
}

// In steam without air water of 15 °C warms to the steam's own heat, however
// cool the wash was: it condenses 263.7, 301.4 and 353.3 times its volume under
// 101.325, 80 and 60 kPa (iapws 1.5.2: saturated steam and water, and the
// enthalpy between). One heat for all is within 1.5 % of that.
func TestColdRinseAtAltitude(t *testing.T) {
	t.Parallel()
	for _, row := range [...]struct{ kilopascals, boils, volumes float64 }{{101.325, 99.974, 263.7}, {80, 93.485, 301.4}, {60, 85.926, 353.3}} {
		in := whole()
		in.Air, in.Hottest, in.Boiling = q.Pressure(row.kilopascals)*q.Kilopascal, q.Celsius(60), q.Celsius(row.boils)
		told := false
		for _, f := range Check(in).Figures {
			if f.Slug == "steam-volumes" {
				told = true
				assert.InEpsilon(t, row.volumes, f.Amount.SI, 0.015, "%v kPa", row.kilopascals)
			}
		}
		assert.True(t, told)
	}
}

// A tank shut full of air and steam at 80 °C and cooled to 20 °C ends at
// 47.09 kPa, 54.2 kPa of vacuum; shut at 95 °C at 15.65 kPa, 85.7 kPa of vacuum
// (Dalton's and the gas law with the vapour pressures of iapws 1.5.2).
func TestShutAndCooled(t *testing.T) {
	t.Parallel()
	shut := func(celsius float64) float64 {
		hot, cold := q.Celsius(celsius), q.Celsius(20)
		return float64(Shut(sea, liquid.SaturationPressure(hot), liquid.SaturationPressure(cold), hot, cold)) / 1000
	}
	assert.InDelta(t, 47.09, shut(80), 0.01)
	assert.InDelta(t, 15.65, shut(95), 0.01)
	assert.InDelta(t, 54.2, 101.325-shut(80), 0.05)
	assert.InDelta(t, 85.7, 101.325-shut(95), 0.05)
}

// 80.0 g of sodium hydroxide, two moles, take up one mole of carbon dioxide,
// which is 24.06 L at 20 °C and 101.325 kPa (molar volume of an ideal gas,
// CODATA 2018).
func TestCausticSwallowsCarbonDioxide(t *testing.T) {
	t.Parallel()
	assert.InEpsilon(t, 24.055e-3, float64(Swallows(0.079994, sea)), 1e-4)
}

// whole is a tank with everything to say.
func whole() Input {
	return Input{Air: sea, Pressure: 250, Drawn: 5 * q.CubicMetrePerHour, Pumped: true, Run: 3 * q.CubicMetrePerHour, Filled: 4 * q.CubicMetrePerHour, Told: true,
		Rinse: 20 * q.LitrePerMinute, Supply: q.Celsius(15), Density: 999.1, Hottest: q.Celsius(90), Boiling: q.Celsius(100), Brimful: 1,
		Vapour: 70180, Cold: 1706, Caustic: 1}
}

// Whatever is told of the vent, nothing passes: a small one is a stop, one that
// is large enough for the liquid gets no verdict at all, and the cautions stand.
func TestNothingPasses(t *testing.T) {
	t.Parallel()
	in := whole()
	for bore, verdicts := range map[float64]int{0: 0, 11.9: 1, 12.1: 0, 500: 0} {
		in.Bore = q.Mm(bore)
		r := Check(in)
		require.Len(t, r.Verdicts, verdicts, "%v mm", bore)
		require.Len(t, r.Cautions, 4)
		assert.Contains(t, r.Cautions[0], "263 times its own volume") // 999.1 × 4.186 × 85/(2256.5 × 0.598), as above
		assert.Contains(t, r.Cautions[0], "No vent that was sized for pumping covers that")
		assert.Contains(t, r.Cautions[3], "licensed designer")
	}
}

// More flow never asks a smaller opening, a smaller difference never either,
// and what cools shut further is never under more pressure.
func TestLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		flow := q.Flow(rapid.Float64Range(1e-6, 1).Draw(t, "flow"))
		p := q.Pressure(rapid.Float64Range(10, 5000).Draw(t, "difference"))
		more := rapid.Float64Range(1, 3).Draw(t, "more")
		assert.GreaterOrEqual(t, Orifice(flow*q.Flow(more), p, 1.2), Orifice(flow, p, 1.2))
		assert.GreaterOrEqual(t, Orifice(flow, p/q.Pressure(more), 1.2), Orifice(flow, p, 1.2))
		hot, cold := rapid.Float64Range(40, 99).Draw(t, "hot"), rapid.Float64Range(1, 40).Draw(t, "cold")
		at := func(c float64) q.Pressure {
			return Shut(sea, liquid.SaturationPressure(q.Celsius(hot)), liquid.SaturationPressure(q.Celsius(c)), q.Celsius(hot), q.Celsius(c))
		}
		assert.LessOrEqual(t, at(cold), at((hot+cold)/2))
		assert.InEpsilon(t, float64(sea), float64(at(hot)), 1e-9)
	})
}
