package transfer_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
)

// Hecker 1987 as in ANSI/HI 9.8-1998 section 9.8.7, S = D (1 + 2.3 Fr),
// worked out for the bores of hygienic tube; to the last digit given.
func TestSubmergence(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ bore, speed, want float64 }{
		{0.0348, 1.0, 0.1718},
		{0.0348, 1.5, 0.2403},
		{0.0475, 1.0, 0.2076},
		{0.0475, 1.5, 0.2876},
		{0.0729, 1.5, 0.3704},
	} {
		got := transfer.Submergence(q.Length(test.bore), q.Flow(test.speed*circle(test.bore)))
		assert.InDelta(t, test.want, float64(got), 0.00006, "%+v", test)
	}
}

// The same section in US units: S = D + 0.574 Q/D^1.5, inches and US gallons
// per minute. Its constant has three digits.
func TestSubmergenceInUSUnits(t *testing.T) {
	t.Parallel()
	const inch, gpm = 0.0254, 3.785411784e-3 / 60
	for _, d := range []float64{1.5, 2, 3} {
		for _, flow := range []float64{10, 30, 80} {
			want := d + 0.574*flow/math.Pow(d, 1.5)
			got := float64(transfer.Submergence(q.Length(d*inch), q.Flow(flow*gpm))) / inch
			assert.InEpsilon(t, want, got, 0.001)
		}
	}
}

// What may be drawn at a depth is the flow for which that depth is just enough.
func TestAirlessFlowIsTheInverse(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		bore := q.Length(rapid.Float64Range(0.01, 0.2).Draw(t, "bore"))
		over := q.Length(rapid.Float64Range(0, 2).Draw(t, "over"))
		flow := transfer.AirlessFlow(bore, over)
		if over <= bore {
			assert.Zero(t, flow)
			return
		}
		assert.InEpsilon(t, float64(over), float64(transfer.Submergence(bore, flow)), 1e-12)
	})
}

// At the moment of air the outlet is covered by just the submergence of the
// flow at that level, found here by fine steps down.
func TestMomentOfAir(t *testing.T) {
	t.Parallel()
	const bore, lip = 0.0348, 0.05
	at := orifice(0.61 * circle(bore))
	r := transfer.Run(transfer.Input{Vessel: cylinder(0.6), From: 0.9, To: 0.02, At: at, Bore: bore, Lip: lip})
	require.True(t, r.AirDrawn)
	level := 0.9
	for level-lip >= float64(transfer.Submergence(bore, at(q.Length(level)).Flow)) {
		level -= 1e-5
	}
	assert.InDelta(t, level, float64(r.Air.Level), 0.00011)
	// Closed form of a cylinder for the time to that level.
	want := 2 * circle(0.6) * (math.Sqrt(0.9) - math.Sqrt(float64(r.Air.Level))) / (0.61 * circle(bore) * math.Sqrt(2*g0))
	assert.InEpsilon(t, want, float64(r.Air.Time), 1e-3)
	assert.InEpsilon(t, circle(0.6)*float64(r.Air.Level), float64(r.Air.Left), 1e-9)

	r = transfer.Run(transfer.Input{Vessel: cylinder(0.6), From: 0.9, To: 0.85, At: at, Bore: bore})
	assert.False(t, r.AirDrawn, "stopped while it is well covered")
}
