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
	_, clamped := flange(up.Joint.Face)
	switch {
	case up.Joint.Face != "" && up.Joint.Face == down.Joint.Face && (clamped || threaded(up) != threaded(down)):
		f.Rule = RuleLookalike
		how := "the nut goes on, since both have " + up.Joint.Face
		if clamped {
			size, _ := flange(up.Joint.Face)
			how = "the clamp closes, since both flanges are " + size
		}
		f.Sentence = pair + ": " + how + ", but the halves are of different unions and do not seal on each other. It may hold on the bench and let go under pressure."
	case alikeThreads(up.Joint.Face, down.Joint.Face):
		f.Sentence = pair + ": the threads look alike (" + bare(up.Joint.Face) + " and " + bare(down.Joint.Face) +
			"), but they are different unions and do not close. Never force a nut on."
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

// alikeThreads reports whether two faces are threads of one pitch and nearly
// one diameter, as DIN 405 has them: "thread Rd 58 x 1/6".
func alikeThreads(a, b string) bool {
	x, pitchX, ok := thread(a)
	y, pitchY, also := thread(b)
	return ok && also && pitchX == pitchY && max(x-y, y-x) <= easilyMistaken
}

// thread reads "thread Rd 58 x 1/6" as 58 and "1/6".
func thread(face string) (diameter float64, pitch string, ok bool) {
	size, ok := strings.CutPrefix(face, "thread Rd ")
	if !ok {
		return 0, "", false
	}
	size, pitch, ok = strings.Cut(size, " x ")
	diameter, err := strconv.ParseFloat(size, 64)
	return diameter, pitch, ok && err == nil
}

// bare returns a thread's designation without the word.
func bare(face string) string { return strings.TrimPrefix(face, "thread ") }
