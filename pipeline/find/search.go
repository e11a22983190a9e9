package find

import (
	"container/heap"
	"math"

	"drawoff/pipeline/route"
)

// cost is what a path is judged by. Each part only grows along the way, so a
// path that is worse in all of them than another to the same place, heading
// the same way, never becomes the better one.
type cost struct {
	bends  int
	length float64 // along the axes, corner to corner
	loss   float64 // as a length of straight tube
	slack  float64 // what its upright legs can spare, less what its level ones have fallen
}

// noWorse reports whether c is as good as d in every respect, but for rounding.
func (c cost) noWorse(d cost) bool {
	return c.bends <= d.bends && c.length <= d.length+whole && c.loss <= d.loss+whole && c.slack >= d.slack-whole
}

// label is a way to a node, arriving by dir. At a node that is not the goal
// the line turns.
type label struct {
	cost
	node   [3]int
	dir    way
	offset bool  // the leg to it is offset by two 45° bends
	end    bool  // it has come to the goal
	parent int32 // -1 at a start
	next   int32 // another label of the same node and way
	start  int
	worse  bool // one that came later is as good in every respect
}

// search finds the paths through a scene that no other is better than in
// every respect: a label-setting search for several criteria (Martins 1984,
// from memory) that takes the most promising label first and drops what,
// by a bound that never overestimates, ends worse than a path that is known.
type search struct {
	*scene
	*grid
	labels []label
	queue  queue
	done   []int32 // labels at the goal
	looks  int
	going  func() bool
	over   bool // told to stop
}

// mostLabels is far more than any plant needs; what would need more ends as
// if it had been told to stop.
const mostLabels = 1 << 20

// paths searches s; complete is false where going said to stop.
func (s *scene) paths(going func() bool) (found []path, complete bool) {
	return s.pathsOn(s.grid(), going)
}

// pathsOn is paths on the grid of s, which may be used again.
func (s *scene) pathsOn(g *grid, going func() bool) (found []path, complete bool) {
	x := &search{scene: s, grid: g, going: going}
	x.deeper = false
	for i := range x.heads {
		x.heads[i] = -1
	}
	for i, st := range s.starts {
		l := label{node: x.start[i], parent: -1, start: i}
		if s.flat {
			l.slack = st.at.Z - s.goal.Z
		}
		x.leave(l, -1, st.dir)
	}
	for len(x.queue) > 0 && !x.over {
		at := heap.Pop(&x.queue).(entry).label
		l := x.labels[at]
		if l.worse || x.beaten(l) {
			continue
		}
		for w := ahead; w <= down; w++ {
			if w.axis() != l.dir.axis() && w != up && !(s.flat && w == down) {
				x.leave(l, at, w)
			}
		}
	}
	for _, at := range x.done {
		if !x.labels[at].worse {
			found = append(found, x.path(at))
		}
	}
	return found, !x.over
}

// leave follows the ray from a label along w: every line that it meets is a
// place where the next bend may stand.
func (x *search) leave(from label, at int32, w way) {
	takes, bends, turned := x.lead, 0, from.cost
	if at >= 0 {
		takes, bends = x.t90, 1
		turned = turned.bent(1, x.worth90)
	}
	axis, step := w.axis(), int(w.sign())
	here := x.at[axis][from.node[axis]]
	to := label{node: from.node, dir: w, parent: at, start: from.start}
	for {
		stretch := to.node
		to.node[axis] += step
		if to.node[axis] < 0 || to.node[axis] >= x.size[axis] {
			break
		}
		stretch[axis] = min(stretch[axis], to.node[axis])
		long := math.Abs(x.at[axis][to.node[axis]] - here)
		if !x.open(stretch, axis) && (at >= 0 || !x.setsOut(from.node, to.node, w, x.fall*long)) || !x.look() {
			break
		}
		if to.end = to.node == x.grid.goal && w == x.goalDir; to.end {
			if spare, fits := x.leg(long, takes, x.tail, bends, bends == 1); fits {
				x.put(to, turned.along(w, long, spare, x.fall))
			}
			to.end = false
		}
		if spare, fits := x.leg(long, takes, x.t90, bends+1, bends == 0); fits {
			x.put(to, turned.along(w, long, spare, x.fall))
		}
	}
	x.leaveOffset(from, at, w, takes, bends, turned)
}

// leg reports whether a leg so long has room for its two ends, and how much
// shorter it might be. Where it may be tight it may do without a straight.
func (t *takeouts) leg(long, a, b float64, bends int, tight bool) (spare float64, fits bool) {
	least := t.need(a, b, bends)
	return max(0, long-least), long >= least-whole || tight && math.Abs(long-a-b) < same
}

