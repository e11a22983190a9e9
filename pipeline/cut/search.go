package cut

import "slices"

// item is a piece with the saw cut after it, micrometres.
type item struct{ piece, size int }

// bin is a length to saw from: what is still free of it, and what is in it.
type bin struct {
	rack  int // -1 for a new length
	room  int
	items []int // places in problem.items
}

// problem is a packing to be solved.
type problem struct {
	items []item // the largest first
	rack  []bin  // the smallest first
	whole int    // room of a new length
	steps int    // left to the search
	over  []int  // pieces that fit neither a new length nor what is free of the rack
}

// solve returns the fullest packing that it found, and the least number of new
// lengths that any packing takes.
func (p *problem) solve() (bins []bin, atLeast int) {
	bins = p.firstFit()
	if len(p.over) > 0 { // they are given up, and are no longer in the way of the others
		p.items = slices.DeleteFunc(p.items, func(it item) bool { return slices.Contains(p.over, it.piece) })
		bins = p.firstFit()
	}
	most := len(bins) - len(p.rack)
	atLeast = min(most, p.bound())
	for ; atLeast < most; atLeast++ {
		s := search{problem: p, bins: p.empty(atLeast), used: make([]bool, len(p.items)), dead: map[string]bool{}}
		if s.fill(0, s.room()) {
			return s.bins, atLeast
		}
		if p.steps <= 0 {
			break // of this number nothing is known
		}
	}
	return bins, atLeast
}

// firstFit puts the largest first, each into the first bin that still has it:
// the offcuts, the shortest first, then new lengths.
func (p *problem) firstFit() []bin {
	bins, open := p.empty(0), 0
	least := 0
	if n := len(p.items); n > 0 {
		least = p.items[n-1].size
	}
next:
	for i, it := range p.items {
		for open < len(bins) && bins[open].room < least {
			open++ // nothing goes in any more
		}
		for b := open; b < len(bins); b++ {
			if it.size <= bins[b].room {
				bins[b].put(i, it.size)
				continue next
			}
		}
		if it.size > p.whole {
			p.over = append(p.over, it.piece)
			continue
		}
		bins = append(bins, bin{rack: -1, room: p.whole})
		bins[len(bins)-1].put(i, it.size)
	}
	return bins
}

// empty returns the rack's bins and those of n new lengths.
func (p *problem) empty(n int) []bin {
	bins := slices.Clone(p.rack)
	for range n {
		bins = append(bins, bin{rack: -1, room: p.whole})
	}
	return bins
}

func (b *bin) put(i, size int) {
	b.items = append(b.items, i)
	b.room -= size
}

// bound returns how many new lengths are needed at least.
func (p *problem) bound() int {
	var sizes []int
	need := 0
	for _, it := range p.items {
		sizes = append(sizes, it.size)
		need += it.size
	}
	for _, b := range p.rack {
		need -= b.room
	}
	n := 0
	if need > 0 && p.whole > 0 {
		n = (need + p.whole - 1) / p.whole // together they take as many, however they lie
	}
	for !may(sizes, p.empty(n)) {
		n++
	}
	return n
}
