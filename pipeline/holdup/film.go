package holdup

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

const (
	filmSource = "Jeffreys, Proc. Camb. Phil. Soc. 26 (1930) 204: the mean film on an upright wall is 2/3 √(ν L/(g t))"
	filmRange  = "thin liquids that wet the wall, long after it has run dry; without what surface tension holds at edges and gaskets"
)

// FilmThickness returns the mean thickness of the film on a wall of that
// length, down which it has drained for a time, in metres: Jeffreys' law.
// pull is gravity's part along the wall, m/s².
func FilmThickness(nu float64, length q.Length, pull float64, t q.Duration) float64 {
	if !(nu > 0 && length > 0 && pull > 0 && t > 0) {
		return 0
	}
	return 2.0 / 3 * math.Sqrt(nu*float64(length)/(pull*float64(t)))
}

// girth is the mean film on the wall of a level tube, in √(ν R/(g t)). With
// gravity's part along the girth g sin φ the balance of Jeffreys gives
// h² = (ν R/(g t)) sin^(-2/3) φ ∫ sin^(-1/3), from the crown φ = 0 down. Its
// mean over the girth is this number; towards the invert, where the film
// gathers and runs off along the tube, it is no longer thin.
const girth = 1.8308

// film returns the film in one segment of tube. What drains it is whichever
// is quicker: along it from top, the height of wall above it that drains into
// it, or around its girth.
func film(s *route.Segment, above, nu float64, t q.Duration) float64 {
	area := math.Pi * float64(s.BoreFrom+s.BoreTo) / 2 * float64(s.Length)
	at, dir := s.Point(0.5)
	_ = at
	radius := float64(s.BoreFrom+s.BoreTo) / 4
	best := math.Inf(1)
	if pull := gravity * math.Abs(dir.Z); pull > 1e-9 {
		best = alongFilm(above, above+float64(s.Length), nu, pull, t)
	}
	if pull := gravity * route.Levelness(dir); pull > 1e-9 {
		best = min(best, girth*math.Sqrt(nu*radius/(pull*float64(t))))
	}
	// No more than the bore holds.
	return min(area*best, math.Pi*radius*radius*float64(s.Length))
}

// alongFilm is the mean of Jeffreys' film √(ν x/(g t)) from x = a to b down a wall.
func alongFilm(a, b, nu, pull float64, t q.Duration) float64 {
	if b-a < 1e-9 {
		return math.Sqrt(nu * b / (pull * float64(t)))
	}
	return 2.0 / 3 * math.Sqrt(nu/(pull*float64(t))) * (b*math.Sqrt(b) - a*math.Sqrt(a)) / (b - a)
}

// films reckons what wets the walls: of the tank from its full level down,
// and of every line.
func (r *Result) films(in *Input, lines []line) {
	if !in.Newtonian || in.Density <= 0 || in.Time <= 0 {
		return
	}
	nu := float64(in.Viscosity) / float64(in.Density)
	wall := in.Full - in.Vessel.BottomDepth()
	if wall > 0 {
		area := math.Pi * float64(in.Vessel.Bore) * float64(wall)
		v := q.Volume(FilmThickness(nu, wall, gravity, in.Time) * area)
		r.Films = append(r.Films, Film{"the tank's shell", v})
		r.Figures = append(r.Figures, finding.Figure{
			Slug: "film-tank", Name: "Film on the tank's shell, after the drain time", Amount: q.Of(v), Piece: "tank",
			Working: finding.Working{Formula: "V = π D L 2/3 √(ν L/(g t))", Source: filmSource, Range: filmRange + "; the bottom of the tank comes on top", Inputs: []finding.Input{
				finding.In("D", "bore of the tank", in.Vessel.Bore), finding.In("L", "wet height of the shell", wall), finding.In("ν", "kinematic viscosity, m²/s", q.Number(nu)),
				finding.In("g", "gravity, m/s²", q.Number(gravity)), finding.In("t", "drain time", in.Time)}},
		})
	}
	sum := 0.0
	for i := range lines {
		v := lines[i].film(nu, in.Time)
		sum += v
		if v > 0 {
			r.Films = append(r.Films, Film{lines[i].name, q.Volume(v)})
		}
	}
	if sum == 0 {
		return
	}
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "film-line", Name: "Film on the walls of the lines, after the drain time", Amount: q.Of(q.Volume(sum)),
		Working: finding.Working{Formula: "V = Σ of each piece: its wall times 2/3 √(ν L/(g t)) upright, 1.83 √(ν R/(g t)) lying, whichever is less", Source: filmSource + "; lying, the same balance taken around the girth", Range: filmRange, Inputs: []finding.Input{
			finding.In("ν", "kinematic viscosity, m²/s", q.Number(nu)), finding.In("g", "gravity, m/s²", q.Number(gravity)), finding.In("t", "drain time", in.Time)}},
	})
}

// film returns the film in a line. A wall that runs steeply is one wall
// however many pieces it is made of: each takes what comes down from those above.
func (l *line) film(nu float64, t q.Duration) (sum float64) {
	type stretch struct {
		s     *route.Segment
		above float64
	}
	var all []stretch
	for i := range l.pieces {
		for k := range l.pieces[i].Path {
			all = append(all, stretch{s: &l.pieces[i].Path[k]})
		}
	}
	slope := func(i int) float64 { _, d := all[i].s.Point(0.5); return d.Z }
	const steep = 0.5
	for i := 1; i < len(all); i++ { // falling along the flow
		if slope(i) < -steep && slope(i-1) < -steep {
			all[i].above = all[i-1].above + float64(all[i-1].s.Length)
		}
	}
	for i := len(all) - 2; i >= 0; i-- { // rising
		if slope(i) > steep && slope(i+1) > steep {
			all[i].above = all[i+1].above + float64(all[i+1].s.Length)
		}
	}
	for i := range all {
		sum += film(all[i].s, all[i].above, nu, t)
	}
	return sum
}
