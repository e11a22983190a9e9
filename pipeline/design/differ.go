package design

import (
	"slices"
	"strings"
)

// Difference is something that two designs say otherwise.
type Difference struct {
	A, B    string // its path in either design, "" where one has no such item
	Was, Is string // as typed there, "" for what was left empty; of a whole item all that is said of it
}

// Differ returns what a and b say otherwise, in the order of a file. Of a list
// the items alike at its head and at its tail are passed over, and those
// between are held against each other one by one: a piece put in is one
// difference, however many come after it. What was assumed is no part of it.
func Differ(a, b Design) []Difference {
	a, b = a.Clone(), b.Clone()
	a.Assumed, b.Assumed = nil, nil
	return differ("", "", &a, &b)
}

func differ(pathA, pathB string, a, b record) (out []Difference) {
	a.fields(func(name string, was any, _ presence) bool {
		is, pa, pb := named(b, name), within(pathA, name), within(pathB, name)
		switch was := was.(type) {
		case record:
			out = append(out, differ(pa, pb, was, is.(record))...)
		case sequence:
			out = append(out, differLists(pa, pb, was, is.(sequence))...)
		default:
			x, _ := text(was)
			if y, _ := text(is); x != y {
				out = append(out, Difference{pa, pb, x, y})
			}
		}
		return true
	})
	return out
}

func differLists(pathA, pathB string, a, b sequence) (out []Difference) {
	alike := func(i, j int) bool { return slices.Equal(said(a.item(i)), said(b.item(j))) }
	from, endA, endB := 0, a.len(), b.len()
	for from < endA && from < endB && alike(from, from) {
		from++
	}
	for endA > from && endB > from && alike(endA-1, endB-1) {
		endA--
		endB--
	}
	for i := from; i < max(endA, endB); i++ {
		switch {
		case i >= endB:
			out = append(out, Difference{A: itemPath(pathA, i), Was: inWords(a.item(i))})
		case i >= endA:
			out = append(out, Difference{B: itemPath(pathB, i), Is: inWords(b.item(i))})
		default:
			out = append(out, differ(itemPath(pathA, i), itemPath(pathB, i), a.item(i), b.item(i))...)
		}
	}
	return out
}

// said returns all that is said of r, each with its path within it.
func said(r record) (out []string) {
	leaves(r, "", func(in, name string, at any) {
		if words, _ := text(at); words != "" {
			out = append(out, within(in, name), words)
		}
	})
	return out
}

// inWords returns all that is said of r, without the names of its fields.
func inWords(r record) string {
	var out []string
	for i, s := range said(r) {
		if i%2 == 1 {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}
