package pipeline

import (
	"slices"

	"drawoff/pipeline/finding"
)

// pressing are the rules whose verdicts come first among those of one level,
// in this order. First what can hurt somebody at once. Then where the tank
// stands and where the line ends, since to mend that moves all the rest, and
// what was mended before may have to be mended again; after it how the stand
// carries the tank at that height. Then what does not mate or cannot be cut: it
// stops the building. How it flows, drains and cleans follows, in the order of
// the flow: it is looked at best once the line is what will be built. Ours, no
// source.
var pressing = [...]string{
	"vent", "relief-valve", "surge", "joint-pressure", "boiling",
	"line-closed", "stand-height", "leg-length", "ceiling", "door", "meets-pump", "meets-delivery", "spring", "floor-space", "bucket-space", "reach",
	"leg-strength", "tipping", "push", "leg-brackets", "legs-clear",
	"tube-for-product", "union-for-product", "union-family", "look-alike", "union-size", "union-halves", "bore-step", "seal-missing", "seal-size", "cut-length", "measured-part",
}

// Presses reports whether a is to be done before b: what is graver, then what
// comes first in pressing, then what comes first by its rule's name.
func Presses(a, b finding.Verdict) bool {
	if a.Level != b.Level {
		return a.Level > b.Level
	}
	if x, y := rank(a.Rule), rank(b.Rule); x != y {
		return x < y
	}
	return a.Rule < b.Rule
}

// rank returns the place of a rule in pressing, its length for all others.
func rank(rule string) int {
	if i := slices.Index(pressing[:], rule); i >= 0 {
		return i
	}
	return len(pressing)
}

// mostPressingFirst returns verdicts by what to do first: by falling level,
// then as pressing has their rules, otherwise in their order.
func mostPressingFirst(verdicts []finding.Verdict) []finding.Verdict {
	out := make([]finding.Verdict, 0, len(verdicts))
	ranks := make([]int, len(verdicts))
	for i := range verdicts {
		ranks[i] = rank(verdicts[i].Rule)
	}
	for level := finding.Stop; len(out) < len(verdicts); level-- {
		for now := 0; now <= len(pressing); now++ {
			for i := range verdicts {
				if verdicts[i].Level == level && ranks[i] == now {
					out = append(out, verdicts[i])
				}
			}
		}
	}
	return out
}
