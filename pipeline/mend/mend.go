// Package mend finds ways out of what a report says: changes to the design
// that make one verdict sound, each tried on the whole plant before it is
// offered. It is asked for one verdict at a time, since every change that is
// tried checks the plant anew.
package mend

import (
	"sort"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Way is a change that makes a verdict sound.
type Way struct {
	Sentence string            // what to do: "Change the upstream end of piece 4 to a ring joint male part."
	Edits    []design.Edit     // that do it, made together
	Longer   q.Length          // what the line takes up more, less where it is negative; straights made to fit left out
	Joints   int               // how many joints more
	Brings   []finding.Verdict // what stops, or is to be looked at, only once it is done
}

// Stops reports whether w brings anything that stops.
func (w Way) Stops() bool { return finding.Worst(w.Brings) == finding.Stop }

// most is how many ways are offered for one verdict: more is a list to study.
const most = 4

// Ways returns the ways out of v, a verdict of r, which is the report on d:
// the ones that bring the least trouble first, at most four, none for a rule
// that no change here answers.
func Ways(d design.Design, r pipeline.Report, v finding.Verdict) []Way {
	if v.Level == finding.Sound || len(r.Faults) > 0 {
		return nil
	}
	var ways []Way
	for _, c := range proposals(d, r, v) {
		if w, ok := c.tried(d, r, v); ok {
			ways = append(ways, w)
		}
	}
	sort.SliceStable(ways, func(i, j int) bool {
		a, b := ways[i], ways[j]
		if a.Stops() != b.Stops() {
			return b.Stops()
		}
		if len(a.Brings) != len(b.Brings) {
			return len(a.Brings) < len(b.Brings)
		}
		return a.Joints < b.Joints
	})
	return ways[:min(len(ways), most)]
}

// proposal is a change that may be a way out.
type proposal struct {
	sentence string
	edits    []design.Edit
}

// subject is what a verdict is about: what rule, and which piece.
type subject struct{ rule, piece string }

// tried makes the change and checks the plant. It is a way out of v when v is
// gone, from its piece wherever that is now, and has not turned up elsewhere.
func (c proposal) tried(d design.Design, r pipeline.Report, v finding.Verdict) (Way, bool) {
	changed, faults := d.Apply(c.edits...)
	if len(faults) > 0 {
		return Way{}, false
	}
	after := pipeline.Check(changed)
	if len(after.Faults) > 0 {
		return Way{}, false
	}
	// What was said before, by where its piece is now.
	before := map[subject][]finding.Level{}
	for _, was := range r.Verdicts {
		if was.Level == finding.Sound || was.Rule == v.Rule && was.Piece == v.Piece && was.Sentence == v.Sentence {
			continue
		}
		at := was.Piece
		for _, e := range c.edits {
			at = e.Moved(at)
		}
		before[subject{was.Rule, at}] = append(before[subject{was.Rule, at}], was.Level)
	}
	w := Way{Sentence: c.sentence, Edits: c.edits}
	for _, now := range after.Verdicts {
		if now.Level == finding.Sound {
			continue
		}
		key := subject{now.Rule, now.Piece}
		if had := before[key]; len(had) > 0 && had[0] >= now.Level {
			before[key] = had[1:]
			continue
		}
		if now.Rule == v.Rule {
			return Way{}, false
		}
		w.Brings = append(w.Brings, now)
	}
	w.Longer = taken(after) - taken(r)
	w.Joints = len(after.Scene.Layout.Junctions) - len(r.Scene.Layout.Junctions)
	return w, true
}

// taken is how long a line is with what its straights made to fit take up left out.
func taken(r pipeline.Report) (sum q.Length) {
	for _, p := range r.Scene.Layout.Pieces() {
		sum += p.Length
		if p.Fit {
			sum -= p.Cut
		}
	}
	for _, j := range r.Scene.Layout.Junctions {
		sum += j.Gap.Length
	}
	return sum
}
