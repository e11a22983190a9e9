package draw

import "drawoff/pipeline"

// Small draws the plant from the side without words and numbers, width pixels
// wide and no higher: to know a design by in a list. It returns "" for a
// report on a design that could not be worked out.
func Small(r pipeline.Report, width int) string {
	e := smallOf(r, width)
	return e.small(1)
}

// Pair draws two plants as Small does, to the same scale.
func Pair(a, b pipeline.Report, width int) [2]string {
	x, y := smallOf(a, width), smallOf(b, width)
	least := min(x.scale, y.scale)
	if least == 0 { // one of them is not drawn
		return [2]string{x.small(1), y.small(1)}
	}
	return [2]string{x.small(least / x.scale), y.small(least / y.scale)}
}

const smallMargin = 24.0 // pixels, of which a motor may need some

// smallOf fits the plant into a small drawing; what is not drawn has no scale.
func smallOf(r pipeline.Report, width int) elevation {
	if r.Verdicts == nil {
		return elevation{}
	}
	e := elevation{Scene: r.Scene, report: r, profile: r.Scene.Vessel.Profile()}
	side := float64(width) - 2*smallMargin
	e.fit(side+2*marginSide(), side+marginTop+marginBottom)
	return e
}

// small writes the drawing, shown the given part of its full size.
func (e *elevation) small(part float64) string {
	if e.scale == 0 {
		return ""
	}
	w, h := e.width-2*marginSide()+2*smallMargin, e.height-marginTop-marginBottom+2*smallMargin
	e.Raw("<svg")
	e.Attr("class", "elevation small-plant")
	e.Attr("viewBox", decimal(marginSide()-smallMargin)+" "+decimal(marginTop-smallMargin)+" "+decimal(w)+" "+decimal(h))
	e.numAttr("width", w*part)
	e.numAttr("height", h*part)
	e.Attr("role", "img")
	e.Attr("aria-label", "Side view: "+e.describe())
	e.Raw(">")
	e.floor()
	e.stand()
	e.tank()
	e.bucket()
	e.line(e.Layout.Delivery)
	e.pump()
	e.line(e.Layout.Under)
	e.line(e.Layout.Run)
	e.outflow()
	e.Close("svg")
	return e.String()
}
