package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drawoff/www/app"
)

// What if is asked of the workshop, with the design, and again after every
// edit; to ask changes nothing.
func TestWhatIfIsKept(t *testing.T) {
	t.Parallel()
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	res := ask(t, a, app.Request{Op: "whatif", Path: "liquid.temperature", Value: "flow-full"})
	const asked = `"move":"liquid.temperature","watch":"flow-full"`
	assert.Contains(t, res.Shop, asked)
	assert.Empty(t, res.Regions, "the page itself stays as it is")
	assert.False(t, res.Undo)
	assert.Contains(t, edit(t, a, "stand.height", "800 mm").Shop, asked)
}
