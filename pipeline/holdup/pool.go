package holdup

import (
	"math"
	"slices"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// hold is the least depth, in metres, that counts: a tenth of a millimetre,
// less than can be laid or measured, and about a film of water.
const hold = 1e-4

// settled is how liquid stands in a line at rest: the level over every cut,
// its own floor where it is dry.
type settled struct {
	level []float64
	open  bool // every drain valve is
}

// settle lets what is in the line run off: at every cut stands what cannot
// rise over the highest floor on the way to the one end or on the way to the
// other, whichever is lower. An open drain valve is a way out where it sits.
func (l *line) settle(open bool) settled {
	n := len(l.cuts)
	s := settled{level: make([]float64, n), open: open}
	pass := func(height float64, c *cut) float64 {
		height = max(height, c.floor)
		for _, b := range c.branch {
			if open && b.drains() {
				height = max(c.floor, min(height, b.mouth()))
			}
		}
		return height
	}
	back := math.Inf(-1) // to the start of the line
	for i := range l.cuts {
		c := &l.cuts[i]
		if c.oneWay {
			back = math.Inf(1)
		}
		back = pass(back, c)
		s.level[i] = back
	}
	on := math.Inf(-1) // to its end
	for i := n - 1; i >= 0; i-- {
		on = pass(on, &l.cuts[i])
		s.level[i] = min(s.level[i], on)
	}
	return s
}

// pool is a stretch of cuts that are wet, and what stands there.
type pool struct {
	from, to int // first and last wet cut
	level    float64
	lowest   int // cut
}

// span returns the cuts between which pool p ends: the dry ones beside it, or
// the flap that holds it back.
func (l *line) span(p pool) (from, to int) {
	if l.cuts[p.from].oneWay {
		return p.from, p.to + 1
	}
	return p.from - 1, p.to + 1
}

// wetStretches returns the stretches that are wet, each on one level.
func (l *line) wetStretches(s settled) []pool {
	var out []pool
	for i := 0; i < len(l.cuts); i++ {
		if s.level[i] <= l.cuts[i].floor {
			continue
		}
		p := pool{from: i, to: i, level: s.level[i], lowest: i}
		top := l.cuts[i].Crown
		// A flap parts two pools with no dry cut between.
		for ; i < len(l.cuts) && s.level[i] > l.cuts[i].floor && (i == p.from || !l.cuts[i].oneWay); i++ {
			p.to = i
			top = max(top, l.cuts[i].Crown)
			if l.cuts[i].floor < l.cuts[p.lowest].floor {
				p.lowest = i
			}
		}
		i--
		if math.IsInf(p.level, 1) { // shut in on both sides: full
			p.level = top
		}
		if p.level > l.cuts[p.lowest].floor+hold {
			out = append(out, p)
		}
	}
	return out
}

// between calls f for every stretch of one segment between cuts from and to.
func (l *line) between(from, to int, f func(piece int, s *route.Segment, a, b float64)) {
	for i := max(0, from); i < min(to, len(l.cuts)-1); i++ {
		c, d := &l.cuts[i], &l.cuts[i+1]
		if c.segment == d.segment {
			f(c.Piece, c.segment, c.T, d.T)
			continue
		}
		f(c.Piece, c.segment, c.T, 1)
		f(d.Piece, d.segment, 0, d.T)
	}
}

// holds adds what pool p holds in the bore to parts, by piece.
func (l *line) holds(p pool, parts []float64) {
	from, to := l.span(p)
	l.between(from, to, func(piece int, s *route.Segment, a, b float64) {
		parts[piece] += volume(s, a, b, p.level)
	})
}

// branchHolds returns what stands in branch b at cut i.
func (l *line) branchHolds(b *branch, i int, s settled) float64 {
	if s.open && b.drains() {
		return 0
	}
	level := b.mouth()
	if s.level[i] > l.cuts[i].floor { // the bore that runs past is wet
		level = max(level, s.level[i])
	} else if level-b.tip() <= 10*hold {
		return 0 // less than a cap's own shape holds
	}
	return b.holds(level)
}

// pools lists what stays in line l as it stands at s: the wet stretches with
// their branches, and the branches that hold something beside a dry bore.
func (l *line) pools(s settled) []Pool {
	var out []Pool
	seen := map[*branch]bool{}
	for _, p := range l.wetStretches(s) {
		parts := make([]float64, len(l.pieces))
		l.holds(p, parts)
		made := Pool{Level: q.Length(p.level), cuts: [2]int{p.from, p.to}}
		for i := p.from; i <= p.to; i++ {
			for _, b := range l.cuts[i].branch {
				seen[b] = true
				if v := l.branchHolds(b, i, s); v > 0 {
					parts[l.cuts[i].Piece] += v
					made.Bores = append(made.Bores, b.bore())
				}
				made.port(b)
			}
		}
		if made.sum(l, parts); made.Volume == 0 {
			continue // between pieces of no length
		}
		l.describe(&made, p, parts)
		out = append(out, made)
	}
	for i := range l.cuts {
		for _, b := range l.cuts[i].branch {
			v := l.branchHolds(b, i, s)
			if seen[b] || v <= 0 {
				continue
			}
			mouth := b.mouth()
			parts := make([]float64, len(l.pieces))
			parts[l.cuts[i].Piece] = v
			made := Pool{
				Ref: b.piece.Ref, Name: named(b.piece), Why: "in the branch, whose end is lower than its mouth",
				Depth: q.Length(mouth - b.tip()), Level: q.Length(mouth), Lowest: b.port.At, Along: b.piece.Path[0].Length,
				Bores: [][]Place{b.bore()}, cuts: [2]int{i, i},
			}
			made.port(b)
			made.sum(l, parts)
			out = append(out, made)
		}
	}
	return out
}

// port notes a branch that points down in the pool: its valve, or what closes it.
func (p *Pool) port(b *branch) {
	switch {
	case b.drains():
		p.Drain = b.piece.Ref
	case b.port.Dir.Z < -0.5:
		p.Capped = named(b.piece)
	}
}

// sum lists what each piece holds of the pool, and adds it up.
func (p *Pool) sum(l *line, parts []float64) {
	for i, v := range parts {
		if v > 0 {
			p.Volume += q.Volume(v)
			p.Parts = append(p.Parts, Part{Ref: l.pieces[i].Ref, Volume: q.Volume(v)})
		}
	}
	p.Left = p.Volume
}

// drained tells each pool of what stays in a line with its drain valves shut
// how much is left of it in rest, what stays with them open.
func drained(pools, rest []Pool) {
	for i := range pools {
		p := &pools[i]
		p.Left = 0
		for k := range rest {
			if rest[k].cuts[0] >= p.cuts[0] && rest[k].cuts[1] <= p.cuts[1] {
				p.Left += rest[k].Volume
			}
		}
		p.Left = min(p.Left, p.Volume) // the same sum, rounded another way
	}
}

// describe says where a wet stretch stands and what makes it. Where a level
// stretch is equally low all along, the piece that holds most names it.
func (l *line) describe(out *Pool, p pool, parts []float64) {
	lowest := p.lowest
	for i := p.from; i <= p.to; i++ {
		if l.cuts[i].floor < l.cuts[p.lowest].floor+hold && parts[l.cuts[i].Piece] > parts[l.cuts[lowest].Piece] {
			lowest = i
		}
	}
	c := &l.cuts[lowest]
	piece := &l.pieces[c.Piece]
	out.Ref, out.Name, out.Why = piece.Ref, named(piece), l.why(p)
	out.flap = l.cuts[p.from].oneWay
	for _, i := range l.slack {
		if parts[i] > 0 && parts[i] >= slices.Max(parts) {
			out.hose, out.Why = true, "in the hose where it sags"
		}
	}
	out.Depth, out.Along = q.Length(p.level-c.floor), l.along(lowest)
	out.Lowest = c.At
	out.Lowest.Z = c.floor
	var bore []Place
	from, to := l.span(p)
	l.between(from, to, func(_ int, s *route.Segment, a, b float64) {
		steps := 1
		if s.Radius > 0 {
			steps = 8
		}
		for i := range steps + 1 {
			c := s.SectionAt(a + (b-a)*float64(i)/float64(steps))
			bore = append(bore, Place{At: c.At, Dir: c.Dir, Radius: q.Length(c.Radius)})
		}
	})
	out.Bores = append(out.Bores, bore)
}

// along returns how far a cut lies from the upstream end of its piece.
func (l *line) along(i int) q.Length {
	c := &l.cuts[i]
	sum := q.Length(c.T) * c.segment.Length
	for k := range l.pieces[c.Piece].Path[:c.Segment] {
		sum += l.pieces[c.Piece].Path[k].Length
	}
	return sum
}

// why says what makes a pool: the piece that its liquid cannot get over, or
// the way the line runs.
func (l *line) why(p pool) string {
	for i := max(0, p.from-1); i <= min(p.to+1, len(l.cuts)-1); i++ {
		c := &l.cuts[i]
		piece := &l.pieces[c.Piece]
		switch {
		case c.oneWay && i == p.from:
			return "over the non-return valve, which lets nothing run back"
		case piece.Kind == design.Cap:
			return "shut in by a cap"
		case piece.Kind == design.Butterfly && c.floor > c.Invert && (i == p.from-1 || i == p.to+1):
			return "on the low side of the butterfly valve, whose ring is taken to stand " + q.Text(q.Millimetre) + " into the bore"
		case piece.Kind == design.Diaphragm && c.floor > c.Invert && (i == p.from-1 || i == p.to+1):
			return "behind the dam of the diaphragm valve, taken as mounted with its spindle up"
		}
	}
	if s := l.step(p); s != nil {
		return "behind the step of " + named(s)
	}
	return "where the line runs down and up again"
}

// step returns the reducer whose change of bore alone ends the pool p on one
// side: its lowest line rises away from the pool though its axis does not.
func (l *line) step(p pool) *route.Piece {
	beside := func(i, next int, way float64) *route.Piece {
		if next < 0 || next >= len(l.cuts) || l.cuts[next].Piece != l.cuts[i].Piece {
			return nil
		}
		r := &l.pieces[l.cuts[i].Piece]
		if r.Kind != design.Reducer || way*r.In.Dir.Z > 1e-5 {
			return nil
		}
		return r
	}
	if r := beside(p.to, p.to+1, 1); r != nil {
		return r
	}
	return beside(p.from, p.from-1, -1)
}

// bore returns the branch from its mouth to its end, for drawing.
func (b *branch) bore() []Place {
	at := func(t float64) Place {
		return Place{At: b.centre.Add(b.port.Dir.Scale(t)), Dir: b.port.Dir, Radius: q.Length(b.radius)}
	}
	return []Place{at(min(b.wall, b.reach)), at(b.reach)}
}
