package app_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/www/app"
	"drawoff/www/view"
)

// ask sends a request as the page does and reads the answer as the page does.
func ask(t require.TestingT, a *app.App, req app.Request) app.Response {
	out, err := json.Marshal(req)
	require.NoError(t, err)
	var res app.Response
	require.NoError(t, json.Unmarshal([]byte(a.Handle(string(out))), &res))
	return res
}

func edit(t require.TestingT, a *app.App, path, value string) app.Response {
	return ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Path: path, Value: value}}})
}

// present returns the design on the bench, as a saved file would hold it.
func present(t require.TestingT, a *app.App) design.Design {
	d, faults := design.ReadFile([]byte(ask(t, a, app.Request{Op: "save"}).File))
	require.Empty(t, faults)
	return d
}

func TestOpensOnTheDemo(t *testing.T) {
	a := app.New()
	res := ask(t, a, app.Request{Op: "start", Width: 600})
	for _, id := range []string{"drawing", "form", "pieces", "figures", "doubts", "shelf", "cautions"} {
		assert.NotEmpty(t, res.Regions[id], id)
	}
	for _, id := range []string{"tally", "verdicts"} {
		assert.NotContains(t, res.Regions, id, "the page was built with them, and with more than is known yet")
	}
	assert.Equal(t, design.Demo(), present(t, a))
	assert.False(t, res.Undo)
}

func TestOnlyWhatChangedIsSent(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	res := edit(t, a, "note", "rinsed on Friday")
	assert.Contains(t, res.Regions, "form")
	assert.NotContains(t, res.Regions, "drawing", "a note draws nothing")
	res = edit(t, a, "tank.height", "1.3 m")
	assert.Contains(t, res.Regions, "drawing")
	assert.Contains(t, res.Regions, "figures")
}

// What cannot be taken stays in its field with the reason, survives a reload,
// and the design is as it was.
func TestMistakeStaysInItsField(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	res := edit(t, a, "tank.bore", "wide")
	assert.Equal(t, "960 mm", present(t, a).Tank.Bore.String())
	assert.Contains(t, res.Regions["form"], `value="wide"`)
	assert.Contains(t, res.Regions["form"], `id="err-tank.bore"`)
	assert.Contains(t, res.Regions["pending"], "1 entry not taken yet")

	b := app.New()
	res = ask(t, b, app.Request{Op: "start", Text: res.Store})
	assert.Contains(t, res.Regions["form"], `value="wide"`)

	res = edit(t, b, "tank.bore", "1 m")
	assert.NotContains(t, res.Regions["form"], "err-tank.bore")
	assert.Equal(t, "1 m", present(t, b).Tank.Bore.String())
}

// Two changes that are sound only together are taken when the second is made.
func TestChangesSoundOnlyTogether(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "tank.outlet.end", "dairy-union/male")
	assert.Equal(t, "clamp/ferrule", present(t, a).Tank.Outlet.End, "that tube carries no such end")
	edit(t, a, "tank.outlet.size", "din-11866-a/dn65")
	d := present(t, a)
	assert.Equal(t, "din-11866-a/dn65", d.Tank.Outlet.Size)
	assert.Equal(t, "dairy-union/male", d.Tank.Outlet.End)
}

// Undo after an entry that could not be taken takes back that entry and nothing
// of the plant, and redo brings it again; after another edit the order is theirs.
func TestUndoOfWhatWasNotTaken(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "tank.height", "1.3 m")
	assert.Contains(t, edit(t, a, "tank.bore", "as wide as the door").Regions["pending"], "1 entry not taken yet")
	res := ask(t, a, app.Request{Op: "undo"})
	assert.Empty(t, res.Regions["pending"])
	assert.Equal(t, "1.3 m", present(t, a).Tank.Height.String())
	res = ask(t, a, app.Request{Op: "redo"})
	assert.Contains(t, res.Store, "as wide as the door")

	edit(t, a, "tank.wall", "3 mm")
	res = ask(t, a, app.Request{Op: "undo"})
	assert.Empty(t, present(t, a).Tank.Wall.String())
	assert.Equal(t, "1.3 m", present(t, a).Tank.Height.String())
	ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, design.Demo().Tank.Height.String(), present(t, a).Tank.Height.String())
}

