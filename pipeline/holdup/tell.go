package holdup

import (
	"strconv"
	"strings"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

const (
	staysSource = "geometry of the pieces as placed: the wet part of the bore integrated along its centreline"
	staysRange  = "lines open to the air at both ends, at rest; straight tube between its joints; what is assumed of a valve's ring or dam is said beside its pool"
)

// tell gives the sums, and one verdict on all that stays in the lines.
func (r *Result) tell(in *Input, lines []line) {
	count := finding.In("n", "low points that hold it", q.Number(len(r.Pools)))
	line := finding.Figure{
		Slug: "stays-line", Name: "Stays in the lines, every drain valve opened", Amount: q.Of(r.Left),
		Working: finding.Working{Formula: "V = Σ of n pools: ∫ A ds below the level to which each is held", Source: staysSource, Range: staysRange, Inputs: []finding.Input{count}},
	}
	shut := line
	shut.Slug, shut.Name, shut.Amount = "stays-shut", "Stays in the lines, the drain valves shut", q.Of(r.Held)
	all := finding.Figure{
		Slug: "stays-in-all", Name: "Stays behind in all, without the film", Amount: q.Of(r.InAll()),
		Working: finding.Working{Formula: "V = V_l + V_p + V_t", Source: "sum", Range: staysRange, Inputs: []finding.Input{
			finding.In("V_l", "in the lines", r.Left), finding.In("V_p", "in the pump's casing", in.Casing), finding.In("V_t", "in the tank, under its outlet's lower edge", r.Heel)}},
	}
	r.Figures = append(r.Figures, line, shut, all)
	r.tellEnds(in.Limit)
	r.tellAir(in, lines)
	r.verdict()
}

// verdict tells of the pools that no valve empties. Which piece is to blame is
// for the judgement of falls and low points to say: this says how much.
func (r *Result) verdict() {
	v := finding.Verdict{Rule: "stays-behind", Figure: "stays-line", Basis: staysSource}
	most, places, name := q.Volume(0), 0, ""
	for i := range r.Rest {
		p := &r.Rest[i]
		if p.Volume < least {
			continue
		}
		places++
		if p.Volume > most {
			most, v.Piece, name = p.Volume, p.Ref, p.Name
		}
	}
	switch {
	case places > 0:
		v.Level = finding.Look
		v.Sentence = q.Text(r.Left) + " stay in the lines that no drain valve empties, in " + plural(places, "place", "places") + ", most of it, " + q.Text(most) + ", at " + name + "."
		v.Advice = "See under what stays behind where a drain valve would have to go, and what turning a piece would save."
	case r.Held >= least:
		v.Sentence = "With every drain valve opened nothing stays in the lines but a film; with them shut, " + q.Text(r.Held) + "."
	default:
		v.Sentence = "Nothing stays in the lines but a film: they run off to their ends."
	}
	r.Verdicts = append(r.Verdicts, v)
}

// least is the volume that counts as some: a few drops.
const least = q.Volume(0.1e-6)

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// listed joins words as a sentence does: "a, b and c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
