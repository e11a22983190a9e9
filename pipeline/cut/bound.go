package cut

import "slices"

// may reports whether items of sizes, the largest first, can go into bins, as
// far as a bound tells. It never says no where they can.
//
// Bins of unequal room are made equal: each is taken as long as the roomiest,
// with an item already in it that fills the difference. What then needs more
// bins than there are cannot be packed. Letting those items go anywhere can
// only make it easier.
func may(sizes []int, bins []bin) bool {
	if len(sizes) == 0 {
		return true
	}
	least := sizes[len(sizes)-1]
	most, free, n, need := 0, 0, 0, 0
	for _, b := range bins {
		if b.room >= least { // else nothing goes in
			most = max(most, b.room)
			free += b.room
			n++
		}
	}
	for _, s := range sizes {
		need += s
	}
	if need > free || sizes[0] > most {
		return false
	}
	all := slices.Clone(sizes)
	for _, b := range bins {
		if b.room >= least && b.room < most {
			all = append(all, most-b.room)
		}
	}
	if len(all) > len(sizes) {
		slices.SortFunc(all, func(a, b int) int { return b - a })
	}
	return binsFor(all, most) <= n
}

// binsFor returns how many bins of one room items need at least, by the bound
// L2 of Martello and Toth (Knapsack Problems, 1990, 8.3.2): for each size α up
// to half a bin, those over room − α have a bin each, those over half have one
// too, and those from α to half must go into what these leave, or into bins of
// their own. sizes are the largest first, none over room.
func binsFor(sizes []int, room int) int {
	large, inLarge := 0, 0 // over half
	for large < len(sizes) && 2*sizes[large] > room {
		inLarge += sizes[large]
		large++
	}
	best := large
	alone, inAlone := large, inLarge // over room − α; fewer and fewer as α falls
	small := 0                       // from α to half
	for k := large; k < len(sizes); k++ {
		alpha := sizes[k]
		small += alpha
		for alone > 0 && sizes[alone-1] <= room-alpha {
			alone--
			inAlone -= sizes[alone]
		}
		left := (large-alone)*room - (inLarge - inAlone)
		if over := small - left; over > 0 {
			best = max(best, large+(over+room-1)/room)
		}
	}
	return best
}
