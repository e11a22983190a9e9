package pipeline_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
)

// What would close a gap is something that moves one of its two ends: the tank
// the start of the line to the pump, the pump the start of the delivery.
func TestWhatClosesAGap(t *testing.T) {
	t.Parallel()
	advice := func(rule string, edits ...design.Edit) string {
		d, faults := design.Demo().Apply(edits...)
		require.Empty(t, faults)
		for _, v := range pipeline.Glance(d).Verdicts {
			if v.Rule == rule {
				return v.Advice
			}
		}
		t.Fatal("no " + rule)
		return ""
	}
	unfit := design.Edit{Op: "remove", Path: "delivery.pieces.0"}
	assert.Contains(t, advice("meets-delivery", unfit), "the place of the pump or the place of the outflow by")
	assert.Contains(t, advice("meets-delivery", unfit, design.Edit{Path: "pump.kind", Value: "none"}), "the height of the stand or the place of the outflow by")
	assert.Contains(t, advice("meets-pump", design.Edit{Op: "remove", Path: "run.0"}), "the height of the stand or the place of the pump inlet by")
}