func TestKeystrokesAreOneStep(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	for _, typed := range []string{"1", "11", "1150 m", "1200 m", "1200 mm"} {
		ask(t, a, app.Request{Op: "edit", Typing: true, Edits: []design.Edit{{Path: "tank.height", Value: typed}}})
	}
	edit(t, a, "tank.height", "1200 mm")
	assert.Equal(t, "1200 mm", present(t, a).Tank.Height.String())
	res := ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, design.Demo(), present(t, a))
	assert.False(t, res.Undo)
	ask(t, a, app.Request{Op: "redo"})
	assert.Equal(t, "1200 mm", present(t, a).Tank.Height.String())
}

func TestEveryKindCanBeAddedAnywhere(t *testing.T) {
	for _, kind := range design.Kinds() {
		for _, path := range []string{"under.0", "under.3", "run.0", "run.5", "delivery.pieces.0", "delivery.pieces.3"} {
			a := app.New()
			ask(t, a, app.Request{Op: "start"})
			res := ask(t, a, app.Request{Op: "add", Kind: kind.Slug, Path: path})
			assert.False(t, res.Problem, "%s at %s: %s", kind.Slug, path, res.Message)
			d := present(t, a)
			got, ok := d.Get(path + ".kind")
			assert.True(t, ok)
			assert.Equal(t, kind.Slug, got)
			assert.Equal(t, "in-"+path+".kind", res.Focus)
		}
	}
}

func TestKindCanBeSwapped(t *testing.T) {
	for _, kind := range design.Kinds() {
		a := app.New()
		ask(t, a, app.Request{Op: "start"})
		res := edit(t, a, "under.1.kind", kind.Slug)
		assert.Equal(t, kind.Slug, present(t, a).Under[1].Kind, res.Message)
	}
}

// What is pending in a piece goes with it when pieces are moved, put in and
// taken out around it.
func TestPendingMovesWithItsPiece(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "run.4.length", "lengthy")
	at := func(res app.Response, path string) {
		assert.True(t, strings.Contains(res.Regions["form"], `id="err-`+path+`"`), path)
		assert.True(t, strings.Contains(res.Regions["form"], `value="lengthy"`), path)
	}
	move := func(op, path string) app.Response {
		return ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Op: op, Path: path}}})
	}
	at(move("up", "run.4"), "run.3.length")
	at(move("down", "run.3"), "run.4.length")
	at(ask(t, a, app.Request{Op: "add", Kind: design.Bend, Path: "run.1"}), "run.5.length")
	at(move("remove", "run.1"), "run.4.length")
	res := move("remove", "run.4")
	assert.False(t, strings.Contains(res.Regions["form"], `id="err-`))
}

// A kind of pump that has no points yet gets some to begin with, and says so;
// the other kind's points wait for its return.
func TestPumpKindBringsPoints(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	res := edit(t, a, "pump.kind", design.Lobe)
	d := present(t, a)
	assert.Equal(t, design.Lobe, d.Pump.Kind)
	assert.Len(t, d.Pump.Slip, 2)
	assert.Equal(t, design.Demo().Pump.Curve, d.Pump.Curve)
	assert.Contains(t, res.Message, "made up")
	assert.Contains(t, res.Regions["form"], "in-pump.slip.1.pressure")
	assert.NotContains(t, res.Regions["form"], "in-pump.curve.0.flow")
	edit(t, a, "pump.slip.1.flow", "30 L/min")
	res = edit(t, a, "pump.kind", design.Peristaltic)
	assert.Empty(t, res.Message)
	assert.Equal(t, "30 L/min", present(t, a).Pump.Slip[1].Flow.String())
	edit(t, a, "pump.kind", "")
	assert.Equal(t, design.Demo().Pump.Curve, present(t, a).Pump.Curve)
}

