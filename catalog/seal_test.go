package catalog_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/catalog"
)

var media = []string{
	"hot-water", "caustic", "nitric", "phosphoric", "peracetic", "hypochlorite",
	"milk", "fat", "citrus-oil", "hop-oil", "ethanol", "water", "sugar",
}

func TestSealTemperatures(t *testing.T) {
	t.Parallel()
	// °C, the bounds that sources print; none may be exceeded.
	for slug, bound := range map[string]struct {
		low, high float64
		source    string
	}{
		"epdm": {-50, 150, "seal maker's manual for the process industry, in air"},
		"nbr":  {-29, 99, "trade list, continuous"},
		"hnbr": {-30, 150, "from memory"},
		"fkm":  {-15, 193, "trade list, continuous"},
		"vmq":  {-54, 100, "trade list for clamp seals (high), trade list (low)"},
		"ptfe": {-200, 260, "trade list (high); low from memory"},
	} {
		m, ok := catalog.FindMaterial(slug)
		require.True(t, ok, slug)
		assert.GreaterOrEqual(t, m.Lowest.Celsius(), bound.low-hair, "%s: %s", slug, bound.source)
		assert.LessOrEqual(t, m.Highest.Celsius(), bound.high+hair, "%s: %s", slug, bound.source)
		assert.LessOrEqual(t, m.HotWater, m.Highest, slug)
		assert.Less(t, m.Lowest, m.HotWater, slug)
		assert.Less(t, m.Lowest.Celsius(), 0.0, "every one stands cold water")
		assert.NotEmpty(t, m.Source)
		assert.NotEmpty(t, m.Trust)
	}
	assert.Len(t, catalog.Materials(), 6)
	// EPDM alone of the rubbers is for steam (the manual); NBR is not (trade list).
	epdm, _ := catalog.FindMaterial("epdm")
	nbr, _ := catalog.FindMaterial("nbr")
	assert.Greater(t, epdm.HotWater.Celsius(), 121.0)
	assert.Less(t, nbr.HotWater.Celsius(), 100.0)
	_, ok := catalog.FindMaterial("EPDM")
	assert.False(t, ok)
}

func TestSealsInMedia(t *testing.T) {
	t.Parallel()
	rank := map[catalog.Rating]int{catalog.Good: 0, catalog.Limited: 1, catalog.Avoid: 2}
	for _, m := range catalog.Materials() {
		for _, medium := range media {
			rating, trust, source, ok := catalog.Stands(m.Slug, medium)
			require.True(t, ok, "%s in %s", m.Slug, medium)
			assert.Contains(t, rank, rating)
			assert.NotEmpty(t, trust)
			assert.Equal(t, trust == catalog.Memory, strings.HasPrefix(source, "From memory"), source)
		}
	}
	// Seal maker's manual for the process industry: EPDM good in cleaning agents
	// and hot water, not in fats and citrus oil; FKM the other way about; HNBR
	// and VMQ beyond the limit in citrus oil.
	for cell, want := range map[[2]string]catalog.Rating{
		{"epdm", "hot-water"}: catalog.Good, {"epdm", "caustic"}: catalog.Good, {"epdm", "nitric"}: catalog.Good,
		{"epdm", "phosphoric"}: catalog.Good, {"epdm", "peracetic"}: catalog.Good, {"epdm", "ethanol"}: catalog.Good,
		{"epdm", "milk"}: catalog.Limited, {"epdm", "fat"}: catalog.Avoid, {"epdm", "citrus-oil"}: catalog.Avoid,
		{"fkm", "citrus-oil"}: catalog.Good, {"fkm", "fat"}: catalog.Good, {"fkm", "caustic"}: catalog.Avoid,
		{"hnbr", "citrus-oil"}: catalog.Avoid, {"vmq", "citrus-oil"}: catalog.Avoid,
	} {
		rating, trust, _, _ := catalog.Stands(cell[0], cell[1])
		assert.Equal(t, want, rating, cell)
		assert.NotEqual(t, catalog.Memory, trust, cell)
	}
	// No rubber is good in everything.
	for _, m := range catalog.Materials() {
		worst := 0
		for _, medium := range media {
			rating, _, _, _ := catalog.Stands(m.Slug, medium)
			worst = max(worst, rank[rating])
		}
		assert.Equal(t, m.Slug != "ptfe", worst == 2, m.Slug)
	}
	_, _, _, ok := catalog.Stands("epdm", "petrol")
	assert.False(t, ok)
}
