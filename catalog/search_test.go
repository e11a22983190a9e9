package catalog_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
)

// What people say in a workshop or to a stockholder, and what they mean.
func TestSearch(t *testing.T) {
	t.Parallel()
	for said, meant := range map[string]string{
		"2 inch rjt liner":                  "ring-joint/2in/liner",
		"RJT liner 2\"":                     "ring-joint/2in/liner",
		"rjt":                               "ring-joint",
		"2in ring joint":                    "ring-joint/2in",
		"ring joint seal 1 1/2 inch":        "ring-joint/1.5in/seal",
		"blank cap for a 2in rjt liner":     "ring-joint/2in/cap/liner",
		"DN50 dairy nut":                    "dairy-union/dn50/nut",
		"milk coupling nut dn 50":           "dairy-union/dn50/nut",
		"din 11851 dn65 liner":              "dairy-union/dn65/liner",
		"Rd 78 x 1/6":                       "dairy-union/dn50",
		"dn 50 dairy union gasket":          "dairy-union/dn50/seal",
		"51 mm tube":                        "iso-2037/51",
		"51mm SMS tube":                     "sms-3008/51",
		"50.8 x 1.6":                        "bs-4825/2in",
		"two and a half inch tube":          "bs-4825/2.5in",
		"inch and a half rjt nut":           "ring-joint/1.5in/nut",
		"three quarter inch clamp":          "clamp/0.75in",
		"half inch bspp male":               "bsp/0.5in/male",
		"2½ in tube":                        "bs-4825/2.5in",
		"53x1.5 tube":                       "din-11866-a/dn50",
		"316 2 inch tube":                   "bs-4825/2in",
		"dn50 row b":                        "din-11866-b/dn50",
		"1½\" elbow":                        "bs-4825/1.5in/bend/90/long",
		"1.5in short bend":                  "bs-4825/1.5in/bend/90/short",
		"45 degree bend 2 in bs4825 long":   "bs-4825/2in/bend/45/long",
		"dn40 t piece":                      "din-11866-a/dn40/tee",
		"eccentric reducer 2.5 to 1.5 inch": "bs-4825/2.5in/reducer/1.5in/eccentric",
		"2 x 1½ reducer":                    "bs-4825/2in/reducer/1.5in/concentric",
		"buterfly valve 2\"":                "bs-4825/2in/butterfly-valve",
		"check valve dn40":                  "din-11866-a/dn40/non-return-valve",
		"one way valve 2 inch":              "bs-4825/2in/non-return-valve",
		"sight glas 2in":                    "bs-4825/2in/sight-glass",
		"thermowell 2in":                    "bs-4825/2in/thermometer-pocket",
		"sample tap 38mm":                   "iso-2037/38/sample-cock",
		"ferule 2\"":                        "clamp/2in/ferrule",
		"clamp 2 inch":                      "clamp/2in",
		"flange 50.5":                       "clamp/1in",
		"clamp gasket 38 mm":                "clamp/38/seal",
		"sms 38 liner":                      "sms-union/38/liner",
		"idf 51":                            "idf/51",
		"aseptic union dn65":                "o-ring-union/dn65",
		"11864 flange dn50 bolts":           "o-ring-flange/dn50/bolts",
		"hose barb 2in":                     "hose-tail/2in/tail",
		"hose clip dn 50":                   "hose-tail/dn50/clip",
		"g 2 nipple":                        "bsp/2in/male",
		"bspp socket 1 in":                  "bsp/1in/female",
		"silicone":                          "vmq",
		"nitrile seals":                     "nbr",
		"press fit tube 54":                 "en-10312/54",
		"2 inch pipe schedule 10":           "b36.19-10s/2in",
		"handrail tube":                     "a554",
		"schokolade":                        "",
		"":                                  "",
		"   -- \"":                          "",
	} {
		hits := catalog.Search(said)
		if meant == "" {
			assert.Empty(t, hits, said)
			continue
		}
		if assert.NotEmpty(t, hits, said) {
			assert.Equal(t, meant, hits[0].Slug, said)
		}
	}
}

// Whatever the catalogue calls a thing finds it, and where it stands.
func TestSearchFindsEveryRowByItsName(t *testing.T) {
	t.Parallel()
	among := func(slug, query string) {
		for _, h := range catalog.Search(query) {
			if h.Slug == slug {
				return
			}
		}
		t.Errorf("%s is not found by its name, %q", slug, query)
	}
	for _, pipe := range catalog.Tubes() {
		among(pipe.Slug, pipe.Name+" tube")
	}
	for _, j := range catalog.Joints() {
		among(j.Slug, j.Name)
	}
	for _, s := range catalog.SeriesList() {
		among(s.Slug, "series "+s.Name)
	}
	for _, f := range catalog.Families() {
		among(f.Slug, f.Name)
	}
	for _, m := range catalog.Materials() {
		among(m.Slug, m.Name)
	}
}

func TestHitsAreWhole(t *testing.T) {
	t.Parallel()
	rows := map[string]bool{}
	for _, pipe := range catalog.Tubes() {
		rows[pipe.Slug] = true
	}
	for _, j := range catalog.Joints() {
		rows[j.Slug] = true
	}
	for _, s := range catalog.SeriesList() {
		rows[s.Slug] = true
	}
	for _, f := range catalog.Families() {
		rows[f.Slug] = true
	}
	for _, m := range catalog.Materials() {
		rows[m.Slug] = true
	}
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom(strings.Fields("2 in 1½ dn 50 mm 38 rjt liner nut seal clamp union tube pipe bend 45 long tee reducer valve sms idf g ring cap hose x / . \" dairy epdm 7e9 1/0 0/0 nan inf"))
		query := rapid.OneOf(rapid.Map(rapid.SliceOfN(word, 0, 8), func(w []string) string { return strings.Join(w, " ") }), rapid.String()).Draw(t, "query")
		hits := catalog.Search(query)
		require.LessOrEqual(t, len(hits), catalog.MostHits)
		assert.Equal(t, hits, catalog.Search(query), "the same again")
		for _, h := range hits {
			if h.Slug == "" || h.Name == "" || h.Source == "" || !rows[h.Row] {
				t.Fatalf("half a hit: %+v", h)
			}
		}
	})
}

func BenchmarkSearch(b *testing.B) {
	catalog.Search("2 inch rjt liner")
	b.ReportAllocs()
	for b.Loop() {
		catalog.Search("2 inch rjt liner")
	}
}
