package workfile

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/plot"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/stand"
	"drawoff/pipeline/template"
	"drawoff/pipeline/vessel"
)

type maker struct {
	report   pipeline.Report
	scene    pipeline.Scene
	in       stand.Input
	drawings []plot.Drawing
	missing  []string
}

const howToWrap = "Wrap it round the tube, the square edge true to the tube's own end, the edges meeting; mark along the curve and cut."

// tank is the outside of the tank, z from its lowest inside point, in mm.
func (m *maker) tank() template.Tank {
	v := m.scene.Vessel
	t := template.Tank{Radius: v.Bore.Millimetres() / 2, Wall: m.in.Tank.Wall.Millimetres()}
	switch v.Bottom {
	case vessel.Cone:
		t.Half, t.Opening = float64(v.ConeAngle)/2, v.Opening.Millimetres()/2
	case vessel.Klopper, vessel.Korbbogen:
		crown, knuckle := v.Dish()
		t.Crown, t.Knuckle = crown.Millimetres(), knuckle.Millimetres()
	}
	return t
}

// fromSeam is where leg i stands, about the tank's axis, on a cone whose seam
// lies at half a turn: half-way between two legs.
func (m *maker) fromSeam(i int) float64 {
	return -math.Pi + (float64(i)+0.5)*2*math.Pi/float64(m.in.Legs)
}

// leg is the tube of the leg that stands at turn, from its lower end up.
func (m *maker) leg(turn float64) template.Tube {
	top, floor := m.in.LegsAt()
	sin, cos := math.Sincos(turn)
	at := func(r, z float64) template.Vec { return template.Vec{X: r * cos, Y: r * sin, Z: z} }
	low := (m.in.Foot - m.scene.TankFoot).Millimetres()
	from := at(floor.Millimetres(), low)
	lean := (floor - top).Millimetres()
	rise := m.in.Rise().Millimetres()
	return template.NewTube(m.in.LegOD.Millimetres()/2, from, template.Vec{X: -lean * cos, Y: -lean * sin, Z: rise}, at(-1, 0))
}

func (m *maker) legs() {
	if m.in.Rise() <= 0 || m.in.Legs < 1 {
		m.missing = append(m.missing, "Legs: there is no length left for them, so their ends cannot be drawn.")
		return
	}
	tube := m.leg(0) // they are all alike
	cut, ok := template.Wrap(tube, m.tank())
	what := "the bottom"
	if m.scene.Vessel.Bottom == vessel.Cone {
		what = "the cone"
	}
	if !ok {
		m.missing = append(m.missing, "Leg on the tank: part of the leg passes beside the tank and meets nothing. Set the feet nearer to the axis, or splay the legs.")
		return
	}
	// A leg that leans has its foot sawn level, and is longest on the outside:
	// the tube it is sawn from ends square where that side meets the floor.
	splay := math.Tan(float64(m.in.Splay))
	least, most := math.Inf(1), math.Inf(-1)
	for i := range cut {
		cut[i] += tube.Radius * splay
		least, most = min(least, cut[i]), max(most, cut[i])
	}
	if least <= 0 {
		m.missing = append(m.missing, "Leg on the tank: the tank reaches lower than the leg's foot.")
		return
	}
	longest := q.Mm(most)
	notes := []string{
		howToWrap,
		"A leg from its foot's end: " + q.Text(longest) + " on the longest side, " + q.Text(q.Mm(least)) + " on the shortest. All " + strconv.Itoa(m.in.Legs) + " are alike.",
	}
	if splay > 0 {
		notes = append(notes, "Its foot is sawn level, "+q.Text(m.in.Splay)+" from square: "+q.Text(q.Mm(2*tube.Radius*splay))+" come off the side towards the axis and nothing off the outside. The lengths are from the tube's end before that.")
	}
	if m.scene.Vessel.Bottom == vessel.Flat {
		most -= 2 * tube.Radius * splay // whose other end is sawn level too
	}
	need := q.Length(most/1000*math.Cos(float64(m.in.Splay))) + m.in.Foot - m.in.Height
	if d := need - m.in.LegTop; d > q.Millimetre || d < -q.Millimetre {
		notes = append(notes, "The design has leg tubes of "+q.Text(m.report.Scene.Stand.Rise()/q.Length(math.Cos(float64(m.in.Splay))))+": for the order and the cuts type "+q.Text(need)+" as the top of the legs over the outlet face.")
	}
	m.drawings = append(m.drawings, template.Sheet("leg-on-tank", "Leg tube, "+q.Text(m.in.LegOD)+", on "+what, tube.Radius, cut,
		[4]string{"towards the axis", "quarter", "outwards", "quarter"}, notes...))
}

