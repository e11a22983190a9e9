package design_test

import (
	"slices"
	"strings"
	"testing"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func offered(d design.Design, path string) (slugs []string) {
	for _, c := range design.Choices(d, path) {
		slugs = append(slugs, c.Slug)
	}
	return slugs
}

func TestChoices(t *testing.T) {
	t.Parallel()
	d := plant()
	assert.Equal(t, []string{"cone", "klopper", "korbbogen", "flat"}, offered(d, "tank.bottom"))
	assert.Equal(t, []string{"3", "4", "5", "6"}, offered(d, "stand.legs"))
	assert.Equal(t, []string{"concentric", "eccentric"}, offered(d, "under.0.shape"))
	assert.Len(t, offered(d, "under.0.kind"), len(design.Kinds()))
	assert.Len(t, offered(d, "pump.inSize"), len(catalog.Tubes()))
	assert.NotEmpty(t, design.Choices(d, "pump.inSize")[0].Group)
	assert.Contains(t, offered(d, "pump.seal"), "none")
	assert.NotContains(t, offered(d, "seal"), "none")
	for _, free := range []string{"title", "tank.bore", "under.0.name", "run.0.length", "run.99.shape", "measured.0.part", "measured.0.kind", "kind", ""} {
		assert.Empty(t, offered(d, free), free)
	}

	// The ends of a reducer are those of two tubes; a tube carries no union of
	// another standard.
	big, _ := catalog.FindTube("bs-4825/2.5in")
	small, _ := catalog.FindTube("bs-4825/1.5in")
	assert.Equal(t, slices.DeleteFunc(slices.Clone(catalog.Ends(big)), catalog.OnHose), offered(d, "under.0.in"), "only a hose has a cut end")
	assert.Equal(t, slices.DeleteFunc(slices.Clone(catalog.Ends(small)), catalog.OnHose), offered(d, "under.0.out"))
	d.Run[0].Kind = design.Hose
	assert.Equal(t, catalog.Ends(small), offered(d, "run.0.in"))
	d.Run[0].Kind = design.Straight
	// Tube that only looks hygienic comes last, under headings that say so.
	groups := design.Choices(d, "tank.outlet.size")
	assert.NotContains(t, groups[0].Group, "Not for product")
	for i := 1; i < len(groups); i++ {
		if strings.HasPrefix(groups[i-1].Group, "Not for product: ") {
			assert.True(t, strings.HasPrefix(groups[i].Group, "Not for product: "), groups[i].Slug)
		}
	}
	assert.True(t, strings.HasPrefix(groups[len(groups)-1].Group, "Not for product: "))
	assert.NotContains(t, offered(d, "under.0.in"), "dairy-union/male")
}

// Whatever is offered may be chosen: it brings no fault to its own field.
func TestWhatIsOfferedMayBeChosen(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		path := rapid.SampledFrom(leaves(d)).Draw(t, "path")
		choices := offered(d, path)
		if len(choices) == 0 {
			return
		}
		chosen, faults := d.Apply(set(path, rapid.SampledFrom(choices).Draw(t, "choice")))
		require.Empty(t, faults)
		for _, f := range chosen.Validate() {
			// A wide tube may be chosen for a narrow tank, which is for the two of them to settle.
			if path == "tank.outlet.size" && f.What != "is not a tube in the catalogue" {
				continue
			}
			require.NotEqual(t, path, f.Field, f.String())
		}
	})
}

// The fields that a kind lists are fields of a Piece.
func TestKindsNameFields(t *testing.T) {
	t.Parallel()
	d := plant()
	for _, k := range design.Kinds() {
		found, ok := design.FindKind(k.Slug)
		assert.True(t, ok)
		assert.Equal(t, k, found)
		for _, f := range k.Fields {
			_, ok := d.Get("run.0." + f)
			assert.True(t, ok, "%s.%s", k.Slug, f)
		}
	}
	_, ok := design.FindKind("elbow")
	assert.False(t, ok)
}
