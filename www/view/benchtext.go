package view

import (
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
)

// work is what there is to do on the bench, as a terminal prints it.
func (t *text) work(r pipeline.Report, w pipeline.Work) {
	t.head("To buy")
	var rows [][]string
	for _, p := range w.Buy {
		rows = append(rows, []string{HowMany(p.Buy, p.Unit), p.Name, Made(p), p.From, p.Note})
	}
	t.table(rows)
	if said := Bill(w); said != "" {
		t.wrap("  ", said)
	}
	for _, p := range w.Buy {
		if p.Odd != "" {
			t.wrap("  ", p.Name+" is not a stock size: "+p.Odd)
		}
		for _, other := range p.Instead {
			t.wrap("  ", p.Name+" or: "+other)
		}
	}

	t.head("To saw")
	for _, s := range w.Saw {
		t.wrap("  ", Upper(s.Name)+": "+s.Said)
		rows = nil
		for i, b := range s.Plan.Bars {
			rows = append(rows, []string{strconv.Itoa(i+1) + ". " + b.Name(), "", "", b.Rest()})
			for _, c := range b.Cuts {
				piece := s.Pieces[c.Piece]
				rows = append(rows, []string{"   from " + q.Along(c.From), sawn(c.Length, piece.Either), "mark it " + s.Marks[c.Piece], SawnPlace(r, piece)})
			}
		}
		for _, i := range s.Plan.TooLong {
			rows = append(rows, []string{"   too long", sawn(s.Pieces[i].Length, s.Pieces[i].Either), "mark it " + s.Marks[i], SawnPlace(r, s.Pieces[i])})
		}
		t.table(rows)
	}

	if len(w.Welds) == 0 {
		return
	}
	t.head("To weld")
	for _, c := range w.Purge.Cautions {
		t.wrap("  ", c)
	}
	for _, s := range w.Purge.Spools {
		name := s.Name()
		t.wrap("  ", Upper(name)+": "+Purged(w, s))
		rows = nil
		for _, n := range s.Welds {
			weld := w.Welds[n-1]
			rows = append(rows, []string{weld.Mark(), WeldPlace(r, weld), weld.Kind, TubeName(weld.Tube)})
		}
		t.table(rows)
	}
	for _, n := range w.Purge.Notes {
		t.wrap("  ", n)
	}
	rows = nil
	for _, f := range w.Figures {
		rows = append(rows, []string{f.Name, amount(f), f.Slug})
	}
	t.table(rows)
}

// SawnPlace says what a piece of tube is: by its number on the drawing, or as
// a part of the stand.
func SawnPlace(r pipeline.Report, c order.Cut) string {
	if place := place(r, c.Ref); c.Ref != order.Stand && place != "" {
		return place
	}
	return c.Name
}

// Purged says what is swept through a spool before each of its welds.
func Purged(w pipeline.Work, s order.Spool) string {
	return "before each weld " + q.Text(s.Argon) + " of argon through " + q.Text(s.Volume) + ", " + q.Text(s.Time) + " at " + q.Text(w.Purge.Flow) + "."
}
