package view

import (
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/markup"
)

// Listed is a design that the browser keeps, as its list shows it.
type Listed struct {
	ID      string // what the browser keeps it under
	Title   string
	Changed string // when, in the words of the reader's own calendar
	Bench   bool   // it is the one on the bench
	Report  pipeline.Report
	Faults  design.Faults // why it could not be read
}

// Designs lists the designs of this browser, each with what can be done with
// it. The workshop writes it.
func Designs(list []Listed) string {
	var h html
	if len(list) == 0 {
		h.El("p", "Nothing is kept in this browser yet.", "class", "calm")
		return h.String()
	}
	h.Open("ul", "class", "designs")
	for _, d := range list {
		h.listed(d)
	}
	h.Close("ul")
	return h.String()
}

func (h *html) listed(d Listed) {
	title := d.Title
	if title == "" {
		title = "Without a title"
	}
	faults := d.Faults
	if len(faults) == 0 {
		faults = d.Report.Faults
	}
	h.Open("li", "data-keep", "design "+d.ID)
	h.Open("div", "class", "small-picture")
	h.Raw(draw.Small(d.Report, 150))
	h.Close("div")
	h.Open("div")
	h.El("h3", title)
	h.Open("p", "class", "hint")
	if d.Bench {
		h.El("strong", "On the bench. ")
	}
	h.Text("Changed " + d.Changed + ".")
	h.Close("p")
	h.Open("p", "class", markup.If(len(faults) == 0, "tally"))
	if len(faults) > 0 {
		h.El("span", "This version of Drawoff cannot read it: "+faults[0].String()+" Its file is kept as it is.", "class", "fault")
	} else {
		h.tally(Bench{Report: d.Report})
	}
	h.Close("p")
	h.Open("div", "class", "forms")
	do := func(what, label string) {
		h.Open("button", "type", "button", "data-do", what, "data-design", d.ID, "aria-label", label+": "+title)
		h.Text(label)
		h.Close("button")
	}
	if len(faults) == 0 {
		if !d.Bench {
			do("open", "Open")
			do("against", "Compare with it")
		}
		do("duplicate", "Duplicate")
	}
	do("export", "Save file")
	do("delete", "Delete")
	h.Close("div")
	h.Close("div")
	h.Close("li")
}
