package stand

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Stability is how the stand carries the tank and what tips it.
type Stability struct {
	Figures  []finding.Figure  `json:"figures"`
	Verdicts []finding.Verdict `json:"-"` // a report has them among its own
	Curve    []Posture         `json:"-"` // empty to full
	Caution  string            `json:"caution,omitempty"`
}

// Stable judges how the tank stands: whether it tips, rocks, or its legs give
// way. It is zero where there is no length for legs, which Check tells of.
func Stable(in Input) Stability {
	if in.Rise() <= 0 || in.Legs < 1 {
		return Stability{}
	}
	const steps = 30
	s := newSteady(in)
	out := Stability{Caution: caution, Curve: make([]Posture, 0, steps+1)}
	for i := range steps + 1 {
		out.Curve = append(out.Curve, s.with(in.Tank.Full*q.Length(i)/steps))
	}
	empty, full, worst := s.with(0), s.with(in.Tank.Full), s.worst()
	out.feet(in, &s)
	out.masses(in, &s, full)
	out.tips("empty", "empty", &s, empty)
	out.tips("full", "full", &s, full)
	if worst.Level > 0 && worst.Level < in.Tank.Full {
		out.tips("worst", "at the worst level between", &s, worst)
	}
	loads := s.loads(full.Mass)
	out.loads(in, loads, full)
	if b, ok := s.bracket(loads); ok {
		out.add(figureBracket, "Moment that bends a bracket and the shell behind it, at most", q.Of(b.moment), finding.Working{
			Formula: "M = F e", Source: "statics: the load on a foot about the shell", Range: "full, at rest, no push from the side; brackets, welds and shell are not judged", Inputs: []finding.Input{
				finding.In("F", "load on a foot", q.Force(loads.each)), finding.In("e", "from the shell to the leg's axis; where it leans and has no braces, at its foot", b.arm)}})
	}
	out.Verdicts = []finding.Verdict{tipVerdict(&s, worst), pushVerdict(&s), rockVerdict(in), loadVerdict(&s, full)}
	out.Verdicts = append(append(out.Verdicts, bracketVerdict(&s, full)...), clearVerdict(in)...)
	return out
}

func (o *Stability) add(slug, name string, amount q.Amount, w finding.Working) {
	if math.IsInf(amount.SI, 0) || math.IsNaN(amount.SI) {
		return
	}
	o.Figures = append(o.Figures, finding.Figure{Slug: slug, Name: name, Amount: amount, Piece: "stand", Working: w})
}

func (o *Stability) feet(in Input, s *steady) {
	top, floor := in.LegsAt()
	w := finding.Working{Formula: "R = (D - d)/2 + (H + t - f) tan(θ)", Source: "geometry: legs flush with the inside of the shell where nothing is typed", Range: exact, Inputs: []finding.Input{
		finding.In("D", "bore of the tank", in.Tank.Vessel.Bore), finding.In("d", "leg tube, outside", in.LegOD),
		finding.In("H", "outlet face over the floor", in.Height), finding.In("t", "top of the legs over the outlet face", in.LegTop),
		finding.In("f", "foot under the leg tube", in.Foot), finding.In("θ", "splay", in.Splay),
	}}
	if in.Feet > 0 {
		w = finding.Working{Formula: "R", Source: "as typed", Range: exact, Inputs: []finding.Input{finding.In("R", "feet from the tank's axis", in.Feet)}}
	}
	o.add("foot-circle", "Feet from the tank's axis", q.Of(floor), w)
	o.add("leg-circle", "Legs from the tank's axis, at their top", q.Of(top), finding.Working{
		Formula: "r = max(0, R - (H + t - f) tan(θ))", Source: "geometry", Range: exact, Inputs: []finding.Input{
			finding.In("R", "feet from the tank's axis", floor), finding.In("H", "outlet face over the floor", in.Height),
			finding.In("t", "top of the legs over the outlet face", in.LegTop), finding.In("f", "foot under the leg tube", in.Foot), finding.In("θ", "splay", in.Splay)}})
	o.add("tipping-arm", "Arm that holds it: axis to the line through two feet", q.Of(q.Length(s.arm)), finding.Working{
		Formula: "a = R cos(π/N) - c", Source: "geometry of a regular polygon", Range: "feet evenly around; a castor's wheel taken as swivelled inwards", Inputs: []finding.Input{
			finding.In("R", "feet from the tank's axis", floor), finding.In("N", "legs", q.Number(in.Legs)), finding.In("c", "castor's wheel behind its swivel", in.Castors)}})
	if need := in.adjusters(); need > 0 {
		formula, uneven := "A = s R", in.Uneven
		if in.Legs == 3 {
			uneven = 0
		}
		if in.Legs%2 == 0 {
			formula += " × 2 + u"
		} else {
			formula += " × 2 cos(π/(2 N)) + u"
		}
		o.add("adjusters-needed", "Adjustment that the feet need", q.Of(need), finding.Working{
			Formula: formula, Source: "geometry: the widest that two feet stand apart in one direction, times the fall; three feet need none for a floor that is only uneven", Range: exact, Inputs: []finding.Input{
				finding.In("s", "fall of the floor", in.FloorFall), finding.In("R", "feet from the tank's axis", floor),
				finding.In("N", "legs", q.Number(in.Legs)), finding.In("u", "floor out of flat under one foot", uneven)}})
	}
	if in.Braced {
		level, length := in.BraceRun()
		o.add("brace-length", "Brace, along its axis, from foot to top", q.Of(length), finding.Working{
			Formula: "B = √(b² + (H + t - f)²)", Source: "geometry", Range: "axis to axis: less what the leg tubes take at either end", Inputs: []finding.Input{
				finding.In("b", "level, from a leg's foot to the next one's top", level), finding.In("H", "outlet face over the floor", in.Height),
				finding.In("t", "top of the legs over the outlet face", in.LegTop), finding.In("f", "foot under the leg tube", in.Foot)}})
	}
}

