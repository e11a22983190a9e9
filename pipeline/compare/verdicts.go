package compare

import (
	"drawoff/pipeline"
	"drawoff/pipeline/finding"
)

// verdicts fills in what was gained, lost and moved. A rule at the same piece
// is the same verdict. So is a rule at a piece that is called the same and only
// has another place in the line, since one was put in before it.
func (s *Sheet) verdicts(a, b pipeline.Report) {
	was, is := grave(a), grave(b)
	pair := func(alike func(a, b *finding.Verdict) bool) {
		for i, x := range was {
			for j, y := range is {
				if x == nil || y == nil || x.Rule != y.Rule || !alike(x, y) {
					continue
				}
				if x.Level != y.Level || x.Sentence != y.Sentence {
					s.Moved = append(s.Moved, Verdict{x, y})
				}
				was[i], is[j] = nil, nil
				break
			}
		}
	}
	pair(func(x, y *finding.Verdict) bool { return x.Piece == y.Piece && x.Sentence == y.Sentence })
	pair(func(x, y *finding.Verdict) bool { return x.Piece == y.Piece && x.Figure == y.Figure })
	pair(func(x, y *finding.Verdict) bool {
		return label(a, x.Piece) == label(b, y.Piece) && x.Figure == y.Figure
	})
	for _, v := range was {
		if v != nil {
			s.Lost = append(s.Lost, Verdict{A: v})
		}
	}
	for _, v := range is {
		if v != nil {
			s.Gained = append(s.Gained, Verdict{B: v})
		}
	}
}

// grave returns the verdicts of r that are not sound.
func grave(r pipeline.Report) (out []*finding.Verdict) {
	for i := range r.Verdicts {
		if v := &r.Verdicts[i]; v.Level != finding.Sound {
			out = append(out, v)
		}
	}
	return out
}

// label is what the piece at ref is called, its number in the line aside.
func label(r pipeline.Report, ref string) string {
	for _, p := range r.Pieces {
		if p.Ref == ref {
			return p.Name + " " + p.Label
		}
	}
	return ref
}
