package joint

import (
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// The figures of the joints.
const (
	figureJoints = "joints"
	figureWelded = "welded-joints"
	figureStep   = "worst-bore-step"
	figureSphere = "largest-sphere"

	figurePressure = "joint-pressure"
)

func figures(in Input, welds int) []finding.Figure {
	n := len(in.Junctions)
	out := []finding.Figure{
		{Slug: figureJoints, Name: "Joints, welded and closed", Amount: q.Of(q.Number(n)), Working: finding.Working{
			Formula: "n = U + W",
			Inputs:  []finding.Input{finding.In("U", "unions", q.Number(n-welds)), finding.In("W", "welded joints", q.Number(welds))},
			Source:  "counted from the layout", Range: "the joints from the tank on",
		}},
		{Slug: figureWelded, Name: "Joints that are welded end to end", Amount: q.Of(q.Number(welds)), Working: finding.Working{
			Formula: "tube ends that meet tube ends",
			Source:  "counted from the layout", Range: "the joints from the tank on",
		}},
	}
	if f, ok := worstStep(in); ok {
		out = append(out, f)
	}
	if f, ok := highest(in); ok {
		out = append(out, f)
	}
	if f, ok := sphere(in); ok {
		out = append(out, f)
	}
	return out
}

// worstStep finds the junction whose step is the largest part of the thinner wall.
func worstStep(in Input) (finding.Figure, bool) {
	worst, at, found := 0.0, 0, false
	for i, j := range in.Junctions {
		s := stepOf(*j.Up.Half, *j.Down.Half)
		if s.wall <= 0 || prepared(*j.Up.Half, *j.Down.Half, in.BoreStep, j.Prepared) {
			continue
		}
		if part := float64(s.counts(isWeld(j)) / s.wall); !found || part > worst {
			worst, at, found = part, i, true
		}
	}
	if !found {
		return finding.Figure{}, false
	}
	j := in.Junctions[at]
	s := stepOf(*j.Up.Half, *j.Down.Half)
	return finding.Figure{Slug: figureStep, Name: "Worst step at a joint, on one side", Amount: q.Of(s.counts(isWeld(j))), Piece: j.Ref,
		Working: finding.Working{
			Formula: stepFormula(isWeld(j)),
			Inputs: []finding.Input{
				finding.In("d_1", "bore before", j.Up.Bore()),
				finding.In("d_2", "bore after", j.Down.Bore()),
				finding.In("D_1", "outside before", j.Up.Half.Tube.OD),
				finding.In("D_2", "outside after", j.Down.Half.Tube.OD),
				finding.In("t", "thinner wall", s.wall),
				finding.In("c", "allowed part of the wall", q.Fraction(in.BoreStep)),
			},
			Source: stepBasis(isWeld(j)),
			Range:  "nominal sizes; tolerances come on top",
		}}, true
}

func stepFormula(weld bool) string {
	if weld {
		return "s = max(|d_1 - d_2|, |D_1 - D_2|)/2, held against c t"
	}
	return "s = |d_1 - d_2|/2, held against c t"
}

func isWeld(j route.Junction) bool { return j.Up.Half.Plain() && j.Down.Half.Plain() }

// sphere finds the narrowest bore on the way to the pump: what is dropped
// into the tank and is no larger gets through.
func sphere(in Input) (finding.Figure, bool) {
	narrowest, at := q.Length(0), ""
	take := func(bore q.Length, ref string) {
		if bore > 0 && (at == "" || bore < narrowest) {
			narrowest, at = bore, ref
		}
	}
	to := "the outflow"
	for _, j := range in.Junctions {
		if j.Ref == "pump" {
			to = "the pump"
		}
	}
	for _, j := range in.Junctions {
		take(j.Up.Bore(), j.Ref)
		take(j.Down.Bore(), j.Ref)
		if j.Ref == "pump" {
			break
		}
	}
	butterfly := false
	for _, p := range in.Pieces {
		take(p.In.Bore(), p.Ref)
		take(p.Out.Bore(), p.Ref)
		butterfly = butterfly || p.Kind == design.Butterfly
	}
	if at == "" {
		return finding.Figure{}, false
	}
	name := "Largest sphere that passes from tank to pump"
	if to != "the pump" {
		name = "Largest sphere that passes from tank to outflow"
	}
	f := finding.Figure{Slug: figureSphere, Name: name, Amount: q.Of(narrowest), Piece: at, Working: finding.Working{
		Formula: "d, the smallest bore from the tank outlet to " + to,
		Inputs:  []finding.Input{finding.In("d", "bore at the narrowest end", narrowest)},
		Source:  "geometry",
		Range:   "valves full open, seals level with the bore",
	}}
	if butterfly {
		f.Range += "; the disc of a butterfly valve stands in the bore even when open, and stops anything near this size"
	}
	return f, true
}
