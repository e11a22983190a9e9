package pipeline

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
)

const (
	timeSource = "continuity; the flow at each level as at a steady level, integrated by adaptive Simpson steps to 1 part in 100 000 (closed forms: Choudhary & Prakash, Fluid Mechanics, ch. 6)"
	timeRange  = "a line that runs full; the seconds in which the flow starts are not counted; discharge and pump speed as given throughout"
	airSource  = "Hecker 1987; ANSI/HI 9.8-1998 section 9.8.7"
	airRange   = "pump sumps that the liquid comes to evenly; a small tank in which it turns needs more, one with a vortex breaker less"
	geometric  = "any filling; exact for the tank's inside measures"
)

func (t *Transfer) figures(p *plant, run *transfer.Result) {
	first, end := run.Curve[0], run.End()
	drawn := first.Left - end.Left
	volumes := func(m transfer.Moment, what string) []finding.Input {
		return []finding.Input{finding.In("V_1", "liquid when full", first.Left), finding.In("V_2", what, m.Left)}
	}
	flows := []finding.Input{finding.In("Q_1", "flow when full", first.Flow), finding.In("Q_2", "flow at the end", end.Flow)}
	add := func(slug, name string, amount q.Amount, w finding.Working) {
		t.Figures = append(t.Figures, finding.Figure{Slug: slug, Name: name, Amount: amount, Piece: "tank", Working: w})
	}
	add("transfer-time", "Time for the whole transfer", q.Of(end.Time), finding.Working{
		Formula: "t = ∫ dV/Q(V) from V_2 to V_1; it lies between (V_1 - V_2)/Q_1 and (V_1 - V_2)/Q_2",
		Inputs:  append(volumes(end, "liquid left at the end"), flows...), Source: timeSource, Range: timeRange,
	})
	add("transfer-volume", "Liquid drawn off", q.Of(drawn), finding.Working{
		Formula: "V = V_1 - V_2", Inputs: volumes(end, "liquid left at the end"), Source: "geometry of the tank, inside measures", Range: geometric,
	})
	mean := q.Flow(0)
	if end.Time > 0 {
		mean = q.Flow(float64(drawn) / float64(end.Time))
	}
	add("transfer-flow", "Mean flow of the transfer", q.Of(mean), finding.Working{
		Formula: "Q = V/t", Inputs: []finding.Input{finding.In("V", "liquid drawn off", drawn), finding.In("t", "time for the whole transfer", end.Time)},
		Source: "continuity", Range: timeRange,
	})
	if run.Stops {
		add("level-of-rest", "Level at which the flow dies of itself", q.Of(run.Rest), finding.Working{
			Formula: "h for which Q(h) = 0",
			Inputs:  append(flows[:1:1], finding.In("z_d", "discharge above the floor", p.discharge()), finding.In("z_t", "lowest inside point above the floor", p.known.foot(p.height))),
			Source:  "energy equation between two free surfaces; found by halving", Range: timeRange + "; the transfer counts as ended " + q.Text(q.Millimetre) + " over it, for the last flow creeps",
		})
		add("left-at-rest", "Left in the tank when the flow has died", q.Of(end.Left), finding.Working{
			Formula: "V(h)", Inputs: []finding.Input{finding.In("h", "level, "+q.Text(q.Millimetre)+" over that of rest", end.Level)}, Source: "geometry of the tank, inside measures", Range: geometric,
		})
	}
	if !run.AirDrawn {
		return
	}
	bore := outletBore(p.design.Tank)
	add("level-of-air", "Level from which air may be drawn, over the lowest inside point", q.Of(run.Air.Level), finding.Working{
		Formula: "h - h_o = D (1 + 2.3 v/√(g D)), solved for h; v = 4 Q(h)/(π D²)",
		Inputs: []finding.Input{
			finding.In("D", "bore of the outlet", bore), finding.In("h_o", "upper edge of the outlet", p.lip()),
			finding.In("g", "gravity, m/s²", q.Number(gravity)), finding.In("Q", "flow at that level", run.Air.Flow),
		},
		Source: airSource, Range: airRange,
	})
	add("time-to-air", "Time until air may be drawn", q.Of(run.Air.Time), finding.Working{
		Formula: "t = ∫ dV/Q(V) from V_2 to V_1", Inputs: append(volumes(run.Air, "liquid left then"), flows...), Source: timeSource, Range: timeRange,
	})
	add("left-at-air", "Left in the tank when air may be drawn", q.Of(run.Air.Left), finding.Working{
		Formula: "V(h)", Inputs: []finding.Input{finding.In("h", "level from which air may be drawn", run.Air.Level)}, Source: "geometry of the tank, inside measures", Range: geometric,
	})
}
