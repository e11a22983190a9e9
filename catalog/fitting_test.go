package catalog_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func bend(t *testing.T, slug, shape string, degrees float64) catalog.Bend {
	t.Helper()
	b, ok := catalog.BendOf(tube(t, slug), shape, q.Angle(degrees)*q.Degree)
	require.True(t, ok, "%s %s %v", slug, shape, degrees)
	return b
}

// BS 4825-2 bend and tee table as reproduced by a UK stockholder, mm: OD,
// short A (0: none), long A, B, wall.
var bs4825part2 = []struct {
	slug                        string
	od, short, long, rest, wall float64
}{
	{"bs-4825/0.5in", 12.7, 0, 45, 25, 1.2},
	{"bs-4825/0.625in", 15.88, 0, 55, 25, 1.2},
	{"bs-4825/0.75in", 19.05, 0, 60, 25, 1.2},
	{"bs-4825/1in", 25.4, 43.5, 65, 25, 1.6},
	{"bs-4825/1.5in", 38.1, 63.5, 85, 25, 1.6},
	{"bs-4825/2in", 50.8, 88.5, 110, 30, 1.6},
	{"bs-4825/2.5in", 63.5, 113.5, 135, 35, 1.6},
	{"bs-4825/3in", 76.2, 133.5, 155, 38, 1.6},
	{"bs-4825/4in", 101.6, 173.5, 195, 38, 2},
}

func TestBritishBendsAndTees(t *testing.T) {
	t.Parallel()
	for _, row := range bs4825part2 {
		pipe := tube(t, row.slug)
		assert.InDelta(t, row.od, pipe.OD.Millimetres(), hair, row.slug)
		assert.InDelta(t, row.wall, pipe.Wall.Millimetres(), hair, row.slug)

		long := bend(t, row.slug, "long", 90)
		assert.InDelta(t, row.long, long.CentreToEnd.Length.Millimetres(), hair, row.slug)
		assert.Equal(t, catalog.Standard, long.CentreToEnd.Trust)
		assert.Zero(t, long.CentreToEnd.Either)
		// The radius is long A less B: our reading of the unexplained column B.
		assert.InDelta(t, row.long-row.rest, long.Radius.Millimetres(), hair, row.slug)

		tee, ok := catalog.TeeOf(pipe, "long") // "tees have equivalent dimensions"
		require.True(t, ok)
		assert.InDelta(t, row.long, tee.CentreToEnd.Length.Millimetres(), hair)
		assert.InDelta(t, row.long, tee.BranchToEnd.Length.Millimetres(), hair)

		_, ok = catalog.BendOf(pipe, "short", 90*q.Degree)
		assert.Equal(t, row.short > 0, ok, row.slug)
		tee, ok = catalog.TeeOf(pipe, "short")
		assert.Equal(t, row.short > 0, ok, row.slug)
		if row.short == 0 {
			continue
		}
		short := bend(t, row.slug, "short", 90)
		assert.InDelta(t, row.short, short.CentreToEnd.Length.Millimetres(), hair, row.slug)
		assert.InDelta(t, row.short, tee.CentreToEnd.Length.Millimetres(), hair, row.slug)
		assert.Equal(t, long.Radius, short.Radius)
		// Long less short is a ferrule's length, 21.5 mm, at every size.
		ferrule, ok := catalog.FindJoint("clamp", pipe)
		require.True(t, ok)
		assert.InDelta(t, 21.5, ferrule.Length("ferrule").Length.Millimetres(), hair)
		assert.InDelta(t, 21.5, (long.CentreToEnd.Length - short.CentreToEnd.Length).Millimetres(), hair)
	}
}

