package holdup

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// branch is a port of a tee, cross, cock or pocket: a stub of tube from the
// bore that runs past it, square to that.
type branch struct {
	piece  *route.Piece
	port   route.Port
	far    bool // the one across from the first, of a cross
	centre route.Vec
	main   route.Vec // unit, along the bore that runs past
	reach  float64   // from the centre to the face at its end
	radius float64   // its own
	wall   float64   // radius of the bore that runs past
}

// newBranch returns the branch of p that ends at port.
func newBranch(p *route.Piece, port route.Port) *branch {
	b := &branch{piece: p, port: port, far: port.End == p.Fourth, centre: p.Path[0].To, radius: float64(port.Bore()) / 2}
	// A tee that the line leaves by its branch has its open end straight ahead:
	// what runs past that is the way out.
	last := &p.Path[len(p.Path)-1]
	b.main, b.wall = last.Dir, float64(last.BoreFrom)/2
	if math.Abs(b.main.Dot(port.Dir)) > 0.5 {
		b.main, b.wall = p.Path[0].Dir, float64(p.Path[0].BoreTo)/2
	}
	b.reach = port.At.Sub(b.centre).Len()
	b.radius = min(b.radius, b.wall)
	return b
}

// rim returns how far from the axis that runs past the branch's wall begins,
// y to the side of it.
func (b *branch) rim(y float64) float64 { return math.Sqrt(max(0, (b.wall-y)*(b.wall+y))) }

// mouth returns the height of the lowest point of the branch's opening into
// the bore: what stands higher in the branch runs out. Golden section would
// do as well; a turn of 720 points is right to a micrometre.
func (b *branch) mouth() float64 {
	side := b.main.Cross(b.port.Dir)
	low := math.Inf(1)
	for i := range 720 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 360)
		y := b.radius * sin
		low = min(low, b.radius*cos*b.main.Z+y*side.Z+b.rim(y)*b.port.Dir.Z)
	}
	return b.centre.Z + low
}

// tip returns the height of the lowest point of the branch's end.
func (b *branch) tip() float64 { return b.port.At.Z - b.radius*route.Levelness(b.port.Dir) }

// drains reports whether it is a valve that points down, by at least 30°.
func (b *branch) drains() bool { return b.port.On == "valve" && b.port.Dir.Z < -0.5 }

// holds returns what stands in the branch below level, outside the bore that
// runs past it: columns along the branch over its section, which are clipped
// at the level exactly, summed by the rule of 16 points in radius and 64 in angle.
func (b *branch) holds(level float64) float64 {
	side := b.main.Cross(b.port.Dir)
	const turns = 64
	sum := integral(func(r float64) float64 {
		ring := 0.0
		for i := range turns {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / turns)
			from := b.rim(r * sin)
			if from >= b.reach {
				continue
			}
			z := b.centre.Z + r*cos*b.main.Z + r*sin*side.Z
			ring += column(z, b.port.Dir.Z, from, b.reach, level)
		}
		return ring * 2 * math.Pi / turns * r
	}, 0, b.radius)
	return sum
}

// column returns how much of a thread from a to b, of height z + t slope, is below level.
func column(z, slope, a, b, level float64) float64 {
	if math.Abs(slope) < 1e-12 {
		if z < level {
			return b - a
		}
		return 0
	}
	at := min(b, max(a, (level-z)/slope))
	if slope > 0 {
		return at - a
	}
	return b - at
}

// DeadEnd is a branch that nothing flows through.
type DeadEnd struct {
	Ref        string   `json:"ref"`
	Name       string   `json:"name"`
	On         string   `json:"on"`         // what closes it: "cap", "valve" or "pocket"
	FromWall   float64  `json:"fromWall"`   // its length from the inner wall of the bore that runs past, in its own bores
	FromCentre float64  `json:"fromCentre"` // its length from the centreline of that bore, likewise
	Length     q.Length `json:"length"`     // from the inner wall
	Bore       q.Length `json:"bore"`
	Main       q.Length `json:"main"` // bore that runs past
	Lies       string   `json:"lies"` // which way, and what that does
	Up, Down   bool     `json:"-"`
	slug       string
}

