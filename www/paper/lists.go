package paper

import (
	"strconv"
	"strings"

	"drawoff/pipeline/draw"
	q "drawoff/pipeline/quantity"
	"drawoff/www/view"
)

// orders is what to buy, and what is in hand for it.
func orders(b view.Bench) string {
	var buy, hand [][]string
	own := false // somebody has said where it comes from or what it costs
	for _, p := range b.Work.Buy {
		own = own || p.From != "" || p.Price > 0
	}
	for _, p := range b.Work.Buy {
		if p.Shelf > 0 {
			hand = append(hand, []string{box, view.HowMany(p.Shelf, p.Unit), p.Name})
		}
		if p.Buy == 0 {
			continue
		}
		name := p.Name
		if p.Odd != "" {
			name += ". Not a stock size: " + p.Odd + " " + strings.Join(p.Instead, " ")
		}
		note := p.Note
		if made := view.Made(p); made != "" {
			note = strings.Trim(made+"; "+note, "; ")
		}
		row := []string{box, view.HowMany(p.Buy, p.Unit), name, note}
		if own {
			price := ""
			if p.Price > 0 {
				price = strconv.FormatFloat(p.Price, 'f', 2, 64)
			}
			row = append(row, p.From, price)
		}
		buy = append(buy, row)
	}
	columns := []string{"", "#Buy", "Part", "Note"}
	if own {
		columns = append(columns, "From", strings.TrimSpace("#Each "+b.Work.Currency))
	}
	var h html
	h.table("", columns, buy)
	if said := view.Bill(b.Work); said != "" {
		h.El("p", said)
	}
	h.table("In hand: take it from the shelf", []string{"", "#Take", "Part"}, hand)
	return h.String()
}

// cuts is what is sawn from which length.
func cuts(b view.Bench) string {
	var h html
	doubt := false
	for _, s := range b.Work.Saw {
		h.Raw("<section>")
		h.El("h3", s.Name)
		h.El("p", s.Said)
		h.Raw(draw.Saw(s, across))
		h.Raw("</section>")
		length := func(l, either q.Length) string {
			if either == 0 {
				return q.Sawn(l)
			}
			doubt = true
			return q.Sawn(l) + " ± " + q.Text(either)
		}
		var rows [][]string
		for i, bar := range s.Plan.Bars {
			for _, c := range bar.Cuts {
				piece := s.Pieces[c.Piece]
				rows = append(rows, []string{box, s.Marks[c.Piece], view.SawnPlace(b.Report, piece), strconv.Itoa(i+1) + ". " + bar.Name(), q.Along(c.From), length(c.Length, piece.Either)})
			}
		}
		h.table("", []string{"", "Mark", "Piece", "Sawn from", "#At", "#Length"}, rows)
		for _, i := range s.Plan.TooLong {
			h.El("p", s.Marks[i]+", "+view.SawnPlace(b.Report, s.Pieces[i])+": "+length(s.Pieces[i].Length, s.Pieces[i].Either)+", longer than any length there is.")
		}
	}
	if doubt {
		h.El("p", "± is how far a length hangs on parts that nobody publishes a length for: measure those, or offer the tube up, before it is sawn.")
	}
	return h.String()
}

// welds is what is welded, spool by spool, with its purge.
func welds(b view.Bench) string {
	w := b.Work
	if len(w.Welds) == 0 {
		return ""
	}
	var h html
	h.Raw(`<div class="stop care">`)
	h.bullets("", w.Purge.Cautions)
	h.Raw("</div>")
	var rows [][]string
	for _, s := range w.Purge.Spools {
		rows = append(rows, []string{view.Upper(s.Name()) + ": " + view.Purged(w, s)})
		for _, n := range s.Welds {
			weld := w.Welds[n-1]
			rows = append(rows, []string{box, weld.Mark(), view.WeldPlace(b.Report, weld), weld.Kind, view.TubeName(weld.Tube)})
		}
	}
	h.table("", []string{"", "Weld", "At", "What", "Tube"}, rows)
	h.bullets("small", w.Purge.Notes)
	return h.String()
}
