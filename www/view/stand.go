package view

import (
	"slices"
	"strings"

	"drawoff/pipeline/draw"
	"drawoff/pipeline/markup"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/stand"
)

// Heights shows what the stand must satisfy, which need governs, and what a
// change of each gives, with a picture. The workshop writes it.
func Heights(b Bench) (gist, content string) {
	r := b.Report
	var h html
	if len(r.Drivers)+len(r.Bounds) == 0 {
		return "", ""
	}
	h.Raw(draw.Heights(r, min(b.Width, 520)))
	h.Open("table")
	h.El("caption", "How high the outlet must stand over the floor")
	h.Open("thead")
	h.Open("tr")
	for _, c := range []string{"Need", "At least", "To spare"} {
		h.El("th", c, "scope", "col")
	}
	h.Close("tr")
	h.Close("thead")
	h.Open("tbody")
	for i, d := range r.Drivers {
		governs := markup.If(d.Governs, " governs")
		h.Open("tr", "class", "lead"+governs)
		h.Open("th", "scope", "row")
		h.Text(d.Name)
		if d.Governs {
			h.El("span", " governs", "class", "tag")
		}
		h.Close("th")
		h.Open("td", "class", "n")
		if d.Needed > 0 && d.Either > 0 {
			h.Text(q.AtLeast(d.Needed))
			h.El("small", "± "+q.Text(d.Either))
		} else {
			h.Text(needed(d))
		}
		h.Close("td")
		h.El("td", q.Text(d.Slack), "class", "n")
		h.Close("tr")
		h.Open("tr", "class", strings.TrimSpace(governs))
		h.Open("td", "colspan", "3")
		h.El("small", strings.TrimSpace(d.Why+" "+change(r.Drivers, i)), "class", "hint")
		h.first(d.Hangs)
		h.Close("td")
		h.Close("tr")
	}
	for _, x := range r.Bounds {
		h.Open("tr")
		h.Open("th", "scope", "row")
		h.Text(x.Name)
		h.El("small", "At most this, not at least.", "class", "hint")
		h.Close("th")
		h.El("td", q.Text(x.Most), "class", "n")
		h.El("td", q.Text(x.Slack), "class", "n")
		h.Close("tr")
	}
	h.Close("tbody")
	h.Close("table")
	gist = told(r.Figures, "", "outlet-height") + " over the floor"
	for _, d := range r.Drivers {
		if d.Governs && d.Needed > 0 {
			gist += "; " + strings.ToLower(d.Name[:1]) + d.Name[1:] + ": " + needed(d)
		}
	}
	return b.gist(gist, stand.RuleHeight, stand.RuleFloor, stand.RuleBucket, stand.RuleCeiling, stand.RuleLegs, stand.RuleReach, stand.RuleDoor), h.String()
}

// needed tells a need; one that would be met below the floor asks for nothing.
func needed(d stand.Driver) string {
	if d.Needed <= 0 {
		return "any height"
	}
	return doubted(q.AtLeast(d.Needed), d.Either)
}

// change tells what a change of need i gives; ds are in order, the one that governs first.
func change(ds []stand.Driver, i int) string {
	d := ds[i]
	switch {
	case d.Needed <= 0 || i == 0 && d.Until <= q.Millimetre/10:
		return ""
	case i > 0:
		return "It may take " + q.Text(d.Until) + " more before it governs; to save on it gains nothing."
	case len(ds) > 1 && ds[1].Needed > 0:
		return "Whatever is saved on it lowers the tank by as much, for the first " + q.Text(d.Until) + "; then this governs: " + ds[1].Name + "."
	}
	return "Whatever is saved on it lowers the tank by as much."
}

// standing are the rules about how it stands.
var standing = [...]string{stand.RuleTip, stand.RulePush, stand.RuleRock, stand.RuleLoad, stand.RuleBracket, stand.RuleClear}

// Stability shows what tips the tank and what its legs carry. The workshop writes it.
func Stability(b Bench) (gist, content string) {
	s := b.Report.Stability()
	if len(s.Figures) == 0 {
		return "", ""
	}
	var h html
	h.El("p", s.Caution, "class", "caution")
	h.Open("ul", "class", "standing")
	for _, v := range b.Report.Verdicts {
		if slices.Contains(standing[:], v.Rule) {
			h.Open("li")
			h.badge(v.Level)
			h.Text(" " + v.Sentence)
			h.Close("li")
		}
	}
	h.Close("ul")
	h.Raw(draw.Tipping(s.Curve, b.Report.Scene.Stand.Tip.Degrees(), min(b.Width, 520)))
	h.folded("stability", s.Figures)
	gist = told(s.Figures, "", "mass-full") + " full" + told(s.Figures, "; tips at ", "tip-angle-full") + told(s.Figures, " full, ", "tip-angle-empty") + " empty"
	return b.gist(gist, standing[:]...), h.String()
}
