package paper_test

import (
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/www/paper"
	"drawoff/www/view"
)

// The summary names what is not sound and nothing else, and its link opens
// the plant that it is about; markup in a name stays words.
func TestShare(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	d.Title = `</textarea><script>alert("1")</script>`
	b := view.Bench{Design: d, Report: pipeline.Check(d)}
	said := paper.Summary(b, "https://example.org/#"+design.WriteLink(d))
	for _, v := range b.Report.Verdicts {
		assert.Equal(t, v.Level != finding.Sound, strings.Contains(said, v.Sentence), v.Rule)
	}
	lines := strings.Split(said, "\n")
	assert.Equal(t, d.Title, lines[0])
	back, faults := design.ReadLink(lines[len(lines)-1])
	require.Empty(t, faults)
	assert.Equal(t, string(design.WriteFile(d)), string(design.WriteFile(back)))

	_, shown := paper.Share(b, "https://example.org/")
	assert.NotContains(t, shown, "<script")
	assert.Contains(t, shown, "<svg")
	_, rest, _ := strings.Cut(shown, `rows="8">`)
	text, _, _ := strings.Cut(rest, "</textarea>")
	assert.Equal(t, said, html.UnescapeString(text))
}
