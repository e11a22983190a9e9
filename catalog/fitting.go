package catalog

import (
	"strings"

	q "drawoff/pipeline/quantity"
)

// assumed is the source of every length that no source gives.
const assumed = "working assumption of ours, no source"

// sourceCut is the source of what a hose's cut end adds to its length.
const sourceCut = "a hose is measured from cut end to cut end"

// Our assumptions about the lengths of reducers and valves, which no standard
// seen gives and which vary by maker.
const (
	coneLengths = 3                 // reducer: length over the difference in OD
	coneLeast   = 30 * q.Millimetre // reducer: the shortest
	third       = 1.0 / 3           // doubt, as a part of the length
	straight    = 1.5 * q.Inch      // least straight end of an ASME BPE fitting: trade article on orbital welding
)

const (
	overCaliper    = "Measure it as it is bought, over the faces of its two ends that meet the next parts."
	faceCaliper    = "Stand it on the face of one end, as it is bought, and measure from the plate up to the middle of the other end."
	lengthCaliper  = "Measure from weld end to weld end along the outside, jaws square to the tube."
	sourceReducer  = assumed + ": 3 x the difference in OD, at least 30 mm"
	sourceStraight = sourceReducer + ", and the 1.5 in of straight at each end that ASME BPE fittings have"
)

// ReducerOf returns the reducer (or enlarger: it is the same part turned
// round) between two tubes, shape "concentric" or "eccentric", "" for
// concentric. Its slug names the larger tube first, and the series of the
// smaller only where it is another.
func ReducerOf(from, to Tube, shape string) ReducerFitting {
	if shape == "" {
		shape = "concentric"
	}
	if to.OD > from.OD || to.OD == from.OD && to.Slug < from.Slug {
		from, to = to, from
	}
	small, name := to.Slug, from.Name+" to "+to.Name
	if from.Series == to.Series {
		small = to.Slug[min(len(to.Series)+1, len(to.Slug)):]
		name = from.Size + " to " + to.Name
	}
	p := Part{
		Slug: from.Slug + "/reducer/" + small + "/" + shape,
		Name: shape + " reducer, " + name,
	}
	length, source := max(coneLeast, coneLengths*(from.OD-to.OD)), sourceReducer
	if from.Series == "asme-bpe" && to.Series == "asme-bpe" {
		length, source = length+2*straight, sourceStraight
	}
	return ReducerFitting{Part: p, Length: Dimension{
		Slug: p.Slug + "/length", Length: length, Either: length * third,
		Trust: Unknown, Source: source, Caliper: lengthCaliper,
	}}
}

// bodyRow is a kind of body and the length that we assume for it: base and so
// many times the OD of its tube.
type bodyRow struct {
	Part
	base   q.Length
	perOD  float64
	source string
	aka    string
}

// Bodies returns every kind of body that stands in a line, each with no size:
// "butterfly-valve", "sight-glass".
func Bodies() []Part {
	rows := load().bodies
	list := make([]Part, len(rows))
	for i := range rows {
		list[i] = rows[i].Part
	}
	return list
}

// BodyOf returns a body of tube t over its weld ends, kind as in Bodies. False
// for another kind.
func BodyOf(kind string, t Tube) (BodyFitting, bool) {
	for _, r := range load().bodies {
		if r.Slug != kind {
			continue
		}
		p := Part{Slug: t.Slug + "/" + kind, Name: r.Name + ", " + t.Name + ", to weld"}
		length := r.base + q.Length(r.perOD*float64(t.OD))
		return BodyFitting{Part: p, Length: Dimension{
			Slug: p.Slug + "/length", Length: length, Either: length * third,
			Trust: Unknown, Source: r.source, Caliper: lengthCaliper,
		}}, true
	}
	return BodyFitting{}, false
}

// Over returns the length of b as it is bought with the ends in and out on it,
// over their faces, since no caliper reaches a weld between: its own length
// where both are plain.
func (b BodyFitting) Over(in, out *Half) Dimension {
	return over(b.Slug, b.Length, overCaliper, in, out, in, out)
}

// Over returns f, a valve on the pattern of a tee, as it is bought with the ends
// in, of its run, and out, of its branch, on it: both legs to the faces of those.
func (f TeeFitting) Over(in, out *Half) TeeFitting {
	f.CentreToEnd = over(f.Slug, f.CentreToEnd, faceCaliper, in, out, in)
	f.BranchToEnd = over(f.Slug, f.BranchToEnd, faceCaliper, in, out, out)
	return f
}

// over returns d, a length of part, with the lengths of the ends on, where the
// part is bought with in and out; d where both are plain.
func over(part string, d Dimension, caliper string, in, out *Half, on ...*Half) Dimension {
	if in.Plain() && out.Plain() {
		return d
	}
	d.Slug = part + "/" + endWord(in) + "/" + endWord(out) + d.Slug[strings.LastIndexByte(d.Slug, '/'):]
	d.Caliper = caliper
	for _, h := range on {
		if !h.Plain() {
			end := h.Joint.Length(h.Name)
			d.Length += end.Length
			d.Either += end.Either
		}
	}
	return d
}

// endWord is what an end is called within a slug: "clamp-ferrule", "weld".
func endWord(h *Half) string {
	if h.Plain() {
		return "weld"
	}
	return h.Joint.Family + "-" + h.Name
}

func (t *tables) readBodies() {
	for _, r := range read("bodies.csv", bodiesCSV) {
		t.bodies = append(t.bodies, bodyRow{
			Part: Part{Slug: r.text("body"), Name: r.text("name")},
			base: r.mm("base"), perOD: r.number("perod"),
			source: t.source(r, "source") + ": " + r.text("formula"), aka: r.text("aka"),
		})
	}
}
