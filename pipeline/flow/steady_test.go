package flow_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// Asked at one of the levels of a check, Steady answers as the check did; and
// it asks nothing of the memory.
func TestSteadyIsTheCheck(t *testing.T) {
	in := perry()
	r := flow.Check(in)
	steady := flow.NewSteady(in)
	for i, level := range in.Levels {
		want := r.Points[i]
		want.Level = flow.Level{Height: level.Height}
		assert.Equal(t, want, steady.At(level.Height))
	}
	assert.Zero(t, testing.AllocsPerRun(20, func() { steady.At(in.Levels[0].Height) }))
	in.Layout.Gravity, in.Discharge = true, q.Length(0)
	fall := flow.NewSteady(in)
	assert.Zero(t, testing.AllocsPerRun(20, func() { fall.At(in.Levels[0].Height) }))
}
