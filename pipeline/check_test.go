package pipeline_test

import (
	"encoding/json"
	"math"
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

func value(t require.TestingT, r pipeline.Report, slug string) float64 {
	f, ok := r.Figure(slug)
	require.True(t, ok, "no figure %s", slug)
	return f.Amount.SI
}

// Golf balls have a diameter of at least 42.67 mm (R&A and USGA, Equipment
// Rules, part 4, section 3): one rolls out through 2 in tube and not through
// 1½ in.
func TestGolfBallPasses(t *testing.T) {
	const ball = 0.04267
	for size, passes := range map[string]bool{"bs-4825/2in": true, "bs-4825/1.5in": false} {
		d, faults := design.Demo().Apply(
			design.Edit{Path: "tank.outlet.size", Value: size}, design.Edit{Path: "under.0.to", Value: size},
			design.Edit{Path: "pump.inSize", Value: size})
		require.Empty(t, faults)
		r := pipeline.Check(d)
		require.Empty(t, r.Faults)
		assert.Equal(t, passes, value(t, r, "largest-sphere") >= ball, size)
	}
}

// Where no height is typed the tank stands at the least height that every
// need allows: no need is left short, and the largest has less than the step
// of 5 mm to spare.
func TestLeastHeight(t *testing.T) {
	d, faults := design.Demo().Apply(design.Edit{Path: "stand.height"})
	require.Empty(t, faults)
	r := pipeline.Check(d)
	require.NotEmpty(t, r.Drivers)
	least := math.Inf(1)
	for _, n := range r.Drivers {
		least = min(least, float64(n.Slack))
	}
	assert.GreaterOrEqual(t, least, -1e-9)
	assert.Less(t, least, 0.005)
}

// An impossible fill is a fault that names what the tank holds.
func TestOverfull(t *testing.T) {
	d, faults := design.Demo().Apply(design.Edit{Path: "tank.fill", Value: "9000 L"})
	require.Empty(t, faults)
	r := pipeline.Check(d)
	require.Len(t, r.Faults, 1)
	assert.Equal(t, "tank.fill", r.Faults[0].Field)
	assert.Contains(t, r.Faults[0].Hint, "brimful")
	assert.Empty(t, r.Verdicts)
}

// Whatever a person can say, the report is whole: it marshals, and no number
// in it is missing or unbounded (json refuses NaN and Inf).
func TestReportIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		r := pipeline.Check(d)
		out, err := json.Marshal(r)
		require.NoError(t, err)
		again, err := json.Marshal(pipeline.Check(d))
		require.NoError(t, err)
		assert.Equal(t, string(out), string(again), "the same design gives the same bytes")
		for _, f := range r.Figures {
			assert.False(t, math.IsNaN(f.Amount.SI) || math.IsInf(f.Amount.SI, 0), f.Slug)
			assert.NotEmpty(t, f.Source, f.Slug)
			assert.NotEmpty(t, f.Formula, f.Slug)
		}
		seen := map[string]bool{}
		for _, f := range r.Figures {
			assert.False(t, seen[f.Slug], "figure %s twice", f.Slug)
			seen[f.Slug] = true
		}
		for _, v := range r.Verdicts {
			assert.NotEmpty(t, v.Sentence, v.Rule)
			assert.NotEmpty(t, v.Basis, v.Rule)
			assert.Equal(t, v.Level != finding.Sound, v.Advice != "", "advice where it is not sound, and only there: %s: %s", v.Rule, v.Sentence)
			if v.Figure != "" {
				assert.True(t, seen[v.Figure], "%s points at %s", v.Rule, v.Figure)
			}
		}
	})
}

// Raising the tank never lowers the suction head of the plant as it stands:
// nothing else is changed, and the straights that fit take up the height.
// (With the flow free to grow the loss grows too, so this holds at the
// lowest of the flows: it is the head at no flow that is compared.)
func TestRaisingNeverLowersSuction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.IntRange(760, 1500).Draw(t, "low")
		by := rapid.IntRange(1, 800).Draw(t, "by")
		at := func(mm int) pipeline.Report {
			d, faults := design.Demo().Apply(design.Edit{Path: "stand.height", Value: q.Text(q.Mm(float64(mm)))})
			require.Empty(t, faults)
			return pipeline.Check(d)
		}
		a, b := at(low), at(low+by)
		before := value(t, a, "suction-head-available-lowest") + value(t, a, "suction-loss-lowest")
		after := value(t, b, "suction-head-available-lowest") + value(t, b, "suction-loss-lowest")
		assert.GreaterOrEqual(t, after, before)
		assert.GreaterOrEqual(t, value(t, b, "flow-lowest"), value(t, a, "flow-lowest"), "and never slows the pump")
	})
}

// A link and a file carry a plant unchanged: their reports are the same bytes.
func TestReportSurvivesSharing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		want, err := json.Marshal(pipeline.Check(d))
		require.NoError(t, err)
		linked, faults := design.ReadLink(design.WriteLink(d))
		require.Empty(t, faults)
		filed, faults := design.ReadFile(design.WriteFile(d))
		require.Empty(t, faults)
		for _, other := range []design.Design{linked, filed} {
			got, err := json.Marshal(pipeline.Check(other))
			require.NoError(t, err)
			assert.Equal(t, string(want), string(got))
		}
	})
}

// What a keystroke costs; Check has the rest, for whoever can wait. The
// collector runs as seldom as it does in the page: two fifths of a check is
// otherwise spent in it.
func BenchmarkGlance(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(800))
	d := design.Demo()
	b.ReportAllocs()
	for b.Loop() {
		pipeline.Glance(d)
	}
}

func BenchmarkCheck(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(800))
	d := design.Demo()
	b.ReportAllocs()
	for b.Loop() {
		pipeline.Check(d)
	}
}
