// Package order turns a layout into what to buy, what to cut and what to weld.
//
// It counts what is there and leaves nothing out: every union by its parts,
// every open port with what closes it, every cut with its length. What comes
// with the tank or sits on the pump already is not on the list.
package order

import (
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what Check reads.
type Input struct {
	Layout route.Layout
	Frame  Frame
}

// Line is one line of the parts list.
type Line struct {
	_        [0]func()     // no ==: the page would load it
	Slug     string        `json:"slug"`
	Name     string        `json:"name"`
	Quantity float64       `json:"quantity"`
	Unit     string        `json:"unit"` // "pcs" or "m"
	Note     string        `json:"note,omitempty"`
	Trust    catalog.Trust `json:"trust"` // the least trusted of what it rests on
}

// Cut is one length of tube to cut.
type Cut struct {
	Ref    string          `json:"ref"`
	Name   string          `json:"name"`
	Length q.Length        `json:"length"`
	Either q.Length        `json:"either"`            // half-width of doubt: measure before cutting
	Hangs  []finding.Share `json:"hangsOn,omitempty"` // what that doubt hangs on, the part to measure first at its head
	Tube   string          `json:"tube,omitempty"`    // slug; of the frame its size, "leg-tube/48.3x2", "brace-tube/33.7x2"
}

// Weld is one weld to make in the line.
type Weld struct {
	_      [0]func() // no ==: the page would load it
	Number int       `json:"number"` // as on the drawing, from 1, in flow order
	Ref    string    `json:"ref"`
	Tube   string    `json:"tube"` // slug
	Kind   string    `json:"kind"`
	At     route.Vec `json:"at"` // middle of its seam, metres
}

// Mark is how a drawing numbers w, "W1": pieces have numbers, too.
func (w Weld) Mark() string { return "W" + strconv.Itoa(w.Number) }

// The kinds of weld.
const (
	weldEnds = "end to end"
	weldMade = "end to end, one end prepared to match"
	weldHalf = "half of a union on a tube end"
	weldTank = "outlet end on the tank"
	weldCap  = "cap on an open port"
)

// Result is what Check has to say.
type Result struct {
	finding.Findings
	Lines []Line // tube, fittings, unions by their parts, seals, hose, legs
	Cuts  []Cut
	Welds []Weld
}

// Outlet is the Ref of the end that is welded to the tank.
const Outlet = "tank.outlet"

// RuleCut is the rule that a straight has tube left to cut.
const RuleCut = "cut-length"

// Check lists what to buy, what to cut and what to weld.
func Check(in Input) Result {
	n := len(in.Layout.Junctions) + 1
	b := builder{in: in, list: make(list, 0, 2*n)}
	b.r.Welds, b.r.Cuts = make([]Weld, 0, 2*n), make([]Cut, 0, n+max(in.Frame.Legs+in.Frame.Braces, 0))
	b.outlet()
	// A junction comes before the piece that it is named after.
	joints := in.Layout.Junctions
	before := func(ref string) {
		if len(joints) > 0 && joints[0].Ref == ref {
			b.junction(&joints[0])
			joints = joints[1:]
		}
	}
	for _, line := range [...][]route.Piece{in.Layout.Under, in.Layout.Run, in.Layout.Delivery} {
		for i := range line {
			for len(joints) > 0 && joints[0].Ref != line[i].Ref { // the pump's
				before(joints[0].Ref)
			}
			before(line[i].Ref)
			b.piece(&line[i])
		}
	}
	for len(joints) > 0 {
		before(joints[0].Ref)
	}
	b.tubes()
	b.frame()
	b.r.Lines = b.list.sorted()
	b.r.Figures = b.figures()
	return b.r
}

// builder gathers the result.
type builder struct {
	in   Input
	list list
	r    Result
}

func (b *builder) weld(ref, tube, kind string, at route.Vec) {
	b.r.Welds = append(b.r.Welds, Weld{Number: len(b.r.Welds) + 1, Ref: ref, Tube: tube, Kind: kind, At: at})
}

// half buys half of a union, whose face is at end, and welds it on; back is 1
// where it lies along the flow from its face, -1 where it lies against it.
func (b *builder) half(ref string, end *route.End, back float64, kind, note string) {
	h := end.Half
	part := catalog.HalfPart(*h)
	b.list.add(rankHalf, Line{Slug: part.Slug, Name: part.Name, Quantity: 1, Unit: pieces, Note: note,
		Trust: lesser(h.Joint.Trust, h.Joint.Length(h.Name).Trust)})
	b.weld(ref, h.Tube.Slug, kind, end.At.Add(end.Dir.Scale(back*float64(h.Joint.Length(h.Name).Length))))
}

// close buys what holds a joint shut, and its seal.
func (b *builder) close(j catalog.Joint, seal catalog.Part, sealed bool) {
	for _, part := range catalog.CloserParts(j) {
		b.list.add(rankCloser, Line{Slug: part.Slug, Name: part.Name, Quantity: 1, Unit: pieces, Trust: j.Trust})
	}
	if sealed {
		b.list.add(rankSeal, Line{Slug: seal.Slug, Name: seal.Name, Quantity: 1, Unit: pieces, Trust: j.Trust})
	}
}

// outlet buys the end that is welded to the tank. A plain outlet is tube that
// comes with the tank.
func (b *builder) outlet() {
	if end := &b.in.Layout.Outlet; !end.Half.Plain() {
		b.half(Outlet, end, -1, weldTank, "one for the tank outlet")
	}
}

// junction closes two ends on each other. Ends that do not belong together
// get nothing, since there is nothing to be bought that would join them.
func (b *builder) junction(j *route.Junction) {
	up, down := j.Up.Half, j.Down.Half
	switch {
	case up.Plain() && down.Plain():
		kind := weldEnds
		if j.Prepared {
			kind = weldMade
		}
		b.weld(j.Ref, down.Tube.Slug, kind, j.Down.At)
	case up.Joint.Family == down.Joint.Family && !up.Plain() && !down.Plain():
		seal, ok := sealFor(up.Joint, j.Seal)
		b.close(up.Joint, seal, ok)
	}
}

// sealFor returns the seal that a design asks for in joint j: the one it
// names, or the joint's own in the material it names; false for none, and in
// a joint that takes none.
func sealFor(j catalog.Joint, text string) (catalog.Part, bool) {
	if f, _ := catalog.FindFamily(j.Family); f.Unsealed {
		return catalog.Part{}, false
	}
	if made, m, ok := catalog.FindSeal(text); ok {
		return catalog.SealPart(made, m.Slug), true
	}
	if _, ok := catalog.FindMaterial(text); ok {
		return catalog.SealPart(j, text), true
	}
	return catalog.Part{}, false
}

// integral reports whether a kind of piece is bought with its ends on.
func integral(kind string) bool {
	return design.IsBody(kind) || kind == design.Hose || kind == design.Device
}
