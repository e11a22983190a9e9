package pipeline_test

import (
	"encoding/json"
	"iter"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// What is cut, ordered, welded and stood up against testdata/plants.json: 33
// plants of every family of unions, bends, tees, reducers, valves, hoses, side
// outlets and bottoms, worked out a second time by testdata/make_plants.py from
// plane geometry, the catalogue's tables and Euler, with nothing of this code.
func TestPlantsWorkedOutTwice(t *testing.T) {
	t.Parallel()
	for p, r := range twiceOver(t, "testdata/plants.json", 25) {
		w := twice{t, p.Name, r}
		w.figures(p.Figures)
		w.places(p.Places)
		w.cuts(p.Cuts)
		w.parts(p.Parts)
	}
}

// What flows, empties, washes, breathes and stands against testdata/rooms.json:
// 113 plants, 76 of them thrown by dice, worked out a second time by
// testdata/make_rooms.py from the physics, with nothing of this code.
func TestRoomsWorkedOutTwice(t *testing.T) {
	t.Parallel()
	for p, r := range twiceOver(t, "testdata/rooms.json", 100) {
		got := map[string]float64{}
		for _, figures := range [][]finding.Figure{r.Figures, r.Stability().Figures, r.Transfer().Figures, r.Wash().Figures, r.Breathing().Figures} {
			for _, f := range figures {
				got[f.Slug] = f.Amount.In(q.Metric)
			}
		}
		for slug, n := range p.Figures {
			if assert.Contains(t, got, slug, p.Name) {
				assert.InDelta(t, n, got[slug], math.Max(1e-6, 1e-3*math.Abs(n)), "%s: %s", p.Name, slug)
			}
		}
	}
}

// worked is a plant with what was worked out of it elsewhere.
type worked struct {
	Name    string
	Design  json.RawMessage
	Figures map[string]float64
	Places  map[string][2][3]float64
	Cuts    map[string]float64
	Parts   map[string]float64
}

// twiceOver goes over the plants of a file, more than so many, each with the
// report on it.
func twiceOver(t *testing.T, file string, more int) iter.Seq2[worked, pipeline.Report] {
	t.Helper()
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	var plants []worked
	require.NoError(t, json.Unmarshal(data, &plants))
	require.Greater(t, len(plants), more)
	return func(yield func(worked, pipeline.Report) bool) {
		for _, p := range plants {
			d, faults := design.ReadFile(p.Design)
			require.Empty(t, faults, p.Name)
			r := pipeline.Check(d)
			require.Empty(t, r.Faults, p.Name)
			if !yield(p, r) {
				return
			}
		}
	}
}

// twice holds a report against what was worked out of its plant elsewhere.
type twice struct {
	*testing.T
	name   string
	report pipeline.Report
}

// hair is what lengths worked out two ways may differ by, in mm: the script
// seeks where a leg meets a dish by trying.
const hair = 0.01

func (w twice) figures(want map[string]float64) {
	figures := append(w.report.Figures[:len(w.report.Figures):len(w.report.Figures)], w.report.Stability().Figures...)
	got := map[string]float64{"welds": float64(len(w.report.Welds))}
	for _, f := range figures {
		if _, wanted := want[f.Slug]; wanted {
			got[f.Slug] = f.Amount.In(q.Metric)
		}
	}
	for slug, n := range want {
		assert.Contains(w, got, slug, w.name)
		assert.InDelta(w, n, got[slug], math.Max(hair, 1e-4*math.Abs(n)), "%s: %s", w.name, slug)
	}
}

func (w twice) places(want map[string][2][3]float64) {
	for _, p := range w.report.Scene.Layout.Pieces() {
		ends, wanted := want[p.Ref]
		if !wanted {
			continue
		}
		for i, at := range []route.Vec{p.In.At, p.Out.At} {
			gap := at.Sub(route.Vec{X: ends[i][0] / 1000, Y: ends[i][1] / 1000, Z: ends[i][2] / 1000})
			assert.Less(w, gap.Len()*1000, hair, "%s: %s", w.name, p.Ref)
		}
		delete(want, p.Ref)
	}
	assert.Empty(w, want, w.name)
}

func (w twice) cuts(want map[string]float64) {
	for _, c := range w.report.Cuts {
		if c.Ref == order.Stand {
			continue
		}
		assert.InDelta(w, want[c.Ref], c.Length.Millimetres(), hair, "%s: %s", w.name, c.Ref)
		delete(want, c.Ref)
	}
	for ref, mm := range want {
		assert.InDelta(w, 0, mm, hair, "%s: %s has no cut", w.name, ref)
	}
}

// parts holds every line of the order against the script's count, and every
// count of the script against the order.
func (w twice) parts(want map[string]float64) {
	left := map[string]float64{}
	for slug, n := range want {
		left[slug] = n
	}
	for _, l := range w.report.Parts {
		if l.Slug != "" && strings.Contains(" leg-tube brace-tube foot castor adjuster", " "+strings.Split(l.Slug, "/")[0]) {
			continue
		}
		slug := l.Slug
		if _, exact := left[slug]; !exact {
			for begins := range left {
				if stem, ok := strings.CutSuffix(begins, "*"); ok && strings.HasPrefix(slug, stem) {
					slug = begins
				}
			}
		}
		n, known := left[slug]
		if assert.True(w, known, "%s: nobody asked for %s", w.name, l.Slug) {
			left[slug] = n - l.Quantity
		}
	}
	for slug, n := range left {
		assert.InDelta(w, 0, n, 0.0011, "%s: %s", w.name, slug) // tube is ordered to the millimetre above
	}
}
