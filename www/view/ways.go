package view

import (
	"strings"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/mend"
	q "drawoff/pipeline/quantity"
)

// atOnce is how many verdicts have their ways out shown unasked: finding them
// checks the plant some ten times for each, and every keystroke shows them anew.
const atOnce = 3

// ways offers what would make v sound, each with a button that does it. left
// is how many verdicts still have theirs unasked.
func (h *html) ways(b Bench, v finding.Verdict, left *int) {
	if !mend.Answers(v) {
		return
	}
	if *left--; *left < 0 && b.Asked != (Asked{v.Rule, v.Piece}) {
		h.Open("button", "type", "button", "data-act", "ways", "data-rule", v.Rule, "data-path", v.Piece)
		h.Text("Ways out…")
		h.Close("button")
		return
	}
	found := mend.Ways(b.Design, b.Report, v)
	if len(found) == 0 {
		return
	}
	h.Open("ul", "class", "ways", "aria-label", "Ways out")
	for _, w := range found {
		h.Open("li")
		h.Open("button", "type", "button", "data-act", "mend", "data-rule", v.Rule, "data-path", v.Piece, "data-value", w.Sentence)
		h.Text(strings.TrimSuffix(w.Sentence, "."))
		h.Close("button")
		if what := cost(w); what != "" {
			h.El("small", what, "class", "hint")
		}
		h.Close("li")
	}
	h.Close("ul")
}

// brings is how many things that a way out brings are told in full. Whatever
// stops always is: reports have the gravest first.
const brings = 2

// cost tells what a way out takes: length, joints, and what it brings; ""
// where it takes nothing.
func cost(w mend.Way) string {
	var words []string
	switch {
	case w.Longer >= q.Millimetre/2:
		words = append(words, q.Text(w.Longer)+" longer")
	case w.Longer <= -q.Millimetre/2:
		words = append(words, q.Text(-w.Longer)+" shorter")
	}
	switch {
	case w.Joints > 0:
		words = append(words, count(w.Joints, "joint more", "joints more"))
	case w.Joints < 0:
		words = append(words, count(-w.Joints, "joint less", "joints less"))
	}
	s := strings.Join(words, ", ")
	if s != "" {
		s += "."
	}
	for i, v := range w.Brings {
		if i >= brings && v.Level != finding.Stop {
			return s + " And " + count(len(w.Brings)-i, "thing more to look at.", "things more to look at.")
		}
		if s != "" {
			s += " "
		}
		s += "But then, " + strings.ToLower(word(v.Level)) + ": " + v.Sentence
	}
	return s
}
