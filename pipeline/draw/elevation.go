package draw

import (
	"math"

	"drawoff/pipeline"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/stand"
	"drawoff/pipeline/vessel"
)

// Margins around the plant, pixels: room for the heights on either side, for
// a line of words over it and for the dimension under the floor.
const (
	marginTop    = 34.0
	marginBottom = 52.0
	tallest      = 640.0
)

// marginSide holds a height with its line: 1150 mm, or 69 15/16 in.
func marginSide() float64 {
	if q.InInches() {
		return 96
	}
	return 80
}

// Elevation draws the plant from the side, the tank on the left and the pump
// to the right of it, zoom times as large as fits a screen width pixels wide.
// Its grips are for dragging: each names a field of the design, and where it is.
func Elevation(r pipeline.Report, width int, zoom float64) string {
	s := r.Scene
	e := elevation{Scene: s, report: r, profile: s.Vessel.Profile()}
	zoom = max(1, zoom)
	e.fit(max(float64(width), 280)*zoom, tallest*zoom)

	e.Raw("<svg")
	e.Attr("class", "elevation")
	e.Attr("viewBox", "0 0 "+decimal(e.width)+" "+decimal(e.height))
	e.numAttr("width", e.width)
	e.numAttr("height", e.height)
	e.numAttr("data-scale", e.scale)
	e.Attr("role", "group")
	e.Attr("aria-labelledby", "elevation-title elevation-desc")
	e.Raw(`><title id="elevation-title">Side view of the plant</title><desc id="elevation-desc">`)
	e.Text(e.describe())
	e.Raw("</desc>")
	e.floor()
	e.stand()
	e.tank()
	e.bucket()
	e.dimensions()
	e.grips() // below the pieces: where both lie it is the piece that is meant
	e.line(s.Layout.Delivery)
	e.pump()
	e.line(s.Layout.Under)
	e.line(s.Layout.Run)
	e.outflow()
	e.keepOuts()
	e.balloons()
	e.Close("svg")
	return e.String()
}

type elevation struct {
	canvas
	pipeline.Scene
	report        pipeline.Report
	profile       []vessel.Point // the inside of the tank, from its lowest point to the brim
	width, height float64
	right         float64   // world extent of the plant
	fixed         []balloon // words that numbers keep clear of
	turns         []q.Angle // of the legs, once they are asked for
}

func (e *elevation) legTurns() []q.Angle {
	if e.turns == nil {
		e.turns = e.Stand.LegTurns()
	}
	return e.turns
}

// fit finds the scale at which the whole plant fits into width pixels and is
// no more than tallest high.
func (e *elevation) fit(width, tallest float64) {
	radius := float64(e.Vessel.Bore) / 2
	left, right := -radius, radius
	top := max(e.brim(), float64(e.Delivery), float64(e.LegTop), float64(e.Bucket))
	under := 0.0 // what would lie under the floor is drawn there: a verdict says so
	reach := func(v route.Vec) {
		left, right, top, under = min(left, v.X), max(right, v.X), max(top, v.Z), min(under, v.Z)
	}
	_, feet := e.Stand.LegsAt()
	reach(route.Vec{X: float64(feet)})
	reach(route.Vec{X: -float64(feet)})
	reach(e.Layout.Outlet.At)
	reach(route.Vec{Z: float64(e.TankFoot)})
	// A small plant is drawn large, and its tube as wide: what is drawn of a
	// piece reaches half its width beyond the middle of its bore.
	around := func(at route.Vec, od q.Length) {
		half := float64(od) / 2
		reach(route.Vec{X: at.X - half, Z: at.Z - half})
		reach(route.Vec{X: at.X + half, Z: at.Z + half})
	}
	for _, p := range e.Layout.Pieces() {
		around(p.In.At, p.In.Half.Tube.OD)
		around(p.Out.At, p.Out.Half.Tube.OD)
		for k := range p.Path {
			s := &p.Path[k]
			at, _ := s.Point(0.5)
			around(at, p.In.Half.Tube.OD)
			if t, ok := s.Level(); ok {
				at, _ = s.Point(t)
				around(at, p.In.Half.Tube.OD)
			}
		}
		for _, port := range p.Ports() {
			if port.End != nil {
				around(port.End.At, port.Half.Tube.OD)
			}
		}
	}
	if !e.Layout.Gravity {
		reach(e.Layout.PumpIn.At)
		reach(e.Layout.PumpOut.At)
		right = max(right, e.Layout.PumpIn.At.X+pumpLength)
	}
	if e.Ceiling > 0 {
		top = max(top, float64(e.Ceiling))
	}
	side := marginSide()
	if len(e.doubt()) > len("± 48 mm") && !q.InInches() {
		side += 8
	}
	inner := width - 2*side
	e.scale = min(inner/(right-left), (tallest-marginTop-marginBottom)/(top-under))
	// A tall plant leaves room at the sides: share it.
	e.left = left - (side+(inner-(right-left)*e.scale)/2)/e.scale
	e.right = right
	e.width = width
	e.height = math.Ceil((top-under)*e.scale + marginTop + marginBottom)
	e.bottom = e.height - marginBottom + under*e.scale
}

