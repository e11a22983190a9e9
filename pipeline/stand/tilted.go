package stand

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// gauss are the nodes and weights of the 8-point rule on -1 to 1, the half
// over zero (Abramowitz & Stegun, table 25.4).
var gauss = [4][2]float64{
	{0.183434642495649805, 0.362683783378361983}, {0.525532409916328986, 0.313706645877887287},
	{0.796666477413626740, 0.222381034453374471}, {0.960289856497536232, 0.101228536290376259},
}

// tilted is a tank that leans, its liquid run to the low side, in the tank's
// own frame: x aside from the axis, downhill, and z over the lowest inside
// point. Its surface is the plane z = at + slope x. The shell is taken to go
// on over the brim: what spills only makes it steadier.
type tilted struct {
	s             *steady
	slope         float64
	radius, depth float64 // of the shell, and of the bottom
}

// holds returns the volume under the surface and its first moments.
func (w *tilted) holds(at float64) (volume, mx, mz float64) {
	reach := w.radius * w.slope
	top := at + reach
	sum := func(low, high float64) {
		if !(high > low) {
			return
		}
		middle, half := (low+high)/2, (high-low)/2
		for _, g := range gauss {
			for _, z := range [2]float64{middle - half*g[0], middle + half*g[0]} {
				area, moment := w.slice(z, (z-at)/w.slope)
				area, moment = area*g[1]*half, moment*g[1]*half
				volume, mx, mz = volume+area, mx+moment, mz+area*z
			}
		}
	}
	meets := min(max(0, at-reach), w.depth) // up to there the bottom is covered all over
	sum(0, meets)
	sum(meets, min(w.depth, top))
	if top <= w.depth {
		return volume, mx, mz
	}
	if whole := at - reach - w.depth; whole > 0 { // of the shell, below where the surface meets it
		v := math.Pi * w.radius * w.radius * whole
		volume, mz = volume+v, mz+v*(w.depth+whole/2)
	}
	from := max((w.depth-at)/w.slope, -w.radius)
	if from > 0.95*w.radius { // so little is left of the sums below that they tell nothing
		sum(at+w.slope*from, top)
		return volume, mx, mz
	}
	v, beside, aside := w.wedge(from)
	v, beside, aside = v*w.slope, beside*w.slope, aside*w.slope
	return volume + v, mx + beside, mz + at*v + w.slope*aside
}

// wedge integrates slice over x from the given one to the shell, at r the
// radius and x = r cos φ: its area, r² (φ − sin φ cos φ), its moment,
// 2/3 r³ sin³ φ, and x times its area.
func (w *tilted) wedge(from float64) (area, moment, aside float64) {
	r := w.radius
	phi := math.Acos(from / r)
	sin, cos := math.Sincos(phi)
	four := math.Sin(4*phi) / 32
	area = r * r * r * (sin - sin*sin*sin/3 - phi*cos)
	moment = 2.0 / 3 * r * r * r * r * (3*phi/8 - sin*cos/2 + four)
	aside = r * r * r * r * ((phi/4-four*2)/2 - cos*cos*(phi-sin*cos)/2)
	return area, moment, aside
}

// slice returns the part of the bore at z that lies downhill of x, a segment
// of a disc, and its first moment about the axis.
func (w *tilted) slice(z, x float64) (area, moment float64) {
	r2 := w.radius * w.radius
	if z < w.depth {
		r2 = w.s.in.Tank.Vessel.Area(q.Length(z)) / math.Pi
	}
	r := math.Sqrt(r2)
	switch {
	case x <= -r:
		return math.Pi * r2, 0
	case x >= r:
		return 0, 0
	}
	chord := math.Sqrt((r - x) * (r + x))
	return r2*math.Acos(x/r) - x*chord, 2.0 / 3 * chord * chord * chord
}

