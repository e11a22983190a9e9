package vent

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Input is what Check needs.
type Input struct {
	Air      q.Pressure // at this altitude, absolute
	Pressure q.Pressure // that the tank may be over or under it
	Bore     q.Length   // of its one opening; 0: not told
	Drawn    q.Flow     // the most that the line takes off the tank
	Pumped   bool       // by a pump
	Run      q.Flow     // that runs out of the open outlet of the full tank
	Filled   q.Flow     // that the tank is filled at
	Told     bool       // Filled is told

	Rinse   q.Flow        // cold, on to the hot wall
	Supply  q.Temperature // of that water
	Density q.Density     // of it
	Hottest q.Temperature // that the wash leaves the tank at
	Boiling q.Temperature // of water at this altitude, which is how hot steam there is
	Brimful q.Volume

	Vapour, Cold q.Pressure // of water, at Hottest and at Supply

	Caustic q.Mass // in the wash
}

// RuleVent is that the opening told is smaller than even the liquid needs.
const RuleVent = "vent"

const (
	orificeSource = "energy equation, discharge coefficient of a sharp orifice 0.6, from memory"
	orificeRange  = "one open hole with nothing in it: a mesh, a filter, a hose or a cap that sticks makes it less"
	steamSource   = "heat balance; heat and density of steam at 100 °C by IAPWS R7-97, its density elsewhere by the gas law"
	steamRange    = "water that warms up to the steam's own heat, in steam without air: the worst there is. Air in it, and a wall that warms the water first, slow it down"
	licensed      = "a licensed designer and your local code"
)

// Check says what the tank must breathe. There is no verdict that is sound:
// only an opening that is told and too small is one.
func Check(in Input) Result {
	var r Result
	rho := AirDensity(in.Air)
	add := func(slug, name string, amount q.Amount, formula, source, holds string, inputs ...finding.Input) {
		r.Figures = append(r.Figures, finding.Figure{Slug: slug, Name: name, Amount: amount, Piece: "tank",
			Working: finding.Working{Formula: formula, Inputs: inputs, Source: source, Range: holds}})
	}
	opening := func(slug, name, what string, flow q.Flow, p q.Pressure) q.Length {
		d := Orifice(flow, p, rho)
		if d > 0 {
			add(slug, name, q.Of(d), "d = √(4 Q/(π C √(2 Δp/ρ)))", orificeSource, orificeRange,
				finding.In("Q", what, flow), finding.In("C", "discharge coefficient", q.Number(Discharge)), finding.In("Δp", "difference of pressure", p), finding.In("ρ", "density of the air", rho))
		}
		return d
	}
	at := " at " + q.Text(in.Pressure) + " of difference"
	by := "Opening for drawing off"
	if in.Pumped {
		by = "Opening for pumping out"
	}
	need := opening("vent-drawing", by+at, "most that the line takes off", in.Drawn, in.Pressure)
	need = max(need, opening("vent-running", "Opening for running out of the open outlet"+at, "runs out with the tank full", in.Run, in.Pressure))
	filled := "filled at"
	if !in.Told {
		filled = "filled as fast as it is drawn off at most, since nothing is told"
	}
	need = max(need, opening("vent-filling", "Opening for filling"+at, filled, in.Filled, in.Pressure))
	in.steam(&r, add, opening)
	in.gas(&r, add)
	r.Cautions = append(r.Cautions, "These are cautions with numbers and no pass: a tank that can be shut, steamed, cooled shut or pressed with gas is not judged here, and is for "+licensed+".")
	if in.Bore > 0 && in.Bore < need {
		has, wants := q.Apart(in.Bore, need)
		r.Verdicts = []finding.Verdict{{Rule: RuleVent, Level: finding.Stop, Piece: "tank", Limit: new(q.Of(need)), Basis: orificeSource,
			Sentence: "The opening of " + has + " is too small even for the liquid: " + wants + " are needed to hold the tank within " + q.Text(in.Pressure) + " of the air. It sucks itself in, or is blown out.",
			Advice:   "Open the lid before the tank is emptied, filled or rinsed, or make the opening larger."}}
	}
	return r
}

// adder adds a figure.
type adder func(slug, name string, amount q.Amount, formula, source, holds string, inputs ...finding.Input)

