package view

import (
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
	q "drawoff/pipeline/quantity"
)

// mark is how a mark of trust is told in words.
func mark(trust string) string {
	switch catalog.Trust(trust) {
	case catalog.Measured:
		return "measured by you"
	case catalog.Memory:
		return "from memory"
	case catalog.Custom:
		return "trade custom"
	}
	return trust
}

// hangs says what an answer rests on that is not from a standard.
func hangs(shares []finding.Share) string {
	var moves, rest []string
	for _, s := range shares {
		name := catalog.DimensionName(s.Dimension)
		if s.By > 0 {
			moves = append(moves, name+" (± "+q.Text(s.By)+", "+mark(s.Trust)+")")
		} else {
			rest = append(rest, name+" ("+mark(s.Trust)+")")
		}
	}
	s := ""
	if len(moves) > 0 {
		s = "In doubt by, all at their worst: " + strings.Join(moves, "; ") + "."
	}
	if len(rest) > 0 {
		s += " Rests besides on: " + strings.Join(rest, "; ") + "."
	}
	return strings.TrimSpace(s)
}

// first says which part to measure first, where there is a doubt.
func (h *html) first(shares []finding.Share) {
	if len(shares) > 0 && shares[0].By > 0 {
		h.El("small", "Measure first: "+catalog.DimensionName(shares[0].Dimension), "class", "hint")
	}
}

// moves says what a length in doubt could move, and how far.
func moves(r pipeline.Report, dimension string) string {
	const told = 4
	all := r.Moves(dimension)
	var words []string
	for i, m := range all {
		if i == told {
			words = append(words, strconv.Itoa(len(all)-told)+" more")
			break
		}
		words = append(words, m.Answer+" by "+q.Text(m.By))
	}
	if len(words) == 0 {
		return "Nothing that is worked out here moves with it."
	}
	return "Could move: " + strings.Join(words, "; ") + "."
}

// taken tells a length with its doubt: "76.2 mm ± 25.4 mm".
func taken(length q.Amount, either *q.Amount) string {
	s := length.String()
	if either != nil {
		s += " ± " + either.String()
	}
	return s
}

// Doubts lists the lengths that nobody has published, the one that matters
// most first, each with a place to type what the caliper says; then those that
// were measured.
func Doubts(b Bench) string {
	var h html
	doubtful := b.Report.Doubtful()
	if len(doubtful)+len(b.Design.Measured) == 0 {
		return ""
	}
	if len(doubtful) > 0 {
		h.El("p", "No standard that could be read gives these lengths. Drawoff works with what is shown, all of it wrong at once and the same way, until you measure the part in hand. The one that moves most comes first.")
		h.recall(b, doubtful)
		h.Open("ul", "class", "doubts")
		for _, d := range doubtful {
			id := "in-measure:" + d.Dimension
			h.Open("li")
			h.Open("label", "for", id)
			h.Text(d.Name() + ": taken as " + taken(d.Length, d.Either))
			h.Close("label")
			h.measure(id, d.Dimension, "", b)
			h.offer(b, d.Dimension)
			h.El("p", moves(b.Report, d.Dimension))
			h.El("small", strings.TrimSpace(d.Measure+" ("+mark(d.Trust)+": "+d.Source+")"), "class", "hint")
			h.Close("li")
		}
		h.Close("ul")
	}
	if len(b.Design.Measured) > 0 {
		h.El("p", "Measured by you, in this design; empty a field to go back to the catalogue:")
		h.Open("ul", "class", "doubts")
		for _, m := range b.Design.Measured {
			id := "in-measure:" + m.Part
			h.Open("li")
			h.El("label", catalog.DimensionName(m.Part), "for", id)
			h.measure(id, m.Part, m.Length.String(), b)
			if d, ok := catalog.FindDimension(m.Part); ok {
				h.El("small", "the catalogue has "+cutLength(d.Length, d.Either)+" ("+mark(string(d.Trust))+")", "class", "hint")
			}
			h.Close("li")
		}
		h.Close("ul")
	}
	return h.String()
}

