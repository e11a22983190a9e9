package quantity

import (
	"math"
	"strings"
)

// Sawn returns l as Tape does, but to a tenth of a millimetre however long it
// is: what is sawn is added up, and three lengths that were each rounded to a
// millimetre may miss their place by more than the gap that a weld forgives.
// Of inches it tells the hundredths, too, where the tape has nothing as near.
func Sawn(l Length) string {
	switch s := Tape(l); {
	case strings.HasSuffix(s, " mm"):
		return trimmed(l.Millimetres(), 1) + " mm"
	case strings.HasSuffix(s, " cm"):
		return trimmed(l.Millimetres()/10, 2) + " cm"
	case strings.HasSuffix(s, " in") && math.Abs(float64(l/Inch)-onTape(float64(l/Inch))) > 0.004:
		return s + " (" + trimmed(float64(l/Inch), 2) + ")"
	default:
		return s
	}
}

// Along returns l as Sawn does, but for the hundredths: where on a length of
// tube a cut begins, to which nothing is added.
func Along(l Length) string {
	s, _, _ := strings.Cut(Sawn(l), " (")
	return s
}

// AtLeast returns the least that Tape can tell, of millimetres a tenth, that is
// no less than l by more than a hundredth of a millimetre: whoever builds to it
// has enough.
func AtLeast(l Length) string {
	if InInches() {
		return Tape(Length(math.Ceil(float64((l-Millimetre/100)/Inch)*32)) / 32 * Inch)
	}
	return Sawn(Mm(math.Ceil((l.Millimetres()-0.01)*10) / 10))
}
