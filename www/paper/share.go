package paper

import (
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/www/view"
)

// Share is what a person hands on: the link as a code for somebody else's
// phone, and a summary in words with the link under it. Address is that of the
// page.
func Share(b view.Bench, address string) (gist, content string) {
	address += "#" + design.WriteLink(b.Design)
	var h html
	h.Raw(`<div class="share">`)
	if code, ok := codeOf(address); ok {
		h.code(code)
		gist = "a code for a phone, a link, or in words"
		h.El("p", "Point a phone at the code to open this plant there.")
	} else {
		gist = "a link, or in words"
		h.El("p", "The link is "+strconv.Itoa(len(address))+" characters long, too long for a code that a phone reads. Send it as text or save the file.")
	}
	h.Raw(`<label for="summary">In words, with the link</label>`)
	h.El("textarea", Summary(b, address), "id", "summary", "readonly", "", "rows", "8")
	h.Raw(`<p class="forms"><button type="button" id="copy-summary">Copy as text</button> <button type="button" id="send-summary">Share…</button> <button type="button" id="short-link">Make a short link</button></p>`)
	h.El("p", "The link holds the whole plant and is kept by nobody. A short link leaves the plant with the host of this page, for whoever knows the link, and cannot be taken back.", "class", "hint")
	h.Raw(`</div>`)
	return gist, h.String()
}

// Summary is the report in a few lines: what stops it, what is to be looked
// at, the figures that somebody asks for first, and the link.
func Summary(b view.Bench, link string) string {
	r := b.Report
	var lines []string
	if r.Title != "" {
		lines = append(lines, r.Title, "")
	}
	sound := true
	for _, v := range r.Verdicts { // the gravest come first
		if v.Level != finding.Sound {
			sound = false
			lines = append(lines, strings.ToUpper(v.Level.String()[:1])+v.Level.String()[1:]+": "+where(r, v.Piece)+v.Sentence)
		}
	}
	if sound {
		lines = append(lines, "Sound as drawn: every rule that Drawoff knows is met.")
	}
	lines = append(lines, "")
	for _, slug := range []string{"outlet-height", "leg-length", "flow-full", "flow-lowest"} {
		if f, ok := r.Figure(slug); ok {
			lines = append(lines, f.Name+": "+f.Amount.String())
		}
	}
	return strings.Join(append(lines, "", "Guidance for people who know their trade, not a certificate. The whole plant:", link), "\n")
}
