package joint

import (
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
)

// familyFault tells of two halves of different unions. Where both have one
// face it is the worse: they go together in the hand, and do not seal.
func familyFault(up, down catalog.Half) Fault {
	f := Fault{
		Rule:     RuleFamily,
		Level:    finding.Stop,
		Sentence: sentence(article(up.Joint.Name) + " meets " + article(down.Joint.Name) + ": they are different unions and do not close, even where a thread or a flange seems to fit."),
		Advice:   "Change one end to the other union, or put an adaptor between them.",
		Basis:    familyBasis(up.Joint.Family) + "; " + familyBasis(down.Joint.Family),
	}
	pair := sentence(article(up.Joint.Name) + " meets " + article(down.Joint.Name))
	how := ""
	switch size, clamped := flange(up.Joint.Face); {
	case clamped && up.Joint.Face == down.Joint.Face:
		how = "the clamp closes, since both flanges are " + size
	case up.Joint.Thread != "" && up.Joint.Thread == down.Joint.Thread && threaded(up) != threaded(down):
		how = "the nut goes on, since both have thread " + up.Joint.Thread
	case alikeThreads(up.Joint.Thread, down.Joint.Thread):
		f.Sentence = pair + ": the threads look alike (" + up.Joint.Thread + " and " + down.Joint.Thread +
			"), but they are different unions and do not close. Never force a nut on."
	}
	if how != "" {
		f.Rule = RuleLookalike
		f.Sentence = pair + ": " + how + ", but the halves are of different unions and do not seal on each other. It may hold on the bench and let go under pressure."
	}
	return f
}

// threaded reports whether h carries the thread that the nut goes on: the
// first half of a family that is closed by a nut.
func threaded(h catalog.Half) bool {
	f, ok := catalog.FindFamily(h.Joint.Family)
	return ok && len(f.Halves) > 1 && h.Name == f.Halves[0]
}

// easilyMistaken is how near two threads of one pitch must be in diameter to
// be taken for each other, in mm. Common practice, no source.
const easilyMistaken = 3

// alikeThreads reports whether two threads have one pitch and nearly one
// diameter, as DIN 405 has them: "Rd 58 x 1/6".
func alikeThreads(a, b string) bool {
	x, pitchX, ok := thread(a)
	y, pitchY, also := thread(b)
	return ok && also && pitchX == pitchY && max(x-y, y-x) <= easilyMistaken
}

// thread reads "Rd 58 x 1/6" as 58 and "1/6".
func thread(name string) (diameter float64, pitch string, ok bool) {
	size, ok := strings.CutPrefix(name, "Rd ")
	if !ok {
		return 0, "", false
	}
	size, pitch, ok = strings.Cut(size, " x ")
	diameter, err := strconv.ParseFloat(size, 64)
	return diameter, pitch, ok && err == nil
}