// ends returns the branches of the line, the length of each to the face of
// what closes it.
func (l *line) ends() []DeadEnd {
	var out []DeadEnd
	for i := range l.cuts {
		for _, b := range l.cuts[i].branch {
			out = append(out, b.end())
		}
	}
	return out
}

func (b *branch) end() DeadEnd {
	length := max(0, b.reach-b.wall)
	e := DeadEnd{
		Ref: b.piece.Ref, Name: named(b.piece), On: b.port.On,
		FromWall: length / (2 * b.radius), FromCentre: b.reach / (2 * b.radius),
		Length: q.Length(length), Bore: q.Length(2 * b.radius), Main: q.Length(2 * b.wall),
		slug: b.piece.Ref,
	}
	if b.far {
		e.slug += "-far"
	}
	switch {
	case b.port.Dir.Z > 0.5:
		e.Up, e.Lies = true, "points up: it fills with air, and what cleans does not wet it"
	case b.port.Dir.Z < -0.5:
		e.Down, e.Lies = true, "points down: soil settles in it"
	case b.port.Dir.Z < -0.01:
		e.Lies = "lies nearly level, its end lower: the last of it stays"
	default:
		e.Lies = "lies level or nearly: it empties, and only eddies clean it"
	}
	return e
}

const (
	deadBasis   = "ASME BPE: L/D of 2 at most, L from the inner wall of the bore that runs past, D the branch's own bore, from memory"
	centreBasis = "the older convention, 6 bores from the centreline of the bore that runs past (proposed 21 CFR 212)"
	deadRange   = "a branch square to the bore, to the face of its cap or valve"
)

// tellEnds gives both lengths of every branch, and judges the one from the wall.
func (r *Result) tellEnds(limit float64) {
	for _, e := range r.Ends {
		bore := finding.In("d", "bore of the branch", e.Bore)
		reach := finding.In("a", "centreline of the bore that runs past, to the end", e.Length+e.Main/2)
		r.Figures = append(r.Figures, finding.Figure{
			Slug: "dead-end-" + e.slug, Name: "Branch, from the inner wall, in its own bores", Amount: q.Of(q.Number(e.FromWall)), Piece: e.Ref,
			Working: finding.Working{Formula: "L/D = (a - D/2)/d", Source: deadBasis, Range: deadRange,
				Inputs: []finding.Input{reach, finding.In("D", "bore that runs past", e.Main), bore}},
		}, finding.Figure{
			Slug: "dead-end-centre-" + e.slug, Name: "The same branch, from the centreline", Amount: q.Of(q.Number(e.FromCentre)), Piece: e.Ref,
			Working: finding.Working{Formula: "L/D = a/d", Source: centreBasis, Range: deadRange, Inputs: []finding.Input{reach, bore}},
		})
		if e.FromWall <= limit*(1+1e-9) {
			continue
		}
		limited := q.Of(q.Number(limit))
		long, most := bores(e.FromWall), bores(limit)
		if long == most {
			long, most = q.Apart(q.Number(e.FromWall), q.Number(limit))
		}
		r.Verdicts = append(r.Verdicts, finding.Verdict{
			Rule: "dead-end", Level: finding.Look, Piece: e.Ref, Figure: "dead-end-" + e.slug, Limit: &limited, Basis: deadBasis,
			Sentence: "The branch of " + e.Name + " is " + long + " of its own bore long from the inner wall (" + bores(e.FromCentre) + " from the centreline), more than " + most + ": what flows past does not clean it. It " + e.Lies + ".",
			Advice:   "Take a shorter branch, let the flow run through it, or take it apart at each cleaning.",
		})
	}
}

// bores writes a number of bores, "1.8".
func bores(x float64) string { return q.Text(q.Number(math.Round(x*10) / 10)) }
