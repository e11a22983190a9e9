package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The sugar of a specific gravity against densities of sucrose solutions that
// were measured: CRC Handbook, 102nd edition (2021), "Concentrative properties
// of aqueous solutions", 20 °C. They are true densities, and a hydrometer's
// tables are in air, so both sides are lightened by the air (0.0012 g/mL).
// The table's last printed figure is worth 0.013 °P, and Lincoln's fit is known
// to lie about 0.011 °P under such densities.
func TestSpecificGravityAgainstSucrose(t *testing.T) {
	t.Parallel()
	const water, air = 0.998207, 0.0012
	for _, c := range []struct{ percent, density float64 }{{5, 1.0178}, {10, 1.0381}, {12, 1.0465}, {15, 1.0592}, {20, 1.0810}} {
		sg := (c.density - air) / (water - air)
		assert.InDelta(t, c.percent, plato(sg), 0.025, "%v %%", c.percent)
	}
}

// Both ways round of writing a gravity, with a comma too: values of the fit
// as other programs print them, 1.048 giving 11.91 °P and 1.080 giving 19.33 °P.
func TestSpecificGravityIsReadEitherWayRound(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]float64{
		"SG 1.048": 0.1191, "1.048 SG": 0.1191, "sg1.048": 0.1191, "SG 1,048": 0.1191, "1.080 sg": 0.1933,
	} {
		a, err := ParseAmount(KindStrength, text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, a.SI, 0.00005, text)
	}
}

// The cubic as other programs print it; two others in use, a second cubic and
// De Clerck's; and the true densities of ICUMSA SPS-4 (1998) worked out for the
// same gravities in air, which the fit to the ASBC table lies up to 0.017 °P under.
func TestPlato(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ sg, cubic, second, deClerck, icumsa float64 }{
		{1.010, 2.5608, 2.5605, 2.5595, 2.5682}, {1.040, 9.9935, 9.9934, 9.9819, 10.0039}, {1.048, 11.9121, 11.9116, 11.8975, 11.9220},
		{1.060, 14.7414, 14.7405, 14.7227, 14.7508}, {1.080, 19.3310, 19.3311, 19.3078, 19.3415}, {1.100, 23.7689, 23.7742, 23.7458, 23.7856},
	} {
		assert.InDelta(t, c.second, plato(c.sg), 0.006, "SG %v", c.sg)
		assert.InDelta(t, c.deClerck, plato(c.sg), 0.024, "SG %v", c.sg)
		assert.InDelta(t, c.cubic, plato(c.sg), 0.00006, "SG %v", c.sg)
		assert.InDelta(t, c.icumsa, plato(c.sg), 0.018, "SG %v", c.sg)
	}
}

func strength(t require.TestingT, text string) float64 {
	e, err := Parse[Strength](text)
	require.NoError(t, err, text)
	return 100 * float64(e.Value())
}

// 10 °P four times: 1.04003 in air (ASBC table), 1.03998 true (worked out from
// ICUMSA SPS-4), 1.03814 over water at 4 °C (NBS Circular C440, table 114, from memory) and
// 1.0381 g/mL (CRC Handbook, 102nd edition). The last figure of each is worth
// 0.0025 °P and, in the handbook, 0.013 °P; the fit adds 0.01.
func TestConventionsOfGravity(t *testing.T) {
	t.Parallel()
	for text, within := range map[string]float64{
		"SG 1.04003": 0.012, "SG 1.04003 in air": 0.012, "SG 1.04003 20/20": 0.012, "1.04003 SG": 0.012,
		"SG 1.03998 true": 0.012, "1.03998 SG true": 0.012,
		"SG 1.03814 20/4": 0.013, "1.03814 sg 20/4": 0.013,
		"1038.1 kg/m³": 0.025, "1.0381 g/mL": 0.025, "1.0381 kg/L": 0.025,
	} {
		assert.InDelta(t, 10, strength(t, text), within, text)
	}
	// The same digits under another name are another liquid: 1.040 over water
	// at 4 °C is half a degree Plato more (1.0400 × 999.972/998.203 = 1.0418).
	assert.InDelta(t, 0.43, strength(t, "SG 1.040 20/4")-strength(t, "SG 1.040"), 0.03)
	assert.InDelta(t, strength(t, "SG 1.0418 true"), strength(t, "SG 1.040 20/4"), 0.03)
}

// A handbook's "density" of 10 % sucrose, 1039.98 kg/m³ at 20 °C (Asadi,
// Beet-Sugar Handbook (2007), table A.1), is the gravity 20/20 a thousandfold:
// typed as a density it would be 10.44 °P.
func TestGravityIsNoDensity(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 10.44, strength(t, "1039.98 kg/m³"), 0.03)
	assert.InDelta(t, 10, strength(t, "SG 1.03998 true"), 0.012)
}

// What is denser holds more sugar, in every convention, and the true gravity
// stands for a little more than the same figure in air.
func TestGravityLaws(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		sg := rapid.Float64Range(1.0005, 1.12).Draw(t, "SG")
		more := sg + rapid.Float64Range(1e-4, 0.005).Draw(t, "more")
		at := func(sg float64) float64 {
			w, c := sugarOf(sg)
			require.False(t, c.bad(), c.what)
			return w
		}
		assert.Less(t, at(sg), at(more))
		assert.Greater(t, at(inAir(sg)), at(sg))
	})
}

func TestPlainWater(t *testing.T) {
	t.Parallel()
	assert.Zero(t, strength(t, "SG 1.000"))
	assert.Zero(t, strength(t, "998.2 kg/m³"))
	for _, text := range []string{"998 kg/m³", "1200 kg/m³", "SG 1.2 true", "SG 0.99", "1.048 true", "1.048 20/4", "SG true"} {
		_, err := Parse[Strength](text)
		assert.Error(t, err, text)
	}
}
