package holdup

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// gravity is standard gravity, m/s², exact (3rd CGPM, 1901).
const gravity = 9.80665

// Trapped is air that a line keeps when it is filled, and what carries it on.
type Trapped struct {
	Pool              // upside down: Lowest is its highest point
	Needed q.Velocity `json:"needed"`       // in the stretch that runs down from it, to carry the largest pocket on
	Has    q.Velocity `json:"has,omitzero"` // there, at the full level
	Known  bool       `json:"-"`            // whether Has is
	sine   float64
	bore   q.Length
}

// Carried reports whether the flow carries the air on.
func (t *Trapped) Carried() bool { return t.Known && t.Has >= t.Needed }

// The criterion for a pocket of air on its way down, Fr = v/√(g D), and for a
// line that lets air rise against the liquid that runs out of it.
const (
	clearSource = "Escarameia, Air problems in pipelines (HR Wallingford 2005): v/√(g D) = S (0.56 √(sin θ) + a), with S = 1.1 and a = 0.61, its largest pockets; constants from memory"
	clearRange  = "slopes to 22°; steeper ones are extrapolated. Tubes of 25 and 38 mm behave like large ones (May et al. 2018)"
	clearSafety = 1.1
	clearSine   = 0.56
	clearPocket = 0.61

	ventSource = "Hills, Designing piping for gravity flow, Chem. Eng. 1983: a line vents itself under Fr = v/√(g D) = 0.3"
	ventRange  = "liquid that runs down with air above it; thin as water"
	ventFroude = 0.3
	ventClears = 1.0 // over this the line runs full and sweeps the air out, from a secondary source
)

// ClearingSpeed returns the mean speed that carries the largest pocket of air
// down a tube of that bore which falls by an angle of that sine (0 to 1).
func ClearingSpeed(bore q.Length, sine float64) q.Velocity {
	return q.Velocity(clearSafety * math.Sqrt(gravity*float64(bore)) * (clearSine*math.Sqrt(max(0, sine)) + clearPocket))
}

// SelfVentingFlow returns the greatest flow at which air rises freely against
// the liquid that runs down in a tube of that bore.
func SelfVentingFlow(bore q.Length) q.Flow {
	d := float64(bore)
	return q.Flow(ventFroude * math.Sqrt(gravity*d) * math.Pi / 4 * d * d)
}

// air finds what a line keeps of air when it is filled: the pools of the line
// upside down, the valves that point up open.
func (r *Result) air(in *Input, l *line) {
	m := l.upsideDown()
	vented := m.settle(true)
	for _, p := range m.wetStretches(vented) {
		t := Trapped{Pool: Pool{Level: q.Length(p.level)}}
		parts := make([]float64, len(m.pieces))
		m.holds(p, parts)
		t.sum(&m, parts)
		m.describe(&t.Pool, p, parts)
		if t.Volume < 1e-6 {
			continue
		}
		t.Lowest.Z, t.Level = -t.Lowest.Z, -t.Level
		for _, bore := range t.Bores {
			for i := range bore {
				bore[i].At.Z, bore[i].Dir.Z = -bore[i].At.Z, -bore[i].Dir.Z
			}
		}
		t.Why = "when the line is filled"
		in.clears(l, p, &t)
		r.Air = append(r.Air, t)
	}
}

// clears finds what carries the air of pool p on: the hardest stretch of the
// descent behind it, to the next cut that is lower than what follows it.
func (in *Input) clears(l *line, p pool, t *Trapped) {
	worst := math.Inf(-1)
	for i := p.lowest; i+1 < len(l.cuts); i++ {
		c, d := &l.cuts[i], &l.cuts[i+1]
		if i > p.to && d.Crown > c.Crown+hold {
			break
		}
		if d.Crown > c.Crown {
			continue
		}
		for _, at := range []*cut{c, d} {
			sine, bore := max(0, -at.Dir.Z), q.Length(2*at.Radius)
			needed := ClearingSpeed(bore, sine)
			has, known := in.speed(l, at)
			over := float64(needed)
			if known {
				over = float64(needed - has)
			}
			if over > worst {
				worst = over
				t.Needed, t.Has, t.Known, t.sine, t.bore = needed, has, known, sine, bore
			}
		}
	}
	if math.IsInf(worst, -1) { // it ends at its own high point
		c := &l.cuts[p.lowest]
		t.bore = q.Length(2 * c.Radius)
		t.Needed = ClearingSpeed(t.bore, 0)
		t.Has, t.Known = in.speed(l, c)
	}
}

