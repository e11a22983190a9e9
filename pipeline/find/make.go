package find

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// span is a leg of a path as it is made: the straight between two fittings.
type span struct {
	dir    route.Vec // as drawn, in the plant
	cut    float64   // of its straight as drawn, before what the fall takes up
	spare  float64   // by which an upright one may be shorter
	bare   bool      // no straight: the fittings meet
	upward bool      // it stands upright
	slant  bool      // between two bends of 45°
	fall   float64   // slope of a level one
	inner  bool      // that the bends before and after it take up
	fit    bool      // it closes a gap
}

// maker turns a path into pieces.
type maker struct {
	*job
	path
	spans  []span
	tune   float64 // slope of a run without an upright leg, or how far an offset is rolled over the drawn way
	pieces []design.Piece
	come   string    // half that the line has come to
	dir    route.Vec // in which it runs there
	since  float64   // developed length since the last union
}

// lay finds the straights of a path and which of them close a gap: of those
// that run along each axis the last. The others have the lengths drawn, so
// that the run stays where it was found to be free.
func (m *maker) lay() {
	last := [3]int{-1, -1, -1}
	n := len(m.points) - 1
	m.lowerOffset()
	for i := range n {
		by := m.points[i+1].Sub(m.points[i])
		takes := func(k int) (float64, int) {
			switch {
			case k == 0:
				return m.scene.lead, 0
			case k == n:
				return m.scene.tail, 0
			case m.eighth[k]:
				return m.scene.t45, 1
			}
			return m.scene.t90, 1
		}
		a, bendsA := takes(i)
		b, bendsB := takes(i + 1)
		s := span{dir: m.out(by.Unit()), cut: by.Len() - a - b, slant: m.eighth[i] && m.eighth[i+1]}
		s.upward = math.Abs(s.dir.Z) > 1-whole
		s.fall = m.scene.falls(i == 0, i == n-1)
		s.inner = m.scene.inner > 0 && s.fall == m.scene.inner && !s.upward
		s.spare, _ = m.scene.leg(by.Len(), a, b, bendsA+bendsB, false)
		if s.bare = s.cut < same; !s.bare && m.scene.unions {
			s.cut -= float64(bendsA+bendsB) * m.scene.union
		}
		if !s.bare && !s.slant {
			for axis, c := range [3]float64{by.X, by.Y, by.Z} {
				if math.Abs(c) > by.Len()/2 {
					last[axis] = i
				}
			}
		}
		m.spans = append(m.spans, s)
	}
	for _, i := range last {
		if i >= 0 {
			m.spans[i].fit = true
		}
	}
	m.shareFall(last[2])
	// An offset's slant closes what no other straight does.
	for i := range m.spans {
		s := &m.spans[i]
		if !s.slant {
			continue
		}
		by := m.points[i+1].Sub(m.points[i])
		for axis, c := range [3]float64{by.X, by.Y, by.Z} {
			s.fit = s.fit || math.Abs(c) > same && last[axis] < 0
		}
	}
}

// lowerOffset draws an offset that comes down as it will lie where nothing
// stands upright: it has so much less to come down as the line before and
// after it falls, and is rolled to that.
func (m *maker) lowerOffset() {
	slant, need := -1, 0.0
	for i := range len(m.points) - 1 {
		by := m.points[i+1].Sub(m.points[i])
		switch drops := by.Z < -same; {
		case drops && m.eighth[i] && m.eighth[i+1]:
			slant = i
		case drops:
			return
		default:
			need += m.scene.fall * by.Len()
		}
	}
	if slant < 1 || need == 0 {
		return
	}
	m.points = append([]route.Vec{}, m.points...)
	for i := range slant + 1 {
		m.points[i].Z -= need
	}
	d := m.points[slant].Sub(m.points[slant-1]).Unit()
	by := m.points[slant+1].Sub(m.points[slant])
	aside := by.Sub(d.Scale(by.Dot(d)))
	m.points[slant+1] = m.points[slant].Add(d.Scale(aside.Len())).Add(aside)
}

// shareFall takes what the level tube falls off the upright legs; the one at
// closes its gap by itself, and the others give what it cannot.
func (m *maker) shareFall(at int) {
	need := 0.0
	for i, s := range m.spans {
		if !s.upward && !(s.slant && math.Abs(s.dir.Z) > same) {
			need += s.fall * m.points[i+1].Sub(m.points[i]).Len()
		}
	}
	if at < 0 || m.scene.flat {
		return
	}
	need -= m.spans[at].spare
	for i := len(m.spans) - 1; i >= 0 && need > 0; i-- {
		if s := &m.spans[i]; s.upward && i != at {
			less := min(need, s.spare)
			s.cut -= less
			need -= less
		}
	}
}