// bent is c after so many bends of one sort.
func (c cost) bent(n int, worth float64) cost {
	c.bends += n
	c.loss += float64(n) * worth
	return c
}

// along is c after a leg.
func (c cost) along(w way, long, spare, fall float64) cost {
	c.length += long
	c.loss += long
	if w.axis() == up.axis() {
		c.slack += spare
	} else {
		c.slack -= fall * long
	}
	return c
}

// leaveOffset tries a leg along w that two 45° bends shift aside or down,
// rolled to whichever side: to the goal, and from a start to the goal's lines.
func (x *search) leaveOffset(from label, at int32, w way, takes float64, bends int, turned cost) {
	if !x.offsets {
		return
	}
	to := label{node: x.grid.goal, dir: w, parent: at, start: from.start, offset: true, end: true}
	if w == x.goalDir {
		x.tryOffset(from, to, takes, x.tail, bends, bends, turned)
	}
	if at >= 0 {
		return
	}
	to.end = false
	a := (w.axis() + 1) % 3
	b := (w.axis() + 2) % 3
	for i := range x.size[w.axis()] {
		for _, aside := range [3][2]bool{{true, false}, {false, true}, {true, true}} {
			to.node = from.node
			to.node[w.axis()] = i
			if aside[0] {
				to.node[a] = x.grid.goal[a]
			}
			if aside[1] {
				to.node[b] = x.grid.goal[b]
			}
			if aside[0] && to.node[a] == from.node[a] || aside[1] && to.node[b] == from.node[b] {
				continue
			}
			x.tryOffset(from, to, takes, x.t90, bends, bends+1, turned)
		}
	}
}

// tryOffset puts the offset leg between two nodes, its first bend as soon as may be.
func (x *search) tryOffset(from, to label, a, b float64, bendsA, bendsAll int, turned cost) {
	o, ok := x.offset(x.point(from.node), x.point(to.node), to.dir, a, b, bendsA, bendsAll-bendsA)
	if !ok || !x.look() || x.hit(o.legs()) != nil {
		return
	}
	x.put(to, x.offsetCost(turned, o, to.dir))
}

// offsetLeg is a leg that two 45° bends shift aside.
type offsetLeg struct {
	from, first, second, to route.Vec
	aside                   float64 // true offset: across the leg, whichever side it is rolled to
	spare                   float64 // how much less it may come down; upright: how much shorter its second part may be
	drops                   bool    // it comes down by its offset, and not by its fall
}

func (o offsetLeg) legs() []route.Vec { return []route.Vec{o.from, o.first, o.second, o.to} }

// offset sets out the leg along w from p to q: true offset = √(aside² + down²);
// travel = offset / sin 45°; the two bends stand as far apart along w as the
// offset is wide (a pipefitter's rule for 45°, common practice).
func (s *scene) offset(p, q route.Vec, w way, a, b float64, bendsA, bendsB int) (o offsetLeg, ok bool) {
	d := w.vec()
	by := q.Sub(p)
	along := by.Dot(d)
	aside := by.Sub(d.Scale(along))
	o = offsetLeg{from: p, to: q, aside: aside.Len()}
	travel := s.need(s.t45, s.t45, 2)
	before, after := s.need(a, s.t45, 1+bendsA), s.need(s.t45, b, 1+bendsB)
	if o.aside < same || o.aside*math.Sqrt2 < travel-whole || along < before+o.aside+after-whole || aside.Z > whole {
		return o, false
	}
	o.first = p.Add(d.Scale(before))
	o.second = o.first.Add(d.Scale(o.aside)).Add(aside)
	o.drops = aside.Z < -same
	switch {
	case w.axis() == up.axis():
		o.drops = true
		o.spare = max(0, along-before-o.aside-after)
	case o.drops:
		level := math.Hypot(aside.X, aside.Y)
		keep := max(math.Sqrt(max(0, travel*travel/2-level*level)), 2*s.fall*level)
		o.spare = -aside.Z - keep
	}
	return o, o.spare >= 0
}

func (s *scene) offsetCost(c cost, o offsetLeg, w way) cost {
	c = c.bent(2, s.worth45)
	before, after := o.first.Sub(o.from).Len(), o.to.Sub(o.second).Len()
	long := before + after + o.aside*math.Sqrt2
	c.length += long
	c.loss += long
	switch {
	case w.axis() == up.axis():
		c.slack += o.spare
	case o.drops:
		c.slack += o.spare - s.fall*(before+after)
	default:
		c.slack -= s.fall * long
	}
	return c
}

