package flow

import (
	"slices"
	"sort"

	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// Duty is one point of a pump's data sheet.
type Duty struct {
	Flow       q.Flow
	Head       q.Head     // over a centrifugal pump
	Pressure   q.Pressure // over a positive pump: outlet less inlet
	Required   q.Head     // suction head required (NPSHr); 0 where not given
	Efficiency q.Fraction // of hydraulic to shaft power; 0 where not given
}

// Pump is a pump as its data sheet has it, and how it is run.
type Pump struct {
	Positive bool   // pushes out a volume at each turn, whatever stands against it
	Shuts    bool   // positive: lets nothing through but what it pushes out, and nothing while it stands
	Slips    string // positive: where some gets through it, in words
	Duties   []Duty // measured with water (a positive pump: with the sheet's liquid)
	Rated    q.Rotation
	Speed    q.Rotation // that it is run at; 0: as rated, or not known
	DryLift  q.Head     // of water at sea level that it draws up with air in its line; 0: none, or not given
	Relief   q.Pressure // difference at which its relief valve opens; 0: none
}

// Curve is what a pump gives at one speed in one liquid. The zero Curve is no curve.
type Curve struct {
	duties     []Duty // by rising flow
	push       spline // centrifugal: head over flow; positive: flow over head, as it slips
	required   spline // over flow
	efficiency spline // over what push is over
	positive   bool
	perTurn    q.Volume // positive, where the rated speed is known
	ratio      float64  // of its speed to the sheet's
	thick      Thick
}

// NewCurve draws a centrifugal pump's curve through the points given, in any
// order, as they are. Points with a flow or head under zero or not finite are
// left out; of two at one flow the lower head counts.
func NewCurve(duties []Duty) Curve {
	c := Curve{ratio: 1}
	for _, d := range duties {
		if usable(float64(d.Flow)) && usable(float64(d.Head)) {
			c.duties = append(c.duties, d)
		}
	}
	sort.SliceStable(c.duties, func(i, j int) bool {
		a, b := c.duties[i], c.duties[j]
		return a.Flow < b.Flow || a.Flow == b.Flow && a.Head < b.Head
	})
	c.duties = slices.CompactFunc(c.duties, func(a, b Duty) bool { return a.Flow == b.Flow })
	for _, d := range c.duties {
		c.push.add(float64(d.Flow), float64(d.Head))
		if works(d.Efficiency) {
			c.efficiency.add(float64(d.Flow), float64(d.Efficiency))
		}
	}
	c.finish()
	return c
}

// newSlip draws a positive pump's curve: how much of what it pushes out slips
// back grows with the pressure. The liquid's density makes the pressure a head.
// Faster or slower by ratio, each turn pushes out the same and as much slips
// back in a second: flow = V n - slip, with slip as the points have it
// (common practice, no source).
func newSlip(duties []Duty, rated q.Rotation, ratio float64, density q.Density) Curve {
	c := Curve{ratio: ratio, positive: true}
	metre := within(float64(density), 1, 1e6) * gravity
	for _, d := range duties {
		if usable(float64(d.Flow)) && usable(float64(d.Pressure)/metre) {
			d.Head = q.Head(float64(d.Pressure) / metre)
			c.duties = append(c.duties, d)
		}
	}
	sort.SliceStable(c.duties, func(i, j int) bool {
		a, b := c.duties[i], c.duties[j]
		return a.Head < b.Head || a.Head == b.Head && a.Flow < b.Flow
	})
	c.duties = slices.CompactFunc(c.duties, func(a, b Duty) bool { return a.Head == b.Head })
	if len(c.duties) == 0 {
		return c
	}
	// What it would push out against nothing: the first two points in a straight
	// line back to no pressure, where the sheet does not begin there.
	free := c.duties[0]
	if free.Head > 0 {
		if len(c.duties) > 1 {
			next := c.duties[1]
			free.Flow += (free.Flow - next.Flow) * q.Flow(free.Head/(next.Head-free.Head))
		}
		free.Head, free.Pressure = 0, 0
		c.duties = append([]Duty{free}, c.duties...)
	}
	if rated > 0 {
		c.perTurn = q.Volume(float64(free.Flow) / float64(rated))
	}
	for i := range c.duties {
		d := &c.duties[i]
		d.Flow += free.Flow * q.Flow(ratio-1) // may fall under 0, which at holds at 0
		d.Required *= q.Head(ratio * ratio)
		c.push.add(float64(d.Head), float64(d.Flow))
		if works(d.Efficiency) {
			c.efficiency.add(float64(d.Head), float64(d.Efficiency))
		}
		d.Flow = max(d.Flow, 0)
	}
	slices.Reverse(c.duties)
	c.finish()
	return c
}

// finish shapes the splines and adds the suction head required.
func (c *Curve) finish() {
	for _, d := range c.duties {
		if !usable(float64(d.Required)) || d.Required == 0 {
			continue
		}
		if n := len(c.required.x); n > 0 && c.required.x[n-1] >= float64(d.Flow) {
			c.required.y[n-1] = max(c.required.y[n-1], float64(d.Required)) // one flow against two pressures
			continue
		}
		c.required.add(float64(d.Flow), float64(d.Required))
	}
	c.push.shape()
	c.required.shape()
	c.efficiency.shape()
}

// usable reports whether a pump can have x, in SI units, of anything.
func usable(x float64) bool { return x >= 0 && x <= 1e6 }

func works(efficiency q.Fraction) bool { return efficiency > 0 && efficiency <= 1 }

// Run returns what p gives in a liquid at the speed that it is run at. The
// affinity laws move every point of a centrifugal pump: flow with the speed,
// head and the suction head required with its square, at an equal efficiency
// (Crane TP-410 ex. 7.33; of the suction head required from memory: slowed
// down, some pumps gain less). A liquid thicker than clean cold water then
// takes off what Correct says; one too thick for that leaves no curve, and one
// that is not Newtonian the curve in water, since no rule says what it takes off.
func (p Pump) Run(l liquid.Properties) Curve {
	ratio := p.ratio()
	if p.Positive {
		return newSlip(p.Duties, p.Rated, ratio, l.Density)
	}
	c := NewCurve(Affinity(p.Duties, ratio))
	c.ratio = ratio
	nu := viscosity(l).nu
	if nu <= coldWater || c.IsZero() || !l.Rheology.Newtonian() {
		return c
	}
	best, assumed := c.best()
	speed := p.Speed
	if speed <= 0 {
		speed = p.Rated
	}
	thick := Correct(nu, best, speed)
	thick.BestAssumed = assumed
	switch {
	case thick.Applies():
		c = NewCurve(thick.points(c.duties))
	case thick.Refused():
		c = Curve{}
	}
	c.ratio = ratio
	c.thick = thick
	return c
}

func (p Pump) ratio() float64 {
	if p.Rated > 0 && p.Speed > 0 {
		return within(float64(p.Speed/p.Rated), 0, 1e3)
	}
	return 1
}

// Sheet returns the points of p as its sheet has them, a positive pump's
// pressures as heads of the liquid.
func (p Pump) Sheet(l liquid.Properties) []Duty {
	if !p.Positive {
		return p.Duties
	}
	return newSlip(p.Duties, 0, 1, l.Density).duties
}

// Affinity returns duties of a centrifugal pump as they are at ratio times the speed.
func Affinity(duties []Duty, ratio float64) []Duty {
	out := slices.Clone(duties)
	for i := range out {
		out[i].Flow *= q.Flow(ratio)
		out[i].Head *= q.Head(ratio * ratio)
		out[i].Required *= q.Head(ratio * ratio)
	}
	return out
}

// IsZero reports whether c is no curve.
func (c Curve) IsZero() bool { return len(c.duties) == 0 }

// Positive reports whether it is the curve of a positive pump.
func (c Curve) Positive() bool { return c.positive }

// Moved reports whether the curve lies elsewhere than the points of the sheet:
// the pump runs at another speed, or a thick liquid takes something off it.
func (c Curve) Moved() bool { return c.ratio != 1 || c.thick.Applies() }

// Thick returns what a thick liquid has taken off.
func (c Curve) Thick() Thick { return c.thick }

// Duties returns the points that the curve goes through, by rising flow.
func (c Curve) Duties() []Duty { return slices.Clone(c.duties) }

// First returns the least flow of the curve, 0 when its points start at shut-off.
func (c Curve) First() q.Flow {
	if c.IsZero() {
		return 0
	}
	return c.duties[0].Flow
}

// Last returns the greatest flow of the curve.
func (c Curve) Last() q.Flow {
	if c.IsZero() {
		return 0
	}
	return c.duties[len(c.duties)-1].Flow
}

// ends returns the ends of the curve's parameter, which rises from the most
// head to the most flow: a centrifugal pump's flow, a positive pump's head
// with its sign turned. A positive pump gives one flow at many heads, so that
// its head is no function of the flow; along the parameter both are.
func (c *Curve) ends() (from, to float64) {
	x := c.push.x
	if c.positive {
		return -x[len(x)-1], -x[0]
	}
	return x[0], x[len(x)-1]
}

// at returns flow and head, SI, at t between ends.
func (c *Curve) at(t float64) (flow, head float64) {
	if c.positive {
		y, _ := c.push.at(-t)
		return max(y, 0), -t
	}
	y, _ := c.push.at(t)
	return t, y
}

// Head returns the pump's head at flow. Beyond the curve's ends, where outside
// is true, it is held at the last point.
func (c Curve) Head(flow q.Flow) (head q.Head, outside bool) {
	if !c.positive || c.IsZero() {
		y, outside := c.push.at(float64(flow))
		return q.Head(y), outside
	}
	from, to := c.ends()
	less := func(t float64) float64 {
		y, _ := c.at(t)
		return y - float64(flow)
	}
	atFrom, atTo := less(from), less(to)
	switch {
	case !(atTo > 0): // also NaN
		return q.Head(-to), atTo != 0
	case atFrom >= 0:
		return q.Head(-from), atFrom > 0
	}
	return q.Head(-root(less, from, atFrom, to, atTo)), false
}

// Against returns what a positive pump moves against a head, held at the ends
// of its points; 0 for a centrifugal pump.
func (c Curve) Against(head q.Head) q.Flow {
	if !c.positive || c.IsZero() {
		return 0
	}
	from, to := c.ends()
	flow, _ := c.at(within(-float64(head), from, to))
	return q.Flow(flow)
}

// Required returns the suction head that the pump requires at flow (NPSHr).
// Beyond the points that give it, where outside is true, it is held at the
// nearest of them; it is 0 when none does.
func (c Curve) Required(flow q.Flow) (head q.Head, outside bool) {
	y, outside := c.required.at(float64(flow))
	return q.Head(y), outside
}

// RequiredKnown reports whether any point gives the suction head required.
func (c Curve) RequiredKnown() bool { return len(c.required.x) > 0 }