func TestBritishBendsAt45(t *testing.T) {
	t.Parallel()
	// R tan 22.5° and the straight leg of the BS 4825-2 bends, worked out by hand, mm.
	for i, slug := range []string{"1in", "1.5in", "2in", "2.5in", "3in", "4in"} {
		short := bend(t, "bs-4825/"+slug, "short", 45).CentreToEnd
		long := bend(t, "bs-4825/"+slug, "long", 45).CentreToEnd
		assert.InDelta(t, []float64{20.1, 28.4, 41.6, 54.9, 65.0, 81.5}[i], short.Length.Millimetres(), 0.06, slug)
		assert.InDelta(t, []float64{41.6, 49.9, 63.1, 76.4, 86.5, 103.0}[i], long.Length.Millimetres(), 0.06, slug)
		assert.Equal(t, catalog.Derived, short.Trust)
		assert.Positive(t, short.Either)
		assert.Contains(t, short.Source, "R tan(angle/2)")
	}
}

func TestBioprocessFittings(t *testing.T) {
	t.Parallel()
	// ASME BPE Part DT, inches, from memory: 90° and 45° centre to end, radius, tee.
	for slug, in := range map[string][4]float64{
		"0.5in": {3, 2.25, 1.125, 1.875}, "0.75in": {3, 2.25, 1.125, 2}, "1in": {3, 2.25, 1.5, 2.125},
		"1.5in": {3.75, 2.5, 2.25, 2.375}, "2in": {4.75, 3, 3, 2.875}, "2.5in": {5.5, 3.375, 3.75, 3.125},
		"3in": {6.25, 3.625, 4.5, 3.375}, "4in": {8, 4.5, 6, 4.125}, "6in": {11.5, 6.25, 9, 5.625},
	} {
		slug = "asme-bpe/" + slug
		b90, b45 := bend(t, slug, "", 90), bend(t, slug, "", 45)
		tee, ok := catalog.TeeOf(tube(t, slug), "")
		require.True(t, ok)
		assert.InDelta(t, in[0], float64(b90.CentreToEnd.Length/q.Inch), 1e-5, slug)
		assert.InDelta(t, in[1], float64(b45.CentreToEnd.Length/q.Inch), 1e-5, slug)
		assert.InDelta(t, in[2], float64(b90.Radius/q.Inch), 1e-5, slug)
		assert.InDelta(t, in[3], float64(tee.CentreToEnd.Length/q.Inch), 1e-5, slug)
		assert.Equal(t, catalog.Memory, b90.CentreToEnd.Trust)
		// Tangents of at least 1.5 in: trade article on orbital welding.
		tangent := b90.CentreToEnd.Length - b90.Radius
		assert.GreaterOrEqual(t, float64(tangent/q.Inch), 1.5-1e-5, slug)
		// The 45° column is its own, yet close to the geometry of the 90° bend,
		// and within the doubt given to any other angle.
		assert.InDelta(t, float64(b90.Radius*q.Length(math.Tan(math.Pi/8))+tangent), float64(b45.CentreToEnd.Length),
			float64(0.131*q.Inch), slug)
	}
}

func TestGermanFittings(t *testing.T) {
	t.Parallel()
	// DIN 11852:2009-05 bend and tee, centre to end in mm, from memory.
	for dn, length := range map[string]float64{
		"10": 26, "15": 35, "20": 40, "25": 50, "32": 55, "40": 60, "50": 70, "65": 80, "80": 90, "100": 100,
	} {
		slug := "din-11866-a/dn" + dn
		b := bend(t, slug, "", 90)
		assert.InDelta(t, length, b.CentreToEnd.Length.Millimetres(), hair, dn)
		assert.Equal(t, catalog.Memory, b.CentreToEnd.Trust)
		assert.LessOrEqual(t, b.Radius, b.CentreToEnd.Length, dn)
		assert.Equal(t, catalog.Unknown, bend(t, slug, "", 45).CentreToEnd.Trust, "its radius is our assumption")
		tee, ok := catalog.TeeOf(tube(t, slug), "")
		require.True(t, ok)
		assert.InDelta(t, length, tee.BranchToEnd.Length.Millimetres(), hair, dn)
	}
	assert.Equal(t, catalog.Unknown, bend(t, "din-11866-a/dn125", "", 90).CentreToEnd.Trust)
}

