package find

import (
	"strconv"
	"strings"
)

// decimal writes x with at most so many digits after the point.
func decimal(x float64, digits int) string {
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.ContainsRune(s, '.') {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
