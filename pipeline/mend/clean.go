package mend

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// washed answers a wash that is too slow in the widest bore: where a reducer
// hangs right under the tank, an outlet of the line's own width; a pump that
// turns faster.
func (m *mender) washed() []proposal {
	var out []proposal
	if len(m.filled.Under) > 0 {
		first := m.filled.Under[0]
		to, ok := catalog.FindTube(first.To)
		if from := m.report.Scene.Layout.Outlet.Bore(); ok && first.Kind == design.Reducer && to.Bore() < from {
			out = append(out, change("Make the tank's outlet "+to.Name+" and leave out the reducer.",
				design.Edit{Op: "remove", Path: "under.0"}, set("tank.outlet.size", first.To), set("tank.outlet.end", first.Out)))
		}
	}
	return append(out, m.faster()...)
}

// litres writes a flow in the next whole litre for each minute.
func litres(f q.Amount) string {
	return q.Of(q.Flow(math.Ceil(q.Flow(f.SI).LitresPerMinute()-1e-9)) * q.LitrePerMinute).Text(q.Metric)
}

// sprayed answers a spray ball that gives too little.
func (m *mender) sprayed() []proposal {
	if m.verdict.Limit == nil {
		return nil
	}
	most := litres(*m.verdict.Limit)
	return []proposal{change("Take a spray ball that gives "+most+".", set("wash.spray", most))}
}

// scavenged answers a wash that does not run off.
func (m *mender) scavenged() []proposal {
	if m.verdict.Limit == nil {
		return nil
	}
	all := litres(*m.verdict.Limit)
	return []proposal{change("Draw the wash off with a pump that takes "+all+".", set("wash.scavenge", all))}
}

// vented answers an opening that is too small for the liquid; in steps of 5 mm.
func (m *mender) vented() []proposal {
	if m.verdict.Limit == nil {
		return nil
	}
	wide := q.Of(q.Length(math.Ceil(m.verdict.Limit.SI/0.005-1e-9)) * 5 * q.Millimetre).Text(q.Metric)
	return []proposal{change("Open the vent to "+wide+" or more.", set("vent.bore", wide))}
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
