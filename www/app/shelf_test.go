package app_test

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/www/app"
	"drawoff/www/view"
)

const (
	reducer = "bs-4825/2.5in/reducer/1.5in/concentric/length"
	valve   = "bs-4825/1.5in/butterfly-valve/clamp-ferrule/clamp-ferrule/length"
)

// start returns a bench with the demo on it, and what is on the shelf.
func start(t require.TestingT, shelf string) (*app.App, app.Response) {
	a := app.New()
	return a, ask(t, a, app.Request{Op: "start", Shelf: shelf})
}

// What was measured in one design is offered in the next, one by one or all at
// once, and a design does not take along what it does not use.
func TestShelfOffersWhatWasMeasured(t *testing.T) {
	t.Parallel()
	a, res := start(t, "")
	assert.Empty(t, res.Shelf, "nothing to keep yet")
	ask(t, a, app.Request{Op: "measure", Path: reducer, Value: "89.5 mm"})
	shelf := ask(t, a, app.Request{Op: "measure", Path: valve, Value: "2 in"}).Shelf
	require.NotEmpty(t, shelf)

	b, res := start(t, shelf)
	assert.Empty(t, present(t, b).Measured)
	assert.Contains(t, res.Regions["doubts"], "You measured this as 89.5 mm: use it")
	assert.Contains(t, res.Regions["doubts"], "Use all 2 that you measured before")
	assert.Contains(t, res.Regions["shelf"], "89.5 mm")

	res = ask(t, b, app.Request{Op: "measure", Path: reducer, Value: "89.5 mm"})
	assert.NotContains(t, res.Regions["doubts"], "You measured this as 89.5 mm")
	require.Len(t, present(t, b).Measured, 1)
	ask(t, b, app.Request{Op: "undo"})
	ask(t, b, app.Request{Op: "recall"})
	assert.Len(t, present(t, b).Measured, 2)
	assert.Equal(t, "2 in", present(t, b).Measured[1].Length.String(), "as it was typed")

	res = ask(t, b, app.Request{Op: "forget", Path: reducer})
	assert.NotContains(t, res.Regions["shelf"], "89.5 mm")
	assert.NotContains(t, res.Shelf, reducer)
	assert.Len(t, present(t, b).Measured, 2, "what a design uses stays with it")
}

// A shelf goes out as a file and comes back: what is there already stays, and
// what the file says otherwise is told.
func TestShelfFile(t *testing.T) {
	t.Parallel()
	a, _ := start(t, "")
	ask(t, a, app.Request{Op: "measure", Path: reducer, Value: "89.5 mm"})
	ask(t, a, app.Request{Op: "measure", Path: valve, Value: "51 mm"})
	file := ask(t, a, app.Request{Op: "save-shelf"})
	assert.Equal(t, "shelf.drawoff.json", file.Name)

	b, _ := start(t, "")
	ask(t, b, app.Request{Op: "measure", Path: valve, Value: "52 mm"})
	res := ask(t, b, app.Request{Op: "open", Text: file.File})
	assert.False(t, res.Problem, res.Message)
	assert.Contains(t, res.Message, "1 put on your shelf")
	assert.Contains(t, res.Message, "butterfly valve, both ends clamp ferrule, 1½ in (BS 4825-1), length")
	s, faults := design.ReadShelf(res.Shelf)
	require.Empty(t, faults)
	own, _ := s.Length(valve)
	assert.Equal(t, "52 mm", own.Length.String())
	got, _ := s.Length(reducer)
	assert.Equal(t, "89.5 mm", got.Length.String())
	assert.Len(t, present(t, b).Measured, 1, "opening a shelf changes no design")
}

// What cannot be read on the shelf is told, and the rest is kept.
func TestShelfWithMistakes(t *testing.T) {
	t.Parallel()
	_, res := start(t, `{"shelf":1,"measured":[{"part":"`+valve+`","length":"wide"},{"part":"`+reducer+`","length":"80 mm"}]}`)
	assert.True(t, res.Problem)
	assert.Contains(t, res.Message, "measured.0.length")
	assert.Contains(t, res.Regions["doubts"], "You measured this as 80 mm: use it")
	_, res = start(t, "torn")
	assert.True(t, res.Problem)
}

