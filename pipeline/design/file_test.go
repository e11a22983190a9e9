package design_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"drawoff/pipeline/design"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A gravity plant is the shortest file without faults.
const shortFile = `{
  "drawoff": 1,
  "tank": {
    "bore": "960 mm",
    "height": "1150 mm",
    "outlet": {
      "size": "bs-4825/2in"
    }
  },
  "pump": {
    "kind": "none"
  }
}
`

func TestShortFile(t *testing.T) {
	t.Parallel()
	d, faults := design.ReadFile([]byte(shortFile))
	require.Empty(t, faults)
	assert.Equal(t, "960 mm", d.Tank.Bore.String())
	assert.Equal(t, shortFile, string(design.WriteFile(d)), "empty fields are left out, the version comes first")

	for _, file := range []string{
		"\uFEFF" + shortFile, // as some editors save
		strings.Replace(shortFile, "\n  \"drawoff\": 1,", "", 1),
		strings.ReplaceAll(shortFile, "\n", "\r\n"),
		shortFile + " \n\n",
	} {
		same, faults := design.ReadFile([]byte(file))
		assert.Empty(t, faults)
		assert.Equal(t, d, same)
	}
}

// One slip in the short file gives one fault, on its line.
func TestFileFaults(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		old, new          string // replaced in shortFile
		line              int
		field, what, hint string
	}{
		{`"960 mm"`, `"960"`, 4, "tank.bore", "has no unit", "write 960 mm or 960 in"},
		{`"960 mm"`, `960`, 4, "tank.bore", "is a bare number", `write it as text with its unit, "960 mm"`},
		{`"960 mm"`, `null`, 4, "tank.bore", "says nothing", "leave the member out"},
		{`"960 mm"`, `true`, 4, "tank.bore", "is true or false", `write it as text with its unit, "900 mm"`},
		{`"960 mm"`, `{"value": [960], "unit": "mm"}`, 4, "tank.bore", "opens an object", `write it as text with its unit, "900 mm"`},
		{`"960 mm"`, `["960 mm"]`, 4, "tank.bore", "opens a list", `write it as text with its unit, "900 mm"`},
		{`"960 mm"`, `"1 mm"`, 4, "tank.bore", "is outside what Drawoff handles", "write 50 mm to 10 m"},
		{`"height"`, `"hieght"`, 5, "tank.hieght", "is not in the format", "perhaps height was meant"},
		{`"height"`, `"Height"`, 5, "tank.Height", "is not in the format", "perhaps height was meant"},
		{`"height": "1150 mm"`, `"bore": "1 m", "height": "1150 mm"`, 5, "tank.bore", "is there twice", "keep one of the two"},
		{`    "height": "1150 mm",` + "\n", "", 3, "tank.height", "is missing", "write the straight side of the shell, 0 to 20 m"},
		{`"size": "bs-4825/2in"`, `"size": "bs-4825/2im"`, 7, "tank.outlet.size", "is not a tube in the catalogue", "perhaps bs-4825/2in was meant"},
		{`"size": "bs-4825/2in"`, `"size": 2`, 7, "tank.outlet.size", "is a bare number", "write words in quotes"},
		{`"outlet": {`, `"stand": {"legs": 3}, "outlet": {`, 6, "tank.stand", "is not in the format", ""},
		{`"pump": {`, `"stand": {"legs": "3"}, "pump": {`, 10, "stand.legs", "is text", "write a whole number without quotes"},
		{`"pump": {`, `"stand": {"legs": 3.5}, "pump": {`, 10, "stand.legs", "is not a whole number", "write it in digits, like 3"},
		{`"pump": {`, `"stand": "high", "pump": {`, 10, "stand", "is text", "write an object in braces"},
		{`"pump": {`, `"run": {"kind": "bend"}, "pump": {`, 10, "run", "opens an object", "write a list in square brackets"},
		{`"pump": {`, `"run": ["bend"], "pump": {`, 10, "run.0", "is text", "write an object in braces"},
		{`"pump": {`, `"run": [{"kind": "hose", "length": "1 m", "fit": "true"}], "pump": {`, 10, "run.0.fit", "is text", "write true or false without quotes"},
		{`"pump": {`, `"title": "two\nlines", "pump": {`, 10, "title", "holds a control character or a line break", "take it out"},
		{`"pump": {`, `"title": "half \ud83c", "pump": {`, 10, "title", `holds half of a character, written \u`, "write the character itself"},
		{`"pump": {`, `"colour": [[[{"a": [1, 2, {}]}]]], "pump": {`, 10, "colour", "is not in the format", ""},
		{`"drawoff": 1`, `"drawoff": 2, "colour": 1`, 2, "drawoff", "the file was made by a newer Drawoff", "open it in that one; this one reads version 1"},
		{`"drawoff": 1`, `"drawoff": "1"`, 2, "drawoff", "is not a version of the file format", `write "drawoff": 1`},
		{`"drawoff": 1`, `"drawoff": 0`, 2, "drawoff", "is not a version of the file format", `write "drawoff": 1`},
		{`"drawoff": 1`, `"drawoff": null`, 2, "drawoff", "is not a version of the file format", `write "drawoff": 1`},
		{`"960 mm",`, `"960 mm"`, 5, "", "the file is not JSON", "look for a comma, a colon or a quote that is missing or too many"},
		{`"960 mm"`, `NaN`, 4, "", "the file is not JSON", "look for a comma, a colon or a quote that is missing or too many"},
		{"  }\n}\n", "", 12, "", "the file ends in the middle", "look for a brace, a bracket or a quote that is not closed"},
		{"  }\n}\n", "  }\n}\n{}\n", 14, "", "the file has something more after the design's last brace", "delete it"},
		{"  }\n}\n", "  }\n}\n}\n", 14, "", "the file has something more after the design's last brace", "delete it"},
		{"mm", "m\xff", 4, "", "the file holds a byte that is not UTF-8 text", "save the file as UTF-8"},
	} {
		file := strings.Replace(shortFile, c.old, c.new, 1)
		require.NotEqual(t, shortFile, file)
		_, faults := design.ReadFile([]byte(file))
		// A member misspelt is also a member missing.
		if len(faults) == 2 && strings.HasPrefix(faults[0].Hint, "perhaps") && faults[1].What == "is missing" {
			faults = faults[:1]
		}
		if !assert.Len(t, faults, 1, "%s: %v", c.new, faults) {
			continue
		}
		assert.Equal(t, c.field, faults[0].Field, c.new)
		assert.Equal(t, c.line, faults[0].Line, c.new)
		assert.Equal(t, c.what, faults[0].What, c.new)
		if c.hint != "" {
			assert.Equal(t, c.hint, faults[0].Hint, c.new)
		}
	}
}