// Points go in between others and at the end, and what is pending stays in its row.
func TestPointsGoInAnywhere(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "pump.curve.4.head", "some")
	res := ask(t, a, app.Request{Op: "point", Path: "pump.curve.1"})
	require.False(t, res.Problem, res.Message)
	assert.Equal(t, "in-pump.curve.1.flow", res.Focus)
	assert.Contains(t, res.Regions["form"], `id="err-pump.curve.5.head"`)
	got := present(t, a).Pump.Curve
	require.Len(t, got, 6)
	assert.Equal(t, "20 L/min", got[1].Flow.String(), "half way from 0 to 40")
	assert.Equal(t, "7.95 m", got[1].Head.String(), "half way from 8.2 to 7.7")
	res = ask(t, a, app.Request{Op: "point", Path: "pump.curve.6"})
	require.False(t, res.Problem, res.Message)
	assert.Equal(t, "170 L/min", present(t, a).Pump.Curve[6].Flow.String())
	edit(t, a, "pump.kind", design.Lobe)
	res = ask(t, a, app.Request{Op: "point", Path: "pump.slip.2"})
	require.False(t, res.Problem, res.Message)
	assert.Equal(t, "3 bar", present(t, a).Pump.Slip[2].Pressure.String())
	for _, elsewhere := range []string{"", "run.0", "pump", "pump.curve"} {
		assert.Contains(t, ask(t, a, app.Request{Op: "point", Path: elsewhere}).Message, "goes into the pump's table", elsewhere)
	}
}

// The picture beside the table follows every keystroke, and the form that
// comes after it holds the picture as it then is.
func TestPictureFollowsTyping(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	typed := func(value string) app.Response {
		return ask(t, a, app.Request{Op: "edit", Typing: true, Edits: []design.Edit{{Path: "pump.curve.1.head", Value: value}}})
	}
	res := typed("7.9 m")
	assert.Contains(t, res.Regions, view.PumpPictureID)
	assert.NotContains(t, res.Regions, "form")
	typed("7.7 m")
	res = edit(t, a, "pump.curve.1.head", "7.7 m")
	assert.Contains(t, res.Regions, "form", "as it was at first, but the page has had another picture since")
}

func TestMeasuring(t *testing.T) {
	const part = "bs-4825/2.5in/reducer/1.5in/concentric/length"
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	res := ask(t, a, app.Request{Op: "measure", Path: part, Value: "about four"})
	assert.Contains(t, res.Regions["doubts"], `value="about four"`)
	assert.Empty(t, present(t, a).Measured)
	ask(t, a, app.Request{Op: "measure", Path: part, Value: "89.5 mm"})
	require.Len(t, present(t, a).Measured, 1)
	assert.Equal(t, "89.5 mm", present(t, a).Measured[0].Length.String())
	ask(t, a, app.Request{Op: "measure", Path: part, Value: "90 mm"})
	require.Len(t, present(t, a).Measured, 1)
	ask(t, a, app.Request{Op: "measure", Path: part, Value: ""})
	assert.Empty(t, present(t, a).Measured)
}

// A bad link, file or store says so, and what is on the bench stays.
func TestBadInputChangesNothing(t *testing.T) {
	for _, req := range []app.Request{
		{Op: "follow", Link: "#1.AAAA"}, {Op: "follow", Link: "#9.AAAA"}, {Op: "follow", Link: "#1."}, {Op: "follow", Link: "#%31."},
		{Op: "open", Text: "{"}, {Op: "open", Text: `{"tank":{"bore":900}}`}, {Op: "open", Text: strings.Repeat("[", 5000)},
		{Op: "open", Text: strings.Repeat(" ", 3<<20)}, {Op: "start", Text: "nonsense"}, {Op: "take", Text: "nonsense", Home: "b"}, {Op: "dance"},
	} {
		a := app.New()
		ask(t, a, app.Request{Op: "start"})
		edit(t, a, "tank.height", "1.3 m")
		res := ask(t, a, req)
		assert.True(t, res.Problem, "%+v", req)
		assert.NotEmpty(t, res.Message)
		assert.Equal(t, "1.3 m", present(t, a).Tank.Height.String())
	}
	var res app.Response
	require.NoError(t, json.Unmarshal([]byte(app.New().Handle("not json")), &res))
	assert.True(t, res.Problem)
}