// A street bend, male one side and liner and nut the other, is built once,
// named, and put in again: here, in another design, and turned round where the
// line comes to it from the other side.
func TestMadeUpPart(t *testing.T) {
	t.Parallel()
	a, _ := start(t, "")
	for path, value := range map[string]string{"run.1.in": "ring-joint/liner", "run.1.out": "ring-joint/male"} {
		edit(t, a, path, value)
	}
	res := ask(t, a, app.Request{Op: "keep", Path: "run.1"})
	assert.True(t, res.Problem, "it has no name yet")
	assert.Equal(t, "in-run.1.name", res.Focus)

	edit(t, a, "run.1.name", "street bend")
	res = ask(t, a, app.Request{Op: "keep", Path: "run.1"})
	require.False(t, res.Problem, res.Message)
	assert.Contains(t, res.Regions["form"], `<option value="made:street bend">street bend</option>`)
	d := present(t, a)
	require.Len(t, d.Made, 1)
	assert.Equal(t, "bs-4825/1.5in", d.Made[0].Pieces[0].Size, "a part in hand has its size whatever stands before it")
	linked, faults := design.ReadLink(ask(t, a, app.Request{Op: "link"}).Link)
	require.Empty(t, faults)
	assert.Equal(t, d.Made, linked.Made)

	b, res := start(t, res.Shelf)
	assert.Empty(t, present(t, b).Made, "a design takes along only what it uses")
	assert.Contains(t, res.Regions["form"], "made:street bend")
	before := parts(t, b)
	res = ask(t, b, app.Request{Op: "add", Kind: view.MadePrefix + "street bend", Path: "run.2"})
	require.False(t, res.Problem, res.Message)
	assert.Equal(t, "in-run.2.kind", res.Focus)
	after := parts(t, b)
	for _, slug := range []string{"ring-joint/1.5in/male", "ring-joint/1.5in/liner"} {
		assert.InDelta(t, before[slug]+1, after[slug], 0, "%s: the copy is bought like any other piece", slug)
	}
	got := present(t, b).Run[2]
	assert.Equal(t, "street bend", got.Name)
	assert.Equal(t, "ring-joint/liner", got.In)

	// After a liner only its male end closes.
	edit(t, b, "run.2.out", "ring-joint/liner")
	ask(t, b, app.Request{Op: "add", Kind: view.MadePrefix + "street bend", Path: "run.3"})
	turned := present(t, b).Run[3]
	assert.Equal(t, "ring-joint/male", turned.In)
	assert.Equal(t, "ring-joint/liner", turned.Out)

	res = ask(t, b, app.Request{Op: "add", Kind: view.MadePrefix + "gone", Path: "run.3"})
	assert.True(t, res.Problem)
}

// Neighbours of one name are one part, and a straight made to fit is kept at
// the length it has come to.
func TestRowIsKeptAsOnePart(t *testing.T) {
	t.Parallel()
	a, _ := start(t, "")
	for _, path := range []string{"run.1.name", "run.2.name", "run.3.name"} {
		edit(t, a, path, "drop")
	}
	res := ask(t, a, app.Request{Op: "keep", Path: "run.2"})
	require.False(t, res.Problem, res.Message)
	made := present(t, a).Made
	require.Len(t, made, 1)
	require.Len(t, made[0].Pieces, 3)
	straight := made[0].Pieces[1]
	assert.False(t, straight.Fit)
	for _, c := range pipeline.Check(design.Demo()).Cuts {
		if c.Ref == "run.2" {
			assert.InDelta(t, c.Length.Millimetres(), straight.Length.Value().Millimetres(), 0.05+1e-9, "to the tenth of a millimetre")
		}
	}
	res = ask(t, a, app.Request{Op: "add", Kind: view.MadePrefix + "drop", Path: "run.5"})
	require.False(t, res.Problem, res.Message)
	assert.Len(t, present(t, a).Run, len(design.Demo().Run)+3)
	ask(t, a, app.Request{Op: "undo"})
	assert.Len(t, present(t, a).Run, len(design.Demo().Run))
}

func parts(t require.TestingT, a *app.App) map[string]float64 {
	out := map[string]float64{}
	for _, p := range pipeline.Check(present(t, a)).Parts {
		out[p.Slug] += p.Quantity
	}
	return out
}

