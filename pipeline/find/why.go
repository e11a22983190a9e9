package find

import (
	"math"
	"slices"
	"strings"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// can reports whether there is a run at a fall.
func (f *finder) can(qu Question, fall float64) bool {
	if over, ok := qu.over(); ok && f.can(over, fall) {
		return true
	}
	for _, tube := range qu.Sizes {
		// Unions take more room than welds, so the first style tells of both.
		for _, j := range qu.jobs(tube, qu.Styles[0], fall) {
			if !f.halted && len(f.search(j, true)) > 0 {
				return true
			}
		}
	}
	return false
}

// why says why no run drains, and what would make one.
func (f *finder) why(fall float64) (why string, ways []string) {
	fall = min(fall, math.Tan(float64(f.Spring)))
	if why := f.barred(); why != "" {
		return why, nil
	}
	if f.Fall < f.Least && f.can(f.Question, fall) {
		return "No run drains: “Laid to fall” is " + q.Text(f.Fall) + ", and a line that must drain is to fall " + q.Text(f.Least) + " at least.", nil
	}
	if fall < float64(f.Least)*(1-1e-6) && f.can(f.Question, fall) {
		return "No run drains: a joint may be sprung by " + q.Text(f.Spring) + ", which lays level tube to " + q.Text(q.Slope(fall)) + " and not to " + q.Text(f.Least) +
			". Allow more at the joint before the pump, or less fall.", nil
	}
	open := f.Question
	open.Boxes = nil
	switch {
	case f.can(open, fall):
		return f.blocking(fall), f.moves(fall)
	case fall > 0 && f.can(open, 0):
		why = "There is not the height for it: " + f.begins() + " is " + q.Text(q.Length(math.Abs(f.From.At.Z-f.To.At.Z))) + f.above() + f.ends() +
			", and that must hold the bends and a fall of " + q.Text(q.Slope(fall)) + " all the way."
		if fall > 0 && len(f.Boxes) > 0 && !f.can(f.Question, 0) {
			why += " Level, " + lower(f.blocking(0))
		}
		return why, f.moves(fall)
	}
	return f.tight(open), f.moves(fall)
}

// barred names what no search can get over.
func (f *finder) barred() string {
	if f.gravity && f.rises() {
		return "The outflow is " + q.Text(q.Length(f.To.At.Z-f.From.At.Z)) + " over the end under the tank, and nothing runs up there by itself. Raise the tank, or lower the outflow."
	}
	if f.rises() && f.sinks() {
		return "The pump's inlet is " + q.Text(q.Length(f.To.At.Z-f.From.At.Z)) + " over the end under the tank, to which the line comes down: what is between stays full. Raise the tank, or lower the pump."
	}
	aligned := false
	for _, tube := range f.Sizes {
		aligned = aligned || len(f.jobs(tube, f.Styles[0], 0)[0].scene.starts) > 0
	}
	if !aligned {
		return upper(f.begins()) + " points " + q.Text(f.From.Dir.Angle(f.To.Dir)) + " off the way into " + f.far() + ", which bends of 90° and 45° do not make up. Turn the bend before it, or " + f.far() + "."
	}
	for _, b := range f.Boxes {
		if b.away(f.From.At) < float64(f.From.Half.Tube.OD)/2 {
			return upper(b.Name) + " is where the run begins: its tube would touch it. Move one of the two."
		}
		if b.away(f.To.At) < float64(f.Sizes[0].OD)/2 {
			return upper(b.Name) + " is where " + f.ends() + " is: a tube to it would touch it. Move one of the two."
		}
	}
	return ""
}

// noWay begins what blocking says.
const noWay = "No way through"

// blocking names the boxes that close every way: the ones of which each alone,
// taken away, opens one.
func (f *finder) blocking(fall float64) string {
	var names []string
	for i, b := range f.Boxes {
		if b.Name == theTank {
			continue
		}
		less := f.Question
		less.Boxes = slices.Delete(slices.Clone(f.Boxes), i, i+1)
		if f.can(less, fall) {
			names = append(names, b.Name)
		}
	}
	switch len(names) {
	case 0:
		for _, b := range f.Boxes {
			if b.Name != theTank {
				names = append(names, b.Name)
			}
		}
		return noWay + ": " + list(names, "and") + " together are in the way, and taking away one of them is not enough."
	case 1:
		return noWay + ": " + names[0] + " is in the way."
	}
	return noWay + ": " + list(names, "and") + " are in the way; without any one of them there is one."
}

// tight says which length is too short.
func (f *finder) tight(open Question) string {
	none := open
	none.Straight = new(q.Length(0))
	j := f.jobs(f.Sizes[0], f.Styles[0], 0)[0]
	least := q.Length(j.scene.corner())
	if f.can(none, 0) {
		return "There is no room for " + q.Text(q.Length(j.scene.least)) + " of straight tube between the bends: two bends take " + q.Text(least) +
			" with it from corner to corner. Shorter straights would go in."
	}
	by := j.scene.goal
	if len(j.scene.starts) > 0 {
		by = by.Sub(j.scene.starts[0].at)
	}
	return "The two ends are too near to each other for bends of this size: they are " + q.Text(q.Length(math.Abs(by.X))) + " apart one way, " +
		q.Text(q.Length(math.Abs(by.Y))) + " the other and " + q.Text(q.Length(math.Abs(by.Z))) + " in height, and two bends take " + q.Text(least) + " from corner to corner."
}

// The steps by which a height or a place is tried, and how fine it is told.
const (
	firstStep = 0.02
	farthest  = 3.0
	fine      = 0.001
)

// least returns the smallest of growing amounts with which a run goes
// through, as exact as asked, up to most; what lies between two steps that do
// not is not looked at.
func (f *finder) least(most, exact float64, try func(by float64) bool) (float64, bool) {
	low, high := 0.0, min(firstStep, most)
	for !try(high) {
		if high >= most || f.halted {
			return 0, false
		}
		low, high = high, min(2*high, most)
	}
	for high-low > exact && !f.halted {
		if mid := (low + high) / 2; try(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return math.Ceil(high*1000) / 1000, true
}

// moves says what would let a run drain: the tank higher, or the pump elsewhere.
func (f *finder) moves(fall float64) (ways []string) {
	if f.Line == FromPump {
		// The tank is not in it.
	} else if up, ok := f.least(farthest, fine, func(by float64) bool { return f.can(f.raised(by), fall) }); ok {
		f.answer.Raise = q.Length(up)
		ways = append(ways, "Raise the tank by "+q.Text(q.Length(up))+": then one drains.")
	}
	radius := float64(f.From.Half.Tube.OD) / 2
	if !f.toOutflow() {
		radius = float64(f.To.Half.Tube.OD) / 2
	}
	away := route.Vec{X: f.To.At.X, Y: f.To.At.Y}.Unit()
	aside := route.Vec{Z: 1}.Cross(away)
	best, words := farthest, ""
	for _, m := range []struct {
		by    route.Vec
		most  float64
		words string
	}{
		{route.Vec{Z: -1}, f.To.At.Z - radius, "lower"},
		{away.Scale(-1), math.Hypot(f.To.At.X, f.To.At.Y) - 0.1, "towards the tank"},
		{away, farthest, "away from the tank"},
		{aside, farthest, "to the left, seen from the tank"},
		{aside.Scale(-1), farthest, "to the right, seen from the tank"},
	} {
		if m.most <= fine {
			continue
		}
		// Farther than the best so far is not of interest.
		if by, ok := f.least(min(m.most, best), 10*fine, func(by float64) bool { return f.can(f.moved(m.by.Scale(by)), fall) }); ok && (by < best || words == "") {
			best, words = by, m.words
		}
	}
	if words != "" {
		or := "Move " + f.far() + " "
		if len(ways) > 0 {
			or = "Or move " + f.far() + " "
		}
		ways = append(ways, or+q.Text(q.Length(best))+" "+words+": then one drains.")
	}
	return ways
}

// raised is the question with the tank, and what hangs on it, higher.
func (qu Question) raised(by float64) Question {
	qu.height += q.Length(by)
	qu.design.Stand.Height = length(qu.height)
	qu.Boxes = slices.Clone(qu.Boxes)
	for i := range qu.Boxes {
		if b := &qu.Boxes[i]; b.Name == theTank {
			b.Min.Z += by
			b.Max.Z += by
		}
	}
	qu.place()
	return qu
}

// moved is the question with the pump, or the outflow that it leads to, elsewhere.
func (qu Question) moved(by route.Vec) Question {
	if qu.toOutflow() {
		qu.To.At = qu.To.At.Add(by)
		to := &qu.design.Delivery
		to.Away, to.Aside, to.Height = length(q.Length(qu.To.At.X)), length(q.Length(qu.To.At.Y)), length(q.Length(qu.To.At.Z))
		return qu
	}
	p := &qu.design.Pump
	p.Away = length(p.Away.Value() + q.Length(by.X))
	p.Aside = length(p.Aside.Value() + q.Length(by.Y))
	p.Height = length(p.Height.Value() + q.Length(by.Z))
	qu.place()
	return qu
}

// begins and ends are the two ends of the run, in words.
func (qu *Question) begins() string {
	if qu.Line == FromPump {
		return "the pump's outlet"
	}
	return "the end under the tank"
}

func (qu *Question) ends() string {
	if qu.toOutflow() {
		return "the outflow"
	}
	return "the pump's inlet"
}

func (qu *Question) above() string {
	if qu.To.At.Z > qu.From.At.Z {
		return " under "
	}
	return " over "
}

func list(names []string, last string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	n := len(names) - 1
	return strings.Join(names[:n], ", ") + " " + last + " " + names[n]
}

func upper(s string) string { return strings.ToUpper(s[:min(1, len(s))]) + s[min(1, len(s)):] }
func lower(s string) string { return strings.ToLower(s[:min(1, len(s))]) + s[min(1, len(s)):] }