// Whatever a messenger made of a link, the page says what happened and what
// can be done, and what is on the bench and in the browser's store stays: the
// design, what is pending, and the way back.
func TestHurtLinksTouchNothing(t *testing.T) {
	other := design.Demo()
	other.Title = "Somebody else's"
	link := design.WriteLink(other)
	for name, c := range map[string]struct{ link, what, can string }{
		"newer":             {"#2" + link[1:], "made by a newer Drawoff", "reload the page"},
		"cut short":         {"#" + link[:len(link)*2/3], "cut short", "copy the whole link again"},
		"shown shortened":   {"#" + link[:40] + "…", "cut short, with dots", "copy the link itself"},
		"characters added":  {"#" + link + ")", "do not belong in it: )", "delete them"},
		"letters added":     {"#" + link + "abcd", "added at its end", "copy the whole link again"},
		"encoded, then cut": {"#1%252E" + link[2:len(link)/2], "cut short", "copy the whole link again"},
		"only its start":    {"#1", "cut short", "copy the whole link again"},
	} {
		for _, op := range []string{"follow", "start"} {
			a := app.New()
			ask(t, a, app.Request{Op: "start"})
			edit(t, a, "tank.height", "1.3 m")
			before := edit(t, a, "tank.bore", "about a metre")
			require.NotEmpty(t, before.Store)
			if op == "start" { // in a new window
				a = app.New()
				ask(t, a, app.Request{Op: "start", Text: before.Store})
			}
			res := ask(t, a, app.Request{Op: "follow", Link: c.link})
			assert.True(t, res.Problem, "%s, %s", op, name)
			assert.Contains(t, res.Message, "what you see is what was here before", "%s, %s", op, name)
			assert.Contains(t, res.Message, c.what, "%s, %s", op, name)
			assert.Contains(t, res.Message, c.can, "%s, %s", op, name)
			assert.Equal(t, before.Store, res.Store, "%s, %s", op, name)
			assert.Equal(t, op == "follow", res.Undo, "%s, %s", op, name)
		}
	}
	// Percent-encoded twice and nothing else: it opens.
	a := app.New()
	res := ask(t, a, app.Request{Op: "follow", Link: "#1%252E" + link[2:]})
	assert.False(t, res.Problem, res.Message)
	assert.Equal(t, "Somebody else's", present(t, a).Title)
}

// Each design has its own home. Undo goes back over the opening of another to
// the one before, with what was pending in it, and what is stored then belongs
// there: no design is ever written over another.
func TestEachDesignHasItsHome(t *testing.T) {
	other := design.Demo()
	other.Title = "The other"
	a := app.New()
	res := ask(t, a, app.Request{Op: "start", Home: "one"})
	assert.Equal(t, "one", res.Home)
	edit(t, a, "tank.height", "1.3 m")
	one := edit(t, a, "tank.bore", "about a metre")

	res = ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(other)), Home: "two"})
	assert.Equal(t, "two", res.Home)
	assert.NotContains(t, res.Store, "about a metre", "what is pending stays with its design")
	two := edit(t, a, "tank.height", "1.4 m")
	assert.Equal(t, "two", two.Home)
	res = ask(t, a, app.Request{Op: "take", Text: one.Store, Home: "three"})
	assert.Equal(t, "three", res.Home)
	assert.Equal(t, one.Store, res.Store)

	res = ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, [2]string{"two", two.Store}, [2]string{res.Home, res.Store})
	ask(t, a, app.Request{Op: "undo"}) // the height
	res = ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, [2]string{"one", one.Store}, [2]string{res.Home, res.Store})
	res = ask(t, a, app.Request{Op: "move", Path: "two", Home: "copy"})
	assert.Equal(t, "one", res.Home)
	res = ask(t, a, app.Request{Op: "redo"})
	assert.Equal(t, "copy", res.Home)
	res = ask(t, a, app.Request{Op: "move", Path: "copy", Home: "two"})
	assert.Equal(t, "two", res.Home)

	res = ask(t, a, app.Request{Op: "take", Home: "four"})
	assert.Equal(t, "four", res.Home)
	assert.Equal(t, design.Demo().Title, res.Title, "the demo, where there is nothing else")

	b := app.New()
	assert.Empty(t, ask(t, b, app.Request{Op: "start", Text: "nonsense", Home: "one"}).Home, "what could not be read is not written over")
}

