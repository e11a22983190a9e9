package find

import (
	"math"
	"math/rand"
	"strconv"
	"testing"

	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// smallScene is a random scene of a start, a goal and up to three boxes.
func smallScene(seed int64) *scene {
	r := rand.New(rand.NewSource(seed))
	at := func(low, high float64) float64 { return math.Round((low+r.Float64()*(high-low))*100) / 100 }
	s := &scene{
		goal: route.Vec{X: at(0.6, 1.6), Y: at(-0.6, 0.6), Z: at(0.1, 0.4)}, goalDir: ahead,
		takeouts: takeouts{t90: 0.0635, t45: 0.03, worth90: 0.5, worth45: 0.28, least: 0.04, union: 0.05, unions: r.Intn(3) == 0,
			lead: 0.03, tail: 0.02, radius: 0.019, room: 0.01},
		fall: []float64{0, 0.01, 0.02}[r.Intn(3)], steep: 0.026, reach: 100, mostOf: 3 + int(seed%4)/3, offsets: r.Intn(2) == 0,
	}
	s.band = 0.03 * float64(r.Intn(2))
	high := s.goal.Z + []float64{0, 0.02, 0.12, 0.25, 0.5}[r.Intn(5)]
	for _, w := range []way{[]way{down, ahead, left}[r.Intn(3)], back}[:1+r.Intn(2)] {
		s.starts = append(s.starts, start{at: route.Vec{Z: high}, dir: w, id: len(s.starts)})
	}
	for i := range r.Intn(4) {
		b := box{name: strconv.Itoa(i), min: [3]float64{at(0.1, 1.2), at(-0.5, 0.4), at(0, 0.5)}}
		for axis := range 3 {
			b.max[axis] = b.min[axis] + at(0.05, 0.5)
		}
		s.boxes = append(s.boxes, b)
	}
	if s.flat = r.Intn(6) == 0; s.flat {
		s.offsets = false
	}
	return s
}

// exhaust tries every path of up to s.mostOf bends, with no bound and nothing
// remembered, and returns the least bends, length and loss of them.
func exhaust(s *scene) (least [3]float64, found bool) {
	g := s.grid()
	least = [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
	clearAs := func(p, q route.Vec, lo, hi float64) bool {
		for _, box := range s.boxes {
			grow := s.radius + s.room
			in := func(axis int, lo, hi float64) bool {
				return lo < box.max[axis]+grow-same && hi > box.min[axis]-grow+same
			}
			if in(0, min(p.X, q.X), max(p.X, q.X)) && in(1, min(p.Y, q.Y), max(p.Y, q.Y)) && in(2, lo, hi) {
				return false
			}
		}
		return true
	}
	clear := func(p, q route.Vec) bool {
		z := func(v float64) int {
			for i, l := range g.at[2] {
				if math.Abs(l-v) < 2*same {
					return i
				}
			}
			panic("no level")
		}
		a, b := z(p.Z), z(q.Z)
		return clearAs(p, q, min(g.lo[a], g.lo[b]), max(g.hi[a], g.hi[b]))
	}
	// Offsets are checked by walking along them.
	clearSlant := func(points []route.Vec) bool {
		over := max(s.band, g.hi[0]-g.at[2][0])
		for i := 1; i < len(points); i++ {
			for t := 0.0; t <= 1; t += 0.001 {
				p := points[i-1].Add(points[i].Sub(points[i-1]).Scale(t))
				for _, b := range s.boxes {
					e := s.radius + s.room - 2e-6
					if p.X > b.min[0]-e && p.X < b.max[0]+e && p.Y > b.min[1]-e && p.Y < b.max[1]+e && p.Z+over > b.min[2]-e && p.Z-s.band < b.max[2]+e {
						return false
					}
				}
			}
		}
		return true
	}
	var walk func(p route.Vec, came way, first bool, bends int, long, loss, slack float64)
	take := func(bends int, long, loss, slack float64) {
		if slack >= -1e-9 {
			found = true
			least = [3]float64{min(least[0], float64(bends)), min(least[1], long), min(least[2], loss)}
		}
	}
	go1 := func(p route.Vec, w way, first bool, bends int, long, loss, slack float64) {
		a, nb := s.t90, 1
		if first {
			a, nb = s.lead, 0
		}
		for _, c := range g.at[w.axis()] {
			q := p
			switch w.axis() {
			case 0:
				q.X = c
			case 1:
				q.Y = c
			default:
				q.Z = c
			}
			d := q.Sub(p).Dot(w.vec())
			if d < same {
				continue
			}
			// The first leg, which has fallen only so far, counts as it lies.
			if level := first && w != down && p.Z > g.at[2][0]+2*same; !clear(p, q) && !(level && clearAs(p, q, p.Z-s.fall*d, p.Z)) {
				continue
			}
			step := func(b float64, bs int, tight bool) (float64, bool) {
				need := a + b + s.least
				if s.unions {
					need += float64(bs) * s.union
				}
				if d >= need-1e-9 {
					if w == down {
						return slack + d - need, true
					}
					return slack - s.fall*d, true
				}
				if tight && math.Abs(d-a-b) < same {
					if w == down {
						return slack, true
					}
					return slack - s.fall*d, true
				}
				return 0, false
			}
			if q.Sub(s.goal).Len() < same && w == s.goalDir {
				if sl, ok := step(s.tail, nb, !first); ok {
					take(bends, long+d, loss+d, sl)
				}
			}
			if sl, ok := step(s.t90, nb+1, first); ok {
				walk(q, w, false, bends, long+d, loss+d, sl)
			}
		}
		if !s.offsets {
			return
		}
		slant := func(q route.Vec, end bool) {
			b, bs := s.t90, 1
			if end {
				b, bs = s.tail, 0
			}
			if bends+2 > s.mostOf {
				return
			}
			o, ok := s.offset(p, q, w, a, b, nb, bs)
			if !ok || !clearSlant([]route.Vec{o.from, o.first, o.second, o.to}) {
				return
			}
			c := s.offsetCost(cost{length: long, loss: loss, slack: slack}, o, w)
			if end {
				take(bends+2, c.length, c.loss, c.slack)
				return
			}
			walk(q, w, false, bends+2, c.length, c.loss, c.slack)
		}
		if w == s.goalDir {
			slant(s.goal, true)
		}
		if w.axis() != s.goalDir.axis() && w != up && bends+3 <= s.mostOf {
			// A leg that stops where the offset behind it just goes in: the
			// shortest of those that a fine walk finds to do, made exact by halving.
			room := s.goal.Sub(p).Dot(s.goalDir.vec()) - s.need(s.t90, s.t45, 2) - s.need(s.t45, s.tail, 1)
			across := func(d float64) float64 {
				left := s.goal.Sub(p.Add(w.vec().Scale(d)))
				return left.Sub(s.goalDir.vec().Scale(left.Dot(s.goalDir.vec()))).Len()
			}
			fits := func(d float64) bool {
				return across(d) <= room+1e-10 && across(d)*math.Sqrt2 >= s.need(s.t45, s.t45, 2)-1e-10
			}
			lead := a + s.t90
			if !first || !fits(lead) || across(lead) > room {
				lead = s.need(a, s.t90, nb+1)
			}
			d := lead
			for ; d < 4 && !fits(d); d += 0.002 {
			}
			if low := d - 0.002; d > lead && d < 4 {
				for range 50 {
					if mid := (low + d) / 2; fits(mid) {
						d = mid
					} else {
						low = mid
					}
				}
			}
			q := p.Add(w.vec().Scale(d))
			o, ok := s.offset(q, s.goal, s.goalDir, s.t90, s.tail, 1, 0)
			if ok && fits(d) && clearSlant([]route.Vec{p, o.from, o.first, o.second, o.to}) {
				sl := slack - s.fall*d
				if w == down {
					sl = slack + max(0, d-s.need(a, s.t90, nb+1))
				}
				c := s.offsetCost(cost{length: long + d, loss: loss + d + s.worth90, slack: sl}, o, s.goalDir)
				take(bends+3, c.length, c.loss, c.slack)
			}
		}
		if first {
			on := func(a, b float64) bool { return math.Abs(a-b) < same }
			for _, x := range g.at[0] {
				for _, y := range g.at[1] {
					for _, z := range g.at[2] {
						q := route.Vec{X: x, Y: y, Z: z}
						ok := (on(x, p.X) || on(x, s.goal.X) || w.axis() == 0) && (on(y, p.Y) || on(y, s.goal.Y) || w.axis() == 1) && (on(z, p.Z) || on(z, s.goal.Z) || w.axis() == 2)
						if ok {
							slant(q, false)
						}
					}
				}
			}
		}
	}
	walk = func(p route.Vec, came way, first bool, bends int, long, loss, slack float64) {
		if bends == s.mostOf {
			return
		}
		if by := s.goal.Sub(p); s.offsets && came == down && math.Abs(by.Z) < same && s.goalDir == ahead && bends+2 <= s.mostOf {
			// A bend rolled by 45°, a level leg, and a bend of 45° into the goal's line.
			k := route.Vec{X: p.X + math.Abs(by.Y), Y: s.goal.Y, Z: s.goal.Z}
			slant, last := math.Abs(by.Y)*math.Sqrt2, s.goal.X-k.X
			if slant >= s.need(s.t90, s.t45, 2)-1e-9 && last >= s.need(s.t45, s.tail, 1)-1e-9 && clearSlant([]route.Vec{p, k, s.goal}) {
				take(bends+2, long+slant+last, loss+slant+last+s.worth90+s.worth45, slack-s.fall*(slant+last))
			}
		}
		for w := ahead; w <= down; w++ {
			if w.axis() != came.axis() && w != up && !(s.flat && w == down) {
				go1(p, w, false, bends+1, long, loss+s.worth90, slack)
			}
		}
	}
	for _, st := range s.starts {
		p := st.at
		slack := 0.0
		if s.flat {
			slack = p.Z - s.goal.Z
			p.Z = s.goal.Z
		}
		go1(p, st.dir, true, 0, 0, 0, slack)
	}
	return least, found
}

// The best of each criterion is what exhaustive search over the same moves
// finds, in 2,000 random small scenes.
func TestSearchAgainstExhaustive(t *testing.T) {
	t.Parallel()
	none, some := 0, 0
	for seed := range int64(2000) {
		s := smallScene(seed)
		if len(s.starts) == 0 {
			continue
		}
		want, found := exhaust(s)
		paths, complete := s.paths(nil)
		require.True(t, complete)
		require.Equal(t, found, len(paths) > 0, "seed %d", seed)
		if !found {
			none++
			continue
		}
		some++
		got := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
		for _, p := range paths {
			got = [3]float64{min(got[0], float64(p.bends)), min(got[1], p.length), min(got[2], p.loss)}
		}
		for i := range got {
			require.InDelta(t, want[i], got[i], 1e-6, "seed %d criterion %d", seed, i)
		}
	}
	assert.Greater(t, some, 800)
	assert.Greater(t, none, 100)
	t.Log(some, none)
}
