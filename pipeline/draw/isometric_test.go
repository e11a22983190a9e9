package draw

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
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// The axes of an isometric projection lie 30° to either side of the level and
// upright, with one and the same scale along all three: ISO 5456-3:1996,
// clause 5.1 (from memory), and any handbook of drawing.
func TestAxesAreIsometric(t *testing.T) {
	t.Parallel()
	for axis, degrees := range map[route.Vec]float64{{X: 1}: 30, {Y: -1}: -30, {Z: 1}: 90, {X: -1}: -150, {Y: 1}: 150} {
		p := project(axis)
		assert.InDelta(t, degrees, math.Atan2(-p.y, p.x)*180/math.Pi, 1e-9)
		assert.InDelta(t, 1, math.Hypot(p.x, p.y), 1e-12)
	}
}

// A piece's straight parts, an arc as its two tangents, lead from its one end
// to its other; a tangent of an arc is r tan(θ/2), closed form.
func TestCornersMeetTheEnds(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		far := 0.0 // a line that goes on for thousands of kilometres is known to fewer digits
		for _, p := range r.Scene.Layout.Pieces() {
			far = max(far, p.In.At.Len(), p.Out.At.Len())
		}
		for _, p := range r.Scene.Layout.Pieces() {
			if p.Kind == design.Reducer { // an eccentric one is drawn in line
				continue
			}
			at := p.In.At
			for _, s := range strokes(&p) {
				at = at.Add(s.dir.Scale(float64(s.length)))
			}
			assert.InDelta(t, 0, at.Sub(p.Out.At).Len(), max(1e-9, 1e-15*far), "%s at %v", p.Label, p.Out.At)
		}
	})
}

// Up to 1 in 10 a stretch is drawn level and its fall is told; what is within
// 1 in 10 of upright stands upright; the rest runs as it is.
func TestCourses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name           string
		dir            route.Vec
		drawn          route.Vec
		fall           q.Slope
		steep, bearing bool
	}{
		{"level to the north", route.Vec{X: 1}, route.Vec{X: 1}, 0, false, false},
		{"falls 1 in 80 to the north", route.Vec{X: 80, Z: -1}, route.Vec{X: 1}, 1.0 / 80, false, false},
		{"rises 1 in 50 to the east", route.Vec{Y: -50, Z: 1}, route.Vec{Y: -1}, -1.0 / 50, false, false},
		{"down, out of plumb by 1 in 80", route.Vec{X: 1, Z: -80}, route.Vec{Z: -1}, 0, false, false},
		{"up at 45°", route.Vec{X: 1, Z: 1}, route.Vec{X: math.Sqrt(0.5), Z: math.Sqrt(0.5)}, 0, true, false},
		{"level to the north-west", route.Vec{X: 1, Y: 1}, route.Vec{X: math.Sqrt(0.5), Y: math.Sqrt(0.5)}, 0, false, true},
	} {
		got := courseOf(c.dir.Unit())
		assert.InDelta(t, 0, got.drawn.Sub(c.drawn).Len(), 1e-9, c.name)
		assert.InDelta(t, float64(c.fall), float64(got.fall), 1e-12, c.name)
		assert.Equal(t, c.steep, got.steep, c.name)
		assert.Equal(t, c.bearing, got.bearing, c.name)
	}
	// A quadrant bearing as a surveyor writes it, from north or south to east or west.
	assert.Equal(t, "N 30° W", bearing(route.Vec{X: math.Cos(math.Pi / 6), Y: 0.5}))
	assert.Equal(t, "S 45° E", bearing(route.Vec{X: -1, Y: -1}))
}

// texts returns the words of a drawing with where they stand.
func texts(t require.TestingT, svg string) (out []struct {
	words, class string
	x, y         float64
}) {
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if token == nil {
			return out
		}
		require.NoError(t, err)
		if e, ok := token.(xml.StartElement); ok && e.Name.Local == "text" {
			attr := map[string]string{}
			for _, a := range e.Attr {
				attr[a.Name.Local] = a.Value
			}
			x, _ := strconv.ParseFloat(attr["x"], 64)
			y, _ := strconv.ParseFloat(attr["y"], 64)
			var words string
			require.NoError(t, d.DecodeElement(&words, &e))
			out = append(out, struct {
				words, class string
				x, y         float64
			}{words, attr["class"], x, y})
		}
	}
}

