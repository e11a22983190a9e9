package drain

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// heights draws a line in steps of a millimetre, ten times what counts.
func heights(t *rapid.T) []float64 {
	mm := rapid.SliceOfN(rapid.IntRange(0, 12), 1, 30).Draw(t, "heights in mm")
	z := make([]float64, len(mm))
	for i, h := range mm {
		z[i] = float64(h) / 1000
	}
	return z
}

// What stays on a line open at both ends stands, at every place, as high as
// the lower of the highest points before and after it.
func filled(z []float64) (deepest float64) {
	for i := range z {
		deepest = max(deepest, min(slices.Max(z[:i+1]), slices.Max(z[i:]))-z[i])
	}
	return deepest
}

func TestPocketsHoldWhatStays(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		z := heights(t)
		var deepest float64
		for _, p := range pockets(z) {
			deepest = max(deepest, p.depth)
			assert.Greater(t, p.depth, hold)
			assert.Greater(t, p.from, 0, "an open end is no pocket")
			assert.Less(t, p.to, len(z)-1, "an open end is no pocket")
			for i := p.from; i <= p.to; i++ {
				assert.InDelta(t, z[p.from], z[i], 1e-12)
			}
			assert.Greater(t, z[p.from-1], z[p.from])
			assert.Greater(t, z[p.to+1], z[p.to])
		}
		assert.InDelta(t, filled(z), deepest, 1e-12)
	})
}

func TestPocketsFromTheOtherEnd(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		z := heights(t)
		there := pockets(z)
		slices.Reverse(z)
		back := pockets(z)
		slices.Reverse(back)
		for i := range back {
			back[i].from, back[i].to = len(z)-1-back[i].to, len(z)-1-back[i].from
		}
		assert.Equal(t, there, back)
	})
}

// Less than a tenth of a millimetre is no pocket.
func TestPocketsHold(t *testing.T) {
	t.Parallel()
	assert.Empty(t, pockets(nil))
	assert.Empty(t, pockets([]float64{0.00009, 0, 0.00009}))
	assert.Len(t, pockets([]float64{0.00011, 0, 0.00011}), 1)
	assert.Empty(t, pockets([]float64{0, 1, 2}), "it rises from its open end")
	assert.Empty(t, pockets([]float64{0, 1, 0}), "a hump")
}
