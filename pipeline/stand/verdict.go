package stand

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

const noSource = "common practice, no source"

// heightVerdicts says of every need that is not met by how much the tank must
// rise, or, when all are met, which governs.
func heightVerdicts(in Input, ds []Driver, l line) []finding.Verdict {
	var out []finding.Verdict
	for _, d := range ds {
		if !d.met() {
			stands, needs := q.Apart(in.Height, d.Needed)
			if least := q.AtLeast(d.Needed); least != stands {
				needs = least
			}
			v := finding.Verdict{
				Rule:     RuleHeight,
				Level:    weight(d.Slug),
				Piece:    "stand",
				Sentence: d.Name + ": the outlet face stands " + stands + " over the floor and needs " + needs + ". " + d.Why,
				Advice:   "Raise the tank by " + q.AtLeast(-d.Slack) + ".",
				Figure:   figureHeight,
				Limit:    amount(d.Needed),
				Basis:    basis(d.Slug),
			}
			d.doubt().Mark(&v, d.Slack)
			out = append(out, v)
		}
	}
	if len(out) > 0 || len(ds) == 0 {
		return out
	}
	height := q.Text(in.Height)
	if ds[0].Slack < q.Millimetre {
		height = q.AtLeast(in.Height) // as exact as the need that it just meets
	}
	v := finding.Verdict{
		Rule:     RuleHeight,
		Level:    finding.Sound,
		Piece:    "stand",
		Sentence: "The outlet face at " + height + " over the floor meets every need; the one that governs is: " + lower(ds[0].Name) + ", with " + q.Text(max(0, ds[0].Slack)) + " to spare.",
		Figure:   figureHeight,
		Limit:    amount(ds[0].Needed),
		Basis:    basis(ds[0].Slug),
	}
	if l.rigid {
		v.Sentence += " Nothing in the line gives up or down: any other height misses " + l.end() + "."
	}
	// The need that doubt could leave shortest of all, if any.
	worst := &ds[0]
	for i := range ds {
		if ds[i].Slack-ds[i].Either < worst.Slack-worst.Either {
			worst = &ds[i]
		}
	}
	if doubt := worst.doubt(); doubt.Overturns(worst.Slack) {
		if !worst.Governs {
			v.Sentence += " Nearest to falling short when the parts are measured: " + lower(worst.Name) + ", with " + q.Text(worst.Slack) + " to spare."
		}
		doubt.Mark(&v, worst.Slack)
	}
	return []finding.Verdict{v}
}

// weight is how much an unmet need matters: a line that does not reach the
// pump or a pump that boils its liquid is not to be built; a bucket is a
// person's to judge.
func weight(driver string) finding.Level {
	switch driver {
	case driverBucket, driverAccess, driverFloor:
		return finding.Look
	}
	return finding.Stop
}

func basis(driver string) string {
	switch driver {
	case driverBucket, driverAccess:
		return "geometry; the free height over the bucket is " + noSource
	case driverFloor:
		return floorBasis
	case driverSuction:
		return "the suction head that the pump requires and the margin over it"
	}
	return "geometry; the least fall is " + noSource
}

// floorBasis: the figure is the one of the FDA Food Code for equipment that
// stands on the floor, 6 in.
const floorBasis = "FDA Food Code 4-402.12: 150 mm (6 in) under equipment that stands on the floor"

// floorVerdict looks at what raising the tank does not raise: the end of the
// line at the pump, and all of it where nothing gives.
func floorVerdict(in Input, l line) []finding.Verdict {
	pieces := l.stays()
	if l.rigid {
		pieces = l.moves()
	}
	low, ref := lowest(pieces)
	if l.toPump {
		if z, at := lowest(in.Layout.Delivery); at != "" && (ref == "" || z < low) {
			low, ref = z, at
		}
	}
	doubt := l.heightOf(in, ref)
	short := low < in.FloorSpace-q.Millimetre/100
	if ref == "" || in.FloorSpace <= 0 || !short && !doubt.Overturns(low-in.FloorSpace) {
		return nil
	}
	free, wanted := q.Apart(low, in.FloorSpace)
	v := finding.Verdict{
		Rule:  RuleFloor,
		Level: finding.Look,
		Piece: ref,
		Sentence: "The line passes " + free + " over the floor here; " + wanted +
			" is wanted to clean under it.",
		Advice: "Raise this end of the line by " + q.Tape(in.FloorSpace-low) + ", with what it is joined to.",
		Limit:  amount(in.FloorSpace),
		Basis:  floorBasis,
	}
	if low < 0 {
		v.Level = finding.Stop
		v.Sentence = "The line would lie " + q.Text(-low) + " under the floor here."
	}
	if !short {
		v.Level, v.Advice = finding.Sound, "" // but for the doubt
	}
	doubt.Mark(&v, low-in.FloorSpace)
	return []finding.Verdict{v}
}

// bucketVerdict looks at a stack that holds its height whatever the tank does,
// because something in it is made to fit: raising the tank then makes no room.
func bucketVerdict(in Input, l line) []finding.Verdict {
	low, ref := lowest(l.pieces[l.stack():l.under])
	want := in.Bucket + in.Clearance
	if in.Bucket <= 0 || ref == "" || low >= want-q.Millimetre/100 {
		return nil
	}
	free, takes := q.Apart(low, want)
	v := finding.Verdict{
		Rule:  RuleBucket,
		Level: finding.Look,
		Piece: ref,
		Sentence: "There are " + free + " free under the stack, and the bucket wants " + takes +
			". The stack is made to fit down to the pump, so raising the tank makes no more room.",
		Advice: "Turn off towards the pump higher up, or raise the pump by " + q.Tape(want-low) + ".",
		Figure: figureBucket,
		Limit:  amount(want),
		Basis:  basis(driverBucket),
	}
	l.heightOf(in, ref).Mark(&v, low-want)
	return []finding.Verdict{v}
}

// lowest returns the lowest outside point of pieces and the piece that has it.
func lowest(pieces []route.Piece) (q.Length, string) {
	var low q.Length
	ref := ""
	for i := range pieces {
		if z := route.Lowest(pieces[i : i+1]); ref == "" || z < low {
			low, ref = z, pieces[i].Ref
		}
	}
	return low, ref
}

func ceilingVerdict(in Input, overall q.Length, doubt route.Doubt) []finding.Verdict {
	if !in.HasCeiling {
		return nil
	}
	v := finding.Verdict{
		Rule:     RuleCeiling,
		Level:    finding.Sound,
		Piece:    "tank",
		Sentence: "The brim is " + q.Text(overall) + " over the floor, " + q.Text(in.Ceiling-overall) + " under the ceiling.",
		Figure:   figureOverall,
		Limit:    amount(in.Ceiling),
		Basis:    "geometry",
	}
	if overall > in.Ceiling {
		brim, ceiling := q.Apart(overall, in.Ceiling)
		v.Level = finding.Stop
		v.Sentence = "The brim would be " + brim + " over the floor, " + q.By(overall-in.Ceiling) + " over the ceiling of " + ceiling + "."
		v.Advice = "Lower the tank by " + q.By(overall-in.Ceiling) + " if its other needs allow, make it wider and lower, or find a higher room."
	}
	doubt.Mark(&v, in.Ceiling-overall)
	return []finding.Verdict{v}
}

// lower returns s with a small first letter.
func lower(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]-'A'+'a') + s[1:]
	}
	return s
}
