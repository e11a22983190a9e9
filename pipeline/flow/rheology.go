package flow

import (
	"math"

	"drawoff/pipeline/liquid"
)

// A liquid that is not Newtonian has no one viscosity, but it still has one
// stress at the wall for each velocity and bore, and all of laminar flow
// follows from it: the head lost over L is 4 τw L/(D ρ g), and the Reynolds
// number of A. B. Metzner and J. C. Reed, AIChE J. 1 (1955) 434, is 8 ρ v²/τw,
// so that Darcy's factor is 64/Re for every liquid.
//
// A fitting takes the same K = K1/Re + K∞ at that Reynolds number. Where
// Hooper gives no laminar term, K1 is 500 K∞: J. F. Steffe, Rheological Methods
// in Food Process Engineering, 2nd ed. (1996), p. 137, K = A/Re with A = 500
// times the turbulent K, from Re 20 to 500; it is what he advises where
// nothing was measured.

// viscous is how a liquid resists being moved.
type viscous struct {
	nu       float64 // m²/s; of a Bingham liquid from the plastic viscosity, of a power-law liquid from the apparent one
	rho      float64
	rheology liquid.Rheology
}

// thick is a liquid that is not Newtonian, in one bore.
type thick struct {
	rho     float64
	bore    float64
	index   float64 // n of a power-law liquid, 0 for a Bingham one
	shifted float64 // power law: K ((3n+1)/4n)^n, so that τw = shifted (8v/D)^n
	yield   float64 // Bingham, Pa
	plastic float64 // Bingham, Pa s

	laminarTo, turbulentFrom float64 // Reynolds numbers, as thick.reynolds counts them
}

// steffe is A over the turbulent K.
const steffe = 500

// in returns v prepared for one bore, nil where it is Newtonian.
func (v *viscous) in(bore float64) *thick {
	r := &v.rheology
	if r.Newtonian() {
		return nil
	}
	t := &thick{rho: v.rho, bore: bore}
	if r.Index != 0 {
		n := within(float64(r.Index), 0.05, 3)
		t.index = n
		t.shifted = within(float64(r.Consistency), 1e-9, 1e9) * math.Pow((3*n+1)/(4*n), n)
		t.laminarTo = CriticalPowerLaw(n)
	} else {
		t.yield = within(float64(r.Yield), 1e-30, 1e9)
		t.plastic = within(v.nu*v.rho, 1e-9, 1e9)
		t.laminarTo = CriticalBingham(within(v.rho*bore*bore*t.yield/(t.plastic*t.plastic), 1e-9, 1e15))
	}
	// Both formulas give one number, at which laminar flow ends: 2099 and 2100
	// for a Newtonian liquid. They are scaled to the 2000 that is taken to be
	// sure there, and turbulence to be sure at twice that as it is at 4000, so
	// that n = 1 and no yield stress are Newtonian. That width is ours.
	t.laminarTo *= LaminarTo / newtonianCritical
	t.turbulentFrom = t.laminarTo * (TurbulentFrom / LaminarTo)
	return t
}

const newtonianCritical = 2100

// CriticalPowerLaw returns the Metzner-Reed Reynolds number at which laminar
// flow of a power-law liquid of index n ends: N. W. Ryan and M. M. Johnson,
// AIChE J. 5 (1959) 433.
func CriticalPowerLaw(n float64) float64 {
	return 6464 * n * math.Pow(2+n, (2+n)/(1+n)) / ((3*n + 1) * (3*n + 1))
}

// CriticalBingham returns the Reynolds number, by the plastic viscosity, at
// which laminar flow of a Bingham liquid ends: R. W. Hanks, AIChE J. 9 (1963)
// 306, x/(1-x)³ = He/16800 and Re = He/(8x) (1 - 4x/3 + x⁴/3), x the yield
// stress over that at the wall, He Hedström's number ρ D² τ0/μp².
func CriticalBingham(hedstrom float64) float64 {
	a := hedstrom / 16800
	x := root(func(x float64) float64 { e := 1 - x; return x - a*e*e*e }, 0, -a, 1, 1)
	return hedstrom / (8 * x) * plug(1-x)
}

// plug returns 1 - 4x/3 + x⁴/3 for x = 1 - e, without losing digits near x = 1.
func plug(e float64) float64 { return e * e * (2 - e*(4.0/3-e/3)) }

// wall returns the stress at the wall at a velocity, Pa. A Bingham liquid at
// rest holds its yield stress.
func (t *thick) wall(v float64) float64 {
	rate := 8 * v / t.bore
	if t.index != 0 {
		return t.shifted * math.Pow(rate, t.index)
	}
	return t.yield / buckinghamReiner(t.plastic*rate/t.yield)
}

