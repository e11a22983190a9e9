package catalog

import (
	"math"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// token is one word or one size of a query, or of a name in the catalogue.
type token struct {
	word string  // lower case; of a size, as it was written: "4825" may be either
	size float64 // NaN where it is no number
	unit byte    // of the size, as below
}

// The units that a size is said in.
const (
	bare    byte = iota // a number alone
	inches              // of nominal size
	dn                  // nominal diameter
	mms                 // millimetres
	knuckle             // diameter of a knuckle thread, "Rd 78"
)

// halves of an inch as they are written in one letter.
var fractions = map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅝': "5/8", '⅜': "3/8", '⅛': "1/8"}

// scan takes a query or a name apart. It forgives case, hyphens, a comma for a
// point, a unit that sticks to its number, and fractions: "1½in", "1 1/2
// inch", "1.5\"", "DN50", "50,8mm" and "bs4825" are all understood.
func scan(text string) []token {
	var words []string
	var word strings.Builder
	kind := ' ' // of the last rune: a letter, 0 or a space
	flush := func() {
		if word.Len() > 0 {
			words = append(words, word.String())
			word.Reset()
		}
	}
	add := func(r, is rune) {
		if is != kind {
			flush()
		}
		word.WriteRune(r)
		kind = is
	}
	runes := []rune(strings.ToLower(text))
	for i, r := range runes {
		after := i+1 < len(runes) && runes[i+1] >= '0' && runes[i+1] <= '9'
		switch f, ok := fractions[r]; {
		case ok:
			flush()
			words = append(words, f)
			kind = ' '
		case r >= '0' && r <= '9':
			add(r, '0')
		case r == ',' && kind == '0' && after:
			add('.', '0')
		case (r == '.' || r == '/') && kind == '0' && after:
			add(r, '0')
		case r >= 'a' && r <= 'z':
			add(r, 'a')
		case r == '"' || r == '″' || r == '”':
			flush()
			words = append(words, "in")
			kind = ' '
		default:
			flush()
			kind = ' '
		}
	}
	flush()
	return sizes(spoken(words))
}

var numerals = map[string]string{"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "eight": "8"}

var parts = map[string]string{"half": "1/2", "quarter": "1/4", "quarters": "1/4"}

// spoken writes sizes as numbers that were said in words: "two inch", "inch
// and a half", "two and a half inch", "three quarter inch", "half inch".
func spoken(words []string) []string {
	var out []string
	at := func(i int) string {
		if i < len(words) {
			return words[i]
		}
		return ""
	}
	for i := 0; i < len(words); i++ {
		w := words[i]
		if n, ok := numerals[w]; ok {
			w = n
		}
		part := parts[at(i+3)]
		if isPart := at(i+1) == "and" && at(i+2) == "a" && part != ""; isPart && unitAfter[w] == inches {
			out = append(out, "1", part, "in")
			i += 3
			continue
		} else if _, ok := number(w); ok && isPart {
			out = append(out, w, part)
			i += 3
			continue
		}
		if part = parts[at(i+1)]; w == "3" && part == "1/4" {
			out = append(out, "3/4")
			i++
			continue
		}
		if part = parts[w]; part != "" && unitAfter[at(i+1)] == inches {
			w = part
		}
		out = append(out, w)
	}
	return out
}

// sizes finds the sizes among words and joins each with its unit.
func sizes(words []string) []token {
	var out []token
	for i := 0; i < len(words); i++ {
		w := words[i]
		value, ok := number(w)
		if !ok {
			if unit, ahead := unitBefore[w]; ahead && i+1 < len(words) {
				if v, ok := number(words[i+1]); ok {
					out = append(out, token{w + words[i+1], v, unit})
					i++
					continue
				}
			}
			if !idle[w] {
				out = append(out, token{word: w, size: math.NaN()})
			}
			continue
		}
		t := token{w, value, bare}
		// "1 1/2" is one size.
		if i+1 < len(words) && strings.Contains(words[i+1], "/") && !strings.Contains(w, "/") {
			if part, ok := number(words[i+1]); ok && part < 1 {
				t.size += part
				i++
			}
		}
		if i+1 < len(words) {
			if unit, ok := unitAfter[words[i+1]]; ok {
				t.unit = unit
				i++
			}
		}
		out = append(out, t)
	}
	return out
}

var (
	unitBefore = map[string]byte{"dn": dn, "nw": dn, "nd": dn, "rd": knuckle}
	unitAfter  = map[string]byte{"in": inches, "inch": inches, "inches": inches, "ins": inches, "mm": mms, "millimetre": mms, "millimetres": mms, "mil": mms}
	idle       = map[string]bool{"a": true, "an": true, "the": true, "of": true, "for": true, "to": true, "in": true, "on": true, "with": true, "and": true, "x": true, "by": true, "od": true, "size": true, "inch": true, "mm": true}
)

// number reads "50.8" or "5/8".
func number(w string) (float64, bool) {
	over, under, fraction := strings.Cut(w, "/")
	v, err := strconv.ParseFloat(over, 64)
	if err != nil {
		return math.NaN(), false
	}
	if fraction {
		d, err := strconv.ParseFloat(under, 64)
		if err != nil || d <= 0 {
			return math.NaN(), false
		}
		v /= d
	}
	return v, !math.IsInf(v, 0) && w[0] >= '0' && w[0] <= '9'
}

// like returns how well a word of a query fits a word of the catalogue: 1 the
// same, less for its beginning or a slip of the finger, 0 not at all.
func like(said, word string) float64 {
	said, word = singular(said), singular(word)
	switch n := len(said); {
	case said == word:
		return 1
	case n >= 3 && strings.HasPrefix(word, said):
		return 0.8
	case n >= 4 && len(word) >= 4 && said[0] >= 'a' && edits(said, word, 2) < 2:
		return 0.7
	case n >= 7 && len(word) >= 7 && said[0] >= 'a' && edits(said, word, 3) < 3:
		return 0.5
	}
	return 0
}

func singular(w string) string {
	if len(w) > 3 && !strings.HasSuffix(w, "ss") {
		return strings.TrimSuffix(w, "s")
	}
	return w
}

// best returns how well t fits the best of words. A size with its unit is no
// word; a small number alone, as in "range 2", is hardly one.
func best(t token, words []token) float64 {
	if t.unit != bare {
		return 0
	}
	most := 0.0
	for i := range words {
		most = max(most, like(t.word, words[i].word))
	}
	if t.size < 10 {
		most *= 0.5
	}
	return most
}

// measure is what an item can be known by beside its words.
type measure struct {
	nominal  token // its name as a size
	od, wall q.Length
	face     float64  // diameter of its thread or flange as printed; 0 for none
	to       *measure // the other end of a reducer
}

// fits returns how well a size that was said fits m: 1 its name, its true OD
// or its face, less where people round or leave the unit out.
func (m *measure) fits(t token) float64 {
	if math.IsNaN(t.size) {
		return 0
	}
	if m.to != nil {
		return max(m.to.fits(t), (&measure{nominal: m.nominal, od: m.od, wall: m.wall}).fits(t))
	}
	same := func(of token) bool { return of.unit != bare && math.Abs(of.size-t.size) < 1e-9 }
	off := math.Abs(m.od.Millimetres() - t.size)
	if t.unit == inches {
		off = math.Abs(m.od.Millimetres() - t.size*25.4)
	}
	const rounded = 0.6 // mm: 51 is said for 50.8, and 76 for 76.2
	switch {
	case m.face == t.size && (t.unit == knuckle || t.unit == bare || t.unit == mms):
		return 1
	case t.unit == knuckle:
		return 0
	case t.unit == m.nominal.unit && same(m.nominal), t.unit == mms && off < 0.05:
		return 1
	case t.unit == bare && same(m.nominal):
		return 0.9
	case t.unit != dn && off < 0.05:
		return 0.8
	case t.unit != dn && off < rounded:
		return 0.6
	case t.unit == mms && m.nominal.unit == dn && same(m.nominal):
		return 0.4
	case (t.unit == bare || t.unit == mms) && math.Abs(m.wall.Millimetres()-t.size) < 1e-6:
		return 0.5
	}
	return 0
}
