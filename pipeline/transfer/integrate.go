package transfer

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// solver integrates dt = A dh / Q from the top down. Its variable is s, with
//
//	h = base + span s²,  dt = A(h) 2 span s / Q(h) ds,
//
// s running from 1 down. By gravity Q goes as the root of what is left over
// the level of rest, base, and the integrand is smooth to the end, where in h
// it has a pole. Where nothing dies the change only puts the steps closer
// together towards the bottom, where a tank narrows.
type solver struct {
	in         *Input
	base, span float64 // m
	allowed    float64 // error, seconds for each unit of s
	clock      float64 // seconds so far
	curve      []Moment
}

// sample is one flow asked for.
type sample struct {
	s, rate float64 // rate: dt/ds, seconds
	level   q.Length
	draw    Draw
}

// How a curve is cut up, and when it is fine enough.
const (
	panels    = 6    // in each stretch, at first
	halvings  = 10   // of a panel, at most
	tolerance = 1e-5 // of the whole time, as the method itself sees its error
)

func (v *solver) at(s float64) sample {
	level := q.Length(v.base + v.span*s*s)
	draw := v.in.draw(level)
	return sample{s, v.in.Vessel.Area(level) * 2 * v.span * s / math.Max(float64(draw.Flow), least), level, draw}
}

// run integrates down to s = last. The tank's own corner, where the shell
// meets the bottom, ends a stretch: no formula goes smoothly over it.
func (v *solver) run(last float64) {
	ends := [3]float64{1, last, last}
	n := 1
	if corner := (float64(v.in.Vessel.BottomDepth()) - v.base) / v.span; corner > 0 && corner < 1 && math.Sqrt(corner) > last {
		ends[1], n = math.Sqrt(corner), 2
	}
	var points [4*panels + 1]sample
	points[0] = v.at(1)
	total := 0.0
	for i := range n {
		step := (ends[i] - ends[i+1]) / (2 * panels)
		for j := 1; j <= 2*panels; j++ {
			points[2*panels*i+j] = v.at(ends[i] - float64(j)*step)
		}
		for j := 2; j <= 2*panels; j += 2 {
			p := points[2*panels*i+j-2:]
			total += simpson(&p[0], &p[1], &p[2])
		}
	}
	v.allowed = tolerance * total / (1 - last)
	v.curve = make([]Moment, 1, 4*panels*n)
	v.curve[0] = v.moment(&points[0])
	for j := 2; j <= 2*panels*n; j += 2 {
		v.panel(&points[j-2], &points[j-1], &points[j], halvings)
	}
}

// panel adds the time from a by way of the middle m to b, in halves as often
// as it takes.
func (v *solver) panel(a, m, b *sample, halvings int) {
	p, n := v.at((a.s+m.s)/2), v.at((m.s+b.s)/2)
	upper, lower := simpson(a, &p, m), simpson(m, &n, b)
	miss := (upper + lower - simpson(a, m, b)) / 15 // Richardson's estimate
	if math.Abs(miss) <= v.allowed*(a.s-b.s) || halvings == 0 {
		v.add(m, upper+miss/2)
		v.add(b, lower+miss/2)
		return
	}
	v.panel(a, &p, m, halvings-1)
	v.panel(m, &n, b, halvings-1)
}

// simpson is Simpson's rule over three samples, evenly spaced.
func simpson(a, m, b *sample) float64 {
	return (a.s - b.s) / 6 * (a.rate + 4*m.rate + b.rate)
}

func (v *solver) add(p *sample, seconds float64) {
	v.clock += math.Max(seconds, 0)
	v.curve = append(v.curve, v.moment(p))
}

func (v *solver) moment(p *sample) Moment {
	return Moment{
		Time: q.Duration(v.clock), Level: p.level, Left: v.in.Vessel.VolumeAt(p.level),
		Flow: p.draw.Flow, Margin: p.draw.Margin, MarginKnown: p.draw.MarginKnown,
	}
}

// rest returns the level between To, where nothing flows, and From, where
// something does, at which the flow dies. Halving finds it whatever stops it.
func (v *solver) rest() q.Length {
	low, high := v.in.To, v.in.From
	for range 40 {
		middle := low + (high-low)/2
		if v.in.draw(middle).Flow > 0 {
			high = middle
		} else {
			low = middle
		}
	}
	return low
}
