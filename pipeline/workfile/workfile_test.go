package workfile

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/plot"
)

func report(t require.TestingT, edits ...design.Edit) pipeline.Report {
	d, faults := design.Demo().Apply(edits...)
	require.Empty(t, faults)
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	return r
}

func named(t *testing.T, r pipeline.Report, name string) plot.Drawing {
	t.Helper()
	drawings, missing := Drawings(r)
	for _, d := range drawings {
		if d.Name == name {
			return d
		}
	}
	t.Fatalf("no drawing %s; missing: %v", name, missing)
	return plot.Drawing{}
}

// Everything that is offered can be had, and no two have one name.
func TestOffersAreKept(t *testing.T) {
	t.Parallel()
	r := report(t, design.Edit{Path: "stand.brace", Value: "diagonal"}, design.Edit{Path: "stand.splay", Value: "5°"},
		design.Edit{Path: "stand.legs", Value: "4"}, design.Edit{Op: "insert", Path: "run.1"}, design.Edit{Path: "run.1.kind", Value: "tee"})
	offers, missing := Offers(r)
	assert.Empty(t, missing)
	seen := map[string]bool{}
	for _, o := range offers {
		for _, name := range o.Files {
			assert.False(t, seen[name], name)
			seen[name] = true
			if name == ReportJSON {
				continue // package asjson makes it
			}
			f, ok := Make(r, name)
			require.True(t, ok, name)
			assert.Equal(t, name, f.Name)
			assert.NotEmpty(t, f.Type)
			if strings.HasSuffix(name, ".svg") {
				require.NoError(t, xml.Unmarshal([]byte(f.Content), new(struct{})), name)
			}
		}
	}
	for _, want := range []string{"leg-on-tank.pdf", "brace-lower-end.svg", "brace-upper-end.dxf", "cone-flat.pdf", "tee-1-end.pdf", "tee-1-hole.dxf", "side-view.dxf", "templates.pdf"} {
		assert.True(t, seen[want], want)
	}
	_, ok := Make(r, "side-view.pdf")
	assert.False(t, ok, "nobody prints a plant at full size")
}

// The demo's cone of 75° and 960 mm bore in 2 mm plate, by hand: r/sin 37.5°
// in the middle of the plate, and 360° sin 37.5°.
func TestConeOfTheDemo(t *testing.T) {
	t.Parallel()
	d := named(t, report(t, design.Edit{Path: "tank.seam", Value: "0 mm"}), "cone-flat")
	sin, cos := math.Sincos(37.5 * math.Pi / 180)
	low, high := (&plot.Drawing{Lines: d.Lines[:1]}).Box()
	assert.InDelta(t, (480+cos)/sin, high.Y, 0.03)
	assert.InDelta(t, 2*(480+cos)/sin, high.X-low.X, 0.06)
	rim := d.Lines[0].Points[0]
	turn := math.Abs(math.Atan2(rim.X, rim.Y)) * 2 * 180 / math.Pi
	assert.InDelta(t, 360*sin, turn, 1e-6)
	legs := 0
	for _, w := range d.Words {
		if strings.HasPrefix(w.Text, "leg ") {
			legs++
		}
	}
	assert.Equal(t, 3, legs)
}

// A side outlet has its stub's end and its hole; one in the bottom's curve is said to be none.
func TestSideOutlet(t *testing.T) {
	t.Parallel()
	r := report(t, design.Edit{Path: "tank.outlet.place", Value: "side"}, design.Edit{Path: "tank.outlet.above", Value: "450 mm"}, design.Edit{Path: "tank.bottom", Value: "korbbogen"})
	hole := named(t, r, "outlet-hole")
	low, high := (&plot.Drawing{Lines: hole.Lines[:1]}).Box()
	assert.InDelta(t, 63.5, high.Y-low.Y, 0.01, "2½ in tube")
	assert.InDelta(t, 2*482*math.Asin(31.75/482), high.X-low.X, 0.01)
	r = report(t, design.Edit{Path: "tank.outlet.place", Value: "side"}, design.Edit{Path: "tank.outlet.above", Value: "100 mm"}, design.Edit{Path: "tank.bottom", Value: "korbbogen"})
	_, missing := Drawings(r)
	assert.Contains(t, strings.Join(missing, " "), "Outlet")
}

