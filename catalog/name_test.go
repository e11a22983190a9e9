package catalog_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// Every length that the catalogue can make up has a name in words of its own.
func TestEveryDimensionHasAName(t *testing.T) {
	t.Parallel()
	of := map[string]string{}
	name := func(d catalog.Dimension) {
		words := catalog.DimensionName(d.Slug)
		require.NotEqual(t, d.Slug, words)
		assert.NotContains(t, words, ", ,", d.Slug)
		if other, had := of[words]; had {
			assert.Equal(t, other, d.Slug, "two lengths are called %q", words)
		}
		of[words] = d.Slug
	}
	for _, j := range catalog.Joints() {
		name(j.Gap)
		for _, d := range j.Lengths {
			name(d)
		}
	}
	for _, tube := range catalog.Tubes() {
		for _, shape := range append(catalog.BendShapes(tube), "") {
			for _, angle := range []q.Angle{90, 45, 37.5} {
				if b, ok := catalog.BendOf(tube, shape, angle*q.Degree); ok {
					name(b.CentreToEnd)
				}
			}
		}
		if f, ok := catalog.TeeOf(tube, ""); ok {
			name(f.CentreToEnd)
			name(f.BranchToEnd)
		}
		for _, kind := range catalog.Bodies() {
			b, ok := catalog.BodyOf(kind.Slug, tube)
			require.True(t, ok)
			name(b.Length)
		}
		for _, kind := range []string{catalog.Cross, catalog.Pocket, catalog.Cock, catalog.Seat} {
			f, ok := catalog.TeeLike(kind, tube)
			require.True(t, ok)
			name(f.CentreToEnd)
			name(f.BranchToEnd)
		}
		name(catalog.ReducerOf(tube, catalog.Tubes()[0], "eccentric").Length)
	}
	assert.Equal(t, "90° bend, short, 2 in (BS 4825-1), centre to end", catalog.DimensionName("bs-4825/2in/bend/90/short/centre-to-end"))
	assert.Equal(t, "2 in ring joint liner, length", catalog.DimensionName("ring-joint/2in/liner/length"))
	for _, slug := range []string{"", "/", "a/b", "a/b/c/d", "bs-4825/2in", "bs-4825/2in/bend", strings.Repeat("/", 50)} {
		assert.Equal(t, slug, catalog.DimensionName(slug), "no dimension")
	}
}

// BS 4825-2 gives +0.5/-0 for the lengths of its bends and tees (bend table,
// stockholder's reproduction). Anything else is held to ISO 2768-1:1989 Table
// 1, class c, from memory: ±0.8 from 30 to 120 mm, ±0.5 from 6 to 30 mm.
func TestTolerance(t *testing.T) {
	t.Parallel()
	for slug, want := range map[string][2]float64{
		"bs-4825/2in/bend/90/short/centre-to-end": {0.5, 0},
		"bs-4825/2in/tee/short/run":               {0.5, 0},
		"din-11866-a/dn50/bend/90/centre-to-end":  {0.8, 0.8},
		"clamp/2in/ferrule/length":                {0.5, 0.5},
	} {
		d, ok := catalog.FindDimension(slug)
		require.True(t, ok, slug)
		over, under, basis := d.Tolerance()
		assert.InDelta(t, want[0], over.Millimetres(), 1e-9, slug)
		assert.InDelta(t, want[1], under.Millimetres(), 1e-9, slug)
		assert.NotEmpty(t, basis)
	}
}
