package drain

import (
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/route"
)

// down is how far from level, as the sine, a port points that empties a body.
const down = 0.5

// bodies judges what a body holds by its make, whatever the line does. A seat
// valve empties by the port that points down; the dam of a diaphragm valve
// stands across the bore; a non-return valve keeps what stands over it from running back.
// Common practice, no source; that diaphragm valves are turned to a drain
// angle which their maker gives is of the same kind.
func (l *line) bodies(r *Result) {
	for i := range l.pieces {
		p := &l.pieces[i]
		v := finding.Verdict{Rule: "body-holds", Level: finding.Look, Piece: p.Ref, Basis: "common practice, no source"}
		steep := route.Steep(p.In.Dir)
		switch {
		case p.Kind == design.Seat && p.In.Dir.Z < down && p.Out.Dir.Z > -down:
			v.Sentence = named(p) + " holds liquid in its body: neither of its ports is at the bottom."
			v.Advice = "Turn it, or the line before it, so that one port points down."
		case p.Kind == design.Diaphragm && !steep:
			v.Sentence = named(p) + " holds liquid behind its dam unless its body is turned to the angle at which it empties."
			v.Advice = "Ask its maker for that angle and mount it so, its spindle nearly level."
		case p.Kind == design.NonReturn && !l.must && p.In.Dir.Z > float64(level):
			v.Sentence = named(p) + " keeps what stands over it from running back: that part of the line does not empty."
			v.Advice = "Put a drain valve over it, or leave it out and shut a valve by hand."
		default:
			continue
		}
		r.Verdicts = append(r.Verdicts, v)
	}
}
