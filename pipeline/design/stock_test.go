package design_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
)

// What is typed of the stock is on the shelf in the words it was typed in, and
// a shelf that was written says the same when it is read.
func TestPutOnTheShelf(t *testing.T) {
	t.Parallel()
	const seal = "clamp/2in/seal/epdm"
	var s design.Shelf
	put := func(path, typed string) {
		t.Helper()
		var f *design.Fault
		s, f = s.Put(path, typed)
		require.Nil(t, f, "%v", f)
	}
	put("items:"+seal+":inHand", "3")
	put("items:"+seal+":price", "2.40")
	put("items:"+seal+":from", "the shop in town, 4711")
	put("rack:bs-4825/2in", "3,2 m")
	put("rack:leg-tube/48.3x2", "900 mm")
	put("shop.keep", "250 mm")
	put("shop.currency", "EUR")
	again, faults := design.ReadShelf(s.Write())
	require.Empty(t, faults)
	assert.Equal(t, s, again)
	assert.Equal(t, 3, again.Item(seal).InHand)
	assert.Equal(t, "2.40", again.Item(seal).Price.String())
	assert.Equal(t, "3,2 m", again.Rack[0].Length.String())
	assert.InDelta(t, 0.25, float64(again.Shop.Filled().Keep.Value()), 1e-12)
	assert.InDelta(t, 1, float64(again.Shop.Filled().Spares.Value()), 0)

	put("rack.0", "")
	require.Len(t, s.Rack, 1)
	assert.Equal(t, "leg-tube/48.3x2", s.Rack[0].Tube)
	put("items:"+seal+":inHand", "")
	put("items:"+seal+":price", "")
	put("items:"+seal+":from", "")
	assert.Empty(t, s.Items, "an item of which nothing is said is none")
	assert.Equal(t, design.Item{Part: seal}, s.Item(seal))
}

// What cannot be is told with its field, and the shelf stays as it was.
func TestPutFaults(t *testing.T) {
	t.Parallel()
	before, f := design.Shelf{}.Put("items:clamp/2in/ferrule:inHand", "2")
	require.Nil(t, f)
	before, f = before.Put("rack:bs-4825/2in", "1 m")
	require.Nil(t, f)
	text := before.Write()
	for path, typed := range map[string]string{
		"items:clamp/2in/ferrule:inHand": "-1",
		"items:clamp/2in/ferrule:price":  "dear",
		"items:clamp/2in/ferrule:weight": "1",
		"items::inHand":                  "1",
		"rack:bs-4825/2in":               "5",
		"rack:":                          "1 m",
		"rack.7":                         "",
		"shop.keep":                      "-1 mm",
		"shop.colour":                    "red",
		"measured.0.length":              "1 mm",
		"":                               "",
	} {
		after, f := before.Put(path, typed)
		if assert.NotNil(t, f, path) {
			assert.NotEmpty(t, f.What, path)
		}
		assert.Equal(t, text, after.Write(), path)
	}
}

// Joining puts nothing on twice, and says what differs.
func TestJoinStock(t *testing.T) {
	t.Parallel()
	a, faults := design.ReadShelf(`{"shelf":1,"items":[{"part":"a","inHand":2},{"part":"b","price":"1"}],"rack":[{"tube":"t","length":"1 m"}],"shop":{"keep":"1 m"}}`)
	require.Empty(t, faults)
	b, faults := design.ReadShelf(`{"shelf":1,"items":[{"part":"b","price":"2"},{"part":"c","inHand":1}],"rack":[{"tube":"t","length":"2 m"}],"shop":{"keep":"2 m"}}`)
	require.Empty(t, faults)
	joined, differ := a.Join(b)
	assert.Equal(t, []string{"b", "the offcuts on the rack", "the habits of the shop"}, differ)
	assert.Len(t, joined.Items, 3)
	assert.Equal(t, "1", joined.Item("b").Price.String())
	assert.Equal(t, a.Rack, joined.Rack)
	assert.Len(t, a.Items, 2, "a shelf that is joined to stays as it is")
	joined, differ = design.Shelf{}.Join(b)
	assert.Empty(t, differ)
	assert.Equal(t, b, joined)
	joined, differ = b.Join(b)
	assert.Empty(t, differ)
	assert.Equal(t, b, joined)
}

// An entry of the stock with a fault is left out and named; the others are read.
func TestStockFaults(t *testing.T) {
	t.Parallel()
	s, faults := design.ReadShelf(`{"shelf":1,"items":[{"part":"a","inHand":2},{"part":"a"},{"part":""},{"part":"c","inHand":-1}],"rack":[{"tube":"t","length":"90 m"},{"tube":"t","length":"1 m"}],"shop":{"keep":"90 m"}}`)
	assert.Len(t, faults, 5)
	assert.Len(t, s.Items, 1)
	assert.Len(t, s.Rack, 1)
	assert.Empty(t, s.Shop)
}

// Whatever is put where, a shelf never panics, and is written so that it can
// be read again.
func TestPutLaw(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var s design.Shelf
		for range rapid.IntRange(0, 6).Draw(t, "n") {
			path := rapid.OneOf(rapid.SampledFrom([]string{"items:a:inHand", "items:a:price", "items:b:from", "rack:t", "rack.0", "shop.trim", "shop.spares", "shop.argon"}), rapid.String()).Draw(t, "path")
			typed := rapid.OneOf(rapid.SampledFrom([]string{"", "2", "1 m", "12 L/min", "words"}), rapid.String()).Draw(t, "typed")
			s, _ = s.Put(path, typed)
		}
		text := s.Write()
		if text == "" {
			return
		}
		again, faults := design.ReadShelf(text)
		require.Empty(t, faults)
		assert.Equal(t, text, again.Write())
	})
}
