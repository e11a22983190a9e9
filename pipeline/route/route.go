// Package route resolves a design's pieces against the catalogue and places
// them in space: a turtle walks from the tank outlet through every piece to
// the pump inlet, and from the pump outlet to the delivery.
//
// The floor is z = 0; x runs from the tank's axis towards the pump, y to the
// left of that, z up.
package route

import (
	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// Vec is a point or a direction, metres.
type Vec struct{ X, Y, Z float64 }

// End is one end of a placed piece.
type End struct {
	At   Vec           // centre of the face
	Dir  Vec           // unit vector along the flow
	Half *catalog.Half // shared with others of its kind, and not to be changed; nil at the zero End
}

// Bore returns the bore at the end, 0 at the zero End.
func (e End) Bore() q.Length {
	if e.Half == nil {
		return 0
	}
	return e.Half.Tube.Bore()
}

// Segment is a stretch of a piece's centreline: straight where Radius is 0,
// else an arc that starts along Dir and turns towards Toward. Through an
// eccentric reducer To lies off the line along Dir; Length is then along Dir.
type Segment struct {
	From, To Vec
	Dir      Vec // unit, at From
	Toward   Vec // unit, from From to the arc's centre; zero for a straight
	Radius   q.Length
	Angle    q.Angle
	Length   q.Length // along the centreline
	BoreFrom q.Length
	BoreTo   q.Length
}

// Piece is a piece of the design, resolved and placed.
type Piece struct {
	Ref     string // its path in the design, "run.2"
	Number  int    // as on the drawing: 1 is the first under the tank, counted through to the delivery
	Kind    string // design.Straight, ...
	Label   string // "90° bend, 1½ in"
	In, Out End
	Third   *End   // the open port of a tee or cross, or the branch of a pocket or cock, Dir pointing out of it; else nil
	Port    string // what is on that: "cap" or "valve", a cock being a valve
	Fourth  *End   // the port of a cross that is opposite Third; else nil
	Far     string // what is on that: "cap" or "valve"
	Path    []Segment
	Length  q.Length            // along the centreline, ends included
	Cut     q.Length            // straight: tube to cut, after take-outs; else 0
	Fit     bool                // straight or hose: its length is whatever closes the gap
	Parts   []catalog.Part      // what to order for the body of it: not its halves, not loose tube
	Dims    []catalog.Dimension // every catalogue dimension that its length rests on, once for each time it counts
	Spring  q.Angle             // how far the joint before it is sprung to lay it to its fall
	Unlaid  bool                // straight: it runs too steeply to be laid to the fall asked of it, which has no effect
	Turned  q.Angle             // bend: the angle it turns
	Radius  q.Length            // bend: of the centreline
	Said    *design.Piece       // what the design says of it, its usual values filled in; nil where nobody says
}

// Port is an open end of a piece beside the line.
type Port struct {
	*End        // nil where there is none
	On   string // "cap" or "valve"
}

// Ports returns the open ends of p.
func (p *Piece) Ports() [2]Port { return [2]Port{{p.Third, p.Port}, {p.Fourth, p.Far}} }

// Junction is where two ends meet: outlet and first piece, two pieces, last piece and pump.
type Junction struct {
	Ref      string // path of what is downstream: "under.0", "pump"
	Up, Down End
	Seal     string            // as the design says for it; the design's default material when it says nothing
	Prepared bool              // a weld: one of the two ends is turned or expanded to match the other
	Gap      catalog.Dimension // left between the faces when closed; zero where no union closes here
}

// Gap is how far a line misses what it should meet.
type Gap struct {
	By       Vec // from the line's end to its target
	Distance q.Length
	Turn     q.Angle // between the line's end and the way the target faces
}

// Layout is a design resolved and placed.
type Layout struct {
	Outlet    End // the tank's
	Under     []Piece
	Run       []Piece
	Delivery  []Piece
	PumpIn    End // zero when there is no pump
	PumpOut   End
	Junctions []Junction // in flow order
	Suction   Gap        // at the pump inlet; zero when there is no pump
	Discharge Gap        // at the delivery
	Gravity   bool       // no pump: Under, Run and Delivery are one line

	all     []Piece // Under, Run and Delivery, which are parts of it, as Lay made them
	outflow target  // what the delivery should come to
}

// ToPump returns the pieces up to the pump, by gravity all of them, in flow
// order; the slice is not to be changed.
func (l Layout) ToPump() []Piece {
	all := l.Pieces()
	if l.Gravity {
		return all
	}
	return all[:len(l.Under)+len(l.Run)]
}

// Pieces returns every piece in flow order; the slice is not to be changed.
func (l Layout) Pieces() []Piece {
	if l.all != nil {
		return l.all
	}
	all := make([]Piece, 0, len(l.Under)+len(l.Run)+len(l.Delivery))
	all = append(all, l.Under...)
	all = append(all, l.Run...)
	return append(all, l.Delivery...)
}