// hit returns a box in the way of the legs between corners, nil where they are free.
func (x *search) hit(corners []route.Vec) *box {
	over := max(x.band, x.hi[0]-x.at[2][0])
	for i := 1; i < len(corners); i++ {
		for b := range x.grid.boxes {
			if x.grid.boxes[b].crosses(corners[i-1], corners[i], x.band, over) {
				return &x.grid.boxes[b]
			}
		}
	}
	return nil
}

// look counts a look at something and asks now and then whether to go on.
func (x *search) look() bool {
	if x.looks++; x.looks%4096 == 0 && x.going != nil && !x.going() || len(x.labels) >= mostLabels {
		x.over = true
	}
	return !x.over
}

// put takes a label up unless what is known is as good.
func (x *search) put(l label, c cost) {
	l.cost = c
	p := x.point(l.node)
	way := x.scene.goal.Sub(p)
	level := math.Abs(way.X) + math.Abs(way.Y)
	if l.end {
		if l.slack < -whole {
			return
		}
	} else if !x.flat && l.slack+p.Z-x.scene.goal.Z-x.fall*level < -whole || x.flat && l.slack-x.fall*level < -whole {
		return
	}
	b := x.bound(l)
	if b.length > x.reach || x.beaten(l) {
		return
	}
	if b.bends > x.mostOf {
		x.deeper = true
		return
	}
	list := &x.done
	if !l.end {
		head := &x.heads[6*x.index(l.node)+int(l.dir)]
		for at := *head; at >= 0; at = x.labels[at].next {
			if x.labels[at].noWorse(l.cost) {
				return
			}
			if l.noWorse(x.labels[at].cost) {
				x.labels[at].worse = true
			}
		}
		l.next, *head = *head, int32(len(x.labels))
		list = nil
	}
	at := int32(len(x.labels))
	x.labels = append(x.labels, l)
	if list != nil {
		for _, other := range *list {
			if o := &x.labels[other]; c.bends <= o.bends && c.length <= o.length+whole && c.loss <= o.loss+whole {
				o.worse = true
			}
		}
		*list = append(*list, at)
		return
	}
	heap.Push(&x.queue, entry{at, x.bound(l).loss})
}

// bendsLeft is the fewest bends that can take the line from a label to the
// goal. It turns where it is, so it cannot go on the way it came: each way
// aside that it is off the goal's line wants a leg of its own, and the last
// turn is into that line. An offset takes two bends for what one leg does.
func (x *search) bendsLeft(l label, home route.Vec) int {
	off, along := 0, false
	for axis, d := range [3]float64{home.X, home.Y, home.Z} {
		if axis != x.goalDir.axis() && math.Abs(d) > same {
			off++
			along = along || axis == l.dir.axis()
		}
	}
	switch {
	case off == 0 && l.dir.axis() == x.goalDir.axis():
		return 4 // off the line it is on, and back
	case off == 0:
		return 1
	case off == 1 && !along:
		return 2
	}
	return 3
}

// bound returns what a path by way of l costs at least: no way along the axes
// is shorter than the sum of the three distances.
func (x *search) bound(l label) cost {
	if l.end {
		return l.cost
	}
	home := x.scene.goal.Sub(x.point(l.node))
	rest := math.Abs(home.X) + math.Abs(home.Y) + math.Abs(home.Z)
	if x.offsets {
		// An offset goes √2 where two legs would go 2, and rolled it goes
		// aside and down at once.
		along := math.Abs(home.Dot(x.goalDir.vec()))
		aside := math.Sqrt(max(0, home.Dot(home)-along*along))
		rest = max(home.Len(), along+(math.Sqrt2-1)*aside)
	}
	n := x.bendsLeft(l, home)
	c := l.cost
	c.bends += n
	c.length += rest
	c.loss += rest + float64(n)*min(x.worth90, x.worth45)
	return c
}

// beaten reports whether a path is known that l cannot improve on.
func (x *search) beaten(l label) bool {
	b := x.bound(l)
	for _, at := range x.done {
		o := x.labels[at]
		if o.bends <= b.bends && o.length <= b.length+whole && o.loss <= b.loss+whole {
			return true
		}
	}
	return false
}

// entry is a label that waits, by what its loss is at least.
type entry struct {
	label int32
	bound float64
}

type queue []entry

func (q queue) Len() int           { return len(q) }
func (q queue) Less(i, j int) bool { return q[i].bound < q[j].bound }
func (q queue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(v any)        { *q = append(*q, v.(entry)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
