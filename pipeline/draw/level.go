package draw

import (
	"math"

	"drawoff/pipeline"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// SuctionHead draws the suction head that the pump has over the level in the
// tank, from full to the lowest, and the least it should have; where the two
// meet the margin runs out. It returns "" where nothing is known of them.
func SuctionHead(r pipeline.Report, reserve flow.Reserve, width int) string {
	var points []flow.Point
	for _, p := range reserve.Points {
		if p.SuctionKnown {
			points = append(points, p)
		}
	}
	if len(points) < 2 {
		return ""
	}
	const height, left, bottom, top, right = 220.0, 46.0, 40.0, 22.0, 16.0
	w := float64(max(width, 240))
	foot := float64(r.Scene.TankFoot)
	from, to := float64(points[0].Level.Height)-foot, float64(points[len(points)-1].Level.Height)-foot
	has := func(p flow.Point) float64 { return in(p.SuctionAvailable) }
	need := func(p flow.Point) float64 { return in(p.SuctionAvailable - p.Margin) }
	least, most := 0.0, 0.0
	for _, p := range points {
		least = min(least, has(p), need(p))
		most = max(most, has(p), need(p))
	}
	x := func(level float64) float64 { return left + (from-level)/(from-to)*(w-left-right) }

	c := canvas{}
	c.picture("curve", w, height, "Suction head that the pump has, and the least it should have, over the level in the tank")
	y := axis{c: &c, from: left, to: w - right, foot: height - bottom, tall: height - bottom - top}.scale(least, most, "end", left-6)
	unit := in(q.Length(1))
	across := nice((from - to) * unit / 4)
	for l := math.Ceil(to*unit/across) * across; l <= from*unit; l += across {
		c.line("grid", x(l/unit), height-bottom, x(l/unit), top)
		c.words("small", "middle", x(l/unit), height-bottom+16, decimal(l))
	}
	c.words("small", "start", 4, 12, of("suction head", q.KindHead))
	c.words("small", "end", w-right, height-6, of("level over the lowest inside point", q.KindLength)+"; full at the left")
	plot := func(class string, head func(p flow.Point) float64) {
		c.path(class)
		c.Raw("M")
		for _, p := range points {
			c.pixel(x(float64(p.Level.Height)-foot), y(head(p)))
		}
		c.endPath()
	}
	plot("system-line", need)
	plot("pump-line", has)
	middle := points[len(points)/2]
	at := x(float64(middle.Level.Height) - foot)
	above, below := -6.0, 14.0
	if has(middle) < need(middle) {
		above, below = below, above
	}
	c.words("small", "middle", at, y(has(middle))+above, "it has")
	c.words("small", "middle", at, y(need(middle))+below, "it should have")
	if reserve.RunsOut > 0 {
		over := float64(reserve.RunsOut) - foot
		c.line("limit", x(over), height-bottom, x(over), top)
		c.words("small", "end", min(x(over)-4, w-right), top+10, "runs out at "+q.Text(q.Length(over)))
	}
	c.Close("svg")
	return c.String()
}
