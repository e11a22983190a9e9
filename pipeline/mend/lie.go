package mend

import (
	"math"
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// line returns the lists of pieces that can close the gap that the verdict tells of.
func (m *mender) line() []string {
	if m.verdict.Piece == pump {
		return []string{"under.", "run."}
	}
	if m.report.Scene.Layout.Gravity {
		return []string{"under.", "run.", "delivery.pieces."}
	}
	return []string{"delivery.pieces."}
}

// each calls f for every piece of lists, the last first.
func (m *mender) each(lists []string, f func(path, kind string)) {
	pieces := m.report.Scene.Layout.Pieces()
	for i := len(pieces) - 1; i >= 0; i-- {
		list, _ := split(pieces[i].Ref)
		for _, l := range lists {
			if l == list {
				f(pieces[i].Ref, pieces[i].Kind)
			}
		}
	}
}

// meet answers a line that misses its end, or comes in askew.
func (m *mender) meet() (out []proposal) {
	l := m.report.Scene.Layout
	gap := l.Suction
	if m.verdict.Piece != pump {
		gap = l.Discharge
	}
	if gap.Distance <= m.filled.Limits.Gap.Value() {
		return append(m.straighten(gap.Turn), m.hosed()...)
	}
	m.each(m.line(), func(path, kind string) {
		if fit, _ := m.design.Get(path + ".fit"); kind == design.Straight && fit == "" {
			out = append(out, change("Make "+m.called(path)+" fit: cut it to whatever closes the gap.", set(path+".length", ""), set(path+".fit", "true")))
		}
	})
	if up := q.Length(gap.By.Z); math.Abs(float64(up)) > float64(gap.Distance)*0.99 {
		out = append(out, m.byHeight(up)...)
	}
	return append(append(out, m.goalMoved(gap)...), m.hosed()...)
}

// hosed takes a hose for the last straight, which takes up what the line
// misses its end by, in whatever direction, and what nobody knows of the parts.
func (m *mender) hosed() (out []proposal) {
	lists := m.line()
	last := ""
	m.each(lists[len(lists)-1:], func(path, kind string) {
		if last == "" {
			last = path
			if kind == design.Straight {
				lining, _ := catalog.FindMaterial(m.filled.Seal) // stands what the seals stand
				out = append(out, change("Take a hose lined with "+lining.Name+" for "+m.called(path)+", cut to what closes the gap.",
					set(path+".kind", design.Hose), set(path+".lining", lining.Slug), set(path+".length", ""), set(path+".fall", ""), set(path+".fit", "true")))
			}
		}
	})
	return out
}

// byHeight raises or lowers the tank by just what a line misses its end by.
func (m *mender) byHeight(up q.Length) []proposal {
	to := q.Text(m.report.Scene.Outlet + up)
	word := "Raise"
	if up < 0 {
		word, up = "Lower", -up
	}
	return []proposal{change(word+" the tank by "+q.Text(up)+": its outlet face to "+to+" over the floor.", set("stand.height", to))}
}

// goalMoved moves what the line should meet to where it ends: the pump, or the outflow.
func (m *mender) goalMoved(gap route.Gap) []proposal {
	if m.verdict.Piece == pump && len(m.report.Scene.Layout.ToPump()) == 0 {
		return nil
	}
	var edits []design.Edit
	where := ""
	put := func(path string, now q.Length, by float64, more, less string) {
		if math.Abs(by) < float64(q.Millimetre)/2 {
			return
		}
		edits = append(edits, set(path, q.Text(now-q.Length(by))))
		word := less
		if by < 0 {
			word = more
		}
		if where != "" {
			where += ", "
		}
		where += q.Text(q.Length(math.Abs(by))) + " " + word
	}
	p, d := m.filled.Pump, m.design.Delivery
	sentence := "Set the pump "
	if m.verdict.Piece == pump {
		put("pump.away", p.Away.Value(), gap.By.X, "further out", "nearer to the tank")
		put("pump.aside", p.Aside.Value(), gap.By.Y, "to the left", "to the right")
		put("pump.height", p.Height.Value(), gap.By.Z, "higher", "lower")
		if gap.Turn > m.filled.Limits.Spring.Value() {
			faces := m.comesIn()
			edits = append(edits, set("pump.faces", faces))
			sentence = "Face the pump's inlet to " + faces + " and set it "
		}
	} else {
		sentence = "Let the liquid out "
		if !d.Away.IsZero() {
			put("delivery.away", d.Away.Value(), gap.By.X, "further out", "nearer to the tank")
		}
		if !d.Height.IsZero() {
			put("delivery.height", d.Height.Value(), gap.By.Z, "higher", "lower")
		}
	}
	if edits == nil {
		return nil
	}
	return []proposal{change(sentence+where+", where the line ends.", edits...)}
}

// comesIn is the bearing that the pump's inlet would have to face for the line
// to come in straight, if it comes in level.
func (m *mender) comesIn() string {
	line := m.report.Scene.Layout.ToPump()
	dir := line[len(line)-1].Out.Dir
	return q.Text(q.Angle(math.Atan2(dir.Y, dir.X)))
}

// straighten turns the last bend, or the pump, until the line comes in straight.
func (m *mender) straighten(askew q.Angle) (out []proposal) {
	last := ""
	m.each(m.line(), func(path, kind string) {
		if kind == design.Bend && last == "" {
			last = path
		}
	})
	nudge := func(path, what string, now q.Angle) {
		for _, by := range [...]q.Angle{askew, -askew} {
			to := q.Text(now + by)
			out = append(out, change(what+to+".", set(path, to)))
		}
	}
	if last != "" {
		angle, turn := m.angles(last)
		nudge(last+".angle", "Make "+m.called(last)+" a bend of ", angle)
		nudge(last+".turn", "Turn "+m.called(last)+" to ", turn)
	}
	if m.verdict.Piece == pump && len(m.report.Scene.Layout.ToPump()) > 0 {
		faces := m.comesIn()
		out = append(out, change("Turn the pump so that its inlet faces "+faces+".", set("pump.faces", faces)))
	}
	return out
}

// angles returns how far a bend bends, and where to.
func (m *mender) angles(path string) (angle, turn q.Angle) {
	for _, p := range m.report.Scene.Layout.Pieces() {
		if p.Ref == path && p.Said != nil {
			return p.Said.Angle.Value(), p.Said.Turn.Value()
		}
	}
	return 0, 0
}

// tilt makes the nearest bend before the piece at ref bend a little more or less.
func (m *mender) tilt(ref string, most int) (out []proposal) {
	for path := before(ref); path != ""; path = before(path) {
		if kind, _ := m.design.Get(path + ".kind"); kind != design.Bend {
			continue
		}
		angle, _ := m.angles(path)
		for _, step := range [...]float64{0.5, -0.5} {
			s := scale{path: path + ".angle", now: float64(angle / q.Degree), step: step, most: most, write: func(x float64) string { return q.Text(q.Angle(x) * q.Degree) }}
			out = append(out, s.moved(func(to, _ string) string { return "Make " + m.called(path) + " a bend of " + to + "." })...)
		}
		return out
	}
	return nil
}

// sprung answers a joint that is bent too far to lay a straight to its fall.
func (m *mender) sprung() []proposal {
	out := m.tilt(m.verdict.Piece, 60)
	return append(out, change("Lay "+m.called(m.verdict.Piece)+" as it comes, to no fall of its own.", set(m.verdict.Piece+".fall", "")))
}

// fall answers a piece that lies too flat, rises or sags.
func (m *mender) fall() (out []proposal) {
	ref := m.verdict.Piece
	kind, _ := m.design.Get(ref + ".kind")
	typed, _ := m.design.Get(ref + ".fall")
	switch {
	case kind == design.Straight && typed != "" && m.verdict.Limit == nil: // too steep to be laid to it
		return []proposal{change("Take the fall of "+m.called(ref)+" out.", set(ref+".fall", ""))}
	case kind == design.Straight:
		least := m.filled.Limits.Fall.Value()
		for _, fall := range [...]q.Slope{least, -least} {
			words := "to fall " + q.Text(least) + " along the flow"
			if fall < 0 {
				words = "to rise " + q.Text(least) + " along the flow, so that it empties back"
			}
			out = append(out, change("Lay "+m.called(ref)+" "+words+".", set(ref+".fall", q.Text(fall))))
		}
	case kind == design.Hose && m.verdict.Limit == nil:
		for _, p := range m.report.Scene.Layout.Pieces() {
			if p.Ref == ref {
				out = m.length(ref+".length", p.Length, false, p.Length-5*q.Millimetre, 0).moved(func(to, _ string) string {
					return "Cut " + m.called(ref) + " to " + to + "."
				})
			}
		}
	}
	if least := m.filled.Limits.Fall; m.filled.Tank.Outlet.Place == "side" && m.filled.Tank.Outlet.Fall.Value() < least.Value() {
		out = append(out, change("Weld the tank's outlet on to fall "+least.String()+" outwards, and what hangs on it falls with it.", set("tank.outlet.fall", least.String())))
	}
	return append(append(out, m.tilt(ref, 30)...), m.raise(0)...)
}

// pocket answers a place where liquid or air stays: what has a branch is
// turned level or given a valve, and else a tee with a valve is put in.
func (m *mender) pocket(turn, valve string) (out []proposal) {
	ref := m.verdict.Piece
	kind, _ := m.design.Get(ref + ".kind")
	switch kind {
	case design.Tee, design.Cross, design.Pocket, design.Cock:
		out = append(out, change("Turn the branch of "+m.called(ref)+" level.", set(ref+".turn", "90°")))
		if kind == design.Tee || kind == design.Cross {
			out = append(out, change("Put a valve on the branch of "+m.called(ref)+".", set(ref+".third", "valve")))
		}
		if kind == design.Cross {
			out = append(out, change("Put a valve on the far branch of "+m.called(ref)+".", set(ref+".fourth", "valve")))
		}
	}
	if kind != design.Straight && kind != design.Tee && kind != design.Cross {
		out = append(out, m.tilt(ref, 30)...)
	}
	list, i := split(ref)
	if i < 0 {
		return out
	}
	for _, at := range [...]struct {
		path, word, end string
	}{{ref, "before", ""}, {list + strconv.Itoa(i+1), "after", ""}} {
		member := ".in"
		if at.word == "after" {
			member = ".out"
		}
		end, _ := m.filled.Get(ref + member)
		in, o := mates(end, at.word == "after")
		out = append(out, change("Put a tee in "+at.word+" "+m.called(ref)+", with "+valve+".",
			design.Edit{Op: "insert", Path: at.path}, set(at.path+".kind", design.Tee), set(at.path+".third", "valve"), set(at.path+".turn", turn), set(at.path+".in", in), set(at.path+".out", o)))
	}
	return out
}

// flatSide answers a reducer that holds liquid behind its step.
func (m *mender) flatSide() []proposal {
	ref := m.verdict.Piece
	if shape, _ := m.design.Get(ref + ".shape"); shape == "eccentric" {
		return []proposal{change("Turn the flat side of "+m.called(ref)+" down.", set(ref+".turn", "180°"))}
	}
	return []proposal{change("Make "+m.called(ref)+" an eccentric reducer, flat side down.", set(ref+".shape", "eccentric"), set(ref+".turn", "180°"))}
}

// body answers a valve that holds liquid by its make.
func (m *mender) body() (out []proposal) {
	ref := m.verdict.Piece
	kind, _ := m.design.Get(ref + ".kind")
	if kind == design.Seat {
		for _, turn := range [...]string{"180°", "0°"} {
			out = append(out, change("Turn the outlet of "+m.called(ref)+" to "+turn+".", set(ref+".turn", turn)))
		}
		return out
	}
	return []proposal{change("Take a butterfly valve for "+m.called(ref)+", and shut it by hand.", set(ref+".kind", design.Butterfly), set(ref+".kv", ""))}
}

// room answers a straight that has no tube left.
func (m *mender) room() (out []proposal) {
	ref := m.verdict.Piece
	if m.steep(ref) {
		out = append(append(m.raise(0), m.pumpBy(-q.Millimetre)...), m.outflowBy(q.Millimetre)...)
	} else if !m.report.Scene.Layout.Gravity {
		p := m.filled.Pump
		out = m.length("pump.away", p.Away.Value(), true, tall, 0).moved(func(to, by string) string {
			return "Set the pump " + by + " further out: its inlet " + to + " from the tank's axis."
		})
	}
	return append(out, change("Leave "+m.called(ref)+" out.", design.Edit{Op: "remove", Path: ref}))
}