// measure is the field for what the caliper says of a dimension.
func (h *html) measure(id, dimension, value string, b Bench) {
	path := "measure:" + dimension
	pending, wrong := b.pending(path)
	if wrong {
		value = pending.Value
	}
	h.Void("input", "id", id, "data-measure", dimension, "value", value, "placeholder", "measured, e.g. "+q.Caliper(q.Mm(21.5)), "autocomplete", "off",
		"aria-invalid", markup.If(wrong, "true"), "aria-describedby", markup.If(wrong, "err-"+id), "enterkeyhint", "done")
	if wrong {
		h.El("p", Sentence(pending.Fault), "id", "err-"+id, "class", "fault")
	}
}

// offer shows what the user has measured of a dimension before.
func (h *html) offer(b Bench, dimension string) {
	if m, ok := b.Shelf.Length(dimension); ok {
		h.Open("p")
		h.Open("button", "type", "button", "data-op", "measure", "data-path", dimension, "value", m.Length.String())
		h.Text("You measured this as " + q.Measured(m.Length) + ": use it")
		h.Close("button")
		h.Close("p")
	}
}

// recall offers everything at once where the shelf has more than one.
func (h *html) recall(b Bench, doubtful []pipeline.Dimension) {
	n := 0
	for _, d := range doubtful {
		if _, ok := b.Shelf.Length(d.Dimension); ok {
			n++
		}
	}
	if n > 1 {
		h.Open("p")
		h.Open("button", "type", "button", "data-op", "recall")
		h.Text("Use all " + strconv.Itoa(n) + " that you measured before")
		h.Close("button")
		h.Close("p")
	}
}

// dimensions lists the lengths that the piece at path rests on, each with its
// mark and a field for what the user measures: any of them may be replaced.
func (f *form) dimensions(path string) {
	layout := &f.bench.Report.Scene.Layout
	var dims []catalog.Dimension
	add := func(d catalog.Dimension) {
		for _, had := range dims {
			if had.Slug == d.Slug {
				return
			}
		}
		if d.Slug != "" {
			dims = append(dims, d)
		}
	}
	for i := range layout.Junctions {
		if layout.Junctions[i].Ref == path {
			add(layout.Junctions[i].Gap)
		}
	}
	pieces := layout.Pieces()
	for i := range pieces {
		if pieces[i].Ref == path {
			for _, d := range pieces[i].Dims {
				add(d)
			}
		}
	}
	if len(dims) == 0 {
		return
	}
	f.Open("details", "class", "dims", "data-keep", "dims "+path, "open", markup.If(f.mismeasured(dims), markup.Empty))
	f.El("summary", "Its lengths, and how far each is to be trusted")
	f.Open("ul", "class", "doubts")
	for _, d := range dims {
		id := "in-" + path + "-measure-" + d.Slug
		f.Open("li")
		f.Open("label", "for", id)
		f.Text(catalog.DimensionName(d.Slug) + ": " + cutLength(d.Length, d.Either) + " ")
		f.El("span", mark(string(d.Trust)), "class", "mark "+string(d.Trust))
		f.Close("label")
		typed := ""
		for _, m := range f.bench.Design.Measured {
			if m.Part == d.Slug {
				typed = m.Length.String()
			}
		}
		f.measure(id, d.Slug, typed, f.bench)
		if typed == "" {
			f.offer(f.bench, d.Slug)
		}
		f.El("small", strings.TrimSpace(d.Caliper+" ("+d.Source+")"), "class", "hint")
		f.Close("li")
	}
	f.Close("ul")
	f.Close("details")
}

// mismeasured reports whether a measurement of one of dims could not be taken.
func (f *form) mismeasured(dims []catalog.Dimension) bool {
	for _, d := range dims {
		if _, wrong := f.bench.pending("measure:" + d.Slug); wrong {
			return true
		}
	}
	return false
}

