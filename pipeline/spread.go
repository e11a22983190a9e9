package pipeline

import (
	"strings"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// spread carries the doubt about the height of the tank to the heads that
// follow it: where the height comes of the needs, the liquid stands over the
// pump and under the outflow by as much more or less. What losses make of it
// only softens that.
func (p plant) spread(all finding.Findings) {
	doubt := p.stand.Height
	if doubt.Either == 0 {
		return
	}
	head := q.Head(doubt.Either)
	for i := range all.Figures {
		f := &all.Figures[i]
		if strings.HasPrefix(f.Slug, "static-lift-") || strings.HasPrefix(f.Slug, "suction-head-available-") || strings.HasPrefix(f.Slug, "suction-margin-") {
			f.Either, f.Hangs = new(q.Of(head)), doubt.Hangs
		}
	}
	for i := range all.Verdicts {
		v := &all.Verdicts[i]
		if !strings.HasPrefix(v.Figure, "suction-head-available-") || v.Limit == nil {
			continue
		}
		for _, f := range all.Figures {
			if f.Slug == v.Figure {
				doubt.Mark(v, q.Length(f.Amount.SI-v.Limit.SI))
			}
		}
	}
}
