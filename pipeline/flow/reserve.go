package flow

import (
	"drawoff/pipeline/finding"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// Reserve is how far a pump is from the end of its suction head: at every
// level, and with a hotter liquid or a greater flow. Its zero value says nothing.
type Reserve struct {
	Points   []Point // from the fullest level to the lowest, evenly
	Figures  []finding.Figure
	Says     []string      // in sentences, what of it matters
	RunsOut  q.Length      // height over the floor under which the margin does not hold; 0 where it holds throughout, or nowhere
	Hottest  q.Temperature // 0 where it holds as far as the liquid's data or the air reach, or is not found
	Greatest q.Flow        // at the lowest level, within the pump's curve; 0 where there is none
}

// reservePoints is how many levels are looked at.
const reservePoints = 17

// Reserves looks at what Check sees of in at three levels, at many: the level
// at which the suction margin runs out, the hottest liquid and the greatest
// flow for which it holds, each found by halving on the same functions. It is
// as much work as some Checks, so it is asked only by who shows it. Nothing
// comes of it where no pump runs or nothing says what it requires.
func Reserves(in Input) Reserve {
	var r Reserve
	if in.Layout.Gravity || !in.Curve.RequiredKnown() || len(in.Levels) < 2 {
		return r
	}
	p := newPlant(&in)
	full, low := in.Levels[0], in.Levels[len(in.Levels)-1]
	r.Points = make([]Point, reservePoints)
	for i := range r.Points {
		part := q.Length(i) / (reservePoints - 1)
		r.Points[i] = p.at(Level{Height: full.Height + (low.Height-full.Height)*part})
	}
	p.reserveLevel(&r)
	p.reserveHeat(&r)
	p.reserveFlow(&r, low)
	return r
}

// holds reports whether the suction margin is known and holds.
func (pt *Point) holds() bool { return pt.SuctionKnown && pt.Margin >= 0 }

// edge returns the last of what is safe between good, which is, and bad, which is not.
func edge(safe func(x float64) bool, good, bad float64) float64 {
	for range 24 {
		x := good + (bad-good)/2
		if safe(x) {
			good = x
		} else {
			bad = x
		}
	}
	return good
}

// reserveLevel finds the level at which the margin runs out on the way down.
func (p *plant) reserveLevel(r *Reserve) {
	last := len(r.Points) - 1
	i := 0
	for i <= last && r.Points[i].holds() {
		i++
	}
	switch {
	case i > last:
		r.Says = append(r.Says, "The suction margin holds at every level down to the lowest.")
		return
	case i == 0:
		if r.Points[0].SuctionKnown {
			r.Says = append(r.Says, "The suction margin does not hold even with the tank full.")
		}
		return
	case !r.Points[i].SuctionKnown:
		return // nothing flows from there on, which the verdict on the pump's range tells
	}
	at := func(height float64) bool {
		pt := p.at(Level{Height: q.Length(height)})
		return pt.holds()
	}
	r.RunsOut = q.Length(edge(at, float64(r.Points[i-1].Level.Height), float64(r.Points[i].Level.Height)))
	over := r.RunsOut - p.Foot
	r.Says = append(r.Says, "The suction margin runs out when the level has sunk to "+q.Text(over)+" over the lowest inside point.")
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "level-margin-ends", Name: "Level at which the suction margin runs out, over the lowest inside point", Piece: refTank, Amount: q.Of(over),
		Working: p.reserveWorking("margin(level) = 0, solved for the level", finding.In("t", "temperature", p.Temperature)),
	})
}

