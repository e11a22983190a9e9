package stand

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Rise is the height of the leg tube.
func (in Input) Rise() q.Length { return in.Height + in.LegTop - in.Foot }

// feet is the radius of the circle on which the feet stand. Where nobody said,
// the legs meet the tank flush with the inside of its shell.
func (in Input) feet() q.Length {
	if in.Feet > 0 {
		return in.Feet
	}
	return max(in.LegOD, (in.Tank.Vessel.Bore-in.LegOD)/2) + in.lean()
}

// lean is how much further out a leg stands at its foot than at its top.
func (in Input) lean() q.Length {
	return max(0, in.Rise()) * q.Length(math.Tan(float64(in.Splay)))
}

// LegsAt returns how far from the tank's axis the middle of a leg is at its
// top and on the floor.
func (in Input) LegsAt() (top, floor q.Length) {
	floor = in.feet()
	return max(0, floor-in.lean()), floor
}

// Meets returns the top of the legs over the outlet face at which their outer
// edge ends on the underside of the tank: the longest side of a leg that is cut
// to fit. Legs that stand outside the shell end level with its lower edge.
//
// A splayed leg whose feet were set leans in as it rises, so that its top is
// sought between the lowest and the highest that the bottom has.
func (in Input) Meets() q.Length {
	at := func(top q.Length) q.Length {
		in.LegTop = top
		r, _ := in.LegsAt()
		edge := r + in.LegOD/2/q.Length(math.Cos(float64(in.Splay))) // a leaning tube cut level is wider than it is round
		return in.Tank.BottomToOutlet + in.Tank.Vessel.Underside(edge, in.Tank.Wall)
	}
	if in.Feet <= 0 || in.Splay <= 0 {
		return at(0)
	}
	low, high := at(q.Length(math.Inf(1))), at(q.Length(math.Inf(-1)))
	for range 60 {
		if middle := (low + high) / 2; at(middle) > middle {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// BraceRun returns how far a brace runs along the level, from one leg's foot
// to the next one's top, and how long it is.
func (in Input) BraceRun() (level, length q.Length) {
	top, floor := in.LegsAt()
	turn := math.Cos(2 * math.Pi / float64(max(1, in.Legs)))
	t, f := float64(top), float64(floor)
	run := math.Sqrt(math.Max(0, t*t+f*f-2*t*f*turn))
	return q.Length(run), q.Length(math.Hypot(run, float64(max(0, in.Rise()))))
}

// steady is what is needed to know how the stand stands: masses, and the arm
// from the tank's axis to the line through two neighbouring feet, about which
// it tips.
type steady struct {
	in    Input
	arm   float64 // m
	tank  float64 // kg of steel
	frame float64 // kg of legs and braces
	dry   float64 // kg of all that is not liquid
	lift  float64 // kg m: dry times the height of its centre over the floor
	foot  float64 // lowest inside point over the floor, m
}

func newSteady(in Input) steady {
	v := in.Tank.Vessel
	s := steady{in: in, foot: float64(in.Height + in.Tank.BottomToOutlet)}
	s.arm = float64(in.feet())*math.Cos(math.Pi/float64(max(2, in.Legs))) - float64(in.Castors)

	wall := float64(in.Tank.Wall)
	shell := math.Pi * (float64(v.Bore) + wall) * float64(v.Straight) * wall * steelDensity
	area, centre := v.BottomWall()
	bottom := area * wall * steelDensity
	s.tank = shell + bottom
	rise := math.Max(0, float64(in.Rise()))
	s.frame = float64(in.Legs) * rise / math.Cos(float64(in.Splay)) * tube(in.LegOD, in.LegWall).area * steelDensity
	if in.Braced {
		_, length := in.BraceRun()
		s.frame += float64(in.Legs) * float64(length) * tube(in.BraceOD, in.LegWall).area * steelDensity
	}
	load := float64(in.Load)
	s.dry = s.tank + s.frame + load
	s.lift = shell*(s.foot+float64(v.BottomDepth()+v.Straight/2)) +
		bottom*(s.foot+float64(centre)) +
		s.frame*(float64(in.Foot)+rise/2) +
		load*(s.foot+float64(in.Tank.Depth)) // at the brim: the cautious reading
	return s
}

// Posture is how the tank stands with liquid to a level.
type Posture struct {
	Level  q.Length // over the lowest inside point
	Mass   q.Mass   // of all
	Centre q.Length // of mass, over the floor
	Surge  q.Length // how much the liquid's free surface raises it, as for a ship: ρ I/M
	Tip    q.Angle  // incline at which it tips
	Push   q.Force  // that tips it, level, at PushAt
}

// with returns how the tank stands with liquid to level.
func (s *steady) with(level q.Length) Posture {
	volume, centre, surface := s.in.Tank.Vessel.Contents(level)
	liquid := float64(s.in.Density) * float64(volume)
	mass := s.dry + liquid
	p := Posture{Level: level, Mass: q.Mass(mass)}
	if !(mass > 0) || s.arm <= 0 {
		return p
	}
	height := (s.lift + liquid*(s.foot+float64(centre))) / mass
	surge := 0.0
	if liquid > 0 {
		surge = float64(s.in.Density) * surface * surface / (4 * math.Pi) / mass // I = π r⁴/4 = A²/(4 π)
	}
	p.Centre, p.Surge = q.Length(height), q.Length(surge)
	p.Tip = q.Angle(math.Atan(s.tips(level, height, surge)))
	if at := float64(s.in.pushAt()); at > 0 {
		p.Push = q.Force(mass * gravity * s.arm / at)
	}
	return p
}

// tipping returns the slope at which what has its centre at height over an arm
// tips, when its liquid has a free surface that shifts. In a straight shell
// the liquid's centre moves aside by surge times the slope t, and up by half
// of that times t, so that it tips where
//
//	arm = (height + surge) t + surge t³/2
//
// The wall-sided formula of naval architecture, exact while the surface meets
// the straight side all round; see summed for where it does not.
func tipping(arm, height, surge float64) float64 {
	sum := height + surge
	if !(sum > 0) {
		return math.Inf(1)
	}
	t := arm / sum
	for range 30 {
		next := t - ((sum+surge*t*t/2)*t-arm)/(sum+1.5*surge*t*t)
		if math.Abs(next-t) <= 1e-14*t {
			return next
		}
		t = next
	}
	return t
}

// worst returns the posture that tips soonest, between empty and full: a scan,
// the lower edge of the shell among it, where the surface is first at its
// widest, and then halvings about the least of it. There can be a second least
// low in the tank, in a dish or where the surface just about covers a flat
// bottom: that is scanned and halved apart.
func (s *steady) worst() Posture {
	const steps = 12
	full, edge := s.in.Tank.Full, s.in.Tank.Vessel.BottomDepth()
	empty := s.with(0)
	worst := empty
	about := func(step q.Length, levels ...q.Length) {
		least := empty
		try := func(level q.Length) {
			if level < 0 || level > full || s.stands(level, math.Tan(float64(least.Tip))) {
				return
			}
			if p := s.with(level); p.Tip < least.Tip {
				least = p
			}
		}
		for _, level := range levels {
			try(level)
		}
		for ; step > q.Millimetre/10; step /= 2 {
			at := least.Level
			try(at - step)
			try(at + step)
		}
		if least.Tip < worst.Tip {
			worst = least
		}
	}
	levels := make([]q.Length, 0, steps+1)
	for i := 1; i <= steps; i++ {
		levels = append(levels, full*(q.Length(i*i)/(steps*steps))) // closer together where a little liquid changes much
	}
	about(full/steps, append(levels, edge)...)
	// The surface leans by no more than it could in the empty tank.
	low := edge + s.in.Tank.Vessel.Bore/2*q.Length(math.Tan(float64(empty.Tip)))
	if levels = levels[:0]; low < full {
		for i := 1; i <= steps; i++ {
			levels = append(levels, low*q.Length(i)/steps)
		}
		about(low/steps, levels...)
	}
	return worst
}

// pushAt is the height at which somebody leans on the tank: 1.5 m as IEC
// 62368-1 has it, or the brim where that is lower.
func (in Input) pushAt() q.Length {
	return min(1500*q.Millimetre, in.Height+in.Tank.BottomToOutlet+in.Tank.Depth)
}

// adjusters returns the range that the feet need: to level the stand on a
// floor that falls, across the widest that two feet are apart in one
// direction, and where more than three legs stand to let all of them touch.
func (in Input) adjusters() q.Length {
	n := max(3, in.Legs)
	across := 2.0
	if n%2 == 1 {
		across = 2 * math.Cos(math.Pi/float64(2*n))
	}
	need := q.Length(float64(in.FloorFall) * float64(in.feet()) * across)
	if n > 3 {
		need += in.Uneven
	}
	return need
}

// slant is how far out of upright the stand is left by its floor.
func (in Input) slant() q.Angle {
	if in.FloorFall <= 0 || in.Adjust >= in.adjusters()-q.Millimetre/100 {
		return 0
	}
	return q.Angle(math.Atan(float64(in.FloorFall)))
}

// loads is what one leg carries.
type loads struct {
	share      float64 // of the weight, on one foot
	each       float64 // N
	length     float64 // m
	section    section
	yield      float64 // Pa
	modulus    float64 // Pa
	stress     float64 // Pa
	cantilever float64 // N at which it buckles, free to sway
	braced     float64 // N, held top and bottom
	resists    float64 // N, as it is built
	used       float64 // part of what it resists, loads with their factor
}

// loadFactor is the partial factor of EN 1990 on a load that varies.
const loadFactor = 1.5

func (s *steady) loads(mass q.Mass) loads {
	in := s.in
	l := loads{
		share:   1.0 / 3,
		length:  math.Max(0, float64(in.Rise())) / math.Cos(float64(in.Splay)),
		section: tube(in.LegOD, in.LegWall),
		yield:   at(proof, in.Temperature) * 1e6,
		modulus: at(elastic, in.Temperature) * 1e9,
	}
	if in.Legs != 3 { // four on an uneven floor: two of them may carry all
		l.share = 1.0 / 2
	}
	l.each = float64(mass) * gravity * l.share
	if !(l.length > 0) || !(l.section.area > 0) {
		return l
	}
	// The floor pushes straight up: along a leg that leans it is less, and it bends it.
	along, bend := l.each*math.Cos(float64(in.Splay)), l.each*math.Sin(float64(in.Splay))*l.length
	if in.Braced {
		bend = 0 // the braces take it
	}
	l.stress = along/l.section.area + bend/l.section.modulus
	l.cantilever = l.section.euler(l.modulus, 2, l.length)
	l.braced = l.section.euler(l.modulus, 1, l.length)
	euler := l.cantilever
	if in.Braced {
		euler = l.braced
	}
	l.resists = l.section.resistance(l.yield, euler)
	l.used = loadFactor * (along/l.resists + 1.1*bend/(l.section.modulus*l.yield))
	return l
}
