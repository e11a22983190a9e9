package liquid

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
	assert.Len(t, Milk(q.Celsius(90), 0.45).Outside, 2)
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

// The ends of what Bakshi and Smith measured, as their abstract states them:
// 1 to 60 mPa s, 990 to 1035 kg/m³, from skimmed milk to whipping cream, 0 to
// 30 °C. The components' density is up to 0.6 % low.
func TestCreamRange(t *testing.T) {
	t.Parallel()
	thick, thin := Milk(q.Celsius(0), 0.30), Milk(q.Celsius(30), 0.0005)
	assert.Empty(t, thick.Outside)
	assert.InDelta(t, 60, float64(thick.Viscosity)*1e3, 3)
	assert.InDelta(t, 1, float64(thin.Viscosity)*1e3, 0.15)
	assert.InEpsilon(t, 990, float64(Milk(q.Celsius(20), 0.35).Density), 0.008)
	assert.InEpsilon(t, 1035, float64(Milk(q.Celsius(4), 0.0005).Density), 0.006)

	// 35 % cream: beyond the cold formula, inside the hot one.
	require.Len(t, Milk(q.Celsius(8), 0.35).Outside, 1)
	assert.Equal(t, "viscosity", Milk(q.Celsius(8), 0.35).Outside[0].Property)
	assert.Empty(t, Milk(q.Celsius(60), 0.35).Outside)
}

// Phipps (1969), his formula from memory worked out in another program, mPa s.
func TestSkimHot(t *testing.T) {
	t.Parallel()
	for celsius, want := range map[float64]float64{40: 1.043, 60: 0.743, 80: 0.550} {
		assert.InDelta(t, want, float64(Milk(q.Celsius(celsius), 0).Viscosity)*1e3, 0.006, "%v °C", celsius)
	}
}

// Choi and Okos (1986) in full, their own water too, kg/m³ (coefficients from
// memory, worked out in another program): 87.7 % water, 3.3 % protein, 3.4 %
// fat, 4.8 % lactose, 0.7 % ash. Ours has IAPWS water, 0.1 to 0.3 % heavier when cold.
func TestMilkAgainstChoiAndOkos(t *testing.T) {
	t.Parallel()
	for celsius, want := range map[float64]float64{4: 1025.6, 20: 1023.7, 60: 1011.3} {
		got := float64(Milk(q.Celsius(celsius), 0.034).Density)
		assert.InEpsilon(t, want, got, 0.004, "%v °C", celsius)
		if celsius <= 20 {
			assert.Greater(t, got, want)
		}
	}
}

// Whey lies between a 5 % lactose solution, 1.0184 g/cm³ and 1.154 mPa s at
// 20 °C (CRC Handbook, 102nd edition), and skimmed milk; sweet whey is 1023 to
// 1027 kg/m³ (from memory). Of two liquids that are mostly water the ratio
// hardly changes with warmth, which is what 72 °C rests on.
func TestWhey(t *testing.T) {
	t.Parallel()
	cold, skim := Whey(q.Celsius(20)), Milk(q.Celsius(20), 0.0005)
	assert.Greater(t, float64(cold.Viscosity)*1e3, 1.154)
	assert.Less(t, cold.Viscosity, skim.Viscosity)
	assert.Greater(t, float64(cold.Density), 1018.4)
	assert.InEpsilon(t, 1025, float64(cold.Density), 0.006)
	assert.Less(t, cold.Density, skim.Density)

	hot := Whey(q.Celsius(72))
	assert.Equal(t, "whey at 72 °C", hot.Name)
	assert.Empty(t, hot.Outside)
	assert.Less(t, hot.Viscosity, Milk(q.Celsius(72), 0.0005).Viscosity)
	assert.Greater(t, hot.Viscosity, Water(q.Celsius(72)).Viscosity)
	assert.Equal(t, SaturationPressure(q.Celsius(72)), hot.VapourPressure)
}
