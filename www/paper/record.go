package paper

import (
	"drawoff/pipeline/finding"
	"drawoff/www/view"
)

// record is what was asked of the plant, as it was typed, and what came of it:
// every verdict that is not sound, every figure, and what can hurt somebody.
func record(b view.Bench) string {
	r := b.Report
	var h html
	h.Raw(`<div class="said">`)
	h.Raw(view.Said(b))
	h.Raw("</div>")
	var rows [][]string
	sound := 0
	for _, v := range r.Verdicts {
		if v.Level == finding.Sound {
			sound++
			continue
		}
		word := "Look"
		if v.Level == finding.Stop {
			word = "Stop"
		}
		rows = append(rows, []string{word, where(r, v.Piece) + v.Sentence, v.Advice})
	}
	h.table("Verdicts", []string{"", "What is so", "What would help"}, rows)
	h.El("p", counted(sound, "rule is met.", "rules are met."))
	h.El("h3", "Take care")
	var care []string
	for _, c := range r.Cautions {
		if c != "" {
			care = append(care, c)
		}
	}
	h.bullets("", care)
	h.El("h3", "Figures")
	h.El("p", "Guidance for people who know their trade, not a certificate. The page shows the working and the source of every figure.")
	h.Raw(`<dl class="figures">`)
	for _, f := range r.Figures {
		amount := f.Amount.String()
		if f.Either != nil {
			amount += " ± " + f.Either.String()
		}
		h.Open("div")
		h.El("dt", f.Name)
		h.El("dd", amount)
		h.Close("div")
	}
	h.Raw("</dl>")
	return h.String()
}