// Shelf is what the user has of their own, whatever the design.
func Shelf(b Bench) string {
	var h html
	h.El("p", "What you measure, and the parts you keep, stay on this device for every design of yours. A design takes along only what it uses. Parts and offcuts in hand stand with what to buy and to saw.")
	here := notOn(b.Design.Made, b.Shelf.Made)
	if b.Shelf.Size()+len(here) == 0 {
		h.El("p", "Nothing is on it yet.", "class", "hint")
	}
	h.table("Measured", []string{"Part", "Length", ""}, len(b.Shelf.Measured), func(i int) {
		m := b.Shelf.Measured[i]
		name := catalog.DimensionName(m.Part)
		h.El("th", name, "scope", "row")
		h.El("td", q.Measured(m.Length), "class", "n")
		h.Open("td")
		h.op("forget", m.Part, "Forget", "Forget "+name)
		h.Close("td")
	})
	h.table("Parts of your own", []string{"Part", "Made of", ""}, len(b.Shelf.Made), func(i int) {
		h.madeRow(b.Shelf.Made[i])
		h.Open("td")
		h.op("forget", b.Shelf.Made[i].Name, "Forget", "Forget "+b.Shelf.Made[i].Name)
		h.Close("td")
	})
	h.table("Parts that came with this design", []string{"Part", "Made of", ""}, len(here), func(i int) {
		m := b.Design.Made[here[i]]
		h.madeRow(m)
		h.Open("td")
		h.op("keep", "made."+strconv.Itoa(here[i]), "Put on my shelf", "Put "+m.Name+" on my shelf")
		h.Close("td")
	})
	h.Open("p")
	if b.Shelf.Write() != "" {
		h.Open("button", "type", "button", "id", "save-shelf")
		h.Text("Save the shelf as a file")
		h.Close("button")
		h.Text(" ")
	}
	h.El("small", "\"Open file\" at the top reads a shelf as well as a design.", "class", "hint")
	h.Close("p")
	return h.String()
}

// notOn returns the places in made of the parts that are not on the shelf.
func notOn(made, shelf []design.Made) []int {
	var out []int
	for i, m := range made {
		if _, ok := design.FindMade(shelf, m.Name); !ok {
			out = append(out, i)
		}
	}
	return out
}

func (h *html) madeRow(m design.Made) {
	var of []string
	for _, p := range m.Pieces {
		of = append(of, madeOf(p))
	}
	h.El("th", m.Name, "scope", "row")
	h.El("td", strings.Join(of, ", then "))
}

// madeOf tells a piece of a part: "bend 45°, 1½ in (BS 4825-1), from clamp/ferrule to weld".
func madeOf(p design.Piece) string {
	s := p.Kind
	if k, ok := design.FindKind(p.Kind); ok {
		s = k.Name
	}
	for _, more := range []string{p.Angle.String(), p.Shape, p.Length.Told()} {
		if more != "" {
			s += " " + more
		}
	}
	s += ", " + TubeName(p.Size)
	if p.To != "" {
		s += " to " + TubeName(p.To)
	}
	end := func(e string) string {
		if e == "" {
			return design.Weld
		}
		return strings.ReplaceAll(strings.ReplaceAll(e, "-", " "), "/", " ")
	}
	return s + ", " + end(p.In) + " to " + end(p.Out)
}

// op writes a button that asks for op at path.
func (h *html) op(op, path, words, label string) {
	h.Open("button", "type", "button", "data-op", op, "data-path", path, "aria-label", label)
	h.Text(words)
	h.Close("button")
}

// MadePrefix marks, among the kinds of piece to add, a part of the user's own.
const MadePrefix = "made:"

// made lists the parts of the user's own that can be added: the design's, and
// those on the shelf.
func (f *form) made() {
	var names []string
	for _, m := range f.bench.Design.Made {
		names = append(names, m.Name)
	}
	for _, m := range f.bench.Shelf.Made {
		if _, ok := design.FindMade(f.bench.Design.Made, m.Name); !ok {
			names = append(names, m.Name)
		}
	}
	if len(names) == 0 {
		return
	}
	f.Open("optgroup", "label", "Parts of your own")
	for _, name := range names {
		f.option(MadePrefix+name, name, false)
	}
	f.Close("optgroup")
}
