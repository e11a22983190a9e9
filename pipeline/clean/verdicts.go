package clean

import (
	"cmp"
	"slices"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// The rules.
const (
	RuleSpeed   = "wash-speed"   // how fast the wash runs in the widest bore
	RuleSuction = "wash-suction" // what the pump has to draw from, on the wash
	RuleSpray   = "wash-spray"   // what arrives at the spray ball
	RuleRunoff  = "wash-runoff"  // whether the outlet carries the spray away
	RuleHose    = "hose-untold"  // what a hose is lined with is not told
)

func (w *wash) verdicts() (out []finding.Verdict) {
	add := func(v finding.Verdict, ok bool) {
		if ok {
			out = append(out, v)
		}
	}
	add(w.speed())
	add(w.suction())
	add(w.ball())
	add(w.runoff())
	add(w.hoses())
	return out
}

// With names what runs in a step, in a sentence.
func (s Step) With() string { return s.Agent.Named(s.Strength) + ", at " + q.Text(s.Temperature) }

// speed judges the slowest of the steps.
func (w *wash) speed() (finding.Verdict, bool) {
	slow := -1
	for i, run := range w.runs {
		if run.Known && !run.Boils && (slow < 0 || run.Flow < w.runs[slow].Flow) {
			slow = i
		}
	}
	if slow < 0 {
		return finding.Verdict{}, false
	}
	run := w.runs[slow]
	v := finding.Verdict{Rule: RuleSpeed, Piece: w.widest.ref, Limit: new(q.Of(w.Speed)), Basis: speedSource}
	flow, need := q.Apart(run.Flow, w.need)
	runs := "With " + w.Steps[slow].With() + ", the line runs " + flow
	if w.Fed > 0 {
		runs += ", which the pump taken for it must give against " + q.Text(run.Asked)
	}
	had := Speed(w.widest.bore, run.Flow)
	speed, least := q.Apart(had, w.Speed)
	bore := speed + " in its widest bore, " + q.Text(w.widest.bore) + " (" + w.widest.name + ")"
	switch {
	case run.Flow >= w.need:
		v.Sentence = runs + ": " + bore + ", and " + q.Text(Speed(w.narrowest.bore, run.Flow)) + " in its narrowest. " + least + " is the least that cleans."
		return v, true
	case run.AtLeast:
		v.Level = finding.Look
		v.Sentence = runs + " or more, which is as far as the pump's curve goes: " + bore + " at least. " + least + " would take " + need + ", of which the curve says nothing."
		v.Advice = "Add points to the curve, or measure the flow with a bucket and a watch."
		return v, true
	}
	v.Level = finding.Look
	v.Sentence = runs + ": " + bore + ", where " + least + " is the least that cleans. That takes " + need
	if w.widest.bore > w.narrowest.bore {
		v.Sentence += ", and makes " + q.Text(Speed(w.narrowest.bore, w.need)) + " in the narrowest"
	}
	v.Sentence += "."
	v.Advice = "Wash it with a pump that gives " + q.Text(w.need) + " against " + q.Text(run.Asked) + ", make the whole line of one bore, or take the wide part off and brush it."
	if !run.Pump {
		v.Advice = "Wash it with a pump that gives " + q.Text(w.need) + ", make the whole line of one bore, or take the wide part off and brush it."
	}
	return v, true
}

// suction judges the step that leaves the pump least to draw from.
func (w *wash) suction() (finding.Verdict, bool) {
	worst := -1
	for i, run := range w.runs {
		switch {
		case run.Boils:
			v := finding.Verdict{Rule: RuleSuction, Piece: "pump", Level: finding.Stop, Basis: "IAPWS R7-97; ISO 2533:1975",
				Sentence: "With " + w.Steps[i].With() + ", it boils in an open tank at this altitude: no pump draws it.", Advice: "Wash cooler."}
			if !run.Pump {
				v.Piece = "tank"
				v.Sentence = "With " + w.Steps[i].With() + ", it boils in an open tank at this altitude: nothing more can be said of how it runs."
			}
			return v, true
		case run.MarginKnown && (worst < 0 || run.Suction.Margin() < w.runs[worst].Suction.Margin()):
			worst = i
		}
	}
	if worst < 0 {
		return finding.Verdict{}, false
	}
	s, m := w.Steps[worst], w.runs[worst].Suction.Margin()
	v := finding.Verdict{Rule: RuleSuction, Piece: "pump", Basis: "ANSI/HI 9.6.1, from memory, as for the liquid"}
	if m >= 0 {
		v.Sentence = "With " + s.With() + ", the pump keeps " + q.Text(m) + " of suction head to spare over the margin."
		return v, true
	}
	v.Level = finding.Look
	v.Sentence = "With " + s.With() + ", the pump is " + q.By(-m) + " short of the suction head that it requires with its margin, at the lowest level: hot wash is what a pump loses first."
	v.Advice = "Keep more in the tank while it goes round, throttle the delivery, wash cooler, or make the suction line shorter or wider."
	return v, true
}

// ball judges what arrives at a spray ball that is told.
func (w *wash) ball() (finding.Verdict, bool) {
	if w.Spray <= 0 {
		return finding.Verdict{}, false
	}
	v := finding.Verdict{Rule: RuleSpray, Piece: "tank", Limit: new(q.Of(w.least)), Basis: leastWettingSource + "; " + mostWettingSource}
	of, each := q.Run()
	wets := q.Flow(LeastWetting * float64(of))
	run, wet := q.Apart(wets*w.Spray/w.least, wets)
	gives := "The spray ball gives " + q.Text(w.Spray) + ", " + run + " for each " + each + " of the tank's circumference"
	if w.Spray < w.least {
		v.Level = finding.Look
		v.Sentence = gives + ": under the " + wet + " that wet the wall, stripes stay dry."
		v.Advice = "Take a ball of " + q.Text(w.least) + " to " + q.Text(w.most) + "."
		return v, true
	}
	had := w.runs[w.main]
	press := w.Steps[w.main].pressure(had.Ball.Left())
	leaves, needs := q.Apart(max(press, 0), w.Pressure)
	switch {
	case !had.Pump || !had.BallKnown:
		v.Sentence = gives + ", enough to wet the wall. What presses it there is not told."
		v.Level = finding.Look
		v.Advice = "See that whatever feeds it gives that flow at " + q.Text(w.Pressure) + " over the air at the ball."
	case press < w.Pressure:
		v.Level = finding.Look
		v.Sentence = gives + ", but at that flow the pump leaves " + leaves + " at the ball, where it needs " + needs + ": it dribbles."
		v.Advice = "Feed it with a pump of more head, or take a ball made for less pressure."
	default:
		v.Sentence = gives + ", enough to wet the wall, and the pump leaves " + leaves + " at the ball, where it needs " + needs + "."
	}
	return v, true
}

// runoff judges whether what is sprayed leaves the tank again.
func (w *wash) runoff() (finding.Verdict, bool) {
	s := w.Steps[w.main]
	v := finding.Verdict{Rule: RuleRunoff, Piece: "tank", Limit: new(q.Of(w.spray)), Basis: "energy equation; geometry of the tank"}
	if w.Scavenge > 0 {
		takes, brings := q.Apart(w.Scavenge, w.spray)
		v.Sentence = "The pump that draws the wash off takes " + takes + ", the spray brings " + brings
		if w.Scavenge >= w.spray {
			v.Sentence += ": no pool stands in the tank."
			return v, true
		}
		v.Level = finding.Look
		v.Sentence += ": the tank fills by " + q.By(w.spray-w.Scavenge) + ", and what stands in it is not cleaned by the spray."
		v.Advice = "Spray in bursts, spray less, or draw off more."
		return v, true
	}
	level, pool := w.pool(s)
	carries := q.Text(w.spray) + " of spray run off by gravity"
	switch {
	case level >= w.Vessel.Brim():
		v.Level = finding.Look
		if w.Spray > 0 { // else nobody has said that it is sprayed at all
			v.Level = finding.Stop
		}
		v.Sentence = q.Text(w.spray) + " of spray do not run off by gravity through the outlet and what hangs under it: the tank fills to the brim."
		v.Advice = "Draw the wash off with a pump, spray in bursts, or widen the outlet."
	case pool > w.Sump:
		v.Level = finding.Look
		stands, sump := q.Apart(pool, w.Sump)
		v.Sentence = carries + " only when " + q.Text(level) + " stand in the tank, " + stands + ": more than the " + sump + " of the sump, and what stands in it is not cleaned by the spray."
		v.Advice = "Draw the wash off with a pump, spray in bursts, widen the outlet, or make the batch larger."
	case level > 0:
		v.Sentence = carries + " with " + q.Text(level) + " over the lowest inside point, " + q.Text(pool) + "."
	default:
		v.Sentence = carries + " without a pool in the tank."
	}
	return v, true
}

// hoses tells of those whose lining nobody has told, since every step goes through them.
func (w *wash) hoses() (finding.Verdict, bool) {
	first, n := "", 0
	for _, p := range w.Layout.Pieces() {
		if p.Kind == design.Hose && (p.Said == nil || p.Said.Lining == "") {
			if n == 0 {
				first = p.Ref
			}
			n++
		}
	}
	if n == 0 {
		return finding.Verdict{}, false
	}
	hot := slices.MaxFunc(w.Steps, func(a, b Step) int { return cmp.Compare(a.Temperature, b.Temperature) })
	return finding.Verdict{Rule: RuleHose, Level: finding.Look, Piece: first, Basis: ours,
		Sentence: "Nothing is said of what the hose is lined with, so nothing can be said of how it stands the wash, up to " + q.Text(hot.Temperature) + ".",
		Advice:   "Say what it is lined with: it is printed on the hose, or in its maker's sheet."}, true
}
