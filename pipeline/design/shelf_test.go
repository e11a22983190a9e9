package design_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
)

// A shelf survives being written and read, and joining it to itself changes nothing.
func TestShelfSurvives(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		s := design.Shelf{Measured: d.Measured, Made: d.Made}
		text := s.Write()
		if text == "" {
			require.Empty(t, d.Measured)
			require.Empty(t, d.Made)
			return
		}
		assert.True(t, design.IsShelf(text))
		again, faults := design.ReadShelf(text)
		require.Empty(t, faults)
		assert.Equal(t, text, again.Write())
		joined, differ := again.Join(again)
		assert.Empty(t, differ)
		assert.Equal(t, text, joined.Write())
	})
	assert.False(t, design.IsShelf(string(design.WriteFile(design.Demo()))))
	assert.False(t, design.IsShelf("nonsense"))
}

// What a later Drawoff puts on a shelf, stock and prices, this one hands back.
func TestShelfKeepsWhatItDoesNotKnow(t *testing.T) {
	t.Parallel()
	const later = `{"shelf":1,"stock":[{"tube":"bs-4825/2in","length":"3.2 m"}],"measured":[{"part":"clamp/2in/gap","length":"1.9 mm"}],"currency":"EUR"}`
	s, faults := design.ReadShelf(later)
	require.Empty(t, faults)
	s = s.Forget("clamp/2in/gap")
	assert.JSONEq(t, `{"shelf":1,"stock":[{"tube":"bs-4825/2in","length":"3.2 m"}],"currency":"EUR"}`, s.Write())
}

// An entry with a fault is left out and named; the others are read.
func TestShelfFaults(t *testing.T) {
	t.Parallel()
	s, faults := design.ReadShelf(`{"shelf":1,
		"measured":[{"part":"clamp/2in/gap","length":"1.9 mm"},{"part":"clamp/2in/gap","length":"2 mm"},{"part":"","length":"2 mm"}],
		"made":[{"name":"","pieces":[{"kind":"bend"}]},{"name":"a","pieces":[]},{"name":"b","pieces":[{"kind":"elbow"}]},{"name":"c","pieces":[{"kind":"bend","size":"bs-4825/2in"}]}]}`)
	assert.Len(t, s.Measured, 1)
	require.Len(t, s.Made, 1)
	assert.Equal(t, "c", s.Made[0].Name)
	assert.Len(t, faults, 5)
	for _, text := range []string{"", "[]", "{", `{"shelf":1`} {
		_, faults := design.ReadShelf(text)
		assert.NotEmpty(t, faults, text)
	}
}

// A part made up is judged in a design as a piece is, under its own path.
func TestMadeFaults(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	d.Made = []design.Made{{Name: "a", Pieces: []design.Piece{{Kind: design.Straight}}}, {Name: "a", Pieces: make([]design.Piece, design.MaxMadePieces+1)}}
	fields := map[string]bool{}
	for _, f := range d.Validate() {
		fields[f.Field] = true
	}
	for _, want := range []string{"made.0.pieces.0.length", "made.1.name", "made.1.pieces", "made.1.pieces.0.kind"} {
		assert.True(t, fields[want], want)
	}
	c := d.Clone()
	c.Made[0].Pieces[0].Kind = design.Bend
	assert.Equal(t, design.Straight, d.Made[0].Pieces[0].Kind, "a clone shares nothing")
}
