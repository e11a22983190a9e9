package plot

import (
	"strconv"
	"strings"
)

// DXF writes d for a drawing program or a cutting machine: the ASCII form of
// release 12, which everything reads, in millimetres, with a layer for each
// stroke and one for words. Turn off all but CUT to burn or saw.
func DXF(d Drawing) string {
	var w dxf
	low, high := d.Box()
	w.pair(999, d.Title+" (drawing unit: 1 mm)")
	w.pair(0, "SECTION").pair(2, "HEADER")
	w.pair(9, "$ACADVER").pair(1, "AC1009")
	w.pair(9, "$EXTMIN").at(10, low)
	w.pair(9, "$EXTMAX").at(10, high)
	w.pair(0, "ENDSEC")

	w.pair(0, "SECTION").pair(2, "TABLES")
	w.pair(0, "TABLE").pair(2, "LTYPE").pair(70, "1")
	w.pair(0, "LTYPE").pair(2, "CONTINUOUS").pair(70, "0").pair(3, "Solid").pair(72, "65").pair(73, "0").pair(40, "0")
	w.pair(0, "ENDTAB")
	w.pair(0, "TABLE").pair(2, "LAYER").pair(70, "5")
	for i, name := range [...]string{Cut.Layer(), Mark.Layer(), Centre.Layer(), Outline.Layer(), wordLayer} {
		w.pair(0, "LAYER").pair(2, name).pair(70, "0").pair(62, strconv.Itoa([...]int{1, 5, 8, 7, 3}[i])).pair(6, "CONTINUOUS")
	}
	w.pair(0, "ENDTAB").pair(0, "ENDSEC")

	w.pair(0, "SECTION").pair(2, "ENTITIES")
	for _, l := range d.Lines {
		layer := l.Stroke.Layer()
		if len(l.Points) == 2 && !l.Closed {
			w.pair(0, "LINE").pair(8, layer).at(10, l.Points[0]).at(11, l.Points[1])
			continue
		}
		closed := "0"
		if l.Closed {
			closed = "1"
		}
		w.pair(0, "POLYLINE").pair(8, layer).pair(66, "1").at(10, Point{}).pair(70, closed)
		for _, p := range l.Points {
			w.pair(0, "VERTEX").pair(8, layer).at(10, p)
		}
		w.pair(0, "SEQEND").pair(8, layer)
	}
	for _, t := range d.Words {
		w.pair(0, "TEXT").pair(8, wordLayer).at(10, t.At).pair(40, trim(t.Size)).pair(1, t.Text).pair(50, trim(t.Turn))
	}
	w.pair(0, "ENDSEC").pair(0, "EOF")
	return w.b.String()
}

const wordLayer = "WORDS"

type dxf struct{ b strings.Builder }

// pair writes a group: its code on a line and its value on the next.
func (w *dxf) pair(code int, value string) *dxf {
	w.b.WriteString(strconv.Itoa(code) + "\r\n" + ascii(value) + "\r\n")
	return w
}

// at writes a point, whose x has the code given and y and z follow by tens.
func (w *dxf) at(code int, p Point) *dxf {
	return w.pair(code, strconv.FormatFloat(p.X, 'f', 4, 64)).pair(code+10, strconv.FormatFloat(p.Y, 'f', 4, 64)).pair(code+20, "0")
}

// ascii writes text in what release 12 knows: plain characters and its own
// marks for a degree, a diameter and plus or minus.
func ascii(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r >= ' ' && r < 0x7f:
			b.WriteRune(r)
		case r == '°':
			b.WriteString("%%d")
		case r == '±':
			b.WriteString("%%p")
		case r == '½':
			b.WriteString(" 1/2")
		case r == '¼':
			b.WriteString(" 1/4")
		case r == '¾':
			b.WriteString(" 3/4")
		case r == '×':
			b.WriteByte('x')
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}
