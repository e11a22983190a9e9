package view

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/clean"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/pressure"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vent"
)

// washing are the rules about the wash.
var washing = [...]string{clean.RuleSpeed, clean.RuleSuction, pressure.RuleWash, pressure.RuleWashHose, clean.RuleSpray, clean.RuleRunoff, clean.RuleHose, joint.RuleCleaning, joint.RuleLining}

// Wash shows how line and tank are washed, as a card to hang on the tank,
// what has to be taken apart, and how each figure was reached. The workshop
// writes it.
func Wash(b Bench) (gist, content string) {
	w := b.Report.Wash()
	if len(w.Programme.Rows) == 0 {
		return "", ""
	}
	var h html
	h.judged(b.Report, washing[:]...)
	h.card(b, w)
	h.says(w.Says)
	h.withstands(w.Programme)
	h.folded("wash", w.Figures)
	gist = count(len(w.Programme.Rows), "step", "steps") + ", " + q.Text(w.Programme.Totals.Time) + ", " + q.Text(w.Programme.Totals.Water) + " of water"
	return b.gist(gist, washing[:]...), h.String()
}

// judged lists what the rules named say, in the order of the report.
func (h *html) judged(r pipeline.Report, rules ...string) {
	begun := false
	for _, v := range r.Verdicts {
		if !slices.Contains(rules, v.Rule) {
			continue
		}
		if !begun {
			begun = true
			h.Open("ul", "class", "standing")
		}
		h.Open("li")
		h.badge(v.Level)
		h.Text(" " + v.Sentence)
		if v.Level != finding.Sound && v.Advice != "" {
			h.Text(" " + v.Advice)
		}
		h.Close("li")
	}
	if begun {
		h.Close("ul")
	}
}

// card is what is hung on the tank.
func (h *html) card(b Bench, w clean.Result) {
	h.Open("div", "class", "card")
	h.Open("div", "class", "card-head")
	h.El("h5", "Wash: "+titled(b.Report.Title))
	h.Raw(`<button type="button" id="print-card">Print this card</button>`)
	h.El("a", "Change it", "href", "#in-wash.speed", "class", "button")
	h.Close("div")
	h.washCard(w, "h6")
	h.Close("div")
}

// WashCard is the card without what is for the screen, for paper; "" where nothing is washed.
func WashCard(b Bench) string {
	w := b.Report.Wash()
	if len(w.Programme.Rows) == 0 {
		return ""
	}
	var h html
	h.washCard(w, "h3")
	return h.String()
}

// washCard writes what stands on the card, its headings as the element heading.
func (h *html) washCard(w clean.Result, heading string) {
	h.programme(w.Programme)
	for _, s := range programmeTotals(w.Programme) {
		h.El("p", s)
	}
	h.says(w.Cautions)
	h.stripList(w.Strip, heading)
}

// says lists sentences.
func (h *html) says(all []string) {
	if len(all) == 0 {
		return
	}
	h.Open("ul", "class", "says")
	for _, s := range all {
		h.El("li", s)
	}
	h.Close("ul")
}

// programme is the steps as a table that a phone has room for.
func (h *html) programme(p clean.Programme) {
	rows := programmeRows(p)
	h.table("The wash, step by step", []string{"Step", "At, for", "Flow", "Takes"}, len(p.Rows), func(i int) {
		cell := rows[i+1]
		two := func(tag, first, then string, attrs ...string) {
			h.Open(tag, attrs...)
			h.Text(first)
			if then != "" {
				h.El("small", then)
			}
			h.Close(tag)
		}
		two("th", cell[0], cell[1], "scope", "row")
		two("td", cell[2], cell[3])
		two("td", cell[4], "")
		takes := cell[7]
		if cell[6] != "" {
			takes = cell[6] + " pure; " + takes
		}
		two("td", cell[5], takes)
	})
}

func titled(title string) string {
	if title == "" {
		return "this tank"
	}
	return title
}

// rows writes rows with a heading as a table; the first column names each row.
func (h *html) rows(caption string, rows [][]string) {
	h.table(caption, rows[0], len(rows)-1, func(i int) {
		for j, cell := range rows[i+1] {
			if j == 0 {
				h.El("th", cell, "scope", "row")
				continue
			}
			h.El("td", cell)
		}
	})
}

// programmeRows are the steps as a table, with a heading.
func programmeRows(p clean.Programme) [][]string {
	rows := [][]string{{"Step", "With", "At", "For", "Flow", "Water", "Pure chemical", "Heat"}}
	for i, r := range p.Rows {
		water := q.Text(r.Water) + ", to waste"
		if r.Round {
			water = q.Text(r.Water) + ", goes round"
		}
		chemical, heat := "", ""
		if r.Pure > 0 {
			chemical = q.Text(r.Pure)
		}
		if r.Heat > 0 {
			heat = kilowattHours(r.Heat)
			if r.Warming > 0 {
				heat += ", " + q.Text(r.Warming)
			}
		}
		rows = append(rows, []string{strconv.Itoa(i+1) + ". " + r.Name, r.Agent, q.Text(r.Temperature), q.Text(r.Time), q.Text(r.Flow), water, chemical, heat})
	}
	return rows
}

func kilowattHours(e float64) string { return q.Text(q.Number(e)) + " kWh" }

