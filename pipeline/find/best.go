package find

import (
	"cmp"
	"math"
	"slices"
)

// criterion is one thing that runs are compared by, in the words of the answer.
type criterion struct {
	name string
	of   func(Run) float64 // less is better
}

// criteria are all of them, those first that count for more where there are
// more runs than are offered.
var criteria = [...]criterion{
	{"drains completely", func(r Run) float64 {
		if r.Drains != "" {
			return 0
		}
		return 1
	}},
	{"fewest parts", func(r Run) float64 { return float64(r.Parts) }},
	{"shortest", func(r Run) float64 { return round(float64(r.Length), 1e-3) }},
	{"least loss", func(r Run) float64 { return round(float64(r.Loss), 1e-3) }},
	{mostSuction, func(r Run) float64 { return -round(float64(r.Suction), 1e-3) }},
	{mostFlow, func(r Run) float64 { return -round(float64(r.Flow), 1e-6) }},
	{"cheapest to strip", func(r Run) float64 { return float64(r.Unions) }},
	{"fewest welds", func(r Run) float64 { return float64(r.Welds) }},
}

const (
	mostSuction = "most suction head"
	mostFlow    = "most flow"
)

// judges reports whether a criterion says anything of r: suction head is a
// matter of the line to a pump, and what runs out of the other lines is of theirs.
func (c criterion) judges(r Run) bool {
	switch c.name {
	case mostSuction:
		return !r.toOutflow
	case mostFlow:
		return r.toOutflow
	}
	return true
}

func round(x, to float64) float64 { return math.Round(x/to) * to }

// beats reports whether r is as good as o in every respect, and better in one.
func (r Run) beats(o Run) (better bool) {
	for _, c := range criteria {
		if !c.judges(r) {
			continue
		}
		a, b := c.of(r), c.of(o)
		if a > b {
			return false
		}
		better = better || a < b
	}
	return better
}

// alike reports whether two runs are of one worth.
func (r Run) alike(o Run) bool { return !r.beats(o) && !o.beats(r) && r.worth() == o.worth() }

func (r Run) worth() (w [len(criteria)]float64) {
	for i, c := range criteria {
		w[i] = c.of(r)
	}
	return w
}

// best keeps the runs that no other beats, of those of one worth the first,
// and of them at most six: for each criterion one that is best at it, and
// then those that are best at the most.
func best(runs []Run) []Run {
	var kept []Run
	for _, r := range runs {
		if !slices.ContainsFunc(runs, func(o Run) bool { return o.beats(r) }) && !slices.ContainsFunc(kept, r.alike) {
			kept = append(kept, r)
		}
	}
	if len(kept) == 0 {
		return nil
	}
	for _, c := range criteria {
		least := c.of(slices.MinFunc(kept, func(a, b Run) int { return cmp.Compare(c.of(a), c.of(b)) }))
		for i := range kept {
			if c.judges(kept[i]) && c.of(kept[i]) == least && (c.name != criteria[0].name || least == 0) {
				kept[i].Best = append(kept[i].Best, c.name)
			}
		}
	}
	slices.SortStableFunc(kept, Run.compare)
	var out []Run
	take := func(wanted func(Run) bool) {
		if i := slices.IndexFunc(kept, wanted); i >= 0 && len(out) < most {
			out = append(out, kept[i])
			kept = slices.Delete(kept, i, i+1)
		}
	}
	for _, c := range criteria {
		has := func(r Run) bool { return slices.Contains(r.Best, c.name) }
		if !slices.ContainsFunc(out, has) {
			take(has)
		}
	}
	for len(kept) > 0 && len(out) < most {
		take(func(Run) bool { return true })
	}
	slices.SortStableFunc(out, Run.compare)
	return out
}

// compare puts what drains first, then what is best at most.
func (r Run) compare(o Run) int {
	drains := criteria[0].of
	return cmp.Or(cmp.Compare(drains(r), drains(o)), cmp.Compare(len(o.Best), len(r.Best)), cmp.Compare(r.Parts, o.Parts))
}
