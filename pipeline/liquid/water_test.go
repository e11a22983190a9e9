package liquid

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	q "drawoff/pipeline/quantity"
)

// digits checks that got rounds to want, which a source prints to so many
// significant digits.
func digits(t *testing.T, want, got float64, significant int) {
	t.Helper()
	unit := math.Pow10(int(math.Floor(math.Log10(math.Abs(want)))) - significant + 1)
	// The last bit of a float may tip the rounding; a thousandth of a unit does not hide a fault.
	assert.InDelta(t, want, got, 0.501*unit)
}

// IAPWS R7-97(2012), Table 5.
func TestRegionOneVolume(t *testing.T) {
	t.Parallel()
	digits(t, 0.100215168e-2, RegionOneVolume(300, 3e6), 9)
	digits(t, 0.971180894e-3, RegionOneVolume(300, 80e6), 9)
	digits(t, 0.120241800e-2, RegionOneVolume(500, 3e6), 9)
}

// IAPWS R7-97(2012), Table 35.
func TestSaturationPressure(t *testing.T) {
	t.Parallel()
	digits(t, 0.353658941e4, float64(SaturationPressure(300)), 9)
	digits(t, 0.263889776e7, float64(SaturationPressure(500)), 9)
	digits(t, 0.123443146e8, float64(SaturationPressure(600)), 9)
}

// IAPWS R7-97(2012), Table 36; 99.974 °C is the boiling point on the scale of
// 1990, where people still write 100.
func TestBoilingPoint(t *testing.T) {
	t.Parallel()
	digits(t, 0.372755919e3, float64(BoilingPoint(0.1e6)), 9)
	digits(t, 0.453035632e3, float64(BoilingPoint(1e6)), 9)
	digits(t, 0.584149488e3, float64(BoilingPoint(10e6)), 9)
	assert.InDelta(t, 99.974, BoilingPoint(101325).Celsius(), 0.0006)
}

// IAPWS R12-08, Table 4, µPa s, with mu2 = 1.
func TestWaterViscosity(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ kelvin, rho, want float64 }{
		{298.15, 998, 889.735100},
		{298.15, 1200, 1437.649467},
		{373.15, 1000, 307.883622},
		{433.15, 1, 14.538324},
		{433.15, 1000, 217.685358},
		{873.15, 1, 32.619287},
		{873.15, 100, 35.802262},
		{873.15, 600, 77.430195},
		{1173.15, 1, 44.217245},
		{1173.15, 100, 47.640433},
		{1173.15, 400, 64.154608},
	} {
		got := float64(WaterViscosity(q.Temperature(c.kelvin), q.Density(c.rho))) * 1e6
		assert.InDelta(t, c.want, got, 0.501e-6, "%v K, %v kg/m³", c.kelvin, c.rho)
	}
}

//go:embed testdata/water.csv
var waterTable string

// The header of the table names its source. The if97 columns run the same
// formulas as ours in another program. The 95 columns are another formulation:
// there the bounds are the uncertainties that IAPWS R7-97, section 12, gives
// for the formulas themselves, 0.025 % for saturation and 0.003 % for density
// (from memory).
func TestWaterAgainstTable(t *testing.T) {
	t.Parallel()
	rows := 0
	for line := range strings.Lines(waterTable) {
		fields := strings.Split(strings.TrimSpace(line), ",")
		if strings.HasPrefix(line, "#") || fields[0] == "celsius" {
			continue
		}
		require.Len(t, fields, 6)
		var n [6]float64
		for i, f := range fields {
			var err error
			n[i], err = strconv.ParseFloat(f, 64)
			require.NoError(t, err)
		}
		w := Water(q.Celsius(n[0]))
		assert.Empty(t, w.Outside)
		assert.InEpsilon(t, n[1], float64(w.Density), 1e-11, "density at %v °C", n[0])
		assert.InEpsilon(t, n[2], float64(w.Viscosity), 1e-11, "viscosity at %v °C", n[0])
		assert.InEpsilon(t, n[3], float64(w.VapourPressure), 1e-9, "saturation at %v °C", n[0])
		assert.InEpsilon(t, n[4], float64(w.Density), 3e-5, "density of IAPWS-95 at %v °C", n[0])
		assert.InEpsilon(t, n[5], float64(w.VapourPressure), 2.5e-4, "saturation of IAPWS-95 at %v °C", n[0])
		rows++
	}
	assert.Greater(t, rows, 30)
}

// Well known figures that a wrong unit, or a wrong habit, would miss.
func TestWaterTraps(t *testing.T) {
	t.Parallel()
	const g = 9.80665
	hot := Water(q.Celsius(98))
	// The head of hot water's vapour counts in metres of hot water: 94.390 kPa
	// over 959.785 kg/m³ (IAPWS) are 10.03 m, and not the 9.64 m of cold water.
	assert.InDelta(t, 10.03, float64(hot.VapourPressure)/(float64(hot.Density)*g), 0.005)
	// IAPWS R7-97 through the package iapws: 1.3 % less dense than at 20 °C.
	assert.InDelta(t, 958.354, float64(Water(q.Celsius(100)).Density), 0.001)
	// CRC Handbook, 102nd edition: 1.002 mPa s at 20 °C.
	assert.InDelta(t, 1.002, float64(Water(q.Celsius(20)).Viscosity)*1e3, 0.0006)
	assert.Equal(t, "water at 98 °C", hot.Name)
}

func TestWaterOutside(t *testing.T) {
	t.Parallel()
	cold := Water(q.Celsius(-5))
	require.Equal(t, []Outside{{"density, viscosity and vapour pressure", "temperature", "-5 °C", waterRange.words, "the value at 0 °C"}}, cold.Outside)
	edge := Water(q.Celsius(0))
	assert.Empty(t, edge.Outside)
	assert.Equal(t, edge.Density, cold.Density)
	assert.Equal(t, edge.VapourPressure, cold.VapourPressure)
	assert.Len(t, Water(q.Celsius(151)).Outside, 1)
	assert.Equal(t, "not a number", Water(q.Temperature(math.NaN())).Outside[0].Given)
}

func BenchmarkWater(b *testing.B) {
	for b.Loop() {
		Water(q.Celsius(60))
	}
}

func BenchmarkRegionOneVolume(b *testing.B) {
	for b.Loop() {
		RegionOneVolume(333.15, 101325)
	}
}
