package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Stepped returns text, a quantity of kind k as somebody typed it, moved up by
// n steps, or down, in the unit that it was typed in: 5 mm, 1/4 in, 1 °C,
// 1 L/min, 0.1 bar (common practice, no source). It comes to stand on a whole
// number of steps, which are finer where the number itself is small, and
// coarser where that is large. Of a fall typed as 1:100 the run is moved, and
// up is steeper. ok tells whether text is such a quantity.
func Stepped(k Kind, text string, n int) (stepped string, ok bool) {
	a, err := ParseAmount(k, text)
	if err != nil {
		return "", false
	}
	s := plain(text)
	u, found := unitOf(k, s)
	switch {
	case k == KindSlope && !found && a.SI != 0:
		run := onGrid(1/math.Abs(a.SI), 5, -n*sign(a.SI))
		return Amount{k, float64(sign(a.SI)) / max(run, 5)}.String(), true
	case k == KindStrength && !found:
		return gravityStepped(s, n)
	}
	x := u.fromSI(a.SI)
	step := u.stepAt(x)
	return u.write(onGrid(x, step, n), step), true
}

// Near returns a in the unit that text, another quantity of its kind, was
// typed in, to the nearest step of Stepped.
func (a Amount) Near(text string) string {
	u, _ := unitOf(a.Kind, plain(text))
	return u.write(math.Round(u.fromSI(a.SI)/u.step)*u.step, u.step)
}

// onGrid returns the n-th multiple of step over x, or under it.
func onGrid(x, step float64, n int) float64 {
	if n < 0 {
		return (math.Ceil(x/step-1e-6) + float64(n)) * step
	}
	return (math.Floor(x/step+1e-6) + float64(n)) * step
}

func sign(x float64) int {
	if x < 0 {
		return -1
	}
	return 1
}

// unitOf returns the last unit of s, else the one in which k is shown. found
// tells whether s is a number with a unit, or one that needs none.
func unitOf(k Kind, s string) (u unit, found bool) {
	_, rest := signed(s)
	found = true
	word := ""
	for found && rest != "" {
		var c complaint
		if _, rest, c = number(rest); c.bad() {
			found = false
			break
		}
		word, rest = unitText(rest)
		found = word != "" || rest == ""
	}
	switch {
	case found && word != "":
		u, c := lookUp(k, word)
		if !c.bad() {
			return u, true
		}
		found = false
	case found && k == KindFraction && s != "":
		return unit{mul: 1, div: 1, step: 0.01}, true
	case k == KindNumber:
		return unit{mul: 1, div: 1, step: 0.1}, true
	}
	if k == KindSlope {
		u, _ = k.bySymbol("%")
		return u, false
	}
	u, _ = k.bySymbol(k.Unit(system))
	return u, found
}

// stepAt returns the step for a number of u's that is about x: a hundredth of
// a wall's thickness is of use, and of the way up a hill is not.
func (u unit) stepAt(x float64) float64 {
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
func (u unit) write(x, step float64) string {
	text := strconv.FormatFloat(math.Round(x/step*1e3)/1e3*step, 'f', places(step), 64)
	if strings.IndexByte(text, '.') >= 0 {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if u.symbol == "in" {
		text = sixteenths(x)
	}
	if strings.Trim(text, "-0") == "" {
		text = "0"
	}
	return strings.TrimSpace(text + " " + u.symbol)
}

// places returns how many decimals a multiple of step needs.
func places(step float64) int {
	d := 0
	for ; d < 9 && math.Abs(step-math.Round(step)) > 1e-6; d++ {
		step *= 10
	}
	return d
}

// gravityStepped moves the number of a gravity, or of the density that stands
// for one, by a point.
func gravityStepped(s string, n int) (string, bool) {
	at := strings.IndexAny(s, "0123456789")
	end := at + span(s[at:], "0123456789.,")
	x, c := decimal(s[at:end])
	if c.bad() {
		return "", false
	}
	step := 1.0
	if x < 2 {
		step = 0.001
	}
	return s[:at] + strconv.FormatFloat(onGrid(x, step, n), 'f', places(step), 64) + s[end:], true
}
