package quantity

import (
	"math"
	"strings"
)

// The range of specific gravity that may be typed: from water to the
// strongest juices and worts, where the fit below holds.
const (
	lowestSG  = 1.000
	highestSG = 1.130
)

// slopeWords reads the falls that are not a number with a unit: "level",
// "1:100", "1 in 100", each with "rising" or a minus sign before it.
func slopeWords(s string) (si float64, c complaint, is bool) {
	low := strings.ToLower(s)
	if low == "level" || low == "flat" {
		return 0, complaint{}, true
	}
	sign := 1.0
	if rest, ok := strings.CutPrefix(low, "rising "); ok {
		sign, low = -1, rest
	} else if rest, ok := strings.CutPrefix(low, "falling "); ok {
		low = rest
	}
	minus, low := signed(low)
	for _, between := range [...]string{":", " in ", " to "} {
		a, b, cut := strings.Cut(low, between)
		if !cut {
			continue
		}
		fall, restA, cA := number(strings.TrimSpace(a))
		run, restB, cB := number(strings.TrimSpace(b))
		switch {
		case cA.bad():
			return 0, cA, true
		case cB.bad():
			return 0, cB, true
		case restA != "" || restB != "":
			return 0, complaint{what: "is not two numbers"}, true
		case run == 0:
			return 0, complaint{what: "falls over a run of nothing"}, true
		}
		return sign * minus * fall / run, complaint{}, true
	}
	if sign < 0 {
		si, c = terms(KindSlope, low, -minus)
		return si, c, true
	}
	return 0, complaint{}, false
}

// specificGravity reads "SG 1.048" or "1.048 SG" as a mass fraction of sugar.
func specificGravity(s string) (si float64, c complaint, is bool) {
	low := strings.ToLower(s)
	rest, ok := strings.CutPrefix(low, "sg")
	if !ok {
		if rest, ok = strings.CutSuffix(low, "sg"); !ok {
			return 0, complaint{}, false
		}
	}
	// 1,048 can only be a decimal here: nothing has a gravity of a thousand.
	rest = strings.Replace(strings.TrimSpace(rest), ",", ".", 1)
	sg, rest, c := number(rest)
	if c.bad() {
		return 0, c, true
	}
	if rest != "" {
		return 0, complaint{what: "is not a specific gravity", hint: "write SG 1.048"}, true
	}
	if sg < lowestSG || sg > highestSG {
		return 0, complaint{what: "is outside the specific gravities that can be turned into sugar", hint: "write SG from 1.000 to 1.130"}, true
	}
	return plato(sg) / 100, complaint{}, true
}

// plato returns the degrees Plato, which are per cent of sugar by mass, of a
// solution of specific gravity sg at 20 °C over water at 20 °C, from 1.000 to
// 1.130. It is the cubic fit to the ASBC tables that is usually credited to
// R. Lincoln (1987); those tables weigh in air, so the gravity is the
// apparent one that a hydrometer shows. The fit gives -0.003 for water, which
// is held at 0.
func plato(sg float64) float64 {
	return math.Max(0, -616.868+sg*(1111.14+sg*(-630.272+sg*135.997)))
}