// steam tells of a cold rinse into a hot tank.
func (in *Input) steam(r *Result, add adder, opening func(slug, name, what string, flow q.Flow, p q.Pressure) q.Length) {
	if in.Hottest <= in.Supply || in.Rinse <= 0 {
		return
	}
	steam := SteamDensity(in.Air, in.Boiling)
	taken := Condensed(in.Rinse, in.Density, in.Supply, in.Boiling, steam)
	add("steam-condensed", "Steam that a cold rinse would take away in a steamed tank", q.Of(taken), "Q_s = Q ρ c (t - t_0)/(r ρ_s)", steamSource, steamRange,
		finding.In("Q", "cold rinse", in.Rinse), finding.In("ρ", "density of the water", in.Density), finding.In("c", "heat capacity of water, kJ/(kg K)", q.Number(waterCapacity)),
		finding.In("t", "temperature that it warms to, of the steam", in.Boiling), finding.In("t_0", "temperature of the rinse", in.Supply), finding.In("r", "heat of condensation, kJ/kg", q.Number(steamHeat)), finding.In("ρ_s", "density of steam", steam))
	volumes := float64(taken) / float64(in.Rinse)
	add("steam-volumes", "Volumes of air drawn in for each volume of cold rinse", q.Of(q.Number(volumes)), "n = Q_s/Q", steamSource, steamRange, finding.In("Q_s", "steam taken away", taken), finding.In("Q", "cold rinse", in.Rinse))
	const little, much = 1 * q.Kilopascal, 5 * q.Kilopascal
	small := opening("vent-rinse", "Opening that a cold rinse into a steamed tank would ask at "+q.Text(little)+" of difference", "steam taken away", taken, little)
	wide := opening("vent-rinse-wide", "and at "+q.Text(much), "steam taken away", taken, much)
	left := Shut(in.Air, in.Vapour, in.Cold, in.Hottest, in.Supply)
	add("shut-cooled", "Pressure in the tank, absolute, if it were shut hot and cooled", q.Of(left), "p = (p_0 - p_v1) T_2/T_1 + p_v2", "gas law and Dalton's law; vapour pressure IAPWS R7-97", "a tank full of air and steam, saturated, that does not give way first",
		finding.In("p_0", "air", in.Air), finding.In("p_v1", "vapour pressure, hot", in.Vapour), finding.In("T_1", "hot", in.Hottest), finding.In("T_2", "cooled", in.Supply), finding.In("p_v2", "vapour pressure, cooled", in.Cold))
	vacuum := in.Air - left
	add("shut-vacuum", "Vacuum that it would pull", q.Of(vacuum), "Δp = p_0 - p", "gas law and Dalton's law", "as before", finding.In("p_0", "air", in.Air), finding.In("p", "left", left))
	r.Cautions = append(r.Cautions,
		"A cold rinse of "+q.Text(in.Rinse)+" into a tank full of steam takes away "+q.Text(q.Number(volumes))+" times its own volume: an opening of "+q.Text(small)+" would hold it within "+q.Text(little)+" of the air, of "+q.Text(wide)+" within "+q.Text(much)+". No vent that was sized for pumping covers that, and the rules for tank vents reckon with pumping and weather, not with steam. Open the manway wide, let the tank cool, and rinse warm first.",
		"Shut at "+q.Text(in.Hottest)+" and cooled to "+q.Text(in.Supply)+" the tank would pull "+q.Text(vacuum)+" of vacuum; a thin shell folds at a small part of that. Never shut it hot.")
}

// gas tells of caustic that meets carbon dioxide.
func (in *Input) gas(r *Result, add adder) {
	if in.Caustic <= 0 {
		return
	}
	gas := Swallows(in.Caustic, in.Air)
	add("caustic-swallows", "Carbon dioxide that the wash's caustic turns into soda", q.Of(gas), "V = m R T/(2 M p)", "2 NaOH + CO₂ = Na₂CO₃ + H₂O; gas law", "all of it used up; how fast is not told, a spray is fast",
		finding.In("m", "pure caustic", in.Caustic), finding.In("R", "gas constant, J/(mol K)", q.Number(gasConstant)), finding.In("T", "temperature", roomWarmth), finding.In("M", "molar mass, kg/mol", q.Number(sodiumHydroxide)), finding.In("p", "air", in.Air))
	part := "as much as the tank holds and more"
	if in.Brimful > gas {
		part = q.Text(q.Fraction(float64(gas)/float64(in.Brimful))) + " of the tank"
	}
	r.Cautions = append(r.Cautions, "The caustic of this wash swallows "+q.Text(gas)+" of carbon dioxide, "+part+": sprayed into a tank that is still full of gas from fermenting or purging and is not wide open, it pulls the tank in, and what is used up cleans no more. Blow the gas out with air first; it gathers at the floor and kills without warning.")
}
