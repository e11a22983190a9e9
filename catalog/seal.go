package catalog

import (
	"slices"
	"strings"

	q "drawoff/pipeline/quantity"
)

// standing is how a material stands a medium.
type standing struct {
	rating Rating
	trust  Trust
	source string
}

// Materials returns every seal material.
func Materials() []Material { return slices.Clone(load().materials) }

// FindMaterial returns the seal material named slug.
func FindMaterial(slug string) (Material, bool) {
	t := load()
	at, ok := t.materialAt[slug]
	if !ok {
		return Material{}, false
	}
	return t.materials[at], true
}

// Media returns every medium that Stands may rate, in the order of its table.
func Media() []string {
	t := load()
	var list []string
	for _, r := range read("media.csv", mediaCSV) {
		if r.text("material") == t.materials[0].Slug {
			list = append(list, r.text("medium"))
		}
	}
	return list
}

// Stands returns how a material stands a medium, with the trust and source of
// that rating; false when the table has no such pair.
//
// The media: hot-water, caustic, nitric, phosphoric, peracetic, hypochlorite,
// milk, fat, citrus-oil, hop-oil, ethanol, water, sugar. The source of each
// rating names the strength and temperature it was given for; they are typical
// and no limits. Where sources differ the cautious rating is taken.
// ISO/TR 7620 asks that any such choice be confirmed by test.
func Stands(material, medium string) (Rating, Trust, string, bool) {
	s, ok := load().media[pair{material, medium}]
	return s.rating, s.trust, s.source, ok
}

// SealPart returns the seal of joint j in a material, "clamp/2in/seal/epdm";
// the zero Part for a joint that takes none.
// Clamps of one flange do not share a seal: its bore is the tube's.
func SealPart(j Joint, material string) Part {
	f, _ := load().family(j.Family)
	if f.Unsealed {
		return Part{}
	}
	name := material
	if m, ok := FindMaterial(material); ok {
		name = m.Name
	}
	return Part{
		Slug: j.Slug + "/seal/" + material,
		Name: f.sealName + ", " + j.Size + ", " + name,
	}
}

// FindSeal returns the joint and the material of a seal slug.
func FindSeal(slug string) (Joint, Material, bool) {
	t := load()
	joint, material, ok := strings.Cut(slug, "/seal/")
	at, known := t.jointAt[joint]
	m, made := FindMaterial(material)
	if !ok || !known || !made || t.families[t.familyAt[t.joints[at].Family]].Unsealed {
		return Joint{}, Material{}, false
	}
	return t.joints[at], m, true
}

func (t *tables) readSeals() {
	t.materialAt, t.media = map[string]int{}, map[pair]standing{}
	for _, r := range read("materials.csv", materialsCSV) {
		t.materialAt[r.text("material")] = len(t.materials)
		t.materials = append(t.materials, Material{
			Slug: r.text("material"), Name: r.text("name"),
			Lowest: q.Celsius(r.number("lowest")), Highest: q.Celsius(r.number("highest")),
			HotWater: q.Celsius(r.number("hotwater")),
			Trust:    r.trust("trust"), Source: r.text("source"),
		})
	}
	ratings := map[string]Rating{"good": Good, "limited": Limited, "avoid": Avoid}
	for _, r := range read("media.csv", mediaCSV) {
		rating, ok := ratings[r.text("rating")]
		if !ok {
			r.fail("rating", "no such rating: "+r.text("rating"))
		}
		t.media[pair{r.text("material"), r.text("medium")}] = standing{rating, r.trust("trust"), r.text("source")}
	}
}
