package app

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/www/view"
)

// edit makes edits. What cannot be taken stays pending in its field, and is
// tried again together with the next edit: some changes are sound only
// together, a size and the end that goes with it.
//
// It returns what the user must be told of it.
func (a *App) edit(edits []design.Edit, typing bool) (say string) {
	asked := len(edits)
	edits = a.completed(edits)
	if len(edits) > asked && edits[0].Path == "pump.kind" {
		say = "The points of this pump are made up to begin with: type in those of its sheet."
	}
	waiting := a.waiting(edits)
	together := append(slices.Clone(waiting), edits...)
	c, faults := a.try(together)
	if len(faults) == 0 {
		a.accept(c, edits, typing)
		for _, e := range waiting {
			a.drop(e.Path)
		}
		return say
	}
	if len(waiting) > 0 {
		if c, alone := a.try(edits); len(alone) == 0 {
			a.accept(c, edits, typing)
			a.recheck()
			return say
		}
	}
	if typing {
		return "" // half a number is no mistake yet
	}
	_, faults = a.try(edits)
	for _, e := range edits {
		if e.Op != "" {
			continue
		}
		a.drop(e.Path)
		a.pending = append(a.pending, view.Pending{Path: e.Path, Value: e.Value, Fault: a.beside(e.Path, faults)})
		a.refused = e.Path
	}
	return ""
}

// try returns the present design with edits made, or why it cannot be had.
func (a *App) try(edits []design.Edit) (checked, design.Faults) {
	d, faults := a.present.Apply(edits...)
	if len(faults) > 0 {
		return checked{}, faults
	}
	c := check(d)
	return c, c.report.Faults
}

// accept makes c the present design; keystrokes in one field are one step.
func (a *App) accept(c checked, edits []design.Edit, typing bool) {
	field := ""
	if len(edits) == 1 && edits[0].Op == "" {
		field = edits[0].Path
	}
	for _, e := range edits {
		if e.Op == "" {
			a.drop(e.Path) // before it is remembered: undo does not bring it back
		}
	}
	keep := a.pending
	switch {
	case field != "" && a.typing == field:
		a.put(c)
	case len(edits) > 0:
		a.step(c)
	}
	a.pending = keep
	a.typing = ""
	if typing {
		a.typing = field
	}
	for _, e := range edits {
		if e.Op == "" {
			continue
		}
		a.pending = slices.DeleteFunc(a.pending, func(p view.Pending) bool { return e.Op == "remove" && within(p.Path, e.Path) })
		for i := range a.pending {
			a.pending[i].Path = e.Moved(a.pending[i].Path)
		}
		for i := range a.later {
			a.later[i].Piece = e.Moved(a.later[i].Piece)
		}
	}
}

// within reports whether path is a field of the item.
func within(path, item string) bool { return strings.HasPrefix(path, item+".") }

// waiting returns the pending entries as edits, less those that edits replace.
// When edits move the items of a list none are tried: their paths would be off.
func (a *App) waiting(edits []design.Edit) []design.Edit {
	var out []design.Edit
	for _, p := range a.pending {
		if !ofForm(p) {
			continue
		}
		replaced := slices.ContainsFunc(edits, func(e design.Edit) bool {
			return e.Path == p.Path || e.Op != ""
		})
		if !replaced {
			out = append(out, design.Edit{Path: p.Path, Value: p.Value})
		}
	}
	return out
}

// ofForm reports whether p waits in a field of the form, as an edit.
func ofForm(p view.Pending) bool { return !ofShelf(p) && !strings.HasPrefix(p.Path, measurePrefix) }

// recheck renews the reasons why pending entries are still not taken.
func (a *App) recheck() {
	for i, p := range a.pending {
		if !ofForm(p) {
			continue
		}
		if _, faults := a.try([]design.Edit{{Path: p.Path, Value: p.Value}}); len(faults) > 0 {
			a.pending[i].Fault = a.beside(p.Path, faults)
		}
	}
}

func (a *App) drop(path string) {
	a.pending = slices.DeleteFunc(a.pending, func(p view.Pending) bool { return p.Path == path })
}

// beside returns the fault to show at path: its own if there is one, else the
// first, with the field it is about.
func (a *App) beside(path string, faults design.Faults) design.Fault {
	for _, f := range faults {
		if f.Field == path {
			return f
		}
	}
	f := faults[0]
	if f.Field != "" {
		about := "”: it "
		if strings.HasPrefix(f.What, "the ") {
			about = "”: "
		}
		f.What = "this does not go with “" + view.Called(a.bench(), f.Field) + about + f.What
	}
	return f
}

