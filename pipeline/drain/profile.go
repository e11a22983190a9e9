package drain

import (
	"math"

	"drawoff/pipeline/design"
	"drawoff/pipeline/route"
)

// hold is the least rise, in metres, that counts as one: a tenth of a
// millimetre, less than can be laid or measured, and about a film of water.
const hold = 1e-4

// node is a cross-section of a line's bore.
type node struct {
	at            route.Vec
	invert, crown float64 // height of the bore's lowest and highest point there
	piece         int
}

// section returns the cross-section of s a part t of the way along it.
func section(s *route.Segment, t float64, piece int) node {
	at, dir := s.Point(t)
	radius := (float64(s.BoreFrom) + t*float64(s.BoreTo-s.BoreFrom)) / 2
	reach := radius * levelness(dir)
	return node{at: at, invert: at.Z - reach, crown: at.Z + reach, piece: piece}
}

// levelness is how far across a tube's section lies upright: 1 for a level
// tube, 0 for an upright one.
func levelness(dir route.Vec) float64 { return math.Hypot(dir.X, dir.Y) }

// profile cuts the bores of pieces at the ends of every segment and where an
// arc runs level. Between two cuts invert and crown rise or fall all the way.
func profile(pieces []route.Piece) []node {
	nodes := make([]node, 0, 8*len(pieces))
	for i := range pieces {
		p := &pieces[i]
		start := len(nodes)
		for k := range p.Path {
			s := &p.Path[k]
			from, to := 0.0, 1.0
			if p.Kind == design.Tee && len(p.Path) == 2 && p.Path[0].Dir.Dot(p.Path[1].Dir) < 0.5 {
				// The flow turns a corner in the open middle of the tee, where
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
		if start > 0 && start < len(nodes) && pieces[i-1].Out.Dir.Dot(p.Path[0].Dir) < 1-1e-9 {
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
	depth    float64 // below the lower of the two highest points beside it
}

// pockets returns the stretches of z, heights along a line, that are lower by
// more than hold than something on either side before anything still lower.
// The ends of the line are open: what stands there is no pocket. The answer
// is the same counted from the other end.
func pockets(z []float64) []pocket {
	if len(z) == 0 {
		return nil
	}
	var found []pocket
	low, high := z[0], z[0] // since the last turn
	at := 0
	var before float64 // the highest point before the low in hand
	falling, rising := false, false
	settle := func() {
		if rising && len(found) > 0 {
			last := &found[len(found)-1]
			last.depth = min(last.depth, high-z[last.from])
		}
	}
	for i, h := range z {
		switch {
		case falling:
			if h < low {
				low, at = h, i
			} else if h > low+hold {
				found = append(found, pocket{from: at, to: at, depth: before - low})
				falling, rising, high = false, true, h
			}
		case rising:
			if h > high {
				high = h
			} else if h < high-hold {
				settle()
				falling, rising, low, at, before = true, false, h, i, high
			}
		default:
			low, high = min(low, h), max(high, h)
			if h < high-hold {
				falling, low, at, before = true, h, i, high
			} else if h > low+hold {
				// The line rises from its very start, which is open.
				rising, high = true, h
			}
		}
	}
	settle()
	for i := range found {
		spread(z, &found[i])
	}
	return found
}

// spread widens p over the nodes beside its lowest that are no higher to speak of.
func spread(z []float64, p *pocket) {
	lowest := z[p.from]
	for p.from > 0 && z[p.from-1] <= lowest+hold {
		p.from--
	}
	for p.to+1 < len(z) && z[p.to+1] <= lowest+hold {
		p.to++
	}
}
