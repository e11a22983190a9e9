package draw

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// across returns d turned a quarter.
func across(d spot) spot { return spot{-d.y, d.x} }

// bar draws a stroke across a line that runs along d.
func (m *isometric) bar(at, d spot, half float64) {
	n := across(d)
	a, b := at.toward(n, half), at.toward(n, -half)
	m.canvas.line("flange", a.x, a.y, b.x, b.y)
}

// tank draws the underside of the tank, or its side, over the outlet.
func (m *isometric) tank() {
	m.path("shell")
	m.Raw("M")
	if m.report.Scene.Layout.Outlet.Dir.Z < -0.5 {
		m.pixel(-40, -44)
		m.pixel(-6, -14)
		m.pixel(6, -14)
		m.pixel(40, -44)
	} else {
		d := project(m.report.Scene.Layout.Outlet.Dir)
		m.pixel(-14*d.x, -14*d.y-40)
		m.pixel(-14*d.x, -14*d.y+20)
	}
	m.endPath()
	m.taken.line(spot{-40, -44}, spot{-6, -14}, 6)
	m.taken.line(spot{40, -44}, spot{6, -14}, 6)
	back := project(m.report.Scene.Layout.Outlet.Dir)
	m.canvas.line("tube", 0, 0, -14*back.x, -14*back.y)
	m.taken.line(spot{}, spot{-14 * back.x, -14 * back.y}, 6)
}

// pump draws the pump between its two faces.
func (m *isometric) pump(at, in, out spot) {
	c := at.toward(in, pumpReach)
	to := c.toward(out, pumpReach)
	m.canvas.line("run-line", at.x, at.y, c.x, c.y)
	m.canvas.line("run-line", c.x, c.y, to.x, to.y)
	m.circle("casing", c.x, c.y, 13)
	m.centred("small", c, "P")
	m.taken.add(around(c, 28, 28))
	m.marks["pump"] = true
}

// line draws every piece: its tube, and what makes its kind known.
func (m *isometric) line() {
	for _, p := range m.report.Scene.Layout.Pieces() {
		m.Open("g", "class", "piece "+p.Kind, "data-ref", p.Ref)
		m.El("title", p.Label)
		var d spot
		for _, s := range m.stretches {
			if s.piece.Ref != p.Ref {
				continue
			}
			m.Raw(`<line stroke-width="3"`)
			m.Attr("class", "tube")
			m.numAttr("x1", s.from.x)
			m.numAttr("y1", s.from.y)
			m.numAttr("x2", s.to.x)
			m.numAttr("y2", s.to.y)
			m.Raw("/>")
			d, _ = s.from.to(s.to)
		}
		if d == (spot{}) {
			d = project(courseOf(p.In.Dir).drawn)
		}
		at := m.spots[p.Ref]
		for _, port := range p.Ports() {
			if port.End != nil {
				m.port(p.Kind, at, port)
			}
		}
		if m.symbol(&p, at, d); p.Kind != design.Straight && p.Kind != design.Bend {
			m.taken.add(around(at, 20, 20))
		}
		m.Close("g")
	}
}

// symbol draws what makes a piece known on its line.
func (m *isometric) symbol(p *route.Piece, at, d spot) {
	n := across(d)
	quad := func(long, half, end float64) {
		m.path("bow")
		m.Raw("M")
		for _, c := range [4]spot{at.toward(d, -long).toward(n, half), at.toward(d, long).toward(n, end), at.toward(d, long).toward(n, -end), at.toward(d, -long).toward(n, -half)} {
			m.pixel(c.x, c.y)
		}
		m.Raw("Z")
		m.endPath()
	}
	switch {
	case p.Kind == design.Reducer:
		a, b := 8.0, 4.0
		if p.Out.Half.Tube.OD > p.In.Half.Tube.OD {
			a, b = b, a
		}
		quad(9, a, b)
		m.marks["reducer"] = true
	case p.Kind == design.SightGlass:
		quad(9, 6, 6)
		m.canvas.line("leader", at.x-d.x*9, at.y-d.y*9, at.x+d.x*9, at.y+d.y*9)
		m.marks["glass"] = true
	case p.Kind == design.Device:
		quad(12, 10, 10)
		m.marks["device"] = true
	case p.Kind == design.Cap:
		m.bar(at, d, 8)
		m.bar(at.toward(d, 2), d, 8)
		m.marks["cap"] = true
	case p.Kind == design.Hose:
		m.marks["hose"] = true
	case design.IsBody(p.Kind):
		m.bow(at.x, at.y, d.x, d.y, 8)
		switch p.Kind {
		case design.Butterfly:
			m.circle("disc", at.x, at.y, 2.5)
		case design.NonReturn:
			m.bar(at.toward(d, 11), d, 8)
		}
		m.marks["valve"] = true
	}
}

