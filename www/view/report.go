package view

import (
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/stand"
)

// Tally counts the verdicts in one line, for the bar that stays in sight.
func Tally(b Bench) string {
	var h html
	h.Open("a", "href", "#verdicts-title", "class", "tally "+b.Report.Level.String())
	h.tally(b)
	if first := foremost(b.Report); first != "" {
		h.El("span", first, "class", "first")
	}
	h.Close("a")
	return h.String()
}

// foremost tells in a sentence what is to be seen to first, "" where all is sound.
func foremost(r pipeline.Report) string {
	if len(r.Verdicts) == 0 || r.Verdicts[0].Level == finding.Sound {
		return ""
	}
	v := r.Verdicts[0]
	says, _, _ := strings.Cut(v.Sentence, ". ")
	if where := place(r, v.Piece); where != "" {
		says = where + ": " + says
	}
	return strings.TrimSuffix(says, ".") + "."
}

// tally writes how many verdicts of each level there are.
func (h *html) tally(b Bench) {
	var n [3]int
	for _, v := range b.Report.Verdicts {
		n[v.Level]++
	}
	level, says := finding.Sound, "Sound as drawn: every rule that Drawoff knows is met"
	switch {
	case n[finding.Stop] > 0:
		level, says = finding.Stop, count(n[finding.Stop], "thing stops this", "things stop this")
		if n[finding.Look] > 0 {
			says += ", " + strconv.Itoa(n[finding.Look]) + " to look at"
		}
	case n[finding.Look] > 0:
		level, says = finding.Look, count(n[finding.Look], "thing to look at", "things to look at")
	case b.Glance:
		says = "Sound as far as it is worked out"
	}
	h.badge(level)
	h.El("span", says, "class", "count")
}

// Waiting counts the entries that could not be taken, beside the tally.
func Waiting(b Bench) string {
	if len(b.Pending) == 0 {
		return ""
	}
	var h html
	h.Open("a", "href", "#in-"+b.Pending[0].Path, "class", "tally pending")
	h.Text(count(len(b.Pending), "entry not taken yet", "entries not taken yet"))
	h.Close("a")
	return h.String()
}

// Drawing is the plant from the side.
func Drawing(b Bench) string {
	var h html
	if b.Design.Title != "" {
		h.El("p", b.Design.Title, "class", "plant-name")
	}
	h.Raw(`<div class="sheet" id="side-view" tabindex="0" role="group" aria-label="Side view, to be scrolled when it is larger">`)
	h.Raw(draw.Elevation(b.Report, b.Width, b.Zoom))
	h.Raw(`</div><div class="zoom"><p id="what"></p><button type="button" data-zoom="0.8" aria-label="Smaller">−</button><button type="button" data-zoom="0">Fit</button><button type="button" data-zoom="1.25" aria-label="Larger">+</button></div>`)
	h.Open("p", "class", "legend")
	h.Raw(`<span><b class="key round">1</b> a piece</span> <span><b class="key triangle">△</b> look at it</span> <span><b class="key square">1</b> stop</span>`)
	h.Close("p")
	return h.String()
}

// Verdicts lists what the rules say, what to do first at the top; what is
// sound folds away. What the workshop told is marked: it is a step behind.
func Verdicts(b Bench) string {
	var h html
	list := b.Report.Verdicts
	sound, ways := 0, waysIDs(list)
	h.Open("ul", "class", "verdicts")
	for i, v := range list {
		if v.Level == finding.Sound {
			sound++
			continue
		}
		h.verdict(b, v, ways[i])
	}
	h.Close("ul")
	if b.Glance {
		h.El("p", "Not worked out yet: surge, how it stands, what stays behind, cleaning, what the tank must breathe.", "class", "hint")
	}
	if sound > 0 {
		h.Open("details", "data-keep", "sound")
		h.El("summary", count(sound, "rule is met", "rules are met"))
		h.Open("ul", "class", "verdicts")
		for _, v := range list {
			if v.Level == finding.Sound {
				h.verdict(b, v, "")
			}
		}
		h.Close("ul")
		h.Close("details")
	}
	return h.String()
}

