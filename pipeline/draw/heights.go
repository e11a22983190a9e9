package draw

import (
	"math"

	"drawoff/pipeline"
	q "drawoff/pipeline/quantity"
)

// Heights draws what the height of the outlet must meet, each need as a bar up
// from the floor at nought, what it must not pass as a bar from the right, and
// the height itself as a line across every bar. It returns "" where there
// is nothing to show.
func Heights(r pipeline.Report, width int) string {
	if len(r.Drivers)+len(r.Bounds) == 0 {
		return ""
	}
	const left, right, top, row, bar, bottom = 6.0, 10.0, 4.0, 34.0, 11.0, 22.0
	w := float64(max(width, 240))
	rows := len(r.Bounds)
	for _, d := range r.Drivers {
		if d.Needed > 0 {
			rows++
		}
	}
	height := top + row*float64(rows) + bottom
	here := r.Scene.Outlet
	most := here
	for _, d := range r.Drivers {
		most = max(most, d.Needed+d.Either)
	}
	for _, b := range r.Bounds {
		most = max(most, b.Most)
	}
	most += most / 12
	c := canvas{}
	x := func(l q.Length) float64 {
		return left + math.Min(1, math.Max(0, float64(l/max(most, q.Millimetre))))*(w-left-right)
	}
	c.picture("heights-picture", w, height, "What drives the height of the outlet; the table below has the same")
	y := top
	name := func(s, amount string) {
		c.words("small", "start", left, y+11, s)
		c.words("small", "end", w-right, y+11, amount)
		y += 15
	}
	for _, d := range r.Drivers {
		if d.Needed <= 0 {
			continue // met at any height
		}
		name(d.Name, "at least "+q.AtLeast(d.Needed))
		class := "need"
		if d.Governs {
			class = "need governs"
		}
		c.rect(class, left, y, x(d.Needed)-left, bar)
		if d.Either > 0 {
			c.line("doubt", x(d.Needed-d.Either), y+bar/2, x(d.Needed+d.Either), y+bar/2)
		}
		c.line("here", x(here), y-2, x(here), y+bar+2)
		y += row - 15
	}
	for _, b := range r.Bounds {
		name(b.Name, "at most "+q.Text(b.Most))
		c.rect("bound", x(b.Most), y, w-right-x(b.Most), bar)
		c.line("here", x(here), y-2, x(here), y+bar+2)
		y += row - 15
	}
	anchor, at := "middle", x(here)
	if at > w-right-70 {
		anchor, at = "end", w-right
	}
	c.words("small", anchor, at, y+15, "outlet at "+q.Text(here))
	c.Close("svg")
	return c.String()
}
