package route

import (
	"strings"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// label says what a piece is, as it would be asked for: "90° bend, 1½ in".
func label(p *Piece, shape string) string {
	size := p.In.Half.Tube.Size
	switch p.Kind {
	case design.Straight:
		return "straight, " + size + ", " + q.Tape(p.Cut)
	case design.Hose:
		return "hose, " + size + ", " + q.Text(p.Length)
	case design.Bend:
		what := " bend, "
		if shape == "long" {
			what = " long bend, "
		}
		return q.Text(p.Turned) + what + size
	case design.Reducer:
		if shape == "" {
			shape = "concentric"
		}
		what := " reducer, "
		if p.Out.Half.Tube.OD > p.In.Half.Tube.OD {
			what = " enlarger, "
		}
		return shape + what + fromTo(size, p.Out.Half.Tube.Size)
	case design.Tee:
		if shape == "branch" {
			return "tee, out by the branch, " + size
		}
		return "tee, " + size
	case design.Butterfly:
		return "butterfly valve, " + size + partly(p)
	case design.Ball:
		return "ball valve, " + size + partly(p)
	}
	if k, ok := design.FindKind(p.Kind); ok && p.Kind != design.Cap {
		return k.Name + ", " + size
	}
	return p.Kind + ", " + size
}

// partly says how far a valve is open, where that is not fully.
func partly(p *Piece) string {
	if open := p.Said.Open.Or(90 * q.Degree); open < 90*q.Degree {
		return ", " + q.Text(open) + " open"
	}
	return ""
}

// fromTo names two sizes, the unit once where they share it: "2½ to 1½ in".
func fromTo(from, to string) string {
	i, j := strings.LastIndexByte(from, ' '), strings.LastIndexByte(to, ' ')
	if i > 0 && j > 0 && from[i:] == to[j:] && (from[i:] == " in" || from[i:] == " mm") {
		from = from[:i]
	}
	return from + " to " + to
}
