package catalog

import (
	"math"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// TubePart returns t as something to order by length.
func TubePart(t Tube) Part {
	return Part{Slug: t.Slug, Name: "tube, " + t.Name + ", " + mm(t.OD) + " x " + mm(t.Wall) + " mm"}
}

// HosePart returns the hose of the size of t: its bore is t's.
func HosePart(t Tube) Part {
	return Part{Slug: "hose/" + t.Slug, Name: "hose for " + t.Name + ", bore " + mm(t.Bore()) + " mm"}
}

// HalfPart returns half of a union as something to order; the zero Part for a
// plain end and for the cut end of a hose. A half for another OD or wall than the joint's usual tube has is
// another part: "clamp/2in/ferrule/50.8x1.65".
func HalfPart(h Half) Part {
	if h.Plain() {
		return Part{}
	}
	p := Part{Slug: h.Joint.Slug + "/" + h.Name, Name: h.Joint.Family + " " + h.Name}
	f, _ := load().family(h.Joint.Family)
	for _, half := range f.halves {
		if half.name == h.Name {
			p.Name = half.partName
		}
	}
	if p.Name == "" {
		return Part{}
	}
	p.Name += ", " + h.Joint.Size + ", to weld"
	var usual Tube
	if len(h.Joint.Tubes) > 0 {
		usual, _ = FindTube(h.Joint.Tubes[0])
	}
	if usual.OD != h.Tube.OD || usual.Wall != h.Tube.Wall {
		p.Slug += "/" + mm(h.Tube.OD) + "x" + mm(h.Tube.Wall)
		p.Name += " to " + mm(h.Tube.OD) + " x " + mm(h.Tube.Wall) + " mm"
	}
	return p
}

// CapPart returns the blank cap that closes h; a plain end has a cap welded on.
func CapPart(h Half) Part {
	if h.Plain() {
		return Part{Slug: h.Tube.Slug + "/cap", Name: "cap, " + h.Tube.Name + ", to weld"}
	}
	f, _ := load().family(h.Joint.Family)
	if len(f.Halves) == 1 { // alike: one cap fits either
		return Part{Slug: h.Joint.Slug + "/cap", Name: f.Name + " blank cap, " + h.Joint.Size}
	}
	return Part{Slug: h.Joint.Slug + "/cap/" + h.Name, Name: f.Name + " blank cap for a " + h.Name + ", " + h.Joint.Size}
}

// CapFor returns the blank cap whose own end is h: it closes whatever h closes on.
func CapFor(h Half) Part {
	f, _ := load().family(h.Joint.Family)
	for _, name := range f.Halves {
		if name != h.Name {
			return CapPart(Half{Tube: h.Tube, Joint: h.Joint, Name: name})
		}
	}
	return CapPart(h)
}

// CloserParts returns what holds joint j shut, one of each. A clamp is named
// by its flange, since it serves every tube that has it.
func CloserParts(j Joint) []Part {
	f, _ := load().family(j.Family)
	parts := make([]Part, 0, 1)
	for i, closer := range f.Closers {
		name := f.closerNames[i]
		if len(f.Halves) == 1 {
			flange, _ := strings.CutPrefix(j.Face, "flange ")
			parts = append(parts, Part{Slug: j.Family + "/" + closer + "/" + flange + "mm", Name: name + " for flange " + flange + " mm"})
			continue
		}
		parts = append(parts, Part{Slug: j.Slug + "/" + closer, Name: name + ", " + j.Size})
	}
	return parts
}

// mm writes a length in millimetres to two decimals, none that are not needed.
func mm(l q.Length) string {
	return strconv.FormatFloat(math.Round(l.Millimetres()*100)/100, 'f', -1, 64)
}
