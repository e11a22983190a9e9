package workfile

import (
	"math"
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/plot"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/stand"
)

const elevationName = "side-view"

// elevation is the plant from the side at full size: the tank's inside, its
// legs, and the outside and the centreline of everything in the line. x is
// from the tank's axis to the pump, y up from the floor.
func elevation(r pipeline.Report) plot.Drawing {
	s := r.Scene
	d := plot.Drawing{Name: elevationName, Title: "Side view of the plant at full size", Notes: []string{"For a drawing program. The tank by its inside; tube by its outside and its centreline."}}
	foot := s.TankFoot.Millimetres()
	var left, right []plot.Point
	for _, p := range s.Vessel.Profile() {
		x, z := p.R.Millimetres(), foot+p.Z.Millimetres()
		left, right = append(left, plot.Point{X: -x, Y: z}), append(right, plot.Point{X: x, Y: z})
	}
	d.Line(plot.Outline, left...)
	d.Line(plot.Outline, right...)
	for _, l := range s.Levels {
		h := l.Height.Millimetres()
		w := math.Sqrt(s.Vessel.Area(l.Height-s.TankFoot)/math.Pi) * 1000
		d.Line(plot.Mark, plot.Point{X: -w, Y: h}, plot.Point{X: w, Y: h})
		d.Word(plot.Point{X: -w + 10, Y: h + 5}, 15, 0, l.Name)
	}
	if s.Stand.Rise() > 0 {
		legs(&d, s)
		d.Notes = append(d.Notes, "Legs at "+stand.Degrees(s.Stand.LegTurns())+", "+s.Stand.Way()+".")
	}
	reach := s.Vessel.Bore.Millimetres()
	for _, p := range s.Layout.Pieces() {
		piece(&d, p)
		reach = math.Max(reach, math.Abs(p.Out.At.X)*1000+100)
	}
	d.Line(plot.Centre, plot.Point{X: -reach}, plot.Point{X: reach})
	d.Word(plot.Point{X: -reach, Y: -20}, 15, 0, "floor")
	return d
}

// legs draws the legs where stand.LegTurns has them, from foot to where they end.
func legs(d *plot.Drawing, s pipeline.Scene) {
	in := s.Stand
	m := maker{scene: s, in: in}
	length := in.Rise().Millimetres() / math.Cos(float64(in.Splay))
	up := s.TankFoot.Millimetres()
	for _, turn := range in.LegTurns() {
		t := m.leg(float64(turn))
		for _, side := range [2]float64{-1, 1} {
			x := t.At.X + side*t.Radius
			d.Line(plot.Outline, plot.Point{X: x, Y: t.At.Z + up}, plot.Point{X: x + t.Dir.X*length, Y: t.At.Z + up + t.Dir.Z*length})
		}
	}
}

// piece draws the centreline of a piece and its outside to either hand.
func piece(d *plot.Drawing, p route.Piece) {
	for _, s := range p.Path {
		n := 1
		if s.Radius > 0 {
			n = 24
		}
		centre := make([]plot.Point, n+1)
		upper, lower := make([]plot.Point, n+1), make([]plot.Point, n+1)
		for i := range n + 1 {
			at, dir := s.Point(float64(i) / float64(n))
			c := plot.Point{X: at.X * 1000, Y: at.Z * 1000}
			centre[i], upper[i], lower[i] = c, c, c
			// A reducer's outside runs with its bore.
			t := float64(i) / float64(n)
			wall := (p.In.Half.Tube.OD - p.In.Bore()) / 2
			half := (s.BoreFrom + q.Length(t)*(s.BoreTo-s.BoreFrom) + 2*wall).Millimetres() / 2
			if size := math.Hypot(dir.X, dir.Z); size > 0.05 {
				dx, dz := dir.X/size*half, dir.Z/size*half
				upper[i], lower[i] = plot.Point{X: c.X - dz, Y: c.Y + dx}, plot.Point{X: c.X + dz, Y: c.Y - dx}
			}
		}
		d.Line(plot.Centre, centre...)
		d.Line(plot.Outline, upper...)
		d.Line(plot.Outline, lower...)
	}
	a, b := p.In.At, p.Out.At
	d.Word(plot.Point{X: (a.X+b.X)*500 + 30, Y: (a.Z+b.Z)*500 + 30}, 15, 0, strconv.Itoa(p.Number))
}
