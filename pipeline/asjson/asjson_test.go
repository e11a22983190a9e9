package asjson_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/quantity"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The reference is encoding/json throughout.
func reference(t require.TestingT, v any, indent string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	require.NoError(t, e.Encode(v))
	return b.String()
}

// short returns f to the nine digits that are written.
func short(f float64) float64 {
	f, _ = strconv.ParseFloat(strconv.FormatFloat(f, 'e', 8, 64), 64)
	return f
}

// sameReport holds a report against the reference, its numbers to nine digits.
func sameReport(t require.TestingT, r pipeline.Report) {
	var want, got any
	require.NoError(t, json.Unmarshal([]byte(reference(t, r, "")), &want))
	require.NoError(t, json.Unmarshal(asjson.Append(nil, r), &got))
	require.Equal(t, rounded(want), rounded(got)) // a place that is ten kilometres off has a digit more
}

func rounded(v any) any {
	switch v := v.(type) {
	case float64:
		return short(v)
	case []any:
		for i := range v {
			v[i] = rounded(v[i])
		}
	case map[string]any:
		for name := range v {
			v[name] = rounded(v[name])
		}
	}
	return v
}

func sameAsReference(t require.TestingT, v any) {
	got := asjson.Append(nil, v)
	require.Equal(t, reference(t, v, ""), string(got)+"\n")
	require.Equal(t, reference(t, v, "  "), string(asjson.Indent(got)))
}

type inner struct {
	Text  string  `json:"text,omitempty"`
	Float float64 `json:"float"`
}

type outer struct {
	inner
	Plain  bool
	Hidden string           `json:"-"`
	Int    int              `json:"int,omitempty"`
	Level  finding.Level    `json:"level"`
	Amount *quantity.Amount `json:"amount,omitempty"`
	Length quantity.Length  `json:"length,omitzero"`
	Nil    []inner          `json:"nil"`
	Empty  []inner          `json:"empty"`
	Items  []inner          `json:"items,omitempty"`
	Named  inner            `json:"named,omitzero"`
	Words  []string         `json:"words"`
	unseen int
}

func TestWritesAsTheReferenceDoes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := func(label string) inner {
			return inner{rapid.String().Draw(t, label), short(rapid.Float64().Draw(t, label))}
		}
		v := outer{
			inner: in("embedded"), Plain: rapid.Bool().Draw(t, "plain"), Hidden: "x",
			Int: rapid.Int().Draw(t, "int"), Level: finding.Level(rapid.IntRange(0, 2).Draw(t, "level")),
			Length: quantity.Length(rapid.Float64Range(-1e3, 1e3).Draw(t, "length")),
			Empty:  []inner{}, Named: in("named"), Words: rapid.SliceOf(rapid.String()).Draw(t, "words"), unseen: 1,
		}
		if rapid.Bool().Draw(t, "full") {
			v.Amount = new(quantity.Of(v.Length))
			v.Items = []inner{in("item"), {}}
		}
		sameAsReference(t, v)
	})
	for _, f := range []float64{0, math.Copysign(0, -1), 1e-6, 9.99e-7, 1e-9, 1e-10, 1e20, 1e21, 1e100, -1e-100, 1.79769313e308, 5e-324, 1.23456789e-7} {
		sameAsReference(t, f)
	}
}

func TestRefusesWhatJSONCannotSay(t *testing.T) {
	t.Parallel()
	for _, v := range []any{math.NaN(), math.Inf(1), map[string]int{}, 1i} {
		assert.Panics(t, func() { asjson.Append(nil, v) })
	}
}

// Reports are what it is for: those of the examples, and of any plant.
func TestWritesReports(t *testing.T) {
	t.Parallel()
	var first struct {
		Drawoff  int    `json:"drawoff"`
		Level    string `json:"level"`
		Transfer struct {
			Summary string `json:"summary"`
		} `json:"transfer"`
	}
	for _, e := range design.Examples() {
		r := pipeline.Check(e.Design)
		sameReport(t, r)
		text := asjson.Report(r, r.Work(design.Shelf{}))
		require.NoError(t, json.Unmarshal(text, &first))
		assert.Equal(t, asjson.Version, first.Drawoff)
		assert.Equal(t, r.Level.String(), first.Level)
		assert.Equal(t, r.Transfer().Summary, first.Transfer.Summary)
		assert.True(t, strings.HasPrefix(string(text), `{"drawoff":`), "the version comes first")
	}
	rapid.Check(t, func(t *rapid.T) { sameReport(t, pipeline.Check(designtest.Design(t))) })
}
