package view

import (
	"slices"
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/mend"
	q "drawoff/pipeline/quantity"
)

// Text is the report r on d as a terminal prints it, with what is on the shelf
// in hand.
func Text(d design.Design, r pipeline.Report, shelf design.Shelf) string {
	var t text
	if len(r.Faults) > 0 {
		for _, f := range r.Faults {
			t.line(f.String())
		}
		return t.String()
	}
	if r.Title != "" {
		t.line(r.Title)
		t.line(strings.Repeat("=", len([]rune(r.Title))))
		t.line("")
	}
	for _, v := range r.Verdicts {
		where := place(r, v.Piece)
		if where != "" {
			where += ": "
		}
		t.wrap(pad(strings.ToUpper(v.Level.String()), 7), where+v.Sentence)
		if v.Level != finding.Sound {
			if v.Advice != "" {
				t.wrap(pad("", 7), v.Advice)
			}
			t.wrap(pad("", 7), "Basis: "+v.Basis+".")
			found := mend.Ways(d, r, v)
			if said := lead(v, found); said != "" {
				t.wrap(pad("", 7), said)
			}
			for _, w := range found {
				t.wrap(pad("", 7)+"way out: ", w.Sentence+" "+cost(w))
			}
		}
	}

	t.head("The line, with the tank full")
	rows := [][]string{{"No.", "Piece", "Length", "Fall", "Velocity", "Loss"}}
	for _, p := range r.Pieces {
		fall := "upright"
		if p.Fall != nil {
			fall = p.Fall.String()
		}
		rows = append(rows, []string{quantity(float64(p.Number)), labelled(p), p.Length.String(), fall, optional(p.Velocity), optional(p.Loss)})
	}
	t.table(rows)

	t.head("Height of the outlet over the floor")
	rows = [][]string{{"Need", "At least", "To spare", ""}}
	for _, d := range r.Drivers {
		governs := ""
		if d.Governs {
			governs = "governs"
		}
		rows = append(rows, []string{d.Name, needed(d), q.Text(d.Slack), governs})
	}
	t.table(rows)

	for i := range r.Drivers {
		if said := change(r.Drivers, i); said != "" {
			t.wrap("  ", r.Drivers[i].Name+": "+said)
		}
	}
	if len(r.Bounds) > 0 {
		rows = [][]string{{"Not higher than for", "At most", "To spare"}}
		for _, b := range r.Bounds {
			rows = append(rows, []string{b.Name, q.Text(b.Most), q.Text(b.Slack)})
		}
		t.table(rows)
	}

	if standing := r.Stability(); len(standing.Figures) > 0 {
		t.head("How it stands")
		t.wrap("  ", standing.Caution)
		rows = nil
		for _, f := range standing.Figures {
			rows = append(rows, []string{f.Name, amount(f), f.Slug})
		}
		t.table(rows)
	}

	if emptying := r.Transfer(); emptying.Summary != "" {
		t.head("Emptying the tank")
		t.wrap("  ", emptying.Summary)
		rows = nil
		for _, f := range emptying.Figures {
			rows = append(rows, []string{f.Name, amount(f), f.Slug})
		}
		t.table(rows)
		t.table(steps(emptying.Curve))
	}

	t.stays(r)
	t.wash(r)

	t.head("Figures")
	rows = nil
	reserve := r.Reserve()
	for _, f := range slices.Concat(r.Figures, reserve.Figures) {
		rows = append(rows, []string{f.Name, amount(f), f.Slug})
	}
	t.table(rows)

	if len(reserve.Says) > 0 {
		t.head("Suction head from full to the lowest level")
		for _, s := range reserve.Says {
			t.wrap("  ", s)
		}
		rows = [][]string{{"Level", "Flow", "Has", "Requires", "To spare over the margin"}}
		for i, p := range reserve.Points {
			if i%4 == 0 && p.SuctionKnown {
				rows = append(rows, []string{q.Text(p.Level.Height - r.Scene.TankFoot), q.Text(p.Flow), q.Text(p.SuctionAvailable), q.Text(p.SuctionRequired), q.Text(p.Margin)})
			}
		}
		t.table(rows)
	}

	t.work(r, r.Work(shelf))

	if doubtful := r.Doubtful(); len(doubtful) > 0 {
		t.head("To measure, what moves most first: no standard that could be read gives these")
		for _, d := range doubtful {
			t.wrap("  ", d.Name()+": taken as "+taken(d.Length, d.Either)+" ("+mark(d.Trust)+"). "+moves(r, d.Dimension)+" "+d.Measure)
			t.wrap("    ", "Its name in a design: "+d.Dimension)
		}
	}
	t.head("Lengths of parts, and how far each is to be trusted")
	rows = nil
	for _, d := range r.Dimensions {
		rows = append(rows, []string{taken(d.Length, d.Either), d.Name(), mark(d.Trust)})
	}
	t.table(rows)
	t.head("Take care")
	for _, c := range r.Cautions {
		t.wrap("  ", c)
	}
	return t.String()
}

// Working is how a figure was reached, as a terminal prints it.
func Working(f finding.Figure) string {
	var t text
	t.line(f.Name + ": " + amount(f))
	t.line("")
	t.wrap("  ", plain(f.Formula))
	t.line("")
	var rows [][]string
	for _, in := range f.Inputs {
		rows = append(rows, []string{plain(in.Symbol), in.Amount.Fine(), in.Name})
	}
	t.table(rows)
	t.line("")
	if len(f.Hangs) > 0 {
		t.wrap("  ", hangs(f.Hangs))
	}
	t.wrap("  ", "Source: "+f.Source+".")
	if f.Range != "" {
		t.wrap("  ", "Holds for "+f.Range+".")
	}
	return t.String()
}

func optional(a *q.Amount) string {
	if a == nil {
		return ""
	}
	return a.String()
}

type text struct{ strings.Builder }

func (t *text) line(s string) {
	t.WriteString(s)
	t.WriteByte('\n')
}

func (t *text) head(s string) {
	t.line("")
	t.line(s)
	t.line(strings.Repeat("-", len([]rune(s))))
}

// lineWidth is what a terminal is usually wide.
const lineWidth = 96

// wrap writes words behind a lead, further lines indented as far.
func (t *text) wrap(lead, words string) {
	line, indent := lead, strings.Repeat(" ", len([]rune(lead)))
	for _, w := range strings.Fields(words) {
		if len([]rune(line))+1+len([]rune(w)) > lineWidth && strings.TrimSpace(line) != "" {
			t.line(strings.TrimRight(line, " "))
			line = indent
		}
		if !strings.HasSuffix(line, " ") && line != "" {
			line += " "
		}
		line += w
	}
	t.line(strings.TrimRight(line, " "))
}

// table writes rows with their columns in line.
func (t *text) table(rows [][]string) {
	var widths []int
	for _, r := range rows {
		for i, c := range r {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], len([]rune(c)))
		}
	}
	for _, r := range rows {
		line := " "
		for i, c := range r {
			line += " " + pad(c, widths[i]) + " "
		}
		t.line(strings.TrimRight(line, " "))
	}
}

func pad(s string, n int) string {
	return s + strings.Repeat(" ", max(0, n-len([]rune(s))))
}
