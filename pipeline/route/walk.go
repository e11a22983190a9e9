package route

import (
	"math"
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// walk is the turtle: how far a line has come, and what it leaves behind.
// Slices that belong to pieces are cut from ones that all pieces share.
type walk struct {
	measured []design.Measurement
	seal     string // where a piece names none

	begin    *End          // where this line starts
	at, dir  Vec           // where it has come to
	half     *catalog.Half // the end it has come to
	joined   int           // index of its first junction
	fits     []*Piece      // its straights to be made to fit
	hose     *Piece        // its last piece, a hose to be made to fit
	hoseFree bool          // that hose may have any length

	number    int
	junctions []Junction
	segments  []Segment
	dims      []catalog.Dimension
	parts     []catalog.Part
}

// start begins a line at an end that is already placed.
func (w *walk) start(from *End) {
	w.begin, w.at, w.dir, w.half = from, from.At, from.Dir, from.Half
	w.joined, w.fits, w.hose = len(w.junctions), nil, nil
}

// through places pieces one after another; path is what their refs start with.
func (w *walk) through(path string, specs []design.Piece, placed []Piece) {
	for i := range specs {
		w.number++
		placed[i].Ref = path + strconv.Itoa(i)
		placed[i].Number = w.number
		w.place(&placed[i], &specs[i])
	}
}

// join notes the junction between where the line has come to and the end next.
func (w *walk) join(ref, seal string, next *catalog.Half) q.Length {
	if seal == "" {
		seal = w.seal
	}
	w.junctions = append(w.junctions, Junction{})
	j := &w.junctions[len(w.junctions)-1]
	j.Ref, j.Seal = ref, seal
	if !w.half.Plain() && !next.Plain() {
		j.Gap = w.taken(w.half.Joint.Gap)
	}
	return j.Gap.Length
}

// meetPump ends the line at the pump inlet in.
func (w *walk) meetPump(line []Piece, in *End, seal string) Gap {
	gap := w.join("pump", seal, in.Half)
	// The last piece stops short of the inlet's face by what the seal leaves open.
	missed := w.finish(line, target{
		at:   in.At.Sub(in.Dir.Scale(float64(gap))),
		held: Vec{1, 1, 1},
		dir:  in.Dir,
	})
	w.junctions[len(w.junctions)-1].Down = *in
	return missed
}

// finish makes the line's pieces fit, joins them up and returns how far it
// still misses its target.
func (w *walk) finish(line []Piece, t target) Gap {
	w.fit(line, t)
	if w.hose != nil && w.hose == &line[len(line)-1] {
		w.reach(w.hose, t)
	}
	end := w.begin
	joints := w.junctions[w.joined:]
	for i := range line {
		joints[i].Up, joints[i].Down = *end, line[i].In
		end = &line[i].Out
	}
	if len(joints) > len(line) {
		joints[len(line)].Up = *end
	}
	return t.gap(end)
}

// fit gives the straights to be made to fit their lengths. They were placed
// with none, so that everything after one only has to be moved along it.
func (w *walk) fit(line []Piece, t target) {
	if len(w.fits) == 0 {
		return
	}
	dirs := make([]Vec, len(w.fits))
	for i, p := range w.fits {
		dirs[i] = t.only(p.In.Dir)
	}
	lengths := fits(dirs, t.miss(w.at))
	var moved Vec
	k := 0
	for i := range line {
		p := &line[i]
		p.move(moved)
		if k == len(w.fits) || p != w.fits[k] {
			continue
		}
		more := p.In.Dir.Scale(lengths[k])
		s := &p.Path[0]
		p.Cut = q.Length(lengths[k])
		p.Length += p.Cut
		s.Length += p.Cut
		s.To = s.To.Add(more)
		p.Out.At = s.To
		p.Label = label(p, "")
		moved = moved.Add(more)
		k++
	}
	w.at = w.at.Add(moved)
}

// move shifts a placed piece by v.
func (p *Piece) move(v Vec) {
	if v == (Vec{}) {
		return
	}
	p.In.At, p.Out.At = p.In.At.Add(v), p.Out.At.Add(v)
	for _, port := range p.Ports() {
		if port.End != nil {
			port.At = port.At.Add(v)
		}
	}
	for i := range p.Path {
		p.Path[i].From, p.Path[i].To = p.Path[i].From.Add(v), p.Path[i].To.Add(v)
	}
}

// reach draws the hose p straight to the target, or as far towards it as it
// is long. In coordinates where the target is free it runs on in its own
// plan bearing.
func (w *walk) reach(p *Piece, t target) {
	chord := t.miss(p.In.At)
	if w.hoseFree {
		p.Length = max(p.Length, q.Length(chord.Len()))
		p.Label = label(p, "")
	} else if spare := float64(p.Length*p.Length) - chord.Dot(chord); spare > 0 {
		free := Vec{X: p.In.Dir.X * (1 - t.held.X), Y: p.In.Dir.Y * (1 - t.held.Y)}
		chord = chord.Add(free.Unit().Scale(math.Sqrt(spare)))
	}
	if far := chord.Len(); far > float64(p.Length) {
		chord = chord.Scale(float64(p.Length) / far)
	}
	s := &p.Path[0]
	s.To, s.Length = s.From.Add(chord), p.Length
	if chord != (Vec{}) {
		s.Dir = chord.Unit()
	}
	p.Out.At, p.Out.Dir = s.To, s.Dir
	if t.dir != (Vec{}) {
		p.Out.Dir = t.dir // a hose turns to the way its target faces
	}
}
