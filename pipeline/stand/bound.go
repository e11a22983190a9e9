package stand

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Bound is something that the tank must not stand too high for.
type Bound struct {
	Slug  string   `json:"slug"`
	Name  string   `json:"name"`
	Most  q.Length `json:"most"`  // of the outlet face over the floor
	Slack q.Length `json:"slack"` // Most less the height; negative where it stands too high
}

func bounds(in Input) []Bound {
	if !in.HasCeiling && in.Reach == 0 && in.Door == 0 {
		return nil
	}
	bs := make([]Bound, 0, 3)
	add := func(slug, name string, top, level q.Length) {
		most := top - in.Tank.BottomToOutlet - level
		bs = append(bs, Bound{Slug: slug, Name: name, Most: most, Slack: most - in.Height})
	}
	if in.HasCeiling {
		add("ceiling", "Brim under the ceiling", in.Ceiling, in.Tank.Depth)
	}
	if in.Reach > 0 {
		add("reach", "Manway within reach", in.Reach, in.Tank.Manway)
	}
	if in.Door > 0 {
		add("door", "In by the door, standing", in.Door, in.Tank.Depth)
	}
	return bs
}

// manway is how high over the floor the tank is reached into.
func (in Input) manway() q.Length { return in.Height + in.Tank.BottomToOutlet + in.Tank.Manway }

func reachVerdict(in Input) []finding.Verdict {
	if in.Reach == 0 {
		return nil
	}
	at := in.manway()
	v := finding.Verdict{
		Rule:     RuleReach,
		Level:    finding.Sound,
		Piece:    "tank",
		Sentence: "The manway is " + q.Text(at) + " over the floor, within reach.",
		Limit:    amount(in.Reach),
		Basis:    "the limit that was set",
	}
	if at > in.Reach+q.Millimetre/100 {
		v.Level = finding.Look
		v.Sentence = "The manway is " + q.Text(at) + " over the floor, " + q.By(at-in.Reach) + " over what somebody on the floor works at."
		v.Advice = "Put a fixed platform with a rail beside it, or lower the tank if its other needs allow. Nobody works over an open tank from a ladder."
	}
	return []finding.Verdict{v}
}

// width is what the tank with its stand takes across.
func (in Input) width() q.Length {
	return max(in.Tank.Vessel.Bore+2*in.Tank.Wall, 2*in.feet()+max(in.Pad, in.LegOD))
}

// doorVerdict asks whether the tank with its legs comes in by the door,
// standing or lying, and whether it can be stood up again under the ceiling:
// what turns about an edge is as high as its diagonal.
func doorVerdict(in Input, overall q.Length) []finding.Verdict {
	if in.Door == 0 && in.DoorWidth == 0 {
		return nil
	}
	across := in.width()
	fits := func(size, free q.Length) bool { return free == 0 || size <= free }
	v := finding.Verdict{Rule: RuleDoor, Level: finding.Sound, Piece: "site", Basis: "geometry: the tank with its legs on, without what carries it"}
	size := q.Text(overall) + " high and " + q.Text(across) + " across"
	if fits(overall, in.Door) && fits(across, in.DoorWidth) {
		v.Sentence = "The tank on its legs, " + size + ", comes in by the door standing."
		return []finding.Verdict{v}
	}
	if !fits(across, in.Door) || !fits(across, in.DoorWidth) {
		v.Level = finding.Stop
		v.Sentence = "The tank on its legs is " + size + ": it comes in by the door neither standing nor lying."
		v.Advice = "Weld the legs on inside, find a wider way in, or build a narrower tank."
		return []finding.Verdict{v}
	}
	diagonal := q.Length(math.Hypot(float64(overall), float64(across)))
	v.Level = finding.Look
	v.Sentence = "The tank on its legs, " + size + ", comes in by the door lying only; to stand it up takes " + q.Text(diagonal) + " under the ceiling."
	v.Advice = "Plan how it is lifted, empty, by people who do that; or weld the legs on inside."
	if in.HasCeiling && diagonal > in.Ceiling {
		v.Level = finding.Stop
		v.Sentence += " The ceiling is at " + q.Text(in.Ceiling) + "."
	}
	return []finding.Verdict{v}
}
