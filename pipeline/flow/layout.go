package flow

import (
	"math"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Where a line starts and ends, as refs of elements that are no piece.
const (
	refTank     = "tank"
	refPump     = "pump"
	refDelivery = "delivery"
)

// lines returns the line from the tank to the pump and the one from the pump
// to the outflow. By gravity the first is the whole line and the second is empty.
//
// The stub of the tank, a few centimetres welded to it, is taken as part of
// its entrance; a hose is taken to lie in wide curves; valves stand fully open.
func (in *Input) lines() (suction, delivery Line) {
	l := &in.Layout
	suction = make(Line, 0, len(l.Under)+len(l.Run)+len(l.Delivery)+2)
	suction = append(suction, Element{Ref: refTank, Name: "tank outlet", Bore: l.Outlet.Bore(), Loss: Entrance(in.Cone)})
	suction = appendPieces(suction, l.Under)
	suction = appendPieces(suction, l.Run)
	if l.Gravity {
		suction = appendPieces(suction, l.Delivery)
		return append(suction, outflow(l, l.Outlet.Bore())), nil
	}
	delivery = make(Line, 0, len(l.Delivery)+1)
	delivery = appendPieces(delivery, l.Delivery)
	return suction, append(delivery, outflow(l, l.PumpOut.Bore()))
}

// outflow returns the end of the line, whose bore is start where it has no pieces.
func outflow(l *route.Layout, start q.Length) Element {
	bore := start
	last := l.Delivery
	if l.Gravity && len(last) == 0 {
		if last = l.Run; len(last) == 0 {
			last = l.Under
		}
	}
	if n := len(last); n > 0 {
		bore = last[n-1].Out.Bore()
	}
	return Element{Ref: refDelivery, Name: "outflow", Bore: bore, Loss: Exit()}
}

func appendPieces(line Line, pieces []route.Piece) Line {
	for i := range pieces {
		line = append(line, elementOf(&pieces[i]))
	}
	return line
}

// elementOf returns p as an element.
func elementOf(p *route.Piece) Element {
	bore := p.In.Bore()
	e := Element{Ref: p.Ref, Name: p.Label, Bore: bore, Roughness: TubeRoughness}
	switch p.Kind {
	case design.Straight:
		e.Length = p.Length
	case design.Hose:
		e.Length, e.Roughness = p.Length, HoseRoughness
	case design.Bend:
		e.Length = tangents(p)
		e.Loss = Bend(p.Turned, float64(p.Radius/bore), bore)
	case design.Reducer:
		to := p.Out.Bore()
		e.Bore = min(bore, to)
		e.Loss = Reducer(bore, to, Included(bore, to, p.Length))
	case design.Tee:
		e.Loss = TeeRun(bore)
		// Through the run both ends face one way; round the corner they do not.
		if p.In.Dir.Dot(p.Out.Dir) < math.Sqrt2/2 {
			e.Loss = TeeBranch(bore)
		}
	case design.Butterfly:
		e.Loss = ButterflyValve(bore)
	case design.Ball:
		e.Loss = BallValve(bore)
	}
	return e
}

// tangents returns the length of p's centreline that is straight.
func tangents(p *route.Piece) q.Length {
	sum := q.Length(0)
	for i := range p.Path {
		if p.Path[i].Radius == 0 {
			sum += p.Path[i].Length
		}
	}
	return sum
}

// highest returns the highest point of the centreline of l's pieces up to the
// pump (by gravity: of all), and the ref of the piece it is in.
func highest(l *route.Layout) (q.Length, string) {
	top, ref := q.Length(l.Outlet.At.Z), refTank
	parts := [...][]route.Piece{l.Under, l.Run, l.Delivery}
	if !l.Gravity {
		parts[2] = nil
	}
	for _, pieces := range parts {
		for i := range pieces {
			for _, z := range [...]float64{pieces[i].In.At.Z, pieces[i].Out.At.Z} {
				if q.Length(z) > top {
					top, ref = q.Length(z), pieces[i].Ref
				}
			}
		}
	}
	return top, ref
}
