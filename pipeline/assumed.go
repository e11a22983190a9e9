package pipeline

import (
	"strconv"

	"drawoff/pipeline/finding"
)

// assumed tells that the plant rests on things that nobody has said.
func (p plant) assumed() finding.Findings {
	n := len(p.design.Assumed)
	if n == 0 {
		return finding.Findings{}
	}
	v := finding.Verdict{Rule: "assumed", Level: finding.Look, Basis: "nobody has looked at them",
		Sentence: "One thing here is assumed: what is said of the plant is no better than that.",
		Advice:   "Look at it: change it, or say that it is right as it is."}
	if n > 1 {
		v.Sentence = strconv.Itoa(n) + " things here are assumed: what is said of the plant is no better than they are."
		v.Advice = "Look at each: change it, or say that it is right as it is."
	}
	return finding.Findings{Verdicts: []finding.Verdict{v}}
}
