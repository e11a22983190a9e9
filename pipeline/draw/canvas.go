// Package draw turns a report into drawings: SVG as text, made to the width
// in pixels that it will be shown at, so that its words stay readable on a
// phone. Colours and strokes are classes of the page's style sheet; nothing
// is told by colour alone.
package draw

import "drawoff/pipeline/markup"

// canvas is an SVG drawing in the making. World coordinates are metres, x to
// the right and z up; the drawing's are pixels, y down.
type canvas struct {
	markup.Writer
	scale  float64 // pixels per metre
	left   float64 // world x at pixel 0
	bottom float64 // pixel y of z = 0
}

func (c *canvas) x(x float64) float64 { return (x - c.left) * c.scale }
func (c *canvas) y(z float64) float64 { return c.bottom - z*c.scale }

// picture opens a drawing of w by h pixels; says is what it shows, for whoever
// cannot see it.
func (c *canvas) picture(class string, w, h float64, says string) {
	c.Raw("<svg")
	c.Attr("class", class)
	c.Attr("viewBox", "0 0 "+decimal(w)+" "+decimal(h))
	c.numAttr("width", w)
	c.numAttr("height", h)
	c.Attr("role", "img")
	c.Attr("aria-label", says)
	c.Raw(">")
}

// numAttr appends name="x".
func (c *canvas) numAttr(name string, x float64) {
	c.Raw(" " + name + `="`)
	c.Number(x)
	c.Raw(`"`)
}

// point appends "x,y " for a world point.
func (c *canvas) point(x, z float64) { c.pixel(c.x(x), c.y(z)) }

func (c *canvas) pixel(x, y float64) {
	c.Number(x)
	c.Raw(",")
	c.Number(y)
	c.Raw(" ")
}

// line draws between two pixels.
func (c *canvas) line(class string, x1, y1, x2, y2 float64) {
	c.Raw("<line")
	c.Attr("class", class)
	c.numAttr("x1", x1)
	c.numAttr("y1", y1)
	c.numAttr("x2", x2)
	c.numAttr("y2", y2)
	c.Raw("/>")
}

// segment is a straight stroke between two pixels.
type segment struct{ x1, y1, x2, y2 float64 }

// strokes draws segments as one element.
func (c *canvas) strokes(class string, all ...segment) {
	c.path(class)
	for _, s := range all {
		c.Raw("M")
		c.pixel(s.x1, s.y1)
		c.pixel(s.x2, s.y2)
	}
	c.endPath()
}

// rect draws a rectangle of pixels.
func (c *canvas) rect(class string, x, y, w, h float64) {
	c.Raw("<rect")
	c.Attr("class", class)
	c.numAttr("x", x)
	c.numAttr("y", y)
	c.numAttr("width", max(0, w))
	c.numAttr("height", max(0, h))
	c.Raw("/>")
}

// circle draws a circle of pixels.
func (c *canvas) circle(class string, x, y, r float64) {
	c.Raw("<circle")
	c.Attr("class", class)
	c.numAttr("cx", x)
	c.numAttr("cy", y)
	c.numAttr("r", r)
	c.Raw("/>")
}

// words writes s at a pixel; anchor is "start", "middle" or "end".
func (c *canvas) words(class, anchor string, x, y float64, s string) {
	c.Raw("<text")
	c.Attr("class", class)
	c.Attr("text-anchor", anchor)
	c.numAttr("x", x)
	c.numAttr("y", y)
	c.Raw(">")
	c.Text(s)
	c.Raw("</text>")
}

// path starts a path element; end it with endPath.
func (c *canvas) path(class string) {
	c.Raw("<path")
	c.Attr("class", class)
	c.Raw(` d="`)
}

func (c *canvas) endPath() { c.Raw(`"/>`) }

// textSize is the size of the page's words on a drawing, pixels.
const textSize = 12.0
