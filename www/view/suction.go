package view

import "drawoff/pipeline/draw"

// Suction is the suction head from full to the lowest level, and how much
// hotter or faster it may get. It takes longer than a keystroke: the workshop fills it.
func Suction(b Bench) (gist, content string) {
	var h html
	reserve := b.Report.Reserve()
	if len(reserve.Says) == 0 {
		h.El("p", "Nothing to show: no pump runs, or its points do not say what suction head it requires (NPSHr).", "class", "hint")
		return "no pump that says what it requires", h.String()
	}
	h.Raw(draw.SuctionHead(b.Report, reserve, min(b.Width, 520)))
	for _, s := range reserve.Says {
		h.El("p", s)
	}
	h.figures(reserve.Figures)
	f := b.Report.Figures
	gist = told(f, "", "suction-head-available-lowest") + told(f, " at the lowest level; the pump requires ", "suction-head-required-lowest")
	return b.gist(gist, "suction-margin", "boiling"), h.String()
}
