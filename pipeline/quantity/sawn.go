package quantity

import "strings"

// Sawn returns l as Tape does, but to a tenth of a millimetre however long it
// is: what is sawn is added up, and three lengths that were each rounded to a
// millimetre may miss their place by more than the gap that a weld forgives.
func Sawn(l Length) string {
	switch s := Tape(l); {
	case strings.HasSuffix(s, " mm"):
		return trimmed(l.Millimetres(), 1) + " mm"
	case strings.HasSuffix(s, " cm"):
		return trimmed(l.Millimetres()/10, 2) + " cm"
	default:
		return s
	}
}
