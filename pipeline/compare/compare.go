// Package compare holds two plants side by side: what was said otherwise, what
// came of it, and what it takes more or less to buy, cut and weld. It judges
// nothing: which of the two is better is for a person to say.
package compare

import (
	"slices"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Plant is a design with its report.
type Plant struct {
	Design design.Design
	Report pipeline.Report // of Design, by pipeline.Check
}

// Check works out the plant of d.
func Check(d design.Design) Plant { return Plant{d, pipeline.Check(d)} }

// Sheet is all that tells two plants apart, A and B, and every figure of both.
type Sheet struct {
	Said    []design.Difference
	Figures []Figure  // those that differ first, otherwise in the order of the reports
	Gained  []Verdict // what B has and A has not, of what stops or is to be looked at
	Lost    []Verdict // what A has and B has not
	Moved   []Verdict // what both have, of another level or by another amount
	Parts   []Count   // to buy: those of which the two take different numbers
	Cuts    []Cut     // to cut: those that are not in both, with their lengths
	Welds   []Count   // to make: those of which the two take different numbers
}

// Figure is one figure of two plants.
type Figure struct {
	Slug, Name string
	A, B       *finding.Figure // nil where that plant has none
	By         *q.Amount       // B less A; nil where one is missing, and where a difference has no meaning
	Differs    bool            // as shown: what rounds to the same is the same
}

// Verdict is what a rule says of two plants: of A, of B, or of both.
type Verdict struct{ A, B *finding.Verdict }

// Count is how many of something each plant takes.
type Count struct {
	Name, Unit string
	A, B       float64
}

// Cut is a length of tube in two plants; nil where it is not cut.
type Cut struct {
	Name string
	A, B *q.Length
}

// Of compares a with b. A plant that could not be worked out has no
// figures, verdicts or parts.
func Of(a, b Plant) Sheet {
	s := Sheet{
		Said:    design.Differ(a.Design, b.Design),
		Figures: figures(Figures(a.Report), Figures(b.Report)),
		Parts:   parts(a.Report, b.Report),
		Cuts:    cuts(a.Report, b.Report),
		Welds:   welds(a.Report, b.Report),
	}
	s.verdicts(a.Report, b.Report)
	return s
}

// Figures returns every figure that a report can give, those too that it
// works out only when it is asked, each once.
func Figures(r pipeline.Report) []finding.Figure {
	if r.Verdicts == nil {
		return nil
	}
	seen := map[string]bool{}
	var out []finding.Figure
	for _, f := range slices.Concat(r.Figures, r.Stability().Figures, r.Transfer().Figures, r.Reserve().Figures) {
		if !seen[f.Slug] {
			seen[f.Slug] = true
			out = append(out, f)
		}
	}
	return out
}

func figures(a, b []finding.Figure) []Figure {
	var all []Figure
	for i := range a {
		f := Figure{Slug: a[i].Slug, Name: a[i].Name, A: &a[i]}
		if j := slices.IndexFunc(b, func(g finding.Figure) bool { return g.Slug == f.Slug }); j >= 0 {
			f.B = &b[j]
		}
		all = append(all, f)
	}
	for i := range b {
		if !slices.ContainsFunc(a, func(g finding.Figure) bool { return g.Slug == b[i].Slug }) {
			all = append(all, Figure{Slug: b[i].Slug, Name: b[i].Name, B: &b[i]})
		}
	}
	var differ, same []Figure
	for _, f := range all {
		f.compare()
		if f.Differs {
			differ = append(differ, f)
		} else {
			same = append(same, f)
		}
	}
	return append(differ, same...)
}

// compare fills in how the two differ.
func (f *Figure) compare() {
	if f.A == nil || f.B == nil {
		f.Differs = true
		return
	}
	a, b := f.A.Amount, f.B.Amount
	f.Differs = a.Kind != b.Kind || a.String() != b.String() || doubt(f.A) != doubt(f.B)
	if f.Differs && a.Kind == b.Kind && subtracts(a.Kind) && a.SI != b.SI {
		f.By = &q.Amount{Kind: a.Kind, SI: b.SI - a.SI}
	}
}

// doubt is the half-width of what is not known about f, as shown.
func doubt(f *finding.Figure) string {
	if f.Either == nil {
		return ""
	}
	return f.Either.String()
}

// subtracts reports whether the difference of two amounts of a kind can be
// shown in its units: those of a temperature begin somewhere, and a fall is
// told as one in so many.
func subtracts(k q.Kind) bool { return k != q.KindTemperature && k != q.KindSlope }