// run returns the moments of so much liquid.
func (w *tilted) run(volume, level float64) (mx, mz float64) {
	reach := w.radius * w.slope
	a, b := -reach, level+reach // at the one it holds nothing, at the other no less
	full, _, _ := w.holds(b)
	illinois(a, -volume, b, full-volume, 1e-11*volume, func(at float64) float64 {
		var v float64
		v, mx, mz = w.holds(at)
		return v - volume
	})
	return mx, mz
}

// illinois returns where f, rising from fa at a to fb at b, is nothing, or nearer
// to it than near (Dowell & Jarratt, BIT 11, 1971). It asks f last of what it returns.
func illinois(a, fa, b, fb, near float64, f func(float64) float64) (c float64) {
	side := 0.0 // of the end that was moved last
	for range 60 {
		c = (a*fb - b*fa) / (fb - fa)
		d := f(c)
		if math.Abs(d) <= near {
			break
		}
		if d < 0 { // the end that stays a second time counts half
			if side < 0 {
				fb /= 2
			}
			a, fa = c, d
		} else {
			if side > 0 {
				fa /= 2
			}
			b, fb = c, d
		}
		side = d
	}
	return c
}

// shallow is the part of the shell's radius that a bottom must be deep for the
// wall-sided formula to serve down in it, too: in the dishes and in cones to
// 120° it tells up to 6 % too little of a slope there and 1 % too much, as
// TestWallSidedInTheBottom finds; on a flat bottom, where a finger of liquid has
// the widest surface and yet cannot run further than to the shell, 28 %.
const shallow = 0.3

// summed reports whether liquid to level is to be summed up where the tank
// leans by slope: the surface comes down to a bottom that is flat or nearly so.
func (s *steady) summed(level q.Length, slope float64) bool {
	radius, depth := s.in.Tank.Vessel.Bore/2, s.in.Tank.Vessel.BottomDepth()
	return depth < shallow*radius && level-radius*q.Length(slope) < depth && slope > 1e-9
}

// centre returns how far the centre of all lies aside of the axis, downhill,
// and over the floor, both in the tank's own frame, when the tank with liquid
// to level leans by slope.
func (s *steady) centre(level q.Length, slope float64) (aside, height float64) {
	v := s.in.Tank.Vessel
	volume, up, surface := v.Contents(level)
	rho := float64(s.in.Density)
	liquid := rho * float64(volume)
	mass := s.dry + liquid
	switch {
	case !(liquid > 0):
		return 0, s.lift / mass
	case !s.summed(level, slope):
		surge := rho * surface * surface / (4 * math.Pi) / mass
		return surge * slope, (s.lift+liquid*(s.foot+float64(up)))/mass + surge*slope*slope/2
	}
	w := tilted{s, slope, float64(v.Bore) / 2, float64(v.BottomDepth())}
	mx, mz := w.run(float64(volume), float64(level))
	return rho * mx / mass, (s.lift + rho*mz + liquid*s.foot) / mass
}

// over is by how much the centre of all lies past the line through two feet,
// seen upright, when the tank with liquid to level leans by slope; m.
func (s *steady) over(level q.Length, slope float64) float64 {
	aside, height := s.centre(level, slope)
	return aside + height*slope - s.arm
}

// stands reports whether the tank with liquid to level leans by slope and does
// not tip yet: a tenth of the work that it is to find where it does.
func (s *steady) stands(level q.Length, slope float64) bool {
	return s.arm > 0 && s.over(level, slope) < 0
}

// tips returns the slope at which the tank with liquid to level tips: the
// centre of all then stands over the line through two feet.
func (s *steady) tips(level q.Length, height, surge float64) float64 {
	slope := tipping(s.arm, height, surge)
	if !(surge > 0) || !s.summed(level, slope) {
		return slope
	}
	over := func(slope float64) float64 { return s.over(level, slope) }
	// Liquid that runs aside and up has it tip no later than one that is frozen.
	frozen := s.arm / height
	return illinois(0, -s.arm, frozen, over(frozen), 1e-10*s.arm, over)
}
