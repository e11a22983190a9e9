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

// Question is what a run is sought for.
type Question struct {
	said   design.Design // as the user has it
	design design.Design // filled, its height typed
	height q.Length
	Title  string

	From   route.End // where the run begins
	swivel int       // index of the bend under the tank that can be turned to any bearing with its union; -1 for none
	axis   route.Vec // it turns about
	To     route.End // the pump's inlet
	outlet route.Vec // of the tank

	Boxes    []Box
	Sizes    []catalog.Tube
	Styles   []string  // of joints at bends: welded, unions
	Valve    string    // none, start or end
	Straight *q.Length // least between bends; nil: one diameter
	Longest  q.Length  // piece between unions
	Fall     q.Slope   // of level tube
	Spring   q.Angle   // most that a joint may be sprung
	Room     q.Length  // free round the tube
	Least    q.Slope   // fall under which a line is said not to drain
}

// Of makes the question of d, which r is the report on: from the end of what
// hangs under the tank to the pump. Why says in a sentence what is missing,
// "" when nothing is.
func Of(d design.Design, r pipeline.Report) (qu Question, why string) {
	if len(r.Faults) > 0 {
		return qu, "The design has faults: mend these first."
	}
	f := d.Filled()
	if f.Pump.Kind == design.NoPump {
		return qu, "There is no pump to reach: a run is found to a pump's inlet only. Lay a line by gravity piece by piece."
	}
	f.Stand.Height = length(r.Scene.Outlet)
	f.Run, f.Delivery.Pieces = nil, nil
	qu = Question{
		said: d, design: f, height: f.Stand.Height.Value(), Title: d.Title, swivel: -1,
		Valve: f.Finder.Valve, Longest: f.Finder.Longest.Value(), Fall: f.Finder.Fall.Value(),
		Spring: f.Limits.Spring.Value(), Room: f.Finder.Room.Value(), Least: f.Limits.Fall.Value(),
		Styles: []string{"welded", "unions"},
	}
	if f.Finder.Joints != "" {
		qu.Styles = []string{f.Finder.Joints}
	}
	if !f.Finder.Straight.IsZero() {
		qu.Straight = new(f.Finder.Straight.Value())
	}
	for _, slug := range []string{f.Finder.Size, f.Finder.Other} {
		if t, ok := catalog.FindTube(slug); ok {
			qu.Sizes = append(qu.Sizes, t)
		}
	}
	qu.place()
	qu.boxes(d, r)
	return qu, ""
}

// place finds the two ends at the question's height.
func (qu *Question) place() {
	l := route.Lay(qu.design, qu.height)
	qu.From, qu.To, qu.outlet = l.Outlet, l.PumpIn, l.Outlet.At
	if n := len(l.Under); n > 0 {
		qu.From = l.Under[n-1].Out
	}
	qu.swivel = -1
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
func (qu *Question) boxes(d design.Design, r pipeline.Report) {
	for i, k := range qu.design.KeepOuts {
		at := route.Vec{X: float64(k.Away.Value()), Y: float64(k.Aside.Value()), Z: float64(k.Above.Value())}
		by := route.Vec{X: float64(k.Long.Value()), Y: float64(k.Wide.Value()), Z: float64(k.High.Value())}
		name := k.Name
		if name == "" {
			name = "keep-out " + q.Text(q.Number(i+1))
		}
		qu.Boxes = append(qu.Boxes, Box{name, at, at.Add(by)})
	}
	bore := float64(r.Scene.Vessel.Bore) / 2
	foot := float64(r.Scene.TankFoot)
	if foot > qu.From.At.Z+float64(qu.From.Half.Tube.OD)/2+float64(qu.Room) {
		qu.Boxes = append(qu.Boxes, Box{theTank, route.Vec{X: -bore, Y: -bore, Z: foot}, route.Vec{X: bore, Y: bore, Z: foot + float64(r.Scene.Vessel.BottomDepth()+r.Scene.Vessel.Straight)}})
	}
	if b := float64(r.Scene.Bucket); b > 0 {
		w := b * bucketWide / 2
		qu.Boxes = append(qu.Boxes, Box{"the bucket", route.Vec{X: -w, Y: -w}, route.Vec{X: w, Y: w, Z: b - float64(qu.Room)}}) // what is free over it is the stand's question
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
