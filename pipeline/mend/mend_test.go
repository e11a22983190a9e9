package mend_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/mend"
)

// changed returns the demo with edits made, and the report on it.
func changed(t testing.TB, edits ...design.Edit) (design.Design, pipeline.Report) {
	t.Helper()
	d, faults := design.Demo().Apply(edits...)
	require.Empty(t, faults)
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	return d, r
}

func set(path, value string) design.Edit { return design.Edit{Path: path, Value: value} }

// about returns the one verdict of rule on piece that is not sound.
func about(t testing.TB, r pipeline.Report, rule, piece string) finding.Verdict {
	t.Helper()
	for _, v := range r.About(piece) {
		if v.Rule == rule && v.Level != finding.Sound {
			return v
		}
	}
	require.Failf(t, "no such verdict", "%s on %s in %v", rule, piece, r.Verdicts)
	return finding.Verdict{}
}

func sentences(ways []mend.Way) string {
	var b strings.Builder
	for _, w := range ways {
		b.WriteString(w.Sentence + "\n")
	}
	return b.String()
}

// Each wrong pairing of the trade has the remedy that the trade uses for it.
func TestWaysOut(t *testing.T) {
	t.Parallel()
	const metric, iso, inch = "din-11866-a/dn40", "iso-2037/38", "bs-4825/1.5in"
	for name, c := range map[string]struct {
		edits       []design.Edit
		rule, piece string
		says        []string // each in some way's sentence
	}{
		"nothing to shut when the pump stops": {
			[]design.Edit{set("under.1.kind", design.SightGlass)}, "pump-stops", "pump",
			[]string{"Put a butterfly valve in after the pump, and shut it when the pump stops."},
		},
		"a valve the wrong way round": {
			[]design.Edit{set("under.0.out", "ring-joint/liner"), set("under.1.in", "ring-joint/liner"), set("under.1.out", "ring-joint/male"), set("under.2.in", "ring-joint/male")},
			joint.RuleHalves, "under.1",
			[]string{"Turn piece 2 round.", "Change the upstream end of piece 2 to a ring joint male part."},
		},
		"two liners": {
			[]design.Edit{set("under.0.out", "ring-joint/liner"), set("under.1.in", "ring-joint/liner")},
			joint.RuleHalves, "under.1",
			[]string{"Change the downstream end of piece 1 to a ring joint male part.", "Put in an adaptor"},
		},
		"a ring joint at a clamp": {
			[]design.Edit{set("under.1.in", "ring-joint/liner")},
			joint.RuleFamily, "under.1",
			[]string{"Change the upstream end of piece 2 to a clamp ferrule.", "clamp ferrule to ring joint male part"},
		},
		"a tube end at the pump's clamp": {
			[]design.Edit{set("run.4.out", "weld")},
			joint.RuleFamily, "pump",
			[]string{"Change the downstream end of piece 8 to a clamp ferrule."},
		},
		"a clamp of two flanges": {
			[]design.Edit{set("under.0.to", "bs-4825/2in"), set("under.1.size", inch)},
			joint.RuleSize, "under.1",
			[]string{"Put in a concentric reducer, 2 in (BS 4825-1) to 1½ in (BS 4825-1), with a clamp ferrule at each end"},
		},
		"a ledge in a clamp": {
			[]design.Edit{set("run.0.size", metric)},
			joint.RuleStep, "run.0",
			[]string{"Make piece 4, and what follows it, of the tube before it, 1½ in (BS 4825-1)."},
		},
		"a weld between look-alike tubes": { // 38.1 x 1.6 on 38 x 1.2
			[]design.Edit{set("run.1.size", iso), set("run.3.size", inch)},
			joint.RuleStep, "run.1",
			[]string{"Prepare the end before it is welded, upstream of piece 5: turn the bore of the 38.1 mm end out to 35.6 mm."},
		},
		"no seal":            {[]design.Edit{set("run.0.seal", "none")}, joint.RuleMissing, "run.0", []string{"Put in the seal of this joint, EPDM."}},
		"another seal":       {[]design.Edit{set("run.0.seal", "clamp/1in/seal/epdm")}, joint.RuleSealSize, "run.0", []string{"Put in the seal of this joint, EPDM."}},
		"caustic on FKM":     {[]design.Edit{set("seal", "fkm"), {Op: "insert", Path: "cleaning.0"}, set("cleaning.0.agent", "caustic")}, joint.RuleCleaning, "under.0", []string{"Use EPDM seals instead."}},
		"too hot for NBR":    {[]design.Edit{set("seal", "nbr"), set("liquid.kind", "water"), set("liquid.temperature", "96 °C")}, joint.RuleTemperature, "under.0", []string{"Use EPDM seals instead."}},
		"slow wash":          {nil, "wash-speed", "tank", []string{"Make the tank's outlet 1½ in (BS 4825-1) and leave out the reducer."}},
		"small ball":         {[]design.Edit{set("wash.spray", "60 L/min"), set("wash.pressure", "0.1 bar")}, "wash-spray", "tank", []string{"Take a spray ball that gives 76 L/min."}},
		"spray stays":        {[]design.Edit{set("wash.spray", "90 L/min"), set("wash.scavenge", "50 L/min")}, "wash-runoff", "tank", []string{"Draw the wash off with a pump that takes 90 L/min."}},
		"small vent":         {[]design.Edit{set("vent.bore", "10 mm")}, "vent", "tank", []string{"Open the vent to 25 mm or more."}},
		"a branch holds":     {[]design.Edit{{Op: "insert", Path: "run.1"}, set("run.1.kind", "tee"), set("run.1.turn", "180°")}, "stays-behind", "run.1", []string{"Turn the branch of piece 5 level.", "Put a valve on the branch of piece 5."}},
		"one seal of VMQ":    {[]design.Edit{set("under.1.seal", "vmq"), {Op: "insert", Path: "cleaning.0"}, set("cleaning.0.agent", "nitric")}, joint.RuleCleaning, "under.1", []string{"Use EPDM seals instead."}},
		"one ring joint":     {[]design.Edit{set("under.0.out", "ring-joint/male"), set("under.1.in", "ring-joint/liner")}, joint.RuleStrip, "under.1", []string{"Make clamp joints of them."}},
		"a step at the pump": {[]design.Edit{set("pump.inSize", metric)}, joint.RuleStep, "pump", []string{"reducer, 1½ in (BS 4825-1) to DN 40 (DIN 11866 row A), with a clamp ferrule at each end, before the pump"}},
	} {
		d, r := changed(t, c.edits...)
		ways := mend.Ways(d, r, about(t, r, c.rule, c.piece))
		for _, says := range c.says {
			assert.Contains(t, sentences(ways), says, name)
		}
	}
}

