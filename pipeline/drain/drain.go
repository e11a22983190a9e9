// Package drain finds how every piece falls, the low points that cannot
// empty and the high points that hold air.
//
// It follows the lowest and the highest line of the bore, not its axis, since
// a change of bore holds liquid behind its step on a line that otherwise
// falls. What is judged is liquid at rest in a line that is open at both ends:
// it runs off to the tank, to the pump or to the outflow, or it stays.
//
// Left out: sag between supports, the film that wets a wall, what a pump or a
// valve holds inside, and steps at joints, which the joints' own check covers.
package drain

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what the check reads.
type Input struct {
	Layout route.Layout
	Least  q.Slope // least fall of a line that must drain
}

// Fall is how one piece falls along the flow.
type Fall struct {
	Ref      string
	Slope    q.Slope // of the bore's lowest line (a reducer: of its axis); falling is positive; 0 when Vertical
	Vertical bool    // it runs, or one of its ends does, steeper than 60° from level, up or down
}

// Point is a place in a line where liquid or air stays.
type Point struct {
	At  route.Vec // on the centreline, the middle of the stretch where it stands on a level
	Ref string    // the piece there
}

// Result is what the room has to say.
type Result struct {
	finding.Findings
	Falls []Fall  // every piece, in flow order
	Lows  []Point // of every line
	Highs []Point // of the line to the pump, or of all of it where there is no pump
}

// Check finds how the lines of a layout drain: the line from the tank to the
// pump (by gravity to the outflow), which must fall all the way, and the
// delivery, which runs back to the pump.
func Check(in Input) Result {
	l := &in.Layout
	pieces := l.Pieces()
	end := len(l.Under) + len(l.Run)
	first := line{pieces: pieces[:end], least: in.Least, to: "the pump", must: true}
	if l.Gravity {
		first.pieces, first.to = pieces, "the outflow"
	}
	r := Result{Falls: make([]Fall, 0, len(pieces))}
	first.check(&r)
	if !l.Gravity {
		delivery := line{pieces: pieces[end:], least: in.Least, to: "the pump"}
		delivery.check(&r)
	}
	r.Figures = append(r.Figures,
		counted("low-points", "Low points that hold liquid", "places where the lowest line of the bore rises both ways by more than 0.1 mm, and capped branches that reach below it", len(r.Lows)),
		counted("high-points", "High points that hold air", "places between the tank and the pump where the highest line of the bore falls both ways by more than 0.1 mm, and capped branches that reach above it", len(r.Highs)),
	)
	return r
}

// line is one line to be judged.
type line struct {
	pieces []route.Piece
	least  q.Slope
	to     string // where it drains to
	must   bool   // it must fall along the flow all the way; else it may run back
}

func (l *line) check(r *Result) {
	sound := len(r.Verdicts)
	l.falls(r)
	l.bodies(r)
	bore := route.Profile(l.pieces)
	l.lows(bore, r)
	if l.must {
		l.highs(bore, r)
		if sound == len(r.Verdicts) && len(l.pieces) > 0 {
			r.Verdicts = append(r.Verdicts, l.allFalls(r))
		}
	}
}

func counted(slug, name, formula string, n int) finding.Figure {
	return finding.Figure{
		Slug: slug, Name: name, Amount: q.Of(q.Number(n)),
		Working: finding.Working{Formula: "count of " + formula, Source: "geometry of the pieces as placed", Range: "straight tube between its joints, no sag between supports"},
	}
}
