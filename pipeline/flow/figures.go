package flow

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// The workings, written once. Everything is held against the higher loss where
// the regime is not sure.
const (
	flowFormula    = "H_pump(Q) = z_d - z_l + h_f(Q), solved for Q"
	gravityFormula = "z_l - z_d = h_f(Q), solved for Q; h_f holds the exit loss v²/2g"
	energySource   = "energy equation between two free surfaces; pump curve as published, through its points by Fritsch & Carlson 1980"

	availableFormula = "NPSH_a = (p - p_v)/(ρ g) + z - h_f"
	availableSource  = "definition, at the centre of the pump inlet (ISO 9906, from memory; Crane TP-410 ex. 7.32)"
	needFormula      = "margin = NPSH_a - max(NPSH_r + a, NPSH_r × b)"
	needSource       = "ANSI/HI 9.6.1, from memory"

	suctionRange = "a level shaft, liquid without gas, the surface open to the air"
	staticRange  = "any flow; the discharge and the level at rest"
	speedRange   = "a bore that runs full; the mean over it"
)

// figures adds every figure of r to it.
func (p *plant) figures(r *Result) {
	r.Figures = make([]finding.Figure, 0, 8*len(r.Points)+12)
	for i := range r.Points {
		if p.Layout.Gravity {
			p.gravityFigures(r, &r.Points[i])
		} else {
			p.pumpFigures(r, &r.Points[i])
		}
	}
	if !p.Layout.Gravity {
		p.powerFigures(r)
		p.pumpData(r)
		p.primeFigures(r)
	}
	p.wantedFigures(r)
	p.speedFigures(r)
	p.finishFigure(r)
	p.splitFigures(r)
}

// add puts one figure of a level into r.
func add[Q q.Quantity](r *Result, pt *Point, slug, name, piece string, value Q, w finding.Working) {
	r.Figures = append(r.Figures, finding.Figure{
		Slug:    slug + "-" + pt.Level.Slug,
		Name:    name + ", " + pt.Level.Name,
		Amount:  q.Of(value),
		Piece:   piece,
		Working: w,
	})
}

func (p *plant) gravityFigures(r *Result, pt *Point) {
	add(r, pt, "flow", "Flow by gravity", "", pt.Flow, finding.Working{
		Formula: gravityFormula,
		Inputs: []finding.Input{
			finding.In("z_l", "level above the floor", pt.Level.Height),
			finding.In("z_d", "discharge above the floor", p.Discharge),
			finding.In("Q_least", "flow by the method that says the line loses most", pt.FlowLeast),
		},
		Source: p.said().source, Range: p.said().lossRange,
	})
	add(r, pt, "fall-head", "Level over the discharge", "", pt.Static, p.staticWorking("z = z_l - z_d", pt))
	p.lossFigure(r, pt, "line-loss", "Loss from tank to outflow", pt.SuctionLoss, p.whole)
}

