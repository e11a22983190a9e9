package view

import (
	"strconv"
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/workfile"
)

// The bench: what to buy after what is in hand, what to saw from which length,
// and what to weld. The workshop writes it.

// StockPrefix stands before the path of what a person has of their own, where
// the design's fields have theirs.
const StockPrefix = "stock:"

// stock is a field for something on the shelf; usual is what counts while it is empty.
func (h *html) stock(b Bench, label, path, value, usual string) {
	id := "in-" + StockPrefix + path
	pending, wrong := b.pending(StockPrefix + path)
	if wrong {
		value = pending.Value
	}
	h.Open("div", "class", "field")
	h.El("label", label, "for", id)
	h.Void("input", "id", id, "data-stock", path, "value", value, "placeholder", usual, "autocomplete", "off", "enterkeyhint", "done",
		"aria-invalid", markup.If(wrong, "true"), "aria-describedby", markup.If(wrong, "err-"+id))
	if wrong {
		h.El("small", Sentence(pending.Fault), "id", "err-"+id, "class", "fault")
	}
	h.Close("div")
}

// copyAndSave offers a list for the clipboard, where a table of cells is what
// a spreadsheet takes, and as a file.
func (h *html) copyAndSave(b Bench, w pipeline.Work, name string) {
	f, ok := workfile.List(b.Report, w, name)
	if !ok {
		return
	}
	h.Open("p", "class", "forms")
	h.Open("button", "type", "button", "data-copy", markup.Empty, "value", workfile.Cells(b.Report, w, name))
	h.Text("Copy this list")
	h.Close("button")
	h.Text(" ")
	h.Open("button", "type", "button", "data-file", f.Name)
	h.Text("Save as CSV")
	h.Close("button")
	h.Close("p")
}

// Buy lists what to buy, each line with what is in hand, what it costs and
// what else would do.
func Buy(b Bench) (gist, content string) {
	w := b.Work
	if len(w.Buy) == 0 {
		return "", ""
	}
	var h html
	if said := Bill(w); said != "" {
		h.El("p", said)
	}
	h.table("", []string{"Part", "To buy"}, len(w.Buy), func(i int) {
		p := w.Buy[i]
		h.Open("th", "scope", "row")
		h.Text(p.Name)
		h.El("small", p.Slug, "class", "slug")
		if p.Odd != "" {
			h.El("small", "Not a stock size: "+p.Odd)
		}
		if p.Note != "" {
			h.El("small", p.Note, "class", "hint")
		}
		h.mine(b, p)
		h.Close("th")
		h.Open("td", "class", "n")
		h.El("strong", HowMany(p.Buy, "pcs"))
		if p.Unit != "pcs" {
			h.El("small", p.Unit)
		}
		if said := Made(p); said != "" {
			h.El("small", said)
		}
		h.Close("td")
	})
	h.Open("div", "class", "fields")
	h.stock(b, "Spares of each seal", "shop.spares", b.Shelf.Shop.Spares.String(), w.Shop.Spares.String())
	h.stock(b, "Prices are in", "shop.currency", b.Shelf.Shop.Currency, "EUR, GBP, …")
	h.Close("div")
	h.strays(b, w)
	h.copyAndSave(b, w, workfile.PartsList)
	return toBuy(w), h.String()
}

// toBuy says in a line what there is to buy.
func toBuy(w pipeline.Work) string {
	n := 0
	for _, p := range w.Buy {
		if p.Buy > 0 {
			n++
		}
	}
	if n == 0 {
		return "all of it is in hand"
	}
	s := count(n, "line", "lines") + " to order"
	if w.Cost > 0 {
		s += ", " + money(w.Cost, w.Currency)
	}
	return s
}

// toSaw says in a line what there is to saw.
func toSaw(w pipeline.Work) string {
	pieces, lengths := 0, 0
	for _, s := range w.Saw {
		pieces += len(s.Pieces)
		lengths += s.Plan.New
	}
	return count(pieces, "piece", "pieces") + " out of " + count(lengths, "new length", "new lengths")
}

// Bill says what all of it comes to.
func Bill(w pipeline.Work) string {
	lines, priced := 0, 0
	for _, p := range w.Buy {
		if p.Buy > 0 {
			lines++
			if p.Price > 0 {
				priced++
			}
		}
	}
	switch {
	case lines == 0:
		return "All of it is in hand: nothing to buy."
	case priced == 0:
		return ""
	}
	s := "In all " + money(w.Cost, w.Currency)
	if n := lines - priced; n > 0 {
		s += ", without " + count(n, "line that has no price", "lines that have no price")
	}
	return s + "."
}

// money writes an amount with two decimals.
func money(x float64, currency string) string {
	return strings.TrimSpace(strconv.FormatFloat(x, 'f', 2, 64) + " " + currency)
}

