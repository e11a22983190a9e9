package mend

import (
	"math"
	"strconv"

	"drawoff/catalog"
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

// up5 rounds a flow up to 5 L/min, as pumps and spray balls are told.
func up5(flow q.Flow) q.Flow {
	return q.Flow(math.Ceil(flow.LitresPerMinute()/5-1e-9)) * 5 * q.LitrePerMinute
}

// washSpeed answers a wash that runs too slowly in the widest bore: more
// through it, or an outlet that is no wider than the line.
func (m *mender) washSpeed() []proposal {
	out := m.faster()
	if len(m.design.Under) > 0 && m.design.Under[0].Kind == design.Reducer {
		to := m.design.Under[0].To
		out = append(out, change("Make the outlet of the tube of the line, and leave "+m.called("under.0")+" out.",
			set("tank.outlet.size", to), design.Edit{Op: "remove", Path: "under.0"}))
	}
	return append(append(out, m.wider(delivery)...), m.wider(suction)...)
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
	least := up5(q.Flow(m.limit()))
	if m.filled.Wash.Spray.Value() < least && least > 0 {
		return []proposal{change("Take a spray ball of "+q.Text(least)+".", set("wash.spray", q.Text(least)))}
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
	off := q.Text(up5(q.Flow(m.limit())))
	return []proposal{change("Draw the wash off with a pump that takes "+off+".", set("wash.scavenge", off))}
}

// vent answers an opening too small for the liquid.
func (m *mender) vent() []proposal {
	return m.length("vent.bore", m.filled.Vent.Bore.Value(), true, tall, q.Length(m.limit())).moved(func(to, _ string) string {
		return "Make the opening of the tank " + to + " wide, with nothing in it."
	})
}

// linings answers a hose whose lining does not stand what runs through it.
func (m *mender) linings() []proposal {
	path := m.verdict.Piece + ".lining"
	var out []proposal
	for _, good := range catalog.Materials() {
		out = append(out, change("Use a hose lined with "+good.Name+".", set(path, good.Slug)))
	}
	return out
}
