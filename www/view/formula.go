package view

import (
	"strings"
	"unicode"
)

// A formula is written in plain symbols, with two marks of setting: "_" puts
// the letters and digits after it below the line (p_v), "^" puts the number
// after it above (x^5.2). Fractions stay a/b.

// plain is s for a terminal: what goes below the line follows its symbol,
// "NPSH_a" as NPSHa.
func plain(s string) string { return strings.ReplaceAll(s, "_", "") }

// formula writes s set as print sets it.
func (h *html) formula(s string) {
	s = strings.ReplaceAll(s, " - ", " − ")
	for {
		i := strings.IndexAny(s, "_^")
		if i < 0 {
			h.Text(s)
			return
		}
		h.Text(s[:i])
		tag := "sub"
		belongs := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '∞' }
		if s[i] == '^' {
			tag = "sup"
			belongs = func(r rune) bool { return unicode.IsDigit(r) || r == '.' }
		}
		s = s[i+1:]
		end := strings.IndexFunc(s, func(r rune) bool { return !belongs(r) })
		if end < 0 {
			end = len(s)
		}
		h.El(tag, s[:end])
		s = s[end:]
	}
}
