package quantity

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Told returns text, an amount of kind k as it was typed or as the program has
// it, in the unit that k is shown in where that is of another system.
func (k Kind) Told(text string) string {
	if a, err := ParseAmount(k, text); err == nil && k.Foreign(text) {
		return a.String()
	}
	return text
}

// Told returns the words as Kind.Told does.
func (e Entered[Q]) Told() string { return e.Kind().Told(e.text) }

// Measured returns what a caliper showed as Told does, but as a caliper reads it.
func Measured(e Entered[Length]) string {
	if KindLength.Foreign(e.text) {
		return Caliper(e.value)
	}
	return e.text
}

// Local returns a sentence of the program's own, which has its amounts in
// metric, with those in the units shown, to three digits: "0 to 150 °C", "50 mm
// to 10 m". The ends of a range are rounded into it, so that what it says may be
// typed. Names of parts, and what a source says, are not for it.
func Local(text string) string {
	if !InInches() && system != AsTyped {
		return text
	}
	words := strings.Split(text, " ")
	told := slices.Clone(words)
	for i, w := range words {
		n, err := strconv.ParseFloat(w, 64)
		if err != nil {
			continue
		}
		at, low := i+1, i+2 < len(words) && (words[i+1] == "to" || words[i+2] == "to")
		if low && words[i+1] == "to" {
			at = i + 3 // 0 to 150 °C
		}
		if at >= len(words) {
			continue
		}
		symbol := strings.TrimRight(words[at], ",;:.)")
		k, u := metricUnit(symbol)
		if u == nil {
			continue
		}
		round := math.Round
		switch {
		case low:
			round = math.Ceil
		case i > 0 && words[i-1] == "to":
			round = math.Floor
		}
		to, _ := k.bySymbol(k.Unit(system))
		x := to.fromSI(u.toSI(n))
		if k == KindLength && symbol == "µm" {
			to, _ = k.bySymbol("µin")
		} else if k == KindLength && (math.Abs(x) >= 120 || at == i+3 && symbol == "m") {
			to, _ = k.bySymbol("ft")
		}
		si := u.toSI(n)
		if at+2 < len(words) && words[at+1] == "per" && words[at+2] == "metre" {
			run, name := Run()
			si *= float64(run)
			told[at+2] = name
		}
		told[i] = directed(to.fromSI(si), round)
		told[at] = to.symbol + words[at][len(symbol):]
	}
	return strings.Join(told, " ")
}

// metricUnit returns the metric unit of symbol, and its kind, where that is
// shown in a unit that goes with inches.
func metricUnit(symbol string) (Kind, *unit) {
	for k := range kinds {
		k := Kind(k)
		if u, ok := k.bySymbol(symbol); ok && u.system == Metric {
			if to, ok := k.bySymbol(k.Unit(system)); ok && to.system == Inches {
				return k, u
			}
		}
	}
	return 0, nil
}

// directed writes x to three digits, the last of them by round.
func directed(x float64, round func(float64) float64) string {
	if math.Abs(x) < 1e-9 {
		return "0"
	}
	grid := math.Pow(10, math.Floor(math.Log10(math.Abs(x))+1e-9)-2)
	n := math.Round(x / grid)
	if math.Abs(x/grid-n) > 1e-6 { // else it is that, and a rounding
		n = round(x / grid)
	}
	return significant(n*grid, 3)
}
