package route

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// Point returns the centreline a part t (0 to 1) of the way along s, and the
// unit direction it runs in there.
func (s Segment) Point(t float64) (at, dir Vec) {
	if s.Radius == 0 {
		return s.From.Add(s.To.Sub(s.From).Scale(t)), s.Dir
	}
	r := float64(s.Radius)
	sin, cos := math.Sincos(float64(s.Angle) * t)
	at = s.From.Add(s.Dir.Scale(r * sin)).Add(s.Toward.Scale(r * (1 - cos)))
	return at, s.Dir.Scale(cos).Add(s.Toward.Scale(sin))
}

// Level returns the part of the way (over 0, under 1) at which an arc runs
// level, its highest or lowest point, and whether there is one between its
// ends. An arc turns by no more than 180°, so there is never a second.
func (s Segment) Level() (t float64, ok bool) {
	if s.Radius == 0 || s.Angle == 0 {
		return 0, false
	}
	// The heading's z is Dir.Z cos θ + Toward.Z sin θ: zero at θ and at θ ± 180°.
	turn := math.Atan2(-s.Dir.Z, s.Toward.Z)
	if turn < 0 {
		turn += math.Pi
	}
	t = turn / float64(s.Angle)
	return t, t > 1e-9 && t < 1-1e-9 && math.Hypot(s.Dir.Z, s.Toward.Z) > 1e-9
}

// Lowest returns the height of the lowest outside point of pieces over the
// floor: the underside of the tube, of what closes its unions and of the bodies
// of valves, one on an open port at its longest, and the rim of an open end.
// The handle of a valve is turned up. Without pieces it is 0.
func Lowest(pieces []Piece) q.Length {
	if len(pieces) == 0 {
		return 0
	}
	lowest := math.Inf(1)
	reach := func(at, dir Vec, radius q.Length) { lowest = min(lowest, at.Z-float64(radius)*Levelness(dir)) }
	for i := range pieces {
		p := &pieces[i]
		body := p.In.Half.Tube.OD / 2
		if design.IsBody(p.Kind) {
			body += catalog.Proud
		}
		reach(p.In.At, p.In.Dir, max(body, p.In.Half.Outside()))
		reach(p.Out.At, p.Out.Dir, max(body, p.Out.Half.Outside()))
		for _, port := range p.Ports() {
			if port.End == nil {
				continue
			}
			at, radius := port.At, port.Half.Outside()
			if port.On == "valve" && p.Kind != design.Cock {
				v, _ := catalog.BodyOf(design.Butterfly, port.Half.Tube)
				at, radius = at.Add(port.Dir.Scale(float64(v.Length.Length+v.Length.Either))), radius+catalog.Proud
			}
			reach(at, port.Dir, radius)
		}
		for _, s := range p.Path {
			if t, ok := s.Level(); ok {
				at, dir := s.Point(t)
				reach(at, dir, p.In.Half.Tube.OD/2)
			}
		}
	}
	return q.Length(lowest)
}
