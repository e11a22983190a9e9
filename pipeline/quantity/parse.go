package quantity

import (
	"math"
	"strings"
	"unicode/utf8"
)

// MaxText is the longest quantity that is read, in characters.
const MaxText = 64

// MaxSI is the largest size of a quantity, in its SI unit. Nothing in a
// plant comes near it, and products of a few such numbers stay finite.
const MaxSI = 1e9

// ParseError says what in a typed quantity was not understood.
type ParseError struct {
	Text string // as given
	What string // what is wrong with it, a clause without a full stop
	Hint string // what would be right, e.g. "write it like 240 mm or 9 1/2 in"
}

func (e *ParseError) Error() string { return "\"" + e.Text + "\": " + e.What + "; " + e.Hint }

// complaint is a ParseError before the text is known.
type complaint struct{ what, hint string }

func (c complaint) bad() bool { return c.what != "" }

// ParseAmount reads a quantity of kind k; see Parse.
func ParseAmount(k Kind, text string) (Amount, error) {
	si, c := parse(k, text)
	if !c.bad() && !(math.Abs(si) <= MaxSI) { // written so that NaN is refused too
		c = complaint{what: "is larger than anything Drawoff handles"}
	}
	if c.bad() {
		if c.hint == "" {
			c.hint = "write it like " + kinds[k].sample
		}
		return Amount{}, &ParseError{Text: cut(text), What: c.what, Hint: c.hint}
	}
	return Amount{Kind: k, SI: si + 0}, nil // + 0 turns -0 into 0
}

// cut keeps an error readable when a whole page was pasted into a field.
func cut(text string) string {
	text = strings.ToValidUTF8(text, "\uFFFD")
	n := 0
	for i := range text {
		if n == MaxText {
			return text[:i] + "…"
		}
		n++
	}
	return text
}

func parse(k Kind, text string) (float64, complaint) {
	if !utf8.ValidString(text) {
		return 0, complaint{what: "holds bytes that are not text"}
	}
	if utf8.RuneCountInString(text) > MaxText {
		return 0, complaint{what: "is longer than 64 characters"}
	}
	s := plain(text)
	if s == "" {
		return 0, complaint{what: "is empty"}
	}
	switch k {
	case KindSlope:
		if si, c, is := slopeWords(s); is {
			return si, c
		}
	case KindStrength:
		if si, c, is := gravityOrDensity(s); is {
			return si, c
		}
	}
	sign, s := signed(s)
	si, c := terms(k, s, sign)
	return si, c
}

// signed takes the sign off s.
func signed(s string) (float64, string) {
	switch {
	case strings.HasPrefix(s, "-"):
		return -1, strings.TrimSpace(s[1:])
	case strings.HasPrefix(s, "+"):
		return 1, strings.TrimSpace(s[1:])
	}
	return 1, s
}

// terms reads "6 ft 2 1/2 in": numbers with their units, each unit the one
// that may follow the unit before it.
func terms(k Kind, s string, sign float64) (float64, complaint) {
	var sum float64
	var before *unit
	for first := true; first || s != ""; first = false {
		n, rest, c := number(s)
		if c.bad() {
			return 0, c
		}
		typed := s[:len(s)-len(rest)]
		word, rest := unitText(rest)
		if word == "" && rest != "" {
			return 0, complaint{what: "holds more than one number", hint: "write one, with its unit after it"}
		}
		if word == "" {
			return bare(k, sign*n, typed, !first)
		}
		u, c := lookUp(k, word)
		if c.bad() {
			return 0, c
		}
		if first {
			// The sign belongs inside: -5 °C is 5 below zero, not minus 278 K.
			sum = u.toSI(sign * n)
		} else {
			part := u.toSI(n)
			if before.then != u.symbol {
				return 0, complaint{what: "holds two quantities, " + before.symbol + " and " + u.symbol}
			}
			if part >= before.toSI(1) {
				return 0, complaint{what: strings.TrimSpace(typed) + " " + u.symbol + " is a whole " + before.symbol + " or more", hint: "carry it over"}
			}
			sum += sign * part
		}
		before = u
		if s = rest; s != "" && before.then == "" {
			return 0, complaint{what: "has something more after " + u.symbol}
		}
	}
	if k == KindTemperature && sum < 0 {
		return 0, complaint{what: "is below absolute zero"}
	}
	return sum, complaint{}
}

