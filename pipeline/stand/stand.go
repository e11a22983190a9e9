// Package stand decides how high the tank stands: the needs that drive its
// height, which one governs, and the legs that follow.
//
// Every need is written as the height that the outlet face must have over the
// floor, so that they can be laid side by side and the largest governs.
package stand

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/vessel"
)

// TankShape is what the stand has to know of the tank.
type TankShape struct {
	BottomToOutlet q.Length // lowest inside point over the outlet face; negative for a side outlet, whose centre is over it
	Depth          q.Length // lowest inside point to brim
	Side           bool     // the outlet is in the side
	Vessel         vessel.Vessel
	Wall           q.Length // of shell and bottom
	Manway         q.Length // where it is reached into, over the lowest inside point
	Full           q.Length // level over the lowest inside point
}

// Input is what Check reads, with every usual value filled in.
type Input struct {
	Layout      route.Layout // laid with its outlet face at Height
	Tank        TankShape
	Height      q.Length // of the outlet face over the floor; a side outlet: of its centre
	HeightTyped bool     // somebody asked for that height
	Raise       q.Length // how much higher the suction head wants the tank; negative: how much lower it could do with
	RaiseKnown  bool
	LegTop      q.Length // top end of the legs over the outlet face
	Foot        q.Length // height of the foot under the leg tube
	Legs        int
	Bucket      q.Length // height of what stands under the stack; 0 for nothing
	Clearance   q.Length // free height over the bucket
	Stock       q.Length // length that legs are cut from
	Kerf        q.Length // width of the saw cut
	FloorSpace  q.Length // free height under everything
	Ceiling     q.Length // free height over the floor
	HasCeiling  bool
	FallLimit   q.Slope // least fall of a line that must drain
	FreeOutflow bool    // by gravity: nobody said at what height the liquid comes out

	Access   q.Length // height of what must pass under the stack; 0 for nothing
	LegOD    q.Length
	LegWall  q.Length // of braces too
	Feet     q.Length // tank's axis to the middle of a foot, on the floor; 0: legs flush with the shell at their top
	Splay    q.Angle  // of the legs from upright, feet outwards
	Braced   bool     // diagonally, so that the stand cannot sway
	BraceOD  q.Length
	Pad      q.Length // diameter of a foot on the floor
	Adjust   q.Length // how far a foot screws out
	Castors  q.Length // wheel behind swivel; 0 for none
	Anchored bool     // to floor or wall
	Load     q.Mass   // on the tank beside its own steel

	Density     q.Density // of the liquid
	Temperature q.Temperature

	FloorFall q.Slope  // under the stand
	Uneven    q.Length // under one foot
	Door      q.Length // free height; 0 where it is not known
	DoorWidth q.Length
	Tip       q.Angle  // incline that it must not tip on
	Reach     q.Length // highest that somebody works at; 0 where nobody said
}

// Result is what Check has to say.
type Result struct {
	finding.Findings
	Drivers []Driver    // the neediest first
	Bounds  []Bound     // what it must not be higher for
	Height  route.Doubt // about the height of the outlet face; none where somebody asked for one
	Legs
	Overall q.Length // brim over the floor
	Caution string
}

// The rules of the stand.
const (
	RuleHeight  = "stand-height"
	RuleFloor   = "floor-space"
	RuleBucket  = "bucket-space"
	RuleCeiling = "ceiling"
	RuleLegs    = "leg-length"
	RuleReach   = "reach"
	RuleDoor    = "door"
	RuleTip     = "tipping"
	RulePush    = "push"
	RuleRock    = "rocking"
	RuleLoad    = "leg-strength"
	RuleBracket = "leg-brackets"
	RuleClear   = "legs-clear"
)

// caution is always said: legs hold up a tonne of liquid over people.
const caution = "What is said of the stand is guidance for a sketch, not a structural certificate: it takes the tank as rigid and the legs as sound tube, and knows nothing of welds, dents, knocks, wind or earthquakes. " +
	"A full tank on legs can kill: have the stand checked by a competent person, fix it so that it cannot tip or be pushed over, " +
	"and never lift or move the tank with liquid in it."

// rounding is what a height is rounded up to where nobody asked for one: a
// saw and a tape on a shop floor do no better. Common practice, no source.
const rounding = 5 * q.Millimetre

// Needed returns the least height of the outlet face that meets every need,
// rounded up to 5 mm. A rigid line that has to meet the pump at one height is
// not rounded, since it would miss the pump by what is added.
func Needed(in Input) q.Length {
	l := reach(in)
	var most Driver
	for i, d := range drivers(in, l) {
		if i == 0 || d.Needed > most.Needed {
			most = d
		}
	}
	if l.rigid && (most.Slug == driverFall || most.Slug == driverOutflow) {
		return most.Needed
	}
	return roundUp(most.Needed)
}

// roundUp forgives a micrometre, so that a height that was rounded stays put.
func roundUp(l q.Length) q.Length {
	return q.Length(math.Ceil(float64((l-q.Millimetre/1000)/rounding))) * rounding
}

// Check judges the height of the tank and works out its legs.
func Check(in Input) Result {
	l := reach(in)
	r := Result{
		Drivers: ranked(in, l),
		Overall: in.Height + in.Tank.BottomToOutlet + in.Tank.Depth,
		Caution: caution,
	}
	r.Bounds = bounds(in)
	r.Height = heightDoubt(in, r.Drivers)
	r.Legs = legsOf(in, r.Height)
	r.Verdicts = append(r.Verdicts, heightVerdicts(in, r.Drivers, l)...)
	r.Verdicts = append(r.Verdicts, floorVerdict(in, l)...)
	r.Verdicts = append(r.Verdicts, bucketVerdict(in, l)...)
	r.Verdicts = append(r.Verdicts, ceilingVerdict(in, r.Overall, r.Height)...)
	r.Verdicts = append(r.Verdicts, reachVerdict(in)...)
	r.Verdicts = append(r.Verdicts, doorVerdict(in, r.Overall)...)
	r.Verdicts = append(r.Verdicts, legVerdicts(in, r.Legs)...)
	r.Figures = figures(in, r, l)
	return r
}
