package pipeline

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// reading is how far a caliper may be misread on a part that is not quite
// square or clean. Common practice, no source.
const reading = 0.1 * q.Millimetre

// farOff is how many times its width of doubt a measurement may be from an
// assumption of ours before it looks like a slip of the unit. Ours, no source:
// the width is meant to hold what is on the market.
const farOff = 3

// measured questions the measurements that the catalogue does not believe: a
// part further from its standard than the tolerance is another part, or was
// measured wrongly.
func (p plant) measured() finding.Findings {
	var out finding.Findings
	for i := range p.design.Measured {
		m := &p.design.Measured[i]
		d, ok := catalog.FindDimension(m.Part)
		if !ok {
			continue // a fault already
		}
		got := m.Length.Value()
		v := finding.Verdict{
			Rule:     "measured-part",
			Level:    finding.Look,
			Piece:    p.restsOn(m.Part),
			Sentence: "You measured " + q.Measured(m.Length) + " for the " + catalog.DimensionName(m.Part),
			Measure:  m.Part,
			Limit:    new(q.Of(d.Length)),
		}
		if d.Trust == catalog.Standard || d.Trust == catalog.Memory {
			over, under, basis := d.Tolerance()
			if got <= d.Length+over+reading && got >= d.Length-under-reading {
				continue
			}
			v.Sentence += ", and the standard says " + q.Text(d.Length) + ", " + within(over, under) + "."
			if d.Trust == catalog.Memory {
				v.Sentence += " That value is from memory and may itself be wrong."
			}
			v.Advice = "Measure again: the caliper belongs where it says at the part. If it still differs it is not that part, so find out what it is before you weld it in."
			v.Basis = d.Source + "; tolerance: " + basis
		} else {
			if far := got - d.Length; far <= farOff*d.Either && far >= -farOff*d.Either {
				continue
			}
			v.Sentence += ", and nothing of that kind that we know of is far from " + q.Text(d.Length) + "."
			v.Advice = "Check the unit, and that it is this part; if it is so, leave it."
			v.Basis = "a working assumption of ours, ± " + q.Text(d.Either) + ", no source"
		}
		out.Verdicts = append(out.Verdicts, v)
	}
	return out
}

// within tells a tolerance: "+0.5/-0 mm", "± 0.8 mm".
func within(over, under q.Length) string {
	if over == under {
		return "± " + q.Text(over)
	}
	plus, _, _ := strings.Cut(q.Caliper(over), " ")
	return "+" + plus + "/-" + q.Caliper(under)
}

// restsOn returns the first piece whose length rests on the dimension, or "".
func (p plant) restsOn(dimension string) string {
	for _, piece := range p.layout.Pieces() {
		for i := range piece.Dims {
			if piece.Dims[i].Slug == dimension {
				return piece.Ref
			}
		}
	}
	return ""
}
