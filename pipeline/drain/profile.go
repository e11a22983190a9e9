package drain

import (
	"math"
	"slices"

	"drawoff/pipeline/design"
	"drawoff/pipeline/route"
)

// hold is the least rise, in metres, that counts as one: a tenth of a
// millimetre, less than can be laid or measured, and about a film of water.
const hold = 1e-4

// node is a cross-section of a line's bore.
type node struct {
	at            route.Vec
	dir           route.Vec // as drawn
	invert, crown float64   // height of the bore's lowest and highest point there
	piece         int
}

// section returns the cross-section of s a part t of the way along it.
func section(s *route.Segment, t float64, piece int) node {
	at, dir := s.Point(t)
	radius := (float64(s.BoreFrom) + t*float64(s.BoreTo-s.BoreFrom)) / 2
	reach := radius * levelness(dir)
	return node{at: at, dir: dir, invert: at.Z - reach, crown: at.Z + reach, piece: piece}
}

// levelness is how far across a tube's section lies upright: 1 for a level
// tube, 0 for an upright one.
func levelness(dir route.Vec) float64 { return math.Hypot(dir.X, dir.Y) }

// profile cuts the bores of pieces at the ends of every segment and where an
// arc runs level. Between two cuts invert and crown rise or fall all the way.
func profile(pieces []route.Piece) []node {
	most := 0
	for i := range pieces {
		most += 3 * len(pieces[i].Path)
	}
	nodes := make([]node, 0, most)
	for i := range pieces {
		p := &pieces[i]
		start := len(nodes)
		for k := range p.Path {
			s := &p.Path[k]
			from, to := 0.0, 1.0
			if (p.Kind == design.Tee || p.Kind == design.Seat) && len(p.Path) == 2 && p.Path[0].Dir.Dot(p.Path[1].Dir) < 0.5 {
				// The flow turns a corner in the open middle of the tee or seat valve, where
				// neither bore has a floor or a roof of its own.
				corner := min(1, float64(s.BoreFrom/2)/max(1e-9, float64(s.Length)))
				if k == 0 {
					to -= corner
				} else {
					from = corner
				}
			}
			nodes = append(nodes, section(s, from, i))
			if t, ok := s.Level(); ok {
				nodes = append(nodes, section(s, t, i))
			}
			nodes = append(nodes, section(s, to, i))
		}
		if start > 0 && start < len(nodes) && nodes[start-1].dir.Dot(nodes[start].dir) < 1-1e-9 {
			// Where a joint is sprung or a hose bends away, the two bores share
			// the lower floor and the higher roof.
			a, b := &nodes[start-1], &nodes[start]
			a.invert = min(a.invert, b.invert)
			a.crown = max(a.crown, b.crown)
			b.invert, b.crown = a.invert, a.crown
		}
	}
	return nodes
}

// pocket is a stretch of nodes lower than what lies on both sides of it.
type pocket struct {
	from, to int     // first and last node
	depth    float64 // of what stays in it: up to the lower of the highest points on either side
}

// pockets returns the stretches of z, heights along a line, from which z rises
// by more than hold on either side before it comes lower still. The ends of
// the line are open: what is low there is no pocket. Counted from the other
// end the answer is the same.
func pockets(z []float64) []pocket {
	const unknown, falling, rising = 0, -1, 1
	var found []pocket
	way := unknown
	low, high := math.Inf(1), math.Inf(-1) // since the last turn
	at := 0                                // of low
	for i, h := range z {
		if h < low {
			low, at = h, i
		}
		high = max(high, h)
		switch {
		case way != falling && h < high-hold:
			way, low, at = falling, h, i
		case way != rising && h > low+hold:
			if way == falling {
				found = append(found, spread(z, at))
			}
			way, high = rising, h
		}
	}
	return found
}

// spread returns the pocket around the low at: every node beside it that is
// no higher to speak of.
func spread(z []float64, at int) pocket {
	p := pocket{from: at, to: at, depth: min(slices.Max(z[:at+1]), slices.Max(z[at:])) - z[at]}
	for p.from > 0 && z[p.from-1] <= z[at]+hold {
		p.from--
	}
	for p.to+1 < len(z) && z[p.to+1] <= z[at]+hold {
		p.to++
	}
	return p
}
