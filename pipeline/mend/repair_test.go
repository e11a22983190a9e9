package mend_test

import (
	"math"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/mend"
)

// counts returns how many verdicts of each rule are at that level or over it.
func counts(r pipeline.Report, level finding.Level) map[string]int {
	n := map[string]int{}
	for _, v := range r.Verdicts {
		if v.Level >= level {
			n[v.Rule]++
		}
	}
	return n
}

// repaired makes every repair that is offered for v, one at a time. Each can
// be made, leaves v's rule with one verdict less that is not sound, and no
// rule with more stops than it had but those that were told beforehand.
func repaired(t require.TestingT, d design.Design, r pipeline.Report, v finding.Verdict) (pairs, all int) {
	ways := mend.Ways(d, r, v)
	require.LessOrEqual(t, len(ways), 4)
	before, stopped := counts(r, finding.Look), counts(r, finding.Stop)
	for i, w := range ways {
		require.True(t, strings.HasSuffix(w.Sentence, "."), w.Sentence)
		require.True(t, w.Together == 0 || i == 0 && !w.Stops() && !w.Trades, "changes together come first, stop nothing and trade nothing")
		changed, faults := d.Apply(w.Edits...)
		require.Empty(t, faults, w.Sentence)
		after := pipeline.Check(changed)
		require.Empty(t, after.Faults, w.Sentence)
		require.Less(t, counts(after, finding.Look)[v.Rule], before[v.Rule], "%s: %s", v.Sentence, w.Sentence)
		told := map[string]int{}
		for _, b := range w.Brings {
			require.NotEqual(t, v.Rule, b.Rule)
			if b.Level == finding.Stop {
				told[b.Rule]++
			}
		}
		for rule, n := range counts(after, finding.Stop) {
			require.LessOrEqual(t, n, stopped[rule]+told[rule], "%s is stopped untold by: %s", rule, w.Sentence)
		}
		if w.Together > 0 {
			pairs++
		}
	}
	return pairs, len(ways)
}

// answerable returns the verdicts of r that may have a way out.
func answerable(r pipeline.Report) (out []finding.Verdict) {
	for _, v := range r.Verdicts {
		if mend.Answers(v) {
			out = append(out, v)
		}
	}
	return out
}

// The law of repairs, on 5000 random plants: one verdict of each, in turn by
// its number, so that the common ones do not crowd out the rare.
func TestRepairsOnRandomPlants(t *testing.T) {
	t.Parallel()
	plants := rapid.Custom(designtest.Design)
	workers := runtime.GOMAXPROCS(0)
	for worker := range workers {
		t.Run(strconv.Itoa(worker), func(t *testing.T) {
			t.Parallel()
			judged, offered, pairs := 0, 0, 0
			for seed := worker; judged*workers < designs; seed += workers {
				d := plants.Example(seed)
				r := pipeline.Check(d)
				vs := answerable(r)
				if len(vs) == 0 {
					continue // nothing to mend, or not to be worked out
				}
				two, all := repaired(t, d, r, vs[judged%len(vs)])
				judged, offered, pairs = judged+1, offered+all, pairs+two
			}
			t.Logf("of %d plants %d repairs were made, %d of them pairs", judged, offered, pairs)
			assert.Greater(t, offered, judged/2)
			assert.Positive(t, pairs)
		})
	}
}

// likely are the fields that somebody may well change in a plant, with what to.
var likely = [...]struct {
	path   string
	values []string
}{
	{"stand.height", []string{"", "600 mm", "700 mm", "820 mm", "1100 mm", "30 in"}},
	{"stand.bucket", []string{"", "350 mm", "500 mm"}},
	{"stand.legs", []string{"3", "4", "5"}},
	{"stand.legWall", []string{"", "1 mm"}},
	{"tank.lowest", []string{"20 mm", "300 mm"}},
	{"pump.away", []string{"1.2 m", "1.9 m", "3 m"}},
	{"pump.aside", []string{"", "150 mm"}},
	{"pump.height", []string{"150 mm", "300 mm", "700 mm"}},
	{"pump.faces", []string{"", "4°"}},
	{"delivery.height", []string{"900 mm", "1.8 m", "4 m"}},
	{"delivery.flow", []string{"", "60 L/min", "300 L/min"}},
	{"liquid.temperature", []string{"4 °C", "60 °C", "85 °C", "98 °C"}},
	{"site.ceiling", []string{"", "2.4 m"}},
	{"limits.reach", []string{"", "1.6 m"}},
	{"run.0.fit", []string{"true", "false"}},
	{"run.0.length", []string{"", "900 mm"}},
	{"run.0.fall", []string{"", "1:50", "1:300"}},
	{"run.0.size", []string{"", "din-11850-2/dn40"}},
	{"under.0.in", []string{"clamp/ferrule", "ring-joint/liner"}},
	{"seal", []string{"", "nbr", "fkm"}},
}

// likelyPlant is one that somebody may well build: an example with a few numbers changed.
func likelyPlant(t *rapid.T) design.Design {
	d := rapid.SampledFrom(design.Examples()).Draw(t, "example").Design
	for range rapid.IntRange(1, 4).Draw(t, "changes") {
		f := rapid.SampledFrom(likely[:]).Draw(t, "field")
		changed, faults := d.Apply(set(f.path, rapid.SampledFrom(f.values).Draw(t, f.path)))
		if len(faults) == 0 && len(changed.Validate()) == 0 {
			d = changed
		}
	}
	return d
}

