package pipeline_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// What would close a gap is something that moves one of its two ends: the tank
// the start of the line to the pump, the pump the start of the delivery
// (plane geometry).
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

// The one height at which a line meets its pump is told as what it is held to.
func TestTheOnlyHeightIsToldAsItsNeed(t *testing.T) {
	t.Parallel()
	told := 0
	for _, away := range []string{"1.8 m", "2.345 m", "4 m", "4.444 m"} {
		d, faults := design.Own(design.Edit{Path: "tank.bore", Value: "1.2 m"}, design.Edit{Path: "tank.height", Value: "1.3 m"}, design.Edit{Path: "tank.outlet.size", Value: "din-11850-1/dn50"},
			design.Edit{Path: "pump.away", Value: away}, design.Edit{Path: "pump.height", Value: "300 mm"})
		require.Empty(t, faults)
		for _, v := range pipeline.Check(d).Verdicts {
			if v.Rule == "stand-height" {
				told++
				assert.Contains(t, v.Sentence, "The outlet face at "+q.AtLeast(q.Length(v.Limit.SI))+" over the floor meets every need")
			}
		}
	}
	assert.Equal(t, 4, told)
}
