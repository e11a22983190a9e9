// Package view turns designs and reports into what people read: the page, its
// forms and tables, and the text of a terminal. Views compute nothing: they
// are pure functions of a design and its report.
package view

import (
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/compare"
	"drawoff/pipeline/design"
	"drawoff/pipeline/find"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
)

// Bench is what lies before the user: a design, what Drawoff says of it, and
// what was typed that could not be taken.
type Bench struct {
	Design  design.Design
	Report  pipeline.Report // of Design
	Pending []Pending
	Width   int          // pixels that the drawing may be wide
	Zoom    float64      // how many times larger than that it is made; 0 as 1
	Shelf   design.Shelf // what the user has of their own
	Glance  bool         // Report has only what is seen at a glance: the workshop has not told the rest of its verdicts yet
	*Shop                // only the workshop has one
}

// Shop is what the workshop works out and was asked beside the report.
type Shop struct {
	Work    pipeline.Work  // of the report, with the shelf in hand
	Sweep   Sweep          // what "what if" moves and watches
	Runs    *find.Answer   // the runs that were looked for; nil for none
	Against *compare.Plant // what the plant is compared with; nil for nothing
}

// Pending is something typed that the design could not take: it stays in its
// field, with the reason beside it, until it is mended.
type Pending struct {
	Path  string
	Value string
	Fault design.Fault
}

// pending returns what is pending at path.
func (b Bench) pending(path string) (Pending, bool) {
	for _, p := range b.Pending {
		if p.Path == path {
			return p, true
		}
	}
	return Pending{}, false
}

// Region is a part of the page that changes with the design.
type Region struct {
	ID    string // of the element it fills
	Write func(Bench) string
}

// Filled is what goes into an element of the page.
type Filled struct{ ID, Content string }

// Regions are those that the page's module fills, in the order of the page.
var Regions = [...]Region{
	{"tally", Tally},
	{"pending", Waiting},
	{"drawing", Drawing},
	{"verdicts", Verdicts},
	{"form", Form},
	{"pieces", Pieces},
	{"doubts", Doubts},
	{"shelf", Shelf},
	{"figures", Figures},
	{"cautions", Cautions},
}

// html is markup with the habits of this page.
type html struct{ markup.Writer }

// word is how a level is told in words; its mark is a shape as well, since
// nothing may depend on colour alone.
func word(l finding.Level) string {
	switch l {
	case finding.Stop:
		return "Stop"
	case finding.Look:
		return "Look"
	}
	return "Sound"
}

// badge writes a level as a mark with its word.
func (h *html) badge(l finding.Level) {
	h.El("span", word(l), "class", "badge "+l.String())
}

// count returns "1 stop", "2 stops".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
