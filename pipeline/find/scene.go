package find

import (
	"math"
	"slices"

	"drawoff/pipeline/route"
)

// way is one of the six directions along the axes of a scene.
type way int8

// The ways: opposite ones differ in the last bit.
const (
	ahead way = iota // +x: along the flow into the end to be reached
	back
	left
	right
	up
	down
)

func (w way) axis() int     { return int(w) / 2 }
func (w way) sign() float64 { return 1 - 2*float64(w&1) }

func (w way) vec() route.Vec {
	switch w.axis() {
	case 0:
		return route.Vec{X: w.sign()}
	case 1:
		return route.Vec{Y: w.sign()}
	}
	return route.Vec{Z: w.sign()}
}

// box is a space that no tube may touch, in the scene's own axes, metres.
type box struct {
	name     string
	min, max [3]float64
}

// takeouts are the lengths, metres, that the parts of one tube take up, and
// what a bend counts for.
type takeouts struct {
	t90, t45     float64 // centre to end
	worth90      float64 // length of straight tube that loses as much as a bend does over its corner
	worth45      float64
	least        float64 // straight tube between two fittings
	union        float64 // closed, weld end to weld end; counts where bends have unions
	unions       bool    // at every bend
	lead, tail   float64 // from the start's face, and to the goal's, to where tube or a bend may be
	radius, room float64 // of the tube outside; free around it
}

// start is an end that a run may set out from.
type start struct {
	at  route.Vec
	dir way
	id  int // which bearing of the outlet's union it stands for
}

// scene is one search: a tube of one size from one of its starts to its goal.
// It runs down or level all the way, since a line that turns up again holds
// liquid; one that is to rise all the way is a scene seen upside down.
//
// Its legs are drawn level. What a line falls, fall times the level way it
// goes, comes off its upright legs; where it lies meanwhile is within band
// under the level drawn, or over it in its last part.
type scene struct {
	starts  []start
	goal    route.Vec
	goalDir way
	boxes   []box
	takeouts
	fall    float64 // slope of its level legs
	inner   float64 // slope of those between two bends, where these take it up, with no offsets; 0: as fall
	ends    [2]bool // the run's first and last leg, too, are between two bends
	flat    bool    // no upright leg: the fall alone brings it down, at whatever slope that takes
	steep   float64 // steepest such slope
	band    float64
	mostOf  int     // bends
	reach   float64 // longest run worth a thought
	offsets bool
}

// falls is the slope of a level leg, which may be the first of its run or the last.
func (s *scene) falls(first, last bool) float64 {
	if s.inner == 0 || first && !s.ends[0] || last && !s.ends[1] {
		return s.fall
	}
	return s.inner
}

// grid is the lines along which a scene is searched: through its ends, and
// beside, under and over what is in the way. A shortest way round boxes along
// the axes runs on such lines.
type grid struct {
	at     [3][]float64
	lo, hi []float64 // where the tube's axis may be at each level
	free   [3][]byte // by node and axis, the stretch to the next line: unseen, free or blocked
	boxes  []box     // grown by tube and room
	size   [3]int
	stride [3]int   // from a node's index to that of the next along an axis
	deeper bool     // more bends might have led further
	heads  []int32  // of the labels of each node and way, -1 for none
	start  [][3]int // nodes of the starts
	goal   [3]int
}

// least distances that count as one, metres.
const (
	same  = 1e-6
	whole = 1e-9
)

// corner is the least length of a leg between two 90° bends.
func (t *takeouts) corner() float64 { return t.need(t.t90, t.t90, 2) }

// need is the least length of a leg with a straight in it between two ends
// that take a and b, of which so many are bends.
func (t *takeouts) need(a, b float64, bends int) float64 {
	n := a + b + t.least
	if t.unions {
		n += float64(bends) * t.union
	}
	return n
}

func (s *scene) grid() *grid {
	g := &grid{}
	grow := s.radius + s.room
	var lines [3][]float64
	add := func(axis int, c ...float64) { lines[axis] = append(lines[axis], c...) }
	m := s.corner()
	// An end's own line, the lines where the first bend may stand, and those
	// that two bends beside it need.
	around := func(at route.Vec, dir way, takes, sign float64) {
		p := [3]float64{at.X, at.Y, at.Z}
		for axis := range 3 {
			add(axis, p[axis])
			if axis != dir.axis() {
				add(axis, p[axis]-m, p[axis]+m)
			}
		}
		out := dir.sign() * sign
		tight := p[dir.axis()] + out*(takes+s.t90)
		roomy := p[dir.axis()] + out*s.need(takes, s.t90, 1)
		add(dir.axis(), tight, roomy, tight+out*m, roomy+out*m)
	}
	for _, st := range s.starts {
		around(st.at, st.dir, s.lead, 1)
		if s.offsets {
			s.landings(st, add)
		}
	}
	around(s.goal, s.goalDir, s.tail, -1)
	for _, b := range s.boxes {
		for axis := range 2 {
			add(axis, b.min[axis]-grow, b.max[axis]+grow)
		}
		add(2, b.min[2]-grow, b.max[2]+grow+s.band)
		g.boxes = append(g.boxes, b.grown(grow))
	}
	top := s.goal.Z
	for _, st := range s.starts {
		top = max(top, st.at.Z)
	}
	lines[2] = slices.DeleteFunc(lines[2], func(z float64) bool { return z < s.goal.Z-same || z > top+same })
	for axis := range lines {
		slices.Sort(lines[axis])
		g.at[axis] = slices.CompactFunc(lines[axis], func(a, b float64) bool { return math.Abs(b-a) < same })
		g.size[axis] = len(g.at[axis])
	}
	if s.flat {
		g.at[2], g.size[2] = g.at[2][:1], 1
	}
	for i, z := range g.at[2] {
		lo, hi := z-s.band, z
		if i == 0 {
			lo, hi = z, z+s.band
		}
		if s.flat {
			hi = top
		}
		g.lo, g.hi = append(g.lo, lo), append(g.hi, hi)
	}
	n := g.size[0] * g.size[1] * g.size[2]
	g.stride = [3]int{1, g.size[0], g.size[0] * g.size[1]}
	for axis := range g.free {
		g.free[axis] = make([]byte, n)
	}
	g.heads = make([]int32, 6*n)
	for _, st := range s.starts {
		g.start = append(g.start, g.node(st.at))
	}
	g.goal = g.node(s.goal)
	return g
}