// add puts a piece of kind before path, filled in so that the line still
// closes: ends as the neighbour's, a length where one must be given.
func (a *App) add(kind, path string) Response {
	switch list, at := split(path); list {
	case "cleaning":
		return a.clean(kind, at)
	case "keepOuts":
		return a.keepOut(path)
	}
	if name, ok := strings.CutPrefix(kind, view.MadePrefix); ok {
		return a.addMade(name, path)
	}
	edits := append([]design.Edit{{Op: "insert", Path: path}, {Path: path + ".kind", Value: kind}}, a.starters(kind, path)...)
	c, faults := a.try(edits)
	if len(faults) > 0 {
		return Response{Message: "That piece cannot go there: " + faults[0].String(), Problem: true}
	}
	a.accept(c, edits, false)
	return Response{Focus: "in-" + path + ".kind"}
}

// clean adds a step to the wash. When nothing was said before, the usual steps
// are written out first: they hold until they are taken out, and a step that
// is among them is not there twice.
func (a *App) clean(agent string, at int) Response {
	var edits []design.Edit
	add := func(agent string) {
		path := "cleaning." + strconv.Itoa(at)
		edits = append(edits, design.Edit{Op: "insert", Path: path}, design.Edit{Path: path + ".agent", Value: agent})
		at++
	}
	among := -1
	if at == 0 {
		for i, c := range design.UsualCleaning() {
			if c.Agent == agent && among < 0 {
				among = i
			}
			add(c.Agent)
		}
	}
	if among < 0 {
		among = at
		add(agent)
	}
	c, faults := a.try(edits)
	if len(faults) > 0 {
		return Response{Message: "That cannot be added: " + faults[0].String(), Problem: true}
	}
	a.accept(c, edits, false)
	return Response{Focus: "in-cleaning." + strconv.Itoa(among) + ".temperature"}
}

// mend makes the edits offered as sentence.
func (a *App) mend(edits []design.Edit, sentence string) Response {
	c, faults := a.try(edits)
	if len(faults) > 0 {
		return Response{Message: "That is no longer a way out: the plant has changed since it was offered.", Problem: true}
	}
	a.accept(c, edits, false)
	return Response{Message: "Done: " + sentence + " Undo takes it back.", Focus: "verdicts-title"}
}

// starters are what a new piece needs said from the first.
func (a *App) starters(kind, path string) []design.Edit {
	set := func(member, value string) design.Edit { return design.Edit{Path: path + "." + member, Value: value} }
	out := a.needs(kind, path)
	if end := a.endBefore(path); end != "" && end != design.Weld {
		out = append(out, set("in", catalog.Mate(end)), set("out", end))
	}
	return out
}

// needs are the fields that a piece, or a liquid, of kind cannot do without,
// with something to start from. A liquid's stand in its fields for all to see,
// to be typed over: apple purée for a power law, thick yeast for a yield stress.
func (a *App) needs(kind, path string) []design.Edit {
	set := func(member, value string) design.Edit { return design.Edit{Path: path + "." + member, Value: value} }
	switch kind {
	case design.Other:
		return []design.Edit{set("density", "1000 kg/m³"), set("viscosity", "1 mPa·s")}
	case design.PowerLaw:
		return []design.Edit{set("density", "1050 kg/m³"), set("consistency", "11.6 Pa·s^n"), set("index", "0.34")}
	case design.Bingham:
		return []design.Edit{set("density", "1100 kg/m³"), set("yield", "5 Pa"), set("viscosity", "50 mPa·s")}
	case design.Straight:
		return []design.Edit{{Path: path + ".length", Value: q.KindLength.Start("300 mm")}}
	case design.Hose:
		return []design.Edit{{Path: path + ".length", Value: q.KindLength.Start("1 m")}}
	case design.Device:
		return []design.Edit{{Path: path + ".length", Value: q.KindLength.Start("400 mm")}, {Path: path + ".kv", Value: "10"}}
	case design.Reducer:
		return []design.Edit{{Path: path + ".to", Value: a.sizeBefore(path)}}
	}
	return nil
}

