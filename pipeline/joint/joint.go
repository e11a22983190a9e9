// Package joint decides what mates with what, which seal belongs in a joint,
// and whether that seal stands the liquid and its heat.
//
// It knows two things of a joint: that the halves close on each other, and
// that the bores meet without a step. They are not the same thing: a clamp
// closes over a ledge that nobody sees from outside.
package joint

import (
	"drawoff/catalog"
	"drawoff/pipeline/finding"
)

// Fault is one thing wrong between two ends and a seal.
type Fault struct {
	_        [0]func() // no ==: the page would load it
	Rule     string    // slug in words
	Level    finding.Level
	Sentence string
	Advice   string
	Basis    string
}

// The rules of a joint.
const (
	RuleFamily      = "union-family"     // halves of different unions, or a tube end on half of a union
	RuleLookalike   = "look-alike"       // halves of different unions that close on each other and do not seal
	RuleSize        = "union-size"       // faces that do not close on each other
	RuleHalves      = "union-halves"     // two halves of one kind where the union wants one of each
	RuleStep        = "bore-step"        // the tubes do not line up
	RuleMissing     = "seal-missing"     // a union without a seal
	RuleSealSize    = "seal-size"        // a seal of another joint
	RuleTemperature = "seal-temperature" // the seal is too hot or too cold
	RuleMedium      = "seal-medium"      // the liquid attacks the seal
	RuleCleaning    = "seal-cleaning"    // what the line is cleaned with attacks the seal
	RuleLining      = "hose-lining"      // the liquid, its heat or what the line is cleaned with attacks a hose
	RulePressure    = "joint-pressure"   // more pressure than the joint is rated for
	RuleStrip       = "strip-to-clean"   // a union that does not come clean while it is closed
	RuleSound       = "joints-close"     // nothing of the above
)

// No seal, as a design says it.
const noSeal = "none"

// Mate returns everything wrong between two ends and the seal between them,
// each fault once, whichever of the two is called up. Seal is a material slug
// ("epdm", or "" for whichever) for the right size of seal, the slug of one
// seal ("clamp/1in/seal/epdm"), or "none". Limit is the largest step on one
// side as a part of the thinner wall, 0.15 in ASME BPE.
//
// Any two ends have an answer; none makes it panic.
func Mate(up, down catalog.Half, seal string, limit float64) []Fault {
	var faults []Fault
	switch {
	case up.Plain() != down.Plain():
		faults = append(faults, plainToUnion(up, down))
	case up.Plain():
		faults = unsealed(faults, "this joint is welded", seal)
	case up.Joint.Family != down.Joint.Family:
		faults = append(faults, familyFault(up, down))
	default:
		if f, ok := halvesFault(up, down); ok {
			faults = append(faults, f)
		}
		closes := up.Joint.Face == down.Joint.Face
		if !closes {
			faults = append(faults, sizeFault(up, down))
		}
		if f, _ := catalog.FindFamily(up.Joint.Family); f.Unsealed {
			faults = unsealed(faults, "this is "+article(up.Joint.Name), seal)
		} else {
			faults = inUnion(faults, up.Joint, down.Joint, seal)
		}
		if !closes {
			// The sizes are wrong altogether; the step in the bore only says so again.
			return faults
		}
	}
	if f, ok := stepFault(up, down, limit); ok {
		faults = append(faults, f)
	}
	return faults
}

func plainToUnion(up, down catalog.Half) Fault {
	tube, union := up, down
	if down.Plain() {
		tube, union = down, up
	}
	other := partner(union)
	return Fault{
		Rule:     RuleFamily,
		Level:    finding.Stop,
		Sentence: "A tube end (" + tube.Tube.Name + ") meets " + article(union.Joint.Name+" "+noun(union.Name)) + ": there is nothing for it to close on.",
		Advice:   "Weld " + article(noun(other)) + " of the same joint on the tube end, or make both ends plain and weld them.",
		Basis:    familyBasis(union.Joint.Family),
	}
}

// halvesFault finds two halves of one kind. A union with one kind of half
// closes on itself; one that the catalogue does not know is taken at its word.
func halvesFault(up, down catalog.Half) (Fault, bool) {
	f, ok := catalog.FindFamily(up.Joint.Family)
	if !ok || len(f.Halves) < 2 || up.Name != down.Name {
		return Fault{}, false
	}
	return Fault{
		Rule:  RuleHalves,
		Level: finding.Stop,
		Sentence: "Two " + f.Name + " " + noun(up.Name) + "s meet here and cannot close: a joint needs " +
			article(noun(f.Halves[0])) + " and " + article(noun(f.Halves[1])) + ".",
		Advice: "Turn one piece round, or change one of the two ends to " + article(noun(partner(up))) + ".",
		Basis:  familyBasis(f.Slug),
	}, true
}

func sizeFault(up, down catalog.Half) Fault {
	return Fault{
		Rule:  RuleSize,
		Level: finding.Stop,
		Sentence: sentence(article(up.Joint.Name) + " meets " + article(down.Joint.Name) +
			" and they do not close" + apart(up.Joint, down.Joint) + "."),
		Advice: "Make both ends one size, or put a reducer between them.",
		Basis:  up.Joint.Source,
	}
}

func familyBasis(slug string) string {
	f, ok := catalog.FindFamily(slug)
	if !ok || f.Standard == "" {
		return "common practice, no source"
	}
	return f.Standard
}
