package flow

import (
	"math"

	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// Losses of a disc or a ball turned out of the open position, by J. Weisbach's
// experiments (1842 to 1855), at every 5°. The rows at 5, 10, 20, 40 and 60° are
// as Perry's Chemical Engineers' Handbook reprints them in its table of
// fittings, the others from memory.
var (
	discTurned = [...]float64{0, 0.24, 0.52, 0.90, 1.54, 2.51, 3.91, 6.22, 10.8, 18.7, 32.6, 58.8, 118, 256, 751}
	ballTurned = [...]float64{0, 0.05, 0.29, 0.75, 1.56, 3.10, 5.47, 9.68, 17.3, 31.2, 52.6, 106, 206, 486}
)

// The least openings that the tables reach. Nearer to closed, the gap at the
// seat decides, and no table holds.
const (
	LeastButterfly = 20 * q.Degree
	LeastBall      = 25 * q.Degree
)

// turned reads a table at the angle by which the valve is turned from open,
// linear in the logarithm of K beyond the first step, as the tables run.
func turned(table []float64, open q.Angle) float64 {
	x := within(90-open.Degrees(), 0, 5*float64(len(table)-1)) / 5
	i := min(int(x), len(table)-2)
	part := x - float64(i)
	if i == 0 {
		return part * table[1]
	}
	return table[i] * math.Exp(part*math.Log(table[i+1]/table[i]))
}

// ButterflyValve returns the loss of a butterfly valve open by an angle, 90°
// being fully: Hooper's, and to it Weisbach's for the disc turned into the
// flow. Held at LeastButterfly. Other methods: Crane's 45 fT for a centric
// disc; turned, (1.56/(1 - sin δ) - 1)² for a thin disc (Idelchik, ch. 9, from memory).
func ButterflyValve(bore q.Length, open q.Angle) Fitting {
	f := twoK(800, 0.25, bore)
	other := crane(45, bore)
	if k := turned(discTurned[:], open); k > 0 {
		f = f.plus(k)
		gap := 1.56/(1-math.Cos(float64(max(open, LeastButterfly)))) - 1
		other.Turbulent = max(other.Turbulent, gap*gap)
	}
	return f.among(other)
}

// BallValve returns the loss of a full-bore ball valve open by an angle, 90°
// being fully: Hooper, as a gate or ball valve of full line size, and to it
// Weisbach's for a cock turned. Held at LeastBall. Other methods, fully open:
// Crane's 3 fT and Darby's three-K; turned, no other is known, and the band
// is a quarter either way (our judgement of how valves differ, no source).
func BallValve(bore q.Length, open q.Angle) Fitting {
	f := twoK(300, 0.10, bore)
	k := turned(ballTurned[:], open)
	if k == 0 {
		return f.among(crane(3, bore), ThreeK(300, 0.017, 3.5, bore))
	}
	f = f.plus(k)
	return f.among(Coefficient{Laminar: 300, Turbulent: 0.75 * f.Turbulent}, Coefficient{Laminar: 300, Turbulent: 1.25 * f.Turbulent})
}

// SeatValve returns the loss of a seat valve, its ports at a right angle, fully
// open: Hooper, angle valve. Other methods: Darby's three-K and Crane's 150 fT.
// A seat valve's Kv, where its maker gives one, is better than any of them.
func SeatValve(bore q.Length) Fitting {
	return twoK(1000, 2.0, bore).among(ThreeK(1000, 0.69, 4, bore), crane(150, bore))
}

// DiaphragmValve returns the loss of a weir diaphragm valve fully open:
// Hooper, dam type. Other methods: Darby's three-K and Crane's 149 fT.
func DiaphragmValve(bore q.Length) Fitting {
	return twoK(1000, 2.0, bore).among(ThreeK(1000, 0.69, 4.9, bore), crane(149, bore))
}

// NonReturnValve returns the loss of a non-return valve that the flow holds
// open: Hooper, swing check. Other methods: Darby's three-K and Crane's 100 fT. One with a strong
// spring loses more: type its Kv.
func NonReturnValve(bore q.Length) Fitting {
	return twoK(1500, 1.5, bore).among(ThreeK(1500, 0.46, 4, bore), crane(100, bore))
}

// Opens returns the velocity from which the flow holds a swinging non-return
// valve fully open: 45/√ρ m/s, ρ in kg/m³ (Crane TP-410 appendix A, swing check).
// Water wants 1.4 m/s.
func Opens(p liquid.Properties) q.Velocity {
	return q.Velocity(45 / math.Sqrt(within(float64(p.Density), 1, 1e6)))
}

// FromKv returns the loss of anything whose Kv is known: the flow of water in
// m³/h that drops 1 bar over it (IEC 60534-1, from memory). Δp grows with the
// square of the flow; ρ0 is 1000 kg/m³.
func FromKv(kv float64, bore q.Length) Fitting {
	d := within(float64(bore), leastBore, greatestBore)
	v := within(kv, 1e-6, 1e6) / 3600 / (math.Pi / 4 * d * d)
	return Fitting{Turbulent: 2e5 / (1000 * v * v)}
}