// completed adds to a change of a piece's kind what the new kind needs said
// and the old one did not. A shape that it does not come in goes: there would
// be nowhere to take it out.
func (a *App) completed(edits []design.Edit) []design.Edit {
	if len(edits) != 1 || edits[0].Op != "" || !strings.HasSuffix(edits[0].Path, ".kind") {
		return edits
	}
	if edits[0].Path == "pump.kind" {
		return append(edits, a.firstPoints(edits[0].Value)...)
	}
	path := strings.TrimSuffix(edits[0].Path, ".kind")
	if d, faults := a.present.Apply(edits...); len(faults) == 0 {
		shape, _ := d.Get(path + ".shape")
		fits := func(c design.Choice) bool { return c.Slug == shape }
		if made := design.Choices(d, path+".shape"); shape != "" && len(made) > 0 && !slices.ContainsFunc(made, fits) {
			edits = append(edits, design.Edit{Path: path + ".shape"})
		}
	}
	kind := edits[0].Value
	for _, e := range a.needs(kind, path) {
		if given, ok := a.present.Get(e.Path); ok && given == "" {
			edits = append(edits, e)
		}
	}
	return edits
}

// endBefore returns the end that a new piece at path will meet.
func (a *App) endBefore(path string) string {
	list, i := split(path)
	f := a.present.Filled()
	switch {
	case i > 0:
		end, _ := f.Get(list + "." + strconv.Itoa(i-1) + ".out")
		return end
	case list == "under":
		return f.Tank.Outlet.End
	case list == "run" && len(f.Under) > 0:
		return f.Under[len(f.Under)-1].Out
	case list == "run":
		return f.Tank.Outlet.End
	}
	return f.Pump.OutEnd
}

// sizeBefore returns the tube that the line has at path.
func (a *App) sizeBefore(path string) string {
	size := a.present.Tank.Outlet.Size
	list, at := split(path)
	for _, p := range a.report.Scene.Layout.Pieces() {
		l, i := split(p.Ref)
		if l == list && i >= at {
			return p.In.Half.Tube.Slug
		}
		size = p.Out.Half.Tube.Slug
	}
	return size
}

// split parts a piece's path into its list and its place in it.
func split(path string) (list string, i int) {
	dot := strings.LastIndexByte(path, '.')
	if dot < 0 {
		return path, 0
	}
	i, _ = strconv.Atoi(path[dot+1:])
	return path[:dot], i
}

// firstPoints gives a kind of pump that has no points yet two to begin with.
func (a *App) firstPoints(kind string) []design.Edit {
	pump := a.present.Pump
	flow, head, pressure := q.KindFlow.Start, q.KindHead.Start, q.KindPressure.Start
	switch {
	case design.Positive(kind) && len(pump.Slip) == 0:
		return append(newPoint("pump.slip.0", "pressure", pressure("0 bar"), "flow", flow("40 L/min")), newPoint("pump.slip.1", "pressure", pressure("2 bar"), "flow", flow("36 L/min"))...)
	case (kind == "" || kind == design.Centrifugal) && len(pump.Curve) == 0:
		return append(newPoint("pump.curve.0", "flow", flow("0 L/min"), "head", head("10 m")), newPoint("pump.curve.1", "flow", flow("80 L/min"), "head", head("5 m"))...)
	}
	return nil
}

// newPoint puts a point with two fields before path.
func newPoint(path, x, xValue, y, yValue string) []design.Edit {
	return []design.Edit{{Op: "insert", Path: path}, {Path: path + "." + x, Value: xValue}, {Path: path + "." + y, Value: yValue}}
}

// point puts a point into the pump's table before path: half way between its
// neighbours, or a step beyond the last; or into the drops of a piece.
func (a *App) point(path string) Response {
	list, n := split(path)
	if strings.HasSuffix(list, ".drops") {
		return a.newDrop(list, path, n)
	}
	var x, y string
	var xKind, yKind q.Kind
	var step float64
	switch list {
	case "pump.curve":
		x, y, xKind, yKind, step = "flow", "head", q.KindFlow, q.KindHead, float64(10*q.LitrePerMinute)
	case "pump.slip":
		x, y, xKind, yKind, step = "pressure", "flow", q.KindPressure, q.KindFlow, float64(q.Bar)
	default:
		return Response{Message: "A point goes into the pump's table, not into \"" + path + "\".", Problem: true}
	}
	// between is written in the unit of the point before, or else of the one behind.
	between := func(k q.Kind, field string, step float64) string {
		read := func(i int) (q.Amount, string, bool) {
			at := list + "." + strconv.Itoa(i) + "." + field
			text, _ := a.present.Get(at)
			amount, ok := a.present.Amount(at)
			return amount, text, ok
		}
		before, typed, hasBefore := read(n - 1)
		after, other, hasAfter := read(n)
		switch {
		case hasBefore && hasAfter:
			before.SI = (before.SI + after.SI) / 2
		case hasBefore:
			before.SI += step
		case hasAfter:
			before, typed = after, other
		default:
			before.Kind = k
		}
		return before.As(typed)
	}
	c, faults := a.try(newPoint(path, x, between(xKind, x, step), y, between(yKind, y, 0)))
	if len(faults) > 0 {
		return Response{Message: "A point cannot go there: " + faults[0].String(), Problem: true}
	}
	a.accept(c, []design.Edit{{Op: "insert", Path: path}}, false)
	return Response{Focus: "in-" + path + "." + x}
}

