package draw

import "slices"

// dimensions is a set of them in the making. Their lines are strokes of three
// paths, however many there are: the page draws the whole at every keystroke,
// and each element costs it.
type dimensions struct {
	*canvas
	witness, across, ticks []segment
	labels                 []label
}

// label is words at a pixel; anchor as in canvas.words.
type label struct {
	anchor, text string
	x, y         float64
}

// upright adds a dimension between two heights at pixel column x, its words
// on the side given ("start" to the right of it, "end" to the left), over the
// floor and over the words of what was added there before. Witness lines run
// to the pixel columns from1 and from2, where the heights are.
func (d *dimensions) upright(x, z1, z2, from1, from2 float64, side string, words ...string) {
	y1, y2 := d.y(z1), d.y(z2)
	d.between(segment{from1, y1, x, y1}, segment{from2, y2, x, y2})
	gap := 6.0
	if side == "end" {
		gap = -gap
	}
	y := (y1+y2)/2 + textSize/3
	const line = textSize + 2
	below := float64(len(words)-1) * line
	if z1 == 0 && z2 > 0 {
		y = min(y, y1-3-below)
	}
	for _, l := range slices.Backward(d.labels) {
		if l.x == x+gap && l.y > y-line && l.y < y+below+line {
			y = l.y - line - below
		}
	}
	for i, text := range words {
		d.labels = append(d.labels, label{side, text, x + gap, y + float64(i)*line})
	}
}

// level adds a dimension between two world columns at pixel row y.
func (d *dimensions) level(y, x1, x2, from1, from2 float64, words string) {
	p1, p2 := d.x(x1), d.x(x2)
	d.between(segment{p1, from1, p1, y}, segment{p2, from2, p2, y})
	d.labels = append(d.labels, label{"middle", words, (p1 + p2) / 2, y - 5})
}

// between adds a dimension between the ends of its witness lines.
func (d *dimensions) between(a, b segment) {
	d.witness = append(d.witness, a, b)
	d.across = append(d.across, segment{a.x2, a.y2, b.x2, b.y2})
	d.ticks = append(d.ticks, slash(a.x2, a.y2), slash(b.x2, b.y2))
}

// slash is the tick that ends a dimension.
func slash(x, y float64) segment { return segment{x - 3.5, y + 3.5, x + 3.5, y - 3.5} }

// draw writes them all.
func (d *dimensions) draw() {
	d.strokes("witness", d.witness...)
	d.strokes("dim", d.across...)
	d.strokes("tick", d.ticks...)
	for _, l := range d.labels {
		d.words("dim-text", l.anchor, l.x, l.y, l.text)
	}
}
