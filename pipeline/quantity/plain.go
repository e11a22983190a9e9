package quantity

import (
	"strings"
	"unicode"
)

// plain brings the many characters for one thing to a single one: spaces,
// minus signs, primes and quotes, fractions. Spaces are single and none at
// the ends.
func plain(text string) string {
	var b strings.Builder
	b.Grow(len(text) + 8)
	var last byte = ' '
	write := func(s string) {
		b.WriteString(s)
		last = s[len(s)-1]
	}
	for _, r := range text {
		if f, ok := fractions[r]; ok {
			if last >= '0' && last <= '9' {
				write(" ")
			}
			write(f)
			continue
		}
		switch {
		case unicode.IsSpace(r):
			if last != ' ' {
				write(" ")
			}
			continue
		case r >= '\u200b' && r <= '\u200f', r == '\u2060', r == '\ufeff': // joiners and marks without width
			continue
		}
		switch r {
		case '−', '–', '‐', '‑', '﹣', '-':
			write("-")
		case '′', '’', '‘', 'ʹ', '´', '`', '\'':
			if last == '\'' { // two primes make a double prime
				head := b.String()
				b.Reset()
				b.WriteString(head[:len(head)-1])
				write(`"`)
			} else {
				write("'")
			}
		case '″', '”', '“', 'ʺ', '"':
			write(`"`)
		case '⁄', '∕':
			write("/")
		case '∶', '：':
			write(":")
		case 'º', '˚':
			write("°")
		case '℃':
			write("°C")
		case '℉':
			write("°F")
		case 'μ': // Greek letter; the other is the micro sign
			write("µ")
		case '⋅', '•', '∙':
			write("·")
		default:
			write(string(r))
		}
	}
	return strings.TrimSpace(b.String())
}

var fractions = map[rune]string{
	'½': "1/2", '¼': "1/4", '¾': "3/4", '⅓': "1/3", '⅔': "2/3",
	'⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
	'⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6",
}
