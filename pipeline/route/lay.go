package route

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// Lay resolves and places d, which must be filled and free of faults, with
// its outlet face at height over the floor (a side outlet: its centre).
// Straights to be made to fit get the lengths, not under zero, that bring the
// line nearest to its target; where several do, they share evenly. A hose to
// be made to fit is drawn straight to the target, as far as it reaches.
//
// Where a size or an end is not in the catalogue, which is a fault, the size
// before it or a plain end stands in.
func Lay(d design.Design, height q.Length) Layout {
	u := len(d.Under)
	r := u + len(d.Run)
	n := r + len(d.Delivery.Pieces)
	all := make([]Piece, n)
	l := Layout{
		Outlet:   outlet(&d.Tank, height),
		Under:    all[:u:u],
		Run:      all[u:r:r],
		Delivery: all[r:],
		Gravity:  d.Pump.Kind == "none",
		all:      all,
	}
	w := walk{
		measured:  d.Measured,
		seal:      d.Seal,
		junctions: make([]Junction, 0, n+1),
		segments:  make([]Segment, 0, 3*n),
		dims:      make([]catalog.Dimension, 0, 3*n),
		parts:     make([]catalog.Part, 0, n),
	}

	w.start(&l.Outlet)
	w.through("under.", d.Under, l.Under)
	w.through("run.", d.Run, l.Run)
	if !l.Gravity {
		l.PumpIn = pumpInlet(&d.Pump, w.half.Tube)
		l.Suction = w.meetPump(all[:r], &l.PumpIn, d.Pump.Seal)
		l.PumpOut = pumpOutlet(&d.Pump, &l.PumpIn)
		w.start(&l.PumpOut)
	}
	line := all
	if !l.Gravity {
		line = l.Delivery
	}
	w.through("delivery.pieces.", d.Delivery.Pieces, l.Delivery)
	l.outflow = outflow(&d.Delivery)
	l.Discharge = w.finish(line, l.outflow)
	l.Junctions = w.junctions
	return l
}

// outlet returns the tank's outlet: in the middle of the bottom looking down,
// or in the shell looking towards the pump, and down as much as it falls.
func outlet(t *design.Tank, height q.Length) End {
	end := End{At: Vec{Z: float64(height)}, Dir: Vec{Z: -1}}
	if t.Outlet.Place == "side" {
		end.At.X = float64(t.Bore.Value()/2 + t.Outlet.Stub.Value())
		sin, cos := math.Sincos(math.Atan(float64(t.Outlet.Fall.Value())))
		end.Dir = Vec{X: cos, Z: -sin}
	}
	tube, _ := catalog.FindTube(t.Outlet.Size)
	end.Half = half(t.Outlet.End, tube)
	return end
}

// pumpInlet returns the pump's inlet, its Dir along the flow into it. before
// is the tube it takes when it names none.
func pumpInlet(p *design.Pump, before catalog.Tube) End {
	sin, cos := math.Sincos(float64(p.Faces.Value()))
	return End{
		At:   Vec{float64(p.Away.Value()), float64(p.Aside.Value()), float64(p.Height.Value())},
		Dir:  tidy(Vec{X: cos, Y: sin}),
		Half: half(p.InEnd, tubeOr(p.InSize, before)),
	}
}

// pumpOutlet returns the pump's outlet, which points up.
func pumpOutlet(p *design.Pump, in *End) End {
	end := p.OutEnd
	if end == "" {
		end = p.InEnd
	}
	return End{
		At:   in.At.Add(in.Dir.Scale(float64(p.OutAhead.Value()))).Add(Vec{Z: float64(p.OutUp.Value())}),
		Dir:  Vec{Z: 1},
		Half: half(end, tubeOr(p.OutSize, in.Half.Tube)),
	}
}

// target is where the end of a line should come to.
type target struct {
	at   Vec
	held Vec // 1 for each coordinate that counts, 0 for each that is free
	dir  Vec // along the flow; zero where any will do
}

// outflow returns the target of a delivery: its height, and its distance from
// the tank's axis and to the side where they are given.
func outflow(d *design.Delivery) target {
	t := target{at: Vec{X: float64(d.Away.Value()), Y: float64(d.Aside.Value()), Z: float64(d.Height.Value())}}
	if !d.Away.IsZero() {
		t.held.X = 1
	}
	if !d.Aside.IsZero() {
		t.held.Y = 1
	}
	if !d.Height.IsZero() {
		t.held.Z = 1
	}
	return t
}

// miss returns the way from at to the target, in the coordinates that count.
func (t target) miss(at Vec) Vec { return t.only(t.at.Sub(at)) }

// only returns v in the coordinates that count.
func (t target) only(v Vec) Vec {
	if t.held.X == 0 {
		v.X = 0
	}
	if t.held.Y == 0 {
		v.Y = 0
	}
	if t.held.Z == 0 {
		v.Z = 0
	}
	return v
}

// gap returns how far a line that ends with end misses the target.
func (t target) gap(end *End) Gap {
	by := t.miss(end.At)
	return Gap{By: by, Distance: q.Length(by.Len()), Turn: end.Dir.Angle(t.dir)}
}

func tubeOr(slug string, before catalog.Tube) catalog.Tube {
	if slug == "" {
		return before
	}
	if t, ok := catalog.FindTube(slug); ok {
		return t
	}
	return before
}

func half(end string, t catalog.Tube) *catalog.Half {
	if h, ok := catalog.FindHalf(end, t); ok {
		return h
	}
	if h, ok := catalog.FindHalf(design.Weld, t); ok {
		return h
	}
	return &catalog.Half{Tube: t}
}
