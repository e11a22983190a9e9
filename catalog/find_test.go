package catalog_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// everything returns every part and dimension that the catalogue can name
// without a question of angle or of two series.
func everything(t *testing.T) (parts []catalog.Part, dims []catalog.Dimension) {
	shared := map[string]bool{}
	for _, pipe := range catalog.Tubes() {
		parts = append(parts, catalog.TubePart(pipe), catalog.HosePart(pipe), catalog.CapPart(catalog.Half{Tube: pipe}))
		shapes := catalog.BendShapes(pipe)
		if len(shapes) == 0 {
			shapes = []string{""}
		}
		for _, shape := range shapes {
			for _, degrees := range []q.Angle{90, 45, 22.5, 88.57} {
				b, ok := catalog.BendOf(pipe, shape, degrees*q.Degree)
				require.True(t, ok)
				parts, dims = append(parts, b.Part), append(dims, b.CentreToEnd)
			}
			f, ok := catalog.TeeOf(pipe, shape)
			require.True(t, ok)
			parts, dims = append(parts, f.Part), append(dims, f.CentreToEnd, f.BranchToEnd)
		}
		for _, kind := range catalog.Bodies() {
			v, ok := catalog.BodyOf(kind.Slug, pipe)
			require.True(t, ok)
			parts, dims = append(parts, v.Part), append(dims, v.Length)
		}
		for _, kind := range []string{catalog.Cross, catalog.Pocket, catalog.Cock, catalog.Seat} {
			f, ok := catalog.TeeLike(kind, pipe)
			require.True(t, ok)
			parts, dims = append(parts, f.Part), append(dims, f.CentreToEnd, f.BranchToEnd)
		}
		for _, end := range catalog.Ends(pipe)[1:] {
			h, ok := catalog.FindHalf(end, pipe)
			require.True(t, ok)
			if p := catalog.HalfPart(*h); p.Slug != "" && !shared[p.Slug] { // tubes of one OD and wall share it
				parts = append(parts, p)
				shared[p.Slug] = true
			}
		}
	}
	tubes := catalog.Tubes()
	for i, a := range tubes {
		for _, b := range tubes[i+1:] {
			for _, shape := range []string{"concentric", "eccentric"} {
				r := catalog.ReducerOf(a, b, shape)
				parts, dims = append(parts, r.Part), append(dims, r.Length)
			}
		}
	}
	for _, j := range catalog.Joints() {
		dims = append(append(dims, j.Lengths...), j.Gap)
		for _, m := range catalog.Materials() {
			if p := catalog.SealPart(j, m.Slug); p.Slug != "" {
				parts = append(parts, p)
			}
		}
		for _, p := range catalog.CloserParts(j) {
			if !shared[p.Slug] { // one clamp serves every joint of its flange
				parts = append(parts, p)
			}
			shared[p.Slug] = shared[p.Slug] || j.Family == "clamp"
		}
		f, _ := catalog.FindFamily(j.Family)
		for _, half := range f.Halves {
			parts = append(parts, catalog.CapPart(catalog.Half{Joint: j, Name: half}))
		}
	}
	return parts, dims
}

func TestSlugs(t *testing.T) {
	t.Parallel()
	form := regexp.MustCompile(`^[a-z0-9./-]+$`)
	parts, dims := everything(t)
	seen, names := map[string]bool{}, map[string]string{}
	once := func(slug string) {
		if seen[slug] || !form.MatchString(slug) {
			t.Errorf("slug %q: twice, or not of the form", slug)
		}
		seen[slug] = true
	}
	for _, p := range parts {
		once(p.Slug)
		if other, ok := names[p.Name]; ok || p.Name == "" {
			t.Errorf("%q and %q are both named %q", p.Slug, other, p.Name)
		}
		names[p.Name] = p.Slug
	}
	for _, d := range dims {
		once(d.Slug)
	}
	for _, j := range catalog.Joints() {
		once(j.Slug)
	}
	for _, s := range catalog.SeriesList() {
		once(s.Slug)
	}
}

// What is not known says so: how far it may be out and where to measure it.
func TestDimensions(t *testing.T) {
	t.Parallel()
	_, dims := everything(t)
	for _, d := range dims {
		if d.Source == "" || d.Trust == "" || d.Caliper == "" || d.Either < 0 || d.Length < 0 {
			t.Errorf("%s: %+v", d.Slug, d)
		}
		if (d.Trust == catalog.Unknown || d.Trust == catalog.Derived) && d.Either == 0 {
			t.Errorf("%s is %s, and no doubt is stated", d.Slug, d.Trust)
		}
		if found, ok := catalog.FindDimension(d.Slug); !ok || found.Trust != d.Trust {
			t.Errorf("%s is not found again", d.Slug)
		}
	}
}

func TestFindDimensionRefuses(t *testing.T) {
	t.Parallel()
	for _, slug := range []string{
		"", "/", "////", "bs-4825/2in", "bs-4825/2in/bend", "bs-4825/2in/bend/90", "bs-4825/2in/bend/90/centre-to-end",
		"bs-4825/2in/bend/90.0/long/centre-to-end", "bs-4825/2in/bend/NaN/long/centre-to-end", "bs-4825/2in/bend/centre-to-end",
		"bs-4825/2in/bend/90/long/", "bs-4825/2in/tee/length", "bs-4825/2in/reducer/length", "bs-4825/2in/reducer/eccentric/length",
		"bs-4825/1in/reducer/2in/eccentric/length", "bs-4825/2in/reducer/1in/crooked/length", "bs-4825/2in/gate-valve/length",
		"clamp/2in/ferrule", "clamp/2in/ferrule/width", "bs-4825/9in/ball-valve/length", "bs-4825/2in/ball-valve/width",
	} {
		_, ok := catalog.FindDimension(slug)
		assert.False(t, ok, slug)
	}
	rapid.Check(t, func(r *rapid.T) { // no words make it panic
		slug := rapid.StringMatching(`(bs-4825/2in|clamp/2in|[a-z/.]{0,4})(/(bend|tee|reducer|ball-valve|length|90|short|1in|\PC{0,3})){0,6}`).Draw(r, "slug")
		d, ok := catalog.FindDimension(slug)
		assert.True(r, !ok || d.Slug == slug)
	})
}

func TestNearest(t *testing.T) {
	t.Parallel()
	for written, want := range map[string]string{
		"bs-4825/2,5in":           "bs-4825/2.5in",
		"bs-4825/2.5":             "bs-4825/2.5in",
		"BS-4825/2in":             "bs-4825/2in",
		"bs4825/2in":              "bs-4825/2in",
		"din-11866/dn50":          "din-11866-a/dn50",
		"2in":                     "bs-4825/2in",
		"2½ in":                   "bs-4825/2.5in",
		"dn50":                    "din-11866-a/dn50",
		"clamp/ferule":            "clamp/ferrule",
		"ring-joint/mail":         "ring-joint/male",
		"epmd":                    "epdm",
		"wled":                    "weld",
		"clamp/2in/seal/epdn":     "clamp/2in/seal/epdm",
		"clamp/2in/ferule/lenght": "clamp/2in/ferrule/length",
		"":                        "",
		"x":                       "",
		"nothing like it":         "",
	} {
		assert.Equal(t, want, catalog.Nearest(written), written)
	}
	// A slug is nearest to itself, and with a letter left out something is still offered.
	for _, pipe := range catalog.Tubes() {
		assert.NotEmpty(t, catalog.Nearest(pipe.Slug[:3]+pipe.Slug[4:]))
		assert.Equal(t, pipe.Slug, catalog.Nearest(pipe.Slug))
	}
}
