package mend

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// slow lets less through: a pump that turns slower, or a throttle.
func (m *mender) slow() []proposal { return append(m.slower(), m.throttle()...) }

// turns proposes to turn the pump slower or faster, where its speed is known:
// by as much as half of it, in steps of about a hundredth of it.
func (m *mender) turns(faster bool) []proposal {
	p := m.filled.Pump
	if p.Kind == design.NoPump || p.Rated.IsZero() {
		return nil
	}
	now := float64(p.Speed.Value())
	step := float64(q.RPM)
	switch {
	case now >= 500*step:
		step *= 10
	case now >= 100*step:
		step *= 2
	}
	if !faster {
		step = -step
	}
	s := scale{path: "pump.speed", now: now, step: step, most: int(now / 2 / max(step, -step)), write: func(x float64) string { return q.Text(q.Rotation(x)) }}
	return flowing(s.moved(func(to, _ string) string { return "Turn the pump at " + to + "." }))
}

func (m *mender) slower() []proposal { return m.turns(false) }
func (m *mender) faster() []proposal { return m.turns(true) }

// notches are how far a throttle is open, the mildest first, in the steps of a
// notched lever. Common practice, no source.
var notches = []string{"80°", "75°", "70°", "65°", "60°", "55°", "50°", "45°", "40°", "35°", "30°", "25°"}

// throttle proposes to shut a valve of the delivery in part, or to put one
// there: before the pump it would take suction head. A positive pump is not to
// be throttled.
func (m *mender) throttle() []proposal {
	if design.Positive(m.filled.Pump.Kind) {
		return nil
	}
	const line = "delivery.pieces."
	for _, p := range m.report.Scene.Layout.Pieces() {
		before := !m.report.Scene.Layout.Gravity && !strings.HasPrefix(p.Ref, line)
		if p.Kind != design.Butterfly && p.Kind != design.Ball || before || p.Said == nil {
			continue
		}
		var less []string
		for _, o := range notches {
			if q.MustParse[q.Angle](o).Value() < p.Said.Open.Value() {
				less = append(less, o)
			}
		}
		return flowing(among(p.Ref+".open", less, func(v string) string { return "Open " + m.called(p.Ref) + " by only " + v + "." }))
	}
	where, end := "after the pump", m.filled.Pump.OutEnd
	if m.report.Scene.Layout.Gravity {
		where, end = "at the start of the delivery", m.lastEnd()
	}
	at := line + "0"
	return flowing(dialled(len(notches), 0, func(step int) proposal {
		v := notches[step-1]
		return change("Put a butterfly valve in "+where+" and open it by "+v+".",
			design.Edit{Op: "insert", Path: at}, set(at+".kind", design.Butterfly), set(at+".in", catalog.Mate(end)), set(at+".out", end), set(at+".open", v))
	}))
}

// shuts proposes a valve to be shut when the pump stops.
func (m *mender) shuts() []proposal {
	const at = "delivery.pieces.0"
	end := m.filled.Pump.OutEnd
	return []proposal{change("Put a butterfly valve in after the pump, and shut it when the pump stops.",
		design.Edit{Op: "insert", Path: at}, set(at+".kind", design.Butterfly), set(at+".in", catalog.Mate(end)), set(at+".out", end))}
}

// lastEnd is the end that the delivery begins at where there is no pump.
func (m *mender) lastEnd() string {
	if n := len(m.filled.Run); n > 0 {
		return m.filled.Run[n-1].Out
	}
	if n := len(m.filled.Under); n > 0 {
		return m.filled.Under[n-1].Out
	}
	return m.filled.Tank.Outlet.End
}

// air answers a vortex at the lowest level: stop earlier, or draw less.
func (m *mender) air() []proposal {
	now := m.filled.Tank.Lowest.Value()
	need := q.Length(0)
	if m.verdict.Limit != nil {
		need = q.Length(m.verdict.Limit.SI)
	}
	return append(append(m.earlier(now, need), m.slow()...), m.outletAsLine(true)...)
}

// earlier proposes to stop while more is in the tank, and tells how much. What
// leaves much of it there is offered last.
func (m *mender) earlier(now, target q.Length) []proposal {
	levels, tank := m.report.Scene.Levels, m.report.Scene.Vessel
	full, lowest := levels[0].Height-m.report.Scene.TankFoot, levels[len(levels)-1].Height-m.report.Scene.TankFoot
	s := m.length("tank.lowest", now, true, max(full-lowest-q.Millimetre, 0), target)
	return dialled(s.most, s.guess(), func(steps int) proposal {
		x := s.value(steps)
		stays := tank.VolumeAt(lowest + q.Length(x) - now)
		to, by := s.write(x), s.write(x-s.now)
		p := change("Stop "+s.told(by)+" earlier, at "+s.told(to)+" over the outlet: "+q.Text(stays)+" stay in the tank.", set(s.path, to))
		p.last = stays > tank.VolumeAt(full)/muchLeft
		return p
	})
}

