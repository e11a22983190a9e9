package liquid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	q "drawoff/pipeline/quantity"
)

// liquids are all that the package describes, each by one number for its strength.
var liquids = map[string]struct {
	at       func(t q.Temperature, strength float64) Properties
	hottest  float64 // °C, of density and viscosity
	thickest float64
	thicker  bool // strength adds viscosity
}{
	"water":      {func(t q.Temperature, _ float64) Properties { return Water(t) }, 150, 1, false},
	"sugar":      {func(t q.Temperature, s float64) Properties { return Sugar(t, q.Strength(s)) }, 80, 0.75, true},
	"fermented":  {func(t q.Temperature, s float64) Properties { return Fermented(t, q.Fraction(s), q.Strength(s/2)) }, 40, 0.2, true},
	"spirits":    {func(t q.Temperature, s float64) Properties { return Spirits(t, q.Fraction(s)) }, 40, 0.4, true},
	"milk":       {func(t q.Temperature, s float64) Properties { return Milk(t, q.Fraction(s)) }, 80, 0.3, true},
	"whey":       {func(t q.Temperature, _ float64) Properties { return Whey(t) }, 80, 1, false},
	"caustic":    {func(t q.Temperature, s float64) Properties { return Caustic(t, q.Fraction(s)) }, 100, 0.05, true},
	"nitric":     {func(t q.Temperature, s float64) Properties { return Nitric(t, q.Fraction(s)) }, 100, 0.05, true},
	"phosphoric": {func(t q.Temperature, s float64) Properties { return Phosphoric(t, q.Fraction(s)) }, 100, 0.05, true},
	"peracetic":  {func(t q.Temperature, s float64) Properties { return Peracetic(t, q.Fraction(s)) }, 100, 0.005, false},
}

// What warmth and strength do to every liquid here: warmer is lighter (from
// 4 °C up, where water is heaviest), thinner and gives more vapour; stronger
// is thicker.
func TestWarmthAndStrength(t *testing.T) {
	t.Parallel()
	for name, l := range liquids {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) {
				cool := rapid.Float64Range(0, l.hottest-0.1).Draw(t, "cool")
				warm := cool + rapid.Float64Range(0.05, l.hottest-cool).Draw(t, "warmer by")
				strength := rapid.Float64Range(0, l.thickest*0.99).Draw(t, "strength")
				a, b := l.at(q.Celsius(cool), strength), l.at(q.Celsius(warm), strength)
				assert.Empty(t, a.Outside)
				if cool >= 4.1 {
					assert.Greater(t, a.Density, b.Density)
				}
				assert.Greater(t, a.Viscosity, b.Viscosity)
				assert.Less(t, a.VapourPressure, b.VapourPressure)
				if l.thicker {
					stronger := strength + (l.thickest-strength)*rapid.Float64Range(0.01, 1).Draw(t, "stronger by")
					assert.Less(t, a.Viscosity, l.at(q.Celsius(cool), stronger).Viscosity)
				}
			})
		})
	}
}

// Past its range every liquid goes on as water does: hotter is still lighter
// and thinner, and what was left is told with what was used instead.
func TestPastTheRange(t *testing.T) {
	t.Parallel()
	for name, l := range liquids {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) {
				if l.hottest >= 149 {
					return
				}
				hot := l.hottest + rapid.Float64Range(0.1, 148-l.hottest).Draw(t, "over")
				strength := rapid.Float64Range(0, l.thickest*0.99).Draw(t, "strength")
				edge, p := l.at(q.Celsius(l.hottest), strength), l.at(q.Celsius(hot), strength)
				require.NotEmpty(t, p.Outside)
				assert.Equal(t, "temperature", p.Outside[0].What)
				assert.Contains(t, p.Outside[0].Used, "as water goes")
				a, b := Water(q.Celsius(l.hottest)), Water(q.Celsius(hot))
				assert.InEpsilon(t, float64(b.Density/a.Density), float64(p.Density/edge.Density), 1e-12)
				assert.InEpsilon(t, float64(b.Viscosity/a.Viscosity), float64(p.Viscosity/edge.Viscosity), 1e-12)
				assert.GreaterOrEqual(t, p.VapourPressure, edge.VapourPressure)

				cold := l.at(q.Celsius(-rapid.Float64Range(0.1, 5).Draw(t, "under")), strength)
				require.NotEmpty(t, cold.Outside)
				assert.Equal(t, l.at(q.Celsius(0), strength).Density, cold.Density)
			})
		})
	}
}

