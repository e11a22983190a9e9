package pipeline

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/finding"
)

// Whatever the rooms say, nothing is lost, what stops comes before what is to
// be looked at, and of one level what presses comes first; the rest keeps its order.
func TestMostPressingFirst(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		rule := rapid.SampledFrom(append(slices.Clone(pressing[:]), "fall", "air-drawn", "a rule that nobody wrote yet"))
		var given []finding.Verdict
		for range rapid.IntRange(0, 12).Draw(t, "verdicts") {
			given = append(given, finding.Verdict{Rule: rule.Draw(t, "rule"), Level: finding.Level(rapid.IntRange(0, 2).Draw(t, "level"))})
		}
		for i := range given {
			given[i].Piece = string(rune('a' + i))
		}
		want := slices.Clone(given)
		place := func(v finding.Verdict) int {
			if i := slices.Index(pressing[:], v.Rule); i >= 0 {
				return i
			}
			return len(pressing)
		}
		slices.SortStableFunc(want, func(a, b finding.Verdict) int {
			if a.Level != b.Level {
				return int(b.Level) - int(a.Level)
			}
			return place(a) - place(b)
		})
		got := mostPressingFirst(given)
		require.Len(t, got, len(given))
		if len(given) > 0 {
			assert.Equal(t, want, got)
		}
		for i, a := range got {
			for _, b := range got[i+1:] {
				if a.Rule != b.Rule || a.Level != b.Level {
					assert.NotEqual(t, Presses(a, b), Presses(b, a), "one of the two comes first")
					assert.True(t, Presses(a, b) || a.Level == b.Level && place(a) == place(b), "and it is the one that is listed first")
				}
			}
		}
	})
}

// Every rule that presses is one that some room applies: a slug that was
// changed there must be changed here.
func TestPressingRulesAreRules(t *testing.T) {
	t.Parallel()
	var source strings.Builder
	require.NoError(t, filepath.WalkDir(".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") || name == "urgency.go" || strings.HasPrefix(name, "mend") {
			return err
		}
		text, err := os.ReadFile(name)
		source.Write(text)
		return err
	}))
	for _, rule := range pressing {
		rule = strings.TrimSuffix(strings.TrimSuffix(rule, "delivery"), "pump") // "meets-" is joined with either
		assert.Contains(t, source.String(), `"`+rule+`"`)
	}
}