func TestSharing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		if len(pipeline.Check(d).Faults) > 0 {
			t.Skip("that tank does not hold its fill")
		}
		a, b := app.New(), app.New()
		require.False(t, ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(d))}).Problem)
		link := ask(t, a, app.Request{Op: "link"}).Link
		require.False(t, ask(t, b, app.Request{Op: "follow", Link: "#" + link}).Problem)
		assert.Equal(t, ask(t, a, app.Request{Op: "save"}).File, ask(t, b, app.Request{Op: "save"}).File)
	})
}

// Markup in anything that a person can type is words on the page.
func TestMarkupIsWords(t *testing.T) {
	const evil = `"><script>alert(1)</script><img src=x onerror=alert(1)>`
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	var all string
	for _, path := range []string{"title", "note", "under.0.name", "tank.bore", "under.1.size", "pump.curve.0.flow"} {
		res := edit(t, a, path, evil)
		for _, region := range res.Regions {
			all += region
		}
	}
	assert.NotContains(t, all, "<script")
	assert.NotContains(t, all, "<img")
	assert.Contains(t, all, "&lt;script&gt;")
}

// Every request is answered, whatever its path, when nothing went before it.
func TestEveryRequestIsAnswered(t *testing.T) {
	t.Parallel()
	for _, op := range []string{"start", "follow", "edit", "add", "point", "mend", "measure", "recall", "keep", "forget", "own", "stock", "shelf", "save-shelf", "open", "take", "move", "save", "link", "undo", "redo", "history", "go", "resize", "rest", "find", "later", ""} {
		for _, path := range []string{"", "under.-1", "run.9223372036854775807", "pump.slip.0"} {
			a := app.New()
			ask(t, a, app.Request{Op: op, Path: path, Kind: "tee", Value: "1 mm", Text: "{", Link: "#", Edits: []design.Edit{{Path: path, Value: "x"}}})
			ask(t, a, app.Request{Op: "undo"})
		}
	}
}

// Whatever the page sends, the answer is an answer.
func FuzzHandle(f *testing.F) {
	for _, s := range []string{`{"op":"start"}`, `{"op":"edit","edits":[{"path":"under.0.kind","value":"tee"}]}`, `{"op":"add","kind":"bend","path":"run.99"}`,
		`{"op":"edit","edits":[{"op":"remove","path":"under"}]}`, `{"op":"measure","path":"x","value":"1 mm"}`, `{"op":"point","path":"pump.curve.-1"}`, `{"op":"point"}`, `{"op":"resize","width":-5}`, `{"op":"later","text":"[]","value":"0"}`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, request string) {
		a := app.New()
		var res app.Response
		require.NoError(t, json.Unmarshal([]byte(a.Handle(request)), &res))
		require.NoError(t, json.Unmarshal([]byte(a.Handle(`{"op":"undo"}`)), &res))
	})
}

func BenchmarkEdit(b *testing.B) {
	a := app.New()
	a.Handle(`{"op":"start"}`)
	requests := []string{
		`{"op":"edit","edits":[{"path":"tank.height","value":"1160 mm"}]}`,
		`{"op":"edit","edits":[{"path":"tank.height","value":"1150 mm"}]}`,
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		a.Handle(requests[i%2])
	}
}

// A way out is made in one step, told, and taken back in one.
func TestMend(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "under.1.in", "ring-joint/liner")
	wrong := present(t, a)

	way := app.Request{Op: "mend", Value: "Change it back.", Edits: []design.Edit{{Path: "under.1.in", Value: "clamp/ferrule"}}}
	res := ask(t, a, way)
	assert.Equal(t, "Done: Change it back. Undo takes it back.", res.Message)
	assert.False(t, res.Problem)
	assert.Equal(t, design.Demo(), present(t, a))

	way.Edits[0].Path = "under.99.in"
	assert.True(t, ask(t, a, way).Problem, "there is no such piece any more")
	assert.Equal(t, design.Demo(), present(t, a))

	ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, wrong, present(t, a))
}

