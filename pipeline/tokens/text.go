package tokens

import (
	"unicode/utf16"
	"unicode/utf8"
)

// text reads a string, which stands on one line.
func (r *Reader) text(k Kind) Token {
	t := Token{Kind: k, Line: r.line}
	r.at++
	from := r.at
	var made []byte // what was read, once an escape made it differ from the text
	for r.at < len(r.data) {
		switch c := r.data[r.at]; {
		case c == '"':
			t.Text = r.data[from:r.at]
			if made != nil {
				t.Text = string(append(made, t.Text...))
			}
			r.at++
			return t
		case c < ' ':
			return r.bad(Misplaced)
		case c == '\\':
			made = append(made, r.data[from:r.at]...)
			char, half, ok := r.escape()
			if !ok {
				return r.bad(Misplaced)
			}
			made = utf8.AppendRune(made, char)
			t.Half = t.Half || half
			from = r.at
		case c < utf8.RuneSelf:
			r.at++
		default:
			n := valid(r.data[r.at:])
			if n == 0 {
				return r.bad(NotText)
			}
			r.at += n
		}
	}
	return r.bad(CutShort)
}

// plain are the escapes of one letter, each followed by what it means.
const plain = "\"\"\\\\//b\bf\fn\nr\rt\t"

// escape reads a backslash and what belongs to it. Half of a pair that stands
// alone is U+FFFD. If it is no escape, the reader stays at what is wrong.
func (r *Reader) escape() (char rune, half, ok bool) {
	r.at++
	if r.at >= len(r.data) {
		return 0, false, false
	}
	c := r.data[r.at]
	for i := 0; i < len(plain); i += 2 {
		if plain[i] == c {
			r.at++
			return rune(plain[i+1]), false, true
		}
	}
	if c != 'u' {
		return 0, false, false
	}
	r.at++
	one, ok := r.hex()
	if !ok || !utf16.IsSurrogate(one) {
		return one, false, ok
	}
	at := r.at
	if r.is('\\', '\\') && r.is('u', 'u') {
		if two, ok := r.hex(); ok {
			if char := utf16.DecodeRune(one, two); char != utf8.RuneError {
				return char, false, true
			}
		}
	}
	r.at = at // what follows is read again, as itself
	return utf8.RuneError, true, true
}

// hex reads four digits.
func (r *Reader) hex() (char rune, ok bool) {
	for range 4 {
		if r.at >= len(r.data) {
			return 0, false
		}
		c := r.data[r.at]
		switch {
		case digit(c):
			c -= '0'
		case 'a' <= c|0x20 && c|0x20 <= 'f':
			c = c | 0x20 - 'a' + 10
		default:
			return 0, false
		}
		char = char<<4 | rune(c)
		r.at++
	}
	return char, true
}

// AppendString appends s as a JSON string. Beside what must be escaped it
// escapes the two line separators that JavaScript once took for line ends;
// each byte that is not UTF-8 becomes U+FFFD.
func AppendString(b []byte, s string) []byte {
	const digits = "0123456789abcdef"
	b = append(b, '"')
	from := 0
	for i := 0; i < len(s); {
		c := s[i]
		n := 1
		if c >= utf8.RuneSelf {
			n = valid(s[i:])
			if n > 0 && s[i:i+n] != "\u2028" && s[i:i+n] != "\u2029" {
				i += n
				continue
			}
		} else if c >= ' ' && c != '"' && c != '\\' {
			i++
			continue
		}
		b = append(b, s[from:i]...)
		switch {
		case n == 0:
			b, n = append(b, `\ufffd`...), 1
		case n == 3:
			b = append(b, `\u202`...)
			b = append(b, digits[s[i+2]&0xF])
		default:
			b = appendEscape(b, c, digits)
		}
		i += n
		from = i
	}
	b = append(b, s[from:]...)
	return append(b, '"')
}

func appendEscape(b []byte, c byte, digits string) []byte {
	for i := 0; i < len(plain); i += 2 {
		if plain[i+1] == c {
			return append(b, '\\', plain[i])
		}
	}
	return append(b, '\\', 'u', '0', '0', digits[c>>4], digits[c&0xF])
}
