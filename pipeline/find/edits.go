package find

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/pipeline/design"
)

// Edits are the changes that put the run into d in place of the one there:
// one step, which one undo takes back.
func (r Run) Edits(d design.Design) (edits []design.Edit) {
	clear := func(path string, n int) {
		for i := n - 1; i >= 0; i-- {
			edits = append(edits, design.Edit{Op: "remove", Path: path + strconv.Itoa(i)})
		}
	}
	if r.toOutflow {
		clear("delivery.pieces.", len(d.Delivery.Pieces))
	}
	if r.Line == FromTank {
		clear("run.", len(d.Run))
	}
	set := func(path, value string) {
		if value != "" && value != "false" {
			edits = append(edits, design.Edit{Path: path, Value: value})
		}
	}
	for i, p := range r.Pieces {
		at := r.Line.path() + strconv.Itoa(i)
		edits = append(edits, design.Edit{Op: "insert", Path: at})
		at += "."
		set(at+"kind", p.Kind)
		set(at+"to", p.To)
		set(at+"shape", p.Shape)
		set(at+"in", p.In)
		set(at+"out", p.Out)
		set(at+"length", p.Length.String())
		set(at+"fit", strconv.FormatBool(p.Fit))
		set(at+"angle", p.Angle.String())
		set(at+"turn", p.Turn.String())
		set(at+"fall", p.Fall.String())
	}
	for i := range r.Design.Under {
		if turn := r.Design.Under[i].Turn; i < len(d.Under) && turn.String() != d.Under[i].Turn.String() {
			set("under."+strconv.Itoa(i)+".turn", turn.String())
		}
	}
	if r.toOutflow {
		for _, c := range []struct{ path, now, then string }{
			{"delivery.height", d.Delivery.Height.String(), r.Design.Delivery.Height.String()},
			{"delivery.away", d.Delivery.Away.String(), r.Design.Delivery.Away.String()},
			{"delivery.aside", d.Delivery.Aside.String(), r.Design.Delivery.Aside.String()},
		} {
			if c.now != c.then {
				set(c.path, c.then)
			}
		}
	}
	if d.Stand.Height.IsZero() {
		set("stand.height", r.Design.Stand.Height.String())
	}
	return edits
}

// loses says what stands in the line now that a run in its place would not
// hold: anything but tube, its bends and its changes of bore, and the valve
// that was wished for.
func (qu *Question) loses() string {
	pieces := qu.said.Run
	switch {
	case qu.Line == FromPump:
		pieces = qu.said.Delivery.Pieces
	case qu.gravity:
		pieces = append(slices.Clone(pieces), qu.said.Delivery.Pieces...)
	}
	var names []string
	for _, p := range pieces {
		switch p.Kind {
		case design.Straight, design.Bend, design.Reducer, design.Hose, design.Cap:
			continue
		case design.Butterfly:
			if qu.Valve != "none" {
				continue
			}
		}
		name := p.Name
		if name == "" {
			name = "a " + strings.ReplaceAll(p.Kind, "-", " ")
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "The line that is there holds what no run here does: " + list(names, "and") + ". Put it in again after the run, and look at the height and the fall anew."
}
