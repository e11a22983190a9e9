package joint

import (
	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// rating returns the pressure that the weaker half of a union is rated for, 0
// where no source gives one or nothing closes here.
func rating(up, down *catalog.Half) q.Pressure {
	if up.Plain() || down.Plain() || up.Joint.Family != down.Joint.Family {
		return 0
	}
	a, b := up.Joint.Pressure, down.Joint.Pressure
	if a > 0 && b > 0 {
		return min(a, b)
	}
	return max(a, b)
}

// Heads is what presses on the joints of a line at rest.
type Heads struct {
	Density q.Density
	Full    q.Length // level of the full tank over the floor
	Outflow q.Length // of the delivery over the floor
	ShutOff q.Head   // of the pump at no flow; 0 where there is none
}

// gravity is standard gravity, m/s², exact (3rd CGPM, 1901).
const gravity = 9.80665

// at returns the highest gauge pressure at height z: behind the pump with the
// delivery shut and the pump running, and anywhere with the pump at rest under
// whichever is higher, the tank's level or the delivery's.
func (h Heads) at(z q.Length, behind bool) q.Pressure {
	level := float64(h.Full)
	if behind {
		level += float64(h.ShutOff)
	}
	return q.Pressure(max(0, gravity*float64(h.Density)*(max(level, float64(h.Outflow))-float64(z))))
}

// pressed calls take with the highest pressure at each joint.
func pressed(in Input, take func(j *route.Junction, behind bool, p q.Pressure)) {
	if in.Heads.Density <= 0 {
		return
	}
	behind := false
	for i := range in.Junctions {
		j := &in.Junctions[i]
		take(j, behind, in.Heads.at(q.Length(j.Up.At.Z), behind))
		behind = behind || j.Ref == pump
	}
}

// pressure holds the highest pressure at each joint against what the joint is
// rated for. The joint nearest to its rating is the one that is told.
func pressure(in Input) []finding.Verdict {
	var worst *route.Junction
	var most, rated q.Pressure
	pressed(in, func(j *route.Junction, _ bool, p q.Pressure) {
		r := rating(j.Up.Half, j.Down.Half)
		if r > 0 && (worst == nil || p/r > most/rated) {
			worst, most, rated = j, p, r
		}
	})
	if worst == nil {
		return nil
	}
	limit := q.Of(rated)
	holds, made := q.Apart(most, rated)
	v := finding.Verdict{
		Rule: RulePressure, Piece: worst.Ref, Figure: figurePressure, Limit: &limit,
		Sentence: sentence(article(worst.Up.Half.Joint.Name) + " here has to hold " + holds +
			" at most, with the delivery shut and the tank full; it is rated for " + made + "."),
		Basis: worst.Up.Half.Joint.Source,
	}
	if most > rated {
		v.Level = finding.Stop
		v.Advice = "Use a union that is rated for more, or a pump that gives less head. A joint that lets go under pressure sprays whatever is in the line."
	}
	return []finding.Verdict{v}
}

// highest returns the joint under the most pressure as a figure.
func highest(in Input) (finding.Figure, bool) {
	var at *route.Junction
	var most q.Pressure
	unrated, after := false, false
	pressed(in, func(j *route.Junction, behind bool, p q.Pressure) {
		if at == nil || p > most {
			at, most, after = j, p, behind
		}
		unrated = unrated || !isWeld(*j) && rating(j.Up.Half, j.Down.Half) == 0
	})
	if at == nil {
		return finding.Figure{}, false
	}
	h := in.Heads
	w := finding.Working{
		Formula: "p = ρ g (max(h_f, h_d) - z)",
		Inputs: []finding.Input{
			finding.In("ρ", "density of the liquid", h.Density),
			finding.In("h_f", "level of the full tank over the floor", h.Full),
			finding.In("h_d", "height of the delivery over the floor", h.Outflow),
			finding.In("z", "height of the joint over the floor", q.Length(at.Up.At.Z)),
			finding.In("g", "gravity, m/s²", q.Number(gravity)),
		},
		Source: "hydrostatics",
		Range:  "a line at rest; a valve that is slammed adds to it",
	}
	if after {
		w.Formula = "p = ρ g (max(h_f + H_0, h_d) - z)"
		w.Inputs = append(w.Inputs, finding.In("H_0", "head of the pump with the delivery shut, or at the first point of its curve", h.ShutOff))
	}
	if unrated {
		w.Range += ". No source here rates some of these unions: the rating of a clamp belongs to the clamp bought, so order it for at least this"
	}
	return finding.Figure{Slug: figurePressure, Name: "Highest pressure at a joint", Amount: q.Of(most), Piece: at.Ref, Working: w}, true
}
