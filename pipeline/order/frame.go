package order

import (
	"math"
	"strconv"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Frame is what the tank stands on.
type Frame struct {
	Legs       int
	Leg        q.Length // of one leg tube; 0 for none
	LegDoubt   route.Doubt
	LegOD      q.Length
	Splay      q.Angle  // of a leg from upright
	Wall       q.Length // of legs and braces
	Braces     int
	Brace      q.Length // of one brace, between the middles of two legs: its ends are yet to be shaped
	BraceDoubt route.Doubt
	BraceOD    q.Length
	Foot       q.Length // height of a foot under the leg tube
	Pad        q.Length // its diameter on the floor
	Adjust     q.Length // how far it screws out; 0 for fixed
	Castors    q.Length // how far a wheel trails behind its swivel; 0 for no castors
}

// Stand is the Ref of what belongs to the frame.
const Stand = "stand"

// frame cuts the legs and braces and buys what is under them.
func (b *builder) frame() {
	f := b.in.Frame
	if f.Legs < 1 || f.Leg <= 0 {
		return
	}
	b.frameTube("leg", f.Legs, f.Leg, f.LegOD, f.LegDoubt)
	if f.Brace > 0 {
		b.frameTube("brace", f.Braces, f.Brace, f.BraceOD, f.BraceDoubt)
	}
	buy := func(slug, name string, size q.Length, note string) {
		b.list.add(rankFoot, Line{Slug: slug + "/" + millimetres(size) + "mm", Name: name, Quantity: float64(f.Legs), Unit: pieces, Note: note, Trust: catalog.Derived})
	}
	high, low := "", `reckoned with no height of its own: type that as "Foot under the leg", or the tank stands higher by it`
	if f.Foot > 0 {
		high, low = ", "+q.Text(f.Foot)+" high under the leg", ""
	}
	if f.Castors > 0 {
		if low != "" {
			low = "; " + low
		}
		buy("castor", "castor with a brake, wheel "+q.Text(f.Castors)+" behind its swivel"+high, f.Castors, "for the load on a foot see how the tank stands"+low)
	} else {
		buy("foot", "foot, "+q.Text(f.Pad)+" across"+high, f.Pad, low)
	}
	if f.Adjust > 0 {
		buy("adjuster", "adjuster for a foot, "+q.Text(f.Adjust)+" of thread to screw out", f.Adjust, "")
	}
}

// frameTube cuts n tubes of one length. Their tube is asked for by its size.
func (b *builder) frameTube(what string, n int, l, od q.Length, doubt route.Doubt) {
	slug := what + "-tube/" + millimetres(od) + "x" + millimetres(b.in.Frame.Wall)
	for i := range n {
		b.r.Cuts = append(b.r.Cuts, Cut{Ref: Stand, Name: what + " " + strconv.Itoa(i+1) + " of " + strconv.Itoa(n), Length: l, Either: doubt.Either, Hangs: doubt.Hangs, Tube: slug})
	}
	trust := catalog.Derived
	if doubt.Either > 0 {
		trust = catalog.Unknown
	}
	leans := ""
	if b.in.Frame.Splay > 0 && what == "leg" {
		leans = " sawn square, before its foot is sawn level, " + q.Text(b.in.Frame.Splay) + " from that"
	}
	b.list.add(rankLeg, Line{Slug: slug, Name: FrameTube(slug), Quantity: wholeMillimetres(q.Length(n) * l), Unit: metres,
		Note: strconv.Itoa(n) + " of " + give(l, doubt) + leans + "; size and wall by whoever checks the stand", Trust: trust})
}

// millimetres writes a length in millimetres to two decimals, none that are not needed.
func millimetres(l q.Length) string {
	return strconv.FormatFloat(math.Round(l.Millimetres()*100)/100, 'f', -1, 64)
}

// Welds says what is welded on the frame and how, "" where there is none.
func (f Frame) Welds() string {
	if f.Legs < 1 || f.Leg <= 0 {
		return ""
	}
	n := strconv.Itoa(f.Legs)
	s := "On the stand: " + n + " legs to the tank"
	if f.Castors == 0 {
		s += ", " + n + " feet"
	}
	if f.Brace > 0 {
		s += ", " + strconv.Itoa(2*f.Braces) + " ends of braces"
	}
	return s + ", all round and closed: an open leg holds water and soil (from memory). Where a leg is welded to it the shell tints on its inside, too: purge or clean it there."
}
