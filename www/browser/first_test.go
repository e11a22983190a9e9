//go:build browser

package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
)

// Every example opens as it is in its file, and undo brings back what was here.
func TestExamplesOpen(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("note", "my own")
	for _, e := range design.Examples() {
		p.example(e.Name)
		p.shows("#message", "Opened")
		p.untilValue("title", e.Design.Title)
		p.untilValue("tank.bore", e.Design.Tank.Bore.String())
		for _, region := range regions {
			assert.NotContains(t, p.text("#"+region), "NaN", e.Slug)
		}
		p.click("#undo")
		p.untilValue("note", "my own")
	}
}