// A straight that is laid 1:50 and ends too high by some millimetres closes that
// as fifty times as much of tube (slope); it is told as that, not as the loss of
// the length that was typed.
func TestCostOfMakingFit(t *testing.T) {
	t.Parallel()
	d, faults := design.ReadFile([]byte(`{"drawoff":1,"tank":{"bore":"1 m","height":"1.5 m","coneAngle":"90°","outlet":{"size":"bs-4825/2in"}},
		"under":[{"kind":"bend"}],"stand":{"height":"900 mm"},"run":[{"kind":"straight","fall":"1:50","length":"1.2 m"},{"kind":"bend","turn":"180°"},{"kind":"straight","length":"300 mm"}],
		"pump":{"kind":"none"},"delivery":{"height":"300 mm"}}`))
	require.Empty(t, faults)
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	high := -r.Scene.Layout.Discharge.By.Z
	require.Greater(t, high, 0.02)
	ways := mend.Ways(d, r, about(t, r, "meets-delivery", "delivery"))
	for _, w := range ways {
		if strings.HasPrefix(w.Sentence, "Make piece 2 fit") {
			slope := math.Sin(math.Atan(1.0 / 50))
			assert.InEpsilon(t, high/slope, float64(w.Longer), 0.01)
			return
		}
	}
	t.Fatal("not offered: ", sentences(ways))
}

