package draw

import (
	"math"
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// decimal returns x as a drawing writes it.
func decimal(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

// middle returns the point half way along a piece.
func middle(p route.Piece) route.Vec {
	left := p.Length / 2
	for _, s := range p.Path {
		if s.Length < left {
			left -= s.Length
			continue
		}
		if s.Length == 0 {
			return s.From
		}
		at, _ := s.Point(float64(left / s.Length))
		return at
	}
	return p.In.At.Add(p.Out.At).Scale(0.5)
}

// runs returns the way that p runs on the drawing, a unit in pixels; it is not
// seen where p runs towards whoever looks.
func runs(p route.Piece) (dx, dy float64, seen bool) {
	n := math.Hypot(p.In.Dir.X, p.In.Dir.Z)
	if n < 1e-6 {
		return 0, 0, false
	}
	return p.In.Dir.X / n, -p.In.Dir.Z / n, true
}

// arcSteps is how many straight strokes an arc is drawn with.
const arcSteps = 8

// piece draws one piece: its tube, the bars of its unions, and what makes a
// valve, a reducer or a hose known.
func (e *elevation) piece(p route.Piece) {
	e.Raw(`<g class="piece `)
	e.Raw(p.Kind)
	e.Raw(`"`)
	e.Attr("data-ref", p.Ref)
	e.Raw("><title>")
	e.Text(e.says(p))
	e.Raw("</title>")
	for _, s := range p.Path {
		if s.BoreFrom != s.BoreTo {
			e.cone(p, s)
			continue
		}
		e.stroke(p, s)
	}
	for _, port := range p.Ports() {
		if port.End != nil {
			e.port(p, port)
		}
	}
	e.flange(p.In)
	e.flange(p.Out)
	switch {
	case p.Kind == design.SightGlass:
		e.glass(p)
	case p.Kind == design.Cap:
		e.blank(p.In)
	case design.IsBody(p.Kind):
		e.valve(p)
	case p.Kind == design.Device:
		e.box(p)
	}
	e.Raw("</g>")
}

// port draws a branch. A pocket has a thin stem that sticks out of it and a
// ring for its dial; a cock a small bow tie.
func (e *elevation) port(p route.Piece, port route.Port) {
	at := middle(p)
	x, y := e.x(port.At.X), e.y(port.At.Z)
	e.tube(port.Half.Tube.OD, e.x(at.X), e.y(at.Z), x, y)
	e.flange(*port.End)
	dx, dy := port.Dir.X, -port.Dir.Z
	switch p.Kind {
	case design.Pocket:
		e.canvas.line("tick", x, y, x+dx*7, y+dy*7)
		e.circle("bow", x+dx*10, y+dy*10, 3.5)
	case design.Cock:
		e.bow(x+dx*5, y+dy*5, dx, dy, 5)
	}
}

// glass draws a sight glass: a window along its middle.
func (e *elevation) glass(p route.Piece) {
	at := middle(p)
	dx, dy, seen := runs(p)
	if !seen {
		return
	}
	x, y := e.x(at.X), e.y(at.Z)
	along, across := max(5, e.thick(p.Length)/4), e.thick(p.In.Half.Tube.OD)/2+2
	e.path("bow")
	e.Raw("M")
	e.pixel(x-dx*along-dy*across, y-dy*along+dx*across)
	e.pixel(x+dx*along-dy*across, y+dy*along+dx*across)
	e.pixel(x+dx*along+dy*across, y+dy*along-dx*across)
	e.pixel(x-dx*along+dy*across, y-dy*along-dx*across)
	e.Raw("Z")
	e.endPath()
}

// blank draws a cap: a thick bar across the end of the tube.
func (e *elevation) blank(end route.End) {
	half := e.thick(end.Half.Tube.OD)/2 + 3
	dx, dz := end.Dir.X, end.Dir.Z
	n := math.Hypot(dx, dz)
	if n < 1e-6 {
		return
	}
	x, y := e.x(end.At.X), e.y(end.At.Z)
	for _, on := range [2]float64{1, 2.5} { // two strokes: thicker than a flange
		sx, sy := x+dx/n*on, y-dz/n*on
		e.canvas.line("flange", sx-dz/n*half, sy-dx/n*half, sx+dz/n*half, sy+dx/n*half)
	}
}

// stroke draws a segment of one bore.
func (e *elevation) stroke(p route.Piece, s route.Segment) {
	e.Raw("<path")
	e.Attr("class", "tube")
	e.numAttr("stroke-width", e.thick(tubeOD(p, s.BoreFrom)))
	e.Raw(` d="M`)
	if s.Radius == 0 {
		e.point(s.From.X, s.From.Z)
		e.point(s.To.X, s.To.Z)
	} else {
		for i := 0; i <= arcSteps; i++ {
			at, _ := s.Point(float64(i) / arcSteps)
			e.point(at.X, at.Z)
		}
	}
	e.Raw(`"/>`)
}

// tubeOD returns the outside diameter that goes with a bore of the piece.
func tubeOD(p route.Piece, bore q.Length) q.Length {
	if p.Out.Bore() == bore {
		return p.Out.Half.Tube.OD
	}
	return p.In.Half.Tube.OD
}

// cone draws the narrowing of a reducer, its flat side where it lies.
func (e *elevation) cone(p route.Piece, s route.Segment) {
	a, b := e.thick(p.In.Half.Tube.OD)/2, e.thick(p.Out.Half.Tube.OD)/2
	x1, y1, x2, y2 := e.x(s.From.X), e.y(s.From.Z), e.x(s.To.X), e.y(s.To.Z)
	// Across the piece as seen from the side, from its own direction: an
	// eccentric one has its ends out of line.
	dx, dy, seen := runs(p)
	if !seen {
		return
	}
	px, py := -dy, dx
	e.path("cone")
	e.Raw("M")
	e.pixel(x1+px*a, y1+py*a)
	e.pixel(x2+px*b, y2+py*b)
	e.pixel(x2-px*b, y2-py*b)
	e.pixel(x1-px*a, y1-py*a)
	e.Raw("Z")
	e.endPath()
}

// box draws a device: a frame along its middle, half as wide again as its tube.
func (e *elevation) box(p route.Piece) {
	ax, ay, bx, by := e.x(p.In.At.X), e.y(p.In.At.Z), e.x(p.Out.At.X), e.y(p.Out.At.Z)
	n := math.Hypot(bx-ax, by-ay)
	if n < 1e-6 {
		return
	}
	r := (e.thick(p.In.Half.Tube.OD)/2 + 3) / n
	px, py := -(by-ay)*r, (bx-ax)*r
	dx, dy := (bx-ax)*0.2, (by-ay)*0.2
	e.path("bow")
	e.Raw("M")
	e.pixel(ax+dx+px, ay+dy+py)
	e.pixel(bx-dx+px, by-dy+py)
	e.pixel(bx-dx-px, by-dy-py)
	e.pixel(ax+dx-px, ay+dy-py)
	e.Raw("Z")
	e.endPath()
}

// valve draws a bow tie across the middle of a valve, and on it what tells its
// kind: a dot for the disc of a butterfly valve, a ring for a seat, a dome for
// a diaphragm, a bar downstream for a valve that opens one way.
func (e *elevation) valve(p route.Piece) {
	at := middle(p)
	dx, dy, seen := runs(p)
	if !seen {
		return
	}
	x, y := e.x(at.X), e.y(at.Z)
	r := e.thick(p.In.Half.Tube.OD)/2 + 3
	e.bow(x, y, dx, dy, r)
	switch p.Kind {
	case design.Butterfly:
		e.circle("disc", x, y, 2)
	case design.Seat:
		e.circle("bow", x, y, 3.5)
	case design.Diaphragm:
		e.path("bow")
		e.Raw("M")
		e.pixel(x-dx*r+dy*r, y-dy*r-dx*r)
		e.Raw("Q")
		e.pixel(x+dy*r*2.2, y-dx*r*2.2)
		e.pixel(x+dx*r+dy*r, y+dy*r-dx*r)
		e.endPath()
	case design.NonReturn:
		e.canvas.line("flange", x+dx*(r+2)-dy*r, y+dy*(r+2)+dx*r, x+dx*(r+2)+dy*r, y+dy*(r+2)-dx*r)
	}
}

// bow draws a bow tie of half-length r about a point, along dx, dy.
func (c *canvas) bow(x, y, dx, dy, r float64) {
	c.path("bow")
	c.Raw("M")
	c.pixel(x-dx*r-dy*r, y-dy*r+dx*r)
	c.pixel(x+dx*r+dy*r, y+dy*r-dx*r)
	c.pixel(x+dx*r-dy*r, y+dy*r+dx*r)
	c.pixel(x-dx*r+dy*r, y-dy*r-dx*r)
	c.Raw("Z")
	c.endPath()
}

// says tells what a piece is, how fast the liquid runs in it, and what is
// gravest about it.
func (e *elevation) says(p route.Piece) string {
	s := strconv.Itoa(p.Number) + ": " + p.Label
	for i := range e.report.Pieces {
		if row := &e.report.Pieces[i]; row.Ref == p.Ref && row.Velocity != nil {
			s += ", " + row.Velocity.String()
		}
	}
	for _, v := range e.report.About(p.Ref) {
		if v.Level > finding.Sound {
			return s + ". " + v.Sentence
		}
	}
	return s
}
