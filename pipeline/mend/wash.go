package mend

import (
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/clean"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// limit is what the verdict was held to, 0 where nothing is said.
func (m *mender) limit() float64 {
	if m.verdict.Limit == nil {
		return 0
	}
	return m.verdict.Limit.SI
}

// washSpeed answers a wash that runs too slowly in the widest bore: more
// through it, or an outlet that is no wider than the line.
func (m *mender) washSpeed() []proposal {
	out := m.outletAsLine(false)
	fed := q.Of(m.report.Wash().Programme.Line).Over()
	out = append(out, change("Take another pump for the wash, one that gives "+fed+": the least speed in the widest bore.", set("wash.flow", fed)))
	return append(append(append(out, m.faster()...), m.wider(delivery)...), m.wider(suction)...)
}

// outletAsLine makes the tank's outlet of the tube that the line has behind a
// reducer at it, where that is wider, or narrower.
func (m *mender) outletAsLine(wider bool) []proposal {
	if len(m.filled.Under) == 0 {
		return nil
	}
	first := m.filled.Under[0]
	to, ok := catalog.FindTube(first.To)
	if !ok || first.Kind != design.Reducer || (to.Bore() > m.report.Scene.Layout.Outlet.Bore()) != wider {
		return nil
	}
	return []proposal{change("Make the tank's outlet "+to.Name+" and leave out the reducer.",
		design.Edit{Op: "remove", Path: "under.0"}, set("tank.outlet.size", first.To), set("tank.outlet.end", first.Out))}
}

// washSuction answers a pump that has too little to draw from on the wash.
func (m *mender) washSuction() []proposal {
	out := append(m.slow(), m.earlier(m.filled.Tank.Lowest.Value(), 0)...)
	for i, c := range m.filled.Cleaning {
		now := q.Of(c.Temperature.Value()).In(q.Metric)
		cooler := scale{path: "cleaning." + strconv.Itoa(i) + ".temperature", now: now, step: -5, most: max(0, int((now-20)/5)), write: func(x float64) string { return q.Text(q.Celsius(x)) }}
		out = append(out, cooler.moved(func(to, _ string) string {
			return "Wash at " + to + " in step " + strconv.Itoa(i+1) + ", if that still cleans."
		})...)
	}
	return append(append(out, m.raise(0)...), m.wider(suction)...)
}

// spray answers a ball that wets too little, or that too little presses.
func (m *mender) spray() []proposal {
	if least := q.Flow(m.limit()); m.filled.Wash.Spray.Value() < least {
		return []proposal{change("Take a spray ball that gives "+q.Of(least).Over()+".", set("wash.spray", q.Of(least).Over()))}
	}
	now := float64(m.filled.Wash.Pressure.Value())
	softer := scale{path: "wash.pressure", now: now, step: -float64(q.Bar) / 10, most: int(now/float64(q.Bar)*10) - 1, write: func(x float64) string { return q.Text(q.Pressure(x)) }}
	return append(softer.moved(func(to, _ string) string { return "Take a spray ball made for " + to + "." }), append(m.faster(), m.wider(delivery)...)...)
}

// runoff answers a wash that does not leave the tank as fast as it is sprayed.
func (m *mender) runoff() []proposal {
	if m.limit() <= 0 {
		return nil
	}
	off := q.Of(q.Flow(m.limit())).Over()
	return []proposal{change("Draw the wash off with a pump that takes "+off+".", set("wash.scavenge", off))}
}

// vent answers an opening too small for the liquid.
func (m *mender) vent() []proposal {
	return m.length("vent.bore", m.filled.Vent.Bore.Value(), true, tall, q.Length(m.limit())).moved(func(to, _ string) string {
		return "Open the vent to " + to + " or more."
	})
}

// linings answers a hose whose lining does not stand what runs through it, or
// hoses of which nobody has told what they are lined with.
func (m *mender) linings() (out []proposal) {
	var paths []string
	for _, p := range m.report.Scene.Layout.Pieces() {
		path := p.Ref + ".lining"
		lining, _ := m.design.Get(path)
		if p.Ref == m.verdict.Piece || m.verdict.Rule == clean.RuleHose && p.Kind == design.Hose && lining == "" {
			paths = append(paths, path)
		}
	}
	for _, good := range catalog.Materials() {
		var edits []design.Edit
		for _, path := range paths {
			edits = append(edits, set(path, good.Slug))
		}
		out = append(out, change("Use a hose lined with "+good.Name+".", edits...))
	}
	return out
}
