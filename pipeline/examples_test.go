package pipeline_test

import (
	"flag"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
)

var update = flag.Bool("update", false, "write the example files anew from package design")

// The examples in testdata are those that the page opens: a reader of the
// README and a visitor of the page see the same plants.
func TestExamplesAreTheFiles(t *testing.T) {
	for _, e := range design.Examples() {
		name, want := "../testdata/"+e.Slug+".json", design.WriteFile(e.Design)
		if *update {
			require.NoError(t, os.WriteFile(name, want, 0o644))
		}
		have, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(have), "an example was changed: run go test ./pipeline -run ExamplesAreTheFiles -update")
		again, faults := design.ReadLink(design.WriteLink(e.Design))
		assert.Empty(t, faults, e.Slug)
		assert.Equal(t, e.Design, again, e.Slug)
	}
}

// Each example is worked out, says what it is there to show, and says stop to nothing:
// somebody who opens it is to learn from it, not to mend it.
func TestExamplesShowWhatTheyAreFor(t *testing.T) {
	shows := map[string]string{
		"perry":    "Bucket under the stack",
		"whey":     "it scalds",
		"settling": "By gravity it runs",
		"puree":    "The flow is laminar",
	}
	for _, e := range design.Examples() {
		r := pipeline.Check(e.Design)
		require.Empty(t, r.Faults, e.Slug)
		var said strings.Builder
		for _, v := range r.Verdicts {
			said.WriteString(v.Sentence + "\n")
			assert.NotEqual(t, finding.Stop, v.Level, "%s: %s", e.Slug, v.Sentence)
		}
		require.Contains(t, shows, e.Slug)
		assert.Contains(t, said.String(), shows[e.Slug], e.Slug)
	}
}

// Nobody is told to throttle to less than a valve can be set to by hand: over
// the whey tank's outlet stands little more than its bore, which is free of air
// only as good as shut (Hecker 1987: a bore's depth keeps air out of no flow).
func TestThrottleThatCanBeSet(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		for _, v := range pipeline.Check(e.Design).Verdicts {
			if _, after, told := strings.Cut(v.Advice, "or throttle to "); told && v.Rule == "air-drawn" {
				litres, err := strconv.ParseFloat(strings.Fields(after)[0], 64)
				require.NoError(t, err, v.Advice)
				assert.Greater(t, litres, 5.0, e.Name+": "+v.Advice)
			}
		}
	}
}