// What is added to the cleaning stands beside what was taken as usual before.
func TestCleaning(t *testing.T) {
	a := app.New()
	res := ask(t, a, app.Request{Op: "start"})
	assert.Contains(t, res.Regions["cautions"], "add acid to water")
	res = ask(t, a, app.Request{Op: "add", Kind: "nitric", Path: "cleaning.0"})
	assert.Equal(t, "in-cleaning.6.temperature", res.Focus)
	assert.Equal(t, append(design.UsualCleaning(), design.Cleaning{Agent: "nitric"}), present(t, a).Cleaning)
	assert.Contains(t, res.Regions["form"], `data-path="cleaning.6.agent"`)

	ask(t, a, app.Request{Op: "add", Kind: "hypochlorite", Path: "cleaning.7"})
	res = edit(t, a, "cleaning.7.temperature", "60 °C")
	assert.Contains(t, res.Regions["verdicts"], "of which nothing is known")
	ask(t, a, app.Request{Op: "undo"})
	res = ask(t, a, app.Request{Op: "undo"})
	assert.Len(t, present(t, a).Cleaning, 7)
	assert.NotContains(t, res.Regions["cautions"], "chlorine, which kills")
	assert.True(t, ask(t, a, app.Request{Op: "add", Kind: "holy water", Path: "cleaning.0"}).Problem)
	ask(t, a, app.Request{Op: "undo"})
	assert.Empty(t, present(t, a).Cleaning, "the usual ones and the new one were one step")

	res = ask(t, a, app.Request{Op: "add", Kind: "caustic", Path: "cleaning.0"})
	assert.Equal(t, design.UsualCleaning(), present(t, a).Cleaning, "it is among the usual ones")
	assert.Equal(t, "in-cleaning.1.temperature", res.Focus)
}

// A plant of one's own begins with what had to be known; what is wrong with
// that is told at its question and changes nothing.
func TestStartMyOwn(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	known := []design.Edit{{Path: "tank.bore", Value: "36 in"}, {Path: "tank.height", Value: "1.2 m"}, {Path: "tank.bottom", Value: ""},
		{Path: "tank.outlet.size", Value: "bs-4825/2in"}, {Path: "pump.away", Value: "1.8"}, {Path: "pump.height", Value: "240 mm"}}
	res := ask(t, a, app.Request{Op: "own", Edits: known})
	assert.True(t, res.Problem)
	assert.Equal(t, "own-pump.away", res.Focus)
	assert.Contains(t, res.Message, "unit")
	assert.Equal(t, design.Demo(), present(t, a))
	known[4].Value = "1.8 m"
	res = ask(t, a, app.Request{Op: "own", Edits: known})
	require.False(t, res.Problem, res.Message)
	got := present(t, a)
	assert.Equal(t, "36 in", got.Tank.Bore.String())
	assert.Equal(t, "bs-4825/2in", got.Pump.InSize, "as the outlet")
	assert.Contains(t, res.Regions["form"], `>assumed<`)
	ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, design.Demo(), present(t, a))
}

// What cannot be taken for the sake of another field names it as its label does.
func TestRefusedNamesTheOtherField(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	res := edit(t, a, "pump.curve.0.head", "1 m")
	assert.Contains(t, res.Regions["form"], `aria-label="Head, point 2"`)
	assert.Contains(t, res.Regions["form"]+res.Regions["pending"], "This does not go with “Head, point 2”: it is more than at the smaller flow before it, 1 m:")
	res = edit(t, a, "tank.bore", "700 mm")
	assert.Contains(t, res.Regions["form"], "This does not go with “Tank: liquid when full”: the tank does not hold that much:")
}

// A long bend becomes a tee by its kind alone, and one undo brings it back.
func TestKindTakesItsShapeAlong(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	bend := design.Demo().Under[2]
	require.Equal(t, "long", bend.Shape)
	for _, kind := range []string{design.Tee, design.Reducer, design.Straight} {
		edit(t, a, "under.2.kind", kind)
		assert.Equal(t, kind, present(t, a).Under[2].Kind)
		ask(t, a, app.Request{Op: "undo"})
		assert.Equal(t, bend, present(t, a).Under[2])
	}
	edit(t, a, "under.0.kind", design.Bend)
	assert.Equal(t, design.Bend, present(t, a).Under[0].Kind, "which is not made concentric")
}