// muchLeft is what part of a full tank is much to leave there. Ours, no source.
const muchLeft = 10

// suction answers too little suction head.
func (m *mender) suction() []proposal {
	target := q.Length(0)
	for _, d := range m.report.Drivers {
		if d.Slug == "suction-head" {
			target = d.Needed
		}
	}
	out := append(m.raise(target), m.pumpBy(-q.Millimetre)...)
	out = append(out, m.slow()...)
	return append(append(out, m.wider(suction)...), m.cool()...)
}

// degrees proposes to cool or warm the liquid by full degrees, as far as to.
func (m *mender) degrees(to float64, sentence string) []proposal {
	now := q.Of(m.filled.Liquid.Temperature.Value()).In(q.Metric)
	s := scale{path: "liquid.temperature", now: now, step: 1, most: int(to - now), write: func(x float64) string { return q.Text(q.Celsius(x)) }}
	if to < now {
		s.step, s.most = -1, int(now-to)
	}
	return s.moved(func(to, _ string) string { return sentence + to + "." })
}

func (m *mender) cool() []proposal { return m.degrees(1, "Cool the liquid to ") }

// warm stays under what scalds.
func (m *mender) warm() []proposal { return m.degrees(45, "Warm the liquid to ") }

// mild brings a liquid that no formula covers towards where most were measured.
func (m *mender) mild() []proposal {
	const room = 20
	if q.Of(m.filled.Liquid.Temperature.Value()).In(q.Metric) > room {
		return m.degrees(room, "Cool the liquid to ")
	}
	return m.degrees(room, "Warm the liquid to ")
}

// wanted answers a flow that is not to be had.
func (m *mender) wanted() []proposal {
	now := m.design.Delivery.Flow
	less := scale{path: "delivery.flow", kind: q.KindFlow, now: float64(now.Value()), step: -float64(q.LitrePerMinute), most: int(now.Value().LitresPerMinute()) - 1, write: func(x float64) string {
		return q.Of(q.Flow(x)).Under(now.String())
	}}
	out := append(m.faster(), m.wider(delivery)...)
	out = append(append(out, m.raise(0)...), m.outflowBy(-q.Millimetre)...)
	return append(append(out, m.wider(suction)...), less.moved(func(to, _ string) string { return "Be content with " + to + "." })...)
}

// curve answers a pump that runs off its curve.
func (m *mender) curve() []proposal {
	out := append(m.slower(), m.throttle()...)
	out = append(append(out, m.faster()...), m.outflowBy(-q.Millimetre)...)
	return append(append(out, m.raise(0)...), m.wider(delivery)...)
}

// speed answers a pump that is turned faster, or far slower, than its points.
func (m *mender) speed() []proposal {
	p := m.filled.Pump
	if p.Speed.Value() < p.Rated.Value() {
		return m.faster()
	}
	return flowing([]proposal{change("Turn the pump at the speed of its points, "+p.Rated.String()+".", set("pump.speed", ""))})
}

// runs answers a line that does not run by gravity.
func (m *mender) runs() []proposal { return append(m.raise(0), m.outflowBy(-q.Millimetre)...) }

// fills answers a line that does not fill of itself.
func (m *mender) fills() []proposal {
	out := append(m.raise(0), m.pumpBy(-q.Millimetre)...)
	return append(out, m.earlier(m.filled.Tank.Lowest.Value(), 0)...)
}

// opens answers a non-return valve that too little flows through: more, or the
// valve in a smaller tube between two reducers.
func (m *mender) opens() []proposal {
	ref := m.verdict.Piece
	list, i := split(ref)
	var tube string
	for _, p := range m.report.Scene.Layout.Pieces() {
		if p.Ref == ref {
			tube = p.In.Half.Tube.Slug
		}
	}
	in, _ := m.filled.Get(ref + ".in")
	out, _ := m.filled.Get(ref + ".out")
	sizes := narrower(tube)
	return append(m.faster(), dialled(min(len(sizes), 3), 0, func(step int) proposal {
		to := sizes[step-1]
		reducer := func(at, from, to, in, out string) []design.Edit {
			edits := []design.Edit{{Op: "insert", Path: at}, set(at+".kind", design.Reducer), set(at+".size", from), set(at+".to", to), set(at+".in", in), set(at+".out", out)}
			if !m.steep(ref) {
				edits = append(edits, set(at+".shape", "eccentric"), set(at+".turn", "180°"))
			}
			return edits
		}
		edits := append([]design.Edit{set(ref+".size", to.Slug)}, reducer(list+strconv.Itoa(i+1), to.Slug, tube, catalog.Mate(out), out)...)
		return change("Take "+m.called(ref)+" in "+to.Name+", between two reducers.", append(edits, reducer(ref, tube, to.Slug, in, catalog.Mate(in))...)...)
	})...)
}

