package view

import (
	"strings"

	"drawoff/pipeline/workfile"
)

// Files offers what can be printed and cut to, each drawing with the forms
// that it can be had in. The workshop writes it, and makes a file when its
// button is pressed.
func Files(b Bench) (gist, content string) {
	offers, missing := workfile.Offers(b.Report)
	if len(offers) == 0 {
		return "", ""
	}
	var h html
	h.El("p", "Templates are drawn at full size: print at 100 % (“actual size”), and measure the check line of 100 mm (3 15/16 in) before anything is cut. What is larger than a page comes on several. DXF is in millimetres.")
	h.Open("ul", "class", "drawn")
	for _, o := range offers {
		h.Open("li")
		title, _, _ := strings.Cut(o.Title, ": "+b.Report.Title)
		h.El("strong", title)
		for _, n := range o.Notes {
			h.El("small", n, "class", "hint")
		}
		h.Open("span", "class", "forms")
		for _, f := range o.Files {
			form := strings.ToUpper(f[strings.LastIndexByte(f, '.')+1:])
			h.Open("button", "type", "button", "data-file", f, "aria-label", title+", as "+form)
			h.Text(form)
			h.Close("button")
		}
		h.Close("span")
		h.Close("li")
	}
	h.Close("ul")
	for _, m := range missing {
		h.El("p", m, "class", "hint")
	}
	return b.gist(count(len(offers), "drawing or list", "drawings and lists") + ", to print at full size or to cut to"), h.String()
}
