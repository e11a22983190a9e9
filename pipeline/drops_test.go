package pipeline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// creeps is the example of a liquid that creeps, with edits.
func creeps(t *testing.T, edits ...design.Edit) design.Design {
	t.Helper()
	for _, e := range design.Examples() {
		if e.Slug != "puree" {
			continue
		}
		d, faults := e.Design.Apply(edits...)
		require.Empty(t, faults)
		return d
	}
	t.Fatal("no such example")
	return design.Design{}
}

// dropOf types in one point of what the piece at path drops.
func dropOf(path, flow, drop, with string) []design.Edit {
	at := path + ".drops.0"
	return []design.Edit{
		{Op: "insert", Path: at}, {Path: at + ".flow", Value: flow}, {Path: at + ".drop", Value: drop}, {Path: path + ".dropsIn", Value: with},
	}
}

func lossOf(t *testing.T, r pipeline.Report, ref string) float64 {
	t.Helper()
	for _, p := range r.Pieces {
		if p.Ref == ref {
			return p.Loss.SI
		}
	}
	t.Fatal("no piece " + ref)
	return 0
}

// A drop measured with the liquid itself is Δp/(ρ g) of head in it, with water
// in water's (definition of head). A power-law liquid that creeps loses with
// the flow to its index n, whatever the shape it creeps through: the stress is
// everywhere K times the rate to n (dimensional analysis; for a round tube
// Metzner & Reed 1955).
func TestMeasuredDropIsTheLoss(t *testing.T) {
	t.Parallel()
	const rho, n, g = 1050.0, 0.34, 9.80665 // of the example; the last exact
	through := func(r pipeline.Report) float64 { return r.Scene.Points[0].Flow.LitresPerMinute() }
	for _, ref := range []string{"under.0", "under.1"} {
		own := pipeline.Check(creeps(t, dropOf(ref, "240 L/min", "0.05 bar", "liquid")...))
		require.Empty(t, own.Faults)
		assert.InEpsilon(t, 5000/(rho*g)*math.Pow(through(own)/240, n), lossOf(t, own, ref), 1e-9, ref)
		water := pipeline.Check(creeps(t, dropOf(ref, "30 L/min", "0.05 bar", "water")...))
		part := through(water) / 30
		assert.InEpsilon(t, 5000/(1000*g)*part*part, lossOf(t, water, ref), 1e-9, "%s, beyond its only point: the square of the flow", ref)
	}
}

// What fittings lose below the Reynolds numbers that they were measured at is
// a guess. It is no trouble where the pump could bear twice of it; where it
// could not, measuring what is lost closes the question.
func TestMeasuringClosesWhatIsGuessed(t *testing.T) {
	t.Parallel()
	level := func(d design.Design) finding.Verdict {
		v := verdictsOf(pipeline.Check(d), "fitting-range")
		require.Len(t, v, 1)
		return v[0]
	}
	assert.Equal(t, finding.Sound, level(creeps(t)).Level, "the pump has over 6 m of suction head to spare")

	var tight []design.Edit // requires so much that only a little is left
	for _, i := range []string{"0", "1", "2"} {
		tight = append(tight, design.Edit{Path: "pump.slip." + i + ".headRequired", Value: "8.2 m"})
	}
	v := level(creeps(t, tight...))
	assert.Equal(t, finding.Look, v.Level, v.Sentence)
	measured := append(append(tight, dropOf("under.0", "60 L/min", "0.01 bar", "liquid")...), dropOf("under.1", "60 L/min", "0.015 bar", "liquid")...)
	assert.Equal(t, finding.Sound, level(creeps(t, measured...)).Level)
	assert.Empty(t, verdictsOf(pipeline.Check(creeps(t, measured...)), "sheet-liquid"))
}

// A data sheet made with water says too little of a thick liquid: under
// Reynolds number 10 000 IEC 60534-2-1 corrects a Kv (from memory).
func TestSheetOfWaterInThickLiquid(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(creeps(t, dropOf("under.0", "60 L/min", "0.01 bar", "water")...))
	require.Len(t, verdictsOf(r, "sheet-liquid"), 1)
	assert.Equal(t, "under.0", verdictsOf(r, "sheet-liquid")[0].Piece)

	kv := design.Edit{Path: "under.1.kv", Value: "40"} // the demo's butterfly valve
	thin, faults := design.Demo().Apply(kv)
	require.Empty(t, faults)
	assert.Empty(t, verdictsOf(pipeline.Check(thin), "sheet-liquid"), "perry runs at Reynolds number 50 000")
	thick, faults := thin.Apply(design.Edit{Path: "liquid.kind", Value: "sugar"}, design.Edit{Path: "liquid.strength", Value: "65 %"})
	require.Empty(t, faults)
	require.Len(t, verdictsOf(pipeline.Check(thick), "sheet-liquid"), 1)
}

// A sheet made with water holds for water, however slowly it runs; a Kv is judged
// by the Reynolds number of the valve: 33 000 for water of 1.1 mm²/s that runs
// through Kv 2 at 0.73 m³/h (Reynolds_valve of python3-fluids 1.0.22, which
// follows IEC 60534-2-1), though it is 5500 in the tube.
func TestSheetOfWaterHoldsForWater(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(design.Edit{Path: "liquid.kind", Value: "water"}, design.Edit{Path: "pump.curve.1.flow", Value: "2 L/min"}, design.Edit{Path: "pump.curve.2.flow", Value: "4 L/min"}, design.Edit{Path: "pump.curve.3.flow", Value: "6 L/min"}, design.Edit{Path: "pump.curve.4.flow", Value: "8 L/min"})
	require.Empty(t, faults)
	for _, edits := range [][]design.Edit{dropOf("under.1", "5 L/min", "0.1 bar", "water"), {{Path: "under.1.kv", Value: "1"}}} {
		trickle, faults := d.Apply(edits...)
		require.Empty(t, faults)
		r := pipeline.Check(trickle)
		require.Empty(t, r.Faults)
		require.Positive(t, r.Scene.Points[0].Flow)
		assert.Empty(t, verdictsOf(r, "sheet-liquid"))
	}
}

// What is measured with purée says nothing of the caustic that washes it out:
// there the valve loses what any such valve does.
func TestWashForgetsWhatPureeDrops(t *testing.T) {
	t.Parallel()
	flowOf := func(d design.Design) q.Flow {
		in := pipeline.Check(d).Scene.FlowInput
		in.Wash = true
		return flow.NewSteady(in).At(in.Levels[0].Height).Flow
	}
	standing := design.Edit{Path: "stand.height", Value: "726 mm"} // else it is set as high as the drop asks
	drops := append(dropOf("under.0", "1 L/min", "3 bar", "liquid"), standing)
	assert.Equal(t, flowOf(creeps(t, standing)), flowOf(creeps(t, drops...)))
}