func (o *Stability) masses(in Input, s *steady, full Posture) {
	v := in.Tank.Vessel
	area, _ := v.BottomWall()
	rho := finding.In("ρ", "steel 1.4301", q.Density(steelDensity))
	o.add("tank-steel", "Steel of the tank, open at the top", q.Of(q.Mass(s.tank)), finding.Working{
		Formula: "m = ρ w (π (D + w) H + A)", Source: "geometry; density of 1.4301, EN 10088-1", Range: "one wall throughout; without lid, flanges and fittings", Inputs: []finding.Input{
			rho, finding.In("w", "wall", in.Tank.Wall), finding.In("D", "bore of the tank", v.Bore), finding.In("H", "straight side", v.Straight), finding.In("A", "plate of the bottom, m²", q.Number(area))}})
	o.add("stand-steel", "Steel of legs and braces", q.Of(q.Mass(s.frame)), s.frameWorking())
	o.add("mass-full", "All, with the tank full", q.Of(full.Mass), finding.Working{
		Formula: "M = m + m_s + m_l + ρ V", Source: "sum", Range: "what is typed as other weight included", Inputs: []finding.Input{
			finding.In("m", "steel of the tank", q.Mass(s.tank)), finding.In("m_s", "steel of legs and braces", q.Mass(s.frame)), finding.In("m_l", "other weight", in.Load),
			finding.In("ρ", "liquid", in.Density), finding.In("V", "liquid when full", v.VolumeAt(in.Tank.Full))}})
}

func (s *steady) frameWorking() finding.Working {
	in := s.in
	w := finding.Working{Formula: "m_s = ρ π N ((d - w) w L", Source: "geometry; density of 1.4301, EN 10088-1", Range: "tubes of one wall, without pads and feet", Inputs: []finding.Input{
		finding.In("ρ", "steel 1.4301", q.Density(steelDensity)), finding.In("N", "legs", q.Number(in.Legs)), finding.In("d", "leg tube, outside", in.LegOD), finding.In("w", "wall of the tubes", in.LegWall),
		finding.In("L", "leg tube, each", q.Length(float64(in.Rise())/math.Cos(float64(in.Splay))))}}
	if in.Braced {
		_, length := in.BraceRun()
		w.Formula += " + (e - w) w B"
		w.Inputs = append(w.Inputs, finding.In("e", "brace, outside", in.BraceOD), finding.In("B", "brace, along its axis", length))
	}
	w.Formula += ")"
	return w
}

