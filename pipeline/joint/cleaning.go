package joint

import (
	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Cleaning is one thing that a line is cleaned with.
type Cleaning struct {
	Agent       catalog.Agent
	Temperature q.Temperature
	Strength    q.Fraction // 0: the usual
}

// against returns what is against seals (or what is named) of m in this agent. Where the user
// has not said what the line is cleaned with, it is a thing to look at only.
//
// The ratings were given for a strength and a temperature; over these
// they say nothing, and that is said.
func (c Cleaning) against(m catalog.Material, what string, assumed bool) (Fault, bool) {
	rating, _, source, rated := catalog.Stands(m.Slug, c.Agent.Slug)
	f := Fault{Rule: RuleCleaning, Level: finding.Look, Basis: source}
	agent := func() string { return c.Agent.Named(c.Strength) + ", at " + q.Text(c.Temperature) }
	heat, hot := heat(m, what, c.Temperature)
	switch {
	case rated && rating == catalog.Avoid:
		f.Level = finding.Stop
		f.Sentence = m.Name + " " + what + " do not stand cleaning with " + agent() + "."
		f.Advice = "Use " + what + " of another material, or clean with something else."
	case hot && heat.Level == finding.Stop:
		f = heat
		f.Rule = RuleCleaning
		f.Sentence = "Cleaning with " + agent() + ": " + f.Sentence
		f.Advice = "Clean cooler, or use " + what + " that stand it."
	case !rated:
		f.Sentence = "No source here says how " + m.Name + " " + what + " stand cleaning with " + agent() + "."
		f.Advice = "Ask the maker of the " + what + "."
		f.Basis = "common practice, no source"
	case rating == catalog.Limited:
		f.Sentence = m.Name + " " + what + " stand cleaning with " + agent() + ", only to a degree, or only in some grades."
		f.Advice = "Have the maker confirm the grade, or use another material."
	case c.Temperature > c.Agent.Rated:
		hot, most := q.Apart(c.Temperature, c.Agent.Rated)
		f.Sentence = m.Name + " " + what + " are rated here for " + c.Agent.Named(c.Strength) + ", up to " + most + "; this is " + hot + ", of which nothing is known."
		f.Advice = "Clean cooler, or have the maker of the " + what + " confirm it."
		f.Basis = c.Agent.Source
	case c.Agent.Strongest > 0 && c.Strength > c.Agent.Strongest:
		strong, _ := q.Apart(c.Strength, c.Agent.Strongest)
		f.Sentence = m.Name + " " + what + " are rated here for " + c.Agent.Named(c.Agent.Strongest) + ", at most; this is " + strong + ", of which nothing is known."
		f.Advice = "Clean with less of it, or have the maker of the " + what + " confirm it."
		f.Basis = c.Agent.Source
	default:
		return Fault{}, false
	}
	if assumed {
		f.Level = finding.Look
		f.Sentence += " Nothing is said of how this line is cleaned; most are cleaned so."
		f.Advice = "Say what the line is cleaned with. If it is this: " + lower(f.Advice)
	}
	return f, true
}