const pumpLength = 0.34 // metres, for the look of it

func (e *elevation) brim() float64 {
	return float64(e.TankFoot + e.Vessel.BottomDepth() + e.Vessel.Straight)
}

// leftmost is where the tank or a leg ends to the left, pixels.
func (e *elevation) leftmost() float64 {
	reach := float64(e.Vessel.Bore) / 2
	top, floor := e.Stand.LegsAt()
	for _, turn := range e.legTurns() {
		reach = max(reach, -math.Cos(float64(turn))*float64(max(top, floor)))
	}
	return e.x(-reach)
}

// describe tells the drawing to somebody who cannot see it.
func (e *elevation) describe() string {
	d := "The tank's outlet is " + q.Text(e.Outlet) + " over the floor."
	if !e.Layout.Gravity {
		d += " The pump inlet is " + q.Text(q.Length(e.Layout.PumpIn.At.X)) + " from the tank's axis and " +
			q.Text(q.Length(e.Layout.PumpIn.At.Z)) + " over the floor."
	}
	if e.Stand.Legs > 0 {
		d += " Its legs stand at " + stand.Degrees(e.legTurns()) + ", " + e.Stand.Way() + "."
	}
	return d + " The liquid leaves at " + q.Text(e.Delivery) + ". The table of pieces lists what lies between."
}

func (e *elevation) floor() {
	y := e.y(0)
	e.Raw(`<g class="floor" aria-hidden="true">`)
	e.canvas.line("ground", 4, y, e.width-4, y)
	var hatch []segment
	for x := 10.0; x < e.width-4; x += 14 {
		hatch = append(hatch, segment{x, y, x - 6, y + 6})
	}
	e.strokes("hatch", hatch...)
	if e.Ceiling > 0 {
		c := e.y(float64(e.Ceiling))
		e.canvas.line("ceiling", 4, c, e.width-4, c)
		e.words("small", "end", e.width-6, c-4, "ceiling "+q.Text(e.Ceiling))
	}
	e.Close("g")
}

// stand draws the legs as seen from the side, turned about the axis as
// stand.LegTurns has them. All lie behind the line, which is what is looked for.
func (e *elevation) stand() {
	t, f := e.Stand.LegsAt()
	const half = 3 // pixels
	e.Raw(`<g class="stand" aria-hidden="true">`)
	for _, turn := range e.legTurns() {
		side := math.Cos(float64(turn))
		z := float64(e.LegTop)
		head, foot := e.x(side*float64(t)), e.x(side*float64(f))
		e.path("leg")
		e.Raw("M")
		e.pixel(head-half, e.y(z))
		e.pixel(head+half, e.y(z))
		e.pixel(foot+half, e.y(0))
		e.pixel(foot-half, e.y(0))
		e.Raw("Z")
		e.endPath()
	}
	e.Close("g")
}

