package draw

import "drawoff/pipeline"

// Small draws the plant from the side without words and numbers, width pixels
// wide and no higher: to know a design by in a list, and to hold two side by side. It
// returns "" for a report on a design that could not be worked out.
func Small(r pipeline.Report, width int) string {
	if r.Verdicts == nil {
		return ""
	}
	s := r.Scene
	e := elevation{Scene: s, report: r, profile: s.Vessel.Profile()}
	const margin = 24.0 // of which a motor may need some
	side := float64(width) - 2*margin
	e.fit(side+marginLeft+marginRight, side+marginTop+marginBottom)
	w, h := e.width-marginLeft-marginRight+2*margin, e.height-marginTop-marginBottom+2*margin

	e.Raw("<svg")
	e.Attr("class", "elevation small-plant")
	e.Attr("viewBox", decimal(marginLeft-margin)+" "+decimal(marginTop-margin)+" "+decimal(w)+" "+decimal(h))
	e.numAttr("width", w)
	e.numAttr("height", h)
	e.Attr("role", "img")
	e.Attr("aria-label", "Side view: "+e.describe())
	e.Raw(">")
	e.floor()
	e.stand()
	e.tank()
	e.bucket()
	e.line(s.Layout.Delivery)
	e.pump()
	e.line(s.Layout.Under)
	e.line(s.Layout.Run)
	e.outflow()
	e.Close("svg")
	return e.String()
}