// HowMany writes "6", "2 lengths of 6 m", and "none" for nought.
func HowMany(n float64, unit string) string {
	switch {
	case n == 0:
		return "none"
	case unit == "pcs":
		return quantity(n)
	case n == 1 && strings.HasPrefix(unit, "lengths "):
		unit = "length " + unit[len("lengths "):]
	}
	return quantity(n) + " " + unit
}

// Made tells how what is to be bought comes about: "5 and 1 spare, less 2 on
// the shelf".
func Made(p order.Purchase) string {
	if p.Spare == 0 && p.Shelf == 0 {
		return ""
	}
	s := quantity(p.Quantity)
	if p.Spare > 0 {
		s += " and " + quantity(p.Spare) + " spare"
	}
	if p.Shelf > 0 {
		s += ", less " + quantity(p.Shelf) + " in hand"
	}
	return s
}

// mine is what a person has and knows of a part.
func (h *html) mine(b Bench, p order.Purchase) {
	item := b.Shelf.Item(p.Slug)
	path := "items:" + p.Slug + ":"
	said := []string{}
	hand := ""
	if item.InHand > 0 {
		hand = strconv.Itoa(item.InHand)
		said = append(said, hand+" on my shelf")
	}
	if p.Price > 0 {
		said = append(said, money(p.Price, b.Shelf.Shop.Currency)+" each")
	}
	if p.From != "" {
		said = append(said, p.From)
	}
	if len(said) == 0 {
		asked := "Price"
		if p.Unit == "pcs" {
			asked = "On my shelf, price"
		}
		said = []string{asked + markup.If(len(p.Instead) > 0, ", what else would do")}
	}
	wrong := false
	for _, field := range []string{"inHand", "price", "from"} {
		_, pending := b.pending(StockPrefix + path + field)
		wrong = wrong || pending
	}
	h.Open("details", "data-keep", "mine "+p.Slug, "open", markup.If(wrong, markup.Empty))
	h.El("summary", strings.Join(said, ", "))
	h.Open("div", "class", "fields")
	if p.Unit == "pcs" {
		h.stock(b, "On my shelf", path+"inHand", hand, "0")
		h.stock(b, "Price of one", path+"price", item.Price.String(), "")
	} else {
		h.stock(b, "Price of a length", path+"price", item.Price.String(), "")
	}
	h.stock(b, "From, and what they call it", path+"from", item.From, "")
	h.Close("div")
	if len(p.Instead) > 0 {
		h.El("p", "Would do instead:")
		h.list(p.Instead)
	}
	h.Close("details")
}

// strays are the parts on the shelf that this design takes none of.
func (h *html) strays(b Bench, w pipeline.Work) {
	takes := map[string]bool{}
	for _, p := range w.Buy {
		takes[p.Slug] = true
	}
	var slugs []string
	for _, it := range b.Shelf.Items {
		if !takes[it.Part] && it.InHand > 0 {
			slugs = append(slugs, it.Part)
		}
	}
	h.table("On my shelf, not for this design", []string{"Part", "In hand"}, len(slugs), func(i int) {
		h.El("th", slugs[i], "scope", "row")
		h.Open("td")
		h.stock(b, "On my shelf", "items:"+slugs[i]+":inHand", strconv.Itoa(b.Shelf.Item(slugs[i]).InHand), "0")
		h.Close("td")
	})
}

// Cuts shows each length of tube with what is sawn from it.
func Cuts(b Bench) (gist, content string) {
	w := b.Work
	if len(w.Saw) == 0 {
		return "", ""
	}
	var h html
	for _, s := range w.Saw {
		h.Open("p")
		h.El("strong", Upper(s.Name)+".")
		h.Text(" " + s.Said)
		h.Close("p")
		h.Raw(draw.Saw(s, min(b.Width, 620)))
		h.sawTable(b, s)
		h.rack(b, s.Tube)
	}
	if sawn := design.RackText(w.RackLeft); sawn != design.RackText(b.Shelf.Rack) {
		h.Open("p")
		h.Open("button", "type", "button", "data-op", "stock", "data-path", "rack", "value", sawn)
		h.Text("All of it is sawn: take off the rack what was used, put on it what is left")
		h.Close("button")
		h.Close("p")
	}
	shop := b.Shelf.Shop
	h.Open("div", "class", "fields")
	h.stock(b, "Trimmed off a new length", "shop.trim", shop.Trim.String(), w.Shop.Trim.Told())
	h.stock(b, "Shortest offcut to keep", "shop.keep", shop.Keep.String(), w.Shop.Keep.Told())
	h.stock(b, "Gap at a seam to be welded", "shop.gap", shop.Gap.String(), w.Shop.Gap.Told())
	h.Close("div")
	h.El("p", "Stock length and saw cut are typed with the stand. A gap at a seam comes off the straights that are made to fit; one whose length you typed is sawn as typed. Ends of legs and braces are shaped from the templates after they are sawn.", "class", "hint")
	h.copyAndSave(b, w, workfile.CutList)
	return b.gist(toSaw(w), order.RuleCut), h.String()
}

