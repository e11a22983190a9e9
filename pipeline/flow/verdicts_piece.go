package flow

import (
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// pieceVerdicts judges what single pieces ask of the flow.
func (p *plant) pieceVerdicts(r *Result) {
	least, most := p.slowest(r.Points).Flow, fastest(r.Points).Flow
	if most == 0 {
		return
	}
	p.eachPiece(func(piece *route.Piece, e *Element) {
		switch {
		case piece.Kind == design.NonReturn && least > 0:
			r.Verdicts = append(r.Verdicts, p.standsOpen(piece, e, least))
		case e.Drops != nil:
			if v, beyond := p.beyondSheet(piece, e, most); beyond {
				r.Verdicts = append(r.Verdicts, v)
			}
		}
	})
}

// standsOpen judges whether the least flow holds a non-return valve open.
func (p *plant) standsOpen(piece *route.Piece, e *Element, least q.Flow) finding.Verdict {
	want, has := Opens(p.Liquid), speedIn(e, least)
	v := finding.Verdict{
		Rule: "non-return-opens", Piece: piece.Ref, Limit: new(q.Of(want)),
		Basis: "Crane TP-410 appendix A: a swing check stands fully open from 45/√ρ m/s",
	}
	if has >= want {
		v.Sentence = "At the least flow " + q.Text(has) + " holds the non-return valve open, which wants " + q.Text(want) + "."
		return v
	}
	v.Level = finding.Look
	v.Sentence = "At the least flow only " + q.Text(has) + " runs through the non-return valve, " + q.By(want-has) +
		" short of what holds a swinging one fully open: it flutters, wears and loses more than is reckoned."
	v.Advice = "Take the valve a size smaller, or one with a light spring whose sheet says it opens at that flow, and type its Kv."
	return v
}

// beyondSheet warns where more flows than the last point of a piece's drops.
func (p *plant) beyondSheet(piece *route.Piece, e *Element, most q.Flow) (finding.Verdict, bool) {
	through := q.Flow(float64(most) * e.Share)
	if !e.Drops.Beyond(through) {
		return finding.Verdict{}, false
	}
	last := q.Flow(e.Drops.last)
	runs, ends := q.Apart(through, last)
	return finding.Verdict{
		Rule: "device-range", Level: finding.Look, Piece: piece.Ref, Limit: new(q.Of(last)),
		Sentence: "The flow through this piece is " + runs + ", and its points end at " + ends +
			": from there its drop is taken to grow with the square of the flow.",
		Advice: "Type in a point at that flow or over it, or throttle to " + q.Text(last) + ".",
		Basis:  "the points as given; square law as in turbulent flow",
	}, true
}
