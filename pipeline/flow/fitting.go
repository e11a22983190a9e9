package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Fitting is the loss of a fitting: K = Laminar/Re + Turbulent, on the
// velocity head in the bore of its Element (a reducer: its small bore).
//
// The constants of bends, tees and valves are those of the two-K method (W. B.
// Hooper, Chem. Eng., 24 Aug 1981, p. 96), which is the default for three
// reasons. It holds in laminar flow, where a constant K is wrong by ten times
// and more, and purée and cold syrup run laminar. It needs the true bore
// only, where the three-K method needs a nominal pipe size that hygienic tube
// has not got and Crane's needs the friction of rough commercial pipe. And it
// has every fitting of such a line. In polished tube it errs on the high side: for a 1½ in bend of 1.5 D
// at Re 100 000 it gives 0.35, the correlations of Ito and Miller for smooth bends 0.23 to 0.25.
//
// Reducers and entrances follow Crane TP-410.
type Fitting struct {
	Laminar   float64 // K·Re where the flow is laminar
	Turbulent float64 // K at high Reynolds number
}

// K returns the loss coefficient at Reynolds number re.
func (f Fitting) K(re float64) float64 {
	f = f.held()
	return f.Laminar/within(re, 1e-12, math.MaxFloat64) + f.Turbulent
}

// held returns f with both constants finite. K may be negative by a little: a
// tee can give back what its other branch loses.
func (f Fitting) held() Fitting {
	return Fitting{within(f.Laminar, 0, greatestK), within(f.Turbulent, -10, greatestK)}
}

// twoK returns Hooper's K = K1/Re + K∞ (1 + 1/D), D the bore in INCHES.
func twoK(k1, kInf float64, bore q.Length) Fitting {
	inches := within(float64(bore), leastBore, greatestBore) / float64(q.Inch)
	return Fitting{k1, kInf * (1 + 1/inches)}
}

// Hooper's constants for welded bends at 0, 45, 90 and 180°; a bend that does
// not turn loses nothing.
var (
	bendTurns   = [...]float64{0, 45, 90, 180}
	bendLaminar = [...]float64{0, 500, 800, 1000}
	bendTight   = [...]float64{0, 0.20, 0.25, 0.35} // r/D 1
	bendWide    = [...]float64{0, 0.15, 0.20, 0.30} // r/D 1.5
)

// Bend returns the loss of a smooth bend that turns by turn, its centreline
// radius ratio times the bore: Hooper's table, linear between its angles and
// between its radii 1 and 1.5, and held there beyond. A radius under 1 D loses
// more than this says. The friction of the arc is included.
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
	return twoK(between(&bendLaminar), tight+wide*(between(&bendWide)-tight), bore)
}

// TeeRun returns the loss straight through a tee, its branch closed: Hooper,
// flanged or welded. Its body is included.
func TeeRun(bore q.Length) Fitting { return twoK(150, 0.05, bore) }

// TeeBranch returns the loss round the corner of a tee, one leg closed:
// Hooper, tee used as elbow, flanged or welded. Its body is included.
func TeeBranch(bore q.Length) Fitting { return twoK(800, 0.80, bore) }

// ButterflyValve returns the loss of a butterfly valve fully open: Hooper.
func ButterflyValve(bore q.Length) Fitting { return twoK(800, 0.25, bore) }

// BallValve returns the loss of a full-bore ball valve fully open: Hooper, as a
// gate or ball valve of full line size.
func BallValve(bore q.Length) Fitting { return twoK(300, 0.10, bore) }

// Reducer returns the loss of a cone from one bore to another, up or down, of
// the given full included angle, on the velocity head in the SMALL bore. An
// angle of 180° is a sudden step. Crane TP-410 (2009) appendix A, equations
// for gradual and sudden contraction and enlargement; the enlargement over 45°
// is Borda and Carnot's, exact. Turbulent flow: the handbook gives no laminar term.
func Reducer(from, to q.Length, included q.Angle) Fitting {
	f := within(float64(from), leastBore, greatestBore)
	t := within(float64(to), leastBore, greatestBore)
	beta := math.Min(f, t) / math.Max(f, t)
	room := 1 - beta*beta
	if t < f {
		return Fitting{Turbulent: contraction(included) * room}
	}
	half := halfSine(included)
	if included.Degrees() <= 45 {
		return Fitting{Turbulent: 2.6 * half * room * room}
	}
	return Fitting{Turbulent: room * room}
}

// contraction returns Crane's coefficient of a contraction from a very large
// bore: 0.8 sin(θ/2) to 45°, 0.5 √sin(θ/2) beyond, 0.5 for a sudden one.
func contraction(included q.Angle) float64 {
	half := halfSine(included)
	if included.Degrees() <= 45 {
		return 0.8 * half
	}
	return 0.5 * math.Sqrt(half)
}

func halfSine(included q.Angle) float64 {
	return math.Sin(within(float64(included), 0, math.Pi) / 2)
}

// Included returns the full included angle of a cone of the given length
// between two bores, 2·atan(|D1-D2|/2L); 180° where it has no length.
func Included(from, to, length q.Length) q.Angle {
	return q.Angle(2 * math.Atan2(math.Abs(float64(from-to)), 2*within(float64(length), 0, greatestRun)))
}

// Entrance returns the loss where a line leaves a tank. An angle of 0 or 180°
// is an opening flush in a flat wall, its edge sharp: K 0.5 (Crane TP-410). Between, the
// opening is the foot of a cone of that full included angle, taken as Crane's
// contraction from a very large bore. The laminar term 160/Re is Hooper's,
// from memory.
func Entrance(cone q.Angle) Fitting {
	k := 0.5
	if cone > 0 && cone < math.Pi {
		k = contraction(cone)
	}
	return Fitting{160, k}
}

// Exit returns the loss where the line ends in the open: all its velocity
// head, K 1 whatever the shape (Crane TP-410). It belongs at the outflow and nowhere else.
func Exit() Fitting { return Fitting{Turbulent: 1} }
