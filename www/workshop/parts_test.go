package workshop_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/stand"
	"drawoff/www/view"
	"drawoff/www/workshop"
)

// Whoever folds a part has its answer still: every part of every example has
// one, in a line that a phone has room for, and how it stands is marked as the
// gravest verdict on it is.
func TestEveryPartHasItsGist(t *testing.T) {
	t.Parallel()
	anchored, faults := design.Demo().Apply(design.Edit{Path: "stand.anchored", Value: "true"})
	require.Empty(t, faults)
	marks := map[finding.Level]bool{}
	for _, e := range append(design.Examples(), design.Example{Slug: "anchored", Design: anchored}) {
		var answer struct{ Regions map[string]string }
		request := `{"design":` + string(design.WriteFile(e.Design)) + `,"width":390,"address":"https://example.org/"}`
		require.NoError(t, json.Unmarshal([]byte(workshop.Handle(request)), &answer))
		for _, p := range view.Parts() {
			gist := answer.Regions[p.Gist()]
			assert.NotEmpty(t, gist, "%s, %s", e.Slug, p.Title)
			assert.Less(t, len([]rune(gist)), 160, "%s, %s: %s", e.Slug, p.Title, gist)
			assert.Contains(t, answer.Regions, p.Region(), p.Title)
		}
		worst := finding.Sound
		for _, v := range pipeline.Check(e.Design).Verdicts {
			switch v.Rule {
			case stand.RuleTip, stand.RulePush, stand.RuleRock, stand.RuleLoad, stand.RuleBracket, stand.RuleClear:
				worst = max(worst, v.Level)
			}
		}
		marks[worst] = true
		gist := answer.Regions["stability-gist"]
		assert.Equal(t, worst != finding.Sound, strings.HasPrefix(gist, `<span class="badge `+worst.String()+`">`), "%s: %s", e.Slug, gist)
	}
	assert.Greater(t, len(marks), 1, "one that is sound is among them, and one that is not")
}
