package pipeline

import (
	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/route"
)

// The rules of what a line is made of.
const (
	ruleTube   = "tube-for-product"
	ruleUnion  = "union-for-product"
	ruleClosed = "line-closed"
)

// materials finds tube and unions that no product should pass through, each
// series and family once, and caps that close the line.
//
// Tube that only looks hygienic is a stop where product runs: once it is
// welded in nobody sees the bead inside, no cleaning reaches behind it, and
// before ordering it costs nothing to change. With water or caustic in the
// line it is something to know, as a screwed joint is always: that can be
// unscrewed, cleaned by hand and changed later.
func (p plant) materials() []finding.Verdict {
	seen := materials{product: p.design.Liquid.Kind != "water" && p.design.Liquid.Kind != "caustic"}
	seen.end("tank.outlet", &p.layout.Outlet)
	pieces := p.layout.Pieces()
	for i := range pieces {
		piece := &pieces[i]
		seen.end(piece.Ref, &piece.In)
		seen.end(piece.Ref, &piece.Out)
		if piece.Kind == design.Cap {
			seen.out = append(seen.out, finding.Verdict{
				Rule: ruleClosed, Level: finding.Stop, Piece: piece.Ref, Basis: "a cap closes what it is put on",
				Sentence: "The line is closed here by a cap: nothing flows. The flow is worked out as if the cap were off.",
				Advice:   "Take it out, or put it on the open port of a tee.",
			})
		}
	}
	if !p.layout.Gravity {
		seen.end("pump", &p.layout.PumpIn)
		seen.end("pump", &p.layout.PumpOut)
	}
	return seen.out
}

type materials struct {
	product bool
	series  []string // that were looked at already
	family  []string
	out     []finding.Verdict
}

func (m *materials) end(ref string, e *route.End) {
	if tube := &e.Half.Tube; first(&m.series, tube.Series) {
		s, _ := catalog.FindSeries(tube.Series)
		if s.NotForProduct != "" {
			v := finding.Verdict{
				Rule: ruleTube, Level: finding.Look, Piece: ref, Basis: tube.Source,
				Sentence: tube.Name + " is " + s.NotForProduct + ".",
				Advice:   "Use hygienic tube where product runs, and measure what is in hand: outside diameter and wall tell one from the other.",
			}
			if m.product {
				v.Level = finding.Stop
			}
			m.out = append(m.out, v)
		}
	}
	if e.Half.Plain() || !first(&m.family, e.Half.Joint.Family) {
		return
	}
	if f, _ := catalog.FindFamily(e.Half.Joint.Family); f.NotForProduct != "" {
		m.out = append(m.out, finding.Verdict{
			Rule: ruleUnion, Level: finding.Look, Piece: ref, Basis: f.Source,
			Sentence: "A " + f.Name + " is " + f.NotForProduct + ".",
			Advice:   "Use a hygienic union here, and keep screwed joints for water, air and steam outside the product line.",
		})
	}
}

// first reports whether word is new to seen, and notes it there.
func first(seen *[]string, word string) bool {
	for _, s := range *seen {
		if s == word {
			return false
		}
	}
	*seen = append(*seen, word)
	return true
}
