package flow

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Kv returns the flow coefficient of a throttle that lets flow through at the
// loss of head: the water in m³/h that it would pass at 1 bar (IEC 60534-2-1,
// turbulent flow). The liquid's density drops out when its loss is a head.
func Kv(flow q.Flow, head q.Head) float64 {
	const water = 1000 // kg/m³
	h := within(float64(head), 1e-9, 1e6)
	return within(float64(flow/q.CubicMetrePerHour), 0, 1e9) * math.Sqrt(1e5/(water*gravity*h))
}

// SpeedFor returns how many times as fast the pump of c must turn to give head
// at flow, by affinity (a positive pump: by its slip). It is not ok where no
// speed puts that on its curve.
func (c Curve) SpeedFor(flow q.Flow, head q.Head) (ratio float64, ok bool) {
	if c.IsZero() || !(flow > 0) || !(head >= 0) {
		return 0, false
	}
	if c.positive {
		if from, _ := c.ends(); float64(head) > -from {
			return 0, false
		}
		there, _ := c.push.at(float64(head)) // under 0 where all slips back
		free, _ := c.push.at(0)
		if !(free > 0) {
			return 0, false
		}
		ratio = 1 + (float64(flow)-there)/free
		return ratio, ratio > 0
	}
	over := func(s float64) float64 {
		h, _ := c.push.at(float64(flow) / s)
		return s*s*h - float64(head)
	}
	const greatest = 10
	least := float64(flow / c.Last())
	most := float64(greatest)
	if c.First() > 0 {
		most = min(most, float64(flow/c.First()))
	}
	atLeast, atMost := over(least), over(most)
	if atLeast > 0 || atMost < 0 || !(most > least) {
		return 0, false
	}
	return root(over, least, atLeast, most, atMost), true
}

// throttle is what it takes to have the wanted flow at one level.
type throttle struct {
	level      Level
	asked      q.Head // by the line at that flow, static head included
	burn       q.Head // that is over, for a throttle to take
	ratio      float64
	ratioKnown bool
}

// rate is the flow of the line, as every loss is reckoned with it, that gives
// the wanted one at the outflow: tees may draw off or join a share on the way.
func (p *plant) rate() q.Flow {
	line := p.delivery
	if p.Layout.Gravity {
		line = p.suction
	}
	if share := line[len(line)-1].Share; share > 0 {
		return p.Wanted / q.Flow(share)
	}
	return p.Wanted
}

// throttles returns them for every level; nil where no flow is wanted or
// nothing is known of what there is.
func (p *plant) throttles(r *Result) []throttle {
	if p.Wanted <= 0 || !p.Layout.Gravity && p.Curve.IsZero() {
		return nil
	}
	out := make([]throttle, len(r.Points))
	rate := p.rate()
	lost := q.Head(p.whole.loss(float64(rate)))
	for i, pt := range r.Points {
		t := throttle{level: pt.Level}
		if p.Layout.Gravity {
			t.asked = lost
			t.burn = pt.Static - lost
		} else {
			t.asked = pt.Static + lost
			head, _ := p.Curve.Head(rate)
			t.burn = head - t.asked
			t.ratio, t.ratioKnown = p.Curve.SpeedFor(rate, max(0, t.asked))
		}
		out[i] = t
	}
	return out
}

// wantedFigures adds, for each level, what a throttle must take and its Kv,
// and the speed that would do instead.
func (p *plant) wantedFigures(r *Result) {
	for i, t := range p.throttles(r) {
		pt := &r.Points[i]
		if p.throttled() && t.burn > 0 {
			w := finding.Working{
				Formula: "h = H - z - h_f",
				Inputs: []finding.Input{finding.In("Q", "wanted flow", p.Wanted), finding.In("z", "discharge over the level", pt.Static),
					finding.In("h_f", "lost in the open line at that flow", q.Head(p.whole.loss(float64(p.rate()))))},
				Source: energySource, Range: "the valves as they are set, the throttle besides",
			}
			if p.Layout.Gravity {
				w.Formula, w.Inputs[1].Name = "h = z - h_f", "level over the discharge"
			} else {
				head, _ := p.Curve.Head(p.rate())
				w.Inputs = append(w.Inputs, finding.In("H", "head of the pump at that flow", head))
			}
			add(r, pt, "throttle-head", "Head to burn for the wanted flow", refDelivery, t.burn, w)
			add(r, pt, "throttle-kv", "Kv of the throttle for it", refDelivery, q.Number(Kv(p.Wanted, t.burn)), finding.Working{
				Formula: "K_v = Q √(Δp_1/(ρ_w g h))",
				Inputs: []finding.Input{finding.In("Q", "wanted flow, m³/h", q.Number(p.Wanted/q.CubicMetrePerHour)), finding.In("Δp_1", "drop that K_v is for", q.Bar),
					finding.In("ρ_w", "density of the water that it is for", q.Density(1000)), finding.In("g", "gravity, m/s²", q.Number(gravity)), finding.In("h", "head to burn", t.burn)},
				Source: "IEC 60534-2-1", Range: "turbulent flow through the throttle",
			})
		}
		if !t.ratioKnown {
			continue
		}
		w := finding.Working{
			Formula: "n s with s² H_curve(Q/s) = H, solved for s",
			Inputs:  []finding.Input{finding.In("Q", "wanted flow, through the pump", p.rate()), finding.In("H", "head that the open line asks at it", t.asked)},
			Source:  "affinity laws, Crane TP-410 ex. 7.33; what a thick liquid takes off as at the present speed",
			Range:   "about half to the full rated speed (common practice, no source)",
		}
		if p.Curve.positive {
			w.Formula = "n s with s = 1 + (Q - Q_curve(H)) / Q_curve(0)"
			w.Source = "what it pushes out goes with the speed, its slip with the pressure: common practice, no source"
		}
		if speed := p.Pump.turns(); speed > 0 {
			w.Inputs = append(w.Inputs, finding.In("n", "present speed", speed))
			add(r, pt, "speed-for-flow", "Speed for the wanted flow instead", refPump, speed*q.Rotation(t.ratio), w)
		} else {
			add(r, pt, "speed-for-flow", "Part of its speed for the wanted flow instead", refPump, q.Fraction(t.ratio), w)
		}
	}
}

