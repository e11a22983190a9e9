package mend

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Of steps of which more does more, the least that does is found, whatever was
// guessed, and is the last that was asked and did; none is found where none does.
func TestFewest(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.IntRange(1, 300).Draw(t, "most")
		least := rapid.IntRange(1, 330).Draw(t, "least")
		guess := rapid.IntRange(0, most).Draw(t, "guess")
		asked, did := 0, 0
		got := fewest(most, guess, func(step int) bool {
			asked++
			if step >= least {
				did = step
			}
			return step >= least
		})
		if least > most {
			assert.Zero(t, got)
			assert.LessOrEqual(t, asked, 6)
			return
		}
		assert.Equal(t, least, got)
		assert.Equal(t, least, did)
		assert.LessOrEqual(t, asked, 16)
		if guess == least {
			assert.LessOrEqual(t, asked, 2)
		}
	})
}

// A number moves on a grid that starts at nothing, from where it is now to the
// next line and on, either way.
func TestScale(t *testing.T) {
	t.Parallel()
	up := scale{now: 0.4562, step: 0.005, most: 100, target: 0.4711}
	assert.InDelta(t, 0.460, up.value(1), 1e-9)
	assert.InDelta(t, 0.475, up.value(up.guess()), 1e-9)
	down := scale{now: 0.4562, step: -0.005, most: 100, target: 0.4411}
	assert.InDelta(t, 0.455, down.value(1), 1e-9)
	assert.InDelta(t, 0.440, down.value(down.guess()), 1e-9)
	on := scale{now: 0.45, step: 0.005, most: 100}
	assert.InDelta(t, 0.455, on.value(1), 1e-9, "what stands on a line moves to the next")
	assert.Zero(t, on.guess())
	assert.Zero(t, scale{now: 0.45, step: 0.005, most: 100, target: 0.2}.guess(), "a target that lies behind is none")
}

// Every rule that is answered here is one that some room applies: a slug that
// was changed there must be changed here.
func TestAnsweredRulesAreRules(t *testing.T) {
	t.Parallel()
	var rooms strings.Builder
	require.NoError(t, filepath.WalkDir("..", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") ||
			filepath.Base(name) == "urgency.go" || strings.HasPrefix(name, filepath.Join("..", "mend")) {
			return err
		}
		text, err := os.ReadFile(name)
		rooms.Write(text)
		return err
	}))
	own, err := os.ReadFile("answer.go")
	require.NoError(t, err)
	slugs := regexp.MustCompile(`(?m)^\tcase (".*):$`).FindAllStringSubmatch(string(own), -1)
	require.Greater(t, len(slugs), 10)
	for _, line := range slugs {
		for _, slug := range strings.Split(line[1], ", ") {
			slug = strings.Trim(slug, `"`)
			slug = strings.TrimSuffix(strings.TrimSuffix(slug, "delivery"), "pump") // "meets-" is joined with either
			assert.Contains(t, rooms.String(), `"`+slug+`"`)
		}
	}
}
