package view

import (
	"strconv"
	"strings"

	"drawoff/catalog"
)

// Catalogue is the page of the catalogue, whole without any script; with one,
// what is searched for is found by the workshop's module, which the main page fetches too.
// Index is the address of the main page.
func Catalogue(a Assets, index string) string {
	var h html
	h.Raw(`<!doctype html><html lang="en-GB"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="description" content="Tube, unions, weld fittings and seals of hygienic pipework, each dimension with its source and how far it is to be trusted."><title>Catalogue · Drawoff</title>`)
	h.Void("link", "rel", "stylesheet", "href", a.Style)
	h.Void("link", "rel", "stylesheet", "href", a.CatalogueStyle)
	h.Void("link", "rel", "icon", "href", a.Icon, "type", "image/svg+xml")
	h.Raw(`</head><body class="catalogue"><a class="skip" href="#tables">Skip to the tables</a><header class="top"><div class="brand"><h1>Catalogue</h1><p>Tube, unions, weld fittings and seals: every dimension with its mark of trust and its source.</p></div>`)
	h.El("a", "Back to your plant", "class", "back", "href", index)
	h.Raw(`</header><main><search><form id="find" hidden><label for="query">Find a part</label><input id="query" name="q" type="search" autocomplete="off" spellcheck="false" enterkeyhint="search" placeholder="2 inch rjt liner, DN50 dairy nut, 51 mm tube"></form><div id="found" role="status" aria-live="polite"></div></search>`)
	all := sheets()
	h.Raw(`<nav aria-label="Tables"><ul class="contents">`)
	for _, s := range all {
		if s.section != "" {
			h.El("li", s.section, "class", "heading")
		}
		h.Open("li")
		h.El("a", s.title, "href", "#"+s.id)
		h.Close("li")
	}
	h.Raw(`</ul></nav>`)
	h.marks()
	h.Open("div", "id", "tables")
	var notes footnotes
	for _, s := range all {
		h.sheet(s, &notes)
	}
	h.Raw(`</div><section><h2 id="sources">Sources</h2><ol class="sources">`)
	for i, source := range notes.list {
		h.El("li", source, "id", "source-"+strconv.Itoa(i+1))
	}
	h.Raw(`</ol></section></main><footer><p>Guidance for people who know their trade. Measure what you have in hand before cutting; where a standard is named, the standard decides.</p></footer>`)
	h.starter(a)
	h.El("script", "", "src", a.CatalogueScript, "data-workshop", a.Workshop)
	h.Raw(`</body></html>`)
	return h.String()
}

// marks explains the marks of trust, the surest first.
func (h *html) marks() {
	h.Raw(`<section><h2>How far a number is to be trusted</h2><dl class="marks">`)
	for _, m := range [...][2]string{
		{string(catalog.Standard), "printed in a standard or in a reproduction of its table"},
		{string(catalog.Memory), "a standard's value from memory: check it before relying on it"},
		{string(catalog.Derived), "worked out from other values, by the formula in its source"},
		{string(catalog.Custom), "trade custom, from no standard"},
		{string(catalog.Unknown), "an assumption of ours with a ± that is meant to hold what is on the market: measure it"},
	} {
		h.El("dt", m[0])
		h.El("dd", m[1])
	}
	h.Raw(`</dl></section>`)
}

// footnotes numbers sources as they are first cited.
type footnotes struct {
	list []string
	at   map[string]int
}

func (n *footnotes) number(source string) string {
	if n.at == nil {
		n.at = map[string]int{}
	}
	if n.at[source] == 0 {
		n.list = append(n.list, source)
		n.at[source] = len(n.list)
	}
	return strconv.Itoa(n.at[source])
}

func (h *html) sheet(s sheet, notes *footnotes) {
	if s.section != "" {
		h.El("h2", s.section)
	}
	h.Open("section", "class", "sheet", "id", s.id)
	h.El("h3", s.title)
	if s.warning != "" {
		h.El("p", s.warning, "class", "warning")
	}
	for _, note := range s.notes {
		h.El("p", note)
	}
	if len(s.calipers) > 0 {
		h.Open("details")
		h.El("summary", "Where to put the caliper")
		for _, line := range s.calipers {
			h.El("p", line)
		}
		h.Close("details")
	}
	h.Open("table", "class", tableClass(s))
	h.Open("thead")
	h.Open("tr")
	for _, c := range s.columns {
		h.El("th", c, "scope", "col")
	}
	h.El("th", "Source", "scope", "col")
	h.Close("tr")
	h.Close("thead")
	h.Open("tbody")
	for _, r := range s.rows {
		h.Open("tr", "id", r.id)
		for i, c := range r.cells {
			if i == 0 {
				h.El("th", c, "scope", "row")
				continue
			}
			h.El("td", c, "data-label", s.columns[i])
		}
		h.Open("td", "data-label", "Source")
		h.Raw("<span>")
		for i, c := range r.cites {
			if i > 0 {
				h.Raw(", ")
			}
			n := notes.number(c.source)
			h.El("a", strings.TrimSpace(c.what+" "+n), "href", "#source-"+n)
		}
		h.Raw("</span>")
		h.Close("td")
		h.Close("tr")
	}
	h.Close("tbody")
	h.Close("table")
	h.Close("section")
}

// tableClass says how a table is laid out on a phone: figures alone stay in
// columns, words are set as a card for each row.
func tableClass(s sheet) string {
	if s.figures {
		return "figures-only"
	}
	return "cards"
}

// Hits is what a search found, each with its dimensions, mark and source, and
// a link to the row where it stands.
func Hits(query string, hits []catalog.Hit) string {
	var h html
	switch {
	case strings.TrimSpace(query) == "":
		return ""
	case len(hits) == 0:
		h.El("p", "Nothing in the catalogue is called that. Name a part and a size: “2 inch rjt liner”, “DN50 dairy nut”, “51 mm tube”.")
		return h.String()
	}
	most := count(len(hits), "part", "parts")
	if len(hits) == catalog.MostHits {
		most = "The first " + strconv.Itoa(len(hits)) + " parts; say the size to find fewer"
	}
	h.El("p", most+":", "class", "hint")
	h.Open("ul", "class", "hits")
	for _, x := range hits {
		h.Open("li")
		h.El("a", x.Name, "href", "#"+x.Row)
		h.El("span", x.Facts)
		mark := "source: " + x.Source
		if x.Trust != "" {
			mark = string(x.Trust) + ": " + x.Source
		}
		h.El("small", mark)
		h.Close("li")
	}
	h.Close("ul")
	return h.String()
}