// Any length of a piece can be typed at the piece, one from a standard too;
// what a standard does not believe is questioned.
func TestAnyLengthCanBeMeasured(t *testing.T) {
	t.Parallel()
	const bend = "bs-4825/1.5in/bend/90/short/centre-to-end"
	a, res := start(t, "")
	assert.Contains(t, res.Regions["form"], `data-measure="`+bend+`"`)
	res = ask(t, a, app.Request{Op: "measure", Path: bend, Value: "85 mm"})
	assert.Contains(t, res.Regions["verdicts"], "the standard says 63.5 mm, +0.5/-0 mm")
	assert.True(t, strings.Contains(res.Regions["form"], "measured by you"))
}

// What is in hand is put on the shelf as it was typed and goes to the workshop
// with the design; what cannot be taken stays pending, whatever happens to the
// design, until it is mended.
func TestStock(t *testing.T) {
	t.Parallel()
	const ferrule, rack = "items:clamp/1.5in/ferrule:inHand", "rack:bs-4825/1.5in"
	a, _ := start(t, "")
	res := ask(t, a, app.Request{Op: "stock", Path: ferrule, Value: "2"})
	s, faults := design.ReadShelf(res.Shelf)
	require.Empty(t, faults)
	assert.Equal(t, 2, s.Item("clamp/1.5in/ferrule").InHand)
	assert.Contains(t, res.Shop, "clamp/1.5in/ferrule")
	assert.True(t, res.Undo)

	res = ask(t, a, app.Request{Op: "stock", Path: rack, Value: "long"})
	assert.Empty(t, res.Shelf, "nothing to keep")
	assert.Contains(t, res.Shop, `"typed":{"`+rack+`":"long"}`)
	edit(t, a, "tank.height", "1.3 m")
	res = ask(t, a, app.Request{Op: "undo"})
	assert.Contains(t, res.Shop, `"typed":{"`+rack+`":"long"}`)
	res = ask(t, a, app.Request{Op: "stock", Path: rack, Value: "1.5 m"})
	assert.NotContains(t, res.Shop, `"typed"`)
	assert.Contains(t, res.Shelf, "1.5 m")

	file := ask(t, a, app.Request{Op: "save-shelf"}).File
	b, _ := start(t, "")
	res = ask(t, b, app.Request{Op: "open", Text: file})
	assert.Contains(t, res.Message, "2 put on your shelf")
	assert.Contains(t, res.Shop, "1.5 m")
}

// What was put on the shelf, over something else or not, is a step like any
// other: undo brings back what was there, redo what was typed, and neither
// touches the design, nor what waits in its fields.
func TestShelfIsUndone(t *testing.T) {
	t.Parallel()
	const ferrule, rack = "items:clamp/1.5in/ferrule:inHand", "rack:bs-4825/1.5in"
	a, _ := start(t, "")
	shelf, stored := "{}", ""
	do := func(req app.Request) app.Response {
		t.Helper()
		res := ask(t, a, req)
		if res.Shelf != "" {
			shelf = res.Shelf
		}
		stored = res.Store
		return res
	}
	do(app.Request{Op: "edit", Edits: []design.Edit{{Path: "stand.height", Value: "800 mm"}}})
	do(app.Request{Op: "edit", Edits: []design.Edit{{Path: "tank.bore", Value: "wide"}}})
	was := stored
	states := []string{shelf}
	for _, put := range [][2]string{{ferrule, "2"}, {ferrule, "12"}, {rack, "1.5 m"}, {"rack.0", ""}, {"shop.trim", "3 mm"}} {
		do(app.Request{Op: "stock", Path: put[0], Value: put[1]})
		states = append(states, shelf)
		assert.NotEqual(t, states[len(states)-2], shelf, put)
		assert.Equal(t, was, stored, "of the design nothing has changed, nor what waits in it")
	}
	do(app.Request{Op: "stock", Path: "shop.trim", Value: "3 mm"})
	assert.Len(t, ask(t, a, app.Request{Op: "history"}).Steps, len(states)+1, "what changes nothing is no step")
	for i := len(states) - 2; i >= 0; i-- {
		res := do(app.Request{Op: "undo"})
		assert.Equal(t, states[i], shelf)
		assert.Equal(t, "Taken back: your shelf is as it was before.", res.Message)
		assert.Equal(t, was, stored)
	}
	for _, want := range states[1:] {
		assert.Equal(t, "Done again on your shelf.", do(app.Request{Op: "redo"}).Message)
		assert.Equal(t, want, shelf)
		assert.Equal(t, was, stored)
	}
	first := ask(t, a, app.Request{Op: "history"}).Steps[0]
	do(app.Request{Op: "go", Value: strconv.Itoa(first)})
	assert.JSONEq(t, states[0], shelf, "to the beginning at once")
}

