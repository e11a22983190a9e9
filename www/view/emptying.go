package view

import (
	"drawoff/pipeline/draw"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
)

// Emptying shows how the tank empties. It takes as long as a check, and its
// code weighs: the workshop writes it.
func Emptying(b Bench) (gist, content string) {
	t := b.Report.Transfer()
	if t.Summary == "" {
		return "", ""
	}
	var h html
	h.El("p", t.Summary)
	h.Raw(draw.Emptying(t, min(b.Width, 520)))
	h.Open("div", "class", "figures")
	for _, f := range t.Figures {
		h.figure(f)
	}
	h.Close("div")
	if rows := steps(t.Curve); rows != nil {
		h.Open("details", "data-keep", "emptying table")
		h.El("summary", "The same as a table")
		h.scroll("Emptying, step by step")
		h.table("", rows[0], len(rows)-1, func(i int) {
			for j, cell := range rows[i+1] {
				if j == 0 {
					h.El("th", cell, "scope", "row")
					continue
				}
				h.El("td", cell, "class", "n")
			}
		})
		h.Close("div")
		h.Close("details")
	}
	if gist = told(t.Figures, "", "transfer-time"); gist == "" {
		gist = t.Summary
	} else {
		gist += told(t.Figures, " for ", "transfer-volume")
	}
	return b.gist(gist, "air-drawn"), h.String()
}

// steps are the rows of a curve as a table, with a heading: about ten, evenly
// spread in time, the last one always.
func steps(curve []transfer.Moment) [][]string {
	if len(curve) == 0 {
		return nil
	}
	const wanted = 10
	end := curve[len(curve)-1].Time
	known := curve[0].MarginKnown
	rows := [][]string{{"Time", "Level", "Left", "Flow"}}
	if known {
		rows[0] = append(rows[0], "Suction head to spare")
	}
	next := q.Duration(0)
	for i, m := range curve {
		if m.Time < next && i < len(curve)-1 {
			continue
		}
		next = m.Time + end/wanted
		row := []string{q.Text(m.Time), q.Text(m.Level), q.Text(m.Left), q.Text(m.Flow)}
		if known {
			row = append(row, q.Text(m.Margin))
		}
		rows = append(rows, row)
	}
	return rows
}
