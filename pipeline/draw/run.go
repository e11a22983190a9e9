package draw

import (
	"math"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Run draws a line small, from the side and from above, width pixels wide, so
// that runs can be held side by side: the one from the tank, or the one from
// the pump on. n tells drawings on one page apart.
func Run(l route.Layout, fromPump bool, n string, width int) string {
	var c canvas
	line, begin, pump := l.ToPump(), l.Outlet.At, l.PumpIn.At
	if fromPump {
		line, begin, pump = l.Delivery, l.PumpOut.At, l.PumpOut.At
	}
	box := [2]route.Vec{begin, begin}
	reach := func(v route.Vec) {
		box[0] = route.Vec{X: min(box[0].X, v.X), Y: min(box[0].Y, v.Y), Z: min(box[0].Z, v.Z)}
		box[1] = route.Vec{X: max(box[1].X, v.X), Y: max(box[1].Y, v.Y), Z: max(box[1].Z, v.Z)}
	}
	for i := range line {
		reach(line[i].In.At)
		reach(line[i].Out.At)
	}
	if !l.Gravity {
		reach(pump)
	}
	const margin, gap = 14.0, 22.0
	w := float64(width)
	c.scale = min((w-2*margin)/max(0.2, box[1].X-box[0].X), 220/max(0.2, box[1].Z+box[1].Y-box[0].Y))
	c.left = box[0].X - (w/c.scale-(box[1].X-box[0].X))/2
	side := margin + box[1].Z*c.scale // pixel of the floor
	plan := side + gap + 8
	height := math.Ceil(plan + (box[1].Y-box[0].Y)*c.scale + margin)

	c.picture("elevation run-drawing", w, height, "Run "+n+" from the side, and from above: "+q.Text(q.Length(box[1].X-box[0].X))+" along, "+q.Text(q.Length(box[1].Y-box[0].Y))+" aside, "+q.Text(q.Length(box[1].Z-box[0].Z))+" in height")
	c.line("ground", 4, side, w-4, side)
	c.words("small", "start", 4, side+12, "from the side; below, from above")
	y := func(v route.Vec) float64 { return side - v.Z*c.scale }
	above := func(v route.Vec) float64 { return plan + (box[1].Y-v.Y)*c.scale }
	for i := range line {
		for _, down := range [2]func(route.Vec) float64{y, above} {
			c.path("run-line")
			for k, seg := range line[i].Path {
				steps := 1
				if seg.Radius > 0 {
					steps = 6
				}
				for t := range steps + 1 {
					if t == 0 && k > 0 {
						continue
					}
					at, _ := seg.Point(float64(t) / float64(steps))
					if k == 0 && t == 0 {
						c.Raw("M")
					} else {
						c.Raw("L")
					}
					c.pixel(c.x(at.X), down(at))
				}
			}
			c.endPath()
		}
	}
	for i := range line { // unions, where it is taken apart
		if !line[i].In.Half.Plain() {
			c.circle("run-union", c.x(line[i].In.At.X), y(line[i].In.At), 2.5)
			c.circle("run-union", c.x(line[i].In.At.X), above(line[i].In.At), 2.5)
		}
	}
	if !l.Gravity {
		c.rect("run-pump", c.x(pump.X)-4, y(pump)-4, 8, 8)
		c.rect("run-pump", c.x(pump.X)-4, above(pump)-4, 8, 8)
	}
	c.Close("svg")
	return c.String()
}
