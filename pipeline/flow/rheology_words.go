package flow

import "drawoff/pipeline/finding"

// words are the workings that differ with the rheology.
type words struct{ loss, source, lossRange, reynolds, defined, regime string }

var (
	newtonianWords = words{
		loss: lossFormula, source: lossSource, lossRange: lossRange,
		reynolds: "Re = ρ v D / μ = 4 ρ Q / (π D μ)",
		defined:  "definition",
		regime:   "Moody 1944: between Reynolds numbers 2000 and 4000 no formula holds",
	}
	powerLawWords = words{
		loss:      "laminar hf = (64 L/D + K1) v²/(2 g Re) + Σ K∞ v²/2g; turbulent f by Dodge and Metzner, 1/√(f/4) = 4/n^0.75 log10(Re (f/4)^(1-n/2)) - 0.4/n^1.2; the higher between",
		source:    "Metzner & Reed 1955; Dodge & Metzner 1959; fittings: Hooper 1981 at that Reynolds number, K1 at least 500 K∞ (Steffe 1996, p. 137); drops as typed",
		lossRange: "power-law liquid, full bore; turbulent: measured from n 0.36 to 1, Re 2900 to 36 000, smooth bore; fittings from Re 20",
		reynolds:  "Re = 8 ρ (4 Q/(π D^2))^2 / (K ((3 n + 1)/(4 n) 32 Q/(π D^3))^n)",
		defined:   "Metzner & Reed 1955, on the wall's shear rate",
		regime:    "Ryan & Johnson 1959, scaled to 2000 for n = 1; turbulence sure at twice that: common practice, no source",
	}
	binghamWords = words{
		loss:      "laminar hf = (64 L/D + K1) τw/(16 ρ g) + Σ K∞ v²/2g, τw from 8 v/D = τw/μp (1 - 4x/3 + x⁴/3), x = τ0/τw; turbulent f by Colebrook at μp, where that is the higher",
		source:    "Buckingham 1921, Reiner 1926; Hedström 1952, from memory; fittings: Hooper 1981 at Re 8 ρ v²/τw, K1 at least 500 K∞ (Steffe 1996, p. 137); drops as typed",
		lossRange: "Bingham liquid, full bore; fittings from Re 20",
		reynolds:  "Re = ρ v D / μp = 4 ρ Q / (π D μp)",
		defined:   "definition, by the plastic viscosity",
		regime:    "Hanks 1963, scaled to 2000 for no yield stress; turbulence sure at twice that: common practice, no source",
	}
)

func (p *plant) said() *words {
	switch r := p.Liquid.Rheology; {
	case r.Newtonian():
		return &newtonianWords
	case r.Index != 0:
		return &powerLawWords
	}
	return &binghamWords
}

// resistance adds what stands for the viscosity to the inputs of a working.
func (p *plant) resistance(to []finding.Input) []finding.Input {
	switch r := &p.Liquid.Rheology; {
	case r.Newtonian():
		return append(to, finding.In("μ", "dynamic viscosity", p.Liquid.Viscosity))
	case r.Index != 0:
		return append(to, finding.In("K", "consistency", r.Consistency), finding.In("n", "index", r.Index))
	default:
		return append(to, finding.In("μp", "plastic viscosity", p.Liquid.Viscosity), finding.In("τ0", "yield stress", r.Yield))
	}
}
