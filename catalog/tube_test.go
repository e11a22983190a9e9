package catalog_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// hair is the tolerance for decimal millimetres held in binary metres.
const hair = 1e-9

func tube(t *testing.T, slug string) catalog.Tube {
	t.Helper()
	tube, ok := catalog.FindTube(slug)
	require.True(t, ok, slug)
	return tube
}

func TestTubeBores(t *testing.T) {
	t.Parallel()
	// Bores in mm, each worked out by hand as OD less two walls from:
	// DIN 11850:1985-07 Table 1 (unofficial translation), whose three ranges
	// share the bore of a DN; DIN 11866 row A repeats range 2 (trade press).
	din := map[string]float64{
		"dn10": 10, "dn15": 16, "dn20": 20, "dn25": 26, "dn32": 32, "dn40": 38,
		"dn50": 50, "dn65": 66, "dn80": 81, "dn100": 100, "dn125": 125, "dn150": 150,
	}
	want := map[string]float64{
		// BS 4825-1 sizes on a UK stockholder's data sheet for BS 4825-2.
		"bs-4825/0.5in": 10.3, "bs-4825/0.625in": 13.48, "bs-4825/0.75in": 16.65, "bs-4825/1in": 22.2,
		"bs-4825/1.5in": 34.9, "bs-4825/2in": 47.6, "bs-4825/2.5in": 60.3, "bs-4825/3in": 73, "bs-4825/4in": 97.6,
		// ASTM A270 tube mill's table: DIN 11866 row C.
		"asme-bpe/0.5in": 9.4, "asme-bpe/0.75in": 15.75, "asme-bpe/1in": 22.1, "asme-bpe/1.5in": 34.8,
		"asme-bpe/2in": 47.5, "asme-bpe/2.5in": 60.2, "asme-bpe/3in": 72.9, "asme-bpe/4in": 97.38, "asme-bpe/6in": 146.86,
		// DIN 11866 row B: walls from memory.
		"din-11866-b/dn8": 10.3, "din-11866-b/dn10": 14, "din-11866-b/dn15": 18.1, "din-11866-b/dn20": 23.7,
		"din-11866-b/dn25": 29.7, "din-11866-b/dn32": 38.4, "din-11866-b/dn40": 44.3, "din-11866-b/dn50": 56.3,
		"din-11866-b/dn65": 72.1, "din-11866-b/dn80": 84.3, "din-11866-b/dn100": 109.7, "din-11866-b/dn125": 134.5,
		"din-11866-b/dn150": 163.1,
		// ISO 2037 and SMS 3008: from memory.
		"iso-2037/25": 22.6, "iso-2037/33.7": 31.3, "iso-2037/38": 35.6, "iso-2037/40": 37.6,
		"iso-2037/51": 48.6, "iso-2037/63.5": 60.3, "iso-2037/76.1": 72.9, "iso-2037/101.6": 97.6,
	}
	for dn, bore := range din {
		for _, series := range []string{"din-11866-a", "din-11850-1", "din-11850-3"} {
			want[series+"/"+dn] = bore
		}
	}
	for slug, bore := range want {
		assert.InDelta(t, bore, tube(t, slug).Bore().Millimetres(), hair, slug)
	}
}

func TestTubeOuterDiameters(t *testing.T) {
	t.Parallel()
	inch := func(in float64) float64 { return in * 25.4 }
	for _, tube := range catalog.Tubes() {
		size := strings.TrimSuffix(tube.Slug[len(tube.Series)+1:], "in")
		switch tube.Series {
		case "bs-4825", "asme-bpe", "as-1528":
			// Inch tube is named by its true OD (BS 4825-1, ASTM A270, AS 1528.1),
			// printed to a tenth or a hundredth of a millimetre.
			if strings.HasSuffix(tube.Slug, "in") {
				assert.InDelta(t, inch(number(t, size)), tube.OD.Millimetres(), 0.051, tube.Slug)
			}
		case "iso-2037", "sms-3008": // named by the OD in mm
			assert.InDelta(t, number(t, size), tube.OD.Millimetres(), hair, tube.Slug)
		}
	}
	// ODs of EN ISO 1127, as reproduced in EN 10253-4 fitting tables, DN 15 to DN 80.
	for i, od := range []float64{21.3, 26.9, 33.7, 42.4, 48.3, 60.3, 76.1, 88.9} {
		dn := []string{"15", "20", "25", "32", "40", "50", "65", "80"}[i]
		assert.InDelta(t, od, tube(t, "din-11866-b/dn"+dn).OD.Millimetres(), hair, dn)
	}
	// DIN 11850:1985-07 Table 1: up to DN 50 the ranges differ by 1 mm in OD, above they are the same.
	for _, a := range catalog.Tubes() {
		if a.Series != "din-11866-a" {
			continue
		}
		dn := a.Slug[len(a.Series):]
		step := 1.0
		if number(t, strings.TrimPrefix(dn, "/dn")) > 50 {
			step = 0
		}
		assert.InDelta(t, step, (a.OD - tube(t, "din-11850-1"+dn).OD).Millimetres(), hair, dn)
		assert.InDelta(t, step, (tube(t, "din-11850-3"+dn).OD - a.OD).Millimetres(), hair, dn)
	}
}

