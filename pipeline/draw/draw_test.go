package draw

import (
	"encoding/xml"
	"io"
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
)

// walk reads a drawing with an XML parser that knows nothing of how it was
// written, and hands over each element.
func walk(t require.TestingT, svg string, element func(name string, attr map[string]string)) {
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		require.NoError(t, err)
		if e, ok := token.(xml.StartElement); ok {
			attr := map[string]string{}
			for _, a := range e.Attr {
				attr[a.Name.Local] = a.Value
			}
			element(e.Name.Local, attr)
		}
	}
}

// Every drawing is well-formed, and every mark lies inside it, at any width.
func TestDrawingsAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		if len(r.Faults) > 0 {
			t.Skip("nothing to draw")
		}
		width := rapid.IntRange(280, 1600).Draw(t, "width")
		var w, h float64
		walk(t, Elevation(r, width, 1), func(name string, attr map[string]string) {
			if name == "svg" {
				w, _ = strconv.ParseFloat(attr["width"], 64)
				h, _ = strconv.ParseFloat(attr["height"], 64)
				assert.Equal(t, float64(width), w)
				assert.LessOrEqual(t, h, tallest+1)
			}
			for _, a := range []string{"x", "x1", "x2", "cx", "y", "y1", "y2", "cy"} {
				v, ok := attr[a]
				if !ok {
					continue
				}
				n, err := strconv.ParseFloat(v, 64)
				require.NoError(t, err, "%s=%q", a, v)
				most := w
				if strings.Contains(a, "y") {
					most = h
				}
				assert.GreaterOrEqual(t, n, -60.0, "%s of %s", a, name)
				assert.LessOrEqual(t, n, most+60, "%s of %s", a, name)
			}
		})
		for _, svg := range []string{Curve(r, width), SuctionHead(r, r.Reserve(), width), Stays(r, r.Stays(), width)} {
			assert.NotContains(t, svg, "NaN")
			walk(t, svg, func(name string, attr map[string]string) {
				for _, a := range []string{"x", "x1", "x2", "cx"} {
					if v, ok := attr[a]; ok {
						n, err := strconv.ParseFloat(v, 64)
						require.NoError(t, err, "%s=%q", a, v)
						assert.GreaterOrEqual(t, n, 0.0, "%s of %s", a, name)
						assert.LessOrEqual(t, n, float64(width), "%s of %s", a, name)
					}
				}
			})
		}
	})
}

// What is drawn of a plant no larger than a hand lies in its picture, too: its
// tubes are as wide there as the picture is high. By geometry alone.
func TestSmallPlantIsWhole(t *testing.T) {
	for _, under := range []string{"bend", "tee", "butterfly-valve"} {
		for _, bottom := range []string{"bottom", "side"} {
			d, faults := design.ReadFile([]byte(`{"drawoff":1,"tank":{"bore":"300 mm","height":"150 mm","fill":"10 L","lowest":"1 mm","bottom":"flat",
				"outlet":{"place":"` + bottom + `","above":"60 mm","size":"bs-4825/4in","end":"clamp/ferrule"}},"under":[{"kind":"` + under + `","in":"clamp/ferrule","out":"clamp/ferrule"}],"stand":{"height":"10 mm"},"pump":{"kind":"none"}}`))
			require.Empty(t, faults)
			if bottom == "bottom" {
				d, faults = d.Apply(design.Edit{Path: "tank.height", Value: "6 mm"}, design.Edit{Path: "tank.fill"})
				require.Empty(t, faults)
			}
			r := pipeline.Check(d)
			require.Empty(t, r.Faults)
			for _, width := range []int{280, 360, 1100, 1600} {
				var h float64
				walk(t, Elevation(r, width, 1), func(name string, attr map[string]string) {
					if name == "svg" {
						h, _ = strconv.ParseFloat(attr["height"], 64)
					}
					for _, a := range []string{"y", "y1", "y2", "cy"} {
						if v, ok := attr[a]; ok {
							y, err := strconv.ParseFloat(v, 64)
							require.NoError(t, err)
							assert.GreaterOrEqual(t, y, 0.0, "%s of %s, %s, %d wide", a, name, under, width)
							assert.LessOrEqual(t, y, h, "%s of %s, %s, %d wide", a, name, under, width)
						}
					}
				})
			}
		}
	}
}

