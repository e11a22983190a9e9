package pipeline

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// meeting judges whether the lines end where they should and come in straight.
func (p plant) meeting() finding.Findings {
	var out finding.Findings
	if !p.layout.Gravity {
		out.Add(p.gap("pump", "the pump inlet", p.layout.Suction, p.layout.SuctionDoubt()))
	}
	out.Add(p.gap("delivery", "the outflow", p.layout.Discharge, p.layout.DischargeDoubt()))
	out.Verdicts = append(out.Verdicts, p.sprung()...)
	return out
}

// gap judges one end of a line; at names the figure and the place. doubt is
// what nothing that is made to fit can take up.
func (p plant) gap(at, place string, g route.Gap, doubt route.Doubt) finding.Findings {
	limit := p.design.Limits.Gap.Value()
	spring := p.design.Limits.Spring.Value()
	slug := at + "-gap"
	figure := finding.Figure{
		Slug:   slug,
		Name:   "Gap between the line and " + place,
		Amount: q.Of(g.Distance),
		Hangs:  doubt.Hangs,
		Piece:  at,
		Working: finding.Working{
			Formula: "s = √(Δx² + Δy² + Δz²)",
			Inputs: []finding.Input{
				finding.In("Δx", "missing towards the pump", q.Length(g.By.X)),
				finding.In("Δy", "missing to the left", q.Length(g.By.Y)),
				finding.In("Δz", "missing upwards", q.Length(g.By.Z)),
				finding.In("θ", "angle between the line and what it meets", g.Turn),
			},
			Source: "geometry of the pieces as placed, take-outs from the catalogue",
			Range:  "as doubtful as the lengths that nobody has published",
		},
	}
	if doubt.Either > 0 {
		figure.Either = new(q.Of(doubt.Either))
	}
	allowed := q.Of(limit)
	v := finding.Verdict{
		Rule:   "meets-" + at,
		Piece:  at,
		Figure: slug,
		Limit:  &allowed,
		Basis:  "common practice, no source",
	}
	switch {
	case g.Distance > limit:
		missed, _ := q.Apart(g.Distance, limit)
		v.Level = finding.Stop
		v.Sentence = "The line misses " + place + " by " + missed + ": it ends " + misses(g.By, limit) + "."
		height := "the height of the stand"
		if at == "delivery" && !p.layout.Gravity { // it begins at the pump
			height = "the place of the pump"
		}
		v.Advice = "Mark a straight that runs that way \"make it fit\", or change a length, " + height + " or the place of " + place + " by that much."
	case g.Turn > spring:
		askew, most := q.Apart(g.Turn, spring)
		v.Level = finding.Stop
		v.Sentence = "The line reaches " + place + " but comes in " + askew + " askew, more than the " + most + " that a joint can be sprung."
		v.Advice = "Turn the last bend, or change its angle, until the line points straight in."
		v.Limit = new(q.Of(spring))
	default:
		v.Sentence = "The line meets " + place + "."
		if g.Turn > q.Degree/10 {
			v.Sentence = "The line meets " + place + ", sprung by " + q.Text(g.Turn) + "."
		}
	}
	if g.Distance > limit || v.Level == finding.Sound { // not of a line that comes in askew
		doubt.Mark(&v, limit-g.Distance)
	}
	return finding.Findings{Figures: []finding.Figure{figure}, Verdicts: []finding.Verdict{v}}
}

// misses says in words where a line ends, seen from its target.
func misses(by route.Vec, limit q.Length) string {
	var words []string
	add := func(d float64, less, more string) {
		switch {
		case d > float64(limit)/2:
			words = append(words, q.Text(q.Length(d))+" "+less)
		case d < -float64(limit)/2:
			words = append(words, q.Text(q.Length(-d))+" "+more)
		}
	}
	add(by.X, "short", "too far out")
	add(by.Z, "too low", "too high")
	add(by.Y, "too far right", "too far left")
	return join(words)
}

// sprung judges the joints that are sprung to lay a straight to its fall.
func (p plant) sprung() []finding.Verdict {
	limit := p.design.Limits.Spring.Value()
	var out []finding.Verdict
	for _, piece := range p.layout.Pieces() {
		if piece.Spring <= limit {
			continue
		}
		bent, most := q.Apart(piece.Spring, limit)
		out = append(out, finding.Verdict{
			Rule:     "spring",
			Level:    finding.Stop,
			Piece:    piece.Ref,
			Sentence: "To lie at its fall this straight must be bent " + bent + " out of line at the joint before it, and " + most + " is the most that a joint can be sprung.",
			Advice:   "Make the bend before it " + q.Text(q.Angle(math.Pi/2)-piece.Spring) + " instead of 90°, or lay the straight flatter.",
			Limit:    new(q.Of(limit)),
			Basis:    "common practice, no source",
		})
	}
	return out
}

// join sets words into a list as they are spoken: "a, b and c".
func join(words []string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		s := words[0]
		for _, w := range words[1 : n-1] {
			s += ", " + w
		}
		return s + " and " + words[n-1]
	}
}
