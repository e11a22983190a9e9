package design

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// pieces judges every piece, in flow order. Only the fields that count for a
// piece's kind are looked at.
func (v *validator) pieces(d Design) {
	all := d.Sizes()
	for i, s := range all {
		p := s.Piece
		kind, ok := FindKind(p.Kind)
		if !ok {
			v.unknownKind(s.Path, p.Kind)
			continue
		}
		v.seal(s.Path+".seal", p.Seal, true)
		from, okFrom := catalog.FindTube(s.From)
		if p.Size != "" {
			from, okFrom = v.tube(s.Path+".size", p.Size, false)
		}
		to, okTo := from, okFrom
		if p.Kind == Reducer {
			to, okTo = v.reducer(s.Path, p)
		}
		if okFrom {
			v.end(s.Path+".in", p.In, from, p.Kind == Hose)
		}
		if okTo && p.Kind != Cap {
			v.end(s.Path+".out", p.Out, to, p.Kind == Hose)
		}
		v.measures(s.Path, p, kind)
		if p.Kind == Hose {
			v.choice(s.Path+".lining", p.Lining, materials())
		}
		if p.Kind == Bend && okFrom {
			v.bend(s.Path, p, from)
		}
		if p.Kind == Hose && p.Fit && !endsLine(d, all, i) {
			v.fault(s.Path+".fit", "true", "is only for the last piece of a line", "give the hose a length, or move it to the end of its line")
		}
	}
}

func (v *validator) unknownKind(path, given string) {
	known := make([]string, len(kindList))
	for i, k := range kindList {
		known[i] = k.Slug
	}
	if given == "" {
		v.fault(path+".kind", "", "is missing", "write "+or(known))
		return
	}
	v.fault(path+".kind", given, "is not a kind of piece", pick(given, known))
}

// reducer judges what only a reducer has, and returns the tube it leads to.
func (v *validator) reducer(path string, p *Piece) (catalog.Tube, bool) {
	if p.To == "" {
		v.fault(path+".to", "", "is missing", "choose the size at the downstream end, like bs-4825/1.5in")
		return catalog.Tube{}, false
	}
	return v.tube(path+".to", p.To, true)
}

// widestBend is the widest that a bend may turn, in degrees: further, and its
// ends' axes cross too far off to say where it stands.
const widestBend = 170

// bend faults a bend that tube t is not bent to.
func (v *validator) bend(path string, p *Piece, t catalog.Tube) {
	angle := p.Angle.Or(90 * q.Degree)
	if _, ok := catalog.BendOf(t, p.Shape, angle); ok || angle < rad(1) || angle > rad(widestBend) {
		return
	}
	made := catalog.BendShapes(t)
	hint := "leave it empty for the usual bend"
	if len(made) > 0 {
		hint = pick(p.Shape, made)
	}
	v.fault(path+".shape", p.Shape, "is not a shape that "+t.Name+" bends come in", hint)
}

// measures judges the lengths and angles that count for kind.
func (v *validator) measures(path string, p *Piece, kind Kind) {
	counts := func(field string) bool { return slices.Contains(kind.Fields, field) }
	if counts("shape") && p.Kind != Bend {
		v.choice(path+".shape", p.Shape, shapesOf[p.Kind])
	}
	if counts("third") {
		v.choice(path+".third", p.Third, thirds)
	}
	if counts("fourth") {
		v.choice(path+".fourth", p.Fourth, thirds)
	}
	if counts("length") {
		span(v, path+".length", p.Length, 0.001, 100, "1 mm to 100 m")
	}
	if counts("fit") && !p.Fit && p.Length.IsZero() {
		v.fault(path+".length", "", "is missing", "write a length, or let it be made to fit")
	}
	if counts("angle") {
		span(v, path+".angle", p.Angle, rad(1), rad(widestBend), "1° to 170°")
	}
	if counts("turn") {
		span(v, path+".turn", p.Turn, rad(-360), rad(360), "-360° to 360°")
	}
	if counts("fall") {
		span(v, path+".fall", p.Fall, -1, 1, "rising 1:1 to 1:1")
	}
	v.losses(path, p, kind)
}

