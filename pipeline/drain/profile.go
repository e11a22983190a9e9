package drain

import (
	"math"
	"slices"
)

// hold is the least rise, in metres, that counts as one: a tenth of a
// millimetre, less than can be laid or measured, and about a film of water.
const hold = 1e-4

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