func TestTubesAreSortedAndSensible(t *testing.T) {
	t.Parallel()
	var series []string
	for _, s := range catalog.SeriesList() {
		series = append(series, s.Slug)
		assert.NotEmpty(t, s.Name)
		assert.NotEmpty(t, s.Standard)
		assert.NotEmpty(t, s.Note)
	}
	assert.True(t, slices.IsSortedFunc(catalog.Tubes(), func(a, b catalog.Tube) int {
		if a.Series != b.Series {
			return slices.Index(series, a.Series) - slices.Index(series, b.Series)
		}
		if a.OD >= b.OD && a.Slug != b.Slug {
			return 1
		}
		return -1
	}), "by series and then by OD")
	seen := map[string]bool{}
	for _, tube := range catalog.Tubes() {
		seen[tube.Series] = true
		assert.Positive(t, float64(tube.Wall), tube.Slug)
		assert.Positive(t, float64(tube.Bore()), tube.Slug)
		// Walls of hygienic tube: BS 4825-1:1991 lists 1.2 to 3.2 mm, ASTM A270 from 0.89 mm.
		assert.GreaterOrEqual(t, tube.Wall.Millimetres(), 0.88, tube.Slug)
		assert.LessOrEqual(t, tube.Wall.Millimetres(), 3.2, tube.Slug)
		assert.NotEmpty(t, tube.Source, tube.Slug)
		assert.NotEmpty(t, tube.Size, tube.Slug)
		assert.Contains(t, tube.Name, tube.Size+" (", tube.Slug)
	}
	assert.Len(t, seen, len(series), "no series without a tube")
}

func TestMassPerMetre(t *testing.T) {
	t.Parallel()
	printed := []struct {
		slug     string
		od, wall float64
		mass     float64 // kg/m
		density  float64 // the table's factor
		half     float64 // half a unit in its last place
		source   string
		misprint bool
	}{
		{"din-11866-a/dn25", 29, 1.5, 1.03, 7.97, 0.005, "DIN 11850:1985-07 Table 1", false},
		{"din-11866-a/dn80", 85, 2, 4.16, 7.97, 0.005, "DIN 11850:1985-07 Table 1", false},
		{"din-11866-a/dn10", 13, 1.5, 0.43, 7.97, 0.005, "DIN 11850:1985-07 Table 1", false},
		{"din-11866-a/dn50", 53, 1.5, 1.90, 7.97, 0.005, "DIN 11850:1985-07 Table 1", true},
		{"din-11866-a/dn100", 104, 2, 5.03, 7.97, 0.005, "DIN 11850:1985-07 Table 1", true},
		// A mill's table of BS 4825-1 sizes prints 1.103 beside 38.1 x 1.6: it
		// belongs to 38.1 x 1.2, the tube for expanding.
		{"bs-4825/1.5in", 38.1, 1.6, 1.103, 7.93, 0.0005, "tube mill's web table", true},
		{"", 38.1, 1.2, 1.103, 7.93, 0.0005, "tube mill's web table", false},
		// 2 in x 16 SWG (1.626 mm).
		{"", 50.8, 1.626, 1.88, 7.93, 0.005, "UK stockholder's data sheet for BS 4825-2", true},
	}
	for _, p := range printed {
		pipe := catalog.Tube{OD: q.Mm(p.od), Wall: q.Mm(p.wall)}
		if p.slug != "" {
			own := tube(t, p.slug)
			assert.InDelta(t, p.od, own.OD.Millimetres(), hair, p.slug)
			assert.InDelta(t, p.wall, own.Wall.Millimetres(), hair, p.slug)
			pipe = own
		}
		mass := float64(pipe.MassPerMetre()) * p.density * 1000 / float64(catalog.SteelDensity)
		if p.misprint {
			assert.Greater(t, math.Abs(mass-p.mass), 0.015*mass, "%v x %v, %s", p.od, p.wall, p.source)
			continue
		}
		assert.InDelta(t, p.mass, mass, p.half+hair, "%v x %v, %s", p.od, p.wall, p.source)
	}
}