// The same on likely plants, every verdict of each.
func TestRepairsOnLikelyPlants(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := likelyPlant(t)
		r := pipeline.Check(d)
		for _, v := range answerable(r) {
			repaired(t, d, r, v)
		}
	})
}

// beginning returns the first way out whose sentence begins so.
func beginning(t *testing.T, ways []mend.Way, words string) mend.Way {
	t.Helper()
	for _, w := range ways {
		if strings.HasPrefix(w.Sentence, words) {
			return w
		}
	}
	require.Failf(t, "not offered", "%s… in:\n%s", words, sentences(ways))
	return mend.Way{}
}

// A repair of a number is the least that does it, in steps of 5 mm: the tank
// is raised to what the need with its doubt asks for, and no further.
func TestRaisedByNoMoreThanNeeded(t *testing.T) {
	t.Parallel()
	d, r := changed(t)
	need := 0.0
	for _, driver := range r.Drivers {
		if driver.Slug == "bucket" {
			need = float64(driver.Needed + driver.Either)
		}
	}
	w := beginning(t, mend.Ways(d, r, about(t, r, "stand-height", "stand")), "Raise the tank")
	after, faults := d.Apply(w.Edits...)
	require.Empty(t, faults)
	assert.InDelta(t, math.Ceil(need/0.005)*0.005, float64(after.Stand.Height.Value()), 1e-9)
	assert.Zero(t, w.Together)
}

// It is raised in the unit that its height was typed in, whatever is shown.
func TestRaisedInTheUnitThatWasTyped(t *testing.T) {
	t.Parallel()
	for typed, unit := range map[string]string{"76 cm": " cm", "0.76 m": " m", "30 in": " in", "2 ft 6 in": " in"} {
		d, r := changed(t, design.Edit{Path: "stand.height", Value: typed})
		w := beginning(t, mend.Ways(d, r, about(t, r, "stand-height", "stand")), "Raise the tank")
		after, faults := d.Apply(w.Edits...)
		require.Empty(t, faults)
		assert.Regexp(t, `\d`+unit+`$`, after.Stand.Height.String(), typed)
		step := 0.005
		if unit == " in" {
			step = 0.0254 / 4
		}
		steps := float64(after.Stand.Height.Value()) / step
		assert.InDelta(t, math.Round(steps), steps, 1e-6, "%s after %s is set with a tape", after.Stand.Height, typed)
	}
}

// The feet are set out until it tips on no less than the limit, 10°: a step
// less and it still tips too soon. Somebody who types inches is answered in them.
func TestFeetSetOutByNoMoreThanNeeded(t *testing.T) {
	t.Parallel()
	for step, typed := range map[float64]string{0.005: "456 mm", 0.0254 / 4: "18 in"} {
		d, r := changed(t, set("stand.feet", typed))
		w := beginning(t, mend.Ways(d, r, about(t, r, "tipping", "stand")), "Set the feet")
		after, faults := d.Apply(w.Edits...)
		require.Empty(t, faults)
		feet := float64(after.Stand.Feet.Value())
		assert.InDelta(t, math.Round(feet/step)*step, feet, 1e-9, "on the steps of a tape")
		assert.Equal(t, strings.HasSuffix(typed, "in"), strings.HasSuffix(after.Stand.Feet.String(), "in"))
		tips := func(feet float64) float64 {
			d, faults := d.Apply(set("stand.feet", strconv.FormatFloat(feet, 'f', 6, 64)+" m"))
			require.Empty(t, faults)
			least := math.Inf(1)
			for _, p := range pipeline.Check(d).Stability().Curve {
				least = math.Min(least, float64(p.Tip)*180/math.Pi)
			}
			return least
		}
		assert.GreaterOrEqual(t, tips(feet), 9.99) // of 31 levels: the worst may lie between
		assert.Less(t, tips(feet-step), 10.0)
	}
}

// What is offered for the demo costs few checks: on a phone each takes some
// milliseconds.
func TestRepairsOfTheDemoAreCheap(t *testing.T) {
	t.Parallel()
	d, r := changed(t)
	checks, mended := 0, 0
	for _, v := range answerable(r) {
		ways, n := mend.Cost(d, r, v)
		checks += n
		assert.NotEmpty(t, ways, v.Sentence)
		mended++
	}
	t.Logf("%d verdicts, %d checks", mended, checks)
	assert.LessOrEqual(t, checks, 60)
}

// Where an outflow stands higher than raising the tank or lowering it can
// answer, each by the metre that they may be moved, the two together do it.
func TestPair(t *testing.T) {
	t.Parallel()
	var settling design.Design
	for _, e := range design.Examples() {
		if e.Slug == "settling" {
			settling = e.Design
		}
	}
	d, faults := settling.Apply(set("delivery.height", "2.5 m"), set("delivery.away", ""), set("stand.height", "600 mm"))
	require.Empty(t, faults)
	r := pipeline.Check(d)
	ways := mend.Ways(d, r, about(t, r, "gravity-flow", "delivery"))
	require.NotEmpty(t, ways)
	assert.Equal(t, 2, ways[0].Together)
	assert.Regexp(t, `^Raise the tank by .*\. Lower the outflow by .*\.$`, ways[0].Sentence)
	pairs, _ := repaired(t, d, r, about(t, r, "gravity-flow", "delivery"))
	assert.Equal(t, 1, pairs)
}
