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
// The flow that they are reckoned at is the pump's; by gravity, what leaves
// the tank. Where a tee draws off or joins a share of it, the pieces on the
// far side carry the rest. A hose is taken to lie in wide curves.
func (in *Input) lines() (suction, delivery Line) {
	l := &in.Layout
	w := walk{in: in, bore: l.Outlet.Bore(), share: 1}
	w.line = make(Line, 0, len(l.Under)+len(l.Run)+len(l.Delivery)+2)
	w.add(Element{
		Ref: refTank, Name: "tank outlet", Bore: w.bore,
		Length: in.Stub, Roughness: in.rough(), Loss: Entrance(in.Cone),
	})
	w.pieces(l.Under)
	w.pieces(l.Run)
	if l.Gravity {
		w.pieces(l.Delivery)
		w.outflow()
		return w.line, nil
	}
	w.step(l.PumpIn.Bore())
	if w.share != 1 {
		// All before the pump is told as parts of the tank's flow so far.
		for i := range w.line {
			w.line[i].Share /= w.share
		}
	}
	suction = w.line

	w = walk{in: in, bore: l.PumpOut.Bore(), share: 1, line: make(Line, 0, len(l.Delivery)+1)}
	w.pieces(l.Delivery)
	w.outflow()
	return suction, w.line
}

// walk goes along a line with its bore and the share of the flow that is left.
type walk struct {
	in    *Input
	line  Line
	bore  q.Length
	share float64
}

func (w *walk) add(e Element) {
	e.Share = w.share
	w.line = append(w.line, e)
}

// hair is a difference in bore that means nothing.
const hair = q.Length(1e-9)

// step adds what a joint loses whose bores do not match, as a part of the
// piece before it.
func (w *walk) step(to q.Length) {
	n := len(w.line)
	if n == 0 || to == 0 || to-w.bore < hair && w.bore-to < hair {
		return
	}
	w.add(Element{Ref: w.line[n-1].Ref, Name: "step in the bore", Bore: min(w.bore, to), Roughness: w.in.rough(), Loss: Step(w.bore, to)})
}

func (w *walk) pieces(pieces []route.Piece) {
	for i := range pieces {
		p := &pieces[i]
		w.step(p.In.Bore())
		e := w.in.elementOf(p)
		drawn := shareOf(p)
		if drawn < 0 { // what joins makes the whole larger
			w.share /= 1 + drawn
		}
		w.add(e)
		if drawn > 0 {
			w.share *= 1 - drawn
		}
		w.bore = p.Out.Bore()
	}
}

// outflow ends the line in the open.
func (w *walk) outflow() {
	w.add(Element{Ref: refDelivery, Name: "outflow", Bore: w.bore, Loss: Exit()})
}

// shareOf returns the part of the combined flow that leaves at p, minus what joins.
func shareOf(p *route.Piece) float64 {
	if p.Kind != design.Tee || p.Said == nil {
		return 0
	}
	return within(float64(p.Said.Share.Value()), -0.9, 0.9)
}

// rough returns the roughness of every bore of metal.
func (in *Input) rough() q.Length { return Roughness(in.Finish) }

// unsaid stands for a piece of which the design says no more than its kind.
var unsaid = &design.Piece{}

// elementOf returns p as an element.
func (in *Input) elementOf(p *route.Piece) Element {
	bore := p.In.Bore()
	said := p.Said
	if said == nil {
		said = unsaid
	}
	e := Element{Ref: p.Ref, Name: p.Label, Bore: bore, Roughness: in.rough()}
	if e.Drops = in.dropsOf(p.Kind, said); e.Drops != nil {
		e.Bore = min(bore, p.Out.Bore())
		return e
	}
	if !said.Kv.IsZero() && (p.Kind == design.Device || design.IsBody(p.Kind)) {
		e.Loss = FromKv(float64(said.Kv.Value()), bore)
	}
	open := said.Open.Or(90 * q.Degree)
	switch p.Kind {
	case design.Straight:
		e.Length = p.Length
	case design.Hose:
		e.Length, e.Roughness = p.Length, said.Roughness.Or(HoseRoughness)
	case design.Bend:
		e.Length = tangents(p)
		e.Loss = Bend(p.Turned, float64(p.Radius/bore), bore)
	case design.Reducer:
		to := p.Out.Bore()
		e.Bore = min(bore, to)
		e.Loss = Reducer(bore, to, Included(bore, to, coneOf(p)))
	case design.Tee:
		// Through the run both ends face one way; round the corner they do not.
		round := p.In.Dir.Dot(p.Out.Dir) < math.Sqrt2/2
		e.Loss = teeOf(round, shareOf(p), bore)
	case design.Butterfly:
		if said.Kv.IsZero() {
			e.Loss = ButterflyValve(bore, open)
		} else {
			e.Loss = e.Loss.plus(turned(discTurned[:], open))
		}
	case design.Ball:
		if said.Kv.IsZero() {
			e.Loss = BallValve(bore, open)
		} else {
			e.Loss = e.Loss.plus(turned(ballTurned[:], open))
		}
	case design.Seat:
		if said.Kv.IsZero() {
			e.Loss = SeatValve(bore)
		}
	case design.Diaphragm:
		if said.Kv.IsZero() {
			e.Loss = DiaphragmValve(bore)
		}
	case design.NonReturn:
		if said.Kv.IsZero() {
			e.Loss = NonReturnValve(bore)
		}
	case design.SightGlass:
		e.Length = p.Length
	case design.Cross, design.Pocket, design.Cock:
		e.Loss = TeeRun(bore)
	}
	return e
}

// teeOf returns the loss of a tee of which share leaves, or joins where it is under zero.
func teeOf(round bool, share float64, bore q.Length) Fitting {
	switch {
	case share > 0 && round:
		return TeeDrawnRound(share, bore)
	case share > 0:
		return TeeDrawn(share, bore)
	case share < 0 && !round:
		return TeeJoined(-share, bore)
	case round:
		return TeeBranch(bore)
	}
	return TeeRun(bore)
}

// coneOf returns the length of a reducer over which its bore changes: the
// halves welded to its ends are tube, and make its cone no slimmer.
func coneOf(p *route.Piece) q.Length {
	for i := range p.Path {
		if s := &p.Path[i]; s.BoreFrom != s.BoreTo {
			return s.Length
		}
	}
	return p.Length
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

// highest returns the highest point that must be under the liquid for l to
// fill up to the pump (by gravity: all of it), the top of the bore, and the
// ref of the piece it is in.
func highest(l *route.Layout) (q.Length, string) {
	top, ref := l.Outlet.At.Z, refTank
	pieces := l.ToPump()
	for _, at := range route.Profile(pieces) {
		if at.Crown > top {
			top, ref = at.Crown, pieces[at.Piece].Ref
		}
	}
	return q.Length(top), ref
}