// port draws a branch with what closes it.
func (m *isometric) port(kind string, at spot, port route.Port) {
	d := project(courseOf(port.Dir).drawn)
	end := at.toward(d, 24)
	m.canvas.line("run-line", at.x, at.y, end.x, end.y)
	m.taken.line(at, end.toward(d, 12), 8)
	switch {
	case kind == design.Pocket:
		m.circle("bow", end.x, end.y, 4)
		m.marks["pocket"] = true
	case port.On == "valve":
		c := end.toward(d, 6)
		m.bow(c.x, c.y, d.x, d.y, 6)
		m.marks["valve"] = true
	default:
		m.bar(end, d, 7)
		m.bar(end.toward(d, 2), d, 7)
		m.marks["cap"] = true
	}
}

// unions draws two bars across the line wherever it comes apart.
func (m *isometric) unions() {
	for _, j := range m.joints {
		for i, end := range [...]route.End{j.up, j.down} {
			if end.Half != nil && !end.Half.Plain() {
				m.bar(j.at.toward(j.along, float64(4*i-2)), j.along, 8)
				m.marks["union"] = true
			}
		}
		m.taken.add(around(j.at, 14, 14))
	}
}

// weldSpot is where a weld is on the drawing.
type weldSpot struct {
	number int
	at     spot
}

// welds puts a dot wherever something is welded.
func (m *isometric) welds() []weldSpot {
	out := make([]weldSpot, 0, len(m.report.Welds))
	for _, w := range m.report.Welds {
		at := m.weldAt(w)
		m.circle("disc", at.x, at.y, 3)
		m.taken.add(around(at, 8, 8))
		m.marks["weld"] = true
		out = append(out, weldSpot{w.Number, at})
	}
	return out
}

// weldAt returns where a weld is drawn: as far along its piece as it is, but
// clear of the union whose half it holds.
func (m *isometric) weldAt(w order.Weld) spot {
	const clear, onPort, onRun = 10.0, 15.0, 5e-3
	if w.Ref == order.Outlet {
		return m.joints[0].at.toward(m.joints[0].along, -clear)
	}
	var best spot
	nearest := math.Inf(1)
	var piece *route.Piece
	for i := range m.stretches {
		s := &m.stretches[i]
		if s.piece.Ref != w.Ref {
			continue
		}
		piece = s.piece
		way := s.b.Sub(s.a)
		t := min(max(w.At.Sub(s.a).Dot(way)/way.Dot(way), 0), 1)
		if off := w.At.Sub(s.a.Add(way.Scale(t))).Len(); off < nearest-1e-9 {
			nearest = off
			d, length := s.from.to(s.to)
			least, most := 0.0, length
			if (i == 0 || m.stretches[i-1].piece != piece) && !piece.In.Half.Plain() {
				least = clear
			}
			if (i+1 == len(m.stretches) || m.stretches[i+1].piece != piece) && !piece.Out.Half.Plain() {
				most = length - clear
			}
			best = s.from.toward(d, max(least, min(t*length, most)))
		}
	}
	switch {
	case piece == nil: // at the pump, or at a piece that has no length
		for _, j := range m.joints {
			if j.after == nil && w.Ref == "pump" || j.after != nil && j.after.Ref == w.Ref {
				best = j.at
			}
		}
	case nearest > onRun:
		nearest = math.Inf(1)
		for _, port := range piece.Ports() {
			if port.End == nil {
				continue
			}
			if off := w.At.Sub(port.At).Len(); off < nearest {
				nearest = off
				best = m.spots[piece.Ref].toward(project(courseOf(port.Dir).drawn), onPort)
			}
		}
	}
	return best
}

