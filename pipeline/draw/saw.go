package draw

import (
	"strconv"

	"drawoff/pipeline"
	q "drawoff/pipeline/quantity"
)

// Saw draws every length that the pieces of one tube are sawn from, to one
// scale: each piece with its mark, where the saw goes between them, and what
// is left, dashed. It returns "" where nothing is sawn.
func Saw(s pipeline.Sawing, width int) string {
	bars := s.Plan.Bars
	if len(bars) == 0 {
		return ""
	}
	const side, bar, row, letter = 2.0, 24.0, 62.0, 6.8
	w := float64(max(width, 240))
	var longest q.Length
	for _, b := range bars {
		longest = max(longest, b.Length)
	}
	c := canvas{}
	x := func(l q.Length) float64 { return side + float64(l/longest)*(w-2*side) }
	c.picture("saw-picture", w, row*float64(len(bars)), s.Name+": what is sawn from each length; the list below has the same")
	for i, b := range bars {
		y := row * float64(i)
		c.words("small", "start", side, y+12, strconv.Itoa(i+1)+". "+b.Name())
		c.words("small", "end", w-side, y+12, b.Rest())
		y += 17
		if b.Trim > 0 {
			c.rect("bucket", x(0), y, x(b.Trim)-x(0), bar)
		}
		free := 0.0 // where the next word under the bar may begin
		for _, cut := range b.Cuts {
			from, to := x(cut.From), x(cut.From+cut.Length)
			c.rect("leg", from, y, to-from, bar)
			mark := s.Marks[cut.Piece]
			long := mark + ": " + q.Along(cut.Length)
			middle := (from + to) / 2
			switch room := to - from - 6; {
			case room >= letter*float64(len([]rune(long))):
				c.words("", "middle", middle, y+bar/2+4, long)
			case room >= letter*float64(len(mark)):
				c.words("", "middle", middle, y+bar/2+4, mark)
			default:
				half := letter * float64(len(mark)) / 2
				at := min(max(middle, free+half), w-side-half)
				c.line("leader", middle, y+bar, at, y+bar+6)
				c.words("", "middle", at, y+bar+16, mark)
				free = at + half + 3
			}
		}
		if b.Left > 0 {
			c.rect("bucket", x(b.Length-b.Left), y, x(b.Length)-x(b.Length-b.Left), bar)
		}
	}
	c.Close("svg")
	return c.String()
}
