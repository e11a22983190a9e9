package joint

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what Check reads.
type Input struct {
	Junctions   []route.Junction
	Pieces      []route.Piece // what lies between tank and pump, or between tank and outflow where there is no pump
	Medium      string        // as in catalog.Stands; "" leaves it unjudged
	Liquid      string        // what the liquid is called in a sentence, "perry", "water at 12 °C"; default: Medium
	Temperature q.Temperature
	Cleaning    []Cleaning // what the line is cleaned with
	Assumed     bool       // Cleaning is what is usual; nothing was said of it
	Linings     []Lining   // of hoses, as far as they are told
	Heads       Heads      // what presses on the joints; zero leaves it unjudged
	BoreStep    float64    // largest step on one side, as a part of the thinner wall
}

// Lining is what the bore of a hose is made of.
type Lining struct{ Ref, Material string }

// JointState is one joint, for a drawing or a table.
type JointState struct {
	_       [0]func()     // no ==: the page would load it
	Ref     string        // as route.Junction
	Kind    string        // "weld", or the slug of the union's family; "none" where nothing closes
	Name    string        // "2 in clamp", "weld, 2 in"
	Level   finding.Level // of its gravest fault
	Seal    catalog.Part
	HasSeal bool
}

// Result is what Check has to say.
type Result struct {
	finding.Findings
	Joints []JointState
}

// Check judges every junction and the seals in them. A fault of a joint is a
// verdict of its own; a material that does not stand the liquid is one
// verdict, however many joints it sits in.
func Check(in Input) Result {
	var r Result
	r.Joints = make([]JointState, 0, len(in.Junctions))
	var (
		welds     int
		materials = seals{in: &in, what: "seals", place: "joint"}
		stripped  strip
		faulty    bool
	)
	for i, j := range in.Junctions {
		state := stateOf(j)
		for _, f := range Mate(*j.Up.Half, *j.Down.Half, j.Seal, in.BoreStep) {
			switch f.Rule {
			case RuleStep:
				if prepared(*j.Up.Half, *j.Down.Half, in.BoreStep, j.Prepared) {
					continue
				}
			case RuleHalves:
				if advice := turnAdvice(in.Junctions, i); advice != "" {
					f.Advice = advice
				}
			}
			faulty = true
			state.Level = max(state.Level, f.Level)
			r.Verdicts = append(r.Verdicts, verdict(f, j.Ref))
		}
		if state.Kind == weld {
			welds++
		}
		if state.HasSeal {
			state.Level = max(state.Level, materials.add(readSeal(j.Seal).material, j.Ref))
		}
		if stripped.add(j, state) {
			state.Level = max(state.Level, finding.Look)
		}
		r.Joints = append(r.Joints, state)
	}
	bad := materials.verdicts()
	r.Verdicts = append(r.Verdicts, bad...)
	linings := seals{in: &in, what: "hose linings", place: "hose", rule: RuleLining}
	for _, l := range in.Linings {
		linings.add(l.Material, l.Ref)
	}
	r.Verdicts = append(r.Verdicts, linings.verdicts()...)
	r.Verdicts = append(r.Verdicts, pressure(in)...)
	r.Verdicts = append(r.Verdicts, stripped.verdicts()...)
	if n := len(in.Junctions); n > 0 && !faulty && !materials.attacked() {
		r.Verdicts = append(r.Verdicts, sound(in, n, n-welds, welds, materials.basis()))
	}
	r.Figures = figures(in, welds)
	return r
}

const weld = "weld"

// stateOf says what joint j is, fault or no fault.
func stateOf(j route.Junction) JointState {
	up, down := j.Up.Half, j.Down.Half
	s := JointState{Ref: j.Ref}
	switch {
	case up.Plain() && down.Plain():
		s.Kind, s.Name = weld, "weld, "+up.Tube.Name
	case up.Plain() || down.Plain() || up.Joint.Family != down.Joint.Family:
		s.Kind, s.Name = "none", "no joint: the ends do not belong together"
	default:
		s.Kind, s.Name = up.Joint.Family, up.Joint.Name
		s.Seal, s.HasSeal = sealOf(up.Joint, j.Seal)
	}
	return s
}

// sealOf returns the seal that a design asks for in joint j: the one it
// names, or the joint's own in the material it names; false for none, and in
// a joint that takes none.
func sealOf(j catalog.Joint, text string) (catalog.Part, bool) {
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

func verdict(f Fault, piece string) finding.Verdict {
	v := finding.Verdict{Rule: f.Rule, Level: f.Level, Piece: piece, Sentence: f.Sentence, Advice: f.Advice, Basis: f.Basis}
	if f.Rule == RuleStep {
		v.Figure = figureStep
	}
	return v
}

func sound(in Input, joints, unions, welds int, seals string) finding.Verdict {
	liquid := in.Liquid
	if liquid == "" {
		liquid = inWords(in.Medium)
	}
	var b strings.Builder
	if joints == 1 {
		b.WriteString("The one joint closes")
	} else {
		b.WriteString("All " + some(joints, "joint") + " close")
	}
	b.WriteString(" (" + some(unions, "union") + ", " + some(welds, "weld") + ")")
	if unions > 0 && liquid != "" {
		b.WriteString(", with seals that stand " + liquid)
		if in.Liquid == "" || !strings.Contains(in.Liquid, q.Text(in.Temperature)) {
			b.WriteString(" at " + q.Text(in.Temperature))
		}
	}
	b.WriteString(".")
	return finding.Verdict{Rule: RuleSound, Level: finding.Sound, Sentence: b.String(), Basis: "the standards of the unions; " + stepBasis(true) + seals}
}
