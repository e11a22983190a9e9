package workfile

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	"drawoff/pipeline/draw"
)

var (
	inDegrees = regexp.MustCompile(`[Ll]egs (?:stand )?at ((?:\d+°, )*\d+°)`)
	numeral   = regexp.MustCompile(`-?\d+(?:\.\d+)?`)
)

// The verdict, the side view on the page, the one at full size and the cone's
// plate tell of one turn of the legs: a leg at an angle stands R cos(angle) from
// the axis as seen from the side (plane geometry), and the seam between two.
func TestLegsStandAlikeEverywhere(t *testing.T) {
	t.Parallel()
	for _, edits := range [][]design.Edit{
		nil,
		{{Path: "stand.legs", Value: "4"}},
		{{Path: "stand.legs", Value: "5"}, {Path: "stand.splay", Value: "6°"}},
		{{Path: "stand.legs", Value: "6"}, {Path: "stand.feet", Value: "600 mm"}},
		{{Path: "pump.aside", Value: "700 mm"}, {Path: "under.2.turn", Value: "30°"}},
	} {
		r := report(t, edits...)
		var turns []float64
		degrees := func(s string) (out []float64) {
			found := inDegrees.FindStringSubmatch(s)
			require.NotNil(t, found, s)
			for _, n := range numeral.FindAllString(found[1], -1) {
				x, err := strconv.ParseFloat(n, 64)
				require.NoError(t, err)
				out = append(out, x)
			}
			return out
		}
		for _, v := range r.Verdicts {
			if v.Rule == "legs-clear" {
				turns = degrees(v.Sentence)
			}
		}
		require.Len(t, turns, r.Scene.Stand.Legs)
		_, feet := r.Scene.Stand.LegsAt()
		radius := feet.Millimetres()
		var want []float64
		for _, turn := range turns {
			want = append(want, radius*math.Cos(turn*math.Pi/180))
		}
		slices.Sort(want)
		const whole = 0.5 * math.Pi / 180 // the angles are told in whole degrees

		// At full size, in millimetres: the two sides of each leg begin at its foot.
		side := named(t, r, elevationName)
		assert.Equal(t, turns, degrees(strings.Join(side.Notes, "\n")))
		var at []float64
		half, foot := r.Scene.Stand.LegOD.Millimetres()/2, r.Scene.Stand.Foot.Millimetres()
		for _, l := range side.Lines {
			if len(l.Points) == 2 && math.Abs(l.Points[0].Y-foot) < 1e-6 && l.Points[1].Y > foot+1 {
				at = append(at, l.Points[0].X)
			}
		}
		require.Len(t, at, 2*len(turns))
		var middles []float64
		for i := 0; i < len(at); i += 2 {
			assert.InDelta(t, 2*half, at[i+1]-at[i], 1e-6)
			middles = append(middles, (at[i]+at[i+1])/2)
		}
		slices.Sort(middles)
		assert.InDeltaSlice(t, want, middles, radius*whole)

		// On the page, in pixels: from leg to leg.
		svg := draw.Elevation(r, 1000, 1)
		assert.Equal(t, turns, degrees(svg))
		seen, scale := legsSeen(t, svg)
		require.Len(t, seen, len(turns))
		slices.Sort(seen)
		for i := range seen {
			assert.InDelta(t, want[i]-want[0], (seen[i]-seen[0])/scale*1000, 2*radius*whole+2/scale)
		}

		// On the plate the legs stand to either side of the seam.
		cone := named(t, r, "cone-flat")
		notes := strings.Join(cone.Notes, "\n")
		assert.Equal(t, turns, degrees("Legs at "+strings.TrimPrefix(notes[strings.Index(notes, "With these at "):], "With these at ")))
		seam, err := strconv.ParseFloat(numeral.FindString(notes[strings.Index(notes, "put it at "):]), 64)
		require.NoError(t, err)
		nearest := 360.0
		for _, turn := range turns {
			nearest = min(nearest, math.Abs(math.Remainder(turn-seam, 360)))
		}
		assert.InDelta(t, 180/float64(len(turns)), nearest, 1.01)
	}
}

// legsSeen returns where on a drawing the legs stand on the floor, and its scale
// in pixels for a metre.
func legsSeen(t *testing.T, svg string) (at []float64, scale float64) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return at, scale
		}
		require.NoError(t, err)
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		if s, ok := attr["data-scale"]; ok {
			scale, err = strconv.ParseFloat(s, 64)
			require.NoError(t, err)
		}
		if attr["class"] == "leg" {
			n := numeral.FindAllString(attr["d"], -1)
			require.Len(t, n, 8)
			right, _ := strconv.ParseFloat(n[4], 64)
			left, _ := strconv.ParseFloat(n[6], 64)
			at = append(at, (left+right)/2)
		}
	}
}
