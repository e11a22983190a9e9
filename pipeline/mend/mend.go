// Package mend finds ways out of what a report says: changes to the design
// that make one verdict sound, each tried on the whole plant before it is
// offered. It is asked for one verdict at a time, since every change that is
// tried checks the plant anew.
//
// A change is of one thing: a part turned, changed or put in, or a number
// moved in steps that a workshop can set (5 mm, a degree, the next tube). Of a
// number the least change that mends is sought. Where no single change mends
// without stopping something else, two are tried together.
package mend

import (
	"slices"
	"sort"
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Way is a change that makes a verdict sound.
type Way struct {
	Sentence string            // what to do: "Change the upstream end of piece 4 to a ring joint male part."
	Edits    []design.Edit     // that do it, made together
	Together int               // of how many changes it is made, since no single one does it; 0: it is one
	Longer   q.Length          // what the line takes up more, less where it is negative; what was made to fit before left out
	Joints   int               // how many joints more
	Brings   []finding.Verdict // what stops, or is to be looked at, only once it is done
	Trades   bool              // something of that presses more than what is mended: for a person to weigh

	last bool
}

// Stops reports whether w brings anything that stops.
func (w Way) Stops() bool { return finding.Worst(w.Brings) == finding.Stop }

// good reports whether w leads on: whoever takes only such ways comes to an
// end, since each leaves less that presses than there was, and nothing in its
// place that presses more.
func (w Way) good() bool { return !w.Trades && !w.Stops() }

// most is how many ways are offered for one verdict: more is a list to study.
const most = 4

// Ways returns the ways out of v, a verdict of r, which is the report on d:
// the ones that bring the least trouble first, then the simplest, at most
// four; none for a rule that no change here answers. When none of them is a
// single change that neither stops anything else nor brings what presses more,
// changes that do it together are looked for, and come first.
func Ways(d design.Design, r pipeline.Report, v finding.Verdict) []Way {
	if !Answers(v) || len(r.Faults) > 0 {
		return nil
	}
	m := newMender(d, r, v)
	return m.ways()
}

// Answers reports whether there may be ways out of v, without trying any.
func Answers(v finding.Verdict) bool {
	return v.Level != finding.Sound && answers(v) != nil
}

// mender is the plant in which a verdict is mended.
type mender struct {
	design, filled design.Design
	report         pipeline.Report
	verdict        finding.Verdict
	junctions      []route.Junction
	checks         int // of the whole plant, so far
}

func newMender(d design.Design, r pipeline.Report, v finding.Verdict) *mender {
	return &mender{design: d, filled: d.Filled(), report: r, verdict: v, junctions: r.Scene.Layout.Junctions}
}

func (m *mender) ways() []Way {
	proposals := answers(m.verdict)(m)
	ways := m.singles(proposals)
	if len(ways) == 0 || !ways[0].good() {
		if pair, ok := m.pair(proposals, ways); ok {
			ways = slices.Insert(ways, 0, pair)
		}
	}
	return ways[:min(len(ways), most)]
}

// singles returns the proposals that mend, the best first.
func (m *mender) singles(proposals []proposal) []Way {
	var ways []Way
	clean := 0 // that bring nothing: no later one can come before them
	for _, c := range proposals {
		w, ok := m.least(c)
		if !ok {
			continue
		}
		ways = append(ways, w)
		if len(w.Brings) == 0 {
			clean++
		}
		if clean == most {
			break
		}
	}
	sort.SliceStable(ways, func(i, j int) bool {
		a, b := ways[i], ways[j]
		if a.Trades != b.Trades {
			return b.Trades
		}
		if a.Stops() != b.Stops() {
			return b.Stops()
		}
		if len(a.Brings) != len(b.Brings) {
			return len(a.Brings) < len(b.Brings)
		}
		if a.last != b.last {
			return b.last
		}
		return a.Joints < b.Joints
	})
	return ways
}

// proposal is a change that may be a way out.
type proposal struct {
	sentence string
	edits    []design.Edit
	flows    bool // the flow is what it changes: tell what it becomes
	last     bool // it costs what is not told in joints: others that bring no more come first
	dial     *dial
}

// tried makes the change and checks the plant. It is a way out when the
// verdict is gone, from its piece wherever that is now, and has not turned up
// elsewhere.
func (m *mender) tried(c proposal) (Way, bool) {
	changed, faults := m.design.Apply(c.edits...)
	if len(faults) > 0 {
		return Way{}, false
	}
	m.checks++
	after := pipeline.Glance(changed)
	if len(after.Faults) > 0 {
		return Way{}, false
	}
	v := m.verdict
	v.Piece = moved(v.Piece, c.edits)
	before := troubles(m.report, c.edits)
	stays := func(brings []finding.Verdict) bool {
		return slices.ContainsFunc(brings, func(n finding.Verdict) bool { return n.Rule == v.Rule })
	}
	if stays(brought(before, troubles(after, nil), v)) {
		return Way{}, false // at a glance already
	}
	after = after.Whole()
	w := Way{Sentence: c.sentence, Edits: c.edits, last: c.last, Brings: brought(before, troubles(after, nil), v)}
	if stays(w.Brings) {
		return Way{}, false
	}
	w.Brings = append(w.Brings, m.further(after, v.Rule)...)
	w.Trades = slices.ContainsFunc(w.Brings, m.worse)
	if c.flows {
		w.Sentence = strings.TrimSuffix(w.Sentence, ".") + ": " + q.Text(mostFlow(after)) + " at most."
	}
	// What is made to fit now was cut to a length before: then all of the line counts.
	all := slices.ContainsFunc(c.edits, func(e design.Edit) bool { return strings.HasSuffix(e.Path, ".fit") })
	w.Longer = taken(after, all) - taken(m.report, all)
	w.Joints = len(after.Scene.Layout.Junctions) - len(m.junctions)
	return w, true
}

// worse reports whether v presses more than what is mended.
func (m *mender) worse(v finding.Verdict) bool { return !pipeline.Presses(m.verdict, v) }

// mostFlow is the greatest flow of the levels that were worked out.
func mostFlow(r pipeline.Report) (most q.Flow) {
	for i := range r.Scene.Points {
		most = max(most, r.Scene.Points[i].Flow)
	}
	return most
}

// troubles returns the verdicts that are not sound, each about the piece where
// it is after edits.
func troubles(r pipeline.Report, edits []design.Edit) (out []finding.Verdict) {
	for _, v := range r.Verdicts {
		if v.Level == finding.Sound {
			continue
		}
		v.Piece = moved(v.Piece, edits)
		out = append(out, v)
	}
	return out
}

// moved returns where the piece at path is after edits.
func moved(path string, edits []design.Edit) string {
	for _, e := range edits {
		path = e.Moved(path)
	}
	return path
}

// brought returns what is in after and was not in before, v taken out. A
// trouble of another rule that only turned up at another piece is the same
// one: what sits in many joints is told of the first.
func brought(before, after []finding.Verdict, v finding.Verdict) []finding.Verdict {
	had := make([]bool, len(before)) // once for each
	for i, b := range before {
		if b.Rule == v.Rule && b.Piece == v.Piece && b.Sentence == v.Sentence {
			had[i] = true
			break
		}
	}
	match := func(alike func(was, now finding.Verdict) bool) {
		after = slices.DeleteFunc(after, func(now finding.Verdict) bool {
			for i, was := range before {
				if !had[i] && was.Rule == now.Rule && was.Level >= now.Level && alike(was, now) {
					had[i] = true
					return true
				}
			}
			return false
		})
	}
	match(func(was, now finding.Verdict) bool { return was.Piece == now.Piece && topic(was) == topic(now) })
	match(func(_, now finding.Verdict) bool { return now.Rule != v.Rule })
	return after
}

// further returns the lines of after that end further from where they should
// than they did: that they did not meet it before makes that no better.
func (m *mender) further(after pipeline.Report, mended string) (out []finding.Verdict) {
	for _, now := range after.Verdicts {
		if now.Level != finding.Stop || !strings.HasPrefix(now.Rule, "meets-") || now.Rule == mended {
			continue
		}
		for _, was := range m.report.Verdicts {
			before, _ := m.report.Figure(was.Figure)
			gap, ok := after.Figure(now.Figure)
			if ok && was.Rule == now.Rule && was.Level == finding.Stop && gap.Amount.SI > before.Amount.SI+1e-3 {
				out = append(out, now)
			}
		}
	}
	return out
}

// topic tells verdicts of one rule on one piece apart: the needs of the stand
// each have their name before a colon.
func topic(v finding.Verdict) string {
	if name, _, ok := strings.Cut(v.Sentence, ": the outlet face "); ok {
		return name
	}
	return ""
}

// taken is how long a line is, but for all with what is made to fit left out.
func taken(r pipeline.Report, all bool) (sum q.Length) {
	for _, p := range r.Scene.Layout.Pieces() {
		sum += p.Length
		switch {
		case all:
		case p.Fit && p.Kind == design.Hose:
			sum -= p.Length
		case p.Fit:
			sum -= p.Cut
		}
	}
	for _, j := range r.Scene.Layout.Junctions {
		sum += j.Gap.Length
	}
	return sum
}
