// Package paper writes the sheets that are printed from a report: one for the
// bench, the pipe drawing, one each to order, to saw, to weld and to wash by, and
// one that says what was asked and what came of it. They are HTML in black on
// white, for A4 and Letter alike, and bring their own style.
//
// The workshop makes them after every change, so that the browser can print
// at once; package view knows nothing of them.
package paper

import (
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/markup"
	"drawoff/www/view"
)

// sheet is one of the sheets; one without a body is left out.
type sheet struct {
	name, body string
	bare       bool   // it has no such code
	class      string // of its leaf, beside "leaf"
}

// Sheets returns all sheets of b, whose report must be whole. Address is that
// of the page, to which the design is added to make the link on the sheets.
func Sheets(b view.Bench, address string) string {
	var all []sheet
	for _, s := range []sheet{
		{name: "For the bench", body: bench(b)},
		{name: "Pipe drawing", body: pipes(b)},
		{name: "To order", body: orders(b)},
		{name: "To saw", body: cuts(b)},
		{name: "To weld", body: welds(b)},
		{name: "To wash", body: view.WashCard(b), class: " wash"},
		{name: "What was asked, and what came of it", body: record(b), bare: true},
	} {
		if s.body != "" {
			all = append(all, s)
		}
	}
	open := opener(address + "#" + design.WriteLink(b.Design))
	var h html
	h.Raw("<style>" + style + "</style>")
	for i, s := range all {
		// A table of one column: its head comes again on every page that the
		// sheet takes.
		h.Open("table", "class", "leaf"+s.class, "role", "presentation")
		h.Raw("<thead><tr><td>")
		h.head(b.Design, s.name, i+1, len(all))
		h.Raw("</td></tr></thead><tbody><tr><td>")
		h.Raw(s.body)
		if !s.bare {
			h.Raw(`<div class="link">` + open + "</div>")
		}
		h.Raw("</td></tr></tbody></table>")
	}
	return h.String()
}

// head is the title block of a sheet.
func (h *html) head(d design.Design, name string, n, of int) {
	title := d.Title
	if title == "" {
		title = "Plant without a title"
	}
	h.Raw(`<table class="head" role="presentation"><tr><td>`)
	h.El("p", title, "class", "plant")
	h.El("h2", name)
	h.Raw(`</td><td class="when">`)
	if d.Date != "" {
		h.El("p", "Date: "+d.Date)
	} else {
		h.Raw(`<p>Date: <span class="blank"></span></p>`)
	}
	h.El("p", "Sheet "+strconv.Itoa(n)+" of "+strconv.Itoa(of)+" · Drawoff")
	h.Raw("</td></tr></table>")
}

// html is markup with the habits of these sheets.
type html struct{ markup.Writer }

// table writes a table of rows; nothing where there are none. A column whose
// name begins with "#" holds numbers; a row of one cell is a heading.
func (h *html) table(caption string, columns []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	number := make([]string, len(columns))
	h.Open("table", "class", "list")
	if caption != "" {
		h.El("caption", caption)
	}
	h.Raw("<thead><tr>")
	for i, c := range columns {
		if c != "" && c[0] == '#' {
			number[i], c = "n", c[1:]
		}
		h.El("th", c, "scope", "col", "class", number[i])
	}
	h.Raw("</tr></thead><tbody>")
	for _, row := range rows {
		h.Raw("<tr>")
		if len(row) == 1 { // a heading among the rows
			h.El("th", row[0], "colspan", strconv.Itoa(len(columns)), "scope", "rowgroup", "class", "group")
		} else {
			h.cells(row, number)
		}
		h.Raw("</tr>")
	}
	h.Raw("</tbody></table>")
}

// cells writes the cells of one row.
func (h *html) cells(row, class []string) {
	for i, cell := range row {
		if cell == box {
			h.Raw(`<td class="tick"><span></span></td>`)
			continue
		}
		h.El("td", cell, "class", class[i])
	}
}

// box stands for a square to be ticked by hand.
const box = "\x00box"

// bullets writes a list.
func (h *html) bullets(class string, items []string) {
	if len(items) == 0 {
		return
	}
	h.Open("ul", "class", class)
	for _, s := range items {
		h.El("li", s)
	}
	h.Close("ul")
}