// verdict writes v with a place for its ways out, "" for none.
func (h *html) verdict(b Bench, v finding.Verdict, ways string) {
	r := b.Report
	h.Open("li", "class", "verdict "+v.Level.String()+markup.If(later(r, v.Rule), " later"), "data-rule", v.Rule, "data-keep", ways)
	h.badge(v.Level)
	h.Open("div")
	h.Open("p")
	if where := place(r, v.Piece); where != "" {
		h.El("a", where, "href", "#"+anchor(v.Piece), "class", "where", "data-ref", v.Piece)
		h.Text(" ")
	}
	h.Text(v.Sentence)
	h.Close("p")
	if v.Advice != "" {
		h.El("p", v.Advice, "class", "advice")
	}
	if v.Measure != "" {
		h.Open("p")
		h.El("a", "To measure: "+catalog.DimensionName(v.Measure), "href", "#in-measure:"+v.Measure)
		h.Close("p")
	}
	h.Open("p", "class", "basis")
	if v.Limit != nil {
		limit := v.Limit.String()
		if v.Rule == stand.RuleHeight { // as its sentence has it
			limit = q.Sawn(q.Length(v.Limit.SI))
		}
		h.Text("Held to " + limit + ". ")
	}
	h.Text("Basis: " + v.Basis + ".")
	h.Close("p")
	if ways != "" {
		h.Open("div", "id", ways, "data-shop", "ways")
		h.Close("div")
	}
	h.Close("div")
	h.Close("li")
}

// later reports whether rule is one of those that the workshop applies.
func later(r pipeline.Report, rule string) bool {
	verdicts := r.Later().Verdicts
	for i := range verdicts {
		if verdicts[i].Rule == rule {
			return true
		}
	}
	return false
}

// place names what a verdict is about: "3 butterfly valve, 1½ in".
func place(r pipeline.Report, ref string) string {
	for _, p := range r.Pieces {
		if p.Ref == ref {
			if p.Name != "" {
				return strconv.Itoa(p.Number) + " " + p.Name
			}
			return strconv.Itoa(p.Number) + " " + p.Label
		}
	}
	switch ref {
	case "":
		return ""
	case "tank":
		return "Tank"
	case "pump":
		return "Pump"
	case "stand":
		return "Stand"
	case "delivery":
		return "Delivery"
	case "liquid":
		return "Liquid"
	case "site":
		return "Place"
	}
	return ""
}

// anchor is the id of the form's part where ref is changed.
func anchor(ref string) string {
	switch ref {
	case "tank":
		return "in-tank.bore"
	case "pump":
		return "in-pump.kind"
	case "stand":
		return "in-stand.height"
	case "delivery":
		return "in-delivery.height"
	case "liquid":
		return "in-liquid.kind"
	case "site":
		return "in-site.altitude"
	}
	return "card-" + ref
}

// Pieces is the table of everything in the line, beside the drawing of it.
func Pieces(b Bench) string {
	r := b.Report
	var h html
	h.Open("table")
	h.El("caption", "The line, piece by piece, with the tank full")
	h.Open("thead")
	h.Open("tr")
	for _, c := range []string{"No.", "Piece", "Length", "Fall", "Velocity", "Loss"} {
		h.El("th", c, "scope", "col")
	}
	h.Close("tr")
	h.Close("thead")
	h.Open("tbody")
	for _, p := range r.Pieces {
		h.Open("tr", "data-ref", p.Ref, "class", p.Level.String())
		h.El("td", strconv.Itoa(p.Number), "class", "n")
		h.Open("th", "scope", "row")
		h.El("a", labelled(p), "href", "#card-"+p.Ref, "data-ref", p.Ref)
		if p.Level != finding.Sound {
			h.Text(" ")
			h.badge(p.Level)
		}
		h.Close("th")
		h.El("td", p.Length.String(), "class", "n")
		h.amount(p.Fall, "upright")
		h.amount(p.Velocity, "")
		h.amount(p.Loss, "")
		h.Close("tr")
	}
	h.Close("tbody")
	h.Close("table")
	return h.String()
}