// reserveHeat finds the hottest liquid for which the margin holds, full and at
// the lowest level. Where it does not hold as it is, it looks for a colder one.
func (p *plant) reserveHeat(r *Reserve) {
	if p.Temperature <= 0 {
		return
	}
	// A liquid typed in by its properties says nothing of what warmth does to them.
	cold, _ := liquid.Of(p.Recipe, p.Temperature-5)
	warm, _ := liquid.Of(p.Recipe, p.Temperature)
	if cold.VapourPressure == warm.VapourPressure {
		return
	}
	const steps = 8
	now := float64(p.Temperature)
	safe := func(t float64) bool { return p.warmed(q.Temperature(t)) }
	boils := float64(liquid.BoilingPoint(p.Air))
	to, holds := boils, safe(now)
	if !holds {
		to = float64(q.Celsius(0.1))
	}
	found := false
	for i := 1; i <= steps && !found; i++ {
		x, before := now+(to-now)*float64(i)/steps, now+(to-now)*float64(i-1)/steps
		if safe(x) == holds {
			continue
		}
		found = true
		if holds {
			r.Hottest = q.Temperature(edge(safe, before, x))
		} else {
			r.Hottest = q.Temperature(edge(safe, x, before))
		}
	}
	if l, _ := liquid.Of(p.Recipe, r.Hottest+0.01); found && holds && len(l.Outside) > 0 {
		// It may hold further, but nothing is known of the liquid there.
		r.Says = append(r.Says, "It holds with the liquid up to "+q.Text(r.Hottest)+", where what is known of it ends.")
		r.Hottest = 0
		return
	}
	switch {
	case !found && holds && now < boils:
		r.Says = append(r.Says, "It holds with the liquid as hot as it gets in an open tank here, "+q.Text(q.Temperature(boils))+".")
		return
	case !found:
		return
	case holds:
		r.Says = append(r.Says, "It holds with the liquid up to "+q.Text(r.Hottest)+".")
	default:
		r.Says = append(r.Says, "It would hold with the liquid at "+q.Text(r.Hottest)+" or colder.")
	}
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "hottest-safe", Name: "Hottest liquid for which the suction margin holds", Piece: "liquid", Amount: q.Of(r.Hottest),
		Working: p.reserveWorking("least margin(t) of full and lowest = 0, solved for t", finding.In("p", "pressure of the air, absolute", p.Air)),
	})
}

// warmed reports whether the margin holds, full and at the lowest level, with
// the liquid at another temperature. Where its data do not reach it does not.
func (p *plant) warmed(t q.Temperature) bool {
	in := *p.Input
	l, ok := liquid.Of(in.Recipe, t)
	if !ok || len(l.Outside) > 0 {
		return false
	}
	in.Liquid, in.Temperature = l, t
	if len(in.Pump.Duties) > 0 {
		in.Curve = in.Pump.Run(l)
	}
	other := plant{Input: &in, suction: p.suction, delivery: p.delivery}
	other.circuits()
	for _, level := range [...]Level{in.Levels[0], in.Levels[len(in.Levels)-1]} {
		if pt := other.at(level); !pt.holds() {
			return false
		}
	}
	return true
}

// reserveFlow finds the greatest flow for which the margin holds at the lowest level.
func (p *plant) reserveFlow(r *Reserve, low Level) {
	base := float64(SuctionAvailable(p.Air, p.Liquid.VapourPressure, p.Liquid.Density, p.over(low), 0))
	safe := func(t float64) bool {
		flow, _ := p.Curve.at(t)
		required, _ := p.Curve.required.at(flow)
		_, most := p.up.band(flow)
		return base-most >= float64(p.Limits.Need(q.Head(required)))
	}
	from, to := p.Curve.ends()
	const steps = 24
	if !safe(from) {
		return // not even the least flow
	}
	t := to
	for i := 1; i <= steps; i++ {
		if x := from + (to-from)*float64(i)/steps; !safe(x) {
			t = edge(safe, from+(to-from)*float64(i-1)/steps, x)
			break
		}
	}
	flow, _ := p.Curve.at(t)
	r.Greatest = q.Flow(flow)
	if t == to {
		r.Says = append(r.Says, "At the lowest level it holds at every flow of the pump's curve.")
		return
	}
	r.Says = append(r.Says, "At the lowest level it holds up to a flow of "+q.Text(r.Greatest)+".")
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "greatest-safe-flow", Name: "Greatest flow for which the suction margin holds, lowest", Piece: refPump, Amount: q.Of(r.Greatest),
		Working: p.reserveWorking("(p - p_v)/(ρ g) + z - h_f(Q) = max(NPSH_r(Q) + a, NPSH_r(Q) × b), solved for Q", finding.In("z", "level over the pump inlet's centre", p.over(low))),
	})
}

func (p *plant) reserveWorking(formula string, in finding.Input) finding.Working {
	return finding.Working{
		Formula: formula,
		Inputs:  []finding.Input{in, finding.In("a", "margin", p.Limits.SuctionMargin), finding.In("b", "ratio", q.Number(p.Limits.SuctionRatio))},
		Source:  availableSource + "; margin: " + needSource,
		Range:   "the pump's curve and the liquid's data",
	}
}
