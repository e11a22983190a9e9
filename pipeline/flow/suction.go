package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// SuctionAvailable returns the net positive suction head available (NPSHa),
//
//	(p - pv)/(ρ g) + z - hf
//
// at the centre of the pump's inlet, the reference plane, which is the usual
// one for a pump with a level shaft: air is the pressure on the liquid's
// surface and vapour the liquid's own, both absolute; static is z, the surface
// over the inlet's centre, negative where it lies under it; loss is hf, what
// the line loses from tank to inlet. No velocity head is added: the head is
// reckoned from a surface at rest, not from a gauge in the pipe (ISO 9906, from memory;
// Crane TP-410 example 7.32 reckons alike).
//
// A liquid at its boiling point has p - pv = 0, and one warmed further in an
// open vessel boils until it is there: pv counts as no more than p.
//
// It may be negative. A density that is not over zero counts as 1 kg/m³.
func SuctionAvailable(air, vapour q.Pressure, density q.Density, static, loss q.Head) q.Head {
	rho := within(float64(density), 1, 1e6)
	over := max(0, within(float64(air), 0, 1e9)-within(float64(vapour), 0, 1e9))
	return q.Head(over/(rho*gravity)) + q.Head(within(float64(static), -1e9, 1e9)) - q.Head(within(float64(loss), 0, 1e12))
}

// Need returns the least suction head that a pump requiring required should
// have: the greater of required + SuctionMargin and required × SuctionRatio,
// as ANSI/HI 9.6.1 sets its margins (from memory).
func (l Limits) Need(required q.Head) q.Head {
	return q.Head(math.Max(float64(required+l.SuctionMargin), float64(required)*l.SuctionRatio))
}