func labelled(p pipeline.Piece) string {
	if p.Name != "" {
		return p.Name + ": " + p.Label
	}
	return p.Label
}

func (h *html) amount(a *q.Amount, none string) {
	if a == nil {
		h.El("td", none, "class", "n")
		return
	}
	h.El("td", a.String(), "class", "n")
}

// Figures lists every figure; each opens to show its working.
func Figures(b Bench) string {
	var h html
	h.Raw(draw.Curve(b.Report, min(b.Width, 520)))
	h.figures(b.Report.Figures)
	return h.String()
}

// LaterFigures lists what the workshop works out beyond a glance.
func LaterFigures(b Bench) (gist, content string) {
	var h html
	h.figures(b.Report.Later().Figures)
	return count(len(b.Report.Figures), "figure", "figures") + ", each with formula, numbers, source and range", h.String()
}

// folded lists figures of one part of the page under a fold that stays as the
// user left it.
func (h *html) folded(part string, figures []finding.Figure) {
	if len(figures) == 0 {
		return
	}
	h.Open("details", "class", "fold", "data-keep", "figures of "+part)
	h.El("summary", count(len(figures), "figure with its working", "figures with their working"))
	h.figures(figures)
	h.Close("details")
}

func (h *html) figures(figures []finding.Figure) {
	h.Open("div", "class", "figures")
	for _, f := range figures {
		h.figure(f)
	}
	h.Close("div")
}

// figure is a figure that opens to show its working.
func (h *html) figure(f finding.Figure) {
	h.Open("details", "class", "figure", "id", "figure-"+f.Slug, "data-keep", "figure "+f.Slug)
	h.Open("summary")
	h.El("span", f.Name, "class", "name")
	h.El("span", amount(f), "class", "value")
	h.Close("summary")
	h.working(f)
	h.Close("details")
}

// amount is a figure's value with the doubt about it.
func amount(f finding.Figure) string {
	s := f.Amount.String()
	if f.Either != nil {
		s += " ± " + f.Either.String()
	}
	return s
}

func (h *html) working(f finding.Figure) {
	h.Open("div", "class", "working")
	h.Open("p", "class", "formula")
	h.formula(f.Formula)
	h.Close("p")
	if len(f.Inputs) > 0 {
		h.Open("dl")
		for _, in := range f.Inputs {
			h.Open("dt")
			h.formula(in.Symbol)
			h.Close("dt")
			h.Open("dd")
			h.Text(in.Amount.Fine() + " ")
			h.El("span", in.Name, "class", "hint")
			h.Close("dd")
		}
		h.Close("dl")
	}
	if len(f.Hangs) > 0 {
		h.El("p", hangs(f.Hangs), "class", "hint")
	}
	h.Open("p", "class", "basis")
	h.Text("Source: " + f.Source + ".")
	if f.Range != "" {
		h.Text(" Holds for " + f.Range + ".")
	}
	h.Close("p")
	h.Close("div")
}

func cutLength(length, either q.Length) string { return doubted(q.Tape(length), either) }

// quantity writes how many: whole where it is whole.
func quantity(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func (h *html) table(caption string, columns []string, rows int, row func(i int)) {
	if rows == 0 {
		return
	}
	h.Open("table")
	h.El("caption", caption)
	h.Open("thead")
	h.Open("tr")
	for _, c := range columns {
		h.El("th", c, "scope", "col")
	}
	h.Close("tr")
	h.Close("thead")
	h.Open("tbody")
	for i := range rows {
		h.Open("tr")
		row(i)
		h.Close("tr")
	}
	h.Close("tbody")
	h.Close("table")
}

// Cautions are shown whatever the verdicts.
func Cautions(b Bench) string {
	r := b.Report
	var h html
	h.Open("ul")
	for _, c := range r.Cautions {
		if c != "" {
			h.El("li", c)
		}
	}
	h.Close("ul")
	return h.String()
}
