package draw

import (
	"math"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/stand"
)

// Tipping draws the incline at which the tank tips against its level, from
// empty to full, with the least that it is held to.
func Tipping(curve []stand.Posture, limit float64, width int) string {
	n := len(curve)
	if n < 2 || !(curve[n-1].Level > curve[0].Level) {
		return ""
	}
	const upper, left, right, top, bottom = 150.0, 44.0, 14.0, 24.0, 40.0
	w := float64(max(width, 240))
	height := top + upper + bottom
	c := canvas{}
	c.picture("curve tipping-curve", w, height, "Incline at which the tank tips, against the level of its liquid")
	most := limit
	for i := range curve {
		most = math.Max(most, curve[i].Tip.Degrees())
	}
	a := axis{c: &c, from: left, to: w - right, foot: top + upper, tall: upper}
	y := a.scale(0, most, "end", left-6)
	full := in(curve[n-1].Level)
	x := func(level float64) float64 { return left + level/full*(w-left-right) }
	c.words("small", "start", 4, 12, "tips on an incline of, °")
	c.line("limit", left, y(limit), w-right, y(limit))
	c.words("small", "end", w-right, y(limit)-5, "held to")
	c.path("pump-line")
	c.Raw("M")
	for i := range curve {
		c.pixel(x(in(curve[i].Level)), y(curve[i].Tip.Degrees()))
	}
	c.endPath()
	step := nice(full / 4)
	for s := 0.0; s <= full; s += step {
		c.line("grid", x(s), top+upper, x(s), top)
		c.words("small", "middle", x(s), top+upper+16, decimal(s))
	}
	c.words("small", "end", w-right, height-6, of("level over the lowest inside point", q.KindLength))
	c.Close("svg")
	return c.String()
}
