package workfile

import (
	"encoding/csv"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
)

// readList reads a list as a spreadsheet would, with the standard library's reader.
func readList(t require.TestingT, f File) []map[string]string {
	text, marked := strings.CutPrefix(f.Content, "\ufeff")
	require.True(t, marked)
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		out = append(out, m)
	}
	return out
}

func number64(t require.TestingT, s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

// Every line, cut and weld is in its list, with its amounts.
func TestListsAreWhole(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	shelf, f := design.Shelf{}.Put("items:clamp/1.5in/ferrule:inHand", "2")
	require.Nil(t, f)
	w := r.Work(shelf)

	file, ok := List(r, w, PartsList)
	require.True(t, ok)
	assert.Equal(t, "text/csv", file.Type)
	rows := readList(t, file)
	require.Len(t, rows, len(r.Parts))
	for i, row := range rows {
		assert.Equal(t, r.Parts[i].Slug, row["Slug"])
		assert.Equal(t, r.Parts[i].Name, row["Part"])
		assert.InDelta(t, number64(t, row["For the plant"])+number64(t, row["Spare"]), number64(t, row["In hand"])+number64(t, row["To buy"]), 1e-9)
		if row["Slug"] == "clamp/1.5in/ferrule" {
			assert.Equal(t, "2", row["In hand"])
			assert.Equal(t, "4", row["To buy"])
		}
	}

	file, ok = List(r, w, CutList)
	require.True(t, ok)
	sum := map[string]float64{}
	for _, row := range readList(t, file) {
		sum[row["Mark"]] += number64(t, row["Length, mm"])
	}
	for _, s := range w.Saw {
		for i, c := range s.Pieces {
			assert.InDelta(t, c.Length.Millimetres(), sum[s.Marks[i]], 0.05+1e-9)
		}
	}

	file, ok = List(r, w, WeldList)
	require.True(t, ok)
	rows = readList(t, file)
	require.Len(t, rows, len(r.Welds))
	for i, row := range rows {
		assert.Equal(t, "W"+strconv.Itoa(i+1), row["No."])
		assert.NotEmpty(t, row["Spool"])
		assert.NotEmpty(t, row["Where"])
	}

	_, ok = List(r, w, "wine.csv")
	assert.False(t, ok)
	_, ok = List(pipeline.Report{}, pipeline.Work{}, PartsList)
	assert.False(t, ok)
}

// Whatever somebody calls a part, no cell begins as a formula does, the words
// come back from an independent reader, and the clipboard has as many cells.
func TestListsRunNothing(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.OneOf(rapid.SampledFrom([]string{"=1+1", "+44 1", "-2", "@SUM(A1)", "  =cmd", `a "b", c`, "\u00a0=x", "＝1"}), rapid.StringMatching(`[ -~äß½]{0,40}`)).Draw(t, "from")
		shelf, f := design.Shelf{}.Put("items:clamp/1.5in/ferrule:from", from)
		require.Nil(t, f)
		w := r.Work(shelf)
		file, ok := List(r, w, PartsList)
		require.True(t, ok)
		for _, row := range readList(t, file) {
			for _, cell := range row {
				bare := strings.TrimLeft(cell, " \u00a0")
				assert.False(t, bare != "" && strings.ContainsAny(bare[:1], "=+-@\t\r"), "%q", cell)
				assert.False(t, strings.HasPrefix(bare, "＝"), "%q", cell)
			}
			if row["Slug"] == "clamp/1.5in/ferrule" {
				assert.Contains(t, []string{from, "'" + from}, row["From"])
			}
		}
		lines := strings.Split(strings.TrimSuffix(Cells(r, w, PartsList), "\n"), "\n")
		require.Len(t, lines, len(w.Buy)+1)
		for _, line := range lines {
			assert.Equal(t, strings.Count(lines[0], "\t"), strings.Count(line, "\t"))
		}
	})
}