// make writes the pieces.
func (m *maker) make() []design.Piece {
	set := m.sets[m.scene.starts[m.start].id]
	m.pieces = append([]design.Piece{}, set.pieces...)
	m.come, m.dir, m.since = set.half, set.dir, 0
	for i, s := range m.spans {
		end := i == len(m.spans)-1
		if !s.bare {
			m.straight(i, s)
		}
		if !end {
			m.bend(i+1, s, m.spans[i+1])
		}
	}
	// Bends that meet what stands at the end carry its half.
	m.pieces[len(m.pieces)-1].Out = m.last
	m.pieces = append(m.pieces, m.ends...)
	return m.pieces
}

// put adds a piece whose upstream end closes on what is there.
func (m *maker) put(p design.Piece, long float64) {
	p.In = catalog.Mate(m.come)
	if p.In != design.Weld {
		m.since = 0
	}
	m.since += long
	m.come = design.Weld
	if p.Out != "" {
		m.come = p.Out
	}
	m.pieces = append(m.pieces, p)
}

// fallOf is the slope that a level straight of this run is laid to.
func (m *maker) fallOf(s span) float64 {
	f := s.fall
	if m.scene.flat {
		f = m.tune
	}
	if m.rises {
		f = -f
	}
	return f
}

// straight adds the straight of a span, in as many pieces as can be carried.
func (m *maker) straight(k int, s span) {
	p := design.Piece{Kind: design.Straight}
	if f := m.fallOf(s); f != 0 && !s.inner && !s.upward && !(s.slant && math.Abs(s.dir.Z) > same) {
		p.Fall = slope(f)
		m.dir = route.Fallen(m.dir, p.Fall.Value())
	}
	cut, union := s.cut, m.scene.union
	longest := float64(m.Longest)
	after := ""
	if m.roomy(cut) && m.since+cut+m.ahead(k) > longest {
		behind, before := m.ahead(k), m.since+cut
		if m.since > 0 && (before > longest || cut-union+behind <= longest) {
			m.pieces[len(m.pieces)-1].Out = m.mid
			m.come, m.since = m.mid, 0
			cut -= union
		}
		if m.since+cut+behind > longest && m.roomy(cut) {
			after = m.mid
			cut -= union
		}
	}
	for m.mid != "" && cut > longest {
		part := math.Floor((longest-union)*1000) / 1000
		if cut-part-union < m.scene.least {
			part = math.Floor((cut-union-m.scene.least)*500) / 1000
		}
		if part < m.scene.least {
			break
		}
		piece := p
		piece.Length, piece.Out = length(q.Length(part)), m.mid
		m.put(piece, part)
		cut -= part + union
	}
	if p.Fit = s.fit; !s.fit {
		p.Length = length(q.Length(max(cut, 0.001)))
	}
	if p.Out = after; m.scene.unions {
		p.Out = m.mid
	}
	m.put(p, cut)
}

// roomy reports whether a straight has room for a union of its own.
func (m *maker) roomy(cut float64) bool {
	return m.mid != "" && !m.scene.unions && cut-m.scene.union > m.scene.least
}

// ahead is the developed length behind the straight of span k, up to where
// there is room for the next union.
func (m *maker) ahead(k int) (sum float64) {
	for i := k + 1; i < len(m.spans); i++ {
		if m.eighth[i] {
			sum += 2 * m.scene.t45
		} else {
			sum += 2 * m.scene.t90
		}
		if m.roomy(m.spans[i].cut) {
			return sum
		}
		sum += m.spans[i].cut
	}
	return sum
}