// bare judges a number without a unit.
func bare(k Kind, n float64, typed string, afterTerm bool) (float64, complaint) {
	typed = strings.TrimSpace(typed)
	switch {
	case afterTerm:
		return 0, complaint{what: "ends in " + typed + " without a unit"}
	case k == KindNumber:
		return n, complaint{}
	case k == KindFraction:
		if math.Abs(n) > 1 {
			return 0, complaint{what: "is more than the whole", hint: "write " + typed + " % if you mean percent"}
		}
		return n, complaint{}
	case n == 0 && k != KindTemperature:
		return 0, complaint{} // nothing is nothing in any unit
	case k == KindSlope:
		return 0, complaint{what: "has no unit", hint: "write a fall like 1:100, 1 % or 10 mm/m"}
	case k == KindStrength && n >= lowestSG && n <= highestSG:
		return 0, complaint{what: "has no unit", hint: "write SG " + typed + ", or " + typed + " °P"}
	}
	if n < 0 {
		typed = "-" + typed
	}
	u := kinds[k].usual
	hint := "write " + typed + " " + u[0]
	if u[1] != u[0] {
		hint += " or " + typed + " " + u[1]
	}
	return 0, complaint{what: "has no unit", hint: hint}
}

// unitText splits what follows a number into its unit and the rest. A digit
// ends the unit, but for the 2 or 3 of m2, m3 and ^3.
func unitText(s string) (word, rest string) {
	i := 0
	for i < len(s) {
		c := s[i]
		if c >= '0' && c <= '9' {
			power := (c == '2' || c == '3') && i > 0 && (strings.IndexByte("mMn^", s[i-1]) >= 0 || feet(s, i)) &&
				(i+1 == len(s) || s[i+1] < '0' || s[i+1] > '9') && !strings.HasSuffix(s[:i], "in ")
			if !power {
				break
			}
		}
		if (c == '.' || c == ',') && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9' {
			break
		}
		i++
	}
	word = strings.TrimSpace(s[:i])
	if rest = s[i:]; rest != "" {
		word = strings.TrimSpace(strings.TrimSuffix(word, "-")) // 6'-2"
	}
	return word, rest
}

// feet reports whether s[i] is the power of feet in a ratio: lb/ft3, ft3/h, and
// not the inches of 6ft2in.
func feet(s string, i int) bool {
	if strings.HasSuffix(s[:i], "/ft") {
		return true
	}
	return strings.HasSuffix(s[:i], "ft") && i+2 < len(s) && s[i+1] == '/' && (s[i+2] < '0' || s[i+2] > '9')
}

// lookUp finds the unit that word spells, or says why not.
func lookUp(k Kind, word string) (*unit, complaint) {
	key := unitKey(word)
	u, what, hint, ok := k.find(key)
	if ok {
		return u, complaint{}
	}
	if what != "" {
		return nil, complaint{what, hint}
	}
	hint = "write it like " + kinds[k].sample
	if list := kinds[k].units; len(list) > 1 {
		var b strings.Builder
		b.WriteString("use ")
		for i, u := range list {
			switch {
			case i == 0:
			case i == len(list)-1:
				b.WriteString(" or ")
			default:
				b.WriteString(", ")
			}
			b.WriteString(u.symbol)
		}
		hint = b.String()
	}
	for other := range kinds {
		if _, _, _, is := Kind(other).find(key); is {
			return nil, complaint{"is in " + word + ", a unit of " + kinds[other].name + ", not of " + kinds[k].name, hint}
		}
	}
	return nil, complaint{"has \"" + word + "\", which is not a unit of " + kinds[k].name, hint}
}
