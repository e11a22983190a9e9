package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Reducer returns the loss of a cone from one bore to another, up or down, of
// the given full included angle, on the velocity head in the SMALL bore. An
// angle of 180° is a sudden step. Crane TP-410 (2009) appendix A, equations
// for gradual and sudden contraction and enlargement; the enlargement over 45°
// is Borda and Carnot's, exact. Turbulent flow: the handbook gives no laminar term.
//
// Other method: Rennels & Hudson, Pipe Flow (2012) ch. 10 and 11, which holds
// the cone's own friction.
func Reducer(from, to q.Length, included q.Angle) Fitting {
	f := within(float64(from), leastBore, greatestBore)
	t := within(float64(to), leastBore, greatestBore)
	beta := math.Min(f, t) / math.Max(f, t)
	room := 1 - beta*beta
	if room == 0 {
		return Fitting{}
	}
	half := halfSine(included)
	switch {
	case t < f:
		return Fitting{Turbulent: contraction(included) * room}.among(RennelsContraction(beta, included))
	case included.Degrees() <= 45:
		return Fitting{Turbulent: 2.6 * half * room * room}.among(RennelsEnlargement(beta, included))
	}
	return Fitting{Turbulent: room * room}.among(RennelsEnlargement(beta, included))
}

// Step returns the loss where two bores meet without a cone, on the velocity
// head in the smaller: Reducer with an angle of 180°.
func Step(from, to q.Length) Fitting { return Reducer(from, to, math.Pi) }

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

// RennelsContraction returns the loss of a conical contraction to beta of the
// large bore, on the small bore: Rennels & Hudson (2012) ch. 10.
func RennelsContraction(beta float64, included q.Angle) Coefficient {
	s := halfSine(included)
	b2 := within(beta*beta, 0, 1)
	b5 := b2 * b2 * within(beta, 0, 1)
	jet := 1 + 0.622*math.Pow(within(float64(included), 0, math.Pi)/math.Pi, 0.8)*(1-0.215*b2-0.785*b5)
	return Coefficient{
		Turbulent: 0.0696*s*(1-b5)*jet*jet + (jet-1)*(jet-1),
		Lengths:   coneFriction(b2, s),
	}
}

// RennelsEnlargement returns the loss of a conical enlargement from beta of
// the large bore, on the small bore: Rennels & Hudson (2012) ch. 11.
func RennelsEnlargement(beta float64, included q.Angle) Coefficient {
	s := halfSine(included)
	beta = within(beta, 0, 1)
	b2 := beta * beta
	b4 := b2 * b2
	room := (1 - b2) * (1 - b2)
	degrees := within(included.Degrees(), 0, 180)
	c := Coefficient{Lengths: coneFriction(b2, s)}
	switch {
	case degrees <= 20:
		c.Turbulent = 8.30 * math.Pow(math.Tan(degrees*math.Pi/360), 1.75) * room
	case degrees <= 60:
		k := 1.366*math.Sqrt(math.Sin(2*math.Pi*(degrees-15)/180)) - 0.170
		if beta < 0.5 {
			k -= 3.28 * (0.0625 - b4) * math.Sqrt((degrees-20)/40)
		}
		c.Turbulent = k * room
	case beta < 0.5:
		c = Coefficient{Turbulent: (1.205 - 3.28*(0.0625-b4) - 12.8*b4*b2*math.Sqrt((degrees-60)/120)) * room}
	default:
		c = Coefficient{Turbulent: (1.205 - 0.20*math.Sqrt((degrees-60)/120)) * room}
	}
	return c
}

// coneFriction returns the friction of a cone as lengths of its small bore,
// (1 - β⁴)/(8 sin θ/2); s is the sine.
func coneFriction(b2, s float64) float64 {
	return (1 - b2*b2) / (8 * math.Max(s, 1e-3))
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
// from memory. Other method: Rennels & Hudson (2012), 0.57 for a sharp edge.
func Entrance(cone q.Angle) Fitting {
	if !(cone > 0 && cone < math.Pi) {
		cone = math.Pi
	}
	other := RennelsContraction(0, cone)
	return Fitting{Laminar: 160, Turbulent: contraction(cone)}.among(Coefficient{Laminar: 160, Turbulent: other.Turbulent})
}

// Exit returns the loss where the line ends in the open: all its velocity
// head, K 1 whatever the shape (Crane TP-410). It belongs at the outflow and nowhere else.
func Exit() Fitting { return Fitting{Turbulent: 1} }