func (e *elevation) tank() {
	e.Raw(`<g class="tank" data-ref="tank">`)
	// The liquid: the outline cut off at the full level.
	full := float64(e.Levels[0].Height)
	e.path("liquid")
	e.outline(full)
	e.Raw("Z")
	e.endPath()
	e.path("shell")
	e.outline(math.Inf(1))
	e.endPath()
	for _, l := range e.Levels {
		z := float64(l.Height)
		w := e.widthAt(z)
		e.canvas.line("surface", e.x(-w), e.y(z), e.x(w), e.y(z))
		switch {
		case w*e.scale > textSize*2:
			if e.named(l) {
				e.words("small", "middle", e.x(0), e.y(z)-4, l.Name)
			}
		case e.y(z) > e.y(full)+40: // no room between the walls
			e.words("small", "start", e.x(w)+12, e.y(z)+4, l.Name)
			e.fixed = append(e.fixed, balloon{fixed: true, bx: e.x(w) + 30, by: e.y(z)})
		}
	}
	if e.Layout.Outlet.Dir.Z < -0.5 { // the stub under a bottom outlet
		o := e.Layout.Outlet
		e.tube(o.Half.Tube.OD, e.x(o.At.X), e.y(float64(e.TankFoot)), e.x(o.At.X), e.y(o.At.Z))
		e.flange(o)
	} else {
		o := e.Layout.Outlet
		e.tube(o.Half.Tube.OD, e.x(float64(e.Vessel.Bore)/2), e.y(o.At.Z), e.x(o.At.X), e.y(o.At.Z))
		e.flange(o)
	}
	e.Close("g")
}

// named reports whether there is room for the name of level l: the highest has
// its own, then the lowest has, then what lies between.
func (e *elevation) named(l flow.Level) bool {
	apart := func(a, b flow.Level) bool {
		return math.Abs(e.y(float64(a.Height))-e.y(float64(b.Height))) >= textSize
	}
	first, last := e.Levels[0], e.Levels[len(e.Levels)-1]
	switch l.Slug {
	case first.Slug:
		return true
	case last.Slug:
		return apart(l, first)
	}
	return apart(l, first) && apart(l, last)
}

// outline walks the inside of the tank from the left at height z or at the
// brim, down and up again on the right.
func (e *elevation) outline(z float64) {
	var half []vessel.Point
	for i, p := range e.profile {
		at := float64(e.TankFoot + p.Z)
		if at >= z && i > 0 {
			w := e.widthAt(z)
			half = append(half, vessel.Point{R: q.Length(w), Z: q.Length(z) - e.TankFoot})
			break
		}
		half = append(half, p)
	}
	e.Raw("M")
	for i := len(half) - 1; i >= 0; i-- {
		e.point(-float64(half[i].R), float64(e.TankFoot+half[i].Z))
	}
	for _, p := range half {
		e.point(float64(p.R), float64(e.TankFoot+p.Z))
	}
}

// widthAt returns the inside radius at height z over the floor.
func (e *elevation) widthAt(z float64) float64 {
	for i := 1; i < len(e.profile); i++ {
		a, b := e.profile[i-1], e.profile[i]
		za, zb := float64(e.TankFoot+a.Z), float64(e.TankFoot+b.Z)
		if z <= zb && zb > za {
			t := max(0, (z-za)/(zb-za))
			return float64(a.R) + t*float64(b.R-a.R)
		}
	}
	return float64(e.Vessel.Bore) / 2
}

// bucket draws what must stand under the stack.
func (e *elevation) bucket() {
	if e.Bucket <= 0 {
		return
	}
	h := float64(e.Bucket)
	x := e.Layout.Outlet.At.X
	e.path("bucket")
	e.Raw("M")
	e.point(x-h*0.48, h)
	e.point(x-h*0.38, 0)
	e.point(x+h*0.38, 0)
	e.point(x+h*0.48, h)
	e.endPath()
}

// tube draws a stretch of tube between two pixels, never thinner than shows.
func (e *elevation) tube(od q.Length, x1, y1, x2, y2 float64) {
	e.Raw("<line")
	e.Attr("class", "tube")
	e.numAttr("x1", x1)
	e.numAttr("y1", y1)
	e.numAttr("x2", x2)
	e.numAttr("y2", y2)
	e.numAttr("stroke-width", e.thick(od))
	e.Raw("/>")
}

func (e *elevation) thick(od q.Length) float64 { return max(3, float64(od)*e.scale) }

// flange draws the union half at an end as a bar across the tube.
func (e *elevation) flange(end route.End) {
	if end.Half.Plain() {
		return
	}
	half := e.thick(end.Half.Tube.OD)/2 + 2.5
	// Across the flow as seen from the side; an end that points at the
	// viewer is seen as a ring.
	dx, dz := end.Dir.X, end.Dir.Z
	n := math.Hypot(dx, dz)
	x, y := e.x(end.At.X), e.y(end.At.Z)
	if n < 0.2 {
		e.circle("flange-ring", x, y, half)
		return
	}
	e.canvas.line("flange", x-dz/n*half, y-dx/n*half, x+dz/n*half, y+dx/n*half)
}

