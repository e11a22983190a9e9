package surge

import (
	"math"
	"strings"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what Check needs.
type Input struct {
	Layout  route.Layout
	Stub    q.Length // tank to outlet face, of the outlet's bore
	Density q.Density
	Flow    q.Flow   // the greatest
	Full    q.Length // the fullest level above the floor
	Shutoff q.Head   // the greatest head of the pump; 0 by gravity
}

// harmless is the rise that the closing time is held to where no joint in the
// line has a rating that is known.
const harmless = 1 * q.Bar

const (
	waveSource = "Korteweg 1878, Joukowsky 1898 (as in ANSI/AWWA M11); K 2.2 GPa, water at 20 °C (IAPWS R7-97); E 200 GPa, EN 10088-1, from memory"
	slowSource = "Michaud 1878 over the 0.4 of a quarter turn that stops the flow, from memory; quick: 0.5 s, common practice, no source"
	slowRange  = "the liquid between the tank and the valve; a slam of the liquid beyond it, which may tear off and come back, is not reckoned"
)

// Check says what shutting the worst valve fast does; nothing where nothing flows.
func Check(in Input) finding.Findings {
	if !(in.Flow > 0) {
		return finding.Findings{}
	}
	s := in.stop()
	if s.length <= 0 {
		return finding.Findings{}
	}
	wave := WaveSpeed(Stiffness, in.Density, s.bore, s.wall, Steel)
	sudden := Sudden(in.Density, wave, s.speed)
	quick := min(sudden, Slow(in.Density, s.length, s.mean, Quick*Working))
	rated, weakest := in.weakest()
	at := q.Pressure(0) // what stands on the valve once it is shut, over the air's
	allowed, allows := harmless, "rise held harmless"
	if rated > 0 {
		at = s.standing(&in)
		allowed, allows = max(rated-at, 0), "what the weakest joint leaves for it"
	}
	safe := q.Duration(0)
	if allowed > 0 {
		safe = q.Duration(2 * float64(in.Density) * float64(s.length) * float64(s.mean) / (Working * float64(allowed)))
	}
	rho := finding.In("ρ", "density", in.Density)
	length := finding.In("L", "line from the tank to the valve", s.length)
	mean := finding.In("v_m", "mean speed along it", s.mean)
	figure := func(slug, name string, amount q.Amount, w finding.Working) finding.Figure {
		return finding.Figure{Slug: slug, Name: name, Amount: amount, Piece: s.ref, Working: w}
	}
	f := finding.Findings{Figures: []finding.Figure{
		figure("wave-speed", "Speed of a pressure wave in the tube", q.Of(wave), finding.Working{
			Formula: "a = √(K/ρ)/√(1 + K D/(E e))",
			Inputs: []finding.Input{
				finding.In("K", "bulk modulus of the liquid, as water's", Stiffness), rho,
				finding.In("D", "bore", s.bore), finding.In("e", "wall", s.wall), finding.In("E", "Young's modulus of the steel", Steel),
			},
			Source: waveSource, Range: "steel tube of thin wall; 5 % less at 0 °C, 4 % more at 74 °C; in a hose, or with gas in the liquid, it is slower and the blow softer",
		}),
		figure("surge-sudden", "Pressure rise if the valve shut at once"+s.where, q.Of(sudden), finding.Working{
			Formula: "Δp = ρ a v",
			Inputs:  []finding.Input{rho, finding.In("a", "speed of the wave", wave), finding.In("v", "speed at the valve", s.speed)},
			Source:  "Joukowsky 1898", Range: "a valve that shuts in less than 2 L/a, " + q.Text(q.Number(2000*float64(s.length)/float64(wave))) + " ms here",
		}),
		figure("surge-quick", "Pressure rise if a quarter-turn valve is thrown shut"+s.where, q.Of(quick), finding.Working{
			Formula: "Δp = min(ρ a v, 2 ρ L v_m/(c t))",
			Inputs: []finding.Input{rho, finding.In("a", "speed of the wave", wave), finding.In("v", "speed at the valve", s.speed), length, mean,
				finding.In("c", "part of the turn that stops the flow", q.Number(Working)), finding.In("t", "time for the turn", Quick)},
			Source: slowSource, Range: slowRange,
		}),
	}}
	if allowed > 0 {
		f.Figures = append(f.Figures, figure("surge-closing-time", "Shut it no faster than this"+s.where, q.Of(safe), finding.Working{
			Formula: "t = 2 ρ L v_m/(c p)",
			Inputs:  []finding.Input{rho, length, mean, finding.In("c", "part of the turn that stops the flow", q.Number(Working)), finding.In("p", allows, allowed)},
			Source:  slowSource, Range: slowRange,
		}))
	}
	if rated > 0 && s.valve {
		f.Verdicts = []finding.Verdict{s.judge(quick, at, rated, safe, weakest)}
	}
	return f
}

// judge holds the rise against the weakest joint.
func (s stop) judge(quick, at, rated q.Pressure, safe q.Duration, weakest string) finding.Verdict {
	v := finding.Verdict{
		Rule: "surge", Piece: s.ref, Figure: "surge-quick", Limit: new(q.Of(rated)),
		Basis: "Michaud 1878, Joukowsky 1898; the rating of the " + weakest,
	}
	stands, made := q.Apart(at, rated)
	v.Sentence = "Thrown shut in " + q.Text(Quick) + " the valve raises the pressure by " + q.Text(quick) + ", on top of what stands there when it is shut, " + stands
	if at+quick <= rated {
		v.Sentence += "; the weakest joint that has a rating, the " + weakest + ", is made for " + made + "."
		return v
	}
	v.Level = finding.Look
	v.Sentence += ": " + q.By(at+quick-rated) + " over the " + made + " of the " + weakest + ". A joint that lets go sprays, and drops what hangs on it."
	v.Advice = "Shut it over " + q.Text(safe) + " or more, fit a valve that is wound shut, or slow the flow before it is shut."
	if at >= rated {
		v.Advice = "The pump alone is too much for that joint: take one of a higher rating."
	}
	return v
}

// stop is where the flow is stopped.
type stop struct {
	ref, where string
	valve      bool // there is a valve; else the end of the line is meant
	beyond     bool // the pump
	bore, wall q.Length
	speed      q.Velocity // there
	length     q.Length   // from the tank to there
	mean       q.Velocity // along that length
	low        q.Length   // the lowest point up to there, above the floor
}

// stop finds the valve whose shutting raises the pressure most: the one with
// the most liquid in motion before it. Where there is none it is the end of the line.
func (in *Input) stop() stop {
	var found, here stop
	here.length = max(in.Stub, 0)
	momentum := float64(in.Flow) * mass(in.Layout.Outlet.Bore(), in.Layout.Outlet.Bore(), here.length)
	here.low = q.Length(in.Layout.Outlet.At.Z)
	under := len(in.Layout.Under) + len(in.Layout.Run)
	for i, p := range in.Layout.Pieces() {
		bore := p.Out.Bore()
		if bore <= 0 {
			continue
		}
		tube := p.Out.Half.Tube
		v := float64(in.Flow) * 4 / (math.Pi * float64(bore) * float64(bore))
		momentum += float64(in.Flow) * massOf(&p)
		here.length += p.Length
		here.low = min(here.low, q.Length(p.Out.At.Z))
		here.ref, here.bore, here.wall, here.speed = p.Ref, bore, tube.Wall, q.Velocity(v)
		here.beyond = !in.Layout.Gravity && i >= under
		if here.length > 0 {
			here.mean = q.Velocity(momentum / float64(here.length))
		}
		if strings.HasSuffix(p.Kind, "-valve") {
			found, found.valve = here, true
		}
	}
	if !found.valve {
		found, found.where = here, " at the end of the line"
	}
	return found
}

// mass returns the length of a bore that goes evenly from one width to another
// over its area, 1/m: times ρ, what the liquid in it weighs against being stopped.
func mass(from, to, length q.Length) float64 {
	if from <= 0 || to <= 0 {
		return 0
	}
	return float64(length) * 4 / (math.Pi * float64(from) * float64(to))
}

// massOf returns the mass of a piece along its bore.
func massOf(p *route.Piece) float64 {
	if len(p.Path) == 0 {
		return mass(p.Out.Bore(), p.Out.Bore(), p.Length)
	}
	sum := 0.0
	for i := range p.Path {
		s := &p.Path[i]
		sum += mass(s.BoreFrom, s.BoreTo, s.Length)
	}
	return sum
}

// standing returns the gauge pressure at the lowest point before the shut valve.
func (s stop) standing(in *Input) q.Pressure {
	head := float64(in.Full - s.low)
	if s.beyond {
		head += float64(in.Shutoff)
	}
	return q.Pressure(float64(in.Density) * 9.80665 * max(head, 0))
}

// weakest returns the least rating of the line's unions, as far as they are
// known, and the union that has it; 0 where none is.
func (in *Input) weakest() (q.Pressure, string) {
	least, name := q.Pressure(0), ""
	for i := range in.Layout.Junctions {
		j := &in.Layout.Junctions[i]
		for _, end := range [...]*route.End{&j.Up, &j.Down} {
			if end.Half.Plain() {
				continue
			}
			if p := end.Half.Joint.Pressure; p > 0 && (least == 0 || p < least) {
				least, name = p, end.Half.Joint.Name
			}
		}
	}
	return least, name
}
