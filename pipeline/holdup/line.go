package holdup

import (
	"math"
	"slices"
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/route"
)

// line is one line from end to end, as the liquid finds it.
type line struct {
	name     string // "the line to the pump"
	from, to string // what it starts and ends at: refs of a Drain
	pieces   []route.Piece
	cuts     []cut
	slack    []int // of the pieces, hoses that hang
}

// cut is a cross-section of the bore, and what stands across it there.
type cut struct {
	route.Section
	floor   float64 // what the liquid must rise over: the invert, or the top of a dam on it
	oneWay  bool    // nothing runs back past here
	branch  []*branch
	segment *route.Segment
}

// Dams, as parts of the bore's radius or metres. Common practice, no source:
// no table gives them, and makers differ.
const (
	seatRing = 1e-3 // how far the ring of a butterfly valve stands into the bore, metres
	weir     = 0.9  // height of a diaphragm valve's dam over the invert, in radii, mounted with its spindle up
)

// lines returns the lines of a layout: to the pump and from it, or the one by gravity.
func (in *Input) lines() []line {
	all := in.Layout.Pieces()
	end := len(in.Layout.ToPump())
	var out []line
	if in.Layout.Gravity {
		out = append(out, line{name: "the line", from: "tank", to: "outflow", pieces: all})
	} else {
		out = append(out,
			line{name: "the line to the pump", from: "tank", to: "pump", pieces: all[:end]},
			line{name: "the delivery", from: "pump", to: "outflow", pieces: all[end:]})
	}
	for i := range out {
		l := &out[i]
		for k := range l.pieces {
			if l.pieces[k].Sags() {
				l.slack = append(l.slack, k)
			}
		}
		l.pieces = Hung(l.pieces)
		l.cut(true)
	}
	return out
}

// upsideDown returns the line as air finds it: mirrored in the floor. What
// stands up from the floor of a bore is left out: it holds no air.
func (l *line) upsideDown() line {
	m := line{name: l.name, from: l.from, to: l.to, pieces: make([]route.Piece, len(l.pieces))}
	flip := func(v *route.Vec) { v.Z = -v.Z }
	for i := range l.pieces {
		p := l.pieces[i]
		p.Path = slices.Clone(p.Path)
		for k := range p.Path {
			s := &p.Path[k]
			flip(&s.From)
			flip(&s.To)
			flip(&s.Dir)
			flip(&s.Toward)
		}
		for _, e := range []*route.End{&p.In, &p.Out} {
			flip(&e.At)
			flip(&e.Dir)
		}
		for _, e := range []**route.End{&p.Third, &p.Fourth} {
			if *e != nil {
				turned := **e
				flip(&turned.At)
				flip(&turned.Dir)
				*e = &turned
			}
		}
		m.pieces[i] = p
	}
	m.cut(false)
	return m
}

// cut makes the line's sections: those of its bores, and one more across the
// middle of every body that dams it.
func (l *line) cut(dams bool) {
	sections := route.Profile(l.pieces)
	l.cuts = make([]cut, 0, len(sections)+len(l.pieces))
	for i, s := range sections {
		p := &l.pieces[s.Piece]
		l.cuts = append(l.cuts, cut{Section: s, floor: s.Invert, segment: &p.Path[s.Segment]})
		last := i+1 == len(sections) || sections[i+1].Piece != s.Piece
		if s.Segment == 0 && s.T < 1 && !last && sections[i+1].Segment == 0 {
			l.dam(p, s, dams)
		}
		// A branch hangs on the bore that runs past it: of a tee that the line
		// leaves by its branch that is the leg which does not point its way.
		before := s.Segment == 0 && (last || sections[i+1].Segment != 0)
		after := s.Segment == 1 && sections[i-1].Segment == 0
		for _, port := range p.Ports() {
			if port.End == nil {
				continue
			}
			ahead := math.Abs(p.Path[0].Dir.Dot(port.Dir)) > 0.5 && len(p.Path) > 1
			if before && !ahead || after && ahead {
				at := &l.cuts[len(l.cuts)-1]
				at.branch = append(at.branch, newBranch(p, port))
			}
		}
	}
}

// dam puts what stands across the middle of piece p after its first section s.
func (l *line) dam(p *route.Piece, s route.Section, dams bool) {
	seg := &p.Path[0]
	c := cut{Section: seg.SectionAt(0.5), segment: seg}
	c.Piece = s.Piece
	c.floor = c.Invert
	across := route.Levelness(c.Dir)
	switch p.Kind {
	case design.Butterfly:
		c.floor += seatRing * across
	case design.Diaphragm:
		c.floor += weir * c.Radius * across
	case design.NonReturn:
		c.oneWay = true
	case design.Cap:
		c.floor = math.Inf(1)
		dams = true
	default:
		return
	}
	if dams || c.oneWay {
		l.cuts = append(l.cuts, c)
	}
}

// Hung returns pieces with every slack hose hanging as it would; pieces
// themselves are not changed.
func Hung(pieces []route.Piece) []route.Piece {
	out := pieces
	for i := range pieces {
		if !pieces[i].Sags() {
			continue
		}
		if &out[0] == &pieces[0] {
			out = slices.Clone(pieces)
		}
		out[i].Path = hang(&pieces[i].Path[0], float64(pieces[i].In.Half.Tube.OD))
	}
	return out
}

// named is how a piece is called in a sentence.
func named(p *route.Piece) string { return "No " + strconv.Itoa(p.Number) + " (" + p.Label + ")" }
