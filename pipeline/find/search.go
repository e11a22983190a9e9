package find

import (
	"math"
	"slices"

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
	leg    leg     // what leads to it
	by     way     // slid: that its first leg runs
	slide  float64 // and how far
	end    bool    // it has come to the goal
	parent int32   // -1 at a start
	next   int32   // another label of the same node and way
	start  int
	worse  bool // one that came later is as good in every respect
}

// leg is what leads to a label from the one before.
type leg byte

const (
	direct leg = iota // a straight leg
	offset            // one that two 45° bends shift aside
	slid              // a straight leg, a bend, and an offset to the goal as soon as there is length for it
	canted            // a level leg at 45° to the way into the goal, and a 45° bend into that
)

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
	known  []cost  // of these, and of paths that were known before
	looks  int
	going  func() bool
	over   bool // told to stop
}

// mostLabels is far more than any plant needs; what would need more ends as
// if it had been told to stop.
const mostLabels = 1 << 20

// pathsOn searches s on its grid, which may be used again; complete is false
// where going said to stop. Only what is better in something than each of those
// known is found.
func (s *scene) pathsOn(g *grid, known []cost, going func() bool) (found []path, complete bool) {
	x := &search{scene: s, grid: g, going: going, known: slices.Clone(known)}
	x.deeper = false
	for i := range x.heads {
		x.heads[i] = -1
	}
	for i, st := range s.starts {
		l := label{node: x.start[i], parent: -1, start: i}
		if s.flat {
			l.slack = st.at.Z - s.goal.Z
		}
		x.leave(&l, -1, st.dir)
	}
	for len(x.queue) > 0 && !x.over {
		at := x.queue.pop().label
		l := x.labels[at]
		if l.worse || x.beaten(x.bound(&l)) {
			continue
		}
		for w := ahead; w <= down; w++ {
			if w.axis() != l.dir.axis() && w != up && !(s.flat && w == down) {
				x.leave(&l, at, w)
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
func (x *search) leave(from *label, at int32, w way) {
	takes, bends, turned := x.lead, 0, from.cost
	if at >= 0 {
		takes, bends = x.t90, 1
		turned = turned.bent(1, x.worth90)
	}
	axis, step := w.axis(), int(w.sign())
	here := x.at[axis][from.node[axis]]
	to := label{node: from.node, dir: w, parent: at, start: from.start}
	// Off the goal's plane across the ray every place is as many bends from
	// it; where these are too many, only the place on that plane counts.
	to.node[axis] = -1
	far := turned.bends+x.bendsLeft(&to) > x.mostOf
	to.node[axis] = from.node[axis]
	stretch, index, stride := to.node, x.index(to.node), x.stride[axis]
	if step < 0 {
		index -= stride
	}
	for {
		to.node[axis] += step
		n := to.node[axis]
		if n < 0 || n >= x.size[axis] {
			break
		}
		stretch[axis] = min(n, n-step)
		mark := x.free[axis][index]
		if mark == unseen {
			mark = x.mark(stretch, axis, index)
		}
		index += step * stride
		long := math.Abs(x.at[axis][n] - here)
		if mark == blocked && (at >= 0 || !x.setsOut(from.node, to.node, w, x.falls(true, false)*long)) || !x.look() {
			break
		}
		if far && n != x.grid.goal[axis] {
			x.deeper = true
			continue
		}
		if to.end = to.node == x.grid.goal && w == x.goalDir; to.end {
			if spare, fits := x.leg(long, takes, x.tail, bends, bends == 1); fits {
				to.cost = turned.along(w, long, spare, x.falls(at < 0, true))
				x.put(&to)
			}
			to.end = false
		}
		if spare, fits := x.leg(long, takes, x.t90, bends+1, bends == 0); fits {
			to.cost = turned.along(w, long, spare, x.falls(at < 0, false))
			x.put(&to)
		}
	}
	if !x.offsets {
		return
	}
	if x.inner == 0 {
		x.leaveOffset(from, at, w, takes, bends, turned)
		x.leaveSliding(from, at, w, takes, bends, turned)
	}
	if at >= 0 && w == x.goalDir && from.dir == down {
		x.leaveCanted(from, at)
	}
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
func (x *search) leaveOffset(from *label, at int32, w way, takes float64, bends int, turned cost) {
	to := label{node: x.grid.goal, dir: w, parent: at, start: from.start, leg: offset, end: true}
	if w == x.goalDir {
		x.tryOffset(from, &to, takes, x.tail, bends, bends, turned)
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
			x.tryOffset(from, &to, takes, x.t90, bends, bends+1, turned)
		}
	}
}

// tryOffset puts the offset leg between two nodes, its first bend as soon as may be.
func (x *search) tryOffset(from, to *label, a, b float64, bendsA, bendsAll int, turned cost) {
	if turned.bends+2 > x.mostOf {
		x.deeper = true
		return
	}
	o, ok := x.offset(x.point(from.node), x.point(to.node), to.dir, a, b, bendsA, bendsAll-bendsA)
	if !ok || !x.look() {
		return
	}
	if to.cost = x.offsetCost(turned, o, to.dir); x.worth(to) && x.hit(o.from, o.first, o.second, o.to) == nil {
		x.put(to)
	}
}

// leaveSliding tries a leg along w that stops where an offset to the goal just
// has the length it needs, which is on no line of the grid: the shorter that
// leg, the shorter the run.
func (x *search) leaveSliding(from *label, at int32, w way, takes float64, bends int, turned cost) {
	if w.axis() == x.goalDir.axis() || w == up {
		return
	}
	if turned.bends+3 > x.mostOf {
		x.deeper = true
		return
	}
	p, d := x.point(from.node), w.vec()
	home := x.scene.goal.Sub(p)
	far := home.Dot(d)
	room := home.Dot(x.goalDir.vec()) - x.need(x.t90, x.t45, 2) - x.need(x.t45, x.tail, 1)
	// What is left aside may be as much as there is length for, and must be as
	// much as the offset's own straight takes.
	other := home.Dot(x.goalDir.vec().Cross(d))
	most := room*room - other*other
	if room < same || most < 0 {
		return
	}
	travel := x.need(x.t45, x.t45, 2)
	least := math.Sqrt(max(0, travel*travel/2-other*other))
	t := takes + x.t90 // the first bend of a run may do without a straight
	if left := math.Abs(far - t); bends > 0 || left > math.Sqrt(most) || left < least {
		t = max(x.need(takes, x.t90, bends+1), far-math.Sqrt(most))
		if math.Abs(far-t) < least {
			t = far + least
		}
	}
	spare, fits := x.leg(t, takes, x.t90, bends+1, bends == 0)
	o, ok := x.offset(p.Add(d.Scale(t)), x.scene.goal, x.goalDir, x.t90, x.tail, 1, 0)
	if !fits || !ok || !x.look() {
		return
	}
	c := turned.along(w, t, spare, x.fall).bent(1, x.worth90)
	to := label{cost: x.offsetCost(c, o, x.goalDir), node: x.grid.goal, dir: x.goalDir, parent: at, start: from.start, leg: slid, by: w, slide: t, end: true}
	if x.worth(&to) && x.hit(p, o.from, o.first, o.second, o.to) == nil {
		x.put(&to)
	}
}

// leaveCanted tries a level leg at 45° to the way into the goal, and a bend of
// 45° into that, for a line that has come down: one bend of 90°, rolled, and
// one of 45° in place of two of 90°.
func (x *search) leaveCanted(from *label, at int32) {
	if from.node[2] != x.grid.goal[2] || x.goalDir != ahead || from.bends+2 > x.mostOf {
		return
	}
	p := x.point(from.node)
	home := x.scene.goal.Sub(p)
	aside := math.Abs(home.Y)
	slant, last := aside*math.Sqrt2, home.X-aside
	if slant < x.need(x.t90, x.t45, 2)-whole || last < x.need(x.t45, x.tail, 1)-whole {
		return
	}
	if !x.look() {
		return
	}
	c := from.cost.bent(1, x.worth90).bent(1, x.worth45)
	c = c.along(ahead, slant, 0, x.falls(false, false)).along(ahead, last, 0, x.falls(false, true))
	to := label{cost: c, node: x.grid.goal, dir: x.goalDir, parent: at, start: from.start, leg: canted, end: true}
	if x.worth(&to) && x.hit(p, x.corner45(p), x.scene.goal) == nil {
		x.put(&to)
	}
}

// corner45 is where a level leg from p at 45° meets the line into the goal.
func (x *search) corner45(p route.Vec) route.Vec {
	g := x.scene.goal
	return route.Vec{X: p.X + math.Abs(g.Y-p.Y), Y: g.Y, Z: g.Z}
}

// offsetLeg is a leg that two 45° bends shift aside.
type offsetLeg struct {
	from, first, second, to route.Vec
	aside                   float64 // true offset: across the leg, whichever side it is rolled to
	spare                   float64 // how much less it may come down; upright: how much shorter its second part may be
	drops                   bool    // it comes down by its offset, and not by its fall
}

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
	return o, o.spare >= -whole
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
func (x *search) hit(corners ...route.Vec) *box {
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

// worth reports whether a path by way of l may be one that is sought.
func (x *search) worth(l *label) bool {
	if l.slack+x.spareTo(l) < -whole {
		return false
	}
	b := x.bound(l)
	if b.bends > x.mostOf {
		x.deeper = true
		return false
	}
	return b.length <= x.reach && !x.beaten(b)
}

// put takes a label up unless what is known is as good.
func (x *search) put(l *label) {
	if !x.worth(l) {
		return
	}
	at := int32(len(x.labels))
	if l.end {
		for _, other := range x.done {
			if o := &x.labels[other]; l.bends <= o.bends && l.length <= o.length+whole && l.loss <= o.loss+whole {
				o.worse = true
			}
		}
		x.known = append(x.known, l.cost)
		x.done = append(x.done, at)
		x.labels = append(x.labels, *l)
		return
	}
	head := &x.heads[6*x.index(l.node)+int(l.dir)]
	for at := *head; at >= 0; at = x.labels[at].next {
		if x.labels[at].noWorse(l.cost) {
			return
		}
		if l.noWorse(x.labels[at].cost) {
			x.labels[at].worse = true
		}
	}
	l.next, *head = *head, at
	x.labels = append(x.labels, *l)
	x.queue.push(entry{at, x.bound(l).loss})
}

// spareTo is what the way home from a label can spare at most: the height that
// is left, where upright legs take it up, less what the level way falls.
func (x *search) spareTo(l *label) float64 {
	if l.end {
		return 0
	}
	home := x.home(l)
	left := -x.fall * (math.Abs(home.X) + math.Abs(home.Y))
	if !x.flat {
		left -= home.Z
	}
	return left
}

// home is the way from a label to the goal.
func (x *search) home(l *label) route.Vec { return x.scene.goal.Sub(x.point(l.node)) }

// bendsLeft is the fewest bends that can take the line from a label to the
// goal. It turns where it is, so it cannot go on the way it came: each way
// aside that it is off the goal's line wants a leg of its own, and the last
// turn is into that line. An offset takes two bends for what one leg does.
func (x *search) bendsLeft(l *label) int {
	off, along := 0, false
	for axis := range 3 {
		if axis != x.goalDir.axis() && l.node[axis] != x.grid.goal[axis] {
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
func (x *search) bound(l *label) cost {
	if l.end {
		return l.cost
	}
	home := x.home(l)
	a, b, c := math.Abs(home.X), math.Abs(home.Y), math.Abs(home.Z)
	rest := a + b + c
	if x.offsets {
		// An offset goes √2 where two legs would go 2, and rolled it goes
		// aside and down at once.
		if x.goalDir == down {
			a, c = c, a
		}
		rest = a + (math.Sqrt2-1)*math.Sqrt(b*b+c*c)
		rest = max(rest, math.Sqrt(a*a+b*b+c*c))
	}
	n := x.bendsLeft(l)
	out := l.cost
	out.bends += n
	out.length += rest
	out.loss += rest + float64(n)*min(x.worth90, x.worth45)
	return out
}

// beaten reports whether a path is known that one with that bound cannot
// improve on.
func (x *search) beaten(b cost) bool {
	for i := range x.known {
		o := &x.known[i]
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

// queue is a binary heap of what waits, the least bound first (Williams 1964,
// from memory). The standard library's would put every entry into an
// interface, which is an allocation for each.
type queue []entry

func (q *queue) push(e entry) {
	h := append(*q, e)
	*q = h
	i := len(h) - 1
	for i > 0 && h[(i-1)/2].bound > e.bound {
		h[i] = h[(i-1)/2]
		i = (i - 1) / 2
	}
	h[i] = e
}

func (q *queue) pop() entry {
	h := *q
	top, last := h[0], h[len(h)-1]
	h = h[:len(h)-1]
	*q = h
	i := 0
	for {
		child := 2*i + 1
		if child >= len(h) {
			break
		}
		if child+1 < len(h) && h[child+1].bound < h[child].bound {
			child++
		}
		if h[child].bound >= last.bound {
			break
		}
		h[i] = h[child]
		i = child
	}
	if len(h) > 0 {
		h[i] = last
	}
	return top
}
