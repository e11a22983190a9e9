package flow_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"drawoff/pipeline/flow"
)

// Colebrook's equation solved by python3-fluids 1.0.22, printed to 7 digits.
func TestColebrookPrinted(t *testing.T) {
	t.Parallel()
	for _, row := range []struct{ re, rel, f float64 }{
		{4000, 0, 0.03990701},
		{1e4, 0, 0.03088295},
		{1e5, 0, 0.01798977},
		{1e5, 1e-4, 0.01851387},
		{1e5, 1e-3, 0.02217454},
		{1e5, 1e-2, 0.03850354},
		{2300, 0, 0.0472833},
		{3000, 0, 0.0435192},
	} {
		// Half a unit in the last digit printed.
		digit := 0.5e-8
		if row.re < 4000 {
			digit = 0.5e-7
		}
		assert.InDelta(t, row.f, flow.Colebrook(row.re, row.rel), digit, "%v", row)
	}
}

// mpmath at 60 digits; see the head of the file.
func TestColebrookExact(t *testing.T) {
	t.Parallel()
	for _, row := range records(t, "colebrook.csv") {
		re, rel, f := number(t, row[0]), number(t, row[1]), number(t, row[2])
		// The doc comment claims the last digits, so that is what is checked: 8 units
		// of float64 rounding, which three logarithms and a square can add up to.
		near(t, f, flow.Colebrook(re, rel), 8*0x1p-52, "Re %v ε/D %v", re, rel)
	}
}

// The definition: what comes out solves the equation.
func TestColebrookSolves(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(0, 12).Draw(t, "log Re"))
		rel := rapid.Float64Range(0, 0.1).Draw(t, "rel")
		x := 1 / math.Sqrt(flow.Colebrook(re, rel))
		near(t, x, -2*math.Log10(rel/3.7+2.51*x/re), 1e-12)
	})
}

func TestFrictionRegimes(t *testing.T) {
	t.Parallel()
	// Hagen-Poiseuille at 2000; the two ends of the band at 2300 and 3000 as
	// printed from python3-fluids 1.0.22.
	assert.Equal(t, flow.Band{Low: 0.032, High: 0.032}, flow.Friction(2000, 0.001))
	for re, band := range map[float64]flow.Band{2300: {0.0278261, 0.0472833}, 3000: {0.0213333, 0.0435192}} {
		f := flow.Friction(re, 0)
		assert.InDelta(t, band.Low, f.Low, 0.5e-7)
		assert.InDelta(t, band.High, f.High, 0.5e-7)
	}
	f := flow.Friction(4000, 0)
	assert.Equal(t, f.Low, f.High, "one answer from Re 4000")
}

func TestFrictionIsAlwaysANumber(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := flow.Friction(rapid.Float64().Draw(t, "Re"), rapid.Float64().Draw(t, "rel"))
		assert.False(t, math.IsNaN(f.Low) || math.IsNaN(f.High) || math.IsInf(f.High, 0))
		assert.LessOrEqual(t, f.Low, f.High)
		assert.Positive(t, f.Low)
	})
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0} {
		for _, f := range []flow.Band{flow.Friction(x, 0), flow.Friction(1e5, x), flow.Friction(x, x)} {
			assert.False(t, math.IsNaN(f.High) || math.IsInf(f.High, 0), "%v", x)
		}
	}
}
