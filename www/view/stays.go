package view

import (
	"strconv"
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/holdup"
	q "drawoff/pipeline/quantity"
)

// Stays shows what stays behind when the plant is emptied, where it sits and
// how to get it out, where air stays, and the dead ends. The workshop writes it.
func Stays(b Bench) (gist, content string) {
	s := b.Report.Stays()
	var h html
	h.El("p", staysSummary(&s))
	h.Raw(draw.Stays(b.Report, s, b.Width))
	if marked := len(s.Pools) + len(s.Air); marked > 0 {
		h.El("p", "Lettered as in the tables: filled, liquid that stays, dark what no drain valve empties; dashed, air that stays when the line is filled.", "class", "legend")
	}
	h.staysTable("What stays, in flow order; the film on the walls on its own line", staysRows(b.Report, &s))
	h.El("h5", "How to empty it")
	h.Open("ol", "class", "steps")
	for _, step := range s.Steps {
		h.El("li", step)
	}
	h.Close("ol")
	h.El("h5", "Blown through, or with a pig")
	h.Open("ul")
	for _, words := range []string{s.Blown, s.Pigged} {
		if words != "" {
			h.El("li", words)
		}
	}
	h.Close("ul")
	h.staysTable("Where air stays when the line is filled, and the speed that carries it on", airRows(&s))
	h.El("p", "From which level on air is drawn at the outlet, near the end, is told where the tank empties.", "class", "hint")
	h.staysTable("Branches that nothing flows through, their length in their own bores", endRows(&s))
	gist = q.Text(s.InAll()) + " in all, beside the film on the walls"
	return b.gist(gist, "stays-behind", "fall", "low-point", "high-point", "reducer-step", "body-holds", "dead-end", "air-carried", "self-venting"), h.String()
}

// staysTable writes rows, the first of them the heading; nothing for a heading alone.
func (h *html) staysTable(caption string, rows [][]string) {
	if len(rows) < 2 {
		return
	}
	h.scroll(caption)
	h.table(caption, rows[0], len(rows)-1, func(i int) {
		for j, cell := range rows[i+1] {
			switch {
			case j == 0:
				h.Open("th", "scope", "row")
				name, more, _ := strings.Cut(cell, "\n")
				h.Text(name)
				if more != "" {
					h.El("small", more, "class", "hint")
				}
				h.Close("th")
			default:
				h.El("td", cell, "class", "n")
			}
		}
	})
	h.Close("div")
}

func staysSummary(s *holdup.Result) string {
	said := q.Text(s.InAll()) + " stay behind in all"
	parts := []string{q.Text(s.Left) + " in the lines with every drain valve opened"}
	if s.Casing > 0 {
		parts = append(parts, q.Text(s.Casing)+" in the pump's casing")
	}
	if s.Heel > 0 {
		parts = append(parts, q.Text(s.Heel)+" in the tank under its outlet")
	}
	said += ": " + strings.Join(parts, ", ") + "."
	if s.Held > s.Left+1e-9 {
		said += " As long as the drain valves are shut the lines keep " + q.Text(s.Held) + "."
	}
	film := q.Volume(0)
	for _, f := range s.Films {
		film += f.Volume
	}
	if film > 0 {
		return said + " On top of that comes the film on the walls, " + q.Text(film) + " after " + q.Text(s.Time) + "."
	}
	return said + " What clings to the walls is not reckoned: no law of thin films holds for such a liquid."
}

// staysRows are the rows of what stays: pools, pump, tank, film. A name and
// what is said of it are two lines of one cell.
func staysRows(r pipeline.Report, s *holdup.Result) [][]string {
	rows := [][]string{{"Where", "Stays", "Drains opened"}}
	for i := range s.Pools {
		p := &s.Pools[i]
		where := draw.StaysMark(i) + "  " + p.Name + "\n" + p.Why + ", up to " + q.Text(p.Depth) + " deep"
		if len(p.Parts) > 1 {
			var parts []string
			for _, part := range p.Parts {
				parts = append(parts, number(r, part.Ref)+" "+q.Text(part.Volume))
			}
			where += ": " + strings.Join(parts, ", ")
		}
		if p.Drain != "" {
			where += "; the valve of " + number(r, p.Drain) + " lets out " + q.Text(p.Volume-p.Left)
		}
		rows = append(rows, []string{where, q.Text(p.Volume), q.Text(p.Left)})
	}
	if s.Casing > 0 {
		where := "The pump's casing\nas typed or as is usual; its drain plug empties it"
		if r.Scene.FlowInput.Pump.Shuts {
			where = "The pump's hose\nas typed or as is usual; the pump pushes it out when it runs on air"
		}
		rows = append(rows, []string{where, q.Text(s.Casing), q.Text(s.Casing)})
	}
	if s.Heel > 0 {
		rows = append(rows, []string{"The tank, under its outlet\nthe heel below the outlet's lower edge", q.Text(s.Heel), q.Text(s.Heel)})
	}
	rows = append(rows, []string{"In all", q.Text(s.Held + s.Casing + s.Heel), q.Text(s.InAll())})
	for _, f := range s.Films {
		rows = append(rows, []string{"Film, " + f.Where + "\nafter " + q.Text(s.Time) + ", not in the sum", q.Text(f.Volume), ""})
	}
	return rows
}

// number is how a piece is called in a list: "No 4".
func number(r pipeline.Report, ref string) string {
	for i := range r.Pieces {
		if r.Pieces[i].Ref == ref {
			return "No " + strconv.Itoa(r.Pieces[i].Number)
		}
	}
	return ref
}

func airRows(s *holdup.Result) [][]string {
	rows := [][]string{{"Where", "Air", "Speed needed", "Speed there"}}
	for i := range s.Air {
		a := &s.Air[i]
		has, said := "not known", "whether it is carried on is not known"
		switch {
		case a.Carried():
			has, said = q.Text(a.Has), "the flow carries it on"
		case a.Known:
			has, said = q.Text(a.Has), "the flow leaves it there"
		}
		rows = append(rows, []string{draw.StaysMark(len(s.Pools)+i) + "  " + a.Name + "\n" + said, q.Text(a.Volume), q.Text(a.Needed), has})
	}
	return rows
}

func endRows(s *holdup.Result) [][]string {
	rows := [][]string{{"Branch", "From the inner wall", "From the centreline"}}
	for i := range s.Ends {
		e := &s.Ends[i]
		rows = append(rows, []string{e.Name + ", " + e.On + "\n" + e.Lies, oneDecimal(e.FromWall), oneDecimal(e.FromCentre)})
	}
	return rows
}

func oneDecimal(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// stays prints what Stays shows.
func (t *text) stays(r pipeline.Report) {
	s := r.Stays()
	t.head("What stays behind")
	t.wrap("  ", staysSummary(&s))
	for _, rows := range [][][]string{staysRows(r, &s), airRows(&s), endRows(&s)} {
		if len(rows) < 2 {
			continue
		}
		t.line("")
		var names [][]string
		var said []string
		for _, row := range rows {
			name, more, _ := strings.Cut(row[0], "\n")
			names = append(names, append([]string{name}, row[1:]...))
			if more != "" {
				said = append(said, name+": "+more+".")
			}
		}
		t.table(names)
		for _, words := range said {
			t.wrap("  ", words)
		}
	}
	t.line("")
	for i, step := range s.Steps {
		t.wrap("  "+strconv.Itoa(i+1)+". ", step)
	}
	for _, words := range []string{s.Blown, s.Pigged} {
		if words != "" {
			t.wrap("  ", words)
		}
	}
}
