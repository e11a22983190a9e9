package find

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Box is a space that no tube may touch, metres over the floor and from the
// tank's axis.
type Box struct {
	Name     string // as it is called in a sentence: "the wall"
	Min, Max route.Vec
}

// Line is which line of a plant a run is sought for.
type Line int

// The lines. Where there is no pump the line from the tank is the whole way
// to the outflow.
const (
	FromTank Line = iota // from the end of what hangs under the tank to the pump's inlet
	FromPump             // from the pump's outlet to the outflow
)

// Question is what a run is sought for.
type Question struct {
	said   design.Design // as the user has it
	design design.Design // filled, its height typed
	height q.Length
	Title  string

	Line    Line
	gravity bool      // there is no pump
	goOver  bool      // the run is to go higher than its end, which is over its start
	From    route.End // where the run begins
	swivel  int       // index of the bend under the tank that can be turned to any bearing with its union; -1 for none
	axis    route.Vec // it turns about
	To      route.End // where it ends: the pump's inlet, or the outflow
	ending  string    // what the run ends in at an outflow
	outlet  route.Vec // of the tank; the pump's where the run begins there

	Boxes    []Box
	Sizes    []catalog.Tube
	Styles   []string  // of joints at bends: welded, unions, Orbital
	Valve    string    // none, start or end
	Straight *q.Length // least between bends; nil: one diameter
	Longest  q.Length  // piece between unions
	Fall     q.Slope   // of level tube
	Spring   q.Angle   // most that a joint may be sprung
	Room     q.Length  // free round the tube
	Least    q.Slope   // fall under which a line is said not to drain
}

// Of makes the question of d, which r is the report on, for one of its lines.
// Why says in a sentence what is missing, "" when nothing is.
func Of(d design.Design, r pipeline.Report, line Line) (qu Question, why string) {
	if len(r.Faults) > 0 {
		return qu, "The design has faults: mend these first."
	}
	f := d.Filled()
	f.Stand.Height = length(r.Scene.Outlet)
	qu = Question{
		said: d, design: f, height: f.Stand.Height.Value(), Title: d.Title, swivel: -1,
		Line: line, gravity: f.Pump.Kind == design.NoPump,
		Valve: f.Finder.Valve, Longest: f.Finder.Longest.Value(), Fall: f.Finder.Fall.Value(),
		Spring: f.Limits.Spring.Value(), Room: f.Finder.Room.Value(), Least: f.Limits.Fall.Value(),
		Styles: []string{"welded", "unions"},
	}
	if qu.gravity && line == FromPump {
		return qu, "There is no pump that a run could begin at: the one from the tank goes all the way to the outflow."
	}
	if qu.toOutflow() {
		if why = qu.outflow(r.Scene.Layout); why != "" {
			return qu, why
		}
	}
	qu.put(&qu.design, nil)
	if f.Finder.Joints != "" {
		qu.Styles = []string{f.Finder.Joints}
	}
	if !f.Finder.Straight.IsZero() {
		qu.Straight = new(f.Finder.Straight.Value())
	}
	qu.place()
	first := f.Finder.Size
	if qu.toOutflow() && d.Finder.Size == "" {
		first = qu.From.Half.Tube.Slug
	}
	for _, slug := range []string{first, f.Finder.Other} {
		if t, ok := catalog.FindTube(slug); ok {
			qu.Sizes = append(qu.Sizes, t)
		}
	}
	qu.boxes(r)
	return qu, ""
}

// toOutflow reports whether the run ends at the outflow, not at a pump.
func (qu *Question) toOutflow() bool { return qu.gravity || qu.Line == FromPump }

// far is what the run leads to, in words.
func (qu *Question) far() string {
	if qu.toOutflow() {
		return "the outflow"
	}
	return "the pump"
}

// put makes pieces the run of d. By gravity that goes all the way.
func (qu *Question) put(d *design.Design, pieces []design.Piece) {
	if qu.Line == FromPump {
		d.Delivery.Pieces = pieces
		return
	}
	if d.Run = pieces; qu.gravity {
		d.Delivery.Pieces = nil
	}
}

// own returns the run's pieces as they are laid.
func (l Line) own(laid route.Layout) []route.Piece {
	if l == FromPump {
		return laid.Delivery
	}
	return laid.Run
}

// path is where the run's pieces are in a design.
func (l Line) path() string {
	if l == FromPump {
		return "delivery.pieces."
	}
	return "run."
}