// newDrop puts a point into the drops of a piece: twice the flow and four
// times the drop of the one before, as turbulent flow has it.
func (a *App) newDrop(list, path string, n int) Response {
	flow, drop := q.KindFlow.Start("10 L/min"), q.KindPressure.Start("0.01 bar")
	read := func(member string) string {
		s, _ := a.present.Get(list + "." + strconv.Itoa(n-1) + "." + member)
		return s
	}
	if n > 0 {
		f, err1 := q.Parse[q.Flow](read("flow"))
		d, err2 := q.Parse[q.Pressure](read("drop"))
		if err1 == nil && err2 == nil {
			flow, drop = q.Of(2*f.Value()).As(f.String()), q.Of(4*d.Value()).As(d.String())
		}
	}
	edits := []design.Edit{{Op: "insert", Path: path}, {Path: path + ".flow", Value: flow}, {Path: path + ".drop", Value: drop}}
	piece := strings.TrimSuffix(list, ".drops")
	if kind, _ := a.present.Get(piece + ".kind"); n == 0 && kind != design.Device { // a device has a data sheet, made with water
		edits = append(edits, design.Edit{Path: piece + ".dropsIn", Value: design.OwnLiquid})
	}
	c, faults := a.try(edits)
	if len(faults) > 0 {
		return Response{Message: "A point cannot go there: " + faults[0].String(), Problem: true}
	}
	a.step(c)
	return Response{Focus: "in-" + path + ".flow"}
}

// measurePrefix marks a pending measurement, whose field is a catalogue
// dimension and not a path of the design until it is taken.
const measurePrefix = "measure:"

// measure takes value as what the caliper says of a dimension; an empty value
// takes the measurement back.
func (a *App) measure(dimension, value string) {
	at := slices.IndexFunc(a.present.Measured, func(m design.Measurement) bool { return m.Part == dimension })
	var edits []design.Edit
	n := strconv.Itoa(max(at, 0))
	switch {
	case at < 0 && value == "":
		a.drop(measurePrefix + dimension)
		return
	case value == "":
		edits = []design.Edit{{Op: "remove", Path: "measured." + n}}
	case at < 0:
		n = strconv.Itoa(len(a.present.Measured))
		edits = []design.Edit{{Op: "insert", Path: "measured." + n}, {Path: "measured." + n + ".part", Value: dimension}, {Path: "measured." + n + ".length", Value: value}}
	default:
		edits = []design.Edit{{Path: "measured." + n + ".length", Value: value}}
	}
	a.drop(measurePrefix + dimension)
	c, faults := a.try(edits)
	if len(faults) > 0 {
		a.pending = append(a.pending, view.Pending{Path: measurePrefix + dimension, Value: value, Fault: faults[0]})
		return
	}
	var before *design.Shelf
	if i, _ := strconv.Atoi(n); value != "" && i < len(c.design.Measured) {
		shelf := a.shelf
		before = &shelf
		a.shelf = a.shelf.Measure(c.design.Measured[i])
	}
	keep := a.pending
	a.step(c)
	a.pending = keep
	a.past[len(a.past)-1].shelf = before
}

// keepOut puts something in the way of a run: a post half way to the pump,
// which the user then makes into what is there.
func (a *App) keepOut(path string) Response {
	half := a.report.Scene.Layout.PumpIn.At.X / 2
	near := func(mm float64) string { return q.Of(q.Mm(mm)).Near("") }
	edits := []design.Edit{{Op: "insert", Path: path},
		{Path: path + ".away", Value: near(1000 * half)}, {Path: path + ".aside", Value: near(-50)},
		{Path: path + ".long", Value: near(100)}, {Path: path + ".wide", Value: near(100)}, {Path: path + ".high", Value: near(1000)}}
	c, faults := a.try(edits)
	if len(faults) > 0 {
		return Response{Message: "That cannot be added: " + faults[0].String(), Problem: true}
	}
	a.accept(c, edits, false)
	return Response{Focus: "in-" + path + ".name"}
}
