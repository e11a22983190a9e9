package draw

import (
	"math"

	"drawoff/pipeline"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// Curve draws the pump's head and the system's over flow, with the points at
// which the plant runs and, small, those of the pump's sheet: where its speed
// or a thick liquid moves them a thin line goes through them. It returns ""
// where there is no pump.
func Curve(r pipeline.Report, width int) string {
	s := r.Scene
	if s.Layout.Gravity || len(s.System) < 2 {
		return ""
	}
	const height, left, bottom, top, right = 220.0, 46.0, 40.0, 22.0, 16.0
	w := float64(max(width, 240))
	maxQ, maxH := 0.0, 0.0
	sheet := s.FlowInput.Pump.Sheet(s.FlowInput.Liquid)
	reach := func(flow q.Flow, head q.Head) {
		maxQ = max(maxQ, float64(flow))
		maxH = max(maxH, float64(head))
	}
	for _, p := range s.System {
		reach(p.Flow, p.Pump)
	}
	for _, d := range sheet {
		reach(d.Flow, d.Head)
	}
	if maxQ == 0 || maxH == 0 {
		return ""
	}
	if s.FlowInput.Curve.Positive() {
		maxH = min(maxH, float64(3*highest(s.System))) // the line's part, with the pump's nearly upright in it
		maxQ *= 1.15
	}
	foot, litre := in(q.Head(1)), in(q.LitrePerMinute)
	stepQ, stepH := nice(in(q.Flow(maxQ))/4), nice(maxH*foot/4)
	maxH = math.Ceil(maxH*foot/stepH) * stepH / foot
	c := canvas{}
	x := func(flow q.Flow) float64 { return left + float64(flow)/maxQ*(w-left-right) }
	c.picture("curve", w, height, "Head of the pump and of the line over flow, with the points of its sheet and those at which the plant runs")
	scale := axis{c: &c, from: left, to: w - right, foot: height - bottom, tall: height - bottom - top}.scale(0, maxH*foot, "end", left-6)
	y := func(head float64) float64 { return scale(head * foot) }
	for l := 0.0; l <= in(q.Flow(maxQ))*1.001; l += stepQ {
		f := q.Flow(l/litre) * q.LitrePerMinute
		c.line("grid", x(f), y(0), x(f), top)
		c.words("small", "middle", x(f), height-bottom+16, decimal(l))
	}
	c.words("small", "start", 4, 12, of("head", q.KindHead))
	c.words("small", "end", w-right, height-6, of("flow", q.KindFlow))
	plot := func(class string, head func(i int) float64) {
		c.path(class)
		c.Raw("M")
		for i := range s.System {
			c.pixel(x(s.System[i].Flow), y(min(max(head(i), 0), maxH)))
		}
		c.endPath()
	}
	curve := s.FlowInput.Curve
	if curve.Moved() && !curve.Positive() {
		c.path("sheet-line")
		c.Raw("M")
		for _, d := range sheet {
			c.pixel(x(d.Flow), y(min(float64(d.Head), maxH)))
		}
		c.endPath()
	}
	if curve.Positive() {
		c.path("pump-line")
		c.Raw("M")
		for i := range len(s.System) {
			h := maxH * float64(i) / float64(len(s.System)-1)
			c.pixel(x(curve.Against(q.Head(h))), y(h))
		}
		c.endPath()
	} else {
		plot("pump-line", func(i int) float64 { return float64(s.System[i].Pump) })
	}
	plot("system-line", func(i int) float64 { return float64(s.System[i].System) })
	for _, d := range sheet {
		if float64(d.Head) <= maxH {
			c.circle("sheet-point", x(d.Flow), y(float64(d.Head)), 2.5)
		}
	}
	// The pump's name stands where the line is far: over its fall, or left of a
	// positive pump's upright.
	if at := s.System[len(s.System)/5]; curve.Positive() {
		c.words("small", "end", x(curve.Against(q.Head(maxH)))-8, top+12, "pump")
	} else {
		c.words("small", "start", x(at.Flow)+6, y(min(max(float64(at.Pump), 0), maxH))-6, "pump")
	}
	last := len(s.System) - 1
	if curve.Positive() {
		last /= 2 // clear of the pump's
	}
	for i := last; i > 0; i-- {
		if h := float64(s.System[i].System); h <= maxH && h >= 0 {
			c.words("small", "end", x(s.System[i].Flow)-6, y(h)-4, "line")
			break
		}
	}
	for _, p := range s.Points {
		if p.Flow > 0 {
			c.circle("duty", x(p.Flow), y(float64(p.Head)), 4)
		}
	}
	c.Close("svg")
	return c.String()
}

// highest returns the most head that the line asks.
func highest(system []flow.CurvePoint) q.Head {
	most := q.Head(0)
	for _, p := range system {
		most = max(most, p.System)
	}
	return max(most, 1)
}

// nice returns the round step, 1, 2 or 5 times a power of ten, nearest over x.
func nice(x float64) float64 {
	if !(x > 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*p {
			return m * p
		}
	}
	return 10 * p
}
