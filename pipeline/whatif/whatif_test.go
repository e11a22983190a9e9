package whatif_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/whatif"
)

func set(path, value string) design.Edit { return design.Edit{Path: path, Value: value} }

// The suction head of water falls with its temperature by just what its vapour
// pressure takes, as long as the flow stays: p_v by IAPWS R7-97(2012), table
// values at 20, 40, 60 and 80 °C, density likewise. The line's loss, which
// falls as water thins, may give back a little; the head may not exceed that.
func TestSuctionHeadAgainstTemperature(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(set("liquid.kind", "water"), set("liquid.temperature", "20 °C"))
	require.Empty(t, faults)
	c, ok := whatif.Sweep(d, "liquid.temperature", "suction-head-available-lowest")
	require.True(t, ok)
	assert.Equal(t, "°C", c.Unit)
	assert.Equal(t, "20 °C", c.Points[c.Now].Value)
	const air, g = 101325.0, 9.80665
	steam := map[float64][2]float64{20: {2339, 998.2}, 40: {7385, 992.2}, 60: {19946, 983.2}, 80: {47414, 971.8}} // Pa, kg/m³
	head := func(t float64) float64 { return (air - steam[t][0]) / (steam[t][1] * g) }
	at := map[float64]float64{}
	for _, p := range c.Points {
		if p.Is != nil {
			at[p.At] = p.Is.SI
			require.NotNil(t, p.Limit, p.Value)
		}
	}
	for _, warm := range []float64{40, 60, 80} {
		falls := at[20] - at[warm]
		assert.InDelta(t, head(20)-head(warm), falls, 0.15, "%g °C", warm)
		assert.LessOrEqual(t, falls, head(20)-head(warm)+1e-3, "%g °C", warm)
	}
	// An open tank boils at 100 °C at sea level: nothing is left but the height over the pump.
	require.Contains(t, at, 100.0)
	assert.Less(t, at[100], 1.5)
}

// A wider tube never empties the tank slower, and where it is what is there
// now, the figure is the report's own.
func TestTimeAgainstTube(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	slug := pipeline.Check(d).Transfer().Figures[0].Slug
	c, ok := whatif.Sweep(d, "under.0.to", slug)
	require.True(t, ok)
	now, ok := pipeline.Check(d).Transfer().Figure(slug)
	require.True(t, ok)
	require.NotNil(t, c.Points[c.Now].Is)
	assert.InDelta(t, now.Amount.SI, c.Points[c.Now].Is.SI, 1e-9)
	assert.Equal(t, "bs-4825/1.5in", c.Points[c.Now].Value)
	last := math.Inf(1)
	known := 0
	for _, p := range c.Points {
		if p.Is == nil {
			continue
		}
		known++
		assert.LessOrEqual(t, p.Is.SI, last*(1+1e-3), p.Value)
		last = p.Is.SI
	}
	assert.GreaterOrEqual(t, known, 3)
}

// Whatever the plant: the values of an input rise, hold what it has now once,
// and are taken as they are typed, to the number that they say.
func TestValues(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		paths := []string{"tank.bore", "tank.lowest", "stand.height", "stand.legs", "stand.splay", "pump.away", "pump.height", "pump.speed", "pump.inSize", "delivery.flow",
			"liquid.temperature", "liquid.strength", "liquid.alcohol", "site.altitude", "site.floorFall", "limits.suctionMargin", "limits.suctionRatio", "limits.fall", "limits.boreStep", "tank.bottom", "liquid.kind", "stand.brace", "seal"}
		for i := range d.Run {
			for _, member := range []string{".length", ".angle", ".turn", ".fall", ".size", ".open", ".kv", ".roughness"} {
				paths = append(paths, "run."+strconv.Itoa(i)+member)
			}
		}
		for _, path := range paths {
			values, now := whatif.Values(d, path), 0
			for i, v := range values {
				if i > 0 {
					require.Greater(t, v.At, values[i-1].At, "%s: %s", path, v.Typed)
				}
				if v.Now {
					now++
				}
				changed, faults := d.Apply(set(path, v.Typed))
				require.Empty(t, faults, "%s: %s", path, v.Typed)
				if got, ok := changed.Amount(path); ok && v.Unit != "%" && v.Unit != "" && !v.Now {
					in := got.In(q.Metric)
					switch v.Unit {
					case got.Kind.Unit(q.Inches):
						in = got.In(q.Inches)
					case "m":
						in = got.SI
					case "ft":
						in = got.SI / 0.3048
					}
					require.InDelta(t, v.At, in, 1e-6*math.Max(1, math.Abs(v.At)), "%s: %s", path, v.Typed)
				}
			}
			if len(values) > 0 {
				require.Equal(t, 1, now, path)
				require.LessOrEqual(t, len(values), 60, path)
			}
		}
	})
}

// What has no number, or no figure, is not swept.
func TestNothingToSweep(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	for _, path := range []string{"title", "tank.outlet.end", "pump.kind", "run.0.kind", "moonbeams", "run.99.length", "delivery.flow", ""} {
		_, ok := whatif.Sweep(d, path, "suction-head-available-lowest")
		assert.False(t, ok, path)
	}
	_, ok := whatif.Sweep(d, "liquid.temperature", "moonbeams")
	assert.False(t, ok)
}

// Every figure that can be watched is found again by its slug, those of the
// emptying, the stand, the wash and the breathing among them.
func TestEveryFigureCanBeWatched(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	figures := whatif.Figures(pipeline.Check(d))
	slugs := map[string]bool{}
	for _, f := range figures {
		assert.False(t, slugs[f.Slug], f.Slug)
		slugs[f.Slug] = true
		c, ok := whatif.Sweep(d, "stand.legs", f.Slug)
		if assert.True(t, ok, f.Slug) {
			assert.Equal(t, f.Amount, *c.Points[c.Now].Is, f.Slug)
		}
	}
	for _, slug := range []string{"transfer-time", "foot-circle", "wash-flow"} {
		assert.True(t, slugs[slug], slug)
	}
}