// sawn writes a length to saw, with the doubt about it.
func sawn(l, either q.Length) string { return doubted(q.Sawn(l), either) }

// doubted adds to a length the doubt about it, if there is any.
func doubted(length string, either q.Length) string {
	if either > 0 {
		length += " ± " + q.Text(either)
	}
	return length
}

// sawTable lists the cuts in the order in which they are sawn.
func (h *html) sawTable(b Bench, s pipeline.Sawing) {
	type row struct {
		mark, what, at, length, either, after string
		hangs                                 []finding.Share
	}
	var rows []row
	for i, bar := range s.Plan.Bars {
		for k, c := range bar.Cuts {
			piece := s.Pieces[c.Piece]
			r := row{mark: s.Marks[c.Piece], what: SawnPlace(b.Report, piece), at: q.Along(c.From), length: q.Along(c.Length), hangs: piece.Hangs}
			_, r.either, _ = strings.Cut(q.Sawn(c.Length), r.length)
			if piece.Either > 0 {
				r.either += " ± " + q.Text(piece.Either)
			}
			if k == 0 {
				r.after = strconv.Itoa(i+1) + ". " + bar.Name()
			}
			rows = append(rows, r)
		}
	}
	h.table("", []string{"Mark", "Piece", "From", "Length"}, len(rows), func(i int) {
		r := rows[i]
		h.El("th", r.mark, "scope", "row")
		h.Open("td")
		if r.after != "" {
			h.El("small", r.after, "class", "hint")
		}
		h.Text(r.what)
		h.first(r.hangs)
		h.Close("td")
		h.El("td", r.at, "class", "n")
		h.Open("td", "class", "n")
		h.Text(r.length)
		if r.either != "" {
			h.El("small", r.either)
		}
		h.Close("td")
	})
	for _, i := range s.Plan.TooLong {
		h.El("p", s.Marks[i]+", "+s.Pieces[i].Name+": "+sawn(s.Pieces[i].Length, s.Pieces[i].Either)+", longer than any length there is.")
	}
}

// rack is what lies on the rack of a tube, and a field to put more on it.
func (h *html) rack(b Bench, tube string) {
	h.Open("div", "class", "fields")
	h.stock(b, "Put an offcut on the rack", "rack:"+tube, "", "e.g. "+q.KindLength.Start("1.2 m"))
	for i, o := range b.Shelf.Rack {
		if o.Tube == tube {
			h.Open("p")
			h.Text("On the rack: " + o.Length.String() + " ")
			h.op("stock", "rack."+strconv.Itoa(i), "Take it off", "Take "+o.Length.String()+" off the rack")
			h.Close("p")
		}
	}
	h.Close("div")
}

// Welds lists the welds, spool by spool, with their purge.
func Welds(b Bench) (gist, content string) {
	w := b.Work
	if len(w.Welds) == 0 {
		return "", ""
	}
	var h html
	h.list(w.Purge.Cautions)
	for _, s := range w.Purge.Spools {
		h.table(Upper(s.Name()), []string{"No.", "Where", "Weld"}, len(s.Welds), func(i int) {
			weld := w.Welds[s.Welds[i]-1]
			h.El("th", weld.Mark(), "scope", "row")
			h.El("td", WeldPlace(b.Report, weld))
			h.Open("td")
			h.Text(weld.Kind)
			h.El("small", TubeName(weld.Tube), "class", "hint")
			h.Close("td")
		})
		h.El("p", Upper(Purged(w, s)))
	}
	h.Open("div", "class", "fields")
	h.stock(b, "Flow of argon", "shop.argon", b.Shelf.Shop.Argon.String(), w.Shop.Argon.Told())
	h.Close("div")
	h.list(w.Purge.Notes)
	h.figures(w.Figures)
	h.copyAndSave(b, w, workfile.WeldList)
	gist = count(len(w.Welds), "weld", "welds") + " in " + count(len(w.Purge.Spools), "spool", "spools")
	return b.gist(gist + told(w.Figures, "; argon first: ", "purge-argon")), h.String()
}

// Upper begins a sentence with words.
func Upper(words string) string { return strings.ToUpper(words[:1]) + words[1:] }

func (h *html) list(items []string) {
	h.Open("ul")
	for _, s := range items {
		h.El("li", s)
	}
	h.Close("ul")
}

// WeldPlace says what a weld is on.
func WeldPlace(r pipeline.Report, w order.Weld) string {
	if w.Ref == order.Outlet {
		return "Tank"
	}
	return place(r, w.Ref)
}
