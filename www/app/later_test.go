package app_test

import (
	"encoding/json"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	"drawoff/www/app"
	"drawoff/www/view"
)

// told is what the workshop tells of d, when a asked it by shop.
func told(t require.TestingT, shop string, d design.Design) app.Request {
	var asked struct{ Plant int }
	require.NoError(t, json.Unmarshal([]byte(shop), &asked))
	return app.Request{Op: "later", Text: finding.Pass(pipeline.Check(d).Later().Verdicts), Value: strconv.Itoa(asked.Plant)}
}

func take(t require.TestingT, a *app.App, d design.Design, home string) app.Response {
	return ask(t, a, app.Request{Op: "take", Text: `{"design":` + string(design.WriteFile(d)) + `}`, Home: home})
}

// What the workshop tells stands among the rest as Check has it, in the list
// and in the tally, and marks its pieces; before that the page says what it
// does not know.
func TestVerdictsAreOneList(t *testing.T) {
	t.Parallel()
	joins := func(t require.TestingT, d design.Design) {
		whole := view.Bench{Design: d, Report: pipeline.Check(d)}
		a := app.New()
		res := take(t, a, d, "there")
		if res.Problem {
			require.NotEmpty(t, whole.Report.Faults)
			return
		}
		assert.Contains(t, res.Regions["verdicts"], "Not worked out yet")
		assert.NotContains(t, res.Regions["tally"], "every rule")
		shown := res.Regions
		res = ask(t, a, told(t, res.Shop, d))
		for id, content := range res.Regions {
			shown[id] = content
		}
		assert.Equal(t, view.Verdicts(whole), shown["verdicts"])
		assert.Equal(t, view.Tally(whole), shown["tally"])
		assert.Equal(t, view.Pieces(whole), shown["pieces"])
		assert.NotContains(t, shown["verdicts"], "Not worked out yet")
		assert.Empty(t, res.Store+res.Shop, "nobody did anything")
	}
	for _, e := range design.Examples() {
		joins(t, e.Design)
	}
	rapid.Check(t, func(t *rapid.T) { joins(t, designtest.Design(t)) })
}

// After an edit what was told stands until the workshop tells anew, beside the
// pieces that it was told of. It does not stand beside another plant, however
// that comes onto the bench, nor is it taken when it comes late.
func TestLaterVerdictsAreOfThePlant(t *testing.T) {
	t.Parallel()
	demo := design.Demo()
	first := finding.Verdict{Rule: "of-the-first", Level: finding.Stop, Piece: "run.1", Sentence: "Of the first.", Basis: "a test"}
	a := app.New()
	res := ask(t, a, app.Request{Op: "start", Home: "first"})
	tell := told(t, res.Shop, demo)
	tell.Text = finding.Pass([]finding.Verdict{first})
	has := func(res app.Response, want bool, why string) {
		t.Helper()
		if content := res.Regions["verdicts"]; want {
			assert.Contains(t, content, "Of the first.", why)
		} else {
			assert.NotEmpty(t, content, why)
			assert.NotContains(t, content, "Of the first.", why)
		}
	}
	res = ask(t, a, tell)
	has(res, true, "told")
	assert.Contains(t, res.Regions["verdicts"], `<a href="#card-run.1"`)
	has(edit(t, a, "stand.height", "900 mm"), true, "an edit")
	res = ask(t, a, app.Request{Op: "add", Kind: design.Straight, Path: "run.0"})
	has(res, true, "a piece before it")
	assert.Contains(t, res.Regions["verdicts"], `<a href="#card-run.2"`)
	res = ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Op: "remove", Path: "run.2"}}})
	has(res, true, "its piece is gone")
	assert.Contains(t, res.Regions["verdicts"], "<p>Of the first.")
	other := design.Examples()[1].Design
	has(take(t, a, other, "second"), false, "another design")
	assert.NotContains(t, ask(t, a, tell).Regions, "verdicts", "it comes late")
	has(ask(t, a, app.Request{Op: "undo"}), false, "undone to another")
	assert.NotContains(t, ask(t, a, tell).Regions, "verdicts", "it was asked before the other came")

	res = ask(t, a, app.Request{Op: "follow", Link: "#" + design.WriteLink(other)})
	fresh := told(t, res.Shop, other)
	fresh.Text = tell.Text
	has(ask(t, a, fresh), true, "told of what was sent")
	res = ask(t, a, app.Request{Op: "follow", Link: "#" + design.WriteLink(design.Examples()[2].Design)})
	has(res, false, "another link")
	fresh.Value = told(t, res.Shop, other).Value
	has(ask(t, a, fresh), true, "told of that")
	fresh.Text = ""
	has(ask(t, a, fresh), false, "the workshop cannot be had")
	fresh.Text = `[["x"]]`
	assert.False(t, ask(t, a, fresh).Problem)
}
