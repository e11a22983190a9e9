package plot

import (
	"math"
	"strconv"
	"strings"
)

// A page of A4, and what of it a tile may use: small enough that every office
// printer prints all of it, and US Letter holds it too. Neighbours overlap, so
// that they can be laid over one another and glued.
const (
	pageWide, pageHigh = 210.0, 297.0
	tileWide, tileHigh = 185.0, 235.0
	overlap            = 10.0
	left, bottom       = 12.5, 40.0 // of a tile, on its page
	point              = 72 / 25.4  // points in a millimetre
)

// PDF writes drawings at 1:1 on pages of A4, each with a check line, those
// that are larger than a page on several that overlap. Tiles with nothing on
// them are left out. The file is plain ASCII: version 1.4, vector paths and
// Helvetica.
func PDF(drawings ...Drawing) string {
	var pages []string
	for i := range drawings {
		pages = append(pages, tiles(&drawings[i])...)
	}
	var f file
	f.b.WriteString("%PDF-1.4\n")
	f.object("<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>")
	kids := make([]string, len(pages))
	for i := range pages {
		kids[i] = strconv.Itoa(4+2*i) + " 0 R"
	}
	f.object("<< /Type /Pages /Count " + strconv.Itoa(len(pages)) + " /Kids [" + strings.Join(kids, " ") + "] /MediaBox [0 0 " + trim(pageWide*point) + " " + trim(pageHigh*point) + "] >>")
	f.object("<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>")
	for i, p := range pages {
		f.object("<< /Type /Page /Parent 2 0 R /Resources << /Font << /F 3 0 R >> >> /Contents " + strconv.Itoa(5+2*i) + " 0 R >>")
		f.object("<< /Length " + strconv.Itoa(len(p)) + " >>\nstream\n" + p + "\nendstream")
	}
	return f.end()
}

// file is a PDF in the making.
type file struct {
	b  strings.Builder
	at []int // where each object begins
}

func (f *file) object(body string) {
	f.at = append(f.at, f.b.Len())
	f.b.WriteString(strconv.Itoa(len(f.at)) + " 0 obj\n" + body + "\nendobj\n")
}

// end writes the table of objects: ISO 32000-1 clause 7.5.4, each entry of 20 bytes.
func (f *file) end() string {
	start := f.b.Len()
	n := strconv.Itoa(len(f.at) + 1)
	f.b.WriteString("xref\n0 " + n + "\n0000000000 65535 f \n")
	for _, at := range f.at {
		s := strconv.Itoa(at)
		f.b.WriteString(strings.Repeat("0", 10-len(s)) + s + " 00000 n \n")
	}
	f.b.WriteString("trailer\n<< /Size " + n + " /Root 1 0 R >>\nstartxref\n" + strconv.Itoa(start) + "\n%%EOF\n")
	return f.b.String()
}

// MostPages is how many pages a drawing may be printed on; nobody glues more.
const MostPages = 150

// Pages returns on how many pages PDF would lay d out, those with nothing on them included.
func (d *Drawing) Pages() int {
	low, high := d.Box()
	return count(high.X-low.X, tileWide) * count(high.Y-low.Y, tileHigh)
}

// tiles returns the content of each page that d takes. What is too large to be
// printed comes as a page that says so.
func tiles(d *Drawing) []string {
	if d.Pages() > MostPages {
		d = &Drawing{Title: d.Title, Notes: append([]string{"Too large to print at full size: take the DXF, or mark it out from these figures."}, d.Notes...)}
	}
	low, high := d.Box()
	columns, rows := count(high.X-low.X, tileWide), count(high.Y-low.Y, tileHigh)
	var out []string
	for row := rows - 1; row >= 0; row-- {
		for column := range columns {
			x0 := low.X + float64(column)*(tileWide-overlap)
			y0 := low.Y + float64(row)*(tileHigh-overlap)
			if columns*rows > 1 && !d.touches(x0, y0) {
				continue
			}
			label := ""
			if columns*rows > 1 {
				label = "Sheet " + string(rune('A'+(rows-1-row)%26)) + strconv.Itoa(column+1) + " of " + strconv.Itoa(rows) + " rows (A on top) by " + strconv.Itoa(columns) + ": lay the crosses over those of the next sheets"
			}
			out = append(out, d.tile(x0, y0, columns, rows, low, label))
		}
	}
	return out
}

// count returns how many tiles cover a stretch.
func count(size, tile float64) int {
	if !(size > tile) {
		return 1
	}
	return int(math.Ceil((size-overlap)/(tile-overlap) - 1e-9))
}

// near returns the runs of a line that may pass through the tile whose lower
// left corner is at x, y: a tile does not carry the whole of a large drawing.
func (l *Line) near(x, y float64) [][]Point {
	points := l.Points
	if l.Closed && len(points) > 0 {
		points = append(append(make([]Point, 0, len(points)+1), points...), points[0])
	}
	var runs [][]Point
	from := -1
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		in := math.Max(a.X, b.X) >= x && math.Min(a.X, b.X) <= x+tileWide && math.Max(a.Y, b.Y) >= y && math.Min(a.Y, b.Y) <= y+tileHigh
		switch {
		case in && from < 0:
			from = i - 1
		case !in && from >= 0:
			runs = append(runs, points[from:i])
			from = -1
		}
	}
	if from >= 0 {
		runs = append(runs, points[from:])
	}
	return runs
}