// throttled reports whether a throttle can set the flow: it cannot behind a
// positive pump, which only presses the harder.
func (p *plant) throttled() bool { return !p.Curve.positive }

// turns returns the speed that the pump runs at, 0 where it is not known.
func (p Pump) turns() q.Rotation {
	if p.Speed > 0 {
		return p.Speed
	}
	return max(p.Rated, 0)
}

// wantedFlow judges whether the wanted flow can be had at every level, and says how.
func (p *plant) wantedFlow(r *Result) (finding.Verdict, bool) {
	all := p.throttles(r)
	if all == nil {
		return finding.Verdict{}, false
	}
	first, last := all[0], all[0] // the most and the least to burn
	for _, t := range all {
		if t.burn > first.burn {
			first = t
		}
		if t.burn <= last.burn {
			last = t
		}
	}
	want, rate := q.Text(p.Wanted), p.rate()
	v := finding.Verdict{Rule: "wanted-flow", Piece: refDelivery, Limit: new(q.Of(p.Wanted)), Basis: "energy equation; IEC 60534-2-1; affinity laws"}
	speed := func(t throttle) string {
		if n := p.Pump.turns(); n > 0 {
			return q.Text(n * q.Rotation(t.ratio))
		}
		return q.Text(q.Fraction(t.ratio)) + " of its speed"
	}
	instead := ""
	if first.ratioKnown && last.ratioKnown {
		instead = speed(first)
		if other := speed(last); other != instead {
			instead += " rising to " + other
		}
	}
	beyond := !p.Layout.Gravity && !p.Curve.positive && rate > p.Curve.Last()
	switch {
	case p.Curve.positive && instead != "":
		v.Sentence = want + " is had by turning the pump at " + instead + ". A throttle would not do it: a positive pump only presses the harder against it."
		v.Figure = "speed-for-flow-" + last.level.Slug
	case p.Curve.positive:
		v.Level = finding.Look
		v.Sentence = want + " is not to be had: the line asks " + q.Text(p.pressure(last.asked)) + " at that flow, more than the pump's last point."
		v.Advice = "Widen the line, ask for less, or add points to the curve."
	case beyond || last.burn < 0:
		v.Level = finding.Look
		v.Sentence = last.level.at() + " the line asks " + q.By(-last.burn) + " more than there is at the " + want + " wanted."
		if beyond {
			wanted, ends := q.Apart(rate, p.Curve.Last())
			if rate != p.Wanted {
				wanted = want
			}
			v.Sentence = "The flow wanted, " + wanted + ", lies beyond the pump's curve, which ends at " + ends + "."
		}
		v.Advice = "Widen the line, raise the tank, lower the discharge, or ask for less."
		if !p.Layout.Gravity && last.ratioKnown {
			v.Advice = "Turn the pump at " + speed(last) + " if its maker and its motor allow, widen the line, raise the tank, or ask for less."
		}
	case first.burn <= 0:
		v.Sentence = "The open line lets just the " + want + " wanted through."
	default:
		v.Figure = "throttle-head-" + first.level.Slug
		v.Sentence = want + " is had with a throttle in the delivery that burns " + q.Text(first.burn) + " (Kv " + q.Text(q.Number(Kv(p.Wanted, first.burn))) + ") " + first.level.when()
		if last.level != first.level && last.burn > 0 {
			v.Sentence += " and " + q.Text(last.burn) + " (Kv " + q.Text(q.Number(Kv(p.Wanted, last.burn))) + ") " + last.level.when()
		}
		v.Sentence += "."
		if instead != "" {
			v.Sentence += " Instead of a throttle the pump could turn at " + instead + "."
		}
	}
	if p.Layout.Gravity || !p.Curve.RequiredKnown() || v.Level != finding.Sound {
		return v, true
	}
	// So throttled, the pump has more to draw from than with all open.
	required, _ := p.Curve.Required(rate)
	low := last.level
	_, most := p.up.band(float64(rate))
	has := SuctionAvailable(p.Air, p.Liquid.VapourPressure, p.Liquid.Density, p.over(low), q.Head(most))
	if spare := has - p.Limits.Need(required); spare >= 0 {
		v.Sentence += " At that flow " + q.Text(spare) + " of suction head is to spare over the margin " + low.when() + "."
	} else {
		v.Level = finding.Look
		v.Sentence += " At that flow the suction head is " + q.Text(-spare) + " short of the margin " + low.when() + "."
		v.Advice = "Raise the tank, cool the liquid, or make the suction line shorter or wider."
	}
	return v, true
}
