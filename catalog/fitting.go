package catalog

import q "drawoff/pipeline/quantity"

// assumed is the source of every length that no source gives.
const assumed = "working assumption of ours, no source"

// Our assumptions about the lengths of reducers and valves, which no standard
// seen gives and which vary by maker.
const (
	coneLengths = 3                 // reducer: length over the difference in OD
	coneLeast   = 30 * q.Millimetre // reducer: the shortest
	third       = 1.0 / 3           // doubt, as a part of the length
	straight    = 1.5 * q.Inch      // least straight end of an ASME BPE fitting: trade article on orbital welding
)

const (
	lengthCaliper   = "Measure from weld end to weld end along the outside, jaws square to the tube."
	sourceReducer   = assumed + ": 3 x the difference in OD, at least 30 mm"
	sourceStraight  = sourceReducer + ", and the 1.5 in of straight at each end that ASME BPE fittings have"
	sourceButterfly = assumed + ": 40 mm + OD / 2"
	sourceBall      = assumed + ": 60 mm + 2.5 x OD"
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

// ValveOf returns the valve of tube t over its weld ends; kind
// "butterfly-valve" or "ball-valve", which is full bore.
func ValveOf(kind string, t Tube) ValveFitting {
	name, source, length := "butterfly valve", sourceButterfly, 40*q.Millimetre+t.OD/2
	if kind == "ball-valve" {
		name, source, length = "ball valve, full bore", sourceBall, 60*q.Millimetre+2.5*t.OD
	}
	p := Part{Slug: t.Slug + "/" + kind, Name: name + ", " + t.Name + ", to weld"}
	return ValveFitting{Part: p, Length: Dimension{
		Slug: p.Slug + "/length", Length: length, Either: length * third,
		Trust: Unknown, Source: source, Caliper: lengthCaliper,
	}}
}