// node returns the lines that cross at a point, the nearest where none does.
func (g *grid) node(p route.Vec) (n [3]int) {
	for axis, c := range [3]float64{p.X, p.Y, p.Z} {
		for i, line := range g.at[axis] {
			if math.Abs(line-c) < math.Abs(g.at[axis][n[axis]]-c) {
				n[axis] = i
			}
		}
	}
	return n
}

func (g *grid) point(n [3]int) route.Vec {
	return route.Vec{X: g.at[0][n[0]], Y: g.at[1][n[1]], Z: g.at[2][n[2]]}
}

func (g *grid) index(n [3]int) int { return (n[2]*g.size[1]+n[1])*g.size[0] + n[0] }

// landings adds the lines on which an offset from a start comes to the goal's
// lines as soon as it can, from where the run then turns.
func (s *scene) landings(st start, add func(axis int, c ...float64)) {
	w := st.dir
	way := s.goal.Sub(st.at)
	aside := way.Sub(w.vec().Scale(way.Dot(w.vec())))
	at := [3]float64{st.at.X, st.at.Y, st.at.Z}[w.axis()]
	for _, by := range [4]float64{math.Abs(aside.X), math.Abs(aside.Y), math.Abs(aside.Z), aside.Len()} {
		if by > same {
			add(w.axis(), at+w.sign()*(s.need(s.lead, s.t45, 1)+by+s.need(s.t45, s.t90, 2)))
		}
	}
}

// What is known of a stretch.
const (
	unseen byte = iota
	open
	blocked
)

// mark looks whether the stretch from n to the next line along axis is free,
// and notes it at the index of n.
func (g *grid) mark(n [3]int, axis, index int) byte {
	next := n
	next[axis]++
	m := open
	if g.blocker(n, next) != nil {
		m = blocked
	}
	g.free[axis][index] = m
	return m
}

// blocker returns a box that is in the way between two nodes in line.
func (g *grid) blocker(a, b [3]int) *box {
	var lo, hi [3]float64
	for axis := range 2 {
		lo[axis] = min(g.at[axis][a[axis]], g.at[axis][b[axis]])
		hi[axis] = max(g.at[axis][a[axis]], g.at[axis][b[axis]])
	}
	lo[2], hi[2] = min(g.lo[a[2]], g.lo[b[2]]), max(g.hi[a[2]], g.hi[b[2]])
	for i := range g.boxes {
		if g.boxes[i].overlaps(lo, hi) {
			return &g.boxes[i]
		}
	}
	return nil
}

// setsOut reports whether a first leg is free that has fallen no further than
// that: what lies just under a start is no hindrance to it.
func (g *grid) setsOut(a, b [3]int, w way, fallen float64) bool {
	if w.axis() == up.axis() || a[2] == 0 {
		return false
	}
	z := g.at[2][a[2]]
	lo, hi := [3]float64{0, 0, z - fallen}, [3]float64{0, 0, z}
	for axis := range 2 {
		lo[axis] = min(g.at[axis][a[axis]], g.at[axis][b[axis]])
		hi[axis] = max(g.at[axis][a[axis]], g.at[axis][b[axis]])
	}
	for i := range g.boxes {
		if g.boxes[i].overlaps(lo, hi) {
			return false
		}
	}
	return true
}

func (b box) grown(by float64) box {
	for axis := range 3 {
		b.min[axis] -= by
		b.max[axis] += by
	}
	return b
}

func (b *box) overlaps(lo, hi [3]float64) bool {
	for axis := range 3 {
		if lo[axis] >= b.max[axis]-same || hi[axis] <= b.min[axis]+same {
			return false
		}
	}
	return true
}

// crosses reports whether a leg from p to q, which may lie up to under below
// or over above where it is drawn, runs through b: the slab method.
func (b *box) crosses(p, q route.Vec, under, over float64) bool {
	from, by := [3]float64{p.X, p.Y, p.Z}, [3]float64{q.X - p.X, q.Y - p.Y, q.Z - p.Z}
	enter, leave := 0.0, 1.0
	for axis := range 3 {
		lo, hi := b.min[axis]+same, b.max[axis]-same
		if axis == 2 {
			lo, hi = lo-over, hi+under
		}
		if math.Abs(by[axis]) < whole {
			if from[axis] <= lo || from[axis] >= hi {
				return false
			}
			continue
		}
		t1, t2 := (lo-from[axis])/by[axis], (hi-from[axis])/by[axis]
		enter, leave = max(enter, min(t1, t2)), min(leave, max(t1, t2))
	}
	return enter < leave
}
