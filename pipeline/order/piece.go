package order

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// piece buys the body of p, the halves that are welded to it, and what closes
// its open port.
func (b *builder) piece(p *route.Piece) {
	if p.Kind == design.Straight {
		b.cut(p)
	}
	if integral(p.Kind) {
		b.withEnds(p)
	} else {
		for _, part := range p.Parts {
			b.list.add(rankOf(p.Kind), Line{Slug: part.Slug, Name: part.Name, Quantity: 1, Unit: pieces, Trust: trustOf(p, part)})
		}
		b.end(p, &p.In, 1)
	}
	if p.Kind == design.Tee || p.Kind == design.Cross {
		for _, port := range p.Ports() {
			if port.End != nil {
				b.port(p, port)
			}
		}
	}
	if !integral(p.Kind) {
		b.end(p, &p.Out, -1)
	}
}

// end welds on half of a union where p ends in one. A cap is the half itself.
func (b *builder) end(p *route.Piece, end *route.End, back float64) {
	if !end.Half.Plain() && p.Kind != design.Cap {
		b.half(p.Ref, end, back, weldHalf, "")
	}
}

// shortest is the least length of tube that can be held in a saw and welded at
// both ends. Common practice, no source.
const shortest = 10 * q.Millimetre

// cut notes the tube of a straight. One with no tube left in it is no part:
// its ends then meet each other, which nobody should find out with a saw.
func (b *builder) cut(p *route.Piece) {
	var doubt route.Doubt
	if p.Cut > 0 {
		doubt = b.in.Layout.CutDoubt(p)
		b.r.Cuts = append(b.r.Cuts, Cut{Ref: p.Ref, Name: p.Label, Length: p.Cut, Either: doubt.Either, Hangs: doubt.Hangs, Tube: p.In.Half.Tube.Slug})
		if doubt.Either < p.Cut && p.Cut >= shortest {
			return
		}
	}
	v := finding.Verdict{
		Rule:     RuleCut,
		Level:    finding.Look,
		Piece:    p.Ref,
		Sentence: "There is no tube left in this straight: what is before it and after it takes up the whole length.",
		Advice:   "Leave the straight out, or make room for it.",
		Basis:    "geometry",
	}
	switch {
	case p.Cut > doubt.Either:
		cut, least := q.Apart(p.Cut, shortest)
		v.Sentence = "This straight comes out at " + cut + ": too short to be sawn square and welded at both ends."
		v.Advice = "Leave the straight out, or make room for " + least + " at least."
		v.Basis = "common practice, no source"
	case p.Cut > 0:
		cut, either := q.Apart(p.Cut, doubt.Either)
		v.Sentence = "This straight comes out at " + cut + ", and the parts it closes between are in doubt by " + either + ": there may be no room for it."
		v.Measure = doubt.Hangs[0].Dimension
		v.Advice = "Measure the " + catalog.DimensionName(v.Measure) + " first, or make room."
	}
	b.r.Verdicts = append(b.r.Verdicts, v)
}

// withEnds buys a valve or a hose, whose ends are made on it. The same valve
// with other ends is another thing to order.
func (b *builder) withEnds(p *route.Piece) {
	parts := p.Parts
	if len(parts) == 0 && p.Kind == design.Hose {
		parts = []catalog.Part{catalog.HosePart(p.In.Half.Tube)}
	}
	in, out := endWords(p.In.Half), endWords(p.Out.Half)
	ends := "ends: " + in + " and " + out
	if in == out {
		ends = "both ends: " + in
	}
	for _, part := range parts {
		line := Line{Slug: part.Slug, Name: part.Name, Quantity: 1, Unit: pieces, Trust: trustOf(p, part)}
		if !p.In.Half.Plain() || !p.Out.Half.Plain() {
			line.Slug += "/" + endSlug(p.In.Half) + "/" + endSlug(p.Out.Half)
			line.Name = strings.TrimSuffix(line.Name, ", to weld") + ", " + ends
			line.Note = "comes with its ends: nothing to weld there"
		}
		if p.Kind == design.Hose {
			// Hoses of two lengths are two things to order.
			line.Slug += "/" + q.Text(p.Length)
			line.Name += ", " + give(p.Length, b.in.Layout.CutDoubt(p)) + " over its ends"
		}
		b.list.add(rankOf(p.Kind), line)
	}
}

func endWords(h *catalog.Half) string {
	if h.Plain() {
		return "plain, to weld"
	}
	return h.Joint.Name + " " + h.Name
}

func endSlug(h *catalog.Half) string {
	if h.Plain() {
		return design.Weld
	}
	return h.Joint.Family + "-" + h.Name
}

// port closes an open port of a tee or cross, with a cap or with a valve.
func (b *builder) port(p *route.Piece, port route.Port) {
	h := port.Half
	if port.On == "valve" {
		v, _ := catalog.BodyOf(design.Butterfly, h.Tube)
		line := Line{Slug: v.Slug, Name: v.Name, Quantity: 1, Unit: pieces, Trust: v.Length.Trust, Note: "one for the open port of a " + p.Kind + "; its outer end is not counted"}
		if h.Plain() {
			b.weld(p.Ref, h.Tube.Slug, weldEnds, port.At)
		} else {
			b.half(p.Ref, port.End, -1, weldHalf, "")
			line.Slug += "/" + endSlug(h)
			line.Name = strings.TrimSuffix(v.Name, ", to weld") + ", end: " + endWords(h)
			b.close(h.Joint, b.portSeal(p, h.Joint), true)
		}
		b.list.add(rankValve, line)
		return
	}
	part := catalog.CapPart(*h)
	trust := h.Joint.Trust
	if h.Plain() {
		b.weld(p.Ref, h.Tube.Slug, weldCap, port.At)
		trust = h.Tube.Trust
	} else {
		b.half(p.Ref, port.End, -1, weldHalf, "")
		b.close(h.Joint, b.portSeal(p, h.Joint), true)
	}
	b.list.add(rankCap, Line{Slug: part.Slug, Name: part.Name, Quantity: 1, Unit: pieces, Trust: trust})
}

// portSeal is the seal of the open port of tee p: of the material of the joint
// before it, which is the plant's usual one where that is not known.
func (b *builder) portSeal(p *route.Piece, j catalog.Joint) catalog.Part {
	for i := range b.in.Layout.Junctions {
		junction := &b.in.Layout.Junctions[i]
		if junction.Ref != p.Ref {
			continue
		}
		if _, m, ok := catalog.FindSeal(junction.Seal); ok {
			return catalog.SealPart(j, m.Slug)
		}
		if m, ok := catalog.FindMaterial(junction.Seal); ok {
			return catalog.SealPart(j, m.Slug)
		}
	}
	return catalog.SealPart(j, usualSeal)
}

// usualSeal is the material of a seal that nothing is said of, as for design.Design.Seal.
const usualSeal = "epdm"

// trustOf returns the least trust of the dimensions of part; where none is
// named after it, of all that p rests on.
func trustOf(p *route.Piece, part catalog.Part) catalog.Trust {
	own, all := catalog.Trust(""), catalog.Trust("")
	for _, d := range p.Dims {
		all = lesser(all, d.Trust)
		if strings.HasPrefix(d.Slug, part.Slug+"/") {
			own = lesser(own, d.Trust)
		}
	}
	if own != "" {
		return own
	}
	return all
}