// line draws the pieces of one line.
func (e *elevation) line(pieces []route.Piece) {
	for _, p := range pieces {
		e.piece(p)
	}
}

func (e *elevation) pump() {
	if e.Layout.Gravity {
		return
	}
	in, out := e.Layout.PumpIn, e.Layout.PumpOut
	r := max(10, 0.11*e.scale)
	// The casing sits a little beyond the inlet, on its feet.
	cx := e.x(in.At.X) + in.Dir.X*r*1.2
	cy := e.y(in.At.Z)
	e.Raw(`<g class="pump" data-ref="pump">`)
	e.rect("motor", cx+r*0.7, cy-r*0.62, r*1.7, r*1.24)
	e.canvas.line("pump-foot", cx, cy+r, cx, e.y(0))
	e.canvas.line("pump-foot", cx+r*1.8, cy+r*0.62, cx+r*1.8, e.y(0))
	e.tube(in.Half.Tube.OD, e.x(in.At.X), cy, cx, cy)
	e.tube(out.Half.Tube.OD, e.x(out.At.X), e.y(out.At.Z), e.x(out.At.X), cy)
	e.circle("casing", cx, cy, r)
	e.path("impeller")
	e.Raw("M")
	e.pixel(cx-r*0.45, cy+r*0.4)
	e.Raw("Q")
	e.pixel(cx-r*0.3, cy-r*0.5)
	e.pixel(cx+r*0.5, cy-r*0.35)
	e.endPath()
	e.flange(in)
	e.flange(out)
	e.Close("g")
}

// outflow marks where the liquid comes out.
func (e *elevation) outflow() {
	pieces := e.Layout.Pieces()
	if len(pieces) == 0 {
		return
	}
	end := pieces[len(pieces)-1].Out
	x, y := e.x(end.At.X), e.y(end.At.Z)
	e.path("outflow")
	e.Raw("M")
	e.pixel(x-4, y+6)
	e.pixel(x, y+14)
	e.pixel(x+4, y+6)
	e.endPath()
}

// doubt tells how far the height of the outlet may be out, rounded up to stay
// within the margin of a phone; "" where it is in none.
func (e *elevation) doubt() string {
	f, _ := e.report.Figure("outlet-height")
	if f.Either == nil {
		return ""
	}
	return "± " + q.Text(q.Mm(math.Ceil(f.Either.SI*1000-1e-6)))
}

func (e *elevation) dimensions() {
	d := dimensions{canvas: &e.canvas}
	left := e.leftmost()
	outlet := e.Layout.Outlet.At
	height := []string{q.Text(e.Outlet)}
	if doubt := e.doubt(); doubt != "" {
		height = append(height, doubt)
	}
	d.upright(left-16, 0, float64(e.Outlet), left, e.x(outlet.X), "end", height...)
	d.upright(left-16, float64(e.Outlet), e.brim(), e.x(outlet.X), left, "end", q.Text(q.Length(e.brim())-e.Outlet))
	right := e.x(e.right) + 16
	if !e.Layout.Gravity {
		in := e.Layout.PumpIn.At
		d.upright(right, 0, in.Z, e.x(in.X), e.x(in.X), "start", q.Text(q.Length(in.Z)))
		d.level(e.y(0)+30, 0, in.X, e.y(0), e.y(in.Z), q.Text(q.Length(in.X)))
	}
	pieces := e.Layout.Pieces()
	if len(pieces) > 0 {
		end := pieces[len(pieces)-1].Out.At
		from := 0.0
		if !e.Layout.Gravity {
			from = e.Layout.PumpIn.At.Z
		}
		d.upright(right, from, end.Z, e.x(end.X), e.x(end.X), "start", q.Text(q.Length(end.Z-from)))
	}
	e.Raw(`<g class="dimensions" aria-hidden="true">`)
	d.draw()
	e.Close("g")
}

// balloon is the number of a piece and where it belongs.
type balloon struct {
	number int
	ref    string
	level  finding.Level
	x, y   float64 // of the piece
	bx, by float64 // of the number
	fixed  bool    // it stays where it is, and is none
}

const balloonRadius = 9.0

