package drain

import (
	"math"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

const (
	pointBasis = "common practice, no source: a hygienic line empties by itself and has no dead ends"
	stepBasis  = "common practice, no source: eccentric reducers with the flat side down in lines that must drain"

	// deadEnd is how far a capped branch may reach below or above the line, in
	// metres, before it counts: about what a cap's own shape does.
	deadEnd = 1e-3
)

// lows finds where liquid stays.
func (l *line) lows(bore []route.Section, r *Result) {
	z := make([]float64, len(bore))
	for i := range bore {
		z[i] = bore[i].Invert
	}
	for _, p := range pockets(z) {
		if l.opened(bore, p, -1) {
			continue
		}
		piece, at := l.middle(bore, p)
		depth := q.Length(p.depth)
		if step := l.step(bore, p); step != nil {
			r.Lows = append(r.Lows, Point{At: at, Ref: step.Ref})
			advice := "Take an eccentric one, flat side down."
			if eccentric(step) {
				advice = "Turn its flat side down."
			}
			r.Verdicts = append(r.Verdicts, finding.Verdict{
				Rule: "reducer-step", Level: finding.Look, Piece: step.Ref, Basis: stepBasis, Advice: advice,
				Sentence: named(step) + " holds liquid behind its step, up to " + q.Text(depth) + " deep.",
			})
			continue
		}
		r.Lows = append(r.Lows, Point{At: at, Ref: piece.Ref})
		r.Verdicts = append(r.Verdicts, finding.Verdict{
			Rule: "low-point", Level: finding.Look, Piece: piece.Ref, Basis: pointBasis,
			Sentence: "The line has a low point at " + named(piece) + ", " + q.Text(q.Length(at.Z)) + " above the floor: liquid stays there, up to " + q.Text(depth) + " deep, and spoils.",
			Advice:   "Let the line run down through it, or put a tee there with a drain valve pointing down.",
		})
	}
	l.deadEnds(bore, r, -1)
}

// highs finds where air stays, on a line whose start is open to the tank.
func (l *line) highs(bore []route.Section, r *Result) {
	z := make([]float64, len(bore))
	for i := range bore {
		z[i] = -bore[i].Crown
	}
	for _, p := range pockets(z) {
		if l.opened(bore, p, 1) {
			continue
		}
		piece, at := l.middle(bore, p)
		r.Highs = append(r.Highs, Point{At: at, Ref: piece.Ref})
		r.Verdicts = append(r.Verdicts, finding.Verdict{
			Rule: "high-point", Level: finding.Look, Piece: piece.Ref, Basis: pointBasis,
			Sentence: "The line has a high point at " + named(piece) + ", " + q.Text(q.Length(at.Z)) + " above the floor: air stays there, and " + l.harm(),
			Advice:   "Let the line run down through it, or put a tee there with a valve pointing up, to let the air out before the transfer starts.",
		})
	}
	l.deadEnds(bore, r, 1)
}

func (l *line) harm() string {
	if l.to == "the pump" {
		return "the pump may lose its prime."
	}
	return "the flow may stop."
}

// deadEnds finds the capped branches of tees that point down (way -1: soil
// settles in them) or up (way 1: they hold air).
func (l *line) deadEnds(bore []route.Section, r *Result, way float64) {
	for i := range l.pieces {
		for _, port := range l.pieces[i].Ports() {
			if port.End == nil || port.On == "valve" {
				continue
			}
			l.deadEnd(bore, r, i, port, way)
		}
	}
}

// deadEnd judges one capped branch of piece i.
func (l *line) deadEnd(bore []route.Section, r *Result, i int, port route.Port, way float64) {
	p := &l.pieces[i]
	reach := math.Inf(-1)
	for _, n := range bore {
		if n.Piece == i {
			reach = max(reach, way*n.Crown, way*n.Invert)
		}
	}
	tip := way*port.At.Z + float64(port.Bore())/2*route.Levelness(port.Dir)
	if tip <= reach+deadEnd {
		return
	}
	at := Point{At: port.At, Ref: p.Ref}
	v := finding.Verdict{Rule: "low-point", Level: finding.Look, Piece: p.Ref, Basis: pointBasis}
	what, instead := "The capped end of ", ", or put a drain valve on it."
	if way > 0 {
		instead = ", or put a valve on it that lets the air out."
	}
	if p.Kind == design.Pocket {
		what, instead = "The branch of ", ", or put it where the line runs steeply."
	}
	v.Advice = "Turn it level" + instead
	if way < 0 {
		r.Lows = append(r.Lows, at)
		v.Sentence = what + named(p) + " points down: it is a dead end where liquid stays and soil settles."
	} else {
		r.Highs = append(r.Highs, at)
		v.Rule = "high-point"
		v.Sentence = what + named(p) + " points up: it holds air, and cleaning does not reach it."
	}
	r.Verdicts = append(r.Verdicts, v)
}

// opened reports whether a valve at a tee's open port empties p (way -1: it
// points down) or lets its air out (way 1: up).
func (l *line) opened(bore []route.Section, p pocket, way float64) bool {
	for i := bore[p.from].Piece; i <= bore[p.to].Piece; i++ {
		for _, port := range l.pieces[i].Ports() {
			if port.End != nil && port.On == "valve" && way*port.Dir.Z > 0.5 {
				return true
			}
		}
	}
	return false
}

// step returns the reducer whose change of bore alone makes the pocket p: its
// lowest line rises away from the pocket though its axis does not. Nil when
// the line itself rises on both sides.
func (l *line) step(bore []route.Section, p pocket) *route.Piece {
	beside := func(i int, way float64) *route.Piece {
		next := i + int(way)
		if next < 0 || next >= len(bore) || bore[next].Piece != bore[i].Piece {
			return nil
		}
		r := &l.pieces[bore[i].Piece]
		if r.Kind != design.Reducer || way*r.In.Dir.Z > float64(level) {
			return nil
		}
		return r
	}
	if r := beside(p.to, 1); r != nil {
		return r
	}
	return beside(p.from, -1)
}

// eccentric reports whether a reducer's ends are out of line.
func eccentric(p *route.Piece) bool {
	return p.Out.At.Sub(p.In.At).Cross(p.In.Dir).Len() > hold
}

// middle returns the piece half way along p, and the point there.
func (l *line) middle(bore []route.Section, p pocket) (*route.Piece, route.Vec) {
	piece := &l.pieces[bore[(p.from+p.to)/2].Piece]
	return piece, bore[p.from].At.Add(bore[p.to].At).Scale(0.5)
}
