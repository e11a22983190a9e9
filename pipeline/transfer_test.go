package pipeline_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
)

// By gravity the flow dies where the level meets the height of the delivery.
func TestStopsByItself(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(plants(t)["runs dry"])
	tr := r.Transfer()
	require.True(t, tr.Alone)
	rest, ok := tr.Figure("level-of-rest")
	require.True(t, ok)
	assert.InDelta(t, 1.5, rest.Amount.SI+float64(r.Scene.TankFoot), 1e-9)
	assert.InDelta(t, rest.Amount.SI+0.001, float64(tr.Curve[len(tr.Curve)-1].Level), 1e-9)
	assert.Contains(t, tr.Summary, "dies of itself")

	// A pump of 8.2 m at no flow lifts to 9.5 m only from a level over 1.3 m.
	r = pipeline.Check(plants(t)["too high"])
	tr = r.Transfer()
	rest, ok = tr.Figure("level-of-rest")
	require.True(t, ok)
	assert.InDelta(t, 9.5-8.2, rest.Amount.SI+float64(r.Scene.TankFoot), 1e-9)
}

func TestNothingToTell(t *testing.T) {
	t.Parallel()
	assert.Contains(t, pipeline.Check(plants(t)["boiling"]).Transfer().Summary, "boils")
	assert.Equal(t, pipeline.Transfer{}, pipeline.Report{}.Transfer())
	d, faults := design.Demo().Apply(design.Edit{Path: "delivery.height", Value: "20 m"})
	require.Empty(t, faults)
	assert.Equal(t, "Nothing flows, even with the tank full.", pipeline.Check(d).Transfer().Summary)
}

// The level of air, put back into Hecker's formula by hand.
func TestLevelOfAir(t *testing.T) {
	t.Parallel()
	checked := 0
	for name, d := range plants(t) {
		f, ok := pipeline.Check(d).Transfer().Figure("level-of-air")
		if !ok {
			continue
		}
		bore, flow := input(t, f, "D"), input(t, f, "Q")
		v := 4 * flow / (math.Pi * bore * bore)
		s := bore * (1 + 2.3*v/math.Sqrt(9.80665*bore))
		assert.InDelta(t, s, f.Amount.SI-input(t, f, "h_o"), 0.0002, name)
		checked++
	}
	assert.Greater(t, checked, 3)
}

// The curve passes through the points that the check itself makes: the same
// flow at the same level.
func TestCurveMeetsTheCheck(t *testing.T) {
	t.Parallel()
	for name, d := range plants(t) {
		r := pipeline.Check(d)
		tr := r.Transfer()
		if len(tr.Curve) == 0 {
			continue
		}
		first := tr.Curve[0]
		assert.Equal(t, r.Scene.Points[0].Flow, first.Flow, name) // no tee of these plants splits the flow
		assert.Equal(t, r.Scene.Points[0].Margin, first.Margin, name)
		assert.InDelta(t, value(t, r, "level-full"), float64(first.Level), 1e-9, name)
		if !tr.Alone {
			assert.InEpsilon(t, float64(r.Scene.Points[2].Flow), float64(tr.Curve[len(tr.Curve)-1].Flow), 1e-9, name)
		}
	}
}

// A line with dairy unions has joints that carry a rating: a blow over it is told.
func TestThrownValve(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	quick, sudden := value(t, r, "surge-quick"), value(t, r, "surge-sudden")
	assert.LessOrEqual(t, quick, sudden)
	assert.Greater(t, quick, 0.0)
	for _, v := range r.Verdicts {
		assert.NotEqual(t, "surge", v.Rule, "no source rates a clamp: nothing is held against it")
	}
}

func BenchmarkTransfer(b *testing.B) {
	r := pipeline.Check(design.Demo())
	b.ReportAllocs()
	for b.Loop() {
		r.Transfer()
	}
}

// Whatever a person can say, the transfer is whole: json refuses NaN and Inf.
func TestTransferIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tr := pipeline.Check(designtest.Design(t)).Transfer()
		_, err := json.Marshal(tr)
		require.NoError(t, err)
		for _, f := range tr.Figures {
			assert.GreaterOrEqual(t, f.Amount.SI, -1e-9, f.Slug)
		}
		if tr.Drawn {
			assert.LessOrEqual(t, tr.Air, tr.Curve[len(tr.Curve)-1].Time)
		}
	})
}