// Nesting deeper than any design ends the reading; what was found before stands.
func TestNestingEndsTheReading(t *testing.T) {
	t.Parallel()
	deep := strings.Repeat("[", 20) + strings.Repeat("]", 20)
	_, faults := design.ReadFile([]byte(`{"colour": ` + deep + `, "tank": 5}`))
	require.Len(t, faults, 2)
	assert.Equal(t, "colour", faults[0].Field)
	assert.Equal(t, "the file is nested more than 16 deep", faults[1].What)
}

// One reading finds every fault.
func TestFileFaultsAreFoundTogether(t *testing.T) {
	t.Parallel()
	_, faults := design.ReadFile([]byte(`{
  "titel": "Perry",
  "tank": {
    "bore": 960,
    "height": "1150",
    "outlet": {"size": "bs-4825/2in", "end": "bayonet"}
  },
  "run": [
    {"kind": "bend"},
    {"kind": "strait", "length": "1 m"},
    {"kind": "straight", "lenght": "1 m"}
  ],
  "pump": {"kind": "none"}
}`))
	var got []string
	for _, f := range faults {
		got = append(got, fmt.Sprintf("%d %s", f.Line, f.Field))
	}
	assert.Equal(t, []string{
		"2 titel", "4 tank.bore", "5 tank.height", "11 run.2.lenght", // as read
		"6 tank.outlet.end", "10 run.1.kind", "11 run.2.length", // as validated
	}, got)
}

func TestFilesThatAreNoDesign(t *testing.T) {
	t.Parallel()
	for file, what := range map[string]string{
		"":         "the file is empty",
		" \n\t":    "the file is empty",
		"\uFEFF":   "the file is empty",
		"[]":       "the file is not a design, which is a JSON object in braces",
		`"tank"`:   "the file is not a design, which is a JSON object in braces",
		"null":     "the file is not a design, which is a JSON object in braces",
		"900":      "the file is not a design, which is a JSON object in braces",
		"<html>":   "the file is not JSON",
		"PK\x03":   "the file is not JSON",
		"{":        "the file ends in the middle",
		"\x00\xfe": "the file holds a byte that is not UTF-8 text",
	} {
		_, faults := design.ReadFile([]byte(file))
		if assert.Len(t, faults, 1, file) {
			assert.Equal(t, what, faults[0].What, "%q", file)
			assert.Positive(t, faults[0].Line, "%q", file)
			assert.NotEmpty(t, faults[0].Hint)
		}
	}
}

// Files that are made to hurt are refused with a fault or two, and quickly:
// each is read to its end at most once.
func TestHostileFiles(t *testing.T) {
	t.Parallel()
	for name, file := range map[string][]byte{
		"10 MB":           bytes.Repeat([]byte("x"), 10<<20),
		"nested":          bytes.Repeat([]byte("["), design.MaxFile),
		"nested objects":  bytes.Repeat([]byte(`{"tank":`), 1000),
		"nested unknowns": []byte(`{"x":` + strings.Repeat("[", 100000)),
		"many pieces":     []byte(`{"run":[` + strings.Repeat(`{},`, 300000) + `{}]}`),
		"many members":    []byte(`{` + strings.Repeat(`"a":1,`, 150000) + `"b":1}`),
		"long string":     []byte(`{"title":"` + strings.Repeat("x", 1000000) + `"}`),
		"long name":       []byte(`{"` + strings.Repeat("x", 1000000) + `":1}`),
		"long number":     []byte(`{"stand":{"legs":` + strings.Repeat("9", 1000000) + `}}`),
		"huge exponent":   []byte(`{"stand":{"legs":1e999999999}}`),
	} {
		_, faults := design.ReadFile(file)
		require.NotEmpty(t, faults, name)
		assert.LessOrEqual(t, len(faults), 100, name)
		for _, f := range faults {
			assert.Less(t, len(f.String()), 2000, name)
		}
	}
	_, faults := design.ReadFile([]byte(`{"run":[` + strings.Repeat(`{},`, 300000) + `{}]}`))
	assert.Equal(t, "has more than 200 items", faults[0].What)
	assert.Equal(t, "run", faults[0].Field)
}

func BenchmarkReadFile(b *testing.B) {
	data := design.WriteFile(plant())
	for b.Loop() {
		design.ReadFile(data)
	}
}
