package drain

import (
	"math"
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// fallBasis is where the usual least fall, 1 in 100, comes from.
const fallBasis = "1 in 100: Handbook of Hygiene Control in the Food Industry (Woodhead 2005) section 17.2; ASME BPE slope designation GSD2, 10 mm/m, from memory"

// level is the slope below which nobody can tell a piece from a level one:
// a hundredth of a millimetre in a metre.
const level q.Slope = 1e-5

// fall returns how p falls: what the lowest line of its bore comes down from
// end to end, over the level run of its centreline. A reducer falls as its
// axis does: its step is judged as a low point.
func fall(p *route.Piece) (f Fall, drop, run q.Length) {
	f.Ref = p.Ref
	if len(p.Path) == 0 || p.Kind != design.Hose && (route.Steep(p.In.Dir) || route.Steep(p.Out.Dir)) {
		f.Vertical = true
		return f, 0, 0
	}
	first, last := p.Path[0].SectionAt(0), p.Path[len(p.Path)-1].SectionAt(1)
	length := p.Length
	if p.Kind == design.Hose {
		// It is judged as it is drawn, taut.
		length = q.Length(last.At.Sub(first.At).Len())
	}
	rise := last.At.Z - first.At.Z
	drop = q.Length(first.Invert - last.Invert)
	if p.Kind == design.Reducer {
		drop = q.Length(-p.In.Dir.Z) * length
		rise = -float64(drop)
	}
	run = q.Length(math.Sqrt(max(0, float64(length*length)-rise*rise)))
	switch {
	case route.Steep(last.At.Sub(first.At).Unit()), run <= 1e-9 && route.Steep(p.In.Dir):
		f.Vertical = true
	case run > 1e-9:
		f.Slope = q.Slope(drop / run)
	default: // a piece of no length falls as it points
		f.Slope = q.Slope(-p.In.Dir.Z / route.Levelness(p.In.Dir))
	}
	if f.Vertical {
		return f, 0, 0
	}
	return f, drop, run
}

// falls judges every piece and notes the flattest of a line that must fall.
func (l *line) falls(r *Result) {
	least := -1
	var flattest, drop, run float64
	at := len(r.Verdicts)
	for i := range l.pieces {
		p := &l.pieces[i]
		f, d, n := fall(p)
		r.Falls = append(r.Falls, f)
		if v, ok := l.judge(p, f); ok {
			r.Verdicts = append(r.Verdicts, v)
		}
		if !f.Vertical && (least < 0 || float64(f.Slope) < flattest) {
			least, flattest, drop, run = i, float64(f.Slope), float64(d), float64(n)
		}
	}
	if !l.must || least < 0 {
		return
	}
	ref := l.pieces[least].Ref
	for i := range r.Verdicts[at:] {
		if v := &r.Verdicts[at+i]; v.Piece == ref && v.Limit != nil {
			v.Figure = "least-fall"
		}
	}
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "least-fall", Name: "Least fall between the tank and " + l.to,
		Amount: q.Of(q.Slope(flattest)), Piece: ref,
		Working: finding.Working{
			Formula: "s = Δz/l, the least of all pieces that do not run steeply",
			Inputs: []finding.Input{
				finding.In("Δz", "what the lowest line of the bore comes down", q.Length(drop)),
				finding.In("l", "level run of the centreline", q.Length(run)),
			},
			Source: "geometry of the pieces as placed, take-outs from the catalogue",
			Range:  "pieces up to 60° from level; no sag between supports",
		},
	})
}

// judge returns the verdict on how one piece falls, if there is one to give.
func (l *line) judge(p *route.Piece, f Fall) (finding.Verdict, bool) {
	if p.Unlaid {
		return finding.Verdict{
			Rule: "fall", Level: finding.Look, Piece: p.Ref, Basis: "a fall is counted over a level run",
			Sentence: named(p) + " runs too steeply to be laid to a fall: the fall typed for it has no effect.",
			Advice:   "Take its fall out, or turn the piece before it so that it runs nearly level.",
		}, true
	}
	if p.Sags() {
		return finding.Verdict{
			Rule: "fall", Level: finding.Look, Piece: p.Ref, Basis: "common practice, no source",
			Sentence: named(p) + " is longer than the way it is led: where it sags it holds liquid.",
			Advice:   "Shorten it, or lead it over a support so that it falls all the way, and lift it to empty it.",
		}, true
	}
	enough := l.least*(1-1e-6) - 1e-9 // a fall typed as the limit meets it, rounded as it may be
	if f.Vertical || f.Slope >= enough || !l.must && f.Slope <= -enough {
		return finding.Verdict{}, false
	}
	limit := q.Of(l.least)
	v := finding.Verdict{
		Rule: "fall", Level: finding.Look, Piece: p.Ref, Limit: &limit, Basis: fallBasis,
		Advice: l.advice(),
	}
	slope := q.Slope(math.Abs(float64(f.Slope)))
	falls, least := q.Apart(slope, l.least)
	switch {
	case slope < level:
		v.Sentence = named(p) + " lies level: it does not empty by itself, and what stays in it spoils."
	case f.Slope > 0 || !l.must:
		v.Sentence = named(p) + " falls " + falls + ", flatter than " + least + ": it empties slowly and never quite."
	default:
		v.Level = finding.Stop
		v.Sentence = named(p) + " rises " + q.Text(slope) + " towards " + l.to + ": liquid stays behind it and air gathers at its upper end."
	}
	return v, true
}

func (l *line) advice() string {
	if l.least < level {
		return "Lay it level, or to fall towards " + l.to + "."
	}
	to := "towards " + l.to
	if !l.must {
		to += " or the outflow"
	}
	return "Lay it to fall by at least " + q.Text(l.least) + ", " + perMetre(l.least) + ", " + to + "."
}

// allFalls is the one verdict on a line that has nothing against it.
func (l *line) allFalls(r *Result) finding.Verdict {
	limit := q.Of(l.least)
	v := finding.Verdict{
		Rule: "fall", Level: finding.Sound, Piece: l.pieces[0].Ref, Limit: &limit, Basis: fallBasis,
		Sentence: "The line runs steeply down all the way from the tank to " + l.to + ".",
	}
	for _, f := range r.Figures {
		if f.Slug == "least-fall" {
			v.Piece, v.Figure = f.Piece, f.Slug
			v.Sentence = "The line falls all the way from the tank to " + l.to + ", nowhere flatter than " + f.Amount.String() + "."
		}
	}
	return v
}

// perMetre says a slope as it is set with a spirit level.
func perMetre(s q.Slope) string {
	run, each := q.Run()
	return q.Text(q.Length(s)*run) + " in every " + each
}

// named is how a piece is called at the start of a sentence.
func named(p *route.Piece) string {
	return "No " + strconv.Itoa(p.Number) + " (" + p.Label + ")"
}
