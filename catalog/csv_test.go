package catalog

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The reference is encoding/csv, on one line at a time, since no cell of ours
// holds a line break.
func TestLinesAreSplitAsTheReferenceDoes(t *testing.T) {
	t.Parallel()
	pieces := rapid.SampledFrom([]string{`"`, `""`, `,`, `a`, ` `, `½ in`, `","`, `"a"`, `\`})
	rapid.Check(t, func(t *rapid.T) {
		line := "x" + strings.Join(rapid.SliceOfN(pieces, 0, 10).Draw(t, "pieces"), "")
		if rapid.Bool().Draw(t, "quoted first") {
			line = line[1:] + ",x"
		}
		want, err := csv.NewReader(strings.NewReader(line)).Read()
		got, ok := split(line, 4)
		assert.Equal(t, err == nil, ok, line)
		if ok {
			assert.Equal(t, want, got)
		}
	})
}
