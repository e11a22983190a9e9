package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// micrometre is how near is near enough: a thousandth of what a saw cuts to.
const micrometre = 1e-6

// directions draws the ways that straights run: along the axes, tilted as
// lines that drain are, or any way at all.
func directions(t *rapid.T) []Vec {
	one := rapid.Custom(func(t *rapid.T) Vec {
		usual := []Vec{{X: 1}, {Y: 1}, {Y: -1}, {Z: -1}, {Z: 1}, {X: -1}, Vec{X: 1, Z: -0.01}.Unit(), Vec{Y: 1, Z: -0.0125}.Unit()}
		if rapid.Bool().Draw(t, "usual") {
			return rapid.SampledFrom(usual).Draw(t, "way")
		}
		// Whole numbers, so that two ways are one or differ by what can be
		// told apart: less than 1 in 100 000 counts as parallel.
		c := rapid.IntRange(-20, 20)
		v := Vec{float64(c.Draw(t, "x")), float64(c.Draw(t, "y")), float64(c.Draw(t, "z"))}
		if v == (Vec{}) {
			return Vec{X: 1}
		}
		return v.Unit()
	})
	return rapid.SliceOfN(one, 1, 8).Draw(t, "directions")
}

func reached(dirs []Vec, lengths []float64) Vec {
	var v Vec
	for i, d := range dirs {
		v = v.Add(d.Scale(lengths[i]))
	}
	return v
}

// The conditions of Karush, Kuhn and Tucker are necessary and sufficient for
// the nearest point of a cone: no straight in use can bring the end nearer by
// changing, and none out of use by growing (Lawson and Hanson, "Solving Least
// Squares Problems", theorem 23.4, from memory).
func TestFitsAreNearest(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		dirs := directions(t)
		c := rapid.Float64Range(-5, 5)
		miss := Vec{c.Draw(t, "mx"), c.Draw(t, "my"), c.Draw(t, "mz")}
		lengths := fits(dirs, miss)
		left := miss.Sub(reached(dirs, lengths))
		for i, d := range dirs {
			assert.GreaterOrEqual(t, lengths[i], 0.0)
			gain := d.Dot(left)
			assert.LessOrEqual(t, gain, micrometre, "straight %d could grow", i)
			if lengths[i] > micrometre {
				assert.GreaterOrEqual(t, gain, -micrometre, "straight %d could shrink", i)
			}
		}
	})
}

// A target that some lengths reach is reached, and no other lengths that do
// have a smaller sum of squares: along any change that keeps the end where it
// is, the sum does not fall.
func TestFitsReachAndShare(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		dirs := directions(t)
		known := rapid.SliceOfN(rapid.Float64Range(0, 3), len(dirs), len(dirs)).Draw(t, "known")
		lengths := fits(dirs, reached(dirs, known))
		missed := reached(dirs, known).Sub(reached(dirs, lengths)).Len()
		assert.Less(t, missed, micrometre)
		var ours, theirs float64
		for i := range dirs {
			ours += lengths[i] * lengths[i]
			theirs += known[i] * known[i]
		}
		assert.LessOrEqual(t, ours, theirs+1e-6)
	})
}

func TestFitsShareEvenly(t *testing.T) {
	t.Parallel()
	assert.InDeltaSlice(t, []float64{1, 0.5, 1}, fits([]Vec{{X: 1}, {Z: -1}, {X: 1}}, Vec{X: 2, Z: -0.5}), 1e-12)
}

// A target behind the line leaves the straight at nothing, and one to the
// side is approached as near as the straight goes.
func TestFitsNeverUnderZero(t *testing.T) {
	t.Parallel()
	assert.Equal(t, []float64{0}, fits([]Vec{{X: 1}}, Vec{X: -2}))
	assert.InDeltaSlice(t, []float64{2}, fits([]Vec{{X: 1}}, Vec{X: 2, Y: 1}), 1e-12)
	assert.InDeltaSlice(t, []float64{0, 1}, fits([]Vec{{X: 1}, {Y: 1}}, Vec{X: -1, Y: 1}), 1e-12)
}

// The eigenvalues of [[2 1 0][1 2 0][0 0 3]] are 1, 3 and 3 (textbook case).
func TestEigen(t *testing.T) {
	t.Parallel()
	values, vectors := eigen([3][3]float64{{2, 1, 0}, {1, 2, 0}, {0, 0, 3}})
	assert.ElementsMatch(t, []float64{1, 3, 3}, []float64{rounded(values[0]), rounded(values[1]), rounded(values[2])})
	for i := range vectors {
		assert.InDelta(t, 1, vectors[i].Len(), 1e-14)
		assert.InDelta(t, 0, vectors[i].Dot(vectors[(i+1)%3]), 1e-14)
	}
}

func rounded(x float64) float64 { return float64(int(x*1e12+0.5)) / 1e12 }