// What a way out costs is what a tape measure would say: an adaptor is its
// 100 mm of tube, its two halves and what the second seal leaves open.
func TestCostOfAnAdaptor(t *testing.T) {
	t.Parallel()
	d, r := changed(t, set("under.1.in", "ring-joint/liner"))
	for _, w := range mend.Ways(d, r, about(t, r, joint.RuleFamily, "under.1")) {
		if !strings.Contains(w.Sentence, "adaptor") {
			continue
		}
		assert.Equal(t, 1, w.Joints)
		after, faults := d.Apply(w.Edits...)
		require.Empty(t, faults)
		layout := pipeline.Check(after).Scene.Layout
		put := layout.Under[1]
		assert.InDelta(t, 0.1, float64(put.Cut), 1e-9)
		// Two gaps where there was one.
		assert.InDelta(t, 0.1, float64(put.Length-put.Dims[0].Length-put.Dims[1].Length), 1e-9)
		gaps := layout.Junctions[1].Gap.Length + layout.Junctions[2].Gap.Length - r.Scene.Layout.Junctions[1].Gap.Length
		assert.InDelta(t, float64(put.Length+gaps), float64(w.Longer), 1e-9)
		return
	}
	t.Fatal("no adaptor is offered")
}

// A way out that lengthens what hangs under the tank tells that the bucket no
// longer goes under.
func TestWaysTellWhatTheyBring(t *testing.T) {
	t.Parallel()
	d, r := changed(t, set("stand.height", "790 mm"), set("under.1.in", "ring-joint/liner"))
	for _, w := range mend.Ways(d, r, about(t, r, joint.RuleFamily, "under.1")) {
		if strings.Contains(w.Sentence, "adaptor") {
			require.NotEmpty(t, w.Brings)
			return
		}
	}
	t.Fatal("no adaptor is offered")
}

// Nothing is offered where there is nothing to mend.
func TestNoWays(t *testing.T) {
	t.Parallel()
	d, r := changed(t)
	for _, v := range r.Verdicts {
		if v.Level == finding.Sound {
			assert.Empty(t, mend.Ways(d, r, v))
		}
	}
	assert.Empty(t, mend.Ways(d, r, finding.Verdict{Rule: joint.RuleHalves, Level: finding.Stop, Piece: "run.99"}))
	assert.Empty(t, mend.Ways(d, r, finding.Verdict{Rule: "moonbeams", Level: finding.Stop}))
	assert.Empty(t, mend.Ways(design.Design{}, pipeline.Check(design.Design{}), finding.Verdict{Rule: joint.RuleHalves, Level: finding.Stop}))
}

func BenchmarkWays(b *testing.B) {
	d, r := changed(b, set("under.1.in", "ring-joint/liner"))
	v := about(b, r, joint.RuleFamily, "under.1")
	for b.Loop() {
		mend.Ways(d, r, v)
	}
}

// A tank that is raised off a line which can give neither up nor down takes it
// further from the pump, and says so where it missed that before, too.
func TestFurtherOffIsToldEvenOfALineThatMissed(t *testing.T) {
	t.Parallel()
	d, faults := design.Own(design.Edit{Path: "tank.bore", Value: "1.2 m"}, design.Edit{Path: "tank.height", Value: "1.3 m"}, design.Edit{Path: "tank.outlet.size", Value: "bs-4825/2in"},
		design.Edit{Path: "pump.away", Value: "4 m"}, design.Edit{Path: "pump.height", Value: "300 mm"})
	require.Empty(t, faults)
	d, faults = d.Apply(design.Edit{Path: "pump.aside", Value: "200 mm"})
	require.Empty(t, faults)
	r := pipeline.Check(d)
	raised := 0
	for _, v := range r.Verdicts {
		if v.Rule != "stand-height" || v.Level == finding.Sound {
			continue
		}
		for _, w := range mend.Ways(d, r, v) {
			if len(w.Edits) == 1 && w.Edits[0].Path == "stand.height" {
				raised++
				assert.True(t, w.Stops(), w.Sentence)
			}
		}
	}
	assert.Positive(t, raised)
}
