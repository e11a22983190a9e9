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

// Every row of the tables that were read, OD and wall in mm.
func TestPrintedTubes(t *testing.T) {
	t.Parallel()
	rows := func(series, printed string) {
		for line := range strings.FieldsSeq(printed) { // size:OD:wall
			part := strings.Split(line, ":")
			require.Len(t, part, 3, line)
			own := tube(t, series+"/"+part[0])
			assert.InDelta(t, number(t, part[1]), own.OD.Millimetres(), hair, own.Slug)
			assert.InDelta(t, number(t, part[2]), own.Wall.Millimetres(), hair, own.Slug)
		}
	}
	// DIN 11850:1985-07 Table 1 (unofficial translation), ranges 1, 2 and 3; row A of DIN 11866 is range 2.
	rows("din-11850-1", "dn10:12:1 dn15:18:1 dn20:22:1 dn25:28:1 dn32:34:1 dn40:40:1 dn50:52:1 dn65:70:2 dn80:85:2 dn100:104:2 dn125:129:2 dn150:154:2")
	rows("din-11866-a", "dn10:13:1.5 dn15:19:1.5 dn20:23:1.5 dn25:29:1.5 dn32:35:1.5 dn40:41:1.5 dn50:53:1.5 dn65:70:2 dn80:85:2 dn100:104:2 dn125:129:2 dn150:154:2")
	rows("din-11850-3", "dn10:14:2 dn15:20:2 dn20:24:2 dn25:30:2 dn32:36:2 dn40:42:2 dn50:54:2 dn65:70:2 dn80:85:2 dn100:104:2 dn125:129:2 dn150:154:2")
	// BS 4825-1 as a UK stockholder's data sheet for BS 4825-2 has it; the last four are in a
	// tube mill's table, and that they belong to BS 4825-1 is from memory.
	rows("bs-4825", "0.5in:12.7:1.2 0.625in:15.88:1.2 0.75in:19.05:1.2 1in:25.4:1.6 1.5in:38.1:1.6 2in:50.8:1.6 2.5in:63.5:1.6 3in:76.2:1.6 4in:101.6:2")
	rows("bs-4825", "114.3:114.3:2 139.7:139.7:2 168.3:168.3:2.6 219.1:219.1:2.6")
	// ASTM A270-02a Table 2 and a tube mill's table: DIN 11866 row C, ASME BPE sizes.
	rows("asme-bpe", "0.25in:6.35:0.89 0.5in:12.7:1.65 0.75in:19.05:1.65 1in:25.4:1.65 1.5in:38.1:1.65 2in:50.8:1.65 2.5in:63.5:1.65 3in:76.2:1.65 4in:101.6:2.11 6in:152.4:2.77 8in:203.2:2.77")
	// EN 10312 Table 2 (series 2), a tube mill's reproduction, 12 to 108 mm.
	rows("en-10312", "12:12:1 15:15:1 18:18:1 22:22:1.2 28:28:1.2 35:35:1.5 42:42:1.5 54:54:1.5 64:64:2 76.1:76.1:2 88.9:88.9:2 108:108:2")
	// ASME B36.19M schedule 10S, as the library fluids 1.0 (piping.nearest_pipe) has it.
	rows("b36.19-10s", "0.5in:21.3:2.11 0.75in:26.7:2.11 1in:33.4:2.77 1.25in:42.2:2.77 1.5in:48.3:2.77 2in:60.3:2.77 2.5in:73:3.05 3in:88.9:3.05 4in:114.3:3.05")
	// ASTM A554, an article of a stainless association.
	rows("a554", "2in:50.8:1.6")
}

// What only looks hygienic stands after all that is, and says what it is.
func TestTubeNotForProduct(t *testing.T) {
	t.Parallel()
	var apart []string
	for _, s := range catalog.SeriesList() {
		same, ok := catalog.FindSeries(s.Slug)
		require.True(t, ok)
		assert.Equal(t, s, same)
		if s.NotForProduct != "" {
			apart = append(apart, s.Slug)
		} else {
			assert.Empty(t, apart, "%s is hygienic, and stands after what is not", s.Slug)
		}
	}
	assert.Equal(t, []string{"en-10312", "iso-1127", "b36.19-10s", "a554"}, apart)
	_, ok := catalog.FindSeries("bs-9999")
	assert.False(t, ok)
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
