package cut

// search looks for a packing into a given number of bins, one bin after the
// other, each filled in every way that may lead to one.
//
// What it passes over is never all that there is: where an item that is left
// out could go in as well, or in the place of a smaller one or of two, the
// packing with it is as good, since what it replaces goes where it would have
// gone. Of new lengths, which are alike, the first is the one that holds the
// largest item (Martello and Toth, Knapsack Problems, 1990, 8.5 and 8.6).
type search struct {
	*problem
	bins []bin
	used []bool          // by item
	dead map[string]bool // what was left for which bin, in vain
}

// room is how much more there is to saw from than is needed.
func (s *search) room() int {
	slack := 0
	for _, b := range s.bins {
		slack += b.room
	}
	for _, it := range s.items {
		slack -= it.size
	}
	return slack
}

// fill packs what is left into the bins from b on, which may waste no more
// than slack. It is false, too, where there are no steps left.
func (s *search) fill(b, slack int) bool {
	first := 0
	for first < len(s.items) && s.used[first] {
		first++
	}
	if first == len(s.items) {
		return true
	}
	if b == len(s.bins) || !s.may(s.bins[b:]) {
		return false
	}
	key := s.key(b)
	if s.dead[key] {
		return false
	}
	found := false
	if s.bins[b].rack >= 0 {
		found = s.more(b, first, slack)
	} else {
		s.put(b, first)
		if found = s.more(b, first+1, slack); !found {
			s.take(b)
		}
	}
	if !found && s.steps > 0 {
		s.dead[key] = true
	}
	return found
}

// more puts items from the one at from on into bin b, then goes on to the next bin.
func (s *search) more(b, from, slack int) bool {
	if s.steps <= 0 {
		return false
	}
	s.steps -= 1 + len(s.items)/64 // each looks at all of them
	for i := from; i < len(s.items); i++ {
		if s.used[i] || s.items[i].size > s.bins[b].room {
			continue
		}
		if i > from && !s.used[i-1] && s.items[i-1].size == s.items[i].size {
			continue // its twin was tried in its place
		}
		s.put(b, i)
		if s.more(b, i+1, slack) {
			return true
		}
		s.take(b)
	}
	left := s.bins[b].room
	return left <= slack && !s.improved(b) && s.fill(b+1, slack-left)
}

// improved reports whether bin b would be as good or better with an item in
// it that is left out.
func (s *search) improved(b int) bool {
	in, left := s.bins[b].items, s.bins[b].room
	last := -1
	for x := range s.items {
		size := s.items[x].size
		if s.used[x] || size == last {
			continue
		}
		last = size
		if size <= left {
			return true
		}
		for j, y := range in {
			a := s.items[y].size
			if a < size && size <= left+a {
				return true
			}
			for _, z := range in[:j] {
				if pair := a + s.items[z].size; pair <= size && size <= left+pair {
					return true
				}
			}
		}
	}
	return false
}

func (s *search) put(b, i int) {
	s.used[i] = true
	s.bins[b].put(i, s.items[i].size)
}

func (s *search) take(b int) {
	at := &s.bins[b]
	i := at.items[len(at.items)-1]
	s.used[i] = false
	at.items = at.items[:len(at.items)-1]
	at.room += s.items[i].size
}

// may reports whether what is left can still go into bins, as far as a bound tells.
func (s *search) may(bins []bin) bool {
	left := make([]int, 0, len(s.items))
	for i, it := range s.items {
		if !s.used[i] {
			left = append(left, it.size)
		}
	}
	return may(left, bins)
}

// key tells what is left for the bins from b on.
func (s *search) key(b int) string {
	key := make([]byte, 2+(len(s.used)+7)/8)
	key[0], key[1] = byte(b), byte(b>>8)
	for i, used := range s.used {
		if used {
			key[2+i/8] |= 1 << (i % 8)
		}
	}
	return string(key)
}
