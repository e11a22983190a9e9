package order

import (
	"sort"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
)

// pieces is the unit of what is counted.
const (
	pieces = "pcs"
	metres = "m"
)

// The order in which a list is read to a stockholder.
const (
	rankTube = iota
	rankBend
	rankTee
	rankReducer
	rankValve
	rankHalf
	rankCloser
	rankCap
	rankSeal
	rankHose
	rankLeg
	rankFoot
	rankOther
)

func rankOf(kind string) int {
	switch kind {
	case design.Straight:
		return rankTube
	case design.Bend:
		return rankBend
	case design.Tee, design.Cross, design.Pocket, design.Cock:
		return rankTee
	case design.Reducer:
		return rankReducer
	case design.Hose:
		return rankHose
	case design.Cap:
		return rankCap
	}
	if design.IsBody(kind) {
		return rankValve
	}
	return rankOther
}

// list merges lines of one slug. Lists are a few dozen lines long.
type list []ranked

type ranked struct {
	rank int
	Line
}

func (l *list) add(rank int, line Line) {
	for i := range *l {
		had := &(*l)[i]
		if had.Slug != line.Slug || had.Unit != line.Unit {
			continue
		}
		had.Quantity += line.Quantity
		had.Trust = lesser(had.Trust, line.Trust)
		switch {
		case had.Note == "":
			had.Note = line.Note
		case line.Note != "" && !strings.Contains(had.Note, line.Note):
			had.Note += "; " + line.Note
		}
		return
	}
	*l = append(*l, ranked{rank, line})
}

func (l list) sorted() []Line {
	sort.SliceStable(l, func(i, j int) bool {
		a, b := &l[i], &l[j]
		return a.rank < b.rank || a.rank == b.rank && a.Slug < b.Slug
	})
	lines := make([]Line, len(l))
	for i, r := range l {
		lines[i] = r.Line
	}
	return lines
}

// lesser returns the less trusted of two marks; one that is missing does not count.
func lesser(a, b catalog.Trust) catalog.Trust {
	if rank(b) > rank(a) {
		return b
	}
	return a
}

// rank returns how little a mark is trusted.
func rank(t catalog.Trust) int {
	switch t {
	case "":
		return -1
	case catalog.Measured:
		return 0
	case catalog.Standard:
		return 1
	case catalog.Memory:
		return 2
	case catalog.Derived:
		return 3
	case catalog.Custom:
		return 4
	}
	return 5
}
