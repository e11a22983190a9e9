package find

import "drawoff/pipeline/route"

// path is a way through a scene: its start, where its axes cross, and its goal.
type path struct {
	cost
	start  int
	points []route.Vec // the start, each corner, the goal
	eighth []bool      // the corner is one of 45°; false at the ends
}

// path follows a label back to its start.
func (x *search) path(at int32) path {
	l := x.labels[at]
	p := path{cost: l.cost, start: l.start}
	var points []route.Vec // from the goal on
	var eighth []bool
	add := func(v route.Vec, e bool) { points, eighth = append(points, v), append(eighth, e) }
	for at >= 0 {
		l := x.labels[at]
		here := x.point(l.node)
		add(here, false)
		before, takes, bends := x.point(x.grid.start[l.start]), x.lead, 0
		if l.parent >= 0 {
			before, takes, bends = x.point(x.labels[l.parent].node), x.t90, 1
		}
		switch l.leg {
		case canted:
			add(x.corner45(before), true)
		case slid:
			before, takes, bends = before.Add(l.by.vec().Scale(l.slide)), x.t90, 1
			fallthrough
		case offset:
			b, after := x.t90, 1
			if l.end {
				b, after = x.tail, 0
			}
			o, _ := x.offset(before, here, l.dir, takes, b, bends, after)
			add(o.second, true)
			add(o.first, true)
			if l.leg == slid {
				add(before, false)
			}
		}
		at = l.parent
	}
	add(x.scene.starts[p.start].at, false)
	for i := len(points) - 1; i >= 0; i-- {
		p.points, p.eighth = append(p.points, points[i]), append(p.eighth, eighth[i])
	}
	return p
}