// Lengths that are remembered but not surely enough to ship: the doubt of our
// assumption must be wide enough to hold them. All from memory.
func TestAssumptionsHoldWhatIsRemembered(t *testing.T) {
	t.Parallel()
	holds := func(d catalog.Dimension, mm float64) {
		t.Helper()
		assert.Equal(t, catalog.Unknown, d.Trust, d.Slug)
		assert.InDelta(t, mm, d.Length.Millimetres(), d.Either.Millimetres()+hair, d.Slug)
	}
	// ISO 2851:1993 bends, short and long, mm.
	for slug, mm := range map[string][2]float64{
		"25": {33.5, 55}, "38": {48.5, 70}, "51": {60.5, 82}, "63.5": {83.5, 105}, "76.1": {88.5, 110}, "101.6": {127, 160},
	} {
		holds(bend(t, "iso-2037/"+slug, "", 90).CentreToEnd, mm[0])
		holds(bend(t, "iso-2037/"+slug, "", 90).CentreToEnd, mm[1])
	}
	// ASME BPE reducers with straight ends, inches.
	for pair, inches := range map[[2]string]float64{
		{"1in", "0.75in"}: 4, {"1.5in", "1in"}: 5, {"2in", "1in"}: 7, {"2in", "1.5in"}: 5, {"2.5in", "1.5in"}: 7, {"2.5in", "2in"}: 5,
		{"3in", "1.5in"}: 9, {"3in", "2in"}: 7, {"3in", "2.5in"}: 5, {"4in", "2in"}: 11, {"4in", "2.5in"}: 9, {"4in", "3in"}: 7,
	} {
		holds(catalog.ReducerOf(tube(t, "asme-bpe/"+pair[0]), tube(t, "asme-bpe/"+pair[1]), "").Length, 25.4*inches)
	}
	// Short dairy cones, whose length is 4 times the difference in OD.
	holds(catalog.ReducerOf(tube(t, "bs-4825/2in"), tube(t, "bs-4825/1.5in"), "").Length, 2*25.4)
	holds(catalog.ReducerOf(tube(t, "bs-4825/3in"), tube(t, "bs-4825/2in"), "").Length, 4*25.4)
	// DIN 11851 male part and liner to weld, mm.
	for dn, mm := range map[string][2]float64{
		"10": {21, 17}, "15": {21, 17}, "20": {24, 18}, "25": {29, 22}, "32": {32, 25}, "40": {33, 26}, "50": {35, 28},
		"65": {40, 32}, "80": {45, 37}, "100": {54, 44}, "125": {46, 46}, "150": {50, 50},
	} {
		j, ok := catalog.FindJoint("dairy-union", tube(t, "din-11866-a/dn"+dn))
		require.True(t, ok)
		holds(j.Length("male"), mm[0])
		holds(j.Length("liner"), mm[1])
	}
}

func TestBendsRefused(t *testing.T) {
	t.Parallel()
	pipe := tube(t, "bs-4825/2in")
	for _, degrees := range []float64{0, -90, 0.001, 170.1, 180, 360, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, ok := catalog.BendOf(pipe, "", q.Angle(degrees)*q.Degree)
		assert.False(t, ok, degrees)
	}
	_, ok := catalog.BendOf(pipe, "middling", 90*q.Degree)
	assert.False(t, ok)
	_, ok = catalog.BendOf(tube(t, "iso-2037/51"), "long", 90*q.Degree)
	assert.False(t, ok, "one shape only")
	_, ok = catalog.BendOf(catalog.Tube{}, "", 90*q.Degree)
	assert.False(t, ok)
	_, ok = catalog.TeeOf(catalog.Tube{}, "")
	assert.False(t, ok)
	_, ok = catalog.TeeOf(tube(t, "iso-2037/51"), "long")
	assert.False(t, ok)
	assert.Equal(t, []string{"short", "long"}, catalog.BendShapes(pipe))
	assert.Equal(t, []string{"long"}, catalog.BendShapes(tube(t, "bs-4825/0.5in")))
	assert.Empty(t, catalog.BendShapes(tube(t, "asme-bpe/2in")))
}

