package view

import (
	"strings"

	"drawoff/catalog"
)

// CatalogueText is the catalogue as a terminal prints it: what a query finds,
// or all of it where nothing is asked for.
func CatalogueText(query string) string {
	var t text
	if strings.TrimSpace(query) != "" {
		hits := catalog.Search(query)
		if len(hits) == 0 {
			t.line(`Nothing in the catalogue is called that. Name a part and a size: "2 inch rjt liner", "DN50 dairy nut", "51 mm tube".`)
		}
		for _, h := range hits {
			t.line(h.Name)
			if h.Facts != "" {
				t.wrap("    ", h.Facts)
			}
			lead := "Source: "
			if h.Trust != "" {
				lead = "Mark: " + string(h.Trust) + ". Source: "
			}
			t.wrap("    ", lead+h.Source)
			t.line("    named " + h.Slug)
		}
		return t.String()
	}
	var notes footnotes
	for _, s := range sheets() {
		t.head(s.title)
		if s.warning != "" {
			t.wrap("  ", s.warning)
		}
		for _, note := range append(s.notes, s.calipers...) {
			t.wrap("  ", note)
		}
		t.line("")
		rows := [][]string{append(append([]string{}, s.columns...), "Source")}
		for _, r := range s.rows {
			var cited []string
			for _, c := range r.cites {
				cited = append(cited, strings.TrimSpace(c.what+" ["+notes.number(c.source)+"]"))
			}
			rows = append(rows, append(append([]string{}, r.cells...), strings.Join(cited, ", ")))
		}
		t.table(rows)
	}
	t.head("Sources")
	for _, source := range notes.list {
		t.wrap("  ["+notes.number(source)+"]", source)
	}
	return t.String()
}
