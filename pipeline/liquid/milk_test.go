package liquid

import (
	"testing"

	"github.com/stretchr/testify/assert"

	q "drawoff/pipeline/quantity"
)

// Bakshi and Smith (1984), their formula worked out in another program, mPa s.
// With the constant's sign lost, as one abstract prints it, whole milk would
// come out at 10^8 mPa s.
func TestMilkViscosityCold(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ fat, celsius, want float64 }{
		{0.05, 4, 2.521}, {0.05, 20, 1.475}, {3.5, 4, 3.559}, {3.5, 10, 2.891}, {3.5, 20, 2.083},
	} {
		digits(t, c.want, float64(Milk(q.Celsius(c.celsius), q.Fraction(c.fat/100)).Viscosity)*1e3, 4)
	}
	// Jenness and Patton, "Principles of Dairy Chemistry": at 20 °C skimmed
	// milk 1.5 and whole milk 2.0 mPa s. From memory.
	assert.InEpsilon(t, 1.5, float64(Milk(q.Celsius(20), 0.0005).Viscosity)*1e3, 0.15)
	assert.InEpsilon(t, 2.0, float64(Milk(q.Celsius(20), 0.035).Viscosity)*1e3, 0.15)
}

// Phipps (1969), his formula from memory worked out in another program, mPa s.
func TestMilkViscosityHot(t *testing.T) {
	t.Parallel()
	for celsius, want := range map[float64]float64{40: 1.173, 60: 0.837, 80: 0.621} {
		assert.InDelta(t, want, float64(Milk(q.Celsius(celsius), 0.035).Viscosity)*1e3, 0.0006, "%v °C", celsius)
	}
}

// Whole milk is 1027 to 1034 kg/m³ at 20 °C: the usual limits of dairy trade,
// from memory. The components come out up to 0.6 % low, as the source says.
func TestMilkDensity(t *testing.T) {
	t.Parallel()
	whole, skimmed := Milk(q.Celsius(20), 0.035), Milk(q.Celsius(20), 0.0005)
	assert.InEpsilon(t, 1030, float64(whole.Density), 0.006)
	assert.InEpsilon(t, 1034, float64(skimmed.Density), 0.006)
	assert.Greater(t, skimmed.Density, whole.Density, "cream rises")
	assert.Equal(t, "milk of 3.5 % fat at 20 °C", whole.Name)
	assert.Len(t, Milk(q.Celsius(90), 0.3).Outside, 2)
}

// The two viscosity formulas are joined without a step.
func TestMilkJoin(t *testing.T) {
	t.Parallel()
	for _, edge := range []float64{30, 40} {
		for _, fat := range []float64{0, 0.035, 0.1} {
			assert.InEpsilon(t, milkViscosity(edge-1e-9, fat), milkViscosity(edge+1e-9, fat), 1e-8)
		}
	}
}