// Legs that nobody said anything of are as long as their template, which cuts
// the tube against the tank by itself: under every bottom, splayed or not.
// Where their top was typed otherwise, the note's top, typed, takes the note away.
func TestLegsReachTheTank(t *testing.T) {
	t.Parallel()
	for _, edits := range [][]design.Edit{
		{},
		{{Path: "tank.bottom", Value: "klopper"}, {Path: "tank.fill", Value: ""}},
		{{Path: "tank.bottom", Value: "korbbogen"}, {Path: "tank.fill", Value: ""}},
		{{Path: "tank.bottom", Value: "flat"}, {Path: "tank.fill", Value: ""}},
		{{Path: "stand.feet", Value: "350 mm"}},
		{{Path: "stand.splay", Value: "8°"}},
		{{Path: "stand.splay", Value: "8°"}, {Path: "tank.bottom", Value: "flat"}, {Path: "tank.fill", Value: ""}},
		{{Path: "stand.splay", Value: "12°"}, {Path: "tank.bottom", Value: "klopper"}, {Path: "tank.fill", Value: ""}},
		{{Path: "stand.splay", Value: "6°"}, {Path: "tank.bottom", Value: "korbbogen"}, {Path: "tank.fill", Value: ""}},
		{{Path: "stand.splay", Value: "10°"}, {Path: "stand.feet", Value: "500 mm"}},
		{{Path: "stand.foot", Value: "60 mm"}, {Path: "stand.legs", Value: "4"}},
		{{Path: "tank.outlet.place", Value: "side"}, {Path: "tank.outlet.above", Value: "650 mm"}},
	} {
		d := named(t, report(t, edits...), "leg-on-tank")
		assert.NotContains(t, strings.Join(d.Notes, " "), "type ", edits)
	}
	d := named(t, report(t, design.Edit{Path: "stand.legTop", Value: "0 mm"}), "leg-on-tank")
	note := d.Notes[len(d.Notes)-1]
	_, rest, ok := strings.Cut(note, "type ")
	require.True(t, ok, note)
	top, _, _ := strings.Cut(rest, " as the top")
	d = named(t, report(t, design.Edit{Path: "stand.legTop", Value: top}), "leg-on-tank")
	assert.NotContains(t, strings.Join(d.Notes, " "), "type ")
}

// The side view has the outlet face where the report has it.
func TestSideView(t *testing.T) {
	t.Parallel()
	r := report(t)
	d := named(t, r, "side-view")
	found := false
	for _, l := range d.Lines {
		if l.Stroke == plot.Centre && len(l.Points) == 2 {
			p := l.Points[0]
			found = found || math.Abs(p.X) < 1e-6 && math.Abs(p.Y-r.Scene.Outlet.Millimetres()) < 40
		}
	}
	assert.True(t, found, "what hangs under the outlet starts at it")
}

// Whatever the design, what comes out are finite numbers and whole files.
func TestAnyDesign(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		drawings, _ := Drawings(r)
		for _, d := range drawings {
			for _, l := range d.Lines {
				for _, p := range l.Points {
					require.False(t, math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0), d.Name)
				}
			}
			assert.NotContains(t, plot.DXF(d), "NaN", d.Name)
		}
		offers, _ := Offers(r)
		if len(offers) > 0 {
			o := offers[rapid.IntRange(0, len(offers)-1).Draw(t, "offer")]
			if o.Files[0] == ReportJSON {
				return // package asjson makes it
			}
			f, ok := Make(r, o.Files[0])
			require.Less(t, len(f.Content), 20_000_000)
			assert.True(t, ok)
			assert.Greater(t, len(f.Content), 100, strconv.Itoa(len(o.Files)))
		}
	})
}