func (p *plant) pumpFigures(r *Result, pt *Point) {
	add(r, pt, "static-lift", "Discharge over the level", "", pt.Static, p.staticWorking("z = z_d - z_l", pt))
	if pt.Status == NoCurve || pt.Status == TooThick {
		return
	}
	add(r, pt, "flow", "Flow", "", pt.Flow, finding.Working{
		Formula: flowFormula,
		Inputs: []finding.Input{
			finding.In("z_d - z_l", "discharge over the level", pt.Static),
			finding.In("h_f", "lost in suction and delivery", pt.SuctionLoss+pt.DeliveryLoss),
			finding.In("H_pump", "head of the pump at this flow", pt.Head),
		},
		Source: energySource, Range: "between the first and the last point of the pump's curve",
	})
	add(r, pt, "pump-head", "Head of the pump", refPump, pt.Head, finding.Working{
		Formula: "H from the pump's curve at Q",
		Inputs:  []finding.Input{finding.In("Q", "flow", pt.Flow)},
		Source:  p.curveSource(), Range: "the points of the pump's curve",
	})
	p.lossFigure(r, pt, "suction-loss", "Loss from tank to pump", pt.SuctionLoss, p.up)
	p.lossFigure(r, pt, "delivery-loss", "Loss from pump to outflow", pt.DeliveryLoss, p.down)
	p.lossFigure(r, pt, "line-loss", "Loss from tank to outflow", pt.SuctionLoss+pt.DeliveryLoss, p.whole)
	if pt.Flow == 0 {
		return
	}
	add(r, pt, "suction-head-available", "Suction head available", refPump, pt.SuctionAvailable, finding.Working{
		Formula: availableFormula,
		Inputs: []finding.Input{
			finding.In("p", "pressure of the air, absolute", p.Air),
			finding.In("p_v", "vapour pressure of the liquid, absolute, at most p", min(p.Liquid.VapourPressure, p.Air)),
			finding.In("ρ", "density", p.Liquid.Density),
			finding.In("g", "gravity, m/s²", q.Number(gravity)),
			finding.In("z", "level over the pump inlet's centre", p.over(pt.Level)),
			finding.In("h_f", "lost from tank to pump, the most that any method says", pt.SuctionMost),
		},
		Source: availableSource, Range: suctionRange,
	})
	if !pt.SuctionKnown {
		return
	}
	add(r, pt, "suction-head-required", "Suction head the pump requires", refPump, pt.SuctionRequired, finding.Working{
		Formula: "NPSH_r from the pump's curve at Q",
		Inputs:  []finding.Input{finding.In("Q", "flow", pt.Flow)},
		Source:  energySource, Range: "the points of the curve that give it",
	})
	add(r, pt, "suction-margin", "Suction head to spare over the margin", refPump, pt.Margin, finding.Working{
		Formula: needFormula,
		Inputs: []finding.Input{
			finding.In("NPSH_a", "suction head available", pt.SuctionAvailable),
			finding.In("NPSH_r", "suction head required", pt.SuctionRequired),
			finding.In("a", "margin", p.Limits.SuctionMargin),
			finding.In("b", "ratio", q.Number(p.Limits.SuctionRatio)),
		},
		Source: needSource, Range: suctionRange,
	})
}

// curveSource says what has been done to the pump's points.
func (p *plant) curveSource() string {
	s := energySource
	if p.Pump.ratio() != 1 && !p.Curve.positive {
		s += "; moved to its speed by affinity, Crane TP-410 ex. 7.33"
	}
	if p.Curve.thick.Applies() {
		s += "; corrected for a thick liquid by " + thickSource
	}
	if p.Curve.positive {
		s = "energy equation; what a positive pump pushes out goes with its speed, its slip with the pressure (common practice, no source)"
	}
	return s
}

// pumpData adds what was reckoned of the pump itself, before any line.
func (p *plant) pumpData(r *Result) {
	if t := p.Curve.thick; t.B > 0 {
		r.Figures = append(r.Figures, finding.Figure{
			Slug: "viscosity-parameter", Name: "Parameter B of the thick liquid", Piece: refPump, Amount: q.Of(q.Number(t.B)),
			Working: finding.Working{
				Formula: "B = 16.5 ν^0.5 H_best^0.0625 / (Q_best^0.375 N^0.25); ln C_Q = -0.165 ln 2.71 (log10 B)^3.15; C_H = 1 - (1 - C_Q)(Q/Q_best)^0.75; ln C_η = -0.0547 B^0.69 ln B",
				Inputs: []finding.Input{
					finding.In("ν", "kinematic viscosity, mm²/s", q.Number(viscosity(p.Liquid).nu*1e6)),
					finding.In("Q_best", "flow of the best point in water, m³/h", q.Number(t.Best.Flow/q.CubicMetrePerHour)),
					finding.In("H_best", "head of the best point in water", t.Best.Head),
					finding.In("N", "speed, rpm", q.Number(t.Speed.RPM())),
					finding.In("C_Q", "factor on flow, and on head at the best point", q.Number(t.Flow)),
					finding.In("C_η", "factor on efficiency", q.Number(t.Efficiency)),
				},
				Source: thickSource, Range: "B 1 to 40; made from 3 to 260 m³/h, 6 to 130 m, to 3000 mm²/s",
			},
		})
	}
	if v := p.Curve.perTurn; v > 0 {
		r.Figures = append(r.Figures, finding.Figure{
			Slug: "displacement", Name: "Pushed out at each turn", Piece: refPump, Amount: q.Of(v),
			Working: finding.Working{
				Formula: "V = Q_0/n",
				Inputs:  []finding.Input{finding.In("n", "speed of the points", p.Pump.Rated), finding.In("Q_0", "flow against nothing, at that speed", q.Flow(float64(v)*float64(p.Pump.Rated)))},
				Source:  "the pump's points, in a straight line to no pressure where they begin higher", Range: "the liquid and the wear that the sheet holds for",
			},
		})
	}
}

