package catalog

import (
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// FindDimension returns the catalogue's dimension named slug: a length or the
// gap of a joint, or a length of a bend, tee, reducer or valve that the
// catalogue can make up from its tubes. It is how a measurement of a user's
// own is told from a misspelt one.
func FindDimension(slug string) (Dimension, bool) {
	if d, ok := load().dimensions[slug]; ok {
		return d, true
	}
	parts := strings.Split(slug, "/")
	if len(parts) < 4 {
		return Dimension{}, false
	}
	t, ok := FindTube(parts[0] + "/" + parts[1])
	if !ok {
		return Dimension{}, false
	}
	// The words say which part it may be; the part then says whether it has
	// that dimension, so no slug is understood that the catalogue does not write.
	for _, d := range candidates(t, parts[2], parts[3:]) {
		if d.Slug == slug {
			return d, true
		}
	}
	return Dimension{}, false
}

// candidates returns the dimensions of the part of t that kind and the words after it name.
func candidates(t Tube, kind string, words []string) []Dimension {
	last := len(words) - 1 // the dimension's own name
	switch kind {
	case "bend":
		degrees, err := strconv.ParseFloat(words[0], 64)
		if b, ok := BendOf(t, strings.Join(words[min(1, last):last], "/"), q.Angle(degrees)*q.Degree); err == nil && ok {
			return []Dimension{b.CentreToEnd}
		}
	case "tee":
		if f, ok := TeeOf(t, strings.Join(words[:last], "/")); ok {
			return []Dimension{f.CentreToEnd, f.BranchToEnd}
		}
	case "reducer":
		if last < 2 {
			return nil
		}
		to := strings.Join(words[:last-1], "/")
		if last == 2 { // within one series
			to = t.Series + "/" + to
		}
		shape := words[last-1]
		if other, ok := FindTube(to); ok && (shape == "concentric" || shape == "eccentric") {
			return []Dimension{ReducerOf(t, other, shape).Length}
		}
	case Cross, Pocket, Cock, Seat:
		f, ok := TeeLike(kind, t)
		if !ok {
			return nil
		}
		list := []Dimension{f.CentreToEnd, f.BranchToEnd}
		if kind == Seat && last == 2 {
			withEnds(t, func(in, out *Half) {
				g := f.Over(in, out)
				list = append(list, g.CentreToEnd, g.BranchToEnd)
			})
		}
		return list
	default:
		b, ok := BodyOf(kind, t)
		if !ok {
			return nil
		}
		list := []Dimension{b.Length}
		if last == 2 {
			withEnds(t, func(in, out *Half) { list = append(list, b.Over(in, out)) })
		}
		return list
	}
	return nil
}

// withEnds calls each with every pair of ends that t can carry.
func withEnds(t Tube, each func(in, out *Half)) {
	for _, in := range Ends(t) {
		for _, out := range Ends(t) {
			from, _ := FindHalf(in, t)
			to, _ := FindHalf(out, t)
			each(from, to)
		}
	}
}
