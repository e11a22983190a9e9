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

// shelfText is the shelf as the browser keeps it: an empty one too, so that
// what was taken off it stays off.
func shelfText(s design.Shelf) string {
	if text := s.Write(); text != "" {
		return text
	}
	return "{}"
}

// readShelf puts what the browser had kept on the shelf.
func (a *App) readShelf(text string) Response {
	if text == "" {
		return Response{}
	}
	s, faults := design.ReadShelf(text)
	if text != a.shelved {
		a.unstack()
	}
	a.shelf, a.shelved = s, text
	if len(faults) > 0 {
		return Response{Message: "Some of what was on your shelf could not be read and was left out: " + list(faults), Problem: true}
	}
	return Response{}
}

// joinShelf puts what a file has and the shelf has not on the shelf. What both
// have stays as it is here, and is told.
func (a *App) joinShelf(text string) Response {
	s, faults := design.ReadShelf(text)
	before := a.shelf.Size()
	joined, differ := a.shelf.Join(s)
	a.stack(joined)
	res := Response{Message: strconv.Itoa(a.shelf.Size()-before) + " put on your shelf."}
	if len(differ) > 0 {
		for i := range differ {
			differ[i] = catalog.DimensionName(differ[i])
		}
		res.Message += " The file says otherwise of these, which stay as they are here: " + strings.Join(differ, "; ") + "."
	}
	if len(faults) > 0 {
		res.Problem = true
		res.Message += " Some of the file could not be read and was left out: " + list(faults)
	}
	return res
}

// stock puts what was typed on the shelf; what cannot be taken stays in its field.
func (a *App) stock(path, value string) {
	a.drop(view.StockPrefix + path)
	s, f := a.shelf.Put(path, value)
	if f != nil {
		a.refused = view.StockPrefix + path
		a.pending = append(a.pending, view.Pending{Path: a.refused, Value: value, Fault: *f})
		return
	}
	a.stack(s)
}

// stack makes s the shelf, and the change a step that can be undone: what was
// typed there over something else is not lost.
func (a *App) stack(s design.Shelf) {
	if shelfText(s) == shelfText(a.shelf) {
		return
	}
	shelf, keep := a.shelf, a.pending
	a.step(checked{a.present, a.report})
	a.pending = keep
	last := &a.past[len(a.past)-1]
	last.shelf, last.alone = &shelf, true
	a.shelf = s
}

// unstack drops the shelves that undo and redo would bring back: another window
// has changed the shelf, and they would take that away.
func (a *App) unstack() {
	for _, steps := range []*[]kept{&a.past, &a.future} {
		*steps = slices.DeleteFunc(*steps, func(k kept) bool { return k.alone })
		for i := range *steps {
			(*steps)[i].shelf = nil
		}
	}
}

// forgetPending drops what could not be taken into the design, which is another
// one now. What waits to be put on the shelf is of no design.
func (a *App) forgetPending() {
	a.pending = slices.DeleteFunc(slices.Clone(a.pending), func(p view.Pending) bool { return !ofShelf(p) })
}

func ofShelf(p view.Pending) bool { return strings.HasPrefix(p.Path, view.StockPrefix) }

// ofDesign returns what of pending belongs to the design.
func ofDesign(pending []view.Pending) []view.Pending {
	return slices.DeleteFunc(slices.Clone(pending), ofShelf)
}

// recall takes every length in doubt that was measured before.
func (a *App) recall() Response {
	d := a.present.Clone()
	n := 0
	for _, doubt := range a.report.Doubtful() {
		if m, ok := a.shelf.Length(doubt.Dimension); ok && len(d.Measured) < design.MaxMeasured {
			d.Measured = append(d.Measured, m)
			n++
		}
	}
	c := check(d)
	if len(c.report.Faults) > 0 {
		return Response{Message: "Those cannot be used together: " + list(c.report.Faults), Problem: true}
	}
	a.step(c)
	return Response{Message: strconv.Itoa(n) + " lengths taken from your shelf. Undo takes them back."}
}

