package pipeline

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
)

// gravity is standard gravity, m/s², exact (3rd CGPM, 1901).
const gravity = 9.80665

// air tells whether the outlet is still covered deeply enough at the lowest
// level. From which level on it is not, Transfer finds.
func (p plant) air() finding.Findings {
	low := p.flow.Points[len(p.flow.Points)-1]
	bore := outletBore(p.design.Tank)
	low.Flow *= q.Flow(p.flow.Drawn) // a tee before the pump may draw off or join a share
	if low.Flow <= 0 || bore <= 0 {
		return finding.Findings{}
	}
	over := p.known.lowest - p.lip()
	need := transfer.Submergence(bore, low.Flow)
	most := transfer.AirlessFlow(bore, over)
	d, g := finding.In("D", "bore of the outlet", bore), finding.In("g", "gravity, m/s²", q.Number(gravity))
	f := finding.Findings{Figures: []finding.Figure{{
		Slug: "submergence-lowest", Name: "Depth over the outlet that keeps air out, at the flow of the lowest level", Amount: q.Of(need), Piece: "tank",
		Working: finding.Working{
			Formula: "S = D (1 + 2.3 v/√(g D))", Source: airSource, Range: airRange,
			Inputs: []finding.Input{d, g, finding.In("v", "speed in the outlet", q.Velocity(speed(low.Flow, bore)))},
		},
	}}}
	if most >= q.LitrePerMinute { // less is not to be set by hand
		f.Figures = append(f.Figures, finding.Figure{
			Slug: "airless-flow-lowest", Name: "Most that can be drawn without air at the lowest level", Amount: q.Of(most), Piece: "tank",
			Working: finding.Working{
				Formula: "Q = π/4 D² √(g D) (h/D - 1)/2.3", Source: airSource, Range: airRange,
				Inputs: []finding.Input{d, g, finding.In("h", "lowest level over the outlet", over)},
			},
		})
	}
	v := finding.Verdict{Rule: "air-drawn", Piece: "tank", Figure: "submergence-lowest", Limit: new(q.Of(need)), Basis: airSource + ": " + airRange}
	stands, keep := q.Apart(max(over, 0), need)
	covered := "At the lowest level " + stands + " of liquid stand over the outlet"
	if over >= need {
		v.Sentence = covered + ", more than the " + keep + " that keep air out at " + q.Text(low.Flow) + "."
		f.Verdicts = []finding.Verdict{v}
		return f
	}
	v.Level = finding.Look
	v.Sentence = covered + ", and " + keep + " keep air out at " + q.Text(low.Flow) + ": before it is reached a vortex may draw air, which froths the liquid"
	if p.layout.Gravity {
		v.Sentence += "."
	} else {
		v.Sentence += " and can make a pump lose its prime."
	}
	v.Advice = "Stop " + q.By(need-over) + " earlier, fit a vortex breaker"
	switch {
	case most >= max(q.LitrePerMinute, low.Flow/10): // a tenth is about as little as a valve is set to by hand: ours, no source
		v.Advice += ", or throttle to " + q.Text(most) + " towards the end."
	case over > bore:
		v.Advice += ", or draw the last of it at a trickle."
	default:
		v.Advice += ", or throttle towards the end: no flow is surely free of air with less than the bore, " + q.Text(bore) + ", over the outlet."
	}
	f.Verdicts = []finding.Verdict{v}
	return f
}

// speed returns the mean speed of a flow in a bore, m/s.
func speed(flow q.Flow, bore q.Length) float64 {
	return float64(flow) * 4 / (math.Pi * float64(bore) * float64(bore))
}
