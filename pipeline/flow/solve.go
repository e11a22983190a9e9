package flow

import "math"

// root returns the x between a and b where f changes sign, to the last digits
// of a float64; f(a) and f(b), given as fa and fb, must differ in sign. Where
// f jumps over zero, x is on the side of b. It is the method of T. R.
// Chandrupatla, Adv. Eng. Softw. 28 (1997) 145: inverse quadratic steps as
// long as they are safe, else halving. A smooth curve takes 7 to 12 calls of
// f, a jump about 60; the count is capped so that it must end.
func root(f func(float64) float64, a, fa, b, fb float64) float64 {
	const (
		calls = 120
		eps   = 0x1p-52
	)
	if fb == 0 {
		return b
	}
	side := math.Signbit(fb)
	x1, f1, x2, f2 := a, fa, b, fb
	t := 0.5
	for range calls {
		x := x1 + t*(x2-x1)
		fx := f(x)
		if fx == 0 {
			return x
		}
		x3, f3 := x1, f1
		if math.Signbit(fx) != math.Signbit(f1) {
			x3, f3 = x2, f2
			x2, f2 = x1, f1
		}
		x1, f1 = x, fx
		nearest := x1
		if math.Abs(f2) < math.Abs(f1) {
			nearest = x2
		}
		narrow := eps * math.Abs(nearest) / math.Abs(x2-x1)
		if narrow >= 0.5 || x2 == x1 {
			break
		}
		xi := (x1 - x2) / (x3 - x2)
		phi := (f1 - f2) / (f3 - f2)
		t = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = f1/(f2-f1)*f3/(f2-f3) + (x3-x1)/(x2-x1)*f1/(f3-f1)*f2/(f3-f2)
		}
		t = within(t, narrow, 1-narrow)
	}
	if math.Signbit(f1) == side {
		return x1
	}
	return x2
}