// Laws that hold for every tube and angle.
func TestBendLaws(t *testing.T) {
	t.Parallel()
	tubes := catalog.Tubes()
	rapid.Check(t, func(r *rapid.T) {
		pipe := rapid.SampledFrom(tubes).Draw(r, "tube")
		shape := rapid.SampledFrom(append(catalog.BendShapes(pipe), "")).Draw(r, "shape")
		lower := q.Angle(rapid.Float64Range(1, 160).Draw(r, "lower")) * q.Degree
		higher := lower + 5*q.Degree
		a, ok := catalog.BendOf(pipe, shape, lower)
		require.True(r, ok)
		b, ok := catalog.BendOf(pipe, shape, higher)
		require.True(r, ok)
		assert.Positive(r, float64(a.Radius))
		assert.Equal(r, a.Radius, b.Radius)
		// The arc alone reaches R tan(angle/2); a straight leg is not negative,
		// but where a published 45° length differs from the geometry.
		arc := float64(a.Radius) * math.Tan(float64(lower)/2)
		assert.GreaterOrEqual(r, float64(a.CentreToEnd.Length), arc-1e-12)
		assert.Greater(r, float64(b.CentreToEnd.Length+b.CentreToEnd.Either), float64(a.CentreToEnd.Length-a.CentreToEnd.Either))
		found, ok := catalog.FindDimension(a.CentreToEnd.Slug)
		require.True(r, ok, a.CentreToEnd.Slug)
		assert.Equal(r, a.CentreToEnd.Slug, found.Slug)
		// The slug holds the angle to a hundredth of a degree, which moves the length
		// by R/2 sec²(angle/2) for each radian; and an angle that rounds to 45°
		// has the published length, up to 0.131 in from the geometry (see above).
		cos := math.Cos(float64(lower) / 2)
		slack := float64(a.Radius) / 2 / (cos * cos) * float64(0.006*q.Degree)
		assert.InDelta(r, float64(a.CentreToEnd.Length), float64(found.Length), slack+float64(0.131*q.Inch))
	})
}

func TestReducerLaws(t *testing.T) {
	t.Parallel()
	tubes := catalog.Tubes()
	rapid.Check(t, func(r *rapid.T) {
		a := rapid.SampledFrom(tubes).Draw(r, "a")
		b := rapid.SampledFrom(tubes).Draw(r, "b")
		shape := rapid.SampledFrom([]string{"concentric", "eccentric"}).Draw(r, "shape")
		one, other := catalog.ReducerOf(a, b, shape), catalog.ReducerOf(b, a, shape)
		assert.Equal(r, one, other, "turned round it is the same part")
		assert.GreaterOrEqual(r, one.Length.Length, 30*q.Millimetre)
		assert.Equal(r, catalog.Unknown, one.Length.Trust)
		found, ok := catalog.FindDimension(one.Length.Slug)
		assert.True(r, ok, one.Length.Slug)
		assert.Equal(r, one.Length, found)
	})
}

func TestFittingWords(t *testing.T) {
	t.Parallel()
	b := bend(t, "bs-4825/2in", "long", 90)
	assert.Equal(t, "bs-4825/2in/bend/90/long", b.Slug)
	assert.Equal(t, "90° bend, long, 2 in (BS 4825-1)", b.Name)
	assert.Equal(t, "bs-4825/2in/bend/90/long/centre-to-end", b.CentreToEnd.Slug)
	assert.Equal(t, "bs-4825/2in/bend/22.5/short", bend(t, "bs-4825/2in", "", 22.5).Slug)
	r := catalog.ReducerOf(tube(t, "bs-4825/1.5in"), tube(t, "bs-4825/2.5in"), "eccentric")
	assert.Equal(t, "bs-4825/2.5in/reducer/1.5in/eccentric", r.Slug)
	assert.Equal(t, "eccentric reducer, 2½ in to 1½ in (BS 4825-1)", r.Name)
	r = catalog.ReducerOf(tube(t, "bs-4825/2in"), tube(t, "din-11866-a/dn50"), "")
	assert.Equal(t, "din-11866-a/dn50/reducer/bs-4825/2in/concentric", r.Slug)
	assert.Equal(t, "concentric reducer, DN 50 (DIN 11866 row A) to 2 in (BS 4825-1)", r.Name)
	v, ok := catalog.BodyOf("butterfly-valve", tube(t, "bs-4825/2in"))
	require.True(t, ok)
	ball, ok := catalog.BodyOf("ball-valve", tube(t, "bs-4825/2in"))
	require.True(t, ok)
	assert.Equal(t, "bs-4825/2in/butterfly-valve", v.Slug)
	assert.Less(t, v.Length.Length, ball.Length.Length)
	assert.Equal(t, "hose/bs-4825/2in", catalog.HosePart(tube(t, "bs-4825/2in")).Slug)
	assert.True(t, strings.HasSuffix(catalog.TubePart(tube(t, "bs-4825/2in")).Name, "50.8 x 1.6 mm"))
}