// braces draws both ends of a brace, from a leg's foot to the next one's top.
func (m *maker) braces() {
	if !m.in.Braced || m.in.Rise() <= 0 || m.in.Legs < 3 {
		return
	}
	a, b := m.leg(0), m.leg(2*math.Pi/float64(m.in.Legs))
	length := m.in.Rise().Millimetres() / math.Cos(float64(m.in.Splay))
	from := a.At
	to := template.Vec{X: b.At.X + b.Dir.X*length, Y: b.At.Y + b.Dir.Y*length, Z: b.At.Z + b.Dir.Z*length}
	run := template.Vec{X: to.X - from.X, Y: to.Y - from.Y, Z: to.Z - from.Z}
	size := math.Sqrt(run.X*run.X + run.Y*run.Y + run.Z*run.Z)
	if size == 0 {
		return
	}
	r, R := m.in.BraceOD.Millimetres()/2, a.Radius
	for i, leg := range [2]template.Tube{a, b} {
		end := [2]string{"lower", "upper"}[i]
		beta := math.Acos(math.Min(1, math.Abs(run.X*leg.Dir.X+run.Y*leg.Dir.Y+run.Z*leg.Dir.Z)/size))
		cut, ok := template.Wrap(template.SaddleTube(r, beta, 0, R), template.Cylinder{Radius: R})
		if !ok {
			m.missing = append(m.missing, "Brace on a leg: a brace of "+q.Text(m.in.BraceOD)+" is wider than the leg, "+q.Text(m.in.LegOD)+".")
			return
		}
		m.drawings = append(m.drawings, template.Sheet("brace-"+end+"-end", "Brace, "+q.Text(m.in.BraceOD)+", its "+end+" end on a leg at "+q.Text(q.Angle(beta)), r, cut,
			[4]string{"in the sharp corner", "quarter", "in the wide corner", "quarter"}, howToWrap,
			"From axis to axis a brace is "+q.Text(q.Mm(size))+" long. Its two ends are marked from one and the same line along it."))
	}
}

// outlet draws the stub of a side outlet and the hole for it.
func (m *maker) outlet() {
	half := m.scene.Layout.Outlet.Half
	if !m.in.Tank.Side || half == nil {
		return
	}
	r, R := half.Tube.OD.Millimetres()/2, m.scene.Vessel.Bore.Millimetres()/2+m.in.Tank.Wall.Millimetres()
	if over := m.scene.Stand.Height - m.scene.TankFoot; over < m.scene.Vessel.BottomDepth()+half.Tube.OD/2 {
		m.missing = append(m.missing, "Outlet: it enters the bottom, not the shell, and such a hole is not drawn.")
		return
	}
	m.branch("outlet", "Outlet stub, "+half.Tube.Name, "the shell", r, R, [2]string{"around the shell", "up"})
}

// branch draws a tube that ends square on another, and the hole for it.
func (m *maker) branch(name, title, on string, r, R float64, ways [2]string) {
	cut, ok := template.Wrap(template.SaddleTube(r, math.Pi/2, 0, R), template.Cylinder{Radius: R})
	outline, fits := template.Hole(r, R, math.Pi/2, 0)
	if !ok || !fits {
		return
	}
	m.drawings = append(m.drawings,
		template.Sheet(name+"-end", title+", on "+on, r, cut, [4]string{"along " + on, "around", "along " + on, "around"}, howToWrap, "For a tube that is set on: one that goes through is cut to suit inside."),
		template.HoleSheet(name+"-hole", title+": hole in "+on, outline, ways[0], ways[1], "Lay it on the outside, centre lines true. The outline is the tube's outside; for a tube set on, cut inside it by the wall."))
}

func (m *maker) cone() {
	if m.scene.Vessel.Bottom != vessel.Cone {
		return
	}
	t := m.tank()
	f := template.Unroll(t, m.scene.Seam.Millimetres())
	var legs []template.Tube
	if m.in.Rise() > 0 {
		for i := range m.in.Legs {
			legs = append(legs, m.leg(m.fromSeam(i)))
		}
	}
	notes := []string{
		"Radii " + q.Text(q.Mm(f.Inner)) + " and " + q.Text(q.Mm(f.Outer)) + ", angle " + q.Text(q.Angle(f.Angle)) + ", in the middle of a plate of " + q.Text(m.in.Tank.Wall) + "; edges square to the plate.",
		"The outside of the cone is towards you. Gap at the seam: " + q.Text(m.scene.Seam) + ", taken off both edges alike. Legs are marked where their outside meets it.",
	}
	if turns := m.in.LegTurns(); len(legs) > 0 {
		gaps := make([]q.Angle, len(turns))
		for i := range turns {
			gaps[i] = turns[i] + q.Angle(math.Pi/float64(m.in.Legs))
		}
		// The gap that is furthest from the way that they are counted from.
		seam := slices.MinFunc(gaps, func(a, b q.Angle) int { return cmp.Compare(math.Cos(float64(a)), math.Cos(float64(b))) })
		notes = append(notes, "The seam lies half-way between two legs. With these at "+stand.Degrees(turns)+", "+m.in.Way()+", put it at "+stand.Degrees([]q.Angle{seam})+".")
	}
	m.drawings = append(m.drawings, template.ConeSheet("cone-flat", "Cone, flat plate", t, f, legs, notes...))
}

// tees draws what a tee made up from tube takes, once for each size.
func (m *maker) tees() {
	done := map[string]bool{}
	for _, p := range m.scene.Layout.Pieces() {
		if p.Kind != design.Tee || p.In.Half == nil || done[p.In.Half.Tube.Slug] {
			continue
		}
		tube := p.In.Half.Tube
		done[tube.Slug] = true
		r := tube.OD.Millimetres() / 2
		m.branch("tee-"+strconv.Itoa(len(done)), "Tee made up of "+tube.Name, "the run", r, r, [2]string{"around the run", "along it"})
	}
}
