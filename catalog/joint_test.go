package catalog_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

func joint(t *testing.T, family, on string) catalog.Joint {
	t.Helper()
	j, ok := catalog.FindJoint(family, tube(t, on))
	require.True(t, ok, "%s on %s", family, on)
	return j
}

func TestFamilies(t *testing.T) {
	t.Parallel()
	var slugs []string
	for _, f := range catalog.Families() {
		slugs = append(slugs, f.Slug)
		assert.NotEmpty(t, f.Standard)
		assert.NotEmpty(t, f.Source)
		assert.NotEmpty(t, f.Trust)
		same, ok := catalog.FindFamily(f.Slug)
		require.True(t, ok)
		assert.Equal(t, f, same)
	}
	assert.Equal(t, []string{"ring-joint", "dairy-union", "clamp"}, slugs)
	// Parts of a ring joint: AS 1528.2-2001 contents. Of a dairy union: DIN
	// 11851:2013-02 contents. Two like ferrules, a seal and a clamp: trade guides.
	for slug, parts := range map[string]string{"ring-joint": "male liner nut", "dairy-union": "male liner nut", "clamp": "ferrule clamp"} {
		f, _ := catalog.FindFamily(slug)
		assert.Equal(t, parts, strings.Join(slices.Concat(f.Halves, f.Closers), " "))
	}
}

func TestClampFlanges(t *testing.T) {
	t.Parallel()
	// Flange OD by inch tube, mm, as two trade size guides for clamp ferrules
	// print it; they differ by at most 0.41 mm, and agree to 0.12 from 1 in up.
	for size, guides := range map[string][2]float64{
		"0.5in": {24.99, 25.40}, "0.75in": {24.99, 25.40}, "1in": {50.39, 50.50}, "1.5in": {50.39, 50.50},
		"2in": {63.91, 63.98}, "2.5in": {77.39, 77.50}, "3in": {90.91, 90.98}, "4in": {118.92, 119.00},
	} {
		for _, series := range []string{"bs-4825/", "asme-bpe/"} {
			od := number(t, strings.TrimPrefix(joint(t, "clamp", series+size).Face, "flange "))
			assert.GreaterOrEqual(t, od, guides[0]-0.01, size)
			assert.LessOrEqual(t, od, guides[1]+0.03, size)
		}
	}
	// The flange ODs that are sold (the third guide's list); 155 and 183 are of
	// DIN 32676 above DN 100, from memory, as is 34 for DN 10 to 20.
	sold := []string{"25", "34", "50.5", "64", "77.5", "91", "106", "119", "155", "167", "183", "217.7"}
	for _, j := range catalog.Joints() {
		if j.Family == "clamp" {
			assert.Contains(t, sold, strings.TrimPrefix(j.Face, "flange "), j.Slug)
		}
	}
	// DIN 32676 row A, from memory.
	for dn, od := range map[string]string{"10": "34", "15": "34", "20": "34", "25": "50.5", "32": "50.5", "40": "50.5", "50": "64", "65": "91", "80": "106", "100": "119", "125": "155", "150": "183"} {
		assert.Equal(t, "flange "+od, joint(t, "clamp", "din-11866-a/dn"+dn).Face, dn)
	}
}

// Clamps that close and do not fit: the widest step per side among the tubes
// whose ferrules share a flange, worked out by hand from the bores, mm.
func TestClampsThatCloseButDoNotFit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		flange      string
		small, wide string
		step        float64
	}{
		{"50.5", "asme-bpe/1in", "din-11866-a/dn40", 7.95}, // 22.1 and 38
		{"64", "asme-bpe/2in", "din-11866-a/dn50", 1.25},   // 47.5 and 50
		{"91", "din-11866-a/dn65", "bs-4825/3in", 3.5},     // 66 and 73
		{"119", "asme-bpe/4in", "din-11866-a/dn100", 1.31}, // 97.38 and 100
	} {
		least, most := math.Inf(1), 0.0
		for _, j := range catalog.Joints() {
			if j.Face != "flange "+c.flange {
				continue
			}
			for _, slug := range j.Tubes {
				bore := tube(t, slug).Bore().Millimetres()
				least, most = min(least, bore), max(most, bore)
			}
		}
		assert.InDelta(t, c.step, (most-least)/2, 1e-6, c.flange)
		assert.Equal(t, "flange "+c.flange, joint(t, "clamp", c.small).Face)
		assert.Equal(t, "flange "+c.flange, joint(t, "clamp", c.wide).Face)
		assert.InDelta(t, least, tube(t, c.small).Bore().Millimetres(), hair)
		assert.InDelta(t, most, tube(t, c.wide).Bore().Millimetres(), hair)
	}
	// Sizes that share a flange: 1 and 1½ in (three trade guides), DN 25 to 40 of
	// DIN 32676 (from memory), ISO 25 to 38 (our assumption).
	for _, slug := range []string{"bs-4825/1in", "bs-4825/1.5in", "din-11866-a/dn25", "din-11866-a/dn32", "din-11866-a/dn40", "iso-2037/25", "iso-2037/33.7", "iso-2037/38"} {
		assert.Equal(t, "flange 50.5", joint(t, "clamp", slug).Face, slug)
	}
	// One flange, two seals.
	assert.NotEqual(t, catalog.SealPart(joint(t, "clamp", "bs-4825/1in"), "epdm"), catalog.SealPart(joint(t, "clamp", "bs-4825/1.5in"), "epdm"))
	assert.Equal(t, catalog.CloserParts(joint(t, "clamp", "bs-4825/1in")), catalog.CloserParts(joint(t, "clamp", "bs-4825/1.5in")))
}