// slants draws the triangle that says how a run off the axes runs.
func (m *isometric) slants() {
	for _, run := range m.runs(false) {
		s := run[0]
		s.to = run[len(run)-1].to
		if !s.course.bearing && !s.course.steep {
			continue
		}
		d := s.course.drawn
		_, size := s.from.to(s.to)
		unit := math.Hypot(project(d).x, project(d).y)
		if unit < 1e-6 {
			continue
		}
		n := size / unit
		corner := s.from.toward(project(route.Vec{X: d.X}), n)
		plan := s.from.toward(project(route.Vec{X: d.X, Y: d.Y}), n)
		if s.course.bearing {
			m.hatched(s.from, corner, plan)
			m.angle(corner, bearing(d))
		}
		if s.course.steep {
			m.hatched(s.from, plan, s.to)
			words := "falls "
			if d.Z > 0 {
				words = "rises "
			}
			m.angle(plan, words+q.Text(q.Angle(math.Round(math.Atan2(math.Abs(d.Z), math.Hypot(d.X, d.Y))*1800/math.Pi)/1800*math.Pi)))
		}
		m.marks["slant"] = true
	}
}

// hatched draws a triangle with its right angle at corner, hatched across.
func (m *isometric) hatched(from, corner, to spot) {
	m.strokes("dim", segment{from.x, from.y, corner.x, corner.y}, segment{corner.x, corner.y, to.x, to.y})
	var hatch []segment
	d, length := from.to(corner)
	way, size := corner.to(to)
	for t := 7.0; t < length; t += 7 {
		a := from.toward(d, t)
		b := a.toward(way, size*t/length)
		hatch = append(hatch, segment{a.x, a.y, b.x, b.y})
	}
	m.strokes("leader", hatch...)
	m.taken.line(from, corner, 6)
	m.taken.line(corner, to, 6)
}

func (m *isometric) angle(corner spot, words string) {
	c := m.place(small(words), textSize+2, ring(corner, 14, 24, 36, 50, 66))
	m.centred("small", c, words)
}

// bearing says which way d runs in plan: "N 30° W".
func bearing(d route.Vec) string {
	ns, we := "N ", " W"
	if d.X < 0 {
		ns = "S "
	}
	if d.Y < 0 {
		we = " E"
	}
	turn := math.Atan2(math.Abs(d.Y), math.Abs(d.X)) * 180 / math.Pi
	return ns + q.Text(q.Angle(math.Round(turn*10)/10*math.Pi/180)) + we
}

// north draws the arrow in the corner that is freest.
func (m *isometric) north() {
	const w, h = 66.0, 54.0
	b := m.bounds()
	c := m.place(w, h, []spot{
		{b.left + w/2, b.top + h/2}, {b.right - w/2, b.top + h/2},
		{b.left + w/2, b.foot - h/2}, {b.right - w/2, b.foot - h/2},
		{b.left + w/2, b.top - h/2},
	})
	d := spot{cos30, -sin30}
	tail, tip := c.toward(d, -24), c.toward(d, 18)
	m.canvas.line("flange", tail.x, tail.y, tip.x, tip.y)
	m.path("disc")
	m.Raw("M")
	for _, p := range [3]spot{tip.toward(d, 4), tip.toward(d, -9).toward(across(d), 5), tip.toward(d, -9).toward(across(d), -5)} {
		m.pixel(p.x, p.y)
	}
	m.Raw("Z")
	m.endPath()
	m.words("number", "middle", c.x+24, c.y-18, "N")
	m.marks["north"] = true
}

