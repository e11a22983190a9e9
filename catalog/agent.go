package catalog

import (
	"slices"

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
			Source: r.text("source"),
		})
	}
}