func TestDairyUnionThreads(t *testing.T) {
	t.Parallel()
	// DIN 405-1 knuckle threads, as in a gauge maker's reproduction: threads per
	// inch by the range that the diameter lies in.
	perInch := func(d float64) string {
		switch {
		case d >= 28 && d <= 34:
			return "8"
		case d >= 44 && d <= 95:
			return "6"
		case d >= 110 && d <= 190:
			return "4"
		}
		return "?"
	}
	count := 0
	last := 0.0
	for _, j := range catalog.Joints() {
		if j.Family != "dairy-union" {
			continue
		}
		count++
		thread, ok := strings.CutPrefix(j.Face, "thread Rd ")
		require.True(t, ok, j.Face)
		d, pitch, ok := strings.Cut(thread, " x 1/")
		require.True(t, ok, j.Face)
		assert.Equal(t, perInch(number(t, d)), pitch, j.Slug)
		assert.Greater(t, number(t, d), last, j.Slug)
		last = number(t, d)
		od := tube(t, j.Tubes[0]).OD.Millimetres()
		assert.Greater(t, number(t, d), od, "the tube passes through the nut")
		// DIN 11853-1, the newer union for food, whose steps are published by the
		// DIN committee: 40 bar for ODs of 12.7 to 41 mm, 25 bar for 42.4 to 104 mm.
		switch {
		case od <= 41:
			assert.InDelta(t, 40, float64(j.Pressure/q.Bar), hair, j.Slug)
		case od <= 104:
			assert.InDelta(t, 25, float64(j.Pressure/q.Bar), hair, j.Slug)
		default: // DIN 11851, from memory
			assert.InDelta(t, 16, float64(j.Pressure/q.Bar), hair, j.Slug)
		}
	}
	assert.Equal(t, 12, count)
}

func TestJoints(t *testing.T) {
	t.Parallel()
	faces := map[string]string{}
	for _, j := range catalog.Joints() {
		f, ok := catalog.FindFamily(j.Family)
		require.True(t, ok)
		assert.NotEmpty(t, j.Trust, j.Slug)
		assert.NotEmpty(t, j.Source, j.Slug)
		assert.NotEmpty(t, j.Face, j.Slug)
		require.Len(t, j.Lengths, len(f.Halves), j.Slug)
		assert.Equal(t, tube(t, j.Tubes[0]).Bore(), j.Bore, j.Slug)
		assert.Equal(t, j.Pressure == 0, j.PressureTrust == "", j.Slug)
		for _, half := range f.Halves {
			assert.Equal(t, j.Slug+"/"+half+"/length", j.Length(half).Slug)
		}
		assert.Zero(t, j.Length("elbow"))
		assert.Equal(t, j.Slug+"/gap", j.Gap.Slug)
		for _, slug := range j.Tubes {
			same, ok := catalog.FindJoint(j.Family, tube(t, slug))
			require.True(t, ok)
			assert.Equal(t, j.Slug, same.Slug, "one joint of a family for a tube")
		}
		// A face is of one family: nothing closes on another family's.
		if family, seen := faces[j.Face]; seen {
			assert.Equal(t, family, j.Family, j.Face)
		}
		faces[j.Face] = j.Family
	}
	// The ring joint is made for 1 to 4 in tube: trade information page.
	for _, size := range []string{"1in", "1.5in", "2in", "2.5in", "3in", "4in"} {
		j := joint(t, "ring-joint", "bs-4825/"+size)
		assert.Equal(t, "ring-joint/"+size, j.Slug)
		assert.Equal(t, catalog.Unknown, j.Length("liner").Trust)
		assert.Zero(t, j.Pressure, "no source gives one")
	}
	_, ok := catalog.FindJoint("ring-joint", tube(t, "bs-4825/0.5in"))
	assert.False(t, ok)
}

