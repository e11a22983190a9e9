package draw

import (
	"math"

	"drawoff/pipeline"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
)

// Emptying draws the level and the flow of a transfer against time, and under
// them the suction head to spare, where there is a pump whose need is known.
// It returns "" where nothing flows.
func Emptying(t pipeline.Transfer, width int) string {
	n := len(t.Curve)
	if n < 2 || !(t.Curve[n-1].Time > 0) {
		return ""
	}
	const upper, gap, lower, left, right, top, bottom = 170.0, 34.0, 90.0, 48.0, 54.0, 24.0, 40.0
	w := float64(max(width, 240))
	height := top + upper + bottom
	margins := t.Curve[0].MarginKnown
	if margins {
		height += gap + lower
	}
	end := float64(t.Curve[n-1].Time)
	unit, perUnit := "min", 60.0
	if end > 7200 {
		unit, perUnit = "h", 3600
	} else if end < 120 {
		unit, perUnit = "s", 1
	}
	c := canvas{}
	x := func(time q.Duration) float64 { return left + float64(time)/end*(w-left-right) }

	c.picture("curve emptying-curve", w, height, "Level and flow against time")

	a := axis{c: &c, from: left, to: w - right, foot: top + upper, tall: upper}
	most := func(of func(*transfer.Moment) float64) float64 {
		m := 0.0
		for i := range t.Curve {
			m = math.Max(m, of(&t.Curve[i]))
		}
		return m
	}
	level := func(m *transfer.Moment) float64 { return in(m.Level) }
	flow := func(m *transfer.Moment) float64 { return in(m.Flow) }
	margin := func(m *transfer.Moment) float64 { return in(m.Margin) }
	plot := func(class string, scale func(float64) float64, of func(*transfer.Moment) float64) {
		c.path(class)
		c.Raw("M")
		for i := range t.Curve {
			c.pixel(x(t.Curve[i].Time), scale(of(&t.Curve[i])))
		}
		c.endPath()
	}

	yLevel := a.scale(0, most(level), "end", left-6)
	yFlow := a.scale(0, most(flow), "start", w-right+6)
	c.words("small", "start", 4, 12, of("level", q.KindLength))
	c.words("small", "end", w-4, 12, of("flow", q.KindFlow))
	plot("pump-line", yLevel, level)
	plot("system-line", yFlow, flow)
	third := &t.Curve[n/3]
	c.words("small", "start", x(third.Time)+6, yLevel(level(third))-6, "level")
	c.words("small", "middle", x(third.Time), yFlow(flow(third))+14, "flow")
	foot := a.foot
	if margins {
		a.foot += gap + lower
		a.tall = lower
		foot = a.foot
		low := 0.0
		for i := range t.Curve {
			low = math.Min(low, margin(&t.Curve[i]))
		}
		y := a.scale(low, most(margin), "end", left-6)
		c.words("small", "start", 4, a.foot-lower-10, of("suction head to spare", q.KindHead))
		plot("pump-line", y, margin)
		c.line("limit", left, y(0), w-right, y(0))
		c.words("small", "end", w-4, y(0)-5, "limit")
	}
	if t.Drawn {
		c.line("air", x(t.Air), top, x(t.Air), foot)
		anchor, by := "end", -4.0
		if t.Air < t.Curve[n-1].Time/3 {
			anchor, by = "start", 4
		}
		c.words("small", anchor, x(t.Air)+by, top+upper-6, "air from here")
	}
	step := nice(end / perUnit / 4)
	for s := 0.0; s <= end/perUnit*1.001; s += step {
		c.line("grid", x(q.Duration(s*perUnit)), foot, x(q.Duration(s*perUnit)), top)
		c.words("small", "middle", x(q.Duration(s*perUnit)), foot+16, decimal(s))
	}
	c.words("small", "end", w-right, height-6, "time, "+unit)
	c.Close("svg")
	return c.String()
}
