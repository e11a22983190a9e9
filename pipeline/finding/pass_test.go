package finding_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/quantity"
)

// What was passed is read as it was, and is JSON to whoever else reads it.
func TestPassedIsWhatWasPassed(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.String()
		limit := rapid.Ptr(rapid.Custom(func(t *rapid.T) quantity.Amount {
			return quantity.Amount{Kind: quantity.Kind(rapid.IntRange(0, int(quantity.KindMoment)).Draw(t, "kind")), SI: rapid.Float64Range(-math.MaxFloat64, math.MaxFloat64).Draw(t, "limit")}
		}), true)
		verdicts := rapid.SliceOf(rapid.Custom(func(t *rapid.T) finding.Verdict {
			return finding.Verdict{
				Rule: word.Draw(t, "rule"), Level: finding.Level(rapid.IntRange(0, int(finding.Stop)).Draw(t, "level")), Piece: word.Draw(t, "piece"),
				Sentence: word.Draw(t, "sentence"), Advice: word.Draw(t, "advice"), Figure: word.Draw(t, "figure"),
				Limit: limit.Draw(t, "limit"), Measure: word.Draw(t, "measure"), Basis: word.Draw(t, "basis"),
			}
		})).Draw(t, "verdicts")
		text := finding.Pass(verdicts)
		require.True(t, json.Valid([]byte(text)), text)
		read, ok := finding.Passed(text)
		require.True(t, ok)
		require.NotNil(t, read)
		require.ElementsMatch(t, verdicts, read)
		require.Equal(t, text, finding.Pass(read), "in the order given")
	})
}

func TestPassedRefuses(t *testing.T) {
	t.Parallel()
	const words = `["r","p","s","a","f","m","b",`
	for _, text := range []string{``, `{}`, `[`, `[1]`, `["r"]`, words + `"3","",""]`, words + `"-1","",""]`, words + `"","",""]`, words + `1,"",""]`,
		words + `"1","99","1"]`, words + `"1","-1","1"]`, words + `"1","x","1"]`, words + `"1","0",""]`, words + `"1","0","1e999"]`, words + `"1","0","NaN"]`, words + `"1","","",""]`, words + `"1","",""] 2`} {
		_, ok := finding.Passed(text)
		assert.False(t, ok, text)
	}
	read, ok := finding.Passed(words + `"1","0","0.5"]`)
	require.True(t, ok)
	assert.Equal(t, "500 mm", read[0].Limit.String())
}

func FuzzPassed(f *testing.F) {
	f.Add(`["r","p","s","a","f","m","b","1","","","r","p","s","a","f","m","b","2","0","0.5"]`)
	f.Fuzz(func(t *testing.T, text string) {
		verdicts, ok := finding.Passed(text)
		if !ok {
			return
		}
		for _, v := range verdicts {
			_ = v.Level.String()
			if v.Limit != nil {
				_ = v.Limit.String()
			}
		}
		again, ok := finding.Passed(finding.Pass(verdicts))
		require.True(t, ok)
		require.Equal(t, verdicts, again)
	})
}
