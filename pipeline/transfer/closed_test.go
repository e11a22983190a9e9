package transfer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
	"drawoff/pipeline/vessel"
)

const (
	g0   = 9.80665
	foot = 0.3048
)

// orifice draws through an opening at the lowest inside point: Q = Cd a √(2 g h).
func orifice(cdA float64) func(q.Length) transfer.Draw { return orificeAt(cdA, g0) }

func orificeAt(cdA, g float64) func(q.Length) transfer.Draw {
	return func(level q.Length) transfer.Draw {
		return transfer.Draw{Flow: q.Flow(cdA * math.Sqrt(2*g*float64(level)))}
	}
}

func circle(d float64) float64 { return math.Pi / 4 * d * d }

func cylinder(bore float64) vessel.Vessel {
	return vessel.Vessel{Bore: q.Length(bore), Straight: 10, Bottom: vessel.Flat}
}

// seconds runs in to the end, however slowly the last of it runs.
func seconds(t require.TestingT, in transfer.Input) float64 {
	in.Near = 1e-12
	r := transfer.Run(in)
	require.NotEmpty(t, r.Curve)
	return float64(r.End().Time)
}

// Printed examples and closed forms of tanks that empty through an opening.
// The error of the method is under 1 part in 100 000.
func TestClosedForms(t *testing.T) {
	t.Parallel()
	const (
		part = 1e-5
		hole = 0.0348 // m
		cd   = 0.61
	)
	cone := vessel.Vessel{Bore: 0.6, Straight: 1, Bottom: vessel.Cone, ConeAngle: 60 * q.Degree}
	for _, test := range []struct {
		source   string
		vessel   vessel.Vessel
		from, to float64
		cdA, g   float64
		want     float64
		half     float64 // of the last digit printed
	}{
		{"Choudhary & Prakash, Fluid Mechanics, example 6.19: 3.2 m², 10 cm², 5 m, Cd 0.6; t = 2A√h/(Cd a √2g)",
			cylinder(math.Sqrt(3.2 * 4 / math.Pi)), 5, 0, 0.6 * 10e-4, 9.81, 5384.73, 0.005},
		{"Çengel & Cimbala, Fluid Mechanics, example 5-2: 3 ft tank, 4 to 2 ft, jet of 0.5 in: 757 s = 12.6 min (the inputs from memory)",
			cylinder(3 * foot), 4 * foot, 2 * foot, circle(0.0254 / 2), 32.2 * foot, 756.8, 0.05},
		{"closed form, cylinder of 0.6 m, 0.9 to 0.1 m: t = 2A(√h1 - √h2)/(Cd a √2g)",
			cylinder(0.6), 0.9, 0.1, cd * circle(hole), g0, 139.187, 0.0005},
		{"closed form, cone of 60°, R 0.3 m, from full: t = 2/5 π (R/H)² h^2.5/(Cd a √2g)",
			cone, 0.3 / math.Tan(math.Pi/6), 0, cd * circle(hole), g0, 31.728, 0.0005},
	} {
		got := seconds(t, transfer.Input{Vessel: test.vessel, From: q.Length(test.from), To: q.Length(test.to), At: orificeAt(test.cdA, test.g)})
		assert.InDelta(t, test.want, got, test.half+part*test.want, test.source)
	}
}

// A dish's crown is a cap of a sphere, A = π h (2R - h), which empties in
//
//	t = π (4/3 R h^1.5 - 2/5 h^2.5)/(Cd a √2g):
//
// from h = R this is the hemisphere's 14/15 π R^2.5/(Cd a √2g), 56.252 s for
// R 0.3 m, 34.8 mm and Cd 0.61.
func TestDish(t *testing.T) {
	t.Parallel()
	cdA := 0.61 * circle(0.0348)
	capTime := func(r, h float64) float64 {
		return math.Pi * (4.0/3*r*math.Pow(h, 1.5) - 0.4*math.Pow(h, 2.5)) / (cdA * math.Sqrt(2*g0))
	}
	assert.InEpsilon(t, 56.252, capTime(0.3, 0.3), 1e-5)
	dish := vessel.Vessel{Bore: 0.9, Straight: 1, Bottom: vessel.Klopper} // crown radius 0.9 m
	got := seconds(t, transfer.Input{Vessel: dish, From: 0.08, To: 0, At: orifice(cdA)})
	assert.InEpsilon(t, capTime(0.9, 0.08), got, 1e-5)

	// Through the knuckle into the shell there is no closed form: midpoint rule
	// of 200 000 steps, knowing nothing of corners.
	const steps = 200_000
	sum, step := 0.0, (0.8-0.05)/steps
	for i := range steps {
		h := 0.05 + (float64(i)+0.5)*step
		sum += dish.Area(q.Length(h)) / (cdA * math.Sqrt(2*g0*h)) * step
	}
	got = seconds(t, transfer.Input{Vessel: dish, From: 0.8, To: 0.05, At: orifice(cdA)})
	assert.InEpsilon(t, sum, got, 1e-5)
}

