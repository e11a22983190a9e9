package clean

import (
	"slices"
	"strings"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// Programme is a wash as it is hung on the tank. In JSON everything is in SI units.
type Programme struct {
	Rows   []Row    `json:"steps"`
	Line   q.Flow   `json:"lineFlow"`  // at least, through the line
	Spray  q.Flow   `json:"sprayFlow"` // on to the tank's wall
	Holds  q.Volume `json:"lineHolds"`
	Totals Totals   `json:"totals"`
}

// Row is one step of it.
type Row struct {
	Name        string        `json:"step"` // "pre-rinse", "acid"
	Agent       string        `json:"with"` // "caustic soda, 2 %"
	Temperature q.Temperature `json:"temperature"`
	Time        q.Duration    `json:"time"`
	Flow        q.Flow        `json:"flow"`          // that goes through line and ball
	Round       bool          `json:"round"`         // it goes round; else it runs through to waste
	Water       q.Volume      `json:"water"`         // made up for it, or run through
	Pure        q.Mass        `json:"pure"`          // of the pure agent
	Heat        float64       `json:"kilowattHours"` // to bring it, and the tank, to temperature
	Warming     q.Duration    `json:"warming"`       // that the element takes for it; 0: no element is told, or it is cold
	Contact     q.Duration    `json:"contact"`       // of the last of the line to be reached
	Displaced   float64       `json:"displaced"`     // times what the line holds
	Stands      []Stand       `json:"stands"`
}

// Totals are sums over the rows.
type Totals struct {
	Time      q.Duration `json:"time"`    // of the steps
	Warming   q.Duration `json:"warming"` // besides, where none is made up while another runs
	Water     q.Volume   `json:"water"`
	Heat      float64    `json:"kilowattHours"`
	Chemicals []Chemical `json:"chemicals"`
}

// Chemical is how much of a pure agent a wash takes.
type Chemical struct {
	Agent string `json:"agent"` // its slug
	Name  string `json:"name"`
	Mass  q.Mass `json:"mass"`
}

// Rinse reports whether a step rinses: it runs through once, to waste.
func (s Step) Rinse() bool { return s.Agent.Slug == "water" }

// Contact returns how long the last of a line that holds so much is in touch
// with what flows through it for a time: the time less that of its residence.
func Contact(time q.Duration, holds q.Volume, flow q.Flow) q.Duration {
	if flow <= 0 {
		return 0
	}
	return max(0, time-q.Duration(float64(holds)/float64(flow)))
}

// Displaced returns how many times what a line holds has gone through it.
func Displaced(time q.Duration, holds q.Volume, flow q.Flow) float64 {
	if holds <= 0 {
		return 0
	}
	return float64(flow) * float64(time) / float64(holds)
}

func (w *wash) programme() Programme {
	p := Programme{Line: w.need, Spray: w.spray, Holds: w.line}
	for i, s := range w.Steps {
		flow := w.goes(i)
		row := Row{
			Name: stepName(w.Steps, i), Agent: s.Agent.Named(s.Strength), Temperature: s.Temperature, Time: s.Time, Flow: flow,
			Round: !s.Rinse(), Contact: Contact(s.Time, w.line, flow), Displaced: Displaced(s.Time, w.line, flow), Stands: s.Stands,
		}
		if s.Rinse() {
			row.Water = q.Volume(float64(flow) * float64(s.Time))
		} else {
			row.Water = w.batch(s)
			row.Pure = q.Mass(float64(s.Strength) * float64(s.Liquid.Density) * float64(row.Water))
			row.Heat = w.heat(s, row.Water)
			row.Warming = w.warming(row.Heat)
		}
		p.Rows = append(p.Rows, row)
		t := &p.Totals
		t.Time += row.Time
		t.Warming += row.Warming
		t.Water += row.Water
		t.Heat += row.Heat
		t.add(s.Agent, row.Pure)
	}
	return p
}

func (t *Totals) add(a catalog.Agent, mass q.Mass) {
	if mass <= 0 {
		return
	}
	for i := range t.Chemicals {
		if t.Chemicals[i].Agent == a.Slug {
			t.Chemicals[i].Mass += mass
			return
		}
	}
	t.Chemicals = append(t.Chemicals, Chemical{a.Slug, bare(a), mass})
}

// stepName says what step i is for.
func stepName(steps []Step, i int) string {
	switch steps[i].Agent.Slug {
	case "caustic":
		return "caustic"
	case "nitric", "phosphoric":
		return "acid"
	case "water":
		if i == 0 {
			return "pre-rinse"
		}
		return "rinse"
	}
	if steps[i].Agent.Slug == "hot-water" && slices.ContainsFunc(steps[i+1:], Step.cleans) {
		return "hot rinse"
	}
	return "sanitise"
}

// cleans reports whether a step dissolves soil or stone.
func (s Step) cleans() bool {
	switch s.Agent.Slug {
	case "caustic", "nitric", "phosphoric":
		return true
	}
	return false
}

// bare is what an agent is called without its strength.
func bare(a catalog.Agent) string {
	name, _, _ := strings.Cut(a.Name, ",")
	return name
}
