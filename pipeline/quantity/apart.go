package quantity

import (
	"math"
	"strings"
)

// Hair is what too little to be told is called.
const Hair = "a hair"

// Apart returns two quantities as Text does, but with as many digits as it
// takes to tell them apart: what misses a limit by little is not to read as the
// limit. One that reads true with few digits keeps them. What five digits, more
// than anybody measures, do not tell apart is "a hair under" or "a hair over" the other.
//
// Whoever writes in a sentence what something is and what it should be takes
// both from here.
func Apart[Q Quantity](is, limit Q) (string, string) { return apart(is, limit, Text[Q]) }

// CaliperApart is Apart for two lengths as Caliper reads them.
func CaliperApart(is, limit Length) (string, string) { return apart(is, limit, Caliper) }

func apart[Q Quantity](is, limit Q, text func(Q) string) (string, string) {
	a, b := Of(is), Of(limit)
	x, y := text(is), text(limit)
	if x != y || a.SI == b.SI || math.IsNaN(a.SI) || math.IsNaN(b.SI) {
		return x, y
	}
	symbol := a.shownIn(x)
	for digits := 3; digits <= 5; digits++ {
		p, r := a.digits(symbol, digits), b.digits(symbol, digits)
		if p == r {
			continue
		}
		if reads(limit, y) {
			r = y
		} else if reads(is, x) {
			p = x
		}
		return p, r
	}
	if is < limit {
		return Hair + " under " + y, y
	}
	return Hair + " over " + y, y
}

// hairs are what nobody measures, of kinds that Text writes however little they
// are: of others less is a hair that reads as nothing. Ours, no source.
var hairs = [len(kinds)]float64{KindLength: 1e-5, KindPressure: 1, KindFlow: 1e-8, KindVolume: 1e-7, KindForce: 0.01, KindDuration: 1e-3, KindNumber: 1e-4}

// By returns by how much something misses, as Text does, or that it is a hair
// where that would read as nothing.
func By[Q Quantity](much Q) string {
	t := Text(much)
	if t == Text(Q(0)) || math.Abs(float64(much)) < hairs[much.Kind()] || strings.Trim(t[:strings.IndexByte(t+" ", ' ')], "-0.,") == "" {
		return Hair
	}
	return t
}

// reads reports whether t, typed back in, is a.
func reads[Q Quantity](a Q, t string) bool {
	e, err := Parse[Q](t)
	return err == nil && math.Abs(float64(e.Value()-a)) <= 1e-9*math.Abs(float64(a))
}

// shownIn returns the symbol of the unit that t, which is a's text, ends with.
func (a Amount) shownIn(t string) string {
	symbol := ""
	for _, u := range kinds[a.Kind].units {
		if strings.HasSuffix(t, u.symbol) && len(u.symbol) > len(symbol) {
			symbol = u.symbol
		}
	}
	return symbol
}

// digits writes a in the unit with that symbol, to so many significant digits.
func (a Amount) digits(symbol string, n int) string {
	if a.Kind == KindSlope && symbol == "" {
		if a.SI == 0 {
			return "level"
		}
		rising := ""
		if a.SI < 0 {
			rising = "rising "
		}
		return rising + "1:" + significant(math.Abs(1/a.SI), n)
	}
	t := significant(a.in(symbol), n)
	if symbol == "" || a.Kind == KindAngle {
		return t + symbol
	}
	return t + " " + symbol
}
