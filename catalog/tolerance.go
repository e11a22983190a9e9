package catalog

import q "drawoff/pipeline/quantity"

// generalTolerances are those of lengths made without a tolerance of their
// own: ISO 2768-1:1989 Table 1, class c (coarse), from memory.
var generalTolerances = []struct{ to, either float64 }{ // mm
	{3, 0.2}, {6, 0.3}, {30, 0.5}, {120, 0.8}, {400, 1.2}, {1000, 2}, {2000, 3}, {4000, 4},
}

// Tolerance returns how far over and under its Length a part made to d may be,
// and whose tolerance that is: the standard's own where it is known, else the
// general one of the trade, which is 4 mm at most. Lengths in metres.
func (d Dimension) Tolerance() (over, under q.Length, basis string) {
	if d.Source == load().sources["bs-4825-2"] {
		return q.Mm(0.5), 0, "BS 4825-2, +0.5/-0 mm"
	}
	var mm float64
	for _, t := range generalTolerances {
		if mm = t.either; d.Length.Millimetres() <= t.to {
			break
		}
	}
	return q.Mm(mm), q.Mm(mm), "ISO 2768-1:1989 Table 1, class c, from memory, for want of the part's own tolerance"
}
