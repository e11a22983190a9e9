package catalog

import (
	"math"
	"slices"
	"strings"

	q "drawoff/pipeline/quantity"
)

// Agent is what a line is cleaned with. Its slug is the medium that Stands
// rates materials against.
type Agent struct {
	Slug   string        // "caustic"
	Name   string        // with its usual strength: "caustic soda, 2 %"
	Usual  q.Temperature // that it is used at
	Rated  q.Temperature // the highest that the ratings of materials were given for
	Source string

	Strength  q.Fraction // of the pure agent by mass, that Name tells; of hypochlorite its chlorine; 0 for water
	Strongest q.Fraction // that the ratings of materials were given for; 0 where they do not say
}

// Named returns what the agent is called at a strength, "caustic soda, 1 %",
// or at that of its ratings where none is told.
func (a Agent) Named(strength q.Fraction) string {
	if strength <= 0 || a.Strength == 0 {
		return a.Name
	}
	bare, _, _ := strings.Cut(a.Name, ",")
	return bare + ", " + q.Text(strength)
}

// Agents returns every cleaning agent, the mildest first.
func Agents() []Agent { return slices.Clone(load().agents) }

// FindAgent returns the cleaning agent named slug.
func FindAgent(slug string) (Agent, bool) {
	for _, a := range load().agents {
		if a.Slug == slug {
			return a, true
		}
	}
	return Agent{}, false
}

func (t *tables) readAgents() {
	for _, r := range read("agents.csv", agentsCSV) {
		t.agents = append(t.agents, Agent{
			Slug: r.text("agent"), Name: r.text("name"),
			Usual: q.Celsius(r.number("usual")), Rated: q.Celsius(r.number("rated")),
			Source:   r.text("source"),
			Strength: r.percent("strength"), Strongest: r.percent("strongest"),
		})
	}
}

// percent returns a part given in per cent, 0 for an empty cell.
func (r row) percent(column string) q.Fraction {
	if v := r.number(column); !math.IsNaN(v) {
		return q.Fraction(v / 100)
	}
	return 0
}
