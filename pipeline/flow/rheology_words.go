package flow

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

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
		source:    "Metzner & Reed 1955; Dodge & Metzner 1959; fittings: Hooper 1981 at that Reynolds number, K1 at least 500 K∞ (Steffe 1996, p. 137)",
		lossRange: "power-law liquid, full bore; turbulent: measured from n 0.36 to 1, Re 2900 to 36 000, smooth bore; fittings from Re 20",
		reynolds:  "Re = 8 ρ (4 Q/(π D^2))^2 / (K ((3 n + 1)/(4 n) 32 Q/(π D^3))^n)",
		defined:   "Metzner & Reed 1955, on the wall's shear rate",
		regime:    "Ryan & Johnson 1959, scaled to 2000 for n = 1; turbulence sure at twice that: common practice, no source",
	}
	binghamWords = words{
		loss:      "laminar hf = (64 L/D + K1) τw/(16 ρ g) + Σ K∞ v²/2g, τw from 8 v/D = τw/μp (1 - 4x/3 + x⁴/3), x = τ0/τw; turbulent f by Colebrook at μp, where that is the higher",
		source:    "Buckingham 1921, Reiner 1926; Hedström 1952, from memory; fittings: Hooper 1981 at Re 8 ρ v²/τw, K1 at least 500 K∞ (Steffe 1996, p. 137)",
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

// Where what is used for liquids that are not Newtonian was measured.
const (
	leastIndex      = 0.36 // Dodge and Metzner
	mostReynolds    = 36000.0
	fittingReynolds = 20.0 // Steffe
)

// notNewtonian says what else must be known of a liquid that is not
// Newtonian: its pump, and where a formula is asked beyond what it was
// measured in.
func (p *plant) notNewtonian(r *Result) []finding.Verdict {
	if p.Liquid.Rheology.Newtonian() {
		return nil
	}
	var out []finding.Verdict
	if !p.Layout.Gravity && !p.Curve.IsZero() && !p.Curve.positive {
		out = append(out, finding.Verdict{
			Rule: "pump-liquid", Level: finding.Look, Piece: refPump,
			Sentence: "The pump's curve is published for water. In a liquid that is not Newtonian a centrifugal pump gives less flow and head, and no rule says how much less.",
			Advice:   "Ask its maker for a curve in this liquid, or take a pump that displaces: lobe, peristaltic or screw.",
			Basis:    "ANSI/HI 9.6.7 covers Newtonian liquids only (from memory)",
		})
	}
	flow := float64(fastest(r.Points).Flow)
	if flow == 0 {
		return out
	}
	nu := viscosity(p.Liquid)
	slow, slowRe := (*Element)(nil), fittingReynolds
	fast, fastRe := (*Element)(nil), 0.0
	for _, line := range [...]Line{p.suction, p.delivery} {
		for i := range line {
			e := &line[i]
			in := reachOf(e, &nu)
			v := in.velocity * flow
			wall := in.thick.wall(v)
			if mr := in.thick.metznerReed(v, wall); mr < slowRe && in.laminar > 0 {
				slow, slowRe = e, mr
			}
			n := in.thick.index
			if re := in.thick.reynolds(v, wall); n != 0 && e.Length > 0 && re > in.thick.laminarTo && (n < leastIndex || n > 1 || re > mostReynolds) && re > fastRe {
				fast, fastRe = e, re
			}
		}
	}
	if slow != nil {
		out = append(out, finding.Verdict{
			Rule: "fitting-range", Level: finding.Look, Piece: slow.Ref,
			Sentence: "The liquid creeps through the fittings at Reynolds number " + q.Text(q.Number(slowRe)) + "; their losses are measured from " + q.Text(q.Number(fittingReynolds)) + ". What they lose is a guess there, the same law taken on.",
			Advice:   "Leave room in the head for it, or measure the drop over one such bend.",
			Basis:    "Steffe 1996, p. 137: K = A/Re from Re 20 to 500",
		})
	}
	if fast != nil {
		out = append(out, finding.Verdict{
			Rule: "friction-range", Level: finding.Look, Piece: fast.Ref,
			Sentence: "Turbulent friction of this liquid, index " + q.Text(p.Liquid.Rheology.Index) + ", is asked at Reynolds number " + q.Text(q.Number(fastRe)) + "; it was measured from n 0.36 to 1 and to Reynolds number 36 000. The formula is used beyond that.",
			Advice:   "Leave room in the head for it.",
			Basis:    "Dodge & Metzner 1959",
		})
	}
	return out
}
