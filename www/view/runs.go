package view

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/find"
	q "drawoff/pipeline/quantity"
)

type runColumn struct {
	name string
	of   func(find.Run) string // "" where it says nothing of that run
}

// columns are what these runs are compared by.
func columns(runs []find.Run) (out []runColumn) {
	for _, c := range runColumns {
		if slices.ContainsFunc(runs, func(r find.Run) bool { return c.of(r) != "" }) {
			out = append(out, c)
		}
	}
	return out
}

// runColumns are what runs are compared by, in a table.
var runColumns = []runColumn{
	{"Drains to", func(r find.Run) string {
		if r.Drains == "" {
			return "does not drain"
		}
		return r.Drains
	}},
	{"Parts", func(r find.Run) string { return strconv.Itoa(r.Parts) }},
	{"Bends", func(r find.Run) string { return strconv.Itoa(r.Bends) }},
	{"Length", func(r find.Run) string { return q.Text(r.Length) }},
	{"Loss", func(r find.Run) string { return q.Text(r.Loss) }},
	{"Flow", func(r find.Run) string {
		if r.Suction != 0 {
			return ""
		}
		return q.Text(r.Flow)
	}},
	{"Suction head", func(r find.Run) string {
		if r.Suction == 0 {
			return ""
		}
		return q.Text(r.Suction)
	}},
	{"Unions", func(r find.Run) string { return strconv.Itoa(r.Unions) }},
	{"Longest piece", func(r find.Run) string { return q.Text(r.Longest) }},
	{"Welds", func(r find.Run) string { return strconv.Itoa(r.Welds) }},
	{"Tube", func(r find.Run) string { return r.Size }},
}

// best says what a run is best at.
func best(r find.Run) string {
	if len(r.Best) == 0 {
		return "between the others"
	}
	return strings.Join(r.Best, ", ")
}

// RunsText lists runs for a terminal.
func RunsText(title string, a find.Answer) string {
	var b strings.Builder
	if title != "" {
		b.WriteString(title + "\n" + strings.Repeat("=", len([]rune(title))) + "\n")
	}
	for _, s := range append([]string{a.Why, a.Loses}, a.Ways...) {
		if s != "" {
			b.WriteString(s + "\n")
		}
	}
	if a.Halted {
		b.WriteString("The search was stopped before its end.\n")
	}
	for i, r := range a.Runs {
		b.WriteString("\nRun " + strconv.Itoa(i+1) + ": " + best(r) + "\n")
		for _, c := range columns(a.Runs) {
			b.WriteString("  " + c.name + strings.Repeat(" ", 15-len(c.name)) + c.of(r) + "\n")
		}
		for _, n := range r.Notes {
			b.WriteString("  " + n + "\n")
		}
		for _, p := range r.Laid() {
			b.WriteString("    " + strconv.Itoa(p.Number) + "  " + p.Label + laid(p.Said) + "\n")
		}
	}
	return strings.TrimLeft(b.String(), "\n")
}

// laid says how a piece is turned and what it falls.
func laid(p *design.Piece) (s string) {
	if p.Kind == design.Bend || p.Kind == design.Reducer && p.Shape == "eccentric" {
		s += ", turned " + p.Turn.String()
	}
	if !p.Fall.IsZero() {
		if up, rises := strings.CutPrefix(p.Fall.String(), "-"); rises {
			s += ", rising " + up
		} else {
			s += ", falling " + up
		}
	}
	for _, end := range [2]string{p.In, p.Out} {
		if end != design.Weld {
			s += ", " + strings.ReplaceAll(end, "/", " ")
		}
	}
	return s
}

// Runs are the runs that were found, side by side, each to be put in with one
// tap; until they are asked for, where they will be.
func Runs(b Bench) (gist, content string) {
	var h html
	a := b.Runs
	if a == nil {
		h.El("p", "“Find runs”, in your plant under “Find the run”, lists the ways from the tank to the pump, or from the pump on, here, to be put in with one tap.", "class", "hint")
		return "none looked for yet", h.String()
	}
	for _, s := range append([]string{a.Why, a.Loses}, a.Ways...) {
		if s != "" {
			h.El("p", s)
		}
	}
	if len(a.Runs) == 0 {
		return "none found", h.String()
	}
	h.El("p", "Each is best at something: no other is better in every respect. Losses and flow are with the tank full, suction head at the lowest level.", "class", "hint")
	h.scroll("Runs that were found, side by side")
	h.Open("table")
	h.Open("thead")
	h.Open("tr")
	h.El("th", "Run", "scope", "col")
	for _, c := range columns(a.Runs) {
		h.El("th", c.name, "scope", "col")
	}
	h.El("th", "Best at", "scope", "col")
	h.Close("tr")
	h.Close("thead")
	h.Open("tbody")
	for i, r := range a.Runs {
		h.Open("tr")
		h.El("th", strconv.Itoa(i+1), "scope", "row")
		for _, c := range columns(a.Runs) {
			h.El("td", c.of(r))
		}
		h.El("td", best(r))
		h.Close("tr")
	}
	h.Close("tbody")
	h.Close("table")
	h.Close("div")
	h.Open("div", "class", "run-list")
	for i, r := range a.Runs {
		n := strconv.Itoa(i + 1)
		h.Open("figure", "class", "run")
		h.Raw(draw.Run(r.Report.Scene.Layout, r.Line == find.FromPump, n, 300))
		h.Open("figcaption")
		h.El("strong", "Run "+n)
		h.El("span", best(r))
		for _, note := range r.Notes {
			h.El("small", note, "class", "hint")
		}
		h.El("button", "Put run "+n+" in", "type", "button", "data-act", "mend", "data-value", "Run "+n+" is in.", "data-edits", editsJSON(r.Edits(b.Design)))
		h.Close("figcaption")
		h.Close("figure")
	}
	h.Close("div")
	return count(len(a.Runs), "run", "runs") + " found, each best at something", h.String()
}
