package pipeline_test

import (
	"encoding/json"
	"regexp"
	"slices"
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
	q "drawoff/pipeline/quantity"
)

// tellTwice are the rules that say a number twice and mean it, with why.
var tellTwice = map[string]string{
	"stays-behind":   "of what stays in all, the most at one place",
	"meets-pump":     "how far the line misses, and then in which way",
	"meets-delivery": "how far the line misses, and then in which way",
	"liquid-range":   "where a range ends, and that the value there is used",
	"boiling":        "the liquid may scald at just the heat that it boils at",
}

var (
	byAHair    = regexp.MustCompile(`a hair (?:under|over) \S+( [^\s,.;:]+)?`)
	inBrackets = regexp.MustCompile(`\([^)]*\)`)
	measure    = regexp.MustCompile(`1:\d[\d.]*|-?\d[\d.]*(?: \d+/\d+)? ?(?:mm|cm|m³/h|m/s|m|L/min|US gal/min|L|mL|kPa|MPa|Pa|bar|psi|°C|°F|°P|°|%|kg|lb|min|s|kN|N|lbf|rpm|in|ft|kW)\b|\d[\d.]*(?:°|%)`)
)

// saidTwice returns the measure that a sentence says twice, "" where none is.
func saidTwice(sentence string) string {
	seen := map[string]bool{}
	sentence = byAHair.ReplaceAllString(inBrackets.ReplaceAllString(sentence, ""), "")
	for _, m := range measure.FindAllString(sentence, -1) {
		if seen[m] && !strings.HasPrefix(m, "0 ") { // nothing is like nothing
			return m
		}
		seen[m] = true
	}
	return ""
}

// measures are the paths of all that d, as usual filled, has a quantity for.
func measures(t require.TestingT, d design.Design) (paths []string) {
	filled := d.Filled()
	var tree any
	require.NoError(t, json.Unmarshal(design.WriteFile(filled), &tree))
	var walk func(at any, path string)
	walk = func(at any, path string) {
		in := func(name string) string {
			if path == "" {
				return name
			}
			return path + "." + name
		}
		switch at := at.(type) {
		case map[string]any:
			for name, member := range at {
				walk(member, in(name))
			}
		case []any:
			for i, item := range at {
				walk(item, in(strconv.Itoa(i)))
			}
		default:
			if _, ok := filled.Amount(path); ok {
				paths = append(paths, path)
			}
		}
	}
	walk(tree, "")
	slices.Sort(paths)
	return paths
}

// judgedWith is what every rule says of every piece, the gravest of it, with
// the quantity at path set to an amount; nil where that is no design.
func judgedWith(d design.Design, path string, a q.Amount) map[string]finding.Verdict {
	symbol, n := a.Kind.Unit(q.Metric), a.In(q.Metric)
	if a.Kind == q.KindSlope {
		symbol, n = "%", 100*a.SI
	}
	d, faults := d.Apply(design.Edit{Path: path, Value: strconv.FormatFloat(n, 'f', 12, 64) + " " + symbol})
	if len(faults) > 0 {
		return nil
	}
	r := pipeline.Check(d)
	if len(r.Faults) > 0 {
		return nil
	}
	out := map[string]finding.Verdict{}
	for _, v := range r.Verdicts {
		key := v.Rule + " " + v.Piece
		if worst, ok := out[key]; !ok || v.Level > worst.Level {
			out[key] = v
		}
	}
	return out
}

// atTheEdge returns verdicts that are no longer sound, hard by where they would
// be, on the way of the quantity at path from what it is to a number of times that.
func atTheEdge(d design.Design, path string, times float64) (out []finding.Verdict) {
	filled := d.Filled()
	a, _ := filled.Amount(path)
	zero := 0.0
	if a.Kind == q.KindTemperature {
		zero = 273.15
	}
	at := func(x float64) map[string]finding.Verdict { return judgedWith(d, path, q.Amount{Kind: a.Kind, SI: x}) }
	from, to := a.SI, zero+(a.SI-zero)*times
	begins, ends := at(from), at(to)
	if begins == nil || ends == nil {
		return nil
	}
	for key, v := range ends {
		was := begins[key].Level // sound where it is silent
		if (v.Level == finding.Sound) == (was == finding.Sound) {
			continue
		}
		good, bad, last := from, to, v
		if was != finding.Sound {
			good, bad, last = to, from, begins[key]
		}
		for range 26 {
			middle := (good + bad) / 2
			now := at(middle)
			if now == nil {
				break
			}
			if now[key].Level == finding.Sound {
				good = middle
			} else {
				bad, last = middle, now[key]
			}
		}
		out = append(out, last)
	}
	return out
}

// Whatever misses its limit by a hair does not say that it is what it should
// be: no number stands on both sides. Found by moving one quantity of a plant
// to where a verdict turns.
func TestWhatMissesByAHairSaysSo(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		path := rapid.SampledFrom(measures(t, d)).Draw(t, "path")
		for _, v := range atTheEdge(d, path, rapid.SampledFrom([]float64{0.3, 0.7, 1.4, 3}).Draw(t, "times")) {
			if tellTwice[v.Rule] == "" {
				assert.Empty(t, saidTwice(v.Sentence), "%s by %s: %s", v.Rule, path, v.Sentence)
			}
		}
	})
}

// The same at the limits that a user may set.
func TestLimitsMissedByAHair(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	all := plants(t)
	for _, name := range []string{"demo", "hot", "gravity", "slower", "lobe", "side", "splayed"} {
		d, ok := all[name]
		require.True(t, ok, name)
		for _, path := range measures(t, d) {
			limit := map[string]bool{
				"limits.suctionMargin": true, "limits.suctionSpeed": true, "limits.fall": true, "limits.tip": true, "limits.floorSpace": true, "limits.deadEnd": true,
				"wash.speed": true, "stand.bucket": true, "delivery.flow": true, "tank.lowest": true, "site.ceiling": true,
			}[path]
			if !limit {
				continue
			}
			for _, times := range []float64{0.5, 3} {
				for _, v := range atTheEdge(d, path, times) {
					seen[v.Rule] = true
					if tellTwice[v.Rule] == "" {
						assert.Empty(t, saidTwice(v.Sentence), "%s by %s: %s", v.Rule, path, v.Sentence)
					}
				}
			}
		}
	}
	for _, rule := range []string{"suction-margin", "suction-speed", "fall", "tipping", "wash-speed", "stand-height", "air-drawn"} {
		assert.True(t, seen[rule], "%s was moved over its edge", rule)
	}
}
