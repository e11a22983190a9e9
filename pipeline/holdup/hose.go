package holdup

import (
	"math"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// hoseSteps is how many straights stand for a hanging hose.
const hoseSteps = 48

// hang returns the slack hose s, drawn taut, as it hangs between its ends: a
// catenary in their upright plane, which has as much length as the hose and no
// stiffness, and lies on the floor where it would hang below it. A stiff hose
// sags less and holds less.
func hang(s *route.Segment, od float64) []route.Segment {
	chord := s.To.Sub(s.From)
	span, rise := math.Hypot(chord.X, chord.Y), chord.Z
	length := float64(s.Length)
	ahead := route.Vec{X: chord.X, Y: chord.Y}.Unit()
	if ahead == (route.Vec{}) { // it hangs straight under itself: any way will do
		ahead = route.Vec{X: 1}
	}
	// A loop narrower than its own tube cannot be made.
	span = max(span, min(od, 0.2*length))
	z := catenary(span, rise, length)
	at := func(i int) route.Vec {
		x, h := z(length * float64(i) / hoseSteps)
		return s.From.Add(ahead.Scale(x * math.Hypot(chord.X, chord.Y) / span)).Add(route.Vec{Z: h})
	}
	out := make([]route.Segment, 0, hoseSteps)
	from := s.From
	for i := 1; i <= hoseSteps; i++ {
		to := at(i)
		if i == hoseSteps {
			to = s.To
		} else {
			to.Z = max(to.Z, min(od/2, s.From.Z, s.To.Z)) // the floor, unless it starts or ends lower
		}
		dir := to.Sub(from).Unit()
		if dir == (route.Vec{}) {
			dir = ahead
		}
		out = append(out, route.Segment{From: from, To: to, Dir: dir, Length: q.Length(length / hoseSteps), BoreFrom: s.BoreFrom, BoreTo: s.BoreTo})
		from = to
	}
	return out
}

// catenary returns the curve of a chain of that length between two points span
// apart and rise higher one than the other, by how far along the chain: its
// distance and height from the first. With u = span/2a the parameter a solves
// sinh(u)/u = √(length² - rise²)/span.
func catenary(span, rise, length float64) func(s float64) (x, z float64) {
	k := math.Sqrt(max(0, length*length-rise*rise)) / span
	low, high := 1e-9, 1.0
	for math.Sinh(high)/high < k && high < 600 {
		high *= 2
	}
	for range 200 {
		u := (low + high) / 2
		if math.Sinh(u)/u < k {
			low = u
		} else {
			high = u
		}
	}
	a := span / (low + high)
	// The lowest point lies at x0: length of chain from it to x is a sinh((x-x0)/a).
	x0 := span/2 - a*math.Atanh(max(-1+1e-15, min(1-1e-15, rise/length)))
	start := a * math.Sinh(-x0/a)
	return func(s float64) (x, z float64) {
		x = x0 + a*math.Asinh((s+start)/a)
		return x, a * (math.Cosh((x-x0)/a) - math.Cosh(x0/a))
	}
}
