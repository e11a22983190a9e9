package order

import (
	"math"
	"slices"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// tubes adds up the cuts of each tube of the line.
func (b *builder) tubes() {
	var slugs []string
	for _, c := range b.r.Cuts {
		if !slices.Contains(slugs, c.Tube) {
			slugs = append(slugs, c.Tube)
		}
	}
	for _, slug := range slugs {
		tube, ok := catalog.FindTube(slug)
		part, trust := catalog.Part{Slug: slug, Name: "tube, " + slug}, catalog.Unknown
		if ok {
			part, trust = catalog.TubePart(tube), tube.Trust
		}
		var total q.Length
		for _, c := range b.r.Cuts {
			if c.Tube != slug {
				continue
			}
			total += c.Length
			if c.Either > 0 {
				trust = catalog.Unknown
			}
		}
		b.list.add(rankTube, Line{Slug: part.Slug, Name: part.Name, Quantity: wholeMillimetres(total), Unit: metres, Trust: trust})
	}
}

// FrameTube says in words what a tube of the frame is, "leg-tube/48.3x2":
// "leg tube, 48.3 x 2 mm".
func FrameTube(slug string) string {
	what, size, _ := strings.Cut(slug, "/")
	return strings.ReplaceAll(what, "-", " ") + ", " + strings.ReplaceAll(size, "x", " x ") + " mm"
}

// wholeMillimetres returns l in metres, rounded up to a millimetre.
func wholeMillimetres(l q.Length) float64 {
	return math.Ceil(l.Millimetres()-1e-6) / 1000
}

// give tells a length with the doubt about it.
func give(l q.Length, d route.Doubt) string {
	if d.Either == 0 {
		return q.Text(l)
	}
	return q.Text(l) + " ± " + q.Text(d.Either)
}

// figures counts up.
func (b *builder) figures() []finding.Figure {
	var tube q.Length
	for _, c := range b.r.Cuts {
		if c.Ref != Stand {
			tube += c.Length
		}
	}
	parts := 0.0
	for _, l := range b.r.Lines {
		if l.Unit == pieces {
			parts += l.Quantity
		}
	}
	count := func(slug, name, formula string, a q.Amount) finding.Figure {
		return finding.Figure{Slug: slug, Name: name, Amount: a, Working: finding.Working{Formula: formula, Source: "counted from the layout", Range: "the pieces of the design, nothing spare"}}
	}
	return []finding.Figure{
		count("welds", "Welds to make", "tube ends that meet, and one for every half or cap that is welded on", q.Of(q.Number(len(b.r.Welds)))),
		count("tube-length", "Tube to cut for the line", "the sum of the cuts, saw cuts not counted, legs not counted", q.Of(tube)),
		count("parts", "Parts to buy", "the sum of what is counted in pieces", q.Of(q.Number(parts))),
	}
}