// gap is by how much a line as it is laid misses what the run leads to.
func (qu *Question) gap(l route.Layout) route.Gap {
	if qu.toOutflow() {
		return l.Discharge
	}
	return l.Suction
}

// outflow finds where the liquid is to come out and which way the line runs
// there, and writes it down: what the user does not say is taken from the line
// that is there.
func (qu *Question) outflow(l route.Layout) (why string) {
	d := &qu.design
	there := l.Delivery
	if qu.gravity {
		there = l.Pieces()[len(l.Under):]
	}
	at, dir := route.Vec{Y: l.PumpOut.At.Y}, route.Vec{Z: -1}
	qu.ending = design.Weld
	if n := len(there); n > 0 {
		at, dir = there[n-1].Out.At, there[n-1].Out.Dir
		qu.ending = there[n-1].Out.Half.End()
	} else if d.Delivery.Away.IsZero() || d.Delivery.Height.IsZero() {
		return "Say where the outflow is, its height and how far from the tank's axis, under “Delivery”: a run is found to there."
	}
	keep := func(said *q.Entered[q.Length], c *float64) {
		if said.IsZero() {
			*said = length(q.Length(*c))
		}
		*c = float64(said.Value())
	}
	keep(&d.Delivery.Away, &at.X)
	keep(&d.Delivery.Aside, &at.Y)
	keep(&d.Delivery.Height, &at.Z)
	level := !route.Steep(dir)
	switch d.Finder.Enters {
	case "above":
		level = false
	case "side":
		level = true
	}
	plan := route.Vec{X: dir.X, Y: dir.Y}
	if faces := d.Finder.Faces; !faces.IsZero() || plan.Len() < same {
		sin, cos := math.Sincos(float64(faces.Value()))
		plan = route.Vec{X: cos, Y: sin}
	}
	dir = route.Vec{Z: -1}
	if level {
		dir = plan.Unit()
	}
	qu.To = route.End{At: at, Dir: dir}
	return ""
}

// place finds the two ends at the question's height.
func (qu *Question) place() {
	l := route.Lay(qu.design, qu.height)
	if !qu.toOutflow() {
		qu.To = l.PumpIn
	}
	qu.swivel = -1
	if qu.Line == FromPump {
		qu.From, qu.outlet = l.PumpOut, l.PumpOut.At
		return
	}
	qu.From, qu.outlet = l.Outlet, l.Outlet.At
	if n := len(l.Under); n > 0 {
		qu.From = l.Under[n-1].Out
	}
	if route.Steep(qu.From.Dir) {
		return
	}
	// The last bend that leaves an upright line may be turned, with all that
	// follows it, where a union stands in that upright line.
	for i := len(l.Under) - 1; i >= 0; i-- {
		p := &l.Under[i]
		if p.Kind != design.Bend || !route.Steep(p.In.Dir) {
			continue
		}
		for k := i; k >= 0 && route.Steep(l.Under[k].In.Dir); k-- {
			if !l.Under[k].In.Half.Plain() {
				qu.swivel, qu.axis = i, p.In.At
				return
			}
		}
		return
	}
}

// theTank is what its box is called.
const theTank = "the tank"

// bucketWide is how wide a bucket is taken to be, over its height. A working
// assumption: a bucket is about as wide as it is high.
const bucketWide = 1.0

// boxes are what the user marked, and what stands there anyway: the tank, the
// bucket under it and the pump. The floor is kept by the search itself.
func (qu *Question) boxes(r pipeline.Report) {
	for i, k := range qu.design.KeepOuts {
		at := route.Vec{X: float64(k.Away.Value()), Y: float64(k.Aside.Value()), Z: float64(k.Above.Value())}
		by := route.Vec{X: float64(k.Long.Value()), Y: float64(k.Wide.Value()), Z: float64(k.High.Value())}
		name := k.Name
		if name == "" {
			name = "keep-out " + q.Text(q.Number(i+1))
		}
		qu.Boxes = append(qu.Boxes, Box{name, at, at.Add(by)})
	}
	qu.tank(r.Scene)
	if b := float64(r.Scene.Bucket); b > 0 {
		w := b * bucketWide / 2
		qu.Boxes = append(qu.Boxes, Box{"the bucket", route.Vec{X: -w, Y: -w}, route.Vec{X: w, Y: w, Z: b - float64(qu.Room)}}) // what is free over it is the stand's question
	}
	switch {
	case qu.Line == FromPump:
		qu.lines("the line to the pump", r.Scene.Layout.ToPump())
		qu.pump(r.Scene.Layout.PumpIn)
	case !qu.gravity:
		qu.lines("the delivery", r.Scene.Layout.Delivery)
	}
}

