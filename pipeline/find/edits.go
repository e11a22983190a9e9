package find

import (
	"strconv"

	"drawoff/pipeline/design"
)

// Edits are the changes that put the run into d in place of the one there:
// one step, which one undo takes back.
func (r Run) Edits(d design.Design) (edits []design.Edit) {
	for i := len(d.Run) - 1; i >= 0; i-- {
		edits = append(edits, design.Edit{Op: "remove", Path: "run." + strconv.Itoa(i)})
	}
	set := func(path, value string) {
		if value != "" && value != "false" {
			edits = append(edits, design.Edit{Path: path, Value: value})
		}
	}
	for i, p := range r.Pieces {
		at := "run." + strconv.Itoa(i)
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
	if d.Stand.Height.IsZero() {
		set("stand.height", r.Design.Stand.Height.String())
	}
	return edits
}
