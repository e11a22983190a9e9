package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Hooper's constants for welded bends at 0, 45, 90 and 180°; a bend that does
// not turn loses nothing.
var (
	bendTurns   = [...]float64{0, 45, 90, 180}
	bendLaminar = [...]float64{0, 500, 800, 1000}
	bendTight   = [...]float64{0, 0.20, 0.25, 0.35} // r/D 1
	bendWide    = [...]float64{0, 0.15, 0.20, 0.30} // r/D 1.5
)

// Crane's lengths of a smooth 90° bend, by r/D.
var (
	craneRadii   = [...]float64{1, 1.5, 2, 3, 4, 6}
	craneLengths = [...]float64{20, 14, 12, 12, 14, 17}
)

// Bend returns the loss of a smooth bend that turns by turn, its centreline
// radius ratio times the bore: Hooper's table, linear between its angles and
// between its radii 1 and 1.5, and held there beyond. A radius under 1 D loses
// more than this says. The friction of the arc is included.
//
// Other methods: D. C. Rennels & H. M. Hudson, Pipe Flow (2012), which follows
// the radius and the friction of the tube, and Crane TP-410 for 90°.
func Bend(turn q.Angle, ratio float64, bore q.Length) Fitting {
	degrees := within(turn.Degrees(), 0, 180)
	i := 1
	for degrees > bendTurns[i] {
		i++
	}
	part := (degrees - bendTurns[i-1]) / (bendTurns[i] - bendTurns[i-1])
	between := func(table *[4]float64) float64 { return table[i-1] + part*(table[i]-table[i-1]) }
	wide := within(2*(ratio-1), 0, 1)
	tight := between(&bendTight)
	f := twoK(between(&bendLaminar), tight+wide*(between(&bendWide)-tight), bore)
	if degrees == 90 {
		return f.among(RennelsBend(turn, ratio), crane(craneBend(ratio), bore))
	}
	return f.among(RennelsBend(turn, ratio))
}

// RennelsBend returns the loss of a smooth bend by Rennels & Hudson (2012) ch. 15:
//
//	K = f α r/D + (0.10 + 2.4 f) sin(α/2) + 6.6 f (√sin(α/2) + sin(α/2)) / (r/D)^(4α/π)
func RennelsBend(turn q.Angle, ratio float64) Coefficient {
	a := within(float64(turn), 0, math.Pi)
	r := within(ratio, 0.5, 100)
	s := math.Sin(a / 2)
	return Coefficient{
		Turbulent: 0.10 * s,
		Lengths:   a*r + 2.4*s + 6.6*(math.Sqrt(s)+s)*math.Exp(-4*a/math.Pi*math.Log(r)),
	}
}

// craneBend returns the lengths of a 90° bend, linear between Crane's radii.
func craneBend(ratio float64) float64 {
	r := within(ratio, craneRadii[0], craneRadii[len(craneRadii)-1])
	i := 1
	for r > craneRadii[i] {
		i++
	}
	part := (r - craneRadii[i-1]) / (craneRadii[i] - craneRadii[i-1])
	return craneLengths[i-1] + part*(craneLengths[i]-craneLengths[i-1])
}
