package liquid

import (
	"testing"

	"github.com/stretchr/testify/assert"

	q "drawoff/pipeline/quantity"
)

// The rows are the table's own (CRC Handbook, 102nd edition); that the lines
// between them stay near the truth is checked by leaving a row out.
func TestCausticTable(t *testing.T) {
	t.Parallel()
	for _, r := range causticTable {
		p := Caustic(q.Celsius(20), q.Fraction(r.percent/100))
		assert.InDelta(t, r.density*1000, float64(p.Density), 0.06, "%v %%", r.percent)
		assert.InEpsilon(t, r.viscosity, float64(p.Viscosity)*1e3, 0.001, "%v %%", r.percent)
	}
	for i := 3; i+1 < len(causticTable); i++ {
		a, b, c := causticTable[i-1], causticTable[i], causticTable[i+1]
		assert.InEpsilon(t, b.density, (a.density+c.density)/2, 1e-4)
		assert.InEpsilon(t, b.viscosity, (a.viscosity+c.viscosity)/2, 0.01)
	}
}

// M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725, NaOH 2 %, 4 to 120 °C,
// kg/m³, worked out in another program from the published coefficients. His
// viscosity of NaOH is 6 to 9 % under the CRC table and is not used.
func TestCausticWarm(t *testing.T) {
	t.Parallel()
	for celsius, want := range map[float64]float64{20: 1020.15, 40: 1013.83, 60: 1004.43, 80: 992.60} {
		assert.InEpsilon(t, want, float64(Caustic(q.Celsius(celsius), 0.02).Density), 0.002, "%v °C", celsius)
	}
}

func TestCausticOutside(t *testing.T) {
	t.Parallel()
	assert.Equal(t, "2 % caustic at 80 °C", Caustic(q.Celsius(80), 0.02).Name)
	strong := Caustic(q.Celsius(20), 0.3)
	assert.Equal(t, []Outside{{"strength", "30 %", causticStrength.words}}, strong.Outside)
	assert.Equal(t, Caustic(q.Celsius(20), 0.05).Density, strong.Density)
}
