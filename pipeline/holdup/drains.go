package holdup

import (
	"math"
	"slices"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// way is a place where a line runs out.
type way struct {
	cut int // that it sits at; -1 before the first, len(cuts) after the last
	b   *branch
}

// ways returns the ways out of l: its two ends, and the drain valves between.
func (l *line) ways() []way {
	out := []way{{cut: -1}}
	for i := range l.cuts {
		for _, b := range l.cuts[i].branch {
			if b.drains() {
				out = append(out, way{i, b})
			}
		}
	}
	return append(out, way{cut: len(l.cuts)})
}

// crest returns the cut with the highest invert between two ways: what lies
// before it runs out of the first, what lies after it out of the second. Over
// a non-return valve nothing runs back, so that it is the crest. A line that
// falls from an open end, or rises to one, has its crest there.
func (l *line) crest(a, b way) int {
	best, high := a.cut, math.Inf(-1)
	for i := max(0, a.cut); i <= min(b.cut, len(l.cuts)-1); i++ {
		c := &l.cuts[i]
		if c.oneWay {
			return i
		}
		if c.Invert > high+hold {
			if i > max(0, a.cut) {
				best = i
			}
			high = c.Invert
		}
	}
	if best == len(l.cuts)-1 {
		return b.cut
	}
	return best
}

// drains lists the ways out of l and what runs out at each from a full line,
// air let in at the high points.
func (r *Result) drains(l *line) {
	if len(l.cuts) == 0 {
		return
	}
	open := l.settle(true)
	ways := l.ways()
	at := -1
	for i, w := range ways {
		next := len(l.cuts)
		if i+1 < len(ways) {
			next = l.crest(w, ways[i+1])
		}
		d := Drain{Volume: l.runsOut(at, next, open)}
		switch {
		case w.b != nil:
			d.Valve, d.Ref, d.Name, d.Height = true, w.b.piece.Ref, "the drain valve of "+named(w.b.piece), q.Length(w.b.mouth())
		case w.cut < 0:
			d.Ref, d.Height = l.from, q.Length(l.cuts[0].Invert)
		default:
			d.Ref, d.Height = l.to, q.Length(l.cuts[len(l.cuts)-1].Invert)
		}
		r.drain(d)
		at = next
	}
}

// drain adds d to the list, to what runs out at the same end of another line.
func (r *Result) drain(d Drain) {
	switch d.Ref {
	case "pump":
		d.Name = "the pump's drain plug, or the joint at its inlet"
		if r.shut {
			d.Name = "the joints at the pump's inlet and outlet"
		}
	case "outflow":
		d.Name = "the outflow"
	case "tank":
		d.Name = "the tank's outlet, back into the tank"
	}
	for i := range r.Drains {
		if !d.Valve && r.Drains[i].Ref == d.Ref {
			r.Drains[i].Volume += d.Volume
			r.Drains[i].Height = min(r.Drains[i].Height, d.Height)
			return
		}
	}
	if d.Volume > 0 || d.Valve {
		r.Drains = append(r.Drains, d)
	}
}

// runsOut returns what the line and its branches hold from cut from to cut to,
// less what stays there.
func (l *line) runsOut(from, to int, open settled) q.Volume {
	sum := 0.0
	full := math.Inf(1)
	l.between(from, to, func(_ int, s *route.Segment, a, b float64) { sum += volume(s, a, b, full) })
	for _, p := range l.wetStretches(open) {
		first, last := l.span(p)
		l.between(max(from, first), min(to, last), func(_ int, s *route.Segment, a, b float64) { sum -= volume(s, a, b, p.level) })
	}
	for i := max(0, from); i < min(to, len(l.cuts)); i++ {
		for _, b := range l.cuts[i].branch {
			sum += b.holds(full) - l.branchHolds(b, i, open)
		}
	}
	return q.Volume(max(0, sum))
}

// highestFirst puts the ways out in the order they are opened: from the top
// down, so that air follows the liquid.
func (r *Result) highestFirst() {
	slices.SortStableFunc(r.Drains, func(a, b Drain) int {
		switch {
		case a.Height > b.Height+hold:
			return -1
		case b.Height > a.Height+hold:
			return 1
		}
		return 0
	})
}