// A valve that comes with its ends on is measured over them, since no caliper
// reaches a weld between: a 1½ in butterfly valve of 40 mm and half its OD of
// 38.1 mm, our assumption, and a ferrule of 21.5 mm, BS 4825-3 from memory, for
// each end that has one. A ring joint half is ± 10 mm, our assumption too.
func TestBodyOverItsEnds(t *testing.T) {
	t.Parallel()
	tube, ok := catalog.FindTube("bs-4825/1.5in")
	require.True(t, ok)
	valve, ok := catalog.BodyOf("butterfly-valve", tube)
	require.True(t, ok)
	end := func(slug string) *catalog.Half {
		h, found := catalog.FindHalf(slug, tube)
		require.True(t, found, slug)
		return h
	}
	body := 40 + 38.1/2
	for _, c := range []struct {
		in, out        string
		length, either float64
		slug           string
	}{
		{"weld", "weld", body, body / 3, "length"},
		{"clamp/ferrule", "clamp/ferrule", body + 2*21.5, body / 3, "clamp-ferrule/clamp-ferrule/length"},
		{"weld", "clamp/ferrule", body + 21.5, body / 3, "weld/clamp-ferrule/length"},
		{"ring-joint/liner", "ring-joint/male", body + 2*25, body/3 + 2*10, "ring-joint-liner/ring-joint-male/length"},
	} {
		d := valve.Over(end(c.in), end(c.out))
		assert.Equal(t, "bs-4825/1.5in/butterfly-valve/"+c.slug, d.Slug)
		assert.InDelta(t, c.length, d.Length.Millimetres(), 1e-9, d.Slug)
		assert.InDelta(t, c.either, d.Either.Millimetres(), 1e-9, d.Slug)
		found, ok := catalog.FindDimension(d.Slug)
		assert.True(t, ok, d.Slug)
		assert.Equal(t, d, found)
	}
}

// A seat valve with its ends on has each leg to the face of that end: 1.5 x OD
// from where the axes cross, our assumption, and the ferrule of 21.5 mm.
func TestSeatValveOverItsEnds(t *testing.T) {
	t.Parallel()
	tube, ok := catalog.FindTube("bs-4825/1.5in")
	require.True(t, ok)
	plain, ok := catalog.FindHalf("weld", tube)
	require.True(t, ok)
	ferrule, ok := catalog.FindHalf("clamp/ferrule", tube)
	require.True(t, ok)
	valve, ok := catalog.TeeLike("seat-valve", tube)
	require.True(t, ok)
	assert.Equal(t, valve, valve.Over(plain, plain))
	f := valve.Over(plain, ferrule)
	assert.InDelta(t, 1.5*38.1, f.CentreToEnd.Length.Millimetres(), 1e-9)
	assert.InDelta(t, 1.5*38.1+21.5, f.BranchToEnd.Length.Millimetres(), 1e-9)
	for _, d := range []catalog.Dimension{f.CentreToEnd, f.BranchToEnd} {
		found, ok := catalog.FindDimension(d.Slug)
		assert.True(t, ok, d.Slug)
		assert.Equal(t, d, found)
	}
	assert.Equal(t, "bs-4825/1.5in/seat-valve/weld/clamp-ferrule/branch", f.BranchToEnd.Slug)
}
