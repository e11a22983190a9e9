package liquid

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	q "drawoff/pipeline/quantity"
)

func typed(t require.TestingT, kind string, l Typed) Properties {
	p, ok := Of(Recipe{Kind: kind, Typed: l}, q.Celsius(30))
	require.True(t, ok)
	return p
}

// The figures are taken as typed; without a vapour pressure it is water's.
func TestTyped(t *testing.T) {
	t.Parallel()
	p := typed(t, "other", Typed{Density: 1040, Viscosity: 0.02, Index: 0.5, Consistency: 3, Yield: 7})
	assert.Equal(t, q.Density(1040), p.Density)
	assert.Equal(t, q.Viscosity(0.02), p.Viscosity)
	assert.True(t, p.Rheology.Newtonian(), "what another kind was given does not count")
	assert.Equal(t, SaturationPressure(q.Celsius(30)), p.VapourPressure)
	assert.Contains(t, p.Sources.VapourPressure, "none was typed")
	assert.Equal(t, q.Pressure(9000), typed(t, "other", Typed{Density: 800, Viscosity: 1e-3, VapourPressure: 9000}).VapourPressure)
}

// A power law's apparent viscosity at 100 1/s is K × 100^(n-1) (definition):
// with n = 0.5 a tenth of K.
func TestPowerLawTyped(t *testing.T) {
	t.Parallel()
	p := typed(t, "power-law", Typed{Density: 1100, Consistency: 12, Index: 0.5})
	assert.InEpsilon(t, 1.2, float64(p.Viscosity), 1e-12)
	assert.Equal(t, Rheology{Index: 0.5, Consistency: 12}, p.Rheology)
	b := typed(t, "bingham", Typed{Density: 1100, Viscosity: 0.05, Yield: 5})
	assert.Equal(t, Rheology{Yield: 5}, b.Rheology)
	assert.Equal(t, q.Viscosity(0.05), b.Viscosity)
}

// An index of 1 and a yield stress of 0 are Newtonian liquids, and nothing
// tells them from one.
func TestNewtonianIsNewtonian(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		mu := rapid.Float64Range(1e-4, 100).Draw(t, "μ")
		want := typed(t, "other", Typed{Density: 1000, Viscosity: q.Viscosity(mu)})
		for _, p := range []Properties{
			typed(t, "power-law", Typed{Density: 1000, Consistency: q.Consistency(mu), Index: 1}),
			typed(t, "bingham", Typed{Density: 1000, Viscosity: q.Viscosity(mu)}),
		} {
			assert.InEpsilon(t, mu, float64(p.Viscosity), 1e-15)
			assert.Equal(t, want.Rheology, p.Rheology)
			assert.True(t, p.Rheology.Newtonian())
		}
	})
}
