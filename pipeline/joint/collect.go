package joint

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/route"
)

// seals collects the materials in use, so that each is judged once.
type seals struct {
	in          *Input
	what, place string // "seals", "joint"
	rule        string // of every fault; "": the fault's own
	used        []usedSeal
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
		s.used = append(s.used, usedSeal{material: material, first: ref, faults: s.judge(material)})
		at = len(s.used) - 1
	}
	s.used[at].count++
	level := finding.Sound
	for _, f := range s.used[at].faults {
		level = max(level, f.Level)
	}
	return level
}

// judge returns what is against a material in this line: the liquid, its
// heat, and everything that the line is cleaned with.
func (s *seals) judge(material string) []Fault {
	faults := stands(s.what, material, s.in.Medium, s.in.Temperature)
	if m, ok := catalog.FindMaterial(material); ok {
		for _, c := range s.in.Cleaning {
			if f, ok := c.against(m, s.what, s.in.Assumed); ok {
				faults = append(faults, f)
			}
		}
	}
	if s.rule != "" {
		for i := range faults {
			faults[i].Rule = s.rule
		}
	}
	return faults
}

// attacked reports whether the liquid or its heat is against any seal.
func (s *seals) attacked() bool {
	for _, u := range s.used {
		for _, f := range u.faults {
			if f.Rule != RuleCleaning {
				return true
			}
		}
	}
	return false
}

// basis names the sources of what is said of the seals, "" for no seals.
func (s *seals) basis() string {
	var b strings.Builder
	for _, u := range s.used {
		if _, _, source, ok := catalog.Stands(u.material, s.in.Medium); ok {
			m, _ := catalog.FindMaterial(u.material)
			b.WriteString("; " + m.Name + " in " + inWords(s.in.Medium) + ": " + source)
		}
	}
	return b.String()
}

func (s *seals) verdicts() []finding.Verdict {
	var out []finding.Verdict
	for _, u := range s.used {
		for _, f := range u.faults {
			v := verdict(f, u.first)
			if u.count > 1 {
				v.Sentence += " It is in " + some(u.count, s.place) + ", this one the first."
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

// Suits reports whether nothing is known against a seal material in this line:
// not the liquid, nor its heat, nor what the line is cleaned with.
func Suits(in Input, material string) bool {
	s := seals{in: &in}
	return len(s.judge(material)) == 0
}
