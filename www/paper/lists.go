package paper

import (
	"strconv"
	"strings"

	"drawoff/pipeline"
	q "drawoff/pipeline/quantity"
	"drawoff/www/view"
)

// orders is what to buy.
func orders(b view.Bench) string {
	var rows [][]string
	for _, p := range b.Report.Parts {
		many := strconv.FormatFloat(p.Quantity, 'f', -1, 64)
		if p.Unit != "pcs" {
			many += " " + p.Unit
		}
		rows = append(rows, []string{box, many, p.Name, p.Note, p.Slug})
	}
	var h html
	h.table("", []string{"", "#How many", "Part", "Note", "Named in the files"}, rows)
	return h.String()
}

// cuts is what to cut.
func cuts(b view.Bench) string {
	var rows [][]string
	for _, c := range b.Report.Cuts {
		length := q.Text(c.Length)
		if c.Either > 0 {
			length += " ± " + q.Text(c.Either)
		}
		rows = append(rows, []string{box, numberOf(b.Report, c.Ref), length, c.Name, c.Tube})
	}
	var h html
	h.table("", []string{"", "No.", "#Length", "What", "Tube"}, rows)
	if strings.Contains(h.String(), "±") {
		h.El("p", "± is how far a length hangs on parts that nobody publishes a length for: measure those, or offer the tube up, before it is cut.")
	}
	return h.String()
}

// welds is what to weld.
func welds(b view.Bench) string {
	var rows [][]string
	for i, w := range b.Report.Welds {
		at := "tank outlet"
		if p, ok := pieceAt(b.Report, w.Ref); ok {
			at = "No. " + strconv.Itoa(p.Number) + ", " + labelled(p)
		}
		rows = append(rows, []string{box, "W" + strconv.Itoa(i+1), at, w.Kind, w.Tube})
	}
	var h html
	h.table("", []string{"", "Weld", "At", "What", "Tube"}, rows)
	return h.String()
}

func numberOf(r pipeline.Report, ref string) string {
	if p, ok := pieceAt(r, ref); ok {
		return strconv.Itoa(p.Number)
	}
	return ""
}
