package clean

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

const (
	speedSource = "1.5 m/s as the least: Lelieveld, Mostert & Holah (eds), Handbook of Hygiene Control in the Food Industry (2005) ch. 27; of the 3-A accepted practice, 5 ft/s, from memory"
	speedRange  = "round bores that run full; it is the shear at the wall that cleans, which in a narrow bore is more at one speed"
	ours        = "common practice, no source"
	filmSource  = "W. Nusselt 1916; geometry of the tank"
	filmRange   = "a smooth laminar film on an upright wall; that of a spray is wavy and in the mean a little thicker, and on a sloping bottom thicker still"
	batchRange  = "what branches, the pump's casing and the ball hold is not in it; a wash that is thrown away takes it each time"
	heatRange   = "without what is lost to the air, which a tank that is not lagged doubles in a long wash"
)

// figures adds the figures, with their working, of the step that w is about.
func (w *wash) figures(r *Result) {
	s, row := w.Steps[w.main], r.Programme.Rows[w.main]
	add := func(slug, name, piece string, amount q.Amount, formula, source, holds string, inputs ...finding.Input) {
		r.Figures = append(r.Figures, finding.Figure{Slug: slug, Name: name, Amount: amount, Piece: piece,
			Working: finding.Working{Formula: formula, Inputs: inputs, Source: source, Range: holds}})
	}
	in := row.Agent + ", at " + q.Text(s.Temperature)
	flow := finding.In("Q", "wash flow", w.need)
	add("wash-flow", "Wash flow for "+q.Text(w.Speed)+" in the widest bore", w.widest.ref, q.Of(w.need), "Q = π/4 D² v", speedSource, speedRange,
		finding.In("D", "widest bore, "+w.widest.name, w.widest.bore), finding.In("v", "speed", w.Speed))
	add("wash-speed-narrowest", "Speed that this makes in the narrowest bore", w.narrowest.ref, q.Of(Speed(w.narrowest.bore, w.need)), "v = 4 Q/(π d²)", "continuity", speedRange,
		flow, finding.In("d", "narrowest bore, "+w.narrowest.name, w.narrowest.bore))
	if nu := s.kinematic(); nu > 0 {
		add("wash-reynolds", "Reynolds number in the widest bore, in "+in, w.widest.ref, q.Of(q.Number(float64(w.Speed)*float64(w.widest.bore)/nu)), "Re = ρ v D/μ",
			"over 10 000 as turbulent enough: the Handbook (2005) ch. 27", speedRange,
			finding.In("ρ", "density", s.Liquid.Density), finding.In("v", "speed", w.Speed), finding.In("D", "widest bore", w.widest.bore), finding.In("μ", "viscosity", s.Liquid.Viscosity))
	}
	if run := w.runs[w.main]; run.Known && w.Fed <= 0 {
		piece := w.widest.ref
		add("wash-flow-had", "Flow that runs in "+in, piece, q.Of(run.Flow), "H = z + h_f(Q), solved for Q", "energy equation between two free surfaces, as for the liquid", "the tank down to its lowest level; the line open at its end",
			finding.In("H", "head of the pump there, 0 without one", run.Work.Head), finding.In("z", "outflow over the level", run.Work.Lift), finding.In("h_f", "lost in the line", run.Work.Lost))
		if run.MarginKnown {
			add("wash-suction-margin", "Suction head to spare over the margin, in "+in, "pump", q.Of(run.Suction.Margin()), "m = NPSH_a - max(NPSH_r + a, NPSH_r b)", "as for the liquid", "the tank down to its lowest level",
				finding.In("NPSH_a", "suction head that it has", run.Suction.Has), finding.In("NPSH_r", "that it requires", run.Suction.Requires), finding.In("a", "margin", run.Suction.Over), finding.In("b", "ratio", q.Number(run.Suction.Times)))
		}
		if run.BallKnown && run.Pump {
			add("spray-pressure", "Pressure at the spray ball at its flow, over the air's", "pump", q.Of(s.pressure(run.Ball.Left())), "p = ρ g (H - z - h_f)", "energy equation between the tank's lowest level and the ball", "a ball at the brim, fed by the delivery line as it is",
				finding.In("Q", "flow of the ball", w.spray), finding.In("ρ", "density", s.Liquid.Density), finding.In("g", "gravity, m/s²", q.Number(gravity)),
				finding.In("H", "head of the pump at it", run.Ball.Head), finding.In("z", "brim over the level", run.Ball.Lift), finding.In("h_f", "lost in the line at it", run.Ball.Lost))
		}
	}
	bore := finding.In("D", "bore of the tank", w.Vessel.Bore)
	add("spray-flow-least", "Least flow that wets the tank's wall", "tank", q.Of(w.least), "Q = π D G", leastWettingSource, "upright round tanks, sprayed at the top",
		bore, finding.In("G", "flow for each metre, m²/s", q.Number(LeastWetting)))
	add("spray-flow-most", "Flow that surely wets the tank's wall", "tank", q.Of(w.most), "Q = π D G", mostWettingSource, "upright round tanks, sprayed at the top",
		bore, finding.In("G", "flow for each metre, m²/s", q.Number(MostWetting)))
	film, thick := w.film(s)
	add("film-thickness", "Film on the tank's wall while it is sprayed", "tank", q.Of(thick), "δ = ∛(3 μ Q/(ρ g π D))", filmSource, filmRange,
		finding.In("μ", "viscosity", s.Liquid.Viscosity), finding.In("Q", "flow of the spray", w.spray), finding.In("ρ", "density", s.Liquid.Density), finding.In("g", "gravity, m/s²", q.Number(gravity)), bore)
	level, pool := w.pool(s)
	if w.Scavenge < w.spray {
		add("wash-pool", "Wash that stands in the tank while it runs off by gravity", "tank", q.Of(pool), "V(h) of the tank at h = z + h_f(Q) - z_t, where the outlet and the line under it carry Q", "energy equation; geometry of the tank", "an outlet that runs full, open at the end of what hangs under the tank; a vortex in it makes it more",
			finding.In("h", "level over the lowest inside point", level), finding.In("Q", "flow of the spray", w.spray))
	}
	w.batchFigures(add, s, row, film, pool)
}

