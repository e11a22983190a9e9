package draw

import (
	"math"
	"strings"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/whatif"
)

// Dot is where a point of a curve lies on its drawing, in pixels.
type Dot struct{ X, Y float64 }

// WhatIf draws a figure over an input, with what it is held to and a dot,
// which the page moves, at what the plant has now. The dots are those of the
// curve's points; one whose figure is not known lies on the axis. It returns
// "" where fewer than two are known.
func WhatIf(c whatif.Curve, input string, width int) (string, []Dot) {
	const height, left, bottom, top, right = 240.0, 54.0, 40.0, 24.0, 18.0
	w := float64(max(width, 240))
	low, high, known := math.Inf(1), math.Inf(-1), 0
	from, to := math.Inf(1), math.Inf(-1) // where the figure is known
	unit, kind := "", q.KindNumber
	shown := func(a *q.Amount) float64 {
		if unit == "%" {
			return a.SI * 100
		}
		return a.In(q.Shown())
	}
	for _, p := range c.Points {
		if p.Is == nil {
			continue
		}
		kind = p.Is.Kind
		if unit = kind.Unit(q.Shown()); kind == q.KindSlope {
			unit = "%"
		}
		known++
		from, to = math.Min(from, p.At), math.Max(to, p.At)
		low, high = math.Min(low, shown(p.Is)), math.Max(high, shown(p.Is))
		if p.Limit != nil {
			low, high = math.Min(low, shown(p.Limit)), math.Max(high, shown(p.Limit))
		}
	}
	if known < 2 {
		return "", nil
	}
	if size := math.Max(math.Abs(low), math.Abs(high)); high-low < size/50 {
		low, high = low-size/20, high+size/20 // what hardly moves is not to look as if it did
	}
	if low > 0 && low < high/2 {
		low = 0 // from nothing on, where that is not far
	}
	if c.Named {
		from, to = -0.5, float64(len(c.Points))-0.5
	}
	v := canvas{}
	x := func(at float64) float64 {
		return left + (min(max(at, from), to)-from)/math.Max(to-from, 1e-12)*(w-left-right)
	}
	v.picture("curve whatif-curve", w, height, c.Name+" over "+input)
	y := axis{c: &v, from: left, to: w - right, foot: height - bottom, tall: height - bottom - top}.scale(low, high, "end", left-6)
	step := nice((to - from) / 5)
	for s := math.Ceil(from/step) * step; s <= to+step/1e3 && !c.Named; s += step {
		v.line("grid", x(s), height-bottom, x(s), top)
		v.words("small", "middle", x(s), height-bottom+16, tick(s, step))
	}
	name := c.Name
	if unit != "" {
		name += ", " + unit
	}
	v.words("small", "start", 4, 12, name)
	across := input
	if c.Unit != "" {
		across += ", " + c.Unit
	}
	v.words("small", "end", w-right, height-6, across)
	v.plot("limit whatif-limit", c.Points, func(p *whatif.Point) *q.Amount { return p.Limit }, func(p *whatif.Point, a *q.Amount) (float64, float64) { return x(p.At), y(shown(a)) })
	if !c.Named { // between two of a list lies nothing
		v.plot("pump-line", c.Points, func(p *whatif.Point) *q.Amount { return p.Is }, func(p *whatif.Point, a *q.Amount) (float64, float64) { return x(p.At), y(shown(a)) })
	}
	for i := len(c.Points) - 1; i >= 0; i-- {
		if l := c.Points[i].Limit; l != nil {
			v.words("small", "end", w-right, y(shown(l))-5, "held to")
			break
		}
	}
	dots := make([]Dot, len(c.Points))
	for i, p := range c.Points {
		dots[i] = Dot{x(p.At), height - bottom}
		if p.Is != nil {
			dots[i].Y = y(shown(p.Is))
			switch {
			case c.Named:
				if len(c.Points) <= 4 {
					v.words("small", "middle", dots[i].X, height-bottom+16, firstWords(p.Says))
				}
				v.line("system-line", dots[i].X, height-bottom, dots[i].X, dots[i].Y)
				v.circle("sheet-point", dots[i].X, dots[i].Y, 4)
			case len(c.Points) <= 16:
				v.circle("sheet-point", dots[i].X, dots[i].Y, 2.5)
			}
		}
	}
	v.circle("duty whatif-dot", dots[c.Now].X, dots[c.Now].Y, 6)
	v.Close("svg")
	return v.String(), dots
}

// plot draws a line through what of gives of each point, broken where that is nothing.
func (c *canvas) plot(class string, points []whatif.Point, of func(*whatif.Point) *q.Amount, at func(*whatif.Point, *q.Amount) (float64, float64)) {
	c.path(class)
	word := "M"
	for i := range points {
		a := of(&points[i])
		if a == nil {
			word = "M"
			continue
		}
		c.Raw(word)
		c.pixel(at(&points[i], a))
		word = "L"
	}
	c.endPath()
}

// firstWords is what a choice is called before it is explained.
func firstWords(s string) string {
	if i := strings.IndexAny(s, ",:("); i >= 0 {
		s = s[:i]
	}
	return strings.TrimSpace(s)
}
