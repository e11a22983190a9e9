package draw

import (
	"math"
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Isometric draws the line as a pipe drawing, width pixels wide: what is
// upright stands upright, north and east run at 30° to either side, and every
// piece is as long as it needs to be seen, its true length written beside it.
// North is the plant's own: from the tank's axis towards the pump.
//
// What runs off the axes has a mark of its own: a wedge along a stretch that
// is laid to a fall, which is drawn along its axis; a hatched triangle beside
// one that runs at another bearing or steeply, which is drawn as it runs.
func Isometric(r pipeline.Report, width int) string {
	var m isometric
	// The largest scale at which all of it fits, words and numbers too; they
	// do not shrink with it. What does not fit at the least is drawn larger.
	const most, least = 1.5, 0.8
	for k := most; ; k *= 0.88 {
		m = isometric{report: r, k: k, marks: map[string]bool{}}
		m.lay()
		last := k*0.88 < least
		if !last && !m.fits(width) {
			continue
		}
		if m.write(); last || m.fits(width) {
			break
		}
	}
	return m.sheet(float64(width))
}

// fits reports whether what is drawn so far is no larger than it may be.
func (m *isometric) fits(width int) bool {
	b := m.bounds()
	return b.right-b.left <= float64(width) && b.foot-b.top <= tallest
}

type isometric struct {
	canvas
	report    pipeline.Report
	k         float64 // how long pieces are drawn
	stretches []stretch
	joints    []joint
	spots     map[string]spot // middle of each piece, by its ref
	taken     clutter         // what nothing else should cover
	marks     map[string]bool // that are on the drawing and go into the legend
}

// spot is a point of a drawing, pixels, y down.
type spot struct{ x, y float64 }

// toward returns the point n times d from a.
func (a spot) toward(d spot, n float64) spot { return spot{a.x + d.x*n, a.y + d.y*n} }

func (a spot) to(b spot) (unit spot, length float64) {
	dx, dy := b.x-a.x, b.y-a.y
	n := math.Hypot(dx, dy)
	if n < 1e-9 {
		return spot{1, 0}, 0
	}
	return spot{dx / n, dy / n}, n
}

// The axes are drawn at 30° to the level and all to one scale, as in ISO 5456-3.
var cos30, sin30 = math.Cos(math.Pi / 6), 0.5

// project returns where v comes to on the drawing: north, which is x, up to
// the right, west, which is y, up to the left.
func project(v route.Vec) spot { return spot{(v.X - v.Y) * cos30, -(v.X+v.Y)*sin30 - v.Z} }

// stretch is a straight part of a piece's centreline.
type stretch struct {
	piece    *route.Piece
	course   course
	a, b     route.Vec // in space
	from, to spot      // on the drawing
}

// course is how a stretch runs.
type course struct {
	drawn   route.Vec // unit, that it is drawn along
	fall    q.Slope   // along the flow, of one that is drawn level; minus: it rises
	steep   bool      // neither level nor upright
	bearing bool      // in plan off the axes
}

const (
	// Up to here, 1 in 10, a stretch is laid to a fall and drawn level; further
	// it runs at a slant.
	mostFall = 0.1
	// Nobody sets a bearing truer by eye or by square.
	leastTurn = 0.5 * math.Pi / 180
)

// courseOf tells how d, a unit, runs.
func courseOf(d route.Vec) course {
	level := math.Hypot(d.X, d.Y)
	if level <= mostFall*math.Abs(d.Z) {
		return course{drawn: route.Vec{Z: math.Copysign(1, d.Z)}}
	}
	var c course
	plan := route.Vec{X: d.X / level, Y: d.Y / level}
	if off := math.Min(math.Abs(plan.X), math.Abs(plan.Y)); math.Asin(off) > leastTurn {
		c.bearing = true
	} else {
		plan = route.Vec{X: math.Round(plan.X), Y: math.Round(plan.Y)}
	}
	if math.Abs(d.Z) <= mostFall*level {
		c.drawn, c.fall = plan, q.Slope(-d.Z/level)
		if math.Abs(float64(c.fall)) < 1e-5 {
			c.fall = 0
		}
		return c
	}
	c.steep = true
	c.drawn = plan.Scale(level).Add(route.Vec{Z: d.Z})
	return c
}

// joint is where two ends meet, or the outlet's before the first piece.
type joint struct {
	at     spot
	along  spot // unit, along the flow
	up     route.End
	down   route.End
	before *route.Piece // nil for the tank or the pump
	after  *route.Piece
}

// lay finds where everything is drawn.
func (m *isometric) lay() {
	l := m.report.Scene.Layout
	m.spots = map[string]spot{}
	pieces := l.ToPump()
	at := m.chain(spot{}, pieces, l.Outlet)
	last := joint{at: at, along: project(courseOf(l.Outlet.Dir).drawn), up: l.Outlet}
	if len(pieces) > 0 {
		last.before = &pieces[len(pieces)-1]
		last.up = last.before.Out
	}
	if l.Gravity {
		if len(pieces) == 0 {
			m.joints = append(m.joints, last)
		}
		return
	}
	in, out := project(l.PumpIn.Dir), project(l.PumpOut.Dir)
	last.along, last.down = in, l.PumpIn
	m.joints = append(m.joints, last)
	m.pump(at, in, out)
	m.chain(at.toward(in, pumpReach).toward(out, pumpReach), l.Delivery, l.PumpOut)
}

// pumpReach is from a pump's faces to its middle, pixels.
const pumpReach = 26.0

// chain lays pieces one after the other from at, after the end before.
func (m *isometric) chain(at spot, pieces []route.Piece, before route.End) spot {
	for i := range pieces {
		p := &pieces[i]
		j := joint{at: at, along: project(courseOf(p.In.Dir).drawn), up: before, down: p.In, after: p}
		if i > 0 {
			j.before = &pieces[i-1]
		}
		m.joints = append(m.joints, j)
		before = p.Out
		first := len(m.stretches)
		point := p.In.At
		for _, s := range strokes(p) {
			c := courseOf(s.dir)
			end := point.Add(s.dir.Scale(float64(s.length)))
			to := at.toward(project(c.drawn), m.drawn(s.length))
			m.stretches = append(m.stretches, stretch{p, c, point, end, at, to})
			m.taken.line(at, to, 6)
			at, point = to, end
		}
		m.spots[p.Ref] = middleOf(m.stretches[first:], at)
	}
	return at
}

// drawn returns how long a stretch is drawn, pixels: the short ones longer
// than they are and the long ones shorter.
func (m *isometric) drawn(length q.Length) float64 {
	return m.k * (12 + 80*math.Sqrt(float64(length)))
}

// middleOf returns the middle of a piece: the corner of a bend, or half way along.
func middleOf(s []stretch, at spot) spot {
	switch len(s) {
	case 0:
		return at
	case 1:
		return spot{(s[0].from.x + s[0].to.x) / 2, (s[0].from.y + s[0].to.y) / 2}
	}
	return s[len(s)/2].from
}

type stroke struct {
	dir    route.Vec
	length q.Length
}

// strokes returns the straight parts of p's centreline, an arc as the tangents
// that meet in its corner.
func strokes(p *route.Piece) []stroke {
	var out []stroke
	add := func(dir route.Vec, length q.Length) {
		if length <= 0 {
			return
		}
		if n := len(out); n > 0 && out[n-1].dir.Sub(dir).Len() < 1e-9 {
			out[n-1].length += length
			return
		}
		out = append(out, stroke{dir, length})
	}
	for _, s := range p.Path {
		_, onward := s.Point(1)
		switch {
		case p.Kind == design.Hose:
			way := s.To.Sub(s.From)
			add(way.Unit(), q.Length(way.Len()))
		case s.Radius == 0:
			add(s.Dir, s.Length)
		case s.Angle > 150*q.Degree: // its tangents meet far away, or nowhere: two corners
			_, half := s.Point(0.5)
			tangent := s.Radius * q.Length(math.Tan(float64(s.Angle)/4))
			add(s.Dir, tangent)
			add(half, 2*tangent)
			add(onward, tangent)
		default:
			tangent := s.Radius * q.Length(math.Tan(float64(s.Angle)/2))
			add(s.Dir, tangent)
			add(onward, tangent)
		}
	}
	return out
}

// sheet wraps what was written: north in a free corner, the legend under it.
func (m *isometric) sheet(width float64) string {
	m.north()
	b := m.bounds()
	body := m.String()
	width = math.Max(width, b.right-b.left)
	foot := m.legendAt(width)

	m.picture("isometric", width, math.Ceil(b.foot-b.top+foot), m.describe())
	m.Raw(`<g transform="translate(`)
	m.Raw(decimal((width-(b.right-b.left))/2-b.left) + " " + decimal(-b.top))
	m.Raw(`)">`)
	m.Raw(body)
	m.Raw("</g>")
	m.legend(width, b.foot-b.top)
	m.Close("svg")
	return m.String()
}

func (m *isometric) describe() string {
	return "Isometric of the line, not to scale: " + strconv.Itoa(len(m.report.Pieces)) + " pieces and " +
		strconv.Itoa(len(m.report.Welds)) + " welds. The tables list them."
}
