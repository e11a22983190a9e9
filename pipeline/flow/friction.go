package flow

import "math"

// Reynolds numbers that bound the regimes. Between them the flow is neither
// surely laminar nor surely turbulent, and no formula can be trusted (Moody
// 1944 leaves the "critical zone" of the chart open): both answers are given.
const (
	LaminarTo     = 2000.0
	TurbulentFrom = 4000.0
)

// Band is a value known only to lie between two others. Outside the critical
// zone both are the same. Verdicts are held against High.
type Band struct{ Low, High float64 }

// Friction returns the Darcy friction factor at Reynolds number re in a bore
// of the given relative roughness: 64/Re up to 2000 (Hagen-Poiseuille),
// Colebrook from 4000, and between them the band from the one to the other.
// Darcy's factor is four times Fanning's.
func Friction(re, relativeRoughness float64) Band {
	turbulent := 0.0
	if re > LaminarTo {
		turbulent = Colebrook(re, relativeRoughness)
	}
	return regimes(re, turbulent)
}

// regimes returns the band at re where the turbulent factor is known.
func regimes(re, turbulent float64) Band {
	laminar := 64 / within(re, 1e-12, math.MaxFloat64)
	switch {
	case re <= LaminarTo:
		return Band{laminar, laminar}
	case re < TurbulentFrom:
		return Band{math.Min(laminar, turbulent), math.Max(laminar, turbulent)}
	}
	return Band{turbulent, turbulent}
}

// Colebrook returns the Darcy friction factor of turbulent flow, the f for which
//
//	1/√f = -2 log10( ε/3.7D + 2.51/(Re √f) )
//
// (C. F. Colebrook, J. Inst. Civ. Engrs 11 (1939) 133), to the last digits of
// a float64, for 1 ≤ re and 0 ≤ rel ≤ 0.1; arguments outside are held at the
// nearer end. It is physical only where the flow is turbulent.
//
// With F = ln(10)/(2√f) the equation is F + ln(F + x1) = x2. Two rounds of the
// fourth-order iteration of D. Clamond, Ind. Eng. Chem. Res. 48 (2009) 3665,
// give all digits from a start this good, at three logarithms in all, and
// nothing that could fail to end.
func Colebrook(re, rel float64) float64 {
	const (
		c1 = 0.12396818633541755593794 // ln(10) / (2 · 3.7 · 2.51)
		c2 = 0.77939748845568202779662 // ln(2 · 2.51 / ln(10))
		c3 = 1.15129254649702284200899 // ln(10) / 2
	)
	re = within(re, 1, 1e15)
	rel = within(rel, 0, greatestRough)
	x1 := rel * re * c1
	x2 := math.Log(re) - c2
	f := x2 - 0.2
	if x2 < 1.5 { // below Re 10 Clamond's start would be negative
		f = 0.65 + 0.38*x2
	}
	f = clamond(f, x1, x2)
	f = clamond(f, x1, x2)
	f = c3 / f
	return f * f
}

// clamond returns f improved by one round of the iteration.
func clamond(f, x1, x2 float64) float64 {
	s := 1 + x1 + f
	e := (math.Log(x1+f) + f - x2) / s
	return f - (s+0.5*e)*e*(x1+f)/(s+e*(1+e*(1.0/3)))
}
