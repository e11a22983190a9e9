// Package surge answers what a valve that is shut fast does to the line: how
// far the pressure rises, and how slowly it must be shut to do no harm.
//
// The liquid that runs towards the valve is stopped. Stopped at once, it is
// stopped layer by layer, by a wave that runs back to the tank; stopped over a
// longer time than the wave takes there and back, its mass as a whole pushes.
package surge

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// What a wave in a line depends on.
const (
	// Stiffness is the bulk modulus of water at 20 °C, 2.2 GPa: its speed of
	// sound there, 1483 m/s (IAPWS R7-97; Greenspan & Tschiegg 1957). At 0 °C
	// a wave is 5 % slower, at 74 °C, where water is stiffest, 4 % faster. It
	// is taken for every liquid; gas in it only makes the wave slower.
	Stiffness q.Pressure = 2.2e9
	// Steel is Young's modulus of austenitic stainless steel, 200 GPa: EN
	// 10088-1, annex of physical properties (from memory).
	Steel q.Pressure = 200e9
)

// Quick is how fast a hand shuts a quarter-turn valve without thinking, 0.5 s
// (common practice, no source).
const Quick q.Duration = 0.5

// Working is the part of a quarter turn in which such a valve stops the flow:
// fully open it hardly throttles (from memory). It brings Slow to 4 % of the
// trade's rule for quick valves, 0.07 psi for each ft/s, ft and 1/s.
const Working = 0.4

// WaveSpeed returns the speed of a pressure wave in a round tube of thin wall
// that is free to stretch along its length,
//
//	a = √(K/ρ)/√(1 + K D/(E e))
//
// (D. J. Korteweg 1878, N. E. Joukowsky 1898; ANSI/AWWA M11 has it so), for
// liquid of stiffness K. Without a wall, e = 0, it is the speed in a rigid tube.
func WaveSpeed(stiffness q.Pressure, density q.Density, bore, wall q.Length, young q.Pressure) q.Velocity {
	rho := math.Max(float64(density), 1)
	free := math.Sqrt(float64(stiffness) / rho)
	if !(wall > 0 && young > 0 && bore > 0) {
		return q.Velocity(free)
	}
	return q.Velocity(free / math.Sqrt(1+float64(stiffness)*float64(bore)/(float64(young)*float64(wall))))
}

// Sudden returns the pressure rise where a stream at speed v is stopped before
// the wave is back, Δp = ρ a v (Joukowsky 1898).
func Sudden(density q.Density, wave, v q.Velocity) q.Pressure {
	return q.Pressure(float64(density) * float64(wave) * float64(v))
}

// Slow returns the pressure rise where the stream in a line of that length, its
// speed v the mean along the length, is stopped evenly within t, more than
// 2L/a: Δp = 2 ρ L v/t (L. J. Michaud 1878). It is 0 where t is.
func Slow(density q.Density, length q.Length, v q.Velocity, t q.Duration) q.Pressure {
	if !(t > 0) {
		return 0
	}
	return q.Pressure(2 * float64(density) * float64(length) * float64(v) / float64(t))
}