// The steps at butt welds between sizes that people take for one another, and
// whether they keep within 15 % of the thinner wall (ASME BPE-2012 Table
// MJ-8.4-1). Worked out by hand from the sizes in the standards named above;
// in mm, to two decimals.
func TestNearMisses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, b            string
		od, bore, limit float64
		fits            bool
	}{
		{"bs-4825/1in", "asme-bpe/1in", 0, 0.05, 0.24, true},
		{"bs-4825/1in", "iso-2037/25", 0.20, 0.20, 0.18, false},
		{"bs-4825/1in", "din-11850-1/dn25", 1.3, 1.9, 0.15, false},
		{"bs-4825/1in", "din-11866-a/dn25", 1.8, 1.9, 0.225, false},
		{"bs-4825/1in", "din-11850-3/dn25", 2.3, 1.9, 0.24, false},
		{"bs-4825/1.5in", "iso-2037/38", 0.05, 0.35, 0.18, false},
		{"bs-4825/1.5in", "din-11850-1/dn40", 0.95, 1.55, 0.15, false},
		{"bs-4825/1.5in", "din-11866-a/dn40", 1.45, 1.55, 0.225, false},
		{"bs-4825/1.5in", "din-11850-3/dn40", 1.95, 1.55, 0.24, false},
		{"bs-4825/2in", "asme-bpe/2in", 0, 0.05, 0.24, true},
		{"bs-4825/2in", "iso-2037/51", 0.10, 0.50, 0.18, false},
		{"bs-4825/2in", "din-11850-1/dn50", 0.60, 1.20, 0.15, false},
		{"bs-4825/2in", "din-11866-a/dn50", 1.10, 1.20, 0.225, false},
		{"bs-4825/2in", "din-11850-3/dn50", 1.60, 1.20, 0.24, false},
		{"iso-2037/51", "din-11850-1/dn50", 0.5, 0.70, 0.15, false},
		{"iso-2037/51", "din-11866-a/dn50", 1.0, 0.70, 0.18, false},
		{"din-11850-1/dn50", "din-11866-a/dn50", 0.50, 0, 0.15, false},
		{"bs-4825/2in", "din-11866-b/dn50", 4.75, 4.35, 0.24, false},
		{"asme-bpe/2in", "din-11866-b/dn50", 4.75, 4.40, 0.25, false},
		{"iso-2037/51", "din-11866-b/dn50", 4.65, 3.85, 0.18, false},
		{"bs-4825/2.5in", "asme-bpe/2.5in", 0, 0.05, 0.24, true},
		{"bs-4825/2.5in", "iso-2037/63.5", 0, 0, 0.24, true},
		{"bs-4825/2.5in", "din-11866-a/dn65", 3.25, 2.85, 0.24, false},
		{"bs-4825/3in", "iso-2037/76.1", 0.05, 0.05, 0.24, true},
		{"bs-4825/3in", "din-11866-b/dn65", 0.05, 0.45, 0.24, false},
		{"bs-4825/3in", "din-11866-a/dn80", 4.4, 4.0, 0.24, false},
		{"bs-4825/4in", "asme-bpe/4in", 0, 0.11, 0.30, true},
		{"bs-4825/4in", "as-1528/4in", 0, 0.40, 0.24, false},
		{"bs-4825/4in", "din-11866-a/dn100", 1.2, 1.2, 0.30, false},
	} {
		a, b := tube(t, c.a), tube(t, c.b)
		od := math.Abs((a.OD - b.OD).Millimetres()) / 2
		bore := math.Abs((a.Bore() - b.Bore()).Millimetres()) / 2
		limit := 0.15 * min(a.Wall, b.Wall).Millimetres()
		name := c.a + " to " + c.b
		assert.InDelta(t, c.od, od, 1e-6, name)
		assert.InDelta(t, c.bore, bore, 1e-6, name)
		assert.InDelta(t, c.limit, limit, 0.005, name)
		assert.Equal(t, c.fits, max(od, bore) <= limit, name)
	}
}

// A golf ball is at least 42.67 mm in diameter: R&A and USGA Equipment Rules,
// part 4, section 3.
func TestGolfBall(t *testing.T) {
	t.Parallel()
	const ball = 42.67 * q.Millimetre
	assert.Greater(t, tube(t, "bs-4825/2in").Bore(), ball)
	assert.Less(t, tube(t, "bs-4825/1.5in").Bore(), ball)
}