// batchFigures adds what a step takes.
func (w *wash) batchFigures(add func(slug, name, piece string, amount q.Amount, formula, source, holds string, inputs ...finding.Input), s Step, row Row, film, pool q.Volume) {
	line := finding.In("V_l", "held by the line", w.line)
	add("wash-line-volume", "Liquid that fills the line", "", q.Of(w.line), "V = Σ π/12 L (a² + a b + b²) over the pieces", "geometry of the bores, theorems of Pappus and Cavalieri", batchRange,
		finding.In("D", "widest bore", w.widest.bore), finding.In("d", "narrowest bore", w.narrowest.bore))
	holds := finding.In("Q", "flow that goes through", row.Flow)
	add("wash-residence", "Time in the line", "", q.Of(q.Duration(float64(w.line)/float64(row.Flow))), "t = V_l/Q", "continuity", "plug flow; in the mean for any", line, holds)
	if s.Rinse() {
		add("wash-rinse-least", "Least rinse", "", q.Of(q.Volume(w.Rinses*float64(w.line))), "V = n V_l", ours, "the line; the tank's wall needs its own time under the spray", finding.In("n", "displacements", q.Number(w.Rinses)), line)
		return
	}
	add("wash-contact", "Contact in the last of the line", "", q.Of(row.Contact), "t_c = t - V_l/Q", "continuity", "a batch that is at its temperature before it starts", finding.In("t", "time of the step", s.Time), line, holds)
	add("wash-rinse-least", "Least rinse, to displace the line "+q.Text(q.Number(w.Rinses))+" times", "", q.Of(q.Volume(w.Rinses*float64(w.line))), "V = n V_l", ours, "the line; the tank's wall needs its own time under the spray", finding.In("n", "displacements", q.Number(w.Rinses)), line)
	batch := finding.In("V", "batch", row.Water)
	rho := finding.In("ρ", "density", s.Liquid.Density)
	add("wash-batch", "Batch to make up: "+row.Agent, "", q.Of(row.Water), "V = V_l + V_f + V_p + V_s", "continuity", batchRange,
		line, finding.In("V_f", "film on the tank's wall", film), finding.In("V_p", "stands in the tank", pool), finding.In("V_s", "sump", w.Sump))
	if s.Strength > 0 {
		add("wash-chemical", "Of pure "+bare(s.Agent)+" for it", "", q.Of(row.Pure), "m = w ρ V", "definition of the strength by mass", "what is bought is weaker: divide by its own strength", finding.In("w", "strength by mass", s.Strength), rho, batch)
	}
	if row.Heat <= 0 {
		return
	}
	add("wash-heat", "Heat to bring it and the tank to temperature, kWh", "", q.Of(q.Number(row.Heat)), "E = (ρ V c + m c_s) (t - t_0)/3600000",
		"heat capacity of water IAPWS R7-97, mean of 10 to 80 °C; of steel EN 10088-1, from memory", heatRange,
		rho, batch, finding.In("c", "heat capacity of water, J/(kg K)", q.Number(heatCapacity)), finding.In("m", "steel of shell and bottom", w.steel),
		finding.In("c_s", "heat capacity of steel, J/(kg K)", q.Number(steelCapacity)), finding.In("t", "temperature", s.Temperature), finding.In("t_0", "supply", w.Supply))
	if w.Element > 0 {
		add("wash-warming", "Time that the element takes for it", "", q.Of(row.Warming), "τ = 3600 E/P", "definition of power", heatRange, finding.In("E", "heat, kWh", q.Number(row.Heat)), finding.In("P", "element, kW", q.Number(w.Element/1000)))
	}
}