// keep puts the piece at path on the shelf as a part, and into the design,
// together with its neighbours that have the same name.
func (a *App) keep(path string) Response {
	if at, ok := strings.CutPrefix(path, "made."); ok {
		if i, err := strconv.Atoi(at); err == nil && i >= 0 && i < len(a.present.Made) {
			s := a.shelf
			s.Made = design.KeepMade(s.Made, a.present.Made[i])
			a.stack(s)
		}
		return Response{}
	}
	row := a.row(path)
	if len(row) == 0 {
		return Response{}
	}
	name := row[0].Piece.Name
	if strings.TrimSpace(name) == "" {
		return Response{Message: "Give it a name first, in the field \"Your name for it\". Neighbours with the same name are kept with it, as one part.", Problem: true, Focus: "in-" + path + ".name"}
	}
	d := a.present.Clone()
	made := design.Kept(name, row)
	d.Made = design.KeepMade(d.Made, made)
	c := check(d)
	if len(c.report.Faults) > 0 {
		return Response{Message: "It cannot be kept as a part: " + list(c.report.Faults), Problem: true}
	}
	shelf := a.shelf
	a.step(c)
	a.past[len(a.past)-1].shelf = &shelf
	a.shelf.Made = design.KeepMade(a.shelf.Made, made)
	return Response{Message: "Kept as \"" + name + "\": it is offered wherever a piece can be added, in this design and every other."}
}

// row returns the piece at path and its neighbours of the same name, with
// their sizes, and the lengths that those made to fit have come to.
func (a *App) row(path string) []design.Sized {
	list, _ := split(path)
	all := a.present.Sizes()
	at := slices.IndexFunc(all, func(s design.Sized) bool { return s.Path == path })
	if at < 0 {
		return nil
	}
	alike := func(i int) bool {
		other, _ := split(all[i].Path)
		return other == list && all[i].Piece.Name == all[at].Piece.Name && all[at].Piece.Name != ""
	}
	first, last := at, at
	for first > 0 && alike(first-1) {
		first--
	}
	for last+1 < len(all) && alike(last+1) {
		last++
	}
	row := slices.Clone(all[first : last+1])
	for i := range row {
		if row[i].Piece.Fit {
			p := *row[i].Piece // the design's own stays as it is
			row[i].Piece = &p
			placed := a.report.Scene.Layout.Pieces()[first+i]
			length := placed.Length
			if p.Kind == design.Straight {
				length = placed.Cut
			}
			p.Length, _ = q.Parse[q.Length](q.Caliper(length))
		}
	}
	return row
}

// addMade puts a copy of a part that the user has made up before path, turned
// round where only that closes on the end it meets.
func (a *App) addMade(name, path string) Response {
	made, here := design.FindMade(a.present.Made, name)
	if !here {
		var ok bool
		if made, ok = design.FindMade(a.shelf.Made, name); !ok {
			return Response{Message: "There is no part called \"" + name + "\" any more.", Problem: true}
		}
	}
	pieces := slices.Clone(made.Pieces)
	if end := a.endBefore(path); len(pieces) == 1 && end != "" && end != design.Weld && pieces[0].In != catalog.Mate(end) && pieces[0].Out == catalog.Mate(end) {
		switch p := &pieces[0]; p.Kind {
		case design.Straight, design.Bend, design.Butterfly, design.Ball, design.Hose:
			p.In, p.Out = p.Out, p.In
		}
	}
	edits := make([]design.Edit, len(pieces))
	for i := range edits {
		edits[i] = design.Edit{Op: "insert", Path: path}
	}
	d, faults := a.present.Apply(edits...)
	list, at := split(path)
	if line := lineOf(&d, list); len(faults) == 0 && line != nil {
		copy((*line)[at:], pieces)
		if !here {
			d.Made = design.KeepMade(d.Made, made)
		}
		c := check(d)
		if faults = c.report.Faults; len(faults) == 0 {
			a.accept(c, edits, false)
			return Response{Focus: "in-" + path + ".kind"}
		}
	}
	return Response{Message: "That part cannot go there: " + faults.Error(), Problem: true}
}

// lineOf returns the list of pieces called path.
func lineOf(d *design.Design, path string) *[]design.Piece {
	switch path {
	case "under":
		return &d.Under
	case "run":
		return &d.Run
	case "delivery.pieces":
		return &d.Delivery.Pieces
	}
	return nil
}
