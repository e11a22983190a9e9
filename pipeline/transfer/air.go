package transfer

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// gravity is standard gravity, m/s², exact (3rd CGPM, 1901).
const gravity = 9.80665

// submerged is the constant of Submergence.
const submerged = 2.3

// Submergence returns the least depth of liquid over an outlet of that bore
// that keeps a vortex from drawing air at that flow,
//
//	S = D (1 + 2.3 Fr),  Fr = v/√(g D),
//
// after G. E. Hecker (in Swirling Flow Problems at Intakes, IAHR 1987), as
// ANSI/HI 9.8-1998 section 9.8.7 has it. It was made for pump sumps that the
// liquid comes to evenly. A small tank in which the liquid turns needs more,
// one with a cross or a plate over its outlet less; by how much no source says.
// Nothing that flows backwards counts.
func Submergence(bore q.Length, flow q.Flow) q.Length {
	d := float64(bore)
	if !(d > 0 && d < 1e3) {
		return 0
	}
	speed := math.Max(float64(flow), 0) * 4 / (math.Pi * d * d)
	return q.Length(d * (1 + submerged*speed/math.Sqrt(gravity*d)))
}

// AirlessFlow returns the greatest flow for which over, the depth of liquid
// over an outlet of that bore, is the Submergence: 0 where it is no more than the bore.
func AirlessFlow(bore, over q.Length) q.Flow {
	d := float64(bore)
	if !(d > 0 && over > bore) {
		return 0
	}
	return q.Flow((float64(over)/d - 1) / submerged * math.Sqrt(gravity*d) * math.Pi * d * d / 4)
}

// air returns the first moment of curve at which the outlet is no longer
// covered deeply enough.
func (in *Input) air(curve []Moment) (Moment, bool) {
	for i := range curve {
		if !in.bare(curve[i].Level, curve[i].Flow) {
			continue
		}
		if i == 0 {
			return curve[0], true
		}
		return in.between(curve[i-1], curve[i]), true
	}
	return Moment{}, false
}

func (in *Input) bare(level q.Length, flow q.Flow) bool {
	return level-in.Lip < Submergence(in.Bore, flow)
}

// between finds the moment between a, still covered, and b, bare, to 0.01 mm: a
// dish's lowest litres stand so wide that a tenth is told in the third digit.
func (in *Input) between(a, b Moment) Moment {
	low, high := b.Level, a.Level
	at := b
	for high-low > q.Millimetre/100 {
		middle := low + (high-low)/2
		draw := in.draw(middle)
		if !in.bare(middle, draw.Flow) {
			high = middle
			continue
		}
		low = middle
		at = Moment{Level: middle, Left: in.Vessel.VolumeAt(middle), Flow: draw.Flow, Margin: draw.Margin, MarginKnown: draw.MarginKnown}
	}
	if at.Level != b.Level {
		// Between two moments of the curve the flow hardly changes: the mean
		// of the two ends serves.
		mean := float64(a.Flow+at.Flow) / 2
		at.Time = min(a.Time+q.Duration(float64(a.Left-at.Left)/math.Max(mean, least)), b.Time)
	}
	return at
}
