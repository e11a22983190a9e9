package draw

import (
	"drawoff/pipeline"
	"drawoff/pipeline/holdup"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Stays draws the plant from the side with what stays in its lines where it
// sits, lettered as StaysMark has it, and with the air that stays when it is
// filled, dashed; what no drain valve empties is darker. It is as wide as the side view, so that one lies over the other.
func Stays(r pipeline.Report, held holdup.Result, width int) string {
	s := r.Scene
	e := elevation{Scene: s, report: r, profile: s.Vessel.Profile()}
	e.fit(max(float64(width), 280), tallest)
	e.picture("elevation stays", e.width, e.height, "Side view: "+staysSaid(held))
	e.floor()
	e.stand()
	e.path("shell")
	e.outline(1e9)
	e.endPath()
	e.line(holdup.Hung(s.Layout.Delivery))
	e.pump()
	e.line(holdup.Hung(s.Layout.Under))
	e.line(holdup.Hung(s.Layout.Run))
	var marks []balloon
	for i := range held.Air {
		a := &held.Air[i]
		e.held("held air", a.Bores, float64(a.Level), -1)
		marks = append(marks, e.markOf(len(held.Pools)+i, a.Lowest, -1))
	}
	for i := range held.Pools {
		p := &held.Pools[i]
		e.held("held", p.Bores, float64(p.Level), 1)
		marks = append(marks, e.markOf(i, p.Lowest, 1))
	}
	for i := range held.Rest {
		e.held("held rest", held.Rest[i].Bores, float64(held.Rest[i].Level), 1)
	}
	spread(marks, e.width, e.height)
	for _, m := range marks {
		e.canvas.line("leader", m.x, m.y, m.bx, m.by)
		e.circle("ground-mark", m.bx, m.by, balloonRadius)
		e.words("number", "middle", m.bx, m.by+4, m.ref)
	}
	e.Close("svg")
	return e.String()
}

// StaysMark is the letter of the i-th pool on the drawing; air goes on from there.
func StaysMark(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return StaysMark(i/26-1) + string(rune('A'+i%26))
}

func staysSaid(held holdup.Result) string {
	said := "nothing stays in the lines."
	if len(held.Pools) > 0 {
		said = "liquid stays at "
		for i := range held.Pools {
			p := &held.Pools[i]
			if i > 0 {
				said += ", "
			}
			said += StaysMark(i) + ", " + p.Name + ", " + q.Text(p.Volume)
		}
		said += "."
	}
	return said
}

// markOf places the letter of a pool under its lowest point, of air over its highest.
func (e *elevation) markOf(i int, at route.Vec, down float64) balloon {
	x, y := e.x(at.X), e.y(at.Z)
	return balloon{ref: StaysMark(i), x: x, y: y, bx: x, by: y + down*22}
}

// held fills bores as far as they are below level, or where way is -1 above it.
func (e *elevation) held(class string, bores [][]holdup.Place, level, way float64) {
	for _, bore := range bores {
		for i := 1; i < len(bore); i++ {
			a, b := e.across(bore[i-1]), e.across(bore[i])
			shape := clipped([]route.Vec{a[0], a[1], b[1], b[0]}, level, way)
			if len(shape) < 3 {
				continue
			}
			e.path(class)
			e.Raw("M")
			for _, p := range shape {
				e.point(p.X, p.Z)
			}
			e.Raw("Z")
			e.endPath()
		}
	}
}

// across returns the two sides of a bore as seen from the side, never thinner than shows.
func (e *elevation) across(p holdup.Place) [2]route.Vec {
	half := max(float64(p.Radius), 1.5/e.scale)
	side := route.Vec{X: -p.Dir.Z, Z: p.Dir.X}.Unit()
	if side == (route.Vec{}) { // it runs at whoever looks
		side = route.Vec{Z: 1}
	}
	return [2]route.Vec{p.At.Add(side.Scale(half)), p.At.Sub(side.Scale(half))}
}

// clipped returns the part of a shape below level, above it where way is -1
// (Sutherland and Hodgman's rule for one edge).
func clipped(shape []route.Vec, level, way float64) []route.Vec {
	var out []route.Vec
	for i := range shape {
		a, b := shape[i], shape[(i+1)%len(shape)]
		ina, inb := way*(level-a.Z) >= 0, way*(level-b.Z) >= 0
		if ina {
			out = append(out, a)
		}
		if ina != inb {
			t := (level - a.Z) / (b.Z - a.Z)
			out = append(out, a.Add(b.Sub(a).Scale(t)))
		}
	}
	return out
}