// Whatever the design, the drawing is well-formed, has numbers only, and shows
// every piece and every weld once.
func TestIsometricIsWhole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		if len(r.Faults) > 0 {
			t.Skip("nothing to draw")
		}
		svg := Isometric(r, rapid.IntRange(280, 1200).Draw(t, "width"))
		assert.NotContains(t, svg, "NaN")
		assert.NotContains(t, svg, "Inf")
		count := map[string]int{}
		for _, w := range texts(t, svg) {
			if w.class == "number" || strings.HasPrefix(w.words, "W") {
				count[w.words]++
			}
		}
		for i := range r.Pieces {
			assert.Equal(t, 1, count[strconv.Itoa(i+1)], "piece %d", i+1)
		}
		for i := range r.Welds {
			assert.Equal(t, 1, count["W"+strconv.Itoa(i+1)], "weld %d of %v", i+1, r.Welds)
		}
	})
}

// On paper no word of the examples lies on another.
func TestWordsStandClear(t *testing.T) {
	t.Parallel()
	all := append(design.Examples(), design.Example{Name: "demo", Design: design.Demo()})
	for _, e := range all {
		words := texts(t, Isometric(pipeline.Check(e.Design), 700))
		for i, a := range words {
			for _, b := range words[:i] {
				if math.Abs(a.y-b.y) < 11 && math.Abs(a.x-b.x) < 3.2*math.Min(float64(len(a.words)), float64(len(b.words))) {
					assert.Failf(t, "words lie on words", "%s: %q on %q", e.Name, a.words, b.words)
				}
			}
		}
	}
}

// The lengths on the drawing are from corner to corner: of a line with two
// square bends, what its straights and take-outs come to, added by hand from
// the pieces' own centrelines.
func TestLengthsAreFromCornerToCorner(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	run := r.Scene.Layout.Run
	// Between the corners of the two bends 5 and 7, a straight and half of each
	// bend: centre to end of a short bend is its radius and its straight ends.
	want := 0.0
	for _, p := range []route.Piece{run[1], run[3]} {
		want += (float64(p.Length) - math.Pi/2*float64(p.Radius)) / 2 // one straight end
		want += float64(p.Radius)                                     // r tan 45°
	}
	want += float64(run[2].Length)
	var found bool
	for _, w := range texts(t, Isometric(r, 700)) {
		found = found || w.words == q.Text(q.Length(want))
	}
	assert.True(t, found, "%s is on the drawing", q.Text(q.Length(want)))
}

// What runs off the axes has its mark: a bearing as a surveyor writes it, a
// slope in degrees, a fall as it was asked for; each once for a run.
func TestAskewIsMarked(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	turn, half := q.MustParse[q.Angle]("30°"), q.MustParse[q.Angle]("45°")
	tube := func(length string) design.Piece {
		return design.Piece{Kind: design.Straight, Length: q.MustParse[q.Length](length)}
	}
	d.Under = []design.Piece{{Kind: design.Bend, Turn: turn}} // to the north, 30° to the right
	level := tube("700 mm")
	level.Fall = q.MustParse[q.Slope]("1:60")
	d.Run = []design.Piece{level, {Kind: design.Bend, Angle: half, Turn: q.MustParse[q.Angle]("180°")}, tube("400 mm")}
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	count := map[string]int{}
	svg := Isometric(r, 700)
	for _, w := range texts(t, svg) {
		count[w.words]++
	}
	// 45° under a fall of 1 in 60, whose angle is atan(1/60) = 0.95°.
	for _, words := range []string{"falls 1:60", "falls 46°", "runs off the axes: its bearing or its slope"} {
		assert.Equal(t, 1, count[words], "%s among %v", words, count)
	}
	assert.Equal(t, 2, count["N 30° E"], "the level run and the one that goes down")
}

func BenchmarkIsometric(b *testing.B) {
	r := pipeline.Check(design.Demo())
	b.ReportAllocs()
	for b.Loop() {
		Isometric(r, 720)
	}
}
