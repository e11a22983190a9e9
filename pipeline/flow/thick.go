package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// coldWater is the most kinematic viscosity, m²/s, of the clean cold water
// that pumps are tested with: ISO 9906, 1.5 mm²/s (from memory). A curve holds up to
// there as it was published.
const coldWater = 1.5e-6

// usualSpeed stands in where no speed of the pump is known: a two-pole motor at 50
// Hz. The correction depends on its fourth root only.
const usualSpeed = 2900 * q.RPM

// Thick is what a liquid thicker than water takes off a centrifugal pump, by
// ANSI/HI 9.6.7 (2010; the formulas from memory). Its parameter B, here in
// mm²/s, metres, m³/h and rpm, is
//
//	B = 16.5 ν^0.5 H^0.0625 / (Q^0.375 N^0.25)
//
// at the pump's best point in water. To B = 1 nothing is taken off, from 40 on
// the method is not made.
type Thick struct {
	B            float64 // 0 where the liquid is no thicker than clean cold water
	Flow         float64 // factor on the flow, 0 to 1; also on the head at the best point
	Efficiency   float64 // factor
	Best         Duty    // best point in water, at the speed run
	Speed        q.Rotation
	BestAssumed  bool // Best is where flow times head is greatest, since no efficiencies were given
	SpeedAssumed bool // Speed is the usual one
	Beyond       bool // the data behind the method do not reach so far: 3 to 260 m³/h, 6 to 130 m, to 3000 mm²/s
}

// thickest is the B from which the method is not made.
const thickest = 40

// Correct returns what a liquid of kinematic viscosity nu, m²/s, takes off a
// pump whose best point in water at speed is best; a speed of 0 is not known.
func Correct(nu float64, best Duty, speed q.Rotation) Thick {
	t := Thick{Flow: 1, Efficiency: 1, Best: best, Speed: speed}
	if !(speed > 0) {
		t.Speed, t.SpeedAssumed = usualSpeed, true
	}
	mm2s := within(nu, 0, 1e2) * 1e6
	hourly := within(float64(best.Flow/q.CubicMetrePerHour), 1e-6, 1e9)
	head := within(float64(best.Head), 1e-3, 1e6)
	t.B = 16.5 * math.Sqrt(mm2s) * math.Pow(head, 0.0625) / (math.Pow(hourly, 0.375) * math.Pow(within(t.Speed.RPM(), 1e-3, 1e9), 0.25))
	t.Beyond = hourly < 3 || hourly > 260 || head < 6 || head > 130 || mm2s > 3000
	if t.Applies() {
		t.Flow = math.Pow(2.71, -0.165*math.Pow(math.Log10(t.B), 3.15)) // 2.71, as the standard prints it
		t.Efficiency = math.Pow(t.B, -0.0547*math.Pow(t.B, 0.69))
	}
	return t
}

// Applies reports whether there is anything to take off that the method covers.
func (t Thick) Applies() bool { return t.B > 1 && t.B < thickest }

// Refused reports whether the liquid is too thick for the method.
func (t Thick) Refused() bool { return t.B >= thickest }

// Head returns the factor on the head at a flow that was part times the best in water.
func (t Thick) Head(part float64) float64 {
	return max(0, 1-(1-t.Flow)*math.Pow(within(part, 0, 1e6), 0.75))
}

// points returns duties for water as they are in the liquid.
func (t Thick) points(duties []Duty) []Duty {
	out := make([]Duty, len(duties))
	for i, d := range duties {
		d.Head *= q.Head(t.Head(float64(d.Flow / t.Best.Flow)))
		d.Flow *= q.Flow(t.Flow)
		d.Efficiency *= q.Fraction(t.Efficiency)
		out[i] = d
	}
	return out
}

// best returns the point of the greatest efficiency where three points or
// more give one, else the one where flow times head is greatest, as assumed.
func (c *Curve) best() (d Duty, assumed bool) {
	from, to := c.ends()
	assumed = len(c.efficiency.x) < 3
	most := -1.0
	const steps = 64
	for i := range steps + 1 {
		t := from + (to-from)*float64(i)/steps
		flow, head := c.at(t)
		worth := flow * head
		if !assumed {
			worth, _ = c.efficiency.at(t)
		}
		if flow > 0 && worth > most {
			most = worth
			d = Duty{Flow: q.Flow(flow), Head: q.Head(head)}
		}
	}
	return d, assumed
}