// losses judges what a user knows of a piece's loss.
func (v *validator) losses(path string, p *Piece, kind Kind) {
	counts := func(field string) bool { return slices.Contains(kind.Fields, field) }
	if counts("open") {
		least, words := rad(20), "20° to 90°, 90° being fully open: nearer to closed no table holds"
		if p.Kind == Ball {
			least, words = rad(25), "25° to 90°, 90° being fully open: nearer to closed no table holds"
		}
		span(v, path+".open", p.Open, least, rad(90), words)
	}
	if counts("share") {
		span(v, path+".share", p.Share, -0.9, 0.9, "-90 % to 90 %")
		if p.Shape == "branch" && p.Share.Value() < 0 {
			v.fault(path+".share", p.Share.String(), "joins at the run of a tee whose branch is the way out, for which Drawoff has no published loss",
				"turn the tee so that the line goes straight through and the other flow joins at the branch")
		}
	}
	if counts("roughness") {
		span(v, path+".roughness", p.Roughness, 0, 0.003, "0 to 3 mm")
	}
	if counts("kv") {
		span(v, path+".kv", p.Kv, 0.01, 100000, "0.01 to 100 000, in m³/h at 1 bar")
	}
	if p.Kind == Device && p.Length.IsZero() {
		v.fault(path+".length", "", "is missing", "write the length of the device over its ends")
	}
	if !Drops(p.Kind) {
		return
	}
	v.choice(path+".dropsIn", p.DropsIn, dropsIns)
	if len(p.Drops) > MaxCurve {
		v.fault(path+".drops", strconv.Itoa(len(p.Drops))+" items", "is more than a list may hold, "+strconv.Itoa(MaxCurve), "leave out points that lie on a line with their neighbours")
		return
	}
	if p.Kind == Device && len(p.Drops) == 0 && p.Kv.IsZero() {
		v.fault(path+".kv", "", "is missing", "write the device's Kv, in m³/h at 1 bar, or points of flow and pressure drop from its data sheet")
	}
	for i, d := range p.Drops {
		at := itemPath(path+".drops", i)
		need(v, at+".flow", d.Flow, 1e-9, 1, "the flow of the point", "more than 0, to 3600 m³/h")
		need(v, at+".drop", d.Drop, 0, 1e8, "the pressure that it drops there", "0 to 1000 bar")
		if i == 0 {
			continue
		}
		before := p.Drops[i-1]
		switch {
		case d.Flow.IsZero() || before.Flow.IsZero():
		case d.Flow.Value() <= before.Flow.Value():
			v.fault(at+".flow", d.Flow.String(), "is not more than the flow of the point before it, "+before.Flow.String(), "put the points in the order of their flow")
		case d.Drop.IsZero() || before.Drop.IsZero():
		case d.Drop.Value() < before.Drop.Value():
			v.fault(at+".drop", d.Drop.String(), "is less than at the smaller flow before it, "+before.Drop.String(), "a drop grows with the flow: look at the two points again")
		}
	}
}

// endsLine reports whether the piece at all[i] is the last of its line: what
// follows is the pump or the delivery, or nothing.
func endsLine(d Design, all []Sized, i int) bool {
	if i == len(all)-1 {
		return true
	}
	toPump := !strings.HasPrefix(all[i].Path, "delivery.")
	return d.Pump.Kind != NoPump && toPump && strings.HasPrefix(all[i+1].Path, "delivery.")
}

// inOrder returns the faults in the order of the design's fields, the order
// in which a person meets them in a form.
func (v *validator) inOrder() Faults {
	if len(v.faults) > 1 {
		slices.SortStableFunc(v.faults, func(a, b Fault) int { return slices.Compare(ranks(a.Field), ranks(b.Field)) })
	}
	return v.faults
}

// ranks returns the place of each step of path among its neighbours.
func ranks(path string) []int {
	var out []int
	var in any = &Design{}
	for step := range strings.SplitSeq(path, ".") {
		switch at := in.(type) {
		case sequence:
			i, _ := place(step)
			out, in = append(out, i), at.blank()
		case record:
			rank := 0
			at.fields(func(name string, field any, _ presence) bool {
				if name == step {
					out, in = append(out, rank), field
				}
				rank++
				return name != step
			})
		}
	}
	return out
}
