package draw

import (
	"math"
	"slices"
	"strconv"

	q "drawoff/pipeline/quantity"
)

// box is a rectangle of a drawing, pixels.
type box struct{ left, top, right, foot float64 }

func around(c spot, w, h float64) box { return box{c.x - w/2, c.y - h/2, c.x + w/2, c.y + h/2} }

// over returns the area that two boxes share.
func (b box) over(c box) float64 {
	w, h := min(b.right, c.right)-max(b.left, c.left), min(b.foot, c.foot)-max(b.top, c.top)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

// clutter is what is on a drawing already and should not be covered. Cells of
// a grid know which boxes reach into them, since a long line has thousands.
type clutter struct {
	cells  map[[2]int][]box
	bounds box // of all of it
}

const cellSize = 40.0

// within calls see with every cell that b reaches into.
func within(b box, see func(at [2]int, cell box)) {
	for x := math.Floor(b.left / cellSize); x*cellSize < b.right; x++ {
		for y := math.Floor(b.top / cellSize); y*cellSize < b.foot; y++ {
			see([2]int{int(x), int(y)}, box{x * cellSize, y * cellSize, (x + 1) * cellSize, (y + 1) * cellSize})
		}
	}
}

// add keeps b free.
func (c *clutter) add(b box) {
	if c.cells == nil {
		c.cells, c.bounds = map[[2]int][]box{}, b
	}
	c.bounds = box{min(c.bounds.left, b.left), min(c.bounds.top, b.top), max(c.bounds.right, b.right), max(c.bounds.foot, b.foot)}
	within(b, func(at [2]int, _ box) { c.cells[at] = append(c.cells[at], b) })
}

// line keeps a straight line free, thick pixels wide.
func (c *clutter) line(a, b spot, thick float64) {
	for _, t := range along(a, b, thick) {
		c.add(t)
	}
}

// covered returns the area of what is there already that b would cover.
func (c *clutter) covered(b box) float64 {
	area := 0.0
	within(b, func(at [2]int, cell box) {
		part := box{max(b.left, cell.left), max(b.top, cell.top), min(b.right, cell.right), min(b.foot, cell.foot)}
		for _, t := range c.cells[at] {
			area += t.over(part)
		}
	})
	return area
}

// bounds returns what the drawing takes, with a margin.
func (m *isometric) bounds() box {
	const margin = 6
	b := m.taken.bounds
	return box{b.left - margin, b.top - margin, b.right + margin, b.foot + margin}
}

// along returns boxes that cover a straight line.
func along(a, b spot, thick float64) []box {
	d, length := a.to(b)
	n := int(length/thick) + 1
	out := make([]box, n+1)
	for i := range out {
		out[i] = around(a.toward(d, length*float64(i)/float64(n)), thick, thick)
	}
	return out
}

// place finds room for a box of w by h: of the spots for its middle, tried in
// turn, the first that covers least.
func (m *isometric) place(w, h float64, middles []spot) spot {
	best, least := middles[0], math.Inf(1)
	for _, c := range middles {
		if cost := m.taken.covered(around(c, w, h)); cost < least-1e-6 {
			best, least = c, cost
		}
		if least == 0 {
			break
		}
	}
	m.taken.add(around(best, w, h))
	return best
}

// ring returns spots about a point: all around it near by, then further off.
func ring(at spot, distances ...float64) []spot {
	var out []spot
	for _, r := range distances {
		for i := range 12 {
			sin, cos := math.Sincos(-math.Pi/3 + float64(i)*math.Pi/6)
			out = append(out, spot{at.x + r*cos, at.y + r*sin})
		}
	}
	return out
}

// wide is how long s is written, pixels; small is for small words.
func wide(s string) float64  { return 8 * float64(len([]rune(s))) }
func small(s string) float64 { return 7 * float64(len([]rune(s))) }

// centred writes s with its middle at a spot, on ground of its own.
func (m *isometric) centred(class string, at spot, s string) {
	m.words("halo "+class, "middle", at.x, at.y+textSize/3, s)
}

// write draws everything: first what has its place, then, each where there is
// room, lengths, falls, numbers and notes.
func (m *isometric) write() {
	m.tank()
	m.line()
	m.unions()
	welds := m.welds()
	m.lengths()
	m.slants()
	m.falls()
	m.numbers()
	m.ends()
	for _, w := range welds {
		name := "W" + strconv.Itoa(w.number)
		at := m.place(small(name)+8, textSize, ring(w.at, 15, 22, 32, 44)) // a W is wide
		m.canvas.line("leader", w.at.x, w.at.y, at.x, at.y)
		m.centred("small", at, name)
	}
}

// runs returns the rows of stretches that go on in one line on the drawing, at
// one fall where that counts.
func (m *isometric) runs(falls bool) [][]stretch {
	var out [][]stretch
	for i, s := range m.stretches {
		if i > 0 {
			last := m.stretches[i-1]
			alike := !falls || math.Abs(float64(s.course.fall-last.course.fall)) < 1e-6
			if alike && s.from == last.to && s.course.drawn.Sub(last.course.drawn).Len() < 1e-6 {
				out[len(out)-1] = append(out[len(out)-1], s)
				continue
			}
		}
		out = append(out, []stretch{s})
	}
	return out
}

// lengths writes the length of every straight run, from corner to corner or
// from face to corner.
func (m *isometric) lengths() {
	for _, run := range m.runs(false) {
		first, last := run[0], run[len(run)-1]
		m.length(first.from, last.to, q.Text(q.Length(last.b.Sub(first.a).Len())))
	}
}

// length draws one dimension beside the line from a to b, along whichever of
// the axes has room for it.
func (m *isometric) length(a, b spot, words string) {
	const text = 16 // pixels that a line of words is high
	d, length := a.to(b)
	w := wide(words)
	var best struct {
		a, b, words spot
		cost        float64
	}
	best.cost = math.Inf(1)
	for _, off := range []float64{26, 40, 56, 74, 94} {
		for _, axis := range []spot{{0, 1}, {0, -1}, {cos30, sin30}, {-cos30, -sin30}, {cos30, -sin30}, {-cos30, sin30}} {
			across := math.Abs(axis.x*d.y - axis.y*d.x)
			if across < 0.4 || off/4 >= best.cost { // along the line itself, or too far to be better
				continue
			}
			from, to := a.toward(axis, off/across), b.toward(axis, off/across)
			line := 0.0
			for _, t := range slices.Concat(along(from, to, 4), along(a.toward(axis, 10), from, 3), along(b.toward(axis, 10), to, 3)) {
				line += m.taken.covered(t)
			}
			middles := []spot{from.toward(d, length/2)}
			if length < w+16 { // no room between the ticks: beside them
				side := math.Copysign(w/2+10, d.x)
				middles = []spot{{to.x + side, to.y}, {from.x - side, from.y}}
			}
			for _, c := range middles {
				// Words that lie on something cannot be read, a line can.
				if cost := 6*m.taken.covered(around(c, w, text)) + line + off/4; cost < best.cost {
					best.a, best.b, best.words, best.cost = from, to, c, cost
				}
			}
		}
	}
	for _, end := range [2][2]spot{{a, best.a}, {b, best.b}} {
		out, far := end[0].to(end[1])
		clear := end[0].toward(out, min(7, far))
		m.canvas.line("witness", clear.x, clear.y, end[1].x, end[1].y)
	}
	if middle := best.a.toward(d, length/2); best.words == middle { // the line makes room for its words
		gap := min((w/2+3)/max(math.Abs(d.x), 1e-9), text/2/max(math.Abs(d.y), 1e-9))
		a, b := middle.toward(d, -gap), middle.toward(d, gap)
		m.canvas.line("dim", best.a.x, best.a.y, a.x, a.y)
		m.canvas.line("dim", b.x, b.y, best.b.x, best.b.y)
	} else {
		m.canvas.line("dim", best.a.x, best.a.y, best.b.x, best.b.y)
	}
	m.strokes("tick", slash(best.a.x, best.a.y), slash(best.b.x, best.b.y))
	m.centred("dim-text", best.words, words)
	m.taken.line(best.a, best.b, 5)
	m.taken.add(around(best.words, w, text))
}

// falls puts a wedge and a word beside every run that is laid to a fall.
func (m *isometric) falls() {
	const wedge, high = 30.0, 7.0
	for _, run := range m.runs(true) {
		s := run[0]
		s.to = run[len(run)-1].to
		d, length := s.from.to(s.to)
		// Between two bends that meet nobody can measure a fall.
		if s.course.fall == 0 || !slices.ContainsFunc(run, func(s stretch) bool { return len(strokes(s.piece)) == 1 }) {
			continue
		}
		words := "falls " + q.Text(s.course.fall)
		if s.course.fall < 0 {
			words = "rises " + q.Text(-s.course.fall)
		}
		w := small(words)
		var middles []spot
		for _, off := range []float64{18, 26, 36, 50, -18, -26, -36, -50, 66, -66} {
			for _, t := range []float64{0.5, 0.3, 0.7} {
				c := s.from.toward(d, length*t)
				middles = append(middles, spot{c.x, c.y + off})
			}
		}
		c := m.place(w+wedge+6, 18, middles)
		left := c.x - (w+wedge+6)/2
		m.canvas.line("leader", c.x, c.y, (s.from.x+s.to.x)/2, (s.from.y+s.to.y)/2)
		m.words("halo small", "start", left+wedge+6, c.y+4, words)
		// The wedge is high where the line is high.
		thick, thin, y := left, left+wedge, c.y
		if (s.course.fall > 0) == (d.x < 0) {
			thick, thin = thin, thick
		}
		m.path("disc")
		m.Raw("M")
		m.pixel(thick, y+high/2)
		m.pixel(thick, y-high/2)
		m.pixel(thin, y+high/2)
		m.Raw("Z")
		m.endPath()
		m.marks["wedge"] = true
	}
}

// numbers puts the number of each piece beside its middle.
func (m *isometric) numbers() {
	for _, p := range m.report.Pieces {
		at, ok := m.spots[p.Ref]
		if !ok {
			continue
		}
		size := 2*balloonRadius + 2
		c := m.place(size, size, ring(at, 22, 30, 40, 52, 66))
		m.Open("g", "class", "balloon", "data-ref", p.Ref)
		m.canvas.line("leader", at.x, at.y, c.x, c.y)
		m.circle("ground-mark", c.x, c.y, balloonRadius)
		m.words("number", "middle", c.x, c.y+4, strconv.Itoa(p.Number))
		m.Close("g")
	}
}

// ends says how high over the floor the line begins, meets the pump and ends.
func (m *isometric) ends() {
	l := m.report.Scene.Layout
	over := func(z float64) string { return q.Text(q.Length(z)) + " over the floor" }
	m.note(spot{}, "tank outlet", over(l.Outlet.At.Z))
	if !l.Gravity {
		for _, j := range m.joints {
			if j.after == nil {
				lines := []string{"pump inlet", over(l.PumpIn.At.Z)}
				if gap := l.Suction.Distance; gap > q.Millimetre {
					lines = append(lines, "the line misses it by "+q.Text(gap))
				}
				m.note(j.at, lines...)
			}
		}
	}
	if pieces := l.Pieces(); len(pieces) > 0 && len(m.stretches) > 0 {
		m.note(m.stretches[len(m.stretches)-1].to, "outflow", over(pieces[len(pieces)-1].Out.At.Z))
	}
}

// note writes lines of words near a spot, with a line to it.
func (m *isometric) note(at spot, lines ...string) {
	w, h := 0.0, float64(len(lines))*(textSize+2)
	for _, s := range lines {
		w = max(w, small(s))
	}
	var middles []spot
	for _, out := range []float64{24, 40, 60, 84, 110} {
		for _, v := range []float64{-1, 1, 0} {
			for _, side := range []float64{1, -1} {
				middles = append(middles, spot{at.x + side*(out+w/2), at.y + v*(out+h/2)})
			}
		}
		middles = append(middles, spot{at.x, at.y - out - h/2}, spot{at.x, at.y + out + h/2})
	}
	c := m.place(w+4, h+4, middles)
	b := around(c, w, h)
	m.canvas.line("leader", at.x, at.y, min(max(at.x, b.left), b.right), min(max(at.y, b.top), b.foot))
	for i, s := range lines {
		m.words("halo small", "middle", c.x, b.top+float64(i)*(textSize+2)+textSize-1, s)
	}
}