// tank adds the tank, as the box about it. Where the run begins at its side the
// box ends short of that.
func (qu *Question) tank(s pipeline.Scene) {
	bore, foot := float64(s.Vessel.Bore)/2, float64(s.TankFoot)
	b := Box{theTank, route.Vec{X: -bore, Y: -bore, Z: foot}, route.Vec{X: bore, Y: bore, Z: foot + float64(s.Vessel.BottomDepth()+s.Vessel.Straight)}}
	free := float64(qu.From.Half.Tube.OD)/2 + float64(qu.Room) + same
	if b.away(qu.From.At) < free {
		b.Max.X = min(b.Max.X, qu.From.At.X-free)
	}
	if b.away(qu.From.At) >= free-2*same && b.Max.X > b.Min.X {
		qu.Boxes = append(qu.Boxes, b)
	}
}

// pump adds the pump that a run begins at, as far as it is under its outlet.
func (qu *Question) pump(in route.End) {
	top := min(in.At.Z+pumpHigh, qu.From.At.Z-float64(qu.From.Half.Tube.OD)/2-float64(qu.Room)-same)
	if top <= 0 {
		return
	}
	aside := route.Vec{Z: 1}.Cross(in.Dir).Scale(pumpWide / 2)
	b := Box{"the pump", in.At, in.At}
	for _, c := range [4]route.Vec{aside, aside.Scale(-1), in.Dir.Scale(pumpLong).Add(aside), in.Dir.Scale(pumpLong).Sub(aside)} {
		c = in.At.Add(c)
		b.Min = route.Vec{X: min(b.Min.X, c.X), Y: min(b.Min.Y, c.Y)}
		b.Max = route.Vec{X: max(b.Max.X, c.X), Y: max(b.Max.Y, c.Y), Z: top}
	}
	qu.Boxes = append(qu.Boxes, b)
}

// overPump is how far from a pump's inlet, in plan, the pieces of the delivery
// stand over the pump.
const overPump = 0.1

// lines adds the pieces of the plant's other line, which this one must go
// round, each as the box about it.
func (qu *Question) lines(name string, pieces []route.Piece) {
	for i := range pieces {
		p := &pieces[i]
		r := float64(max(p.In.Half.Tube.OD, p.Out.Half.Tube.OD)) / 2
		b := Box{name, p.In.At, p.In.At}
		for _, s := range p.Path {
			for t := range 9 {
				at, _ := s.Point(float64(t) / 8)
				b.Min = route.Vec{X: min(b.Min.X, at.X), Y: min(b.Min.Y, at.Y), Z: min(b.Min.Z, at.Z)}
				b.Max = route.Vec{X: max(b.Max.X, at.X), Y: max(b.Max.Y, at.Y), Z: max(b.Max.Z, at.Z)}
			}
		}
		by := route.Vec{X: r, Y: r, Z: r}
		b.Min, b.Max = b.Min.Sub(by), b.Max.Add(by)
		// What stands over the end of this one is joined to the same pump, and
		// the pump itself keeps a run from there.
		to := route.Vec{X: qu.To.At.X, Y: qu.To.At.Y, Z: b.Min.Z}
		if b.away(qu.From.At) > r && (qu.Line == FromPump || b.away(to) > overPump) {
			qu.Boxes = append(qu.Boxes, b)
		}
	}
}

// length is a length as it is typed, to a thousandth of a millimetre.
func length(l q.Length) q.Entered[q.Length] {
	return q.MustParse[q.Length](decimal(float64(l)*1000, 3) + " mm")
}

// degrees is an angle as it is typed: a hundred-thousandth of a degree is
// less than a micrometre in a metre.
func degrees(a q.Angle) q.Entered[q.Angle] {
	d := math.Mod(a.Degrees(), 360)
	if d > 360-5e-6 || d < 5e-6 {
		d = 0
	}
	return q.MustParse[q.Angle](decimal(d, 5) + "°")
}

// slope is a fall as it is typed: 1:80.
func slope(s float64) q.Entered[q.Slope] {
	sign := ""
	if s < 0 {
		sign, s = "-", -s
	}
	return q.MustParse[q.Slope](sign + "1:" + decimal(1/s, 4))
}