// programmeTotals tells the sums in sentences.
func programmeTotals(p clean.Programme) []string {
	t := p.Totals
	all := "In all: " + q.Text(t.Time) + " of washing"
	if t.Warming > 0 {
		all += ", " + q.Text(t.Warming) + " of warming"
	}
	all += ", " + q.Text(t.Water) + " of water"
	for _, c := range t.Chemicals {
		all += ", " + q.Text(c.Mass) + " of pure " + c.Name
	}
	if t.Heat > 0 {
		all += ", " + kilowattHours(t.Heat) + " of heat"
	}
	return []string{
		all + ". What is bought is weaker than pure: divide by its strength.",
		"Flow: the line is to run " + q.Text(p.Line) + " at least and holds " + q.Text(p.Holds) + "; the tank's wall is to get " + q.Text(p.Spray) + " from the spray ball.",
	}
}

// stripList is what comes apart, in order, with the seals to lay out, beside what stays.
func (h *html) stripList(s clean.Strip, heading string) {
	if len(s.Apart) == 0 {
		h.El("p", "Nothing has to be taken apart at every wash.")
	} else {
		h.El(heading, "Take apart and clean by hand, in this order")
		h.Open("ol", "class", "says")
		for _, p := range s.Apart {
			words := p.Name + ": " + p.Why + "."
			if p.Seal != "" {
				words += " New seal at hand: " + p.Seal + "."
			}
			h.El("li", words)
		}
		h.Close("ol")
	}
	if len(s.Seals) > 0 {
		h.El("p", "Lay out: "+sealsOf(s)+".")
	}
	if len(s.Stays) > 0 {
		h.El(heading, "What can stay")
		h.says(staying(s))
	}
}

// staying tells what can stay, by the reason why.
func staying(s clean.Strip) (out []string) {
	var reasons []string
	names := map[string][]string{}
	for _, p := range s.Stays {
		if names[p.Why] == nil {
			reasons = append(reasons, p.Why)
		}
		names[p.Why] = append(names[p.Why], p.Name)
	}
	for _, why := range reasons {
		out = append(out, strings.Join(names[why], "; ")+": "+why+".")
	}
	return out
}

func sealsOf(s clean.Strip) string {
	var all []string
	for _, seal := range s.Seals {
		all = append(all, strconv.Itoa(seal.Count)+" × "+seal.Name)
	}
	return strings.Join(all, "; ")
}

// withstands is how each material in the line stands each step.
func (h *html) withstands(p clean.Programme) {
	rows := standRows(p)
	if rows == nil {
		return
	}
	h.scroll("Steps of the wash against seals and linings")
	h.rows("How the seals and hose linings in the line stand each step; whether at this strength and heat, the verdicts tell", rows)
	h.Close("div")
}

// standRows are the steps against the materials, with a heading.
func standRows(p clean.Programme) [][]string {
	if len(p.Rows) == 0 || len(p.Rows[0].Stands) == 0 {
		return nil
	}
	head := []string{"Step"}
	for _, s := range p.Rows[0].Stands {
		head = append(head, s.Material)
	}
	rows := [][]string{head}
	for i, r := range p.Rows {
		row := []string{strconv.Itoa(i+1) + ". " + r.Agent}
		for _, s := range r.Stands {
			row = append(row, s.Rating)
		}
		rows = append(rows, row)
	}
	return rows
}

// Breathing shows what air the tank must draw and give, and what no vent
// covers. The workshop writes it.
func Breathing(b Bench) (gist, content string) {
	r := b.Report.Breathing()
	if len(r.Figures) == 0 {
		return "", ""
	}
	var h html
	h.says(r.Cautions)
	h.judged(b.Report, vent.RuleVent)
	h.folded("breathing", r.Figures)
	gist = "an open vent of " + told(r.Figures, "", "vent-filling") + " to fill" + told(r.Figures, ", ", "vent-running") + " to run out"
	return b.gist(gist, vent.RuleVent), h.String()
}

// wash is the wash and the breathing as a terminal prints them.
func (t *text) wash(r pipeline.Report) {
	w := r.Wash()
	if len(w.Programme.Rows) > 0 {
		t.head("The wash")
		t.table(programmeRows(w.Programme))
		for _, s := range append(programmeTotals(w.Programme), w.Says...) {
			t.wrap("  ", s)
		}
		for i, p := range w.Strip.Apart {
			t.wrap("  take apart "+strconv.Itoa(i+1)+": ", p.Name+": "+p.Why+".")
		}
		if len(w.Strip.Apart) == 0 {
			t.wrap("  ", "Nothing has to be taken apart at every wash.")
		}
		if len(w.Strip.Seals) > 0 {
			t.wrap("  lay out: ", sealsOf(w.Strip)+".")
		}
		for _, s := range staying(w.Strip) {
			t.wrap("  stays: ", s)
		}
		if rows := standRows(w.Programme); rows != nil {
			t.table(rows)
		}
		t.named(w.Figures)
	}
	if b := r.Breathing(); len(b.Figures) > 0 {
		t.head("What the tank must breathe")
		for _, c := range b.Cautions {
			t.wrap("  ", c)
		}
		t.named(b.Figures)
	}
}

// named lists figures with their slugs.
func (t *text) named(figures []finding.Figure) {
	var rows [][]string
	for _, f := range figures {
		rows = append(rows, []string{f.Name, amount(f), f.Slug})
	}
	t.table(rows)
}
