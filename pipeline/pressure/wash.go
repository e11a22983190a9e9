package pressure

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Wash judges the pressure along the line in the steps of a wash that goes the
// way of the liquid, each an Input that names what it runs With: where one of
// them comes nearest to boiling, and what a hose must bear. Of a step in which
// it is not known what runs nothing is said.
func Wash(steps []Input) finding.Findings {
	var f finding.Findings
	var at Point
	var nearest, sucks *Input
	var said finding.Verdict
	var worst hosed
	for i := range steps {
		in := &steps[i]
		p, h, ok := in.survey()
		if !ok {
			continue
		}
		if v := in.judge(p); nearest == nil || v.Level > said.Level || v.Level == said.Level && in.spare(p) < nearest.spare(at) {
			nearest, at, said = in, p, v
		}
		if h.over(worst) {
			sucks, worst = in, h
		}
	}
	if nearest == nil {
		return f
	}
	f.Figures = append(f.Figures, nearest.figure(at))
	f.Verdicts = append(f.Verdicts, said)
	if sucks != nil {
		f.Verdicts = append(f.Verdicts, sucks.folds(worst))
	}
	return f
}

// spare is how far the liquid is from boiling at p, in head of its own.
func (in *Input) spare(p Point) q.Head {
	return q.Head(float64(p.Pressure-in.Vapour) / (float64(in.Density) * gravity))
}
