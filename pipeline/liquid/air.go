package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// AirPressure returns the pressure of the air at altitude above the sea in the
// standard atmosphere of ISO 2533:1975, clause 2: 101 325 Pa and 288.15 K at
// the sea, colder by 6.5 K per kilometre of geopotential. It holds from
// −2000 m to 11 000 m; beyond that altitude is held at the edge.
//
// Weather moves the real pressure by up to about 5 % either way: common
// practice, no source.
func AirPressure(altitude q.Length) q.Pressure {
	const (
		earth    = 6356766.0 // m, nominal radius
		gravity  = 9.80665   // m/s²
		air      = 287.05287 // J/(kg K), gas constant of dry air
		lapse    = 0.0065    // K/m
		warm     = 288.15    // K
		exponent = gravity / (air * lapse)
	)
	z := 0.0
	if !math.IsNaN(float64(altitude)) {
		z = held(float64(altitude), -2000, 11000)
	}
	height := earth * z / (earth + z) // geopotential: what the weaker pull up there leaves of it
	return q.Pressure(standardAtmosphere * math.Pow(1-lapse*height/warm, exponent))
}
