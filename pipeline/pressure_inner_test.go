package pipeline

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/pressure"
	"drawoff/pipeline/route"
)

// By gravity, whatever the line is, the pressure at its end comes out as that
// of the air at the height of the outflow: the energy equation from the tank
// down to there loses just what the flow was solved for.
func TestGravityEndsAtThePressureOfTheAir(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		d.Pump.Kind = "none"
		r := Glance(d)
		if r.plant == nil || len(r.Faults) > 0 || !r.plant.layout.Gravity {
			return
		}
		in := r.plant.pressureInput()
		for i := range in.Levels {
			level := &in.Levels[i]
			pieces := in.Layout.Pieces()
			if n := len(pieces); !level.Flow || n == 0 || pieces[n-1].Kind == design.Tee { // what a tee draws off leaves at another speed
				continue
			}
			var p pressure.Point
			in.Along(level, func(_ *route.Piece, next pressure.Point) { p = next })
			const g = 9.80665
			left := float64(level.Height - in.Discharge) // not nothing where the loss jumps, from laminar to turbulent
			for _, run := range level.Pieces {
				left -= float64(run.Loss)
			}
			want := float64(in.Air) + float64(in.Density)*g*(float64(in.Discharge-p.At)+left)
			assert.InDelta(t, want, float64(p.Pressure), 1e-6*float64(in.Air)+1e-6*float64(in.Density)*g*math.Abs(float64(level.Height)), "level %d", i)
		}
	})
}
