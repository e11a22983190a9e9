package liquid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	q "drawoff/pipeline/quantity"
)

// ISO 2533:1975, through the Python package fluids 1.0.22
// (fluids.atmosphere.ATMOSPHERE_1976, which below 32 km is the same
// atmosphere); the boiling points and the heads of water at 20 °C through the
// package iapws. ISO prints by geopotential altitude, up to 6 Pa lower.
func TestAirPressure(t *testing.T) {
	t.Parallel()
	const g = 9.80665
	cold := Water(q.Celsius(20))
	for _, c := range []struct {
		altitude                    q.Length
		pressure, geopotential      float64 // Pa
		boils, headOfWater20Celsius float64 // °C, m
	}{
		{0, 101325.0, 101325.0, 99.974, 10.351},
		{500, 95461.3, 95460.8, 98.313, 9.752},
		{1000, 89876.3, 89874.6, 96.649, 9.181},
		{1500, 84559.7, 84556.0, 94.984, 8.638},
		{2000, 79501.4, 79495.2, 93.317, 8.122},
	} {
		p := AirPressure(c.altitude)
		assert.InDelta(t, c.pressure, float64(p), 0.06, "%v m", c.altitude)
		assert.InDelta(t, c.geopotential, float64(p), 10, "%v m", c.altitude)
		assert.InDelta(t, c.boils, BoilingPoint(p).Celsius(), 0.0006, "%v m", c.altitude)
		assert.InDelta(t, c.headOfWater20Celsius, float64(p)/(float64(cold.Density)*g), 0.0006, "%v m", c.altitude)
	}
}

// Altitudes that no workshop has give the edge's pressure; an unknown one the sea's.
func TestAirPressureBeyond(t *testing.T) {
	t.Parallel()
	assert.Equal(t, AirPressure(11000), AirPressure(q.Length(math.Inf(1))))
	assert.Equal(t, AirPressure(-2000), AirPressure(q.Length(math.Inf(-1))))
	assert.InEpsilon(t, 101325, float64(AirPressure(q.Length(math.NaN()))), 1e-12)
	assert.Greater(t, AirPressure(-400), AirPressure(0), "the shore of the Dead Sea")
}
