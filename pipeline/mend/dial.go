package mend

import (
	"math"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// dial is a change that there is more or less of: a number that can be set in
// steps, or one of a list. More of it mends more, so the least is sought.
type dial struct {
	most  int                     // steps
	guess int                     // how many may do; 0: not known
	at    func(step int) proposal // from 1 to most
}

// dialled makes a proposal of a dial. One without steps is none.
func dialled(most, guess int, at func(step int) proposal) []proposal {
	if most < 1 {
		return nil
	}
	return []proposal{{dial: &dial{most: most, guess: min(max(guess, 0), most), at: at}}}
}

// far is the change itself, of a dial the most of it.
func (c proposal) far() proposal {
	if c.dial == nil {
		return c
	}
	return c.dial.at(c.dial.most)
}

// least returns the least of a change that is a way out, each tried.
func (m *mender) least(c proposal) (Way, bool) {
	if c.dial == nil {
		return m.tried(c)
	}
	var found Way
	step := fewest(c.dial.most, c.dial.guess, func(step int) bool {
		w, ok := m.tried(c.dial.at(step))
		if ok {
			found = w
		}
		return ok
	})
	return found, step > 0
}

// fewest returns the least of 1 to most that does, as far as more does more,
// beginning at a guess where there is one; 0 when none is found. The last that
// was asked and did is the one returned.
func fewest(most, guess int, does func(int) bool) int {
	short, found := 0, 0 // does not, does
	if guess > 0 {
		if does(guess) {
			found = guess
			if guess == 1 || !does(guess-1) {
				return guess
			}
			found = guess - 1
		} else {
			short = guess
		}
	}
	for stride := 1; found == 0; stride *= 4 {
		next := min(short+stride, most)
		if next == short {
			return 0
		}
		if does(next) {
			found = next
		} else {
			short = next
		}
	}
	for found-short > 1 {
		if mid := (short + found) / 2; does(mid) {
			found = mid
		} else {
			short = mid
		}
	}
	return found
}

// scale is how a number in a field is moved: from what it is now, in steps on
// a grid that starts at 0, in SI.
type scale struct {
	path   string
	now    float64
	step   float64              // negative: downwards
	most   int                  // steps
	target float64              // where it may do; 0: not known
	write  func(float64) string // in words that can be typed
	by     func(float64) string // a difference, where it is told otherwise
	kind   q.Kind               // a length where nothing is said
}

// value returns the number some steps away.
func (s scale) value(steps int) float64 {
	grid := math.Abs(s.step)
	if s.step < 0 {
		return (math.Ceil(s.now/grid-1e-6) - float64(steps)) * grid
	}
	return (math.Floor(s.now/grid+1e-6) + float64(steps)) * grid
}

// guess returns how many steps it takes to the target, 0 where that lies behind.
func (s scale) guess() int {
	way := (s.target - s.value(0)) / s.step
	if s.target == 0 || !(way > 0) {
		return 0
	}
	return int(math.Ceil(math.Min(way, float64(s.most)) - 1e-6))
}

// moved proposes to move the number; say makes the sentence of what it is
// moved to, and by how much.
func (s scale) moved(say func(to, by string) string, also ...design.Edit) []proposal {
	return dialled(s.most, s.guess(), func(steps int) proposal {
		x := s.value(steps)
		to, by := s.write(x), s.write
		if s.by != nil {
			by = s.by
		}
		return change(say(s.told(to), s.told(by(math.Abs(x-s.now)))), append([]design.Edit{set(s.path, to)}, also...)...)
	})
}

// told returns what is typed in the units shown, a length as a tape has it.
func (s scale) told(typed string) string {
	if a, err := q.ParseAmount(s.kind, typed); err == nil && s.kind == q.KindLength && q.InInches() && s.kind.Foreign(typed) {
		return q.Tape(q.Length(a.SI))
	}
	return s.kind.Told(typed)
}

// among proposes to set a field to one of values, the mildest first.
func among(path string, values []string, say func(value string) string) []proposal {
	return dialled(len(values), 0, func(step int) proposal {
		v := values[step-1]
		return change(say(v), set(path, v))
	})
}

// change is a proposal that is what it is.
func change(sentence string, edits ...design.Edit) proposal {
	return proposal{sentence: sentence, edits: edits}
}

// flowing marks proposals as changes of the flow.
func flowing(proposals []proposal) []proposal {
	for i := range proposals {
		if d := proposals[i].dial; d != nil {
			at := d.at
			d.at = func(step int) proposal {
				p := at(step)
				p.flows = true
				return p
			}
		}
		proposals[i].flows = true
	}
	return proposals
}

// length is the scale of a length that is set with a tape: 5 mm, or a quarter
// of an inch where it was typed in inches or feet. Common practice, no source.
// It is written in the unit that it was typed in, feet in inches.
func (m *mender) length(path string, now q.Length, up bool, reach q.Length, target q.Length) scale {
	typed, _ := m.design.Get(path)
	step, by := 5*q.Millimetre, func(x float64) string { return q.Of(q.Length(x)).Text(q.Metric) }
	write := func(x float64) string { return q.Of(q.Length(x)).As(typed) }
	if q.Typed(q.KindLength, typed) == q.Inches {
		step, by = q.Inch/4, func(x float64) string { return q.Of(q.Length(x)).As("1 in") }
		write = by
	}
	s := scale{path: path, now: float64(now), step: float64(step), most: int(reach / step), target: float64(target), write: write, by: by}
	if !up {
		s.step = -s.step
	}
	return s
}
