package joint

import (
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// seal is what a design says of a seal, taken apart.
type seal struct {
	joint    string // slug of the joint it is made for; "" for whichever it is put into
	material string // slug; "" for whichever
	none     bool
}

func readSeal(text string) seal {
	if text == noSeal {
		return seal{none: true}
	}
	if joint, material, ok := strings.Cut(text, "/seal/"); ok {
		return seal{joint: joint, material: material}
	}
	return seal{material: text}
}

// unsealed judges a seal named for a joint that takes none, which what says. A
// material is the plant's usual one and means nothing here; a seal of a size
// was meant for something.
func unsealed(faults []Fault, what, text string) []Fault {
	s := readSeal(text)
	if s.joint == "" {
		return faults
	}
	return append(faults, Fault{
		Rule:     RuleSealSize,
		Level:    finding.Look,
		Sentence: sentence(what) + " and takes no seal, yet the seal " + text + " is named for it.",
		Advice:   "Leave the seal out, or give both ends the union it belongs to.",
		Basis:    "common practice, no source",
	})
}

// inUnion judges the seal between two halves of one family. A seal of either
// joint will do: where two joints close on each other and differ, the step
// between their bores is the fault to report, once.
func inUnion(faults []Fault, up, down catalog.Joint, text string) []Fault {
	s := readSeal(text)
	f := Fault{Rule: RuleSealSize, Level: finding.Stop}
	switch {
	case s.none:
		f.Rule = RuleMissing
		f.Sentence = sentence(article(up.Name) + " has no seal here: it will leak, and soil will sit in the gap.")
		f.Advice = "Put in the seal of its size."
	case s.joint != "":
		made, _, ok := catalog.FindSeal(text)
		switch {
		case !ok:
			f.Sentence = unknownSeal(text)
		case made.Slug == up.Slug || made.Slug == down.Slug:
			return faults
		case made.Family == up.Family && (made.Face == up.Face || made.Face == down.Face):
			f.Sentence = "The seal is made for " + article(made.Name) + " and sits in " + article(up.Name) +
				": the two share what closes them but not the seal, which would stand into the bore or back from it."
		default:
			f.Sentence = "The seal is made for " + article(made.Name) + " and does not fit " + article(up.Name) + "."
		}
	case s.material != "":
		if _, ok := catalog.FindMaterial(s.material); ok {
			return faults
		}
		f.Sentence = unknownSeal(text)
	default:
		return faults
	}
	if f.Advice == "" {
		f.Advice = "Use the seal of " + article(up.Name) + ", or name only a material, such as epdm."
	}
	f.Basis = familyBasis(up.Family)
	return append(faults, f)
}

func unknownSeal(text string) string { return "No seal is known by the name \"" + text + "\"." }

// closeCall is how near to its limit a seal may be used without a word:
// compounds of one name differ by more than this. Common practice, no source.
const closeCall = q.Temperature(10)

// SealStands returns what is against a seal of the material in a medium (as
// in catalog.Stands; "" is not judged) at temperature t. What a small plant
// pumps is mostly water, so the limit in hot water counts where it is lower
// than the dry one.
func SealStands(material, medium string, t q.Temperature) []Fault {
	return stands("seals", material, medium, t)
}

// stands is SealStands of what, seals or hose linings.
func stands(what, material, medium string, t q.Temperature) []Fault {
	m, ok := catalog.FindMaterial(material)
	if !ok {
		return []Fault{{
			Rule:     RuleMedium,
			Level:    finding.Look,
			Sentence: "No seal material is known by the name " + material + ", so nothing can be said of how it stands the liquid.",
			Advice:   "Name a material of the catalogue, such as epdm.",
			Basis:    "the catalogue of seal materials",
		}}
	}
	var faults []Fault
	if f, ok := heat(m, what, t); ok {
		faults = append(faults, f)
	}
	if medium == "" {
		return faults
	}
	rating, _, source, ok := catalog.Stands(material, medium)
	f := Fault{Rule: RuleMedium, Basis: source}
	switch {
	case !ok:
		f.Level = finding.Look
		f.Sentence = "No source here says how " + m.Name + " " + what + " stand " + inWords(medium) + "."
		f.Advice = "Ask the maker of the " + what + ", and test one before the line relies on it."
		f.Basis = "common practice, no source"
	case rating == catalog.Avoid:
		f.Level = finding.Stop
		f.Sentence = m.Name + " " + what + " do not stand " + inWords(medium) + "."
		f.Advice = "Use " + what + " of another material; the catalogue rates each against " + inWords(medium) + "."
	case rating == catalog.Limited:
		f.Level = finding.Look
		f.Sentence = m.Name + " " + what + " stand " + inWords(medium) + " only to a degree, or only in some grades."
		f.Advice = "Have the maker confirm the grade, or use another material."
	default:
		return faults
	}
	return append(faults, f)
}

// heat holds t against the range of m, which what is made of.
func heat(m catalog.Material, what string, t q.Temperature) (Fault, bool) {
	highest := m.Highest
	if m.HotWater > 0 {
		highest = min(highest, m.HotWater)
	}
	f := Fault{Rule: RuleTemperature, Basis: m.Source}
	hot, most := q.Apart(t, highest)
	cold, least := q.Apart(t, m.Lowest)
	switch {
	case t > highest:
		f.Level = finding.Stop
		f.Sentence = m.Name + " " + what + " stand " + most + " in hot liquid; this is " + hot + ". They would harden or swell, and hot liquor would get out."
		f.Advice = "Cool the liquid, or use " + what + " that stand it."
	case t < m.Lowest:
		f.Level = finding.Stop
		f.Sentence = m.Name + " " + what + " stand cold down to " + least + "; this is " + cold + ". They would stiffen and leak."
		f.Advice = "Use " + what + " that stand the cold."
	case t > highest-closeCall:
		f.Level = finding.Look
		f.Sentence = sentence(hot + " is close to what " + m.Name + " " + what + " stand in hot liquid, " + most + ".")
		f.Advice = "Have the maker confirm the grade, and look at the " + what + " often."
	case t < m.Lowest+closeCall:
		f.Level = finding.Look
		f.Sentence = sentence(cold + " is close to the coldest that " + m.Name + " " + what + " stand, " + least + ".")
		f.Advice = "Have the maker confirm the grade."
	default:
		return Fault{}, false
	}
	return f, true
}

// inWords returns a medium's slug as words.
func inWords(medium string) string { return strings.ReplaceAll(medium, "-", " ") }