func (p *plant) staticWorking(formula string, pt *Point) finding.Working {
	return finding.Working{
		Formula: formula,
		Inputs:  []finding.Input{finding.In("z_d", "discharge above the floor", p.Discharge), finding.In("z_l", "level above the floor", pt.Level.Height)},
		Source:  "geometry", Range: staticRange,
	}
}

// speedFigures adds the speeds at the greatest flow, and the Reynolds number
// where the bore is largest.
func (p *plant) speedFigures(r *Result) {
	flow := fastest(r.Points).Flow
	if flow == 0 {
		return
	}
	speed := func(slug, name string, e *Element) {
		r.Figures = append(r.Figures, finding.Figure{
			Slug: slug, Name: name, Piece: e.Ref,
			Amount: q.Of(speedIn(e, flow)),
			Working: finding.Working{
				Formula: "v = 4 Q / (π D²)",
				Inputs:  []finding.Input{finding.In("Q", "greatest flow", flow), finding.In("D", "bore", e.Bore)},
				Source:  "continuity", Range: speedRange,
			},
		})
	}
	if p.Layout.Gravity {
		speed("line-velocity", "Fastest in the line", narrowest(p.suction))
		speed("outflow-velocity", "Speed at the outflow", &p.suction[len(p.suction)-1])
	} else {
		speed("suction-velocity", "Fastest in the suction line", narrowest(p.suction))
		speed("delivery-velocity", "Speed at the outflow", &p.delivery[len(p.delivery)-1])
	}
	wide := widest(p.suction, p.delivery)
	nu := viscosity(p.Liquid)
	in := reachOf(wide, &nu)
	re, laminarTo, turbulentFrom := in.regime(float64(flow))
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "reynolds", Name: "Reynolds number in the largest bore", Piece: wide.Ref,
		Amount: q.Of(q.Number(re)),
		Working: finding.Working{
			Formula: p.said().reynolds,
			Inputs: p.resistance(append(make([]finding.Input, 0, 5),
				finding.In("ρ", "density", p.Liquid.Density),
				finding.In("Q", "greatest flow", flow),
				finding.In("D", "bore", wide.Bore),
			)),
			Source: p.said().defined, Range: "laminar to " + q.Text(q.Number(laminarTo)) + ", turbulent from " + q.Text(q.Number(turbulentFrom)),
		},
	})
}

// fastest returns the point with the greatest flow.
func fastest(points []Point) *Point {
	best := &points[0]
	for i := range points {
		if points[i].Flow > best.Flow {
			best = &points[i]
		}
	}
	return best
}

// narrowest returns the first element of the least bore.
func narrowest(l Line) *Element {
	best := &l[0]
	for i := range l {
		if l[i].Bore < best.Bore {
			best = &l[i]
		}
	}
	return best
}

// widest returns the first element of the greatest bore.
func widest(lines ...Line) *Element {
	var best *Element
	for _, l := range lines {
		for i := range l {
			if best == nil || l[i].Bore > best.Bore {
				best = &l[i]
			}
		}
	}
	return best
}

func speedIn(e *Element, flow q.Flow) q.Velocity {
	return q.Velocity(reachOf(e, &viscous{nu: 1}).velocity * float64(flow))
}