// Through a line the coefficient of discharge is 1/√ΣK, the exit's K = 1 in
// the sum, and the head runs to where the line ends. Cylinder of 0.6 m,
// 34.8 mm, ΣK 2.5 in all, ending 0.8 m under the tank, 0.9 to 0.1 m: closed form,
//
//	t = 2A(√(h1 + z) - √(h2 + z)) √ΣK/(a √2g) = 75.386 s.
func TestThroughALine(t *testing.T) {
	t.Parallel()
	line := flow.Line{
		{Bore: 0.0348, Loss: flow.Fitting{Turbulent: 1.5}},
		{Bore: 0.0348, Loss: flow.Exit()},
	}
	water := liquid.Water(q.Celsius(20))
	got := seconds(t, transfer.Input{Vessel: cylinder(0.6), From: 0.9, To: 0.1, At: func(level q.Length) transfer.Draw {
		return transfer.Draw{Flow: flow.Gravity(line, q.Head(level)+0.8, water)}
	}})
	assert.InEpsilon(t, 75.386, got, 1e-5)
}

// A laminar line drains a cylinder as a capacitor through a resistor:
// h = h0 exp(-t/τ), τ = 128 ν L A/(π g D⁴) by Hagen and Poiseuille. It never
// quite arrives: the transfer ends 1 mm over the outflow.
func TestLaminarLine(t *testing.T) {
	t.Parallel()
	const nu, length, bore = 2e-3, 4.0, 0.02
	syrup := liquid.Properties{Density: 1300, Viscosity: 1300 * nu}
	line := flow.Line{{Bore: bore, Length: length}}
	r := transfer.Run(transfer.Input{Vessel: cylinder(0.5), From: 1, To: 0, At: func(level q.Length) transfer.Draw {
		return transfer.Draw{Flow: flow.Gravity(line, q.Head(level)-0.2, syrup)}
	}})
	tau := 128 * nu * length * circle(0.5) / (math.Pi * g0 * math.Pow(bore, 4))
	require.True(t, r.Stops)
	assert.InDelta(t, 0.2, float64(r.Rest), 1e-9)
	assert.InEpsilon(t, 0.201, float64(r.End().Level), 1e-9)
	assert.InEpsilon(t, tau*math.Log(0.8/0.001), float64(r.End().Time), 1e-5)
}

// A pump of constant flow empties a tank in V/Q.
func TestConstantFlow(t *testing.T) {
	t.Parallel()
	v := vessel.Vessel{Bore: 0.96, Straight: 1.2, Bottom: vessel.Cone, ConeAngle: 75 * q.Degree, Opening: 0.06}
	got := seconds(t, transfer.Input{Vessel: v, From: 1.5, To: 0.05, At: func(q.Length) transfer.Draw { return transfer.Draw{Flow: 1e-3} }})
	assert.InEpsilon(t, float64(v.VolumeAt(1.5)-v.VolumeAt(0.05))/1e-3, got, 1e-6)
}

func TestNothingFlows(t *testing.T) {
	t.Parallel()
	dead := func(q.Length) transfer.Draw { return transfer.Draw{} }
	r := transfer.Run(transfer.Input{Vessel: cylinder(1), From: 1, To: 0.1, At: dead})
	assert.True(t, r.Stops)
	assert.Empty(t, r.Curve)
	assert.Equal(t, transfer.Moment{}, r.End())
	r = transfer.Run(transfer.Input{Vessel: cylinder(1), From: 0.1, To: 0.1, At: orifice(1e-3)})
	assert.Empty(t, r.Curve, "nothing to draw off")
}
