package stand

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// steelDensity is that of 1.4301, EN 10088-1.
const steelDensity = 7900 // kg/m³

// gravity is the standard acceleration of free fall, CGPM 1901.
const gravity = 9.80665 // m/s²

// A property of 1.4301 at a temperature in °C.
type atHeat struct{ celsius, value float64 }

var (
	// proof is the 0.2 % proof strength in MPa: at 20 °C of hot rolled plate
	// to EN 10088-2, from there on of EN 10028-7, from memory.
	proof = []atHeat{{20, 210}, {50, 190}, {100, 157}, {150, 142}, {200, 127}}
	// elastic is the modulus of elasticity in GPa, EN 10088-1.
	elastic = []atHeat{{20, 200}, {100, 194}, {200, 186}}
)

// at reads a table between its rows, and beyond its ends as at them: steel in
// a tank that is open to the air lies within them.
func at(table []atHeat, t q.Temperature) float64 {
	c := t.Celsius()
	for i := range table {
		switch b := &table[i]; {
		case i == 0 && c <= b.celsius:
			return b.value
		case c <= b.celsius:
			a := &table[i-1]
			return a.value + (b.value-a.value)*(c-a.celsius)/(b.celsius-a.celsius)
		}
	}
	return table[len(table)-1].value
}

// section is a round tube's, in metres.
type section struct {
	area    float64 // m²
	inertia float64 // second moment, m⁴
	modulus float64 // of section, m³
}

// tube returns the section of a tube; a wall over half of the diameter makes it solid.
func tube(od, wall q.Length) section {
	d, b := float64(od), math.Max(0, float64(od-2*wall))
	s := section{area: math.Pi / 4 * (d*d - b*b), inertia: math.Pi / 64 * (d*d*d*d - b*b*b*b)}
	if d > 0 {
		s.modulus = s.inertia / (d / 2)
	}
	return s
}

// euler is the load at which a straight tube of length buckles; k is 2 for a
// cantilever and 1 between two ends that cannot move sideways.
func (s section) euler(modulus, k, length float64) float64 {
	return math.Pi * math.Pi * modulus * s.inertia / (k * length * k * length)
}

// resistance is what a tube carries before it buckles, with the partial
// factor 1.1: EN 1993-1-4:2006 5.4.2, hollow section welded or seamless, α
// 0.49, λ0 0.40, from memory.
func (s section) resistance(yield, euler float64) float64 {
	const alpha, plateau, factor = 0.49, 0.40, 1.1
	if !(euler > 0) {
		return 0
	}
	slender := math.Sqrt(s.area * yield / euler)
	phi := 0.5 * (1 + alpha*(slender-plateau) + slender*slender)
	chi := math.Min(1, 1/(phi+math.Sqrt(math.Max(0, phi*phi-slender*slender))))
	return chi * s.area * yield / factor
}