// anyFloat draws every float64 there is, the unwelcome ones often.
func anyFloat() *rapid.Generator[float64] {
	return rapid.OneOf(
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), math.MaxFloat64, -math.MaxFloat64, 5e-324, 1, -1}),
		rapid.Map(rapid.Uint64(), math.Float64frombits),
		rapid.Float64Range(-1000, 1000),
	)
}

// Whatever is asked, the answer is numbers that a plant could work with.
func TestNeverNaN(t *testing.T) {
	t.Parallel()
	usable := func(t *rapid.T, what string, x float64) {
		assert.False(t, math.IsNaN(x) || math.IsInf(x, 0) || x <= 0, "%s is %v", what, x)
	}
	rapid.Check(t, func(t *rapid.T) {
		kelvin := q.Temperature(anyFloat().Draw(t, "temperature"))
		x := anyFloat().Draw(t, "other")
		for name, l := range liquids {
			p := l.at(kelvin, x)
			usable(t, name+" density", float64(p.Density))
			usable(t, name+" viscosity", float64(p.Viscosity))
			usable(t, name+" vapour pressure", float64(p.VapourPressure))
		}
		for _, kind := range []string{"other", "power-law", "bingham"} {
			p, _ := Of(Recipe{Kind: kind, Typed: Typed{q.Density(x), q.Viscosity(x), q.Pressure(x), q.Number(x), q.Consistency(x), q.Pressure(x)}}, kelvin)
			usable(t, kind+" density", float64(p.Density))
			usable(t, kind+" viscosity", float64(p.Viscosity))
			usable(t, kind+" vapour pressure", float64(p.VapourPressure))
		}
		usable(t, "volume", RegionOneVolume(kelvin, q.Pressure(x)))
		usable(t, "saturation", float64(SaturationPressure(kelvin)))
		usable(t, "viscosity", float64(WaterViscosity(kelvin, q.Density(x))))
		usable(t, "air", float64(AirPressure(q.Length(x))))
		usable(t, "boiling", float64(BoilingPoint(q.Pressure(x))))
		usable(t, "sugar", float64(SugarDensity(kelvin, q.Strength(x))))
		usable(t, "ethanol", float64(EthanolDensity(kelvin, q.Fraction(x))))
	})
}

// BoilingPoint undoes SaturationPressure (Eqs 30 and 31 of IAPWS R7-97 are the
// same equation), from freezing to the hottest that an open vessel sees.
func TestBoilingInverse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		kelvin := rapid.Float64Range(273.15, 423.15).Draw(t, "K")
		assert.InEpsilon(t, kelvin, float64(BoilingPoint(SaturationPressure(q.Temperature(kelvin)))), 1e-9)
	})
}

// EthanolByMass undoes the definition of strength by volume.
func TestEthanolInverse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0.0001, 0.9999).Draw(t, "by mass")
		byVolume := p * float64(EthanolDensity(q.Celsius(20), q.Fraction(p))) / 789.24
		assert.InEpsilon(t, p, float64(EthanolByMass(q.Fraction(byVolume))), 1e-10)
	})
}

// Of knows the kinds of a design, an empty one being the usual: water.
func TestOf(t *testing.T) {
	t.Parallel()
	for kind, want := range map[string]string{"": "water at 20 °C", "water": "water at 20 °C", "sugar": "12 °P sugar solution at 20 °C",
		"fermented": "fermented drink of 6 % vol and 12 % extract at 20 °C", "spirits": "spirits of 6 % vol at 20 °C",
		"milk": "milk of 4 % fat at 20 °C", "skim": "skim milk of 4 % fat at 20 °C", "cream": "cream of 4 % fat at 20 °C", "whey": "whey at 20 °C",
		"caustic": "12 % caustic at 20 °C", "nitric": "12 % nitric acid at 20 °C", "phosphoric": "12 % phosphoric acid at 20 °C", "peracetic": "12 % peracetic acid at 20 °C",
		"other": "your liquid at 20 °C", "power-law": "your power-law liquid at 20 °C", "bingham": "your Bingham liquid at 20 °C"} {
		p, ok := Of(Recipe{Kind: kind, Strength: 0.12, Alcohol: 0.06, Fat: 0.04}, q.Celsius(20))
		assert.True(t, ok, kind)
		assert.Equal(t, want, p.Name)
		assert.NotEmpty(t, p.Sources.Density)
	}
	_, ok := Of(Recipe{Kind: "treacle", Strength: 0.8}, q.Celsius(20))
	assert.False(t, ok)
}

// The raw terms are summed by squaring; math.Pow is the check.
func TestPower(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x, n := rapid.Float64Range(0.3, 8).Draw(t, "x"), rapid.IntRange(-41, 32).Draw(t, "n")
		assert.InEpsilon(t, math.Pow(x, float64(n)), power(x, n), 1e-13)
	})
}
