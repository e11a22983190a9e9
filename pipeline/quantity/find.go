package quantity

import "strings"

// ratio returns the kinds whose units stand over and under the stroke of k's,
// so that "litres per minute" is found as L/min without a list of every spelling.
func (k Kind) ratio() (over, under Kind, ok bool) {
	switch k {
	case KindFlow:
		return KindVolume, KindDuration, true
	case KindVelocity:
		return KindLength, KindDuration, true
	case KindSlope:
		return KindLength, KindLength, true
	case KindDensity:
		return KindMass, KindVolume, true
	}
	return 0, 0, false
}

// unitKey brings a typed unit to the form of unit.words, its case kept:
// "US gal / min." becomes "USgal/min", "litres per minute" "litres/minute".
func unitKey(s string) string {
	s = strings.ReplaceAll(s, " per ", "/")
	return keyReplacer.Replace(s)
}

var keyReplacer = strings.NewReplacer(" ", "", ".", "", "·", "", "*", "", "^", "", "²", "2", "³", "3", "ⁿ", "n")

// find returns the unit of kind k that key spells. What and hint are set
// when the spelling is one that does not say enough.
//
// A spelling as written wins; then come the refusals; only then is the case
// overlooked. So mL is a millilitre and ML is refused, while MM is a millimetre.
func (k Kind) find(key string) (u *unit, what, hint string, ok bool) {
	t := &kinds[k]
	for i := range t.units {
		if u := &t.units[i]; u.spelt(key) {
			return u, "", "", true
		}
	}
	low := strings.ToLower(key)
	for _, r := range t.refused {
		if r.word == key || r.word == low {
			return nil, r.what, r.hint, false
		}
	}
	for i := range t.units {
		if u := &t.units[i]; u.spelt(low) || strings.ToLower(u.symbol) == low {
			return u, "", "", true
		}
	}
	if over, under, is := k.ratio(); is {
		if a, b, cut := strings.Cut(key, "/"); cut && a != "" && b != "" {
			ua, what, hint, okA := over.find(a)
			ub, _, _, okB := under.find(b)
			if what != "" {
				return nil, what, hint, false
			}
			if okA && okB {
				if u, found := k.bySymbol(ua.symbol + "/" + ub.symbol); found {
					return u, "", "", true
				}
			}
		}
	}
	return nil, "", "", false
}

// bySymbol returns k's unit printed as symbol.
func (k Kind) bySymbol(symbol string) (*unit, bool) {
	for i := range kinds[k].units {
		if u := &kinds[k].units[i]; u.symbol == symbol {
			return u, true
		}
	}
	return nil, false
}

func (u *unit) spelt(key string) bool {
	if u.symbol == key {
		return true
	}
	for _, w := range u.words {
		if w == key {
			return true
		}
	}
	return false
}

func (u *unit) toSI(n float64) float64    { return (n + u.offset) * u.mul / u.div }
func (u *unit) fromSI(si float64) float64 { return si*u.div/u.mul - u.offset }
