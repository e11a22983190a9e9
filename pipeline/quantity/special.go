package quantity

import "strings"

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
