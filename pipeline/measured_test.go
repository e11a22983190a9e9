package pipeline_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// measuring returns the report on the demo with one length measured.
func measuring(t *testing.T, part, length string) pipeline.Report {
	t.Helper()
	d := design.Demo()
	d.Measured = []design.Measurement{{Part: part, Length: q.MustParse[q.Length](length)}}
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	return r
}

// BS 4825-2 (bend table, stockholder's reproduction): a short 90° bend of 1½ in
// is 63.5 +0.5/-0 mm centre to end. A tenth is left for the reading. What no
// standard gives is only questioned when it is far off.
func TestMeasuredAgainstTheStandard(t *testing.T) {
	t.Parallel()
	const bend = "bs-4825/1.5in/bend/90/short/centre-to-end"
	const valve = "bs-4825/1.5in/butterfly-valve/clamp-ferrule/clamp-ferrule/length"
	for _, c := range []struct {
		part, length string
		questioned   bool
	}{
		{bend, "63.5 mm", false}, {bend, "64 mm", false}, {bend, "63.4 mm", false}, {bend, "64.2 mm", true}, {bend, "63.2 mm", true}, {bend, "85 mm", true},
		{valve, "52 mm", false}, {valve, "110 mm", false}, {valve, "52 cm", true}, {valve, "0.52 mm", true}, {"clamp/1.5in/ferrule/length", "12.7 mm", true},
	} {
		var found []finding.Verdict
		for _, v := range measuring(t, c.part, c.length).Verdicts {
			if v.Rule == "measured-part" {
				found = append(found, v)
			}
		}
		if !c.questioned {
			assert.Empty(t, found, "%s of %s", c.length, c.part)
			continue
		}
		require.Len(t, found, 1, "%s of %s", c.length, c.part)
		assert.Equal(t, finding.Look, found[0].Level)
		assert.Equal(t, c.part, found[0].Measure)
		assert.Contains(t, found[0].Sentence, c.length)
	}
}

// The doubt goes away as parts are measured, the first named first: every
// answer's half-width falls by what its share said.
func TestMeasuringTakesDoubtAway(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(design.Edit{Path: "stand.height"})
	require.Empty(t, faults)
	before := pipeline.Check(d)
	leg, _ := before.Figure("leg-length")
	require.NotNil(t, leg.Either)
	require.NotEmpty(t, leg.Hangs)
	outlet, _ := before.Figure("outlet-height")
	overall, _ := before.Figure("overall-height")
	// The leg's is a difference of two lengths, whose last bits go.
	assert.InDelta(t, leg.Either.SI, outlet.Either.SI, 1e-12)
	assert.Equal(t, overall.Either, outlet.Either)

	first := before.Doubtful()[0]
	assert.Equal(t, leg.Hangs[0].Dimension, first.Dimension)
	d.Measured = []design.Measurement{{Part: first.Dimension, Length: q.MustParse[q.Length](first.Length.Text(q.Metric))}}
	after, _ := pipeline.Check(d).Figure("leg-length")
	assert.InDelta(t, leg.Either.SI-float64(leg.Hangs[0].By), after.Either.SI, 1e-9)

	for len(pipeline.Check(d).Doubtful()) > 0 {
		next := pipeline.Check(d).Doubtful()[0]
		d.Measured = append(d.Measured, design.Measurement{Part: next.Dimension, Length: q.MustParse[q.Length](next.Length.Text(q.Metric))})
	}
	r := pipeline.Check(d)
	for _, f := range r.Figures {
		if f.Amount.Kind == q.KindLength { // losses have a band of their own
			assert.Nil(t, f.Either, f.Slug)
		}
	}
	for _, v := range r.Verdicts {
		assert.Empty(t, v.Measure, v.Sentence)
	}
}

// A verdict that doubt could overturn says so and what to measure first: the
// demo's bucket wants 11 mm more, give or take 48.
func TestDoubtfulVerdictSaysSo(t *testing.T) {
	t.Parallel()
	said := false
	for _, v := range pipeline.Check(design.Demo()).Verdicts {
		if v.Rule == "stand-height" {
			said = true
			assert.NotEmpty(t, v.Measure)
			assert.Contains(t, v.Sentence, "may turn out the other way")
		}
	}
	assert.True(t, said)

	d, faults := design.Demo().Apply(design.Edit{Path: "stand.height", Value: "900 mm"})
	require.Empty(t, faults)
	for _, v := range pipeline.Check(d).Verdicts {
		if v.Rule == "stand-height" {
			assert.Equal(t, finding.Sound, v.Level, "129 mm to spare is more than any doubt here")
			assert.Empty(t, v.Measure)
		}
	}
}

// A body that was measured between its weld ends, as designs had it before
// lengths went over the ends, keeps its length: 70 mm and two clamp ferrules of
// 21.5 mm (BS 4825-3). One measured over its ends is what was measured.
func TestMeasuredBetweenItsEnds(t *testing.T) {
	t.Parallel()
	const own, over = "bs-4825/1.5in/butterfly-valve/length", "bs-4825/1.5in/butterfly-valve/clamp-ferrule/clamp-ferrule/length"
	for _, row := range []struct {
		own, over string
		want      float64
	}{{"70 mm", "", 113}, {"", "101 mm", 101}, {"70 mm", "101 mm", 101}} {
		d := design.Demo()
		for part, length := range map[string]string{own: row.own, over: row.over} {
			if length != "" {
				d.Measured = append(d.Measured, design.Measurement{Part: part, Length: q.MustParse[q.Length](length)})
			}
		}
		r := pipeline.Check(d)
		require.Empty(t, r.Faults)
		assert.InDelta(t, row.want, r.Scene.Layout.Under[1].Length.Millimetres(), 1e-9)
		for _, term := range r.Scene.Layout.SuctionDoubt().Hangs {
			assert.NotEqual(t, over, term.Dimension, "nothing of it is in doubt any more")
		}
	}
}