// The legend: a mark, what it is called, and how it is drawn about a spot.
var legend = []struct {
	mark, words string
	draw        func(m *isometric, at spot)
}{
	{"north", "plant north: from the tank's axis to the pump", func(m *isometric, at spot) { m.words("number", "middle", at.x, at.y+4, "N") }},
	{"weld", "weld, with its number", func(m *isometric, at spot) { m.circle("disc", at.x, at.y, 3) }},
	{"union", "union: it comes apart here", func(m *isometric, at spot) {
		m.bar(spot{at.x - 2, at.y}, spot{1, 0}, 8)
		m.bar(spot{at.x + 2, at.y}, spot{1, 0}, 8)
	}},
	{"valve", "valve", func(m *isometric, at spot) { m.bow(at.x, at.y, 1, 0, 7) }},
	{"reducer", "reducer or enlarger", func(m *isometric, at spot) {
		m.symbol(&route.Piece{Kind: design.Reducer, In: plainEnd, Out: plainEnd}, at, spot{1, 0})
	}},
	{"glass", "sight glass", func(m *isometric, at spot) { m.symbol(&route.Piece{Kind: design.SightGlass}, at, spot{1, 0}) }},
	{"device", "device", func(m *isometric, at spot) { m.symbol(&route.Piece{Kind: design.Device}, at, spot{1, 0}) }},
	{"cap", "cap", func(m *isometric, at spot) { m.symbol(&route.Piece{Kind: design.Cap}, at, spot{1, 0}) }},
	{"pocket", "thermometer pocket", func(m *isometric, at spot) { m.circle("bow", at.x, at.y, 4) }},
	{"hose", "hose", func(m *isometric, at spot) {
		m.Raw(`<g class="hose">`)
		m.canvas.line("tube", at.x-14, at.y, at.x+14, at.y)
		m.Raw("</g>")
	}},
	{"pump", "pump", func(m *isometric, at spot) {
		m.circle("casing", at.x, at.y, 8)
		m.words("small", "middle", at.x, at.y+4, "P")
	}},
	{"wedge", "laid to a fall: the wedge thins as it goes down", func(m *isometric, at spot) {
		m.path("disc")
		m.Raw("M")
		m.pixel(at.x-14, at.y+4)
		m.pixel(at.x-14, at.y-4)
		m.pixel(at.x+14, at.y+4)
		m.Raw("Z")
		m.endPath()
	}},
	{"slant", "runs off the axes: its bearing or its slope", func(m *isometric, at spot) {
		m.hatchedSmall(at)
	}},
}

var plainEnd = route.End{Half: &catalog.Half{}}

func (m *isometric) hatchedSmall(at spot) {
	m.canvas.line("tube", at.x-14, at.y+7, at.x+14, at.y-7)
	m.hatched(spot{at.x - 14, at.y + 7}, spot{at.x + 14, at.y + 7}, spot{at.x + 14, at.y - 7})
}

const legendRow, legendColumn = 22.0, 330.0

func (m *isometric) legendColumns(width float64) int { return max(1, int(width/legendColumn)) }

// legendAt returns how high the legend is under a drawing so wide.
func (m *isometric) legendAt(width float64) float64 {
	n := 0
	for _, l := range legend {
		if m.marks[l.mark] {
			n++
		}
	}
	c := m.legendColumns(width)
	return float64((n+c-1)/c+1)*legendRow + 8
}

func (m *isometric) legend(width, top float64) {
	columns := m.legendColumns(width)
	i := 0
	m.words("small", "start", 8, top+14, "Not to scale: the lengths are as written, from corner to corner of the centrelines, or to the face.")
	for _, l := range legend {
		if !m.marks[l.mark] {
			continue
		}
		x := float64(i%columns) * width / float64(columns)
		y := top + float64(i/columns+1)*legendRow + 10
		l.draw(m, spot{x + 22, y})
		m.words("small", "start", x+48, y+4, l.words)
		i++
	}
}