// balloons numbers the pieces: to the left of what stands, over what lies,
// outside what bends, and pushed apart until none covers another.
func (e *elevation) balloons() {
	level := map[string]finding.Level{}
	for _, p := range e.report.Pieces {
		level[p.Ref] = p.Level
	}
	pieces := e.Layout.Pieces()
	all := make([]balloon, 0, len(pieces)+len(e.fixed)) // room for both: spread moves what stands in it
	for _, p := range pieces {
		mid := middle(p)
		b := balloon{number: p.Number, ref: p.Ref, level: level[p.Ref], x: e.x(mid.X), y: e.y(mid.Z)}
		off := e.thick(p.In.Half.Tube.OD)/2 + 20
		dx, dy := outside(p)
		b.bx, b.by = b.x+dx*off, b.y+dy*off
		all = append(all, b)
	}
	spread(append(all, e.fixed...), e.width, e.height)
	for _, b := range all {
		e.Raw(`<g class="balloon `)
		e.Raw(b.level.String())
		e.Raw(`"`)
		e.Attr("data-ref", b.ref)
		e.Raw(` aria-hidden="true">`)
		e.canvas.line("leader", b.x, b.y, b.bx, b.by)
		e.mark(b)
		e.words("number", "middle", b.bx, b.by+4, decimal(float64(b.number)))
		e.Close("g")
	}
}

// outside returns the direction, in pixels, in which a piece's number stands.
func outside(p route.Piece) (dx, dy float64) {
	for _, s := range p.Path {
		if s.Radius == 0 {
			continue
		}
		mid, _ := s.Point(0.5)
		out := mid.Sub(s.From.Add(s.Toward.Scale(float64(s.Radius))))
		if n := math.Hypot(out.X, out.Z); n > float64(s.Radius)/2 {
			return out.X / n, -out.Z / n
		}
	}
	run := p.Out.At.Sub(p.In.At)
	if math.Abs(run.Z) > math.Abs(run.X) {
		return -1, 0
	}
	return 0, -1
}

// mark draws the ground of a number: round when sound, a triangle to look
// at, a square to stop at.
func (e *elevation) mark(b balloon) {
	r := balloonRadius
	switch b.level {
	case finding.Stop:
		e.rect("ground-mark", b.bx-r, b.by-r, 2*r, 2*r)
	case finding.Look:
		e.path("ground-mark")
		e.Raw("M")
		e.pixel(b.bx, b.by-r*1.35)
		e.pixel(b.bx+r*1.3, b.by+r*0.95)
		e.pixel(b.bx-r*1.3, b.by+r*0.95)
		e.Raw("Z")
		e.endPath()
	default:
		e.circle("ground-mark", b.bx, b.by, r)
	}
}

// spread pushes numbers apart until none covers another, inside the drawing.
// A long line is left after some rounds: its numbers then crowd, but stand.
func spread(all []balloon, width, height float64) {
	const room, rounds = balloonRadius*2 + 5, 40
	for range rounds {
		moved := false
		for i := range all {
			for j := range i {
				a, b := &all[j], &all[i]
				dx, dy := b.bx-a.bx, b.by-a.by
				if dx*dx+dy*dy >= room*room {
					continue
				}
				d := math.Hypot(dx, dy)
				if d < 0.5 { // one on the other: part them upright
					dx, dy, d = 0, 1, 1
				}
				push := (room - d) / 2
				if b.fixed { // a is not: there is one at most
					push *= 2
				} else {
					b.bx, b.by = b.bx+dx/d*push, b.by+dy/d*push
				}
				a.bx, a.by = a.bx-dx/d*push, a.by-dy/d*push
				moved = true
			}
		}
		for i := range all {
			all[i].bx = min(max(all[i].bx, balloonRadius+4), width-balloonRadius-4)
			all[i].by = min(max(all[i].by, balloonRadius+6), height-balloonRadius-4)
		}
		if !moved {
			return
		}
	}
}

// keepOuts draws what a run has to go round, as far as it is in the drawing.
func (e *elevation) keepOuts() {
	within := func(x, most float64) float64 { return min(max(x, 0), most) }
	for _, k := range e.KeepOuts {
		x, y := float64(k.Away.Value()), float64(k.Above.Value())
		left, right := within(e.x(x), e.width), within(e.x(x+float64(k.Long.Value())), e.width)
		top, bottom := within(e.y(y+float64(k.High.Value())), e.height), within(e.y(y), e.height)
		if right > left && bottom > top {
			e.rect("keep-out", left, top, right-left, bottom-top)
			e.words("small", "start", left, max(top, 14)-3, k.Name)
		}
	}
}
