package quantity

import (
	"math"
	"strings"
)

// Stepped returns text, a quantity of kind k as somebody typed it, moved up by
// n steps, or down, in the unit that it was typed in: 5 mm, 1/4 in, 1 °C,
// 1 L/min, 0.1 bar (common practice, no source). It comes to stand on a whole
// number of steps, which are finer where the number itself is small, and
// coarser where that is large. Of a fall typed as 1:100 the run is moved, and
// up is steeper. ok tells whether text is such a quantity; a gravity is not
// moved.
func Stepped(k Kind, text string, n int) (stepped string, ok bool) {
	a, err := ParseAmount(k, text)
	if err != nil {
		return "", false
	}
	u, typed := unitOf(k, text)
	switch {
	case k == KindStrength && !typed:
		return "", false // a gravity is no number of units
	case k == KindSlope && !typed && a.SI != 0:
		run := 1 / a.SI
		if run < 0 {
			n = -n
		}
		return Amount{k, math.Copysign(1/max(onGrid(math.Abs(run), 5, -n), 5), run)}.String(), true
	}
	x := u.fromSI(a.SI)
	step := u.stepAt(x)
	return u.write(onGrid(x, step, n), step), true
}

// Near returns a in the unit that text, another quantity of its kind, was
// typed in, to the nearest step of Stepped; without a text in the unit shown.
func (a Amount) Near(text string) string { return a.steps(text, math.Round) }

// Over returns a in the unit that it is shown in, to the step at or over it.
func (a Amount) Over() string {
	return a.steps("", func(n float64) float64 { return math.Ceil(n - 1e-9) })
}

// Under returns a in the unit that text was typed in, to the step at or under it.
func (a Amount) Under(text string) string {
	return a.steps(text, func(n float64) float64 { return math.Floor(n + 1e-9) })
}

// Start returns text, a quantity of kind k that the program begins with, in the
// unit that k is shown in, to the nearest step, where that is of another system.
func (k Kind) Start(text string) string {
	a, err := ParseAmount(k, text)
	if err != nil || !k.Foreign(text) {
		return text
	}
	u, _ := unitOf(k, "")
	step := u.stepAt(u.fromSI(a.SI))
	if u.symbol == "in" && math.Abs(u.fromSI(a.SI)) >= 10 {
		step = 1 // nobody begins with a quarter
	}
	return u.write(math.Round(u.fromSI(a.SI)/step)*step, step)
}

// As returns a in the unit that text was typed in, to a thousandth of it;
// without a text in the unit shown.
func (a Amount) As(text string) string {
	u, _ := unitOf(a.Kind, text)
	return u.write(math.Round(u.fromSI(a.SI)*1000)/1000, 0.001)
}

func (a Amount) steps(text string, round func(float64) float64) string {
	u, _ := unitOf(a.Kind, text)
	return u.write(round(u.fromSI(a.SI)/u.step)*u.step, u.step)
}

// onGrid returns the n-th multiple of step over x, or under it.
func onGrid(x, step float64, n int) float64 {
	if n < 0 {
		return (math.Ceil(x/step-1e-6) + float64(n)) * step
	}
	return (math.Floor(x/step+1e-6) + float64(n)) * step
}

// unitOf returns the last unit of text, and whether there is one; else the one
// in which k is shown, of a fall per cent.
func unitOf(k Kind, text string) (u *unit, typed bool) {
	if u, typed = k.bySymbol(text[strings.LastIndexByte(text, ' ')+1:]); typed {
		return u, true // what most write
	}
	_, s := signed(plain(text))
	word := ""
	for s != "" {
		_, rest, c := number(s)
		if c.bad() {
			word = ""
			break
		}
		word, s = unitText(rest)
	}
	if u, _, _, typed = k.find(unitKey(word)); typed {
		return u, true
	}
	symbol := k.Unit(system)
	if k == KindSlope && symbol == "" {
		symbol = "%"
	}
	if u, ok := k.bySymbol(symbol); ok {
		return u, false
	}
	return &unit{mul: 1, div: 1, step: 0.1}, false
}

// stepAt returns the step for a number of u's that is about x: a hundredth of
// a wall's thickness is of use, and of the way up a hill is not.
func (u *unit) stepAt(x float64) float64 {
	x = math.Abs(x)
	step := u.step
	if u.symbol == "in" && x > 0 && x < 1 {
		step = 1.0 / 16 // the next that is on a rule
	}
	for range 2 {
		if x > 0 && x < 4*step*(1-1e-9) && u.offset == 0 && u.symbol != "in" {
			step /= 10
		}
	}
	for x > 2000*step {
		step *= 10
	}
	return step
}

// write writes x, a whole number of steps, with its unit; inches as a rule has them.
func (u *unit) write(x, step float64) string {
	text := ""
	if u.symbol == "in" {
		text = fraction(x)
	} else {
		places := 0
		for ; step < 0.999 || step-math.Floor(step+1e-9) > 1e-6; places++ {
			step *= 10
		}
		text = trimmed(x, places)
	}
	if u.symbol == "" {
		return text
	}
	return text + " " + u.symbol
}