// On the demo no number covers another, on a phone or a desk.
func TestNumbersStandClear(t *testing.T) {
	for _, width := range []int{320, 358, 720, 1100} {
		type dot struct{ x, y float64 }
		var dots []dot
		r := pipeline.Check(design.Demo())
		walk(t, Elevation(r, width, 1), func(name string, attr map[string]string) {
			if attr["class"] == "number" {
				x, _ := strconv.ParseFloat(attr["x"], 64)
				y, _ := strconv.ParseFloat(attr["y"], 64)
				dots = append(dots, dot{x, y})
			}
		})
		require.Len(t, dots, len(r.Pieces))
		for i, a := range dots {
			for _, b := range dots[:i] {
				dx, dy := a.x-b.x, a.y-b.y
				assert.GreaterOrEqual(t, dx*dx+dy*dy, (2*balloonRadius)*(2*balloonRadius), "at width %d", width)
			}
		}
	}
}

// However flat the tank and however long the line, no height is written over
// another, over the floor's line or over the edge, nor one level over another.
func TestHeightsStandClear(t *testing.T) {
	plant := func(tank, away string) design.Design {
		d, faults := design.ReadFile([]byte(`{"drawoff":1,"tank":{` + tank + `,"outlet":{"size":"din-11850-1/dn50","end":"dairy-union/male"}},
			"under":[{"kind":"butterfly-valve","in":"dairy-union/liner","out":"dairy-union/male"},{"kind":"sight-glass","in":"dairy-union/liner","out":"dairy-union/male"},{"kind":"bend","in":"dairy-union/liner","out":"dairy-union/male"}],
			"run":[{"kind":"straight","in":"dairy-union/liner","out":"dairy-union/liner","fit":true,"fall":"1:80"}],
			"pump":{"kind":"lobe","away":"` + away + `","height":"300 mm","inSize":"din-11850-1/dn50","inEnd":"dairy-union/male","slip":[{"pressure":"0 bar","flow":"100 L/min"},{"pressure":"3 bar","flow":"90 L/min"}]},
			"delivery":{"pieces":[{"kind":"straight","in":"dairy-union/liner","fit":true},{"kind":"bend"},{"kind":"straight","length":"1 m"}],"height":"1.2 m"}}`))
		require.Empty(t, faults)
		return d
	}
	for _, d := range []design.Design{plant(`"bore":"6 m","height":"400 mm","bottom":"flat"`, "4 m"), plant(`"bore":"1 m","height":"1.2 m"`, "30 m"), plant(`"bore":"600 mm","height":"8 m"`, "2 m")} {
		r := pipeline.Check(d)
		require.Empty(t, r.Faults)
		for _, width := range []int{320, 358, 753} {
			type word struct {
				class string
				x, y  float64
			}
			var words []word
			floor := 0.0
			walk(t, Elevation(r, width, 1), func(name string, attr map[string]string) {
				number := func(a string) float64 { v, _ := strconv.ParseFloat(attr[a], 64); return v }
				switch attr["class"] {
				case "dim-text", "small":
					words = append(words, word{attr["class"], number("x"), number("y")})
				case "ground":
					floor = number("y1")
				}
			})
			require.Greater(t, len(words), 5)
			for i, a := range words {
				for _, b := range words[:i] {
					if a.class == b.class && a.x == b.x {
						assert.GreaterOrEqual(t, math.Abs(a.y-b.y), textSize*0.95, "at width %d", width)
					}
				}
				assert.True(t, a.y < floor || a.y > floor+textSize, "at width %d", width)
			}
		}
	}
}

// A piece with a name that is markup stays a name.
func TestTitleIsWords(t *testing.T) {
	d := design.Demo()
	d.Title = "</svg><script>alert(1)</script>"
	assert.NotContains(t, Elevation(pipeline.Check(d), 700, 1), "<script")
}

func BenchmarkElevation(b *testing.B) {
	r := pipeline.Check(design.Demo())
	b.ReportAllocs()
	for b.Loop() {
		Elevation(r, 720, 1)
	}
}
