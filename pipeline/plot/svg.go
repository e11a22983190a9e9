package plot

import (
	"strconv"

	"drawoff/pipeline/markup"
)

// SVG writes d as one sheet at 1:1, as large as it needs: a millimetre of the
// drawing is a millimetre on paper when it is printed at 100 %.
func SVG(d Drawing) string {
	const margin, leading = 10.0, 5.0
	low, high := d.Box()
	caption := d.caption()
	most := CheckLine + 50
	for _, s := range caption {
		most = max(most, 1.9*float64(len([]rune(s))))
	}
	width := max(high.X-low.X, most) + 2*margin
	foot := leading*float64(len(caption)+1) + 14
	height := high.Y - low.Y + foot + 2*margin
	x := func(v float64) string { return trim(v - low.X + margin) }
	y := func(v float64) string { return trim(high.Y - v + margin) }

	var w markup.Writer
	w.Open("svg", "xmlns", "http://www.w3.org/2000/svg", "width", trim(width)+"mm", "height", trim(height)+"mm",
		"viewBox", "0 0 "+trim(width)+" "+trim(height), "fill", "none", "stroke", "#000", "stroke-linejoin", "round", "font-family", "Helvetica, Arial, sans-serif")
	w.El("title", d.Title)
	for _, l := range d.Lines {
		pen := pens[l.Stroke]
		path := make([]byte, 0, 16*len(l.Points))
		for i, p := range l.Points {
			path = append(path, "ML"[min(i, 1)])
			path = append(path, x(p.X)...)
			path = append(path, ',')
			path = append(path, y(p.Y)...)
		}
		if l.Closed {
			path = append(path, 'Z')
		}
		w.Void("path", "class", l.Stroke.Layer(), "stroke-width", trim(pen.width), "stroke-dasharray", pen.dash, "d", string(path))
	}
	word := func(px, py string, size, turn float64, text string) {
		w.El("text", text, "x", px, "y", py, "font-size", trim(size*1.4), "fill", "#000", "stroke", "none",
			"transform", markup.If(turn != 0, "rotate("+trim(-turn)+" "+px+" "+py+")"))
	}
	for _, t := range d.Words {
		word(x(t.At.X), y(t.At.Y), t.Size, t.Turn, t.Text)
	}
	at := high.Y - low.Y + margin + 8
	w.Void("path", "class", "CHECK", "stroke-width", "0.25", "d", "M"+trim(margin)+","+trim(at-2)+"v4m0,-2h"+trim(CheckLine)+"m0,-2v4")
	word(trim(margin+CheckLine+3), trim(at+1), 2.2, 0, checkWords)
	for i, s := range caption {
		word(trim(margin), trim(at+leading*float64(i+1)+3), 2.4, 0, s)
	}
	w.Close("svg")
	return w.String()
}

const checkWords = "must measure 100 mm (3 15/16 in)" // which is 100.01 mm

// pens are how strokes are drawn: width in mm, and dashes in mm as SVG and PDF write them.
var pens = [...]struct {
	width float64
	dash  string
}{
	Cut:     {0.35, ""},
	Mark:    {0.2, "2 1"},
	Centre:  {0.15, "6 1 1 1"},
	Outline: {0.25, ""},
}

// trim writes x to a thousandth of a millimetre and no longer than that needs.
func trim(x float64) string {
	s := strconv.FormatFloat(x, 'f', 3, 64)
	for s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	if s == "-0" {
		return "0"
	}
	return s
}
