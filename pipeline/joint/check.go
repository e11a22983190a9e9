package joint

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what Check reads.
type Input struct {
	Junctions   []route.Junction
	Pieces      []route.Piece // what lies between tank and pump, or between tank and outflow where there is no pump
	Medium      string        // as in catalog.Stands; "" leaves it unjudged
	Liquid      string        // what the liquid is called in a sentence, "perry"; default: Medium
	Temperature q.Temperature
	BoreStep    float64 // largest step on one side, as a part of the thinner wall
}

// JointState is one joint, for a drawing or a table.
type JointState struct {
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
		materials = seals{medium: in.Medium, t: in.Temperature}
		stripped  strip
		faulty    bool
	)
	for _, j := range in.Junctions {
		state := stateOf(j)
		for _, f := range Mate(j.Up.Half, j.Down.Half, j.Seal, in.BoreStep) {
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
	r.Verdicts = append(r.Verdicts, stripped.verdicts()...)
	if n := len(in.Junctions); n > 0 && !faulty && len(bad) == 0 {
		r.Verdicts = append(r.Verdicts, sound(in, n, n-welds, welds))
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
// names, or the joint's own in the material it names; false for none.
func sealOf(j catalog.Joint, text string) (catalog.Part, bool) {
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

func sound(in Input, joints, unions, welds int) finding.Verdict {
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
		if in.Liquid == "" || !strings.Contains(in.Liquid, "°") {
			b.WriteString(" at " + q.Text(in.Temperature))
		}
	}
	b.WriteString(".")
	return finding.Verdict{Rule: RuleSound, Level: finding.Sound, Sentence: b.String(), Basis: "the standards of the unions; " + stepBasis(true)}
}

// seals collects the materials in use, so that each is judged once.
type seals struct {
	medium string
	t      q.Temperature
	used   []usedSeal
}

type usedSeal struct {
	material string
	first    string // ref of the first joint
	count    int
	faults   []Fault
}

// add notes a seal at a joint and returns the level of the gravest fault of its material.
func (s *seals) add(material, ref string) finding.Level {
	at := -1
	for i := range s.used {
		if s.used[i].material == material {
			at = i
		}
	}
	if at < 0 {
		s.used = append(s.used, usedSeal{material: material, first: ref, faults: SealStands(material, s.medium, s.t)})
		at = len(s.used) - 1
	}
	s.used[at].count++
	level := finding.Sound
	for _, f := range s.used[at].faults {
		level = max(level, f.Level)
	}
	return level
}

func (s *seals) verdicts() []finding.Verdict {
	var out []finding.Verdict
	for _, u := range s.used {
		for _, f := range u.faults {
			v := verdict(f, u.first)
			if u.count > 1 {
				v.Sentence += " It is in " + some(u.count, "joint") + ", this one the first."
			}
			out = append(out, v)
		}
	}
	return out
}

// strip collects the unions that have to be taken apart to come clean.
type strip struct {
	first    string
	families []catalog.Family
	counts   []int
}

// add notes joint j and reports whether it has to be taken apart.
func (s *strip) add(j route.Junction, state JointState) bool {
	f, ok := catalog.FindFamily(state.Kind)
	if !ok || f.Clean != "strip" {
		return false
	}
	if s.first == "" {
		s.first = j.Ref
	}
	for i := range s.families {
		if s.families[i].Slug == f.Slug {
			s.counts[i]++
			return true
		}
	}
	s.families, s.counts = append(s.families, f), append(s.counts, 1)
	return true
}

func (s *strip) verdicts() []finding.Verdict {
	if len(s.families) == 0 {
		return nil
	}
	var what, basis []string
	total := 0
	for i, f := range s.families {
		total += s.counts[i]
		what = append(what, some(s.counts[i], f.Name))
		basis = append(basis, f.Source)
	}
	has, them := "have to be taken apart and cleaned by hand: there is a gap at the seal", "them"
	if total == 1 {
		has, them = "has to be taken apart and cleaned by hand: there is a gap at the seal", "it"
	}
	return []finding.Verdict{{
		Rule:     RuleStrip,
		Level:    finding.Look,
		Piece:    s.first,
		Sentence: sentence(strings.Join(what, " and ") + " " + has + " that flow does not rinse."),
		Advice:   "Take " + them + " apart at every clean, or use a union that comes clean in place, such as a clamp.",
		Basis:    strings.Join(basis, "; "),
	}}
}

// The figures of the joints.
const (
	figureJoints = "joints"
	figureWelded = "welded-joints"
	figureStep   = "worst-bore-step"
	figureSphere = "largest-sphere"
)

func figures(in Input, welds int) []finding.Figure {
	n := len(in.Junctions)
	out := []finding.Figure{
		{Slug: figureJoints, Name: "Joints, welded and closed", Amount: q.Of(q.Number(n)), Working: finding.Working{
			Formula: "unions + welded joints",
			Inputs:  []finding.Input{finding.In("U", "unions", q.Number(n-welds)), finding.In("W", "welded joints", q.Number(welds))},
			Source:  "counted from the layout",
		}},
		{Slug: figureWelded, Name: "Joints that are welded end to end", Amount: q.Of(q.Number(welds)), Working: finding.Working{
			Formula: "tube ends that meet tube ends",
			Source:  "counted from the layout",
		}},
	}
	if f, ok := worstStep(in); ok {
		out = append(out, f)
	}
	if f, ok := sphere(in); ok {
		out = append(out, f)
	}
	return out
}

// worstStep finds the junction whose step is the largest part of the thinner wall.
func worstStep(in Input) (finding.Figure, bool) {
	worst, at, found := 0.0, 0, false
	for i, j := range in.Junctions {
		s := stepOf(j.Up.Half, j.Down.Half)
		if s.wall <= 0 {
			continue
		}
		if part := float64(s.counts(isWeld(j)) / s.wall); !found || part > worst {
			worst, at, found = part, i, true
		}
	}
	if !found {
		return finding.Figure{}, false
	}
	j := in.Junctions[at]
	s := stepOf(j.Up.Half, j.Down.Half)
	return finding.Figure{Slug: figureStep, Name: "Worst step at a joint, on one side", Amount: q.Of(s.counts(isWeld(j))), Piece: j.Ref,
		Working: finding.Working{
			Formula: "s = |d1 - d2| / 2 for the bores (a weld: for the outsides too, the larger), held against c t",
			Inputs: []finding.Input{
				finding.In("d1", "bore before", j.Up.Bore()),
				finding.In("d2", "bore after", j.Down.Bore()),
				finding.In("D1", "outside before", j.Up.Half.Tube.OD),
				finding.In("D2", "outside after", j.Down.Half.Tube.OD),
				finding.In("t", "thinner wall", s.wall),
				finding.In("c", "allowed part of the wall", q.Fraction(in.BoreStep)),
			},
			Source: stepBasis(isWeld(j)),
			Range:  "nominal sizes; tolerances come on top",
		}}, true
}

func isWeld(j route.Junction) bool { return j.Up.Half.Plain() && j.Down.Half.Plain() }

// sphere finds the narrowest bore on the way to the pump: what is dropped
// into the tank and is no larger gets through.
func sphere(in Input) (finding.Figure, bool) {
	narrowest, at := q.Length(0), ""
	take := func(bore q.Length, ref string) {
		if bore > 0 && (at == "" || bore < narrowest) {
			narrowest, at = bore, ref
		}
	}
	to := "the outflow"
	for _, j := range in.Junctions {
		if j.Ref == "pump" {
			to = "the pump"
		}
	}
	for _, j := range in.Junctions {
		take(j.Up.Bore(), j.Ref)
		take(j.Down.Bore(), j.Ref)
		if j.Ref == "pump" {
			break
		}
	}
	butterfly := false
	for _, p := range in.Pieces {
		take(p.In.Bore(), p.Ref)
		take(p.Out.Bore(), p.Ref)
		butterfly = butterfly || p.Kind == design.Butterfly
	}
	if at == "" {
		return finding.Figure{}, false
	}
	name := "Largest sphere that passes from tank to pump"
	if to != "the pump" {
		name = "Largest sphere that passes from tank to outflow"
	}
	f := finding.Figure{Slug: figureSphere, Name: name, Amount: q.Of(narrowest), Piece: at, Working: finding.Working{
		Formula: "the smallest bore from the tank outlet to " + to,
		Inputs:  []finding.Input{finding.In("d", "bore at the narrowest end", narrowest)},
		Source:  "geometry",
		Range:   "valves full open, seals level with the bore",
	}}
	if butterfly {
		f.Range += "; the disc of a butterfly valve stands in the bore even when open, and stops anything near this size"
	}
	return f, true
}
