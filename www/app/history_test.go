package app_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	"drawoff/www/app"
)

// Keystrokes of one entry are one step, going to a step is what as many undos
// and redos do, and what could not be taken is no place to go to.
func TestHistoryIsGoneBackAndForth(t *testing.T) {
	t.Parallel()
	a := app.New()
	stores := map[int]string{}
	do := func(req app.Request) app.Response {
		res := ask(t, a, req)
		stores[res.Step] = res.Store
		return res
	}
	steps := func() []int { return ask(t, a, app.Request{Op: "history"}).Steps }
	do(app.Request{Op: "start", Home: "one"})
	assert.Equal(t, []int{0}, steps())
	for _, value := range []string{"9", "98", "980 mm"} {
		do(app.Request{Op: "edit", Typing: true, Edits: []design.Edit{{Path: "tank.bore", Value: value}}})
		assert.LessOrEqual(t, len(steps()), 2, "asking for the history ends no entry")
	}
	do(app.Request{Op: "edit", Edits: []design.Edit{{Path: "tank.bore", Value: "980 mm"}}})
	do(app.Request{Op: "edit", Edits: []design.Edit{{Op: "remove", Path: "under.1"}}})
	last := do(app.Request{Op: "mend", Value: "Raise the tank", Edits: []design.Edit{{Path: "stand.height", Value: "800 mm"}}})
	all := steps()
	require.Len(t, all, 4)
	assert.IsIncreasing(t, all)
	assert.Equal(t, last.Step, all[3])

	for _, to := range []int{0, 3, 1, 2, 0, 2, 3} {
		res := ask(t, a, app.Request{Op: "go", Value: strconv.Itoa(all[to])})
		assert.Equal(t, all[to], res.Step)
		assert.Equal(t, stores[all[to]], res.Store, "the design of that step")
		assert.Equal(t, to > 0, res.Undo)
		assert.Equal(t, to < 3, res.Redo)
		assert.Equal(t, all, steps(), "nothing is lost by going")
	}
	assert.Equal(t, last.Step, ask(t, a, app.Request{Op: "go", Value: "99"}).Step, "no further than there is")

	ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Path: "tank.bore", Value: "wide"}}})
	assert.Equal(t, all, steps())
	ask(t, a, app.Request{Op: "undo"}) // takes that entry back, and nothing else
	assert.Equal(t, all, steps())
	assert.Equal(t, all[1], ask(t, a, app.Request{Op: "go", Value: strconv.Itoa(all[1])}).Step)

	do(app.Request{Op: "edit", Edits: []design.Edit{{Path: "tank.height", Value: "1.3 m"}}})
	assert.Equal(t, all[:2], steps()[:2])
	assert.Len(t, steps(), 3, "what came after is gone once something else is done")
}