// bend adds the bend at corner k, rolled so that the line goes on as next does.
func (m *maker) bend(k int, before, next span) {
	p := design.Piece{Kind: design.Bend}
	angle, takes := q.Angle(math.Pi/2), m.scene.t90
	if m.eighth[k] {
		angle, takes = math.Pi/4, m.scene.t45
		p.Angle = degrees(angle)
	}
	to := next.dir
	if next.slant && m.tune != 0 && !m.scene.flat {
		to = rolled(to, before.dir, m.tune)
	}
	turn := func(to route.Vec) q.Angle { return route.Turn(m.dir, to.Sub(m.dir.Scale(to.Dot(m.dir)))) }
	t := turn(to)
	if before.inner != next.inner && (before.upward || next.upward) {
		angle -= q.Angle(tilt)
		p.Angle = degrees(angle)
	}
	if f := m.fallOf(next); f != 0 && !route.Steep(m.dir) && math.Abs(to.Z) < same {
		// A bend aside is rolled by the fall, so that it falls itself. A tenth
		// of a degree is as near as anybody rolls it.
		t = q.Angle(math.Round(turn(route.Fallen(to, q.Slope(f))).Degrees()*10)/10) * q.Degree
	}
	if even := q.Angle(math.Round(t.Degrees()*10)/10) * q.Degree; !before.slant && !next.slant && math.Abs((t-even).Degrees()) < 0.01 {
		t = even // what closes the gap takes up so little
	}
	if t := degrees(t); t.Value() != 0 {
		p.Turn = t
	}
	side := route.Toward(m.dir, p.Turn.Value())
	sin, cos := math.Sincos(float64(angle))
	m.dir = m.dir.Scale(cos).Add(side.Scale(sin)).Unit()
	if m.scene.unions {
		p.Out = m.mid
	}
	m.put(p, 2*takes)
}

// rolled turns v by an angle about the unit vector d (Rodrigues' formula).
func rolled(v, d route.Vec, by float64) route.Vec {
	sin, cos := math.Sincos(by)
	return v.Scale(cos).Add(d.Cross(v).Scale(sin)).Add(d.Scale(d.Dot(v) * (1 - cos)))
}

// placed is a run in its design, and how it comes out laid.
type placed struct {
	design design.Design // filled
	layout route.Layout
	pieces []design.Piece
	turn   q.Entered[q.Angle]
}

// meets is how near to its target a run must come, metres: a hundredth of a
// millimetre.
const meets = 1e-5

// placed makes a path into pieces and lays them; false where they do not meet
// the pump, or a straight comes out too short.
func (j *job) placed(p path) (placed, bool) {
	m := &maker{job: j, path: p}
	m.lay()
	try := func(tune float64) (placed, float64, route.Vec) {
		m.tune = tune
		out := placed{pieces: m.make(), turn: j.sets[j.scene.starts[p.start].id].turn}
		d := j.turned(out.turn)
		j.put(&d, out.pieces)
		out.design = d.Filled()
		out.layout = route.Lay(out.design, j.height)
		gap := j.gap(out.layout)
		return out, float64(gap.Distance), gap.By
	}
	tune := 0.0
	if j.scene.flat {
		// All of the height goes into the fall.
		tune = (p.points[0].Z - p.points[len(p.points)-1].Z) / j.level(p)
	}
	out, gap, by := try(tune)
	if gap > meets/10 && (j.scene.flat || m.slants()) {
		out, gap = j.tuned(try, tune, by)
	}
	return out, gap <= meets && j.ample(out)
}

// level is how far a path goes along level legs.
func (j *job) level(p path) (sum float64) {
	for i := 1; i < len(p.points); i++ {
		by := p.points[i].Sub(p.points[i-1])
		sum += math.Hypot(by.X, by.Y)
	}
	return sum
}

func (m *maker) slants() bool {
	for _, s := range m.spans {
		if s.slant {
			return true
		}
	}
	return false
}

// tuned closes a gap that no straight can, by the fall or by rolling an
// offset: the secant method on the gap along the way it first opened.
func (j *job) tuned(try func(float64) (placed, float64, route.Vec), at float64, by route.Vec) (placed, float64) {
	along := by.Unit()
	step := 1e-3
	if j.scene.flat {
		step = at / 50
	}
	a, fa := at, by.Dot(along)
	b := at + step
	out, gap, v := try(b)
	for range 8 {
		fb := v.Dot(along)
		if gap <= meets/10 || math.Abs(fb-fa) < 1e-15 {
			break
		}
		a, b, fa = b, b-fb*(b-a)/(fb-fa), fb
		if math.Abs(b-at) > 0.5 || j.scene.flat && b <= 0 {
			return out, gap
		}
		out, gap, v = try(b)
	}
	return out, gap
}

// short is what a straight between fittings may lack of what was asked for,
// where a line that leans takes it up: less than a saw and a file do.
const short = 0.002

// ample reports whether every straight came out as long as it must be.
func (j *job) ample(p placed) bool {
	for _, r := range j.Line.own(p.layout) {
		if r.Kind == design.Straight && float64(r.Cut) < j.scene.least-short {
			return false
		}
	}
	return true
}
