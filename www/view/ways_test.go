package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
)

// offered is what is offered under the verdict of a rule, with edits made to an example.
func offered(t *testing.T, slug, rule string, edits ...design.Edit) string {
	t.Helper()
	for _, e := range design.Examples() {
		if e.Slug != slug {
			continue
		}
		d, faults := e.Design.Apply(edits...)
		require.Empty(t, faults)
		for _, f := range Ways(Bench{Design: d, Report: pipeline.Check(d)}) {
			if strings.HasPrefix(f.ID, "ways:"+rule+":") {
				return f.Content
			}
		}
	}
	require.Failf(t, "no such verdict", "%s of %s", rule, slug)
	return ""
}

// A repair is a button; a pair says that no single change does it; and where
// nothing does, that is said too.
func TestWaysSayWhatTheyAre(t *testing.T) {
	t.Parallel()
	single := offered(t, "perry", "stand-height")
	assert.Contains(t, single, ">Raise the tank by ")
	assert.NotContains(t, single, "No ")
	pair := offered(t, "settling", "gravity-flow", design.Edit{Path: "delivery.height", Value: "2.5 m"}, design.Edit{Path: "delivery.away"}, design.Edit{Path: "stand.height", Value: "600 mm"})
	assert.Contains(t, pair, "These two together do:")
	assert.Contains(t, pair, `aria-label="Changes that go together"`)
	assert.Contains(t, offered(t, "settling", "fall", design.Edit{Path: "limits.fall", Value: "1:3"}), "None of the single changes that were tried does it, and no two of them.")
	assert.Empty(t, offered(t, "puree", "fitting-range",
		design.Edit{Path: "pump.slip.0.headRequired", Value: "8.2 m"}, design.Edit{Path: "pump.slip.1.headRequired", Value: "8.2 m"}), "its advice says all that there is to say")
}
