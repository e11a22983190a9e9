package view

import (
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/mend"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/tokens"
)

// waysIDs are the ids of the places under verdicts that the workshop fills
// with their ways out: by rule and piece, and by number where one rule says
// more than one thing of a piece.
func waysIDs(verdicts []finding.Verdict) []string {
	ids, seen := make([]string, len(verdicts)), map[string]int{}
	for i := range verdicts {
		id := "ways:" + verdicts[i].Rule + ":" + verdicts[i].Piece
		if seen[id]++; seen[id] > 1 {
			ids[i] = id + ":" + strconv.Itoa(seen[id])
			continue
		}
		ids[i] = id
	}
	return ids
}

// Ways offers what would make each verdict sound, a button for each way, by
// the id of the element it fills. The verdicts of a report are some ten checks
// each, so it is for the workshop.
func Ways(b Bench) []Filled {
	var out []Filled
	ids := waysIDs(b.Report.Verdicts)
	for i, v := range b.Report.Verdicts {
		if v.Level == finding.Sound {
			continue
		}
		var h html
		if v.Rule == "assumed" {
			h.Raw(`<p><a href="#assumed-title">See what is assumed</a></p>`)
		}
		found := mend.Ways(b.Design, b.Report, v)
		if said := lead(v, found); said != "" {
			h.El("p", said, "class", "hint")
		}
		if len(found) > 0 && found[0].Together > 0 {
			h.ways("Changes that go together", found[:1])
			if found = found[1:]; len(found) > 0 {
				h.El("p", singly, "class", "hint")
			}
		}
		h.ways("Ways out", found)
		out = append(out, Filled{ids[i], h.String()})
	}
	return out
}

// numbers in words, as far as changes are chained.
var numbers = [...]string{2: "two", 3: "three", 4: "several"}

// singly leads to the single changes that are offered beside a pair.
const singly = "One change alone, which stops something else:"

// lead says what the ways out of v are where they are not each a change that
// does it alone; "" where one is. What is to be measured needs no change.
func lead(v finding.Verdict, found []mend.Way) string {
	switch {
	case len(found) == 0 && v.Measure == "" && mend.Answers(v):
		return "None of the single changes that were tried does it, and no two of them."
	case len(found) > 0 && found[0].Together > 0:
		return "No single change does it without stopping something else. These " + numbers[min(found[0].Together, len(numbers)-1)] + " together do:"
	case len(found) > 0 && found[0].Trades:
		return "Whatever was tried brings what presses more: weigh the one against the other."
	case len(found) > 0 && found[0].Stops():
		return "No change that was tried does it without stopping something else:"
	}
	return ""
}

func (h *html) ways(label string, found []mend.Way) {
	if len(found) == 0 {
		return
	}
	h.Open("ul", "class", "ways", "aria-label", label)
	for _, w := range found {
		h.Open("li")
		h.Open("button", "type", "button", "data-act", "mend", "data-value", w.Sentence, "data-edits", editsJSON(w.Edits))
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

// editsJSON writes edits as the page hands them back.
func editsJSON(edits []design.Edit) string {
	list := "["
	for i, e := range edits {
		if i > 0 {
			list += ","
		}
		var o tokens.Object
		o.Words("op", e.Op)
		o.Text("path", e.Path)
		o.Words("value", e.Value)
		list += o.String()
	}
	return list + "]"
}