// A grip writes what it was dragged to in the unit that was typed, and a drag is one step.
func TestSlide(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "pump.away", "72 in")
	for _, x := range []string{"1.80", "1.70", "1.6011"} {
		ask(t, a, app.Request{Op: "slide", Path: "pump.away", Value: x, Typing: true})
	}
	ask(t, a, app.Request{Op: "slide", Path: "pump.away", Value: "1.6011"})
	assert.Equal(t, "63 in", present(t, a).Pump.Away.String())
	ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, "72 in", present(t, a).Pump.Away.String(), "a drag is one step")
	ask(t, a, app.Request{Op: "slide", Path: "stand.height", Value: "0.8523"})
	assert.Equal(t, "850 mm", present(t, a).Stand.Height.String())
	ask(t, a, app.Request{Op: "slide", Path: "tank.fill", Value: "99"})
	brim := pipeline.Check(present(t, a)).Scene.Vessel.Brimful().Litres()
	assert.InDelta(t, brim, present(t, a).Tank.Fill.Value().Litres(), 5, "no more than it holds")
	assert.True(t, ask(t, a, app.Request{Op: "slide", Path: "title", Value: "1"}).Problem)
	assert.True(t, ask(t, a, app.Request{Op: "slide", Path: "pump.away", Value: "far"}).Problem)
	assert.True(t, ask(t, a, app.Request{Op: "slide", Path: "tank.fill", Value: "NaN"}).Problem)
}

// A step moves what stands in the field, is one step of undo, and stops where
// the plant can go no further.
func TestStep(t *testing.T) {
	a := app.New()
	ask(t, a, app.Request{Op: "start"})
	edit(t, a, "tank.lowest", "7 mm")
	step := func(path, text, by string) app.Response {
		return ask(t, a, app.Request{Op: "step", Path: path, Text: text, Value: by})
	}
	assert.Equal(t, "72 1/4 in", step("pump.away", "72 in", "1").Value, "typed, and not yet taken")
	assert.Equal(t, "72 1/4 in", present(t, a).Pump.Away.String())
	step("pump.away", "72 1/4 in", "-1")
	ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, "72 1/4 in", present(t, a).Pump.Away.String())

	edit(t, a, "liquid.temperature", "")
	usual := present(t, a).Filled().Liquid.Temperature.Value()
	step("liquid.temperature", "", "1")
	assert.InDelta(t, float64(usual)+1, float64(present(t, a).Liquid.Temperature.Value()), 0.5, "from what is usual")

	edit(t, a, "tank.lowest", "0 mm")
	before := present(t, a)
	res := step("tank.lowest", "0 mm", "-1")
	assert.Contains(t, res.Regions["form"], `id="err-tank.lowest"`, "too far: told at the field")
	assert.Equal(t, before, present(t, a))
	step("tank.lowest", res.Value, "1")
	assert.Equal(t, before, present(t, a))

	assert.True(t, step("tank.bore", "wide", "1").Problem, "what was typed stays")
	assert.Equal(t, before, present(t, a))
	assert.True(t, step("title", "Barn", "1").Problem)
}

// A link is looked at: it has no home, and every one that was looked at is a
// plant of its own, so that giving the present one a home gives none to the
// others. Undo goes back over them to the user's own.
func TestLinkIsLookedAt(t *testing.T) {
	link := func(title string) string {
		d := design.Demo()
		d.Title = title
		return "#" + design.WriteLink(d)
	}
	a := app.New()
	ask(t, a, app.Request{Op: "start", Home: "mine"})
	edit(t, a, "tank.height", "1.3 m")
	own := edit(t, a, "tank.bore", "about a metre")
	for _, title := range []string{"first", "second"} {
		res := ask(t, a, app.Request{Op: "follow", Link: link(title)})
		assert.Equal(t, [2]string{"", title}, [2]string{res.Home, res.Title})
	}
	res := ask(t, a, app.Request{Op: "move", Home: "new"})
	assert.Equal(t, [2]string{"new", "second"}, [2]string{res.Home, res.Title})
	res = ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, [2]string{"", "first"}, [2]string{res.Home, res.Title})
	res = ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, [2]string{"mine", own.Store}, [2]string{res.Home, res.Store})
	ask(t, a, app.Request{Op: "redo"})
	res = ask(t, a, app.Request{Op: "redo"})
	assert.Equal(t, [2]string{"new", "second"}, [2]string{res.Home, res.Title})
}