// speed returns the speed at a cut, which in a piece of two bores is told for
// the narrower.
func (in *Input) speed(l *line, c *cut) (q.Velocity, bool) {
	p := &l.pieces[c.Piece]
	v, ok := in.Speeds[p.Ref]
	if !ok || v <= 0 {
		return 0, false
	}
	narrow := min(float64(p.In.Bore()), float64(p.Out.Bore()))
	return v * q.Velocity(narrow*narrow/(4*c.Radius*c.Radius)), true
}

// tellAir judges the air that stays, and tells how a line vents itself.
func (r *Result) tellAir(in *Input, lines []line) {
	for i := range r.Air {
		t := &r.Air[i]
		slug := "air-clears-" + t.Ref
		if r.has(slug) {
			continue // one figure for a piece is enough
		}
		r.Figures = append(r.Figures, finding.Figure{
			Slug: slug, Name: "Speed that carries air on from the high point", Amount: q.Of(t.Needed), Piece: t.Ref,
			Working: finding.Working{Formula: "v = S √(g D) (0.56 √(s) + a)", Source: clearSource, Range: clearRange, Inputs: []finding.Input{
				finding.In("S", "for safety", q.Number(clearSafety)), finding.In("g", "gravity, m/s²", q.Number(gravity)), finding.In("D", "bore", t.bore),
				finding.In("s", "sine of the descent", q.Number(max(0, t.sine))), finding.In("a", "for the size of the pocket", q.Number(clearPocket))}},
		})
		v := finding.Verdict{Rule: "air-carried", Piece: t.Ref, Figure: slug, Limit: new(q.Of(t.Needed)), Basis: clearSource,
			Sentence: q.Text(t.Volume) + " of air stay at " + t.Name + " when the line is filled slowly"}
		switch {
		case t.Carried():
			v.Sentence += "; at " + q.Text(t.Has) + " the flow carries them on, which takes " + q.Text(t.Needed) + "."
		case t.Known:
			has, takes := q.Apart(t.Has, t.Needed)
			v.Level = finding.Look
			v.Sentence += ", and at " + has + " the flow leaves them there: to carry them on takes " + takes + "."
			v.Advice = "Let the air out by a valve at the high point before the transfer starts, or run the line faster for a moment."
		default:
			v.Level = finding.Look
			v.Sentence += "; to carry them on takes " + q.Text(t.Needed) + ", and the flow is not known."
			v.Advice = "Let the air out by a valve at the high point before the transfer starts."
		}
		r.Verdicts = append(r.Verdicts, v)
	}
	if len(lines) == 0 || len(lines[0].cuts) == 0 {
		return
	}
	narrow := math.Inf(1)
	piece := ""
	for i := range lines[0].cuts {
		if c := &lines[0].cuts[i]; c.Dir.Z < 0 && 2*c.Radius < narrow-1e-9 {
			narrow, piece = 2*c.Radius, lines[0].pieces[c.Piece].Ref
		}
	}
	if piece == "" {
		return
	}
	flow := SelfVentingFlow(q.Length(narrow))
	r.Vents = flow
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "self-venting-flow", Name: "Most that runs off while air rises past it, in the narrowest bore that falls", Amount: q.Of(flow), Piece: piece,
		Working: finding.Working{Formula: "Q = 0.3 √(g D) π/4 D²", Source: ventSource, Range: ventRange,
			Inputs: []finding.Input{finding.In("g", "gravity, m/s²", q.Number(gravity)), finding.In("D", "bore", q.Length(narrow))}},
	})
	if !in.Layout.Gravity || in.Flow <= 0 {
		return
	}
	froude := float64(in.Flow/flow) * ventFroude
	v := finding.Verdict{Rule: "self-venting", Piece: piece, Figure: "self-venting-flow", Limit: new(q.Of(flow)), Basis: ventSource + "; over 1 it runs full, from a secondary source"}
	number := bores(froude)
	for _, edge := range [...]float64{ventFroude, ventClears} {
		if number == bores(edge) {
			number, _ = q.Apart(q.Number(froude), q.Number(edge))
		}
	}
	said := "At " + q.Text(in.Flow) + " the line by gravity runs at a Froude number of " + number + " in its narrowest fall: "
	switch {
	case froude <= ventFroude:
		v.Sentence = said + "air rises past the liquid, and it vents itself."
	case froude >= ventClears:
		v.Sentence = said + "it runs full and sweeps its air out."
	default:
		v.Level = finding.Look
		v.Sentence = said + "between 0.3 and 1 it neither vents itself nor runs full, and may draw air along in gulps."
		v.Advice = "Throttle it at its end so that it fills, or take a wider tube so that it vents itself: " + q.Text(flow) + " is the most of this one."
	}
	r.Verdicts = append(r.Verdicts, v)
}

func (r *Result) has(slug string) bool {
	for i := range r.Figures {
		if r.Figures[i].Slug == slug {
			return true
		}
	}
	return false
}
