package flow

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Efficiencies that stand in where the sheet gives none: what small hygienic
// pumps have at their best is 35 % to 60 % (common practice, no source), and
// the lower end asks for the larger motor.
const (
	assumedCentrifugal = 0.40
	assumedPositive    = 0.50
)

// motors are the usual rated outputs, kW, of IEC 60072-1 with those of EN
// 50347 between (from memory).
var motors = [...]float64{
	0.06, 0.09, 0.12, 0.18, 0.25, 0.37, 0.55, 0.75, 1.1, 1.5, 2.2, 3, 4, 5.5, 7.5, 11, 15, 18.5,
	22, 30, 37, 45, 55, 75, 90, 110, 132, 160, 200, 250, 315,
}

// Motor returns the smallest usual output that is not under a shaft power with
// its margin, and whether there is one. The margin is that of ISO 13709 (API
// 610), 25 % to 22 kW, 15 % to 55 kW, 10 % above (from memory).
func Motor(shaft q.Power) (output, least q.Power, ok bool) {
	least = shaft * q.Power(1+motorMargin(shaft))
	for _, kw := range motors {
		if output = q.Power(kw * 1000); output >= least {
			return output, least, true
		}
	}
	return 0, least, false
}

func motorMargin(shaft q.Power) float64 {
	switch {
	case shaft <= 22e3:
		return 0.25
	case shaft <= 55e3:
		return 0.15
	}
	return 0.10
}

// HydraulicPower returns ρ g Q H, what a flow gains by a head.
func HydraulicPower(density q.Density, flow q.Flow, head q.Head) q.Power {
	return q.Power(within(float64(density), 0, 1e6) * gravity * within(float64(flow), 0, greatestFlow) * within(float64(head), 0, 1e6))
}

// Efficiency returns the pump's at a point of its curve; assumed is true where
// no point gives one and the usual stands in. Beyond the points that do it is
// held at the nearest.
func (c Curve) Efficiency(flow q.Flow, head q.Head) (e q.Fraction, assumed bool) {
	switch {
	case len(c.efficiency.x) > 0:
		t := float64(flow)
		if c.positive {
			t = float64(head)
		}
		y, _ := c.efficiency.at(t)
		return q.Fraction(y), false
	case c.positive:
		return assumedPositive, true
	case c.thick.Applies():
		return q.Fraction(assumedCentrifugal * c.thick.Efficiency), true
	}
	return assumedCentrifugal, true
}

// powerFigures adds the power at the level that takes the most, and the motor.
func (p *plant) powerFigures(r *Result) {
	var shaft q.Power
	var at *Point
	for i := range r.Points {
		pt := &r.Points[i]
		if pt.Flow == 0 {
			continue
		}
		e, _ := p.Curve.Efficiency(pt.Flow, pt.Head)
		if w := HydraulicPower(p.Liquid.Density, pt.Flow, pt.Head) / q.Power(e); w > shaft {
			shaft, at = w, pt
		}
	}
	if at == nil {
		return
	}
	e, assumed := p.Curve.Efficiency(at.Flow, at.Head)
	hydraulic := HydraulicPower(p.Liquid.Density, at.Flow, at.Head)
	from, source := "efficiency, from the pump's points", "definition; efficiency as the sheet has it"
	if assumed {
		from, source = "efficiency, assumed: the points give none", "definition; efficiency: common practice, no source"
	}
	if p.Curve.thick.Applies() {
		source += ", corrected by ANSI/HI 9.6.7"
	}
	add := func(slug, name string, value q.Power, w finding.Working) {
		r.Figures = append(r.Figures, finding.Figure{Slug: slug, Name: name, Piece: refPump, Amount: q.Of(value), Working: w})
	}
	add("hydraulic-power", "Power that the liquid takes up, "+at.Level.Name, hydraulic, finding.Working{
		Formula: "P = ρ g Q H",
		Inputs: []finding.Input{finding.In("ρ", "density", p.Liquid.Density), finding.In("g", "gravity, m/s²", q.Number(gravity)),
			finding.In("Q", "flow", at.Flow), finding.In("H", "head of the pump", at.Head)},
		Source: "definition", Range: "any pump and liquid",
	})
	add("shaft-power", "Power at the pump's shaft, "+at.Level.Name, shaft, finding.Working{
		Formula: "P_s = P/η",
		Inputs:  []finding.Input{finding.In("P", "power that the liquid takes up", hydraulic), finding.In("η", from, e)},
		Source:  source, Range: "where the efficiency holds; one that is assumed may be half as much again or a third less",
	})
	if output, least, ok := Motor(shaft); ok {
		add("motor", "Motor, the next usual size", output, finding.Working{
			Formula: "next usual output not under P_s (1 + m)",
			Inputs: []finding.Input{finding.In("P_s", "power at the pump's shaft", shaft),
				finding.In("m", "margin", q.Fraction(motorMargin(shaft))), finding.In("P_s (1 + m)", "needed", least)},
			Source: "outputs of IEC 60072-1 and EN 50347, margin of ISO 13709, all from memory",
			Range:  "the levels as given: with the delivery open to a larger flow a centrifugal pump takes more",
		})
	}
}
