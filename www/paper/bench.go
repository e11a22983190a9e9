package paper

import (
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/finding"
	"drawoff/www/view"
)

// across is how wide a drawing is made for paper, in pixels of 1/96 in: the
// 186 mm that A4 leaves between its margins.
const across = 700

// bench is the plant from the side with its dimensions and the numbers of its
// pieces, and what they are.
func bench(b view.Bench) string {
	r := b.Report
	var h html
	var stops []string
	look := 0
	for _, v := range r.Verdicts {
		switch v.Level {
		case finding.Stop:
			stops = append(stops, where(r, v.Piece)+v.Sentence)
		case finding.Look:
			look++
		}
	}
	const told = 4
	if n := len(stops); n > 0 {
		h.Raw(`<div class="stop">`)
		h.El("p", "Do not build this yet: "+counted(n, "thing stops it.", "things stop it."), "class", "first")
		if n > told {
			stops = append(stops[:told], "and "+strconv.Itoa(n-told)+" more, on the last sheet")
		}
		h.bullets("", stops)
		h.Raw("</div>")
	}
	if look > 0 {
		h.El("p", counted(look, "thing is", "things are")+" to be looked at before it is built: see the last sheet.")
	}
	h.Raw(draw.Elevation(r, across, 1))
	h.El("p", "A number in a circle is a piece, in a triangle one to be looked at, in a square one that stops this.", "class", "fine")
	h.Open("ol", "class", "numbers")
	for _, p := range r.Pieces {
		h.Open("li")
		h.El("b", strconv.Itoa(p.Number))
		h.Text(" " + labelled(p))
		h.Close("li")
	}
	h.Close("ol")
	return h.String()
}

// pipes is the line as a pipe drawing.
func pipes(b view.Bench) string {
	const many = 30 // take the whole page, and the code the next
	switch n := len(b.Report.Pieces); {
	case n == 0:
		return ""
	case n > many:
		return `<div class="tall">` + draw.Isometric(b.Report, across) + "</div>"
	}
	return draw.Isometric(b.Report, across)
}

func labelled(p pipeline.Piece) string {
	if p.Name != "" {
		return p.Name + ": " + p.Label
	}
	return p.Label
}

// where says what piece a verdict is about, before its sentence.
func where(r pipeline.Report, ref string) string {
	if p, ok := pieceAt(r, ref); ok {
		return "No. " + strconv.Itoa(p.Number) + ", " + labelled(p) + ": "
	}
	return ""
}

func pieceAt(r pipeline.Report, ref string) (pipeline.Piece, bool) {
	for _, p := range r.Pieces {
		if p.Ref == ref {
			return p, true
		}
	}
	return pipeline.Piece{}, false
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