// tips tells of one posture.
func (o *Stability) tips(slug, when string, s *steady, p Posture) {
	if slug != "full" {
		o.add("mass-"+slug, "All, "+when, q.Of(p.Mass), finding.Working{Formula: "M, as full, with the liquid up to h", Source: "sum", Range: exact, Inputs: []finding.Input{finding.In("h", "level over the lowest inside point", p.Level)}})
	}
	arm := finding.In("a", "arm that holds it", q.Length(s.arm))
	o.add("centre-"+slug, "Centre of mass over the floor, "+when, q.Of(p.Centre), finding.Working{
		Formula: "z = Σ m z/M", Source: "geometry: first moments of plate, tubes and liquid", Range: "other weight taken to sit at the brim", Inputs: []finding.Input{
			finding.In("M", "all, "+when, p.Mass), finding.In("h", "level over the lowest inside point", p.Level)}})
	w := finding.Working{Formula: "θ = atan(a/z)", Source: tipBasis, Range: "a rigid stand on a floor that gives nowhere", Inputs: []finding.Input{arm, finding.In("z", "centre of mass over the floor", p.Centre)}}
	if p.Surge > 0 {
		w.Formula = "θ from a = (z + k) tan(θ) + k/2 tan(θ)³"
		w.Inputs = append(w.Inputs, finding.In("k", "raised by the free surface: ρ I/M", p.Surge))
		w.Range += "; exact while the surface meets the straight side all round, down in a dish or a cone to 120° at most 6 % too little or 1 % too much; on a bottom nearly flat the liquid is summed up as it lies"
	}
	o.add("tip-angle-"+slug, "Tips on an incline of, "+when, q.Of(p.Tip), w)
	o.add("push-"+slug, "Push that tips it, "+when, q.Of(p.Push), finding.Working{
		Formula: "F = M g a/z_p", Source: "moments about the line through two feet", Range: "a level push that lasts; a knock is another matter", Inputs: []finding.Input{
			finding.In("M", "all, "+when, p.Mass), finding.In("g", "gravity, m/s²", q.Number(gravity)), arm, finding.In("z_p", "height of the push", s.in.pushAt())}})
}

func (o *Stability) loads(in Input, l loads, full Posture) {
	leg, bore := finding.In("d", "leg tube, outside", in.LegOD), finding.In("b", "its bore", max(0, in.LegOD-2*in.LegWall))
	each := finding.In("F", "load on a foot", q.Force(l.each))
	o.add("foot-load", "Load on a foot, at most", q.Of(q.Force(l.each)), finding.Working{
		Formula: "F = x M g", Source: "three feet share alike; of more, on an uneven floor, two may carry all", Range: "level floor, no push", Inputs: []finding.Input{
			finding.In("x", "share of one foot", q.Fraction(l.share)), finding.In("M", "all, full", full.Mass), finding.In("g", "gravity, m/s²", q.Number(gravity))}})
	if in.Pad > 0 {
		o.add("pad-pressure", "Pressure of a foot on the floor", q.Of(q.Pressure(l.each/(math.Pi/4*float64(in.Pad*in.Pad)))), finding.Working{
			Formula: "p = 4 F/(π d_p²)", Source: "force over area", Range: "pads that lie flat; what a floor and its coating bear, their makers say", Inputs: []finding.Input{each, finding.In("d_p", "pad", in.Pad)}})
	}
	splay := finding.In("θ", "splay", in.Splay)
	length := finding.In("L", "leg tube, each", q.Length(l.length))
	w := finding.Working{Formula: "σ = 4 F cos(θ)/(π (d² - b²)) + 32 F sin(θ) L d/(π (d^4 - b^4))", Source: "beam theory: compression, and bending of a leg that leans and is held at the tank alone", Range: "straight tube, no push from the side", Inputs: []finding.Input{each, splay, leg, bore, length}}
	if in.Braced {
		w.Formula, w.Inputs = "σ = 4 F cos(θ)/(π (d² - b²))", w.Inputs[:4:4]
	}
	o.add("leg-stress", "Stress in a leg", q.Of(q.Pressure(l.stress)), w)
	o.add("steel-strength", "Proof strength of the steel at the liquid's heat", q.Of(q.Pressure(l.yield)), finding.Working{
		Formula: "R_p0.2(T)", Source: "1.4301: EN 10088-2 at 20 °C, EN 10028-7 above, from memory", Range: "up to 200 °C; 210 MPa below 20 °C", Inputs: []finding.Input{finding.In("T", "liquid", in.Temperature)}})
	euler := func(slug, name, k string, force float64) {
		o.add(slug, name, q.Of(q.Force(force)), finding.Working{
			Formula: "F_E = π³ E (d^4 - b^4)/(64 (" + k + "L)²)", Source: "Euler; modulus of 1.4301 at heat, EN 10088-1", Range: "a straight, slender tube loaded along its axis: a real one carries less",
			Inputs: []finding.Input{finding.In("E", "modulus of elasticity", q.Pressure(l.modulus)), leg, bore, length}})
	}
	euler("buckling-free", "Buckles at, free to sway", "2 ", l.cantilever)
	euler("buckling-braced", "Buckles at, braced", "", l.braced)
	o.add("leg-resistance", "What a leg resists, as it is built", q.Of(q.Force(l.resists)), finding.Working{
		Formula: "N = χ A R/1.1; χ from λ = √(A R/F_E)", Source: "EN 1993-1-4:2006 clause 5.4.2, α 0.49, λ_0 0.40, from memory", Range: "round hollow sections; a later edition lowers λ_0", Inputs: []finding.Input{
			finding.In("R", "proof strength", q.Pressure(l.yield)), leg, bore}})
}
