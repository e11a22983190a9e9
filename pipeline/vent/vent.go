// Package vent answers what air a tank must draw and give while it is emptied,
// filled and rinsed, so that it does not fold up.
//
// What it says are cautions with numbers, never a pass: it covers tanks that
// stand open to the air. A tank that can be shut, steamed or pressed with gas
// is for a licensed designer, and the opening that a pump needs is nothing
// beside what steam draws when it meets cold water.
package vent

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

const (
	// Discharge is the coefficient of a sharp orifice, 0.6 (Miller; from memory).
	Discharge = 0.6

	airConstant = 287.05   // J/(kg K), of dry air: ISO 2533:1975
	gasConstant = 8.314463 // J/(mol K): CODATA 2018
	roomWarmth  = q.Temperature(293.15)

	// Of saturated steam at 100 °C and 101.325 kPa, IAPWS R7-97.
	steamDensity = 0.5981 // kg/m³
	steamHeat    = 2256.5 // kJ/kg, that it gives up condensing
	steamWarmth  = q.Temperature(373.124)
	seaLevel     = q.Pressure(101325)

	waterCapacity = 4.1855 // kJ/(kg K), mean of 15 to 90 °C, IAPWS R7-97

	sodiumHydroxide = 0.039997 // kg/mol
)

// AirDensity returns that of dry air at 20 °C under p, absolute.
func AirDensity(p q.Pressure) q.Density {
	return q.Density(float64(p) / (airConstant * float64(roomWarmth)))
}

// Orifice returns the bore of a sharp-edged opening through which so much air
// passes at a difference of pressure, √(4 Q/(π C √(2 Δp/ρ))). It holds for
// differences that are small beside the air's own pressure; 0 where nothing
// passes or nothing presses.
func Orifice(flow q.Flow, difference q.Pressure, density q.Density) q.Length {
	if flow <= 0 || difference <= 0 || density <= 0 {
		return 0
	}
	speed := Discharge * math.Sqrt(2*float64(difference)/float64(density))
	return q.Length(math.Sqrt(4 * float64(flow) / (math.Pi * speed)))
}

// SteamDensity returns that of the steam of water that boils at boiling under
// p, absolute: as at 100 °C, by the gas law. Within 0.5 % of IAPWS R7-97 down
// to 60 kPa.
func SteamDensity(p q.Pressure, boiling q.Temperature) q.Density {
	return q.Density(steamDensity * float64(p/seaLevel) * float64(steamWarmth/boiling))
}

// Condensed returns the steam of a density that a flow of cold water, of its
// own, takes away as it warms up from one temperature to another.
func Condensed(water q.Flow, density q.Density, from, to q.Temperature, steam q.Density) q.Flow {
	rise := max(0, float64(to-from))
	return q.Flow(float64(water) * float64(density) * waterCapacity * rise / (steamHeat * float64(steam)))
}

// Shut returns what is left, absolute, in a tank that was shut full of air and
// steam, saturated, at from under p, and has cooled to to. The vapour
// pressures of water are those at the two temperatures.
func Shut(p, vapourFrom, vapourTo q.Pressure, from, to q.Temperature) q.Pressure {
	if from <= 0 {
		return p
	}
	return q.Pressure(max(0, float64(p-vapourFrom))*float64(to)/float64(from)) + vapourTo
}

// Swallows returns how much carbon dioxide at 20 °C under p caustic turns into
// soda: 2 NaOH + CO₂.
func Swallows(caustic q.Mass, p q.Pressure) q.Volume {
	if p <= 0 {
		return 0
	}
	return q.Volume(float64(caustic) / sodiumHydroxide / 2 * gasConstant * float64(roomWarmth) / float64(p))
}

// Result is what Check has to say.
type Result struct {
	Figures  []finding.Figure  `json:"figures"`
	Verdicts []finding.Verdict `json:"-"` // a report has them among its own
	Cautions []string          `json:"cautions"`
}