// touches reports whether anything of a line may pass through a tile.
func (d *Drawing) touches(x, y float64) bool {
	for i := range d.Lines {
		if len(d.Lines[i].near(x, y)) > 0 {
			return true
		}
	}
	return false
}

// tile writes the part of d whose lower left corner is at x0, y0.
func (d *Drawing) tile(x0, y0 float64, columns, rows int, low Point, label string) string {
	var c content
	c.s("q 1 J 1 j")
	c.s(trim(left*point) + " " + trim(bottom*point) + " " + trim(tileWide*point) + " " + trim(tileHigh*point) + " re W n")
	x := func(v float64) float64 { return v - x0 + left }
	y := func(v float64) float64 { return v - y0 + bottom }
	for i := range d.Lines {
		l := &d.Lines[i]
		pen := pens[l.Stroke]
		for _, run := range l.near(x0, y0) {
			c.pen(pen.width, pen.dash)
			for i, p := range run {
				c.to("ml"[min(i, 1)], x(p.X), y(p.Y))
			}
			if l.Closed && len(run) == len(l.Points)+1 {
				c.s("s")
			} else {
				c.s("S")
			}
		}
	}
	for _, w := range d.Words {
		c.word(x(w.At.X), y(w.At.Y), w.Size, w.Turn, w.Text)
	}
	c.s("Q")
	c.pen(0.1, "")
	// Crosses where tiles meet, the same on each that shares them.
	if columns*rows > 1 {
		for i := range columns + 1 {
			for j := range rows + 1 {
				px, py := x(low.X+float64(i)*(tileWide-overlap)+overlap/2), y(low.Y+float64(j)*(tileHigh-overlap)+overlap/2)
				if px < left-1 || px > left+tileWide+1 || py < bottom-1 || py > bottom+tileHigh+1 {
					continue
				}
				c.to('m', px-4, py)
				c.to('l', px+4, py)
				c.to('m', px, py-4)
				c.to('l', px, py+4)
				c.s("S")
			}
		}
	}
	// The check line, and what is said.
	c.pen(0.25, "")
	c.to('m', left, bottom-8)
	c.to('l', left+CheckLine, bottom-8)
	for _, at := range [2]float64{left, left + CheckLine} {
		c.to('m', at, bottom-10)
		c.to('l', at, bottom-6)
	}
	c.s("S")
	c.word(left+CheckLine+3, bottom-9, 2.2, 0, checkWords+": print at 100 %")
	line := bottom - 14
	for _, s := range append(fold(d.caption(), 105), label) {
		if line < 6 {
			break
		}
		c.word(left, line, 2.3, 0, s)
		line -= 4
	}
	return c.b.String()
}

// fold breaks lines that are longer than n characters at their spaces.
func fold(lines []string, n int) []string {
	var out []string
	for _, s := range lines {
		line := ""
		for _, word := range strings.Fields(s) {
			if line != "" && len([]rune(line))+1+len([]rune(word)) > n {
				out = append(out, line)
				line = ""
			}
			if line != "" {
				line += " "
			}
			line += word
		}
		out = append(out, line)
	}
	return out
}

// content is the content of a page.
type content struct{ b strings.Builder }

func (c *content) s(operators string) {
	c.b.WriteString(operators)
	c.b.WriteByte('\n')
}

func (c *content) pen(width float64, dash string) {
	dashes := strings.Fields(dash)
	for i, s := range dashes {
		mm, _ := strconv.ParseFloat(s, 64)
		dashes[i] = trim(mm * point)
	}
	c.s(trim(width*point) + " w [" + strings.Join(dashes, " ") + "] 0 d")
}

// to moves or draws to a place on the page, in millimetres.
func (c *content) to(operator byte, x, y float64) {
	c.s(trim(x*point) + " " + trim(y*point) + " " + string(operator))
}

func (c *content) word(x, y, size, turn float64, text string) {
	if text == "" {
		return
	}
	sin, cos := math.Sincos(turn * math.Pi / 180)
	c.s("BT /F " + trim(size*1.4*point) + " Tf " + trim(cos) + " " + trim(sin) + " " + trim(-sin) + " " + trim(cos) + " " + trim(x*point) + " " + trim(y*point) + " Tm (" + winAnsi(text) + ") Tj ET")
}

// winAnsi writes text in the encoding of the font, everything but plain ASCII
// as an octal escape, so that the file stays ASCII. Latin letters and the
// signs of the trade are in it; what is not becomes a question mark.
func winAnsi(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '(' || r == ')' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r >= ' ' && r < 0x7f:
			b.WriteRune(r)
		case r >= 0xa0 && r <= 0xff:
			b.WriteString(`\` + strconv.FormatInt(int64(r), 8))
		case r == '–' || r == '−':
			b.WriteString(`\226`)
		case r == '’':
			b.WriteString(`\222`)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}
