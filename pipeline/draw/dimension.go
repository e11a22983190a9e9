package draw

// upright draws a dimension between two heights at pixel column x, its words
// on the side given ("start" to the right of it, "end" to the left). Witness
// lines run to the pixel columns from1 and from2, where the heights are.
func (c *canvas) upright(x, z1, z2, from1, from2 float64, side string, words ...string) {
	y1, y2 := c.y(z1), c.y(z2)
	c.line("witness", from1, y1, x, y1)
	c.line("witness", from2, y2, x, y2)
	c.line("dim", x, y1, x, y2)
	c.tick(x, y1)
	c.tick(x, y2)
	gap := 6.0
	if side == "end" {
		gap = -gap
	}
	for i, line := range words {
		c.words("dim-text", side, x+gap, (y1+y2)/2+textSize/3+float64(i)*(textSize+2), line)
	}
}

// level draws a dimension between two world columns at pixel row y.
func (c *canvas) level(y, x1, x2, from1, from2 float64, words string) {
	p1, p2 := c.x(x1), c.x(x2)
	c.line("witness", p1, from1, p1, y)
	c.line("witness", p2, from2, p2, y)
	c.line("dim", p1, y, p2, y)
	c.tick(p1, y)
	c.tick(p2, y)
	c.words("dim-text", "middle", (p1+p2)/2, y-5, words)
}

// tick is the slash that ends a dimension.
func (c *canvas) tick(x, y float64) { c.line("tick", x-3.5, y+3.5, x+3.5, y-3.5) }