// buckinghamReiner returns x, the yield stress over the stress at the wall,
// for which (1 - 4x/3 + x⁴/3)/x = s, s being 8 v μp/(D τ0) (E. Buckingham,
// Proc. ASTM 21 (1921) 1154; M. Reiner, Kolloid-Z. 39 (1926) 80).
//
// Newton's steps run in x where the liquid is sheared well and in 1 - x where
// most of it moves as a plug. Each is a convex curve approached from one side,
// so that a handful of steps gives all digits and none can run away.
func buckinghamReiner(s float64) float64 {
	const steps = 30
	if s > 1 {
		b := 4.0/3 + s
		x := 1 / b
		for range steps {
			cube := x * x * x
			next := x - (cube*x/3-b*x+1)/(4.0/3*cube-b)
			if next <= x {
				break
			}
			x = next
		}
		return x
	}
	e := (math.Sqrt(s*s+8*s) - s) / 4 // of 2e² + s e = s, a little small
	for i := range steps {
		k := plug(e) + s*e - s
		slope := e*(4-e*(4-e*(4.0/3))) + s
		next := e - k/slope
		if slope == 0 || i > 0 && next >= e {
			break
		}
		e = next
	}
	return 1 - e
}

// dodgeMetzner returns the Darcy friction factor of a power-law liquid in
// turbulent flow through a smooth bore, four times the f for which
//
//	1/√f = 4/n^0.75 log10(Re f^(1-n/2)) - 0.4/n^1.2
//
// (D. W. Dodge and A. B. Metzner, AIChE J. 5 (1959) 189; measured from n 0.36
// to 1 and Re 2900 to 36 000). With y = 1/√f it is y + b ln y = c, a concave
// curve: after one step Newton's run up to the root from below.
func dodgeMetzner(re, n float64) float64 {
	a := 4 / math.Pow(n, 0.75)
	b := a * (2 - n) / math.Ln10
	c := a*math.Log10(re) - 0.4/math.Pow(n, 1.2)
	y := math.Max(1, c-b*math.Log(15))
	for range 8 {
		y = math.Max(0.1, y-(y+b*math.Log(y)-c)*y/(y+b))
	}
	return 4 / (y * y)
}

// metznerReed returns 8 ρ v²/τw.
func (t *thick) metznerReed(v, wall float64) float64 {
	return within(8*t.rho*v*v/within(wall, 1e-300, math.MaxFloat64), 0, 1e30)
}

// reynolds returns the Reynolds number that says the regime: Metzner and
// Reed's for a power-law liquid, the one by the plastic viscosity for a
// Bingham liquid.
func (t *thick) reynolds(v, wall float64) float64 {
	if t.index != 0 {
		return t.metznerReed(v, wall)
	}
	return within(t.rho*v*t.bore/t.plastic, 0, 1e30)
}

// turbulent returns the Darcy friction factor of turbulent flow. For a
// Bingham liquid it is Colebrook's by the plastic viscosity, as B. O. A.
// Hedström, Ind. Eng. Chem. 44 (1952) 651, found (from memory): where most of
// the stress is turbulence, the yield stress adds little.
func (t *thick) turbulent(re, rough float64) float64 {
	if t.index != 0 {
		return dodgeMetzner(re, t.index)
	}
	return Colebrook(re, rough)
}

// loss returns what r loses at a flow in m³/s, metres, as reach.usual does.
// Beyond the laminar regime the greater of the laminar and the turbulent
// friction counts: with much yield stress the laminar one may be it.
func (t *thick) loss(r *reach, flow float64) (low, high float64) {
	v := r.velocity * flow
	wall := t.wall(v)
	head := v * v / (2 * gravity)
	unit := wall / (16 * t.rho * gravity) // 1/Re of a velocity head, without the quotient
	fitting := r.laminar*unit + head*r.turbulent
	laminar := 64 * r.straight * unit
	low = laminar + fitting
	re := t.reynolds(v, wall)
	if re <= t.laminarTo || r.straight == 0 {
		return low, low
	}
	high = math.Max(laminar, head*r.straight*t.turbulent(re, r.rough)) + fitting
	if re >= t.turbulentFrom {
		return high, high
	}
	return low, high
}

// fill puts into out the Reynolds number, K and friction of reach r at a flow
// in m³/s.
func (t *thick) fill(r *reach, flow float64, out *PieceFlow) {
	v := r.velocity * flow
	wall := t.wall(v)
	re, mr := t.reynolds(v, wall), t.metznerReed(v, wall)
	out.Reynolds = re
	out.K = r.laminar/within(mr, 1e-12, math.MaxFloat64) + r.turbulent
	if r.straight == 0 {
		return
	}
	laminar := 64 / within(mr, 1e-12, math.MaxFloat64)
	out.Friction = Band{laminar, laminar}
	if re > t.laminarTo {
		out.Friction.High = math.Max(laminar, t.turbulent(re, r.rough))
		if re >= t.turbulentFrom {
			out.Friction.Low = out.Friction.High
		}
	}
}
