// Package workfile makes the files that go to the workshop from a report:
// full-size templates and the plant's outline, as SVG, PDF and DXF, and the
// report itself, as JSON. It weighs more than a keystroke may, so only those
// who want files call it.
package workfile

import (
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/plot"
)

// File is a file to save.
type File struct {
	Name    string `json:"name"`
	Type    string `json:"type"` // media type
	Content string `json:"content"`
}

// Offer is a drawing that can be had, and in which forms.
type Offer struct {
	Title string
	Notes []string
	Files []string // names to ask Make for
}

const (
	templates = "templates.pdf" // all of them in one file

	// ReportJSON is the whole report, for other programs.
	ReportJSON = "report.json"
)

// Offers lists the files that can be made of r, and what cannot be drawn and
// why. A report on a design that could not be worked out offers nothing.
func Offers(r pipeline.Report) (offers []Offer, missing []string) {
	drawings, missing := Drawings(r)
	for i := range drawings {
		d := &drawings[i]
		o := Offer{Title: d.Title, Notes: d.Notes}
		for _, form := range forms(d.Name) {
			if form == ".pdf" && d.Pages() > plot.MostPages {
				continue // DXF and SVG have it
			}
			o.Files = append(o.Files, d.Name+form)
		}
		offers = append(offers, o)
	}
	if len(drawings) > 2 {
		offers = append(offers, Offer{Title: "All templates in one file to print", Files: []string{templates}})
	}
	if len(offers) > 0 {
		offers = append(offers, Offer{Title: "This report, for other programs", Files: []string{ReportJSON}})
	}
	return offers, missing
}

// forms are the endings that a drawing is offered with: nobody prints a whole plant at full size.
func forms(name string) []string {
	if name == elevationName {
		return []string{".dxf"}
	}
	return []string{".pdf", ".svg", ".dxf"}
}

// Make returns the file called name, as Offers lists it, but for ReportJSON,
// which package asjson writes: the page, which lists the files, does not load that.
func Make(r pipeline.Report, name string) (File, bool) {
	drawings, _ := Drawings(r)
	if name == templates && len(drawings) > 2 {
		return File{Name: name, Type: "application/pdf", Content: plot.PDF(printed(drawings)...)}, true
	}
	for i := range drawings {
		form, ok := strings.CutPrefix(name, drawings[i].Name)
		if !ok {
			continue
		}
		switch {
		case form == ".dxf":
			return File{Name: name, Type: "image/vnd.dxf", Content: plot.DXF(drawings[i])}, true
		case form == ".svg" && drawings[i].Name != elevationName:
			return File{Name: name, Type: "image/svg+xml", Content: plot.SVG(drawings[i])}, true
		case form == ".pdf" && drawings[i].Name != elevationName:
			return File{Name: name, Type: "application/pdf", Content: plot.PDF(drawings[i])}, true
		}
	}
	return File{}, false
}

// printed are the drawings that are printed.
func printed(drawings []plot.Drawing) []plot.Drawing {
	var out []plot.Drawing
	for i := range drawings {
		if drawings[i].Name != elevationName {
			out = append(out, drawings[i])
		}
	}
	return out
}

// Drawings makes every drawing of r, and says what cannot be drawn and why.
func Drawings(r pipeline.Report) (drawings []plot.Drawing, missing []string) {
	if r.Verdicts == nil {
		return nil, nil
	}
	m := maker{report: r, scene: r.Scene, in: r.Scene.Stand}
	m.legs()
	m.braces()
	m.outlet()
	m.cone()
	m.tees()
	m.drawings = append(m.drawings, elevation(r))
	if r.Title != "" {
		for i := range m.drawings {
			m.drawings[i].Title += ": " + r.Title
		}
	}
	return m.drawings, m.missing
}