// A length measured over another comes back on the shelf, too, and a part that
// was taken off or kept over another.
func TestUndoBringsBackWhatTheShelfHad(t *testing.T) {
	t.Parallel()
	a, _ := start(t, "")
	on := func(shelf string) string {
		s, faults := design.ReadShelf(shelf)
		require.Empty(t, faults)
		m, _ := s.Length(reducer)
		return m.Length.String()
	}
	ask(t, a, app.Request{Op: "measure", Path: reducer, Value: "89.5 mm"})
	assert.Equal(t, "98.5 mm", on(ask(t, a, app.Request{Op: "measure", Path: reducer, Value: "98.5 mm"}).Shelf))
	assert.Equal(t, "89.5 mm", on(ask(t, a, app.Request{Op: "undo"}).Shelf))
	assert.Equal(t, "89.5 mm", present(t, a).Measured[0].Length.String())
	assert.Equal(t, "98.5 mm", on(ask(t, a, app.Request{Op: "redo"}).Shelf))
	assert.Empty(t, on(ask(t, a, app.Request{Op: "forget", Path: reducer}).Shelf))
	assert.Equal(t, "98.5 mm", on(ask(t, a, app.Request{Op: "undo"}).Shelf))

	edit(t, a, "run.1.name", "bend")
	kept := ask(t, a, app.Request{Op: "keep", Path: "run.1"}).Shelf
	assert.Contains(t, kept, `"bend"`)
	assert.NotContains(t, ask(t, a, app.Request{Op: "undo"}).Shelf, `"name": "bend"`)
	assert.Equal(t, kept, ask(t, a, app.Request{Op: "redo"}).Shelf)
}

// What could not be taken onto the shelf goes with undo alone, and comes back.
func TestUndoOfWhatTheShelfRefused(t *testing.T) {
	t.Parallel()
	const rack = "rack:bs-4825/1.5in"
	a, _ := start(t, "")
	assert.Contains(t, ask(t, a, app.Request{Op: "stock", Path: rack, Value: "long"}).Shop, `"typed":{"`+rack+`":"long"}`)
	assert.NotContains(t, ask(t, a, app.Request{Op: "undo"}).Shop, `"typed"`)
	ask(t, a, app.Request{Op: "stock", Path: "shop.trim", Value: "much"})
	shop := ask(t, a, app.Request{Op: "redo"}).Shop
	assert.Contains(t, shop, `"`+rack+`":"long"`)
	assert.Contains(t, shop, `"shop.trim":"much"`, "nor is lost what was typed between")
	waits := func(store string) []view.Pending {
		var kept struct{ Pending []view.Pending }
		require.NoError(t, json.Unmarshal([]byte(store), &kept))
		return kept.Pending
	}
	before := waits(ask(t, a, app.Request{Op: "resize", Width: 500}).Store)
	require.Len(t, before, 2)
	assert.Equal(t, before, waits(edit(t, a, "stand.height", "800 mm").Store), "what waits for the shelf is not tried on the design")
}

// What another window has put on the shelf is not taken away by an undo here.
func TestUndoLeavesWhatAnotherWindowDid(t *testing.T) {
	t.Parallel()
	a, _ := start(t, "")
	b, _ := start(t, "")
	edit(t, a, "stand.height", "800 mm")
	ask(t, a, app.Request{Op: "stock", Path: "shop.trim", Value: "3 mm"})
	ask(t, a, app.Request{Op: "measure", Path: reducer, Value: "89.5 mm"})
	theirs := ask(t, b, app.Request{Op: "stock", Path: "shop.keep", Value: "1 m"}).Shelf
	ask(t, a, app.Request{Op: "shelf", Text: theirs})
	for range 2 {
		assert.Empty(t, ask(t, a, app.Request{Op: "undo"}).Shelf)
	}
	assert.False(t, ask(t, a, app.Request{Op: "undo"}).Undo)
	assert.Equal(t, design.Demo().Stand.Height.String(), present(t, a).Stand.Height.String())
}
