package design_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
)

// Differ is judged by the file and by edits: designs whose files are alike
// do not differ, and others do; held the other way round they differ in the
// same places; and what differs is what an edit changed.
func TestDifferAgreesWithFilesAndEdits(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, b := designtest.Design(t), designtest.Design(t)
		assert.Empty(t, design.Differ(a, a))
		there, back := design.Differ(a, b), design.Differ(b, a)
		for i := range back {
			d := &back[i]
			d.A, d.B, d.Was, d.Is = d.B, d.A, d.Is, d.Was
		}
		assert.ElementsMatch(t, there, back)
		a.Assumed, b.Assumed = nil, nil
		assert.Equal(t, string(design.WriteFile(a)) == string(design.WriteFile(b)), len(there) == 0)
		for _, d := range there {
			for _, side := range []struct {
				of          design.Design
				path, words string
			}{{a, d.A, d.Was}, {b, d.B, d.Is}} {
				if words, field := side.of.Get(side.path); field {
					assert.Equal(t, words, side.words, side.path)
				}
			}
		}
	})
}

// A piece put in, and one field changed after it, are two differences.
func TestDifferPassesOverWhatOnlyMoved(t *testing.T) {
	t.Parallel()
	a := design.Demo()
	b, faults := a.Apply(design.Edit{Op: "insert", Path: "run.1"}, design.Edit{Path: "run.1.kind", Value: design.Straight},
		design.Edit{Path: "run.1.length", Value: "250 mm"}, design.Edit{Path: "tank.height", Value: "1.9 m"})
	require.Empty(t, faults)
	assert.Equal(t, []design.Difference{
		{A: "tank.height", B: "tank.height", Was: a.Tank.Height.String(), Is: "1.9 m"},
		{B: "run.1", Is: "straight, 250 mm"},
	}, design.Differ(a, b))
	b.Run = slices.Delete(slices.Clone(b.Run), 1, 2)
	assert.Len(t, design.Differ(a, b), 1)
}
