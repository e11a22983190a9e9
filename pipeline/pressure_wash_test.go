package pipeline_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// throttled is a siphon that a valve behind its top lets run at a trickle: up
// to the top nothing is lost.
func throttled(t *testing.T, edits ...string) design.Design {
	return laid(t, "s 300, b 0°, s 3000, b 0°, s 300, b 180°, s 3500, v butterfly-valve", "",
		append([]string{"delivery.height", "0.2 m", "run.7.kv", "0.5", "site.altitude", "2500 m"}, edits...)...)
}

// Cold perry goes over a siphon that hot wash does not: at 2500 m the air has
// 74.68 kPa (ISO 2533), and water of 80 °C, of 971.8 kg/m³, boils at 47.41 kPa
// (IAPWS R7-97, by iapws 1.5.2). At the top it stands ρ g z under the air.
func TestWashBoilsAtTheTopOfASiphon(t *testing.T) {
	t.Parallel()
	d := throttled(t)
	d.Cleaning = []design.Cleaning{{Agent: "water"}, {Agent: "hot-water"}}
	r := pipeline.Check(d)
	assert.Equal(t, finding.Sound, judged(t, r, "line-pressure").Level)

	v := judged(t, r, "wash-pressure")
	assert.Equal(t, finding.Look, v.Level)
	assert.Contains(t, v.Sentence, "With hot water, at 80 °C")
	assert.NotEmpty(t, v.Advice)
	f, ok := r.Figure("wash-least-pressure")
	require.True(t, ok)
	high := input(t, f, "z") - input(t, f, "z_s")
	assert.InDelta(t, 3, high, 0.5) // what the straight up makes, more or less
	assert.InDelta(t, 74.68e3-971.8*9.80665*high, f.Amount.SI, 200)
	assert.InDelta(t, 47.41e3, v.Limit.SI, 50)

	// Over the sea the air has 101.3 kPa: 20 kPa more than where it boils.
	assert.Equal(t, finding.Sound, judged(t, pipeline.Check(throttled(t, "site.altitude", "0 m")), "wash-pressure").Level)

	d.Cleaning = []design.Cleaning{{Agent: "water"}, {Agent: "peracetic"}} // cold
	assert.Equal(t, finding.Sound, judged(t, pipeline.Check(d), "wash-pressure").Level)
}

// A hose that a wash stands under suction, pumped as the liquid is.
func TestWashUnderSuction(t *testing.T) {
	t.Parallel()
	const run = "s 300, b 0°, h 3000, b 0°, s 300"
	v := judged(t, led(t, run, "s 1500"), "wash-hose")
	assert.Equal(t, finding.Look, v.Level)
	assert.Contains(t, v.Sentence, "With ")
	assert.Equal(t, finding.Sound, judged(t, led(t, run, "s 1500", "run.2.suction", "true"), "wash-hose").Level)
	assert.Empty(t, verdictsOf(led(t, "h 3000", "s 1500"), "wash-hose"), "under the liquid it hangs full")
}

// Of a pump that is taken for the wash nobody has said where it is connected, and
// of one without a curve not what runs: neither is judged, and that is said.
func TestWashWhoseWayIsNotKnown(t *testing.T) {
	t.Parallel()
	const run = "s 300, b 0°, h 3000, b 0°, s 300"
	told := func(r pipeline.Report, what string) {
		t.Helper()
		assert.Empty(t, verdictsOf(r, "wash-pressure"))
		assert.Empty(t, verdictsOf(r, "wash-hose"))
		said := strings.Join(r.Wash().Says, "\n")
		assert.Contains(t, said, what)
		assert.Contains(t, said, "not judged")
	}
	told(led(t, run, "s 1500", "wash.flow", "200 L/min"), "Where the pump for the wash is connected is not told")
	told(led(t, run, "s 5000", "pump.curve.0.flow", "100 L/min", "pump.curve.0.head", "2 m"), "How fast the line runs")
	assert.Contains(t, strings.Join(led(t, run, "s 1500", "wash.scavenge", "200 L/min").Wash().Says, "\n"), "draws the wash off stands is not told")
}

// At 2500 m, where the air has 74.68 kPa (ISO 2533), water of 95 °C boils in the
// open tank: at 84.6 kPa (IAPWS R7-97). By gravity as with a pump that is said.
func TestWashBoilsInTheTank(t *testing.T) {
	t.Parallel()
	for _, out := range []string{"", "s 1500"} {
		d := laid(t, "s 1500", out, "site.altitude", "2500 m")
		d.Cleaning = []design.Cleaning{{Agent: "hot-water", Temperature: q.MustParse[q.Temperature]("95 °C")}}
		r := pipeline.Check(d)
		v := judged(t, r, "wash-suction")
		assert.Equal(t, finding.Stop, v.Level)
		assert.Contains(t, v.Sentence, "boils in an open tank")
		assert.Empty(t, verdictsOf(r, "wash-pressure"))
	}
}