// regime answers a flow between laminar and turbulent.
func (m *mender) regime() []proposal {
	return append(append(append(m.slower(), m.faster()...), m.throttle()...), m.wider(delivery)...)
}

// relief answers a positive pump without a relief valve, or with one set too high.
func (m *mender) relief() []proposal {
	var most q.Pressure
	for i, s := range m.filled.Pump.Slip {
		if p := s.Pressure.Value(); i == 0 || p > most {
			most = p
		}
	}
	if most <= 0 {
		return nil
	}
	return []proposal{change("Fit a relief valve that opens at "+q.Text(most)+", the last point of the pump, between it and the first valve, leading where it hurts nobody. See that the weakest part bears that.", set("pump.relief", q.Text(most)))}
}

// The lines that tube can be changed in.
const (
	suction  = "suction"
	delivery = "delivery"
)

// wider proposes to make a line of the next tube of its series, and the next
// but one: every piece that is of the pump's tube, with a reducer at the pump.
func (m *mender) wider(line string) (out []proposal) {
	if m.report.Scene.Layout.Gravity {
		return nil
	}
	is, paths := m.filled.Pump.InSize, []string{"under", "run"}
	if line == delivery {
		is, paths = m.filled.Pump.OutSize, []string{"delivery.pieces"}
	}
	sizes := next(is)
	return dialled(min(len(sizes), 2), 0, func(step int) proposal {
		to := sizes[step-1]
		var edits []design.Edit
		called := "the " + line + " line"
		if line == suction && m.filled.Tank.Outlet.Size == is { // which its pieces follow
			edits, called = append(edits, set("tank.outlet.size", to.Slug)), "the tank's outlet and "+called
		}
		for _, path := range paths {
			for i := 0; ; i++ {
				piece := path + "." + strconv.Itoa(i)
				if _, ok := m.design.Get(piece + ".kind"); !ok {
					break
				}
				for _, member := range [...]string{".size", ".to"} {
					if size, _ := m.design.Get(piece + member); size == is {
						edits = append(edits, set(piece+member, to.Slug))
					}
				}
			}
		}
		return change("Make "+called+" of "+to.Name+", with a reducer at the pump.", append(edits, m.reducer(line, is, to.Slug)...)...)
	})
}

// reducer puts an eccentric one, flat side down, between a line and the pump.
func (m *mender) reducer(line, pump, tube string) []design.Edit {
	at, from, to, end := "run."+strconv.Itoa(len(m.design.Run)), tube, pump, m.filled.Pump.InEnd
	if line == delivery {
		at, from, to, end = "delivery.pieces.0", pump, tube, m.filled.Pump.OutEnd
	}
	in, out := end, catalog.Mate(end) // before the pump inlet
	if line == delivery {
		in, out = catalog.Mate(end), end
	}
	return []design.Edit{
		{Op: "insert", Path: at}, set(at+".kind", design.Reducer), set(at+".size", from), set(at+".to", to),
		set(at+".shape", "eccentric"), set(at+".turn", "180°"), set(at+".in", in), set(at+".out", out),
	}
}

// series returns the tubes of one series with the one called slug and its
// place in them, by their size.
func series(slug string) (out []catalog.Tube, at int) {
	of, ok := catalog.FindTube(slug)
	if !ok {
		return nil, 0
	}
	for _, t := range catalog.Tubes() {
		if t.Series == of.Series {
			out = append(out, t)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].OD < out[j].OD })
	return out, slices.IndexFunc(out, func(t catalog.Tube) bool { return t.Slug == slug })
}

// next returns the tubes of its series that are wider than the one called
// slug, narrower those that are not, the nearest first.
func next(slug string) []catalog.Tube {
	all, at := series(slug)
	return all[min(at+1, len(all)):]
}

func narrower(slug string) []catalog.Tube {
	all, at := series(slug)
	slices.Reverse(all[:at])
	return all[:at]
}

// uncapped takes out a cap that closes the line.
func (m *mender) uncapped() []proposal {
	return []proposal{change("Take the cap out.", design.Edit{Op: "remove", Path: m.verdict.Piece})}
}

// steep reports whether the line runs steeply into the piece at ref.
func (m *mender) steep(ref string) bool {
	for _, p := range m.report.Scene.Layout.Pieces() {
		if p.Ref == ref {
			return route.Steep(p.In.Dir)
		}
	}
	return false
}

// before returns the path of the piece before the one at ref in its list, "" for the first.
func before(ref string) string {
	list, i := split(ref)
	if i < 1 {
		return ""
	}
	return list + strconv.Itoa(i-1)
}

// split cuts a path of an item into its list with the point, and its place; -1 where it is none.
func split(ref string) (list string, i int) {
	dot := strings.LastIndexByte(ref, '.')
	i, err := strconv.Atoi(ref[dot+1:])
	if err != nil {
		return "", -1
	}
	return ref[:dot+1], i
}