func TestEnds(t *testing.T) {
	t.Parallel()
	assert.Equal(t, []string{"weld", "ring-joint/male", "ring-joint/liner", "clamp/ferrule"}, catalog.Ends(tube(t, "bs-4825/2in")))
	assert.Equal(t, []string{"weld"}, catalog.Ends(tube(t, "din-11866-b/dn50")))
	for _, pipe := range catalog.Tubes() {
		for i, end := range catalog.Ends(pipe) {
			h, ok := catalog.FindHalf(end, pipe)
			require.True(t, ok, "%s on %s", end, pipe.Slug)
			assert.Equal(t, pipe, h.Tube)
			assert.Equal(t, i == 0, h.Plain())
			if !h.Plain() {
				assert.Equal(t, end, h.Joint.Family+"/"+h.Name)
				assert.Contains(t, h.Joint.Tubes, pipe.Slug)
			}
		}
	}
	plain, ok := catalog.FindHalf("", tube(t, "bs-4825/2in"))
	assert.True(t, ok && plain.Plain())
	for _, end := range []string{"clamp", "clamp/male", "dairy-union/male", "Weld"} {
		_, ok := catalog.FindHalf(end, tube(t, "bs-4825/2in"))
		assert.False(t, ok, end)
	}
	_, ok = catalog.FindHalf("weld", catalog.Tube{})
	assert.False(t, ok)
}

func TestJointParts(t *testing.T) {
	t.Parallel()
	half := func(end, on string) catalog.Half {
		h, ok := catalog.FindHalf(end, tube(t, on))
		require.True(t, ok)
		return *h
	}
	liner := half("ring-joint/liner", "bs-4825/2in")
	assert.Equal(t, catalog.Part{Slug: "ring-joint/2in/liner", Name: "ring joint liner, 2 in, to weld"}, catalog.HalfPart(liner))
	assert.Equal(t, catalog.Part{Slug: "ring-joint/2in/nut", Name: "ring joint nut, 2 in"}, catalog.CloserParts(liner.Joint)[0])
	assert.Equal(t, catalog.Part{Slug: "ring-joint/2in/cap/liner", Name: "ring joint blank cap for a liner, 2 in"}, catalog.CapPart(liner))
	ferrule := half("clamp/ferrule", "asme-bpe/2in")
	assert.Equal(t, "clamp/2in/ferrule/50.8x1.65", catalog.HalfPart(ferrule).Slug)
	assert.Equal(t, "clamp ferrule, 2 in, to weld to 50.8 x 1.65 mm", catalog.HalfPart(ferrule).Name)
	assert.Equal(t, catalog.Part{Slug: "clamp/clamp/64mm", Name: "clamp for flange 64 mm"}, catalog.CloserParts(ferrule.Joint)[0])
	assert.Equal(t, "clamp/2in/cap", catalog.CapPart(ferrule).Slug)
	// Tube of one OD and wall takes one part, whatever its standard: DIN 11850
	// ranges 2 and 3 are the same from DN 65, and so are BS and AS tube at 2 in.
	assert.Equal(t, catalog.HalfPart(half("dairy-union/male", "din-11866-a/dn65")), catalog.HalfPart(half("dairy-union/male", "din-11850-3/dn65")))
	assert.Equal(t, catalog.HalfPart(liner), catalog.HalfPart(half("ring-joint/liner", "as-1528/2in")))
	plain := half("weld", "asme-bpe/2in")
	assert.Zero(t, catalog.HalfPart(plain))
	assert.Equal(t, "asme-bpe/2in/cap", catalog.CapPart(plain).Slug)
	assert.Empty(t, catalog.CloserParts(catalog.Joint{}))
}

func TestSeals(t *testing.T) {
	t.Parallel()
	seal := catalog.SealPart(joint(t, "clamp", "bs-4825/2in"), "epdm")
	assert.Equal(t, catalog.Part{Slug: "clamp/2in/seal/epdm", Name: "clamp seal, 2 in, EPDM"}, seal)
	for _, j := range catalog.Joints() {
		for _, m := range catalog.Materials() {
			of, made, ok := catalog.FindSeal(catalog.SealPart(j, m.Slug).Slug)
			require.True(t, ok)
			assert.Equal(t, j.Slug, of.Slug)
			assert.Equal(t, m, made)
		}
	}
	for _, slug := range []string{"", "epdm", "clamp/2in", "clamp/2in/seal/", "clamp/2in/seal/wood", "clamp/9in/seal/epdm"} {
		_, _, ok := catalog.FindSeal(slug)
		assert.False(t, ok, strconv.Quote(slug))
	}
}
