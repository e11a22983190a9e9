package route

import (
	"math"

	"drawoff/pipeline/design"
)

// Section is a cross-section of a line's bore.
type Section struct {
	At            Vec
	Dir           Vec     // as drawn
	Invert, Crown float64 // height of the bore's lowest and highest point there, metres
	Radius        float64 // of the bore, metres
	Piece         int     // of the pieces it was taken from
	Segment       int     // of that piece's path
	T             float64 // how far along the segment, 0 to 1
}

// SectionAt returns the cross-section of s a part t of the way along it.
func (s *Segment) SectionAt(t float64) Section {
	at, dir := s.Point(t)
	radius := (float64(s.BoreFrom) + t*float64(s.BoreTo-s.BoreFrom)) / 2
	reach := radius * Levelness(dir)
	return Section{At: at, Dir: dir, Invert: at.Z - reach, Crown: at.Z + reach, Radius: radius, T: t}
}

// Levelness returns how level the unit vector dir is: 1 level, 0 upright. Half
// a diameter times it is how far a tube reaches below and above its axis.
func Levelness(dir Vec) float64 { return math.Hypot(dir.X, dir.Y) }

// Profile cuts the bores of pieces at the ends of every segment and where an
// arc runs level. Between two cuts invert and crown rise or fall all the way.
func Profile(pieces []Piece) []Section {
	most := 0
	for i := range pieces {
		most += 3 * len(pieces[i].Path)
	}
	cuts := make([]Section, 0, most)
	for i := range pieces {
		p := &pieces[i]
		corner := (p.Kind == design.Tee || p.Kind == design.Seat) && len(p.Path) == 2 && p.Path[0].Dir.Dot(p.Path[1].Dir) < 0.5
		for k := range p.Path {
			s := &p.Path[k]
			start := len(cuts)
			cut := func(t float64) {
				c := s.SectionAt(t)
				c.Piece, c.Segment = i, k
				cuts = append(cuts, c)
			}
			from, to := 0.0, 1.0
			if corner {
				// The flow turns a corner in the open middle of the tee or seat valve, where
				// neither bore has a floor or a roof of its own.
				open := min(1, float64(s.BoreFrom/2)/max(1e-9, float64(s.Length)))
				if k == 0 {
					to -= open
				} else {
					from = open
				}
			}
			cut(from)
			if t, ok := s.Level(); ok {
				cut(t)
			}
			cut(to)
			if start > 0 && !(corner && k > 0) && cuts[start-1].Dir.Dot(cuts[start].Dir) < 1-1e-9 {
				// Where a joint is sprung or a hose bends, the two bores share
				// the lower floor and the higher roof.
				a, b := &cuts[start-1], &cuts[start]
				a.Invert = min(a.Invert, b.Invert)
				a.Crown = max(a.Crown, b.Crown)
				b.Invert, b.Crown = a.Invert, a.Crown
			}
		}
	}
	return cuts
}

// Sags reports whether p is a hose longer, by more than fits take up, than the
// straight way between its ends.
func (p *Piece) Sags() bool {
	const hold = 1e-4 // metres: less than can be laid or measured
	if p.Kind != design.Hose || len(p.Path) == 0 {
		return false
	}
	s := &p.Path[0]
	return float64(s.Length) > 1.01*s.To.Sub(s.From).Len()+hold
}
