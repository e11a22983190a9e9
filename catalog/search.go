package catalog

import "sort"

// MostHits is how many hits Search returns at most, MostAsked how long a query
// it reads: a person asks for one thing at a time.
const (
	MostHits  = 40
	MostAsked = 120
)

// Search returns what in the catalogue fits the words and sizes of a query,
// the best first; none where nothing does. It forgives spelling and takes what
// people say: "2 inch rjt liner", "DN50 dairy nut", "51 mm tube", "1½\" elbow".
//
// What fits most of the words is returned, so that one word too many, a grade
// of steel or a make, does no harm.
func Search(query string) []Hit {
	if len(query) > MostAsked {
		query = query[:MostAsked]
	}
	said := scan(query)
	if len(said) == 0 {
		return nil
	}
	type found struct {
		missed int
		score  float64
		item   *item
	}
	var list []found
	least := len(said) // a hit fits at least one word
	all := things()
	ofGroup := map[*group][]float64{}
	for i := range all {
		th := &all[i]
		own := scores(said, th.name, th.aka)
		silent := unsaid(said, th)
		for k := range th.items {
			it := &th.items[k]
			g, ok := ofGroup[it.group]
			if !ok {
				g = scores(said, it.group.words, nil)
				ofGroup[it.group] = g
			}
			f := found{item: it, score: -0.1*silent - it.group.after}
			for n, t := range said {
				s := max(own[n], g[n], it.fits(t))
				if s == 0 {
					f.missed++
				}
				f.score += s
			}
			if f.missed < len(said) && f.missed <= least {
				least = f.missed
				list = append(list, f)
			}
		}
	}
	sort.SliceStable(list, func(i, j int) bool {
		a, b := &list[i], &list[j]
		return a.missed < b.missed || a.missed == b.missed && a.score > b.score+1e-9
	})
	var hits []Hit
	for i := range list {
		if list[i].missed > least || len(hits) == MostHits {
			break
		}
		hits = append(hits, list[i].item.hit())
	}
	return hits
}

// scores returns how well each word that was said fits a name or what else it
// is called, which counts a little less.
func scores(said, name, aka []token) []float64 {
	out := make([]float64, len(said))
	for i, t := range said {
		out[i] = max(best(t, name), 0.95*best(t, aka))
	}
	return out
}

// unsaid counts the words of a thing's name that nobody said; none where it
// was called by another of its names.
func unsaid(said []token, th *thing) float64 {
	n := 0.0
	for _, w := range th.name {
		if best(w, said) == 0 {
			n++
		}
	}
	for _, w := range th.aka {
		if best(w, said) == 1 {
			return min(n, 0.5)
		}
	}
	return n
}
