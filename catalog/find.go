package catalog

import (
	"slices"
	"strings"
)

// weld is the end of a plain tube.
const weld = "weld"

// SeriesList returns every series of tube.
func SeriesList() []Series { return slices.Clone(load().series) }

// FindSeries returns the series named slug.
func FindSeries(slug string) (Series, bool) {
	for _, s := range load().series {
		if s.Slug == slug {
			return s, true
		}
	}
	return Series{}, false
}

// Tubes returns every tube, by series and then by OD.
func Tubes() []Tube { return slices.Clone(load().tubes) }

// FindTube returns the tube named slug.
func FindTube(slug string) (Tube, bool) {
	t := load()
	at, ok := t.tubeAt[slug]
	if !ok {
		return Tube{}, false
	}
	return t.tubes[at], true
}

// Families returns every union family.
func Families() []Family {
	t := load()
	list := make([]Family, len(t.families))
	for i, f := range t.families {
		list[i] = f.Family
	}
	return list
}

// FindFamily returns the family named slug.
func FindFamily(slug string) (Family, bool) {
	f, ok := load().family(slug)
	return f.Family, ok
}

func (t *tables) family(slug string) (familyRow, bool) {
	at, ok := t.familyAt[slug]
	if !ok {
		return familyRow{}, false
	}
	return t.families[at], true
}

// Joints returns every joint, by family and then by size. Its Tubes and
// Lengths are the catalogue's own: copy them before a change.
func Joints() []Joint { return slices.Clone(load().joints) }

// FindJoint returns the joint of a family that is made to be welded to t.
func FindJoint(family string, t Tube) (Joint, bool) {
	all := load()
	at, ok := all.jointFor[pair{family, t.Slug}]
	if !ok {
		return Joint{}, false
	}
	return all.joints[at], true
}

// Ends returns the ends that tube t can carry, "weld" first:
// "ring-joint/male", "clamp/ferrule", ... Do not change the list.
func Ends(t Tube) []string { return load().ends[t.Slug] }

// FindHalf returns the end named end ("weld" or "" for a plain one, else
// "family/half") on tube t. What it points to is shared, and not to be changed.
func FindHalf(end string, t Tube) (*Half, bool) {
	if end == "" {
		end = weld
	}
	h, ok := load().halves[pair{end, t.Slug}]
	return h, ok
}

// OnHose reports whether an end is the cut end of a hose, which nothing else has.
func OnHose(end string) bool { return end == "hose-tail/hose" }

// Mate returns the end that closes on end, as FindHalf names them: the other
// half of its union, a plain end for a plain end.
func Mate(end string) string {
	family, half, _ := strings.Cut(end, "/")
	if f, ok := FindFamily(family); ok {
		return family + "/" + f.Partner(half)
	}
	return end
}
