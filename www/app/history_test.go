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

// What could not be taken stays when something else is undone, and done again;
// what was typed over it does not bring it back.
func TestUndoLeavesWhatIsPending(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	form := ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Path: "tank.bore", Value: "about a metre"}}}).Regions["form"]
	require.Contains(t, form, `value="about a metre"`)
	edit(t, a, "pump.away", "2 m")
	for _, step := range []struct{ op, away string }{{"undo", "1.8 m"}, {"redo", "2 m"}} {
		form = ask(t, a, app.Request{Op: step.op}).Regions["form"]
		assert.Equal(t, step.away, present(t, a).Pump.Away.String())
		assert.Contains(t, form, `value="about a metre"`, step.op)
	}
	edit(t, a, "tank.bore", "970 mm")
	form = ask(t, a, app.Request{Op: "undo"}).Regions["form"]
	assert.Contains(t, form, `value="960 mm"`)
	assert.NotContains(t, form, "about a metre")
}
