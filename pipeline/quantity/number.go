package quantity

import (
	"strconv"
	"strings"
)

// number reads the unsigned number that s begins with: 240, 0.9, 0,9, 3/4,
// 2 1/2, 2-1/2 or 1 500 (groups of three). Whatever could be read two ways is
// refused, never guessed.
func number(s string) (n float64, rest string, c complaint) {
	run := span(s, "0123456789.,")
	head, rest := s[:run], s[run:]
	if strings.Trim(head, ".,") == "" {
		if s == "" {
			return 0, "", complaint{what: "has no number"}
		}
		return 0, "", complaint{what: "does not begin with a number"}
	}
	whole := strings.Trim(head, "0123456789") == ""

	if whole {
		if den, after, ok := over(rest); ok { // 3/4
			n, c = divide(head, den)
			return n, after, c
		}
		if rest != "" && (rest[0] == ' ' || rest[0] == '-') { // 2 1/2
			numLen := span(rest[1:], "0123456789")
			if den, after, ok := over(rest[1+numLen:]); ok && numLen > 0 {
				part, c := divide(rest[1:1+numLen], den)
				if c.bad() {
					return 0, "", c
				}
				if part >= 1 {
					return 0, "", complaint{what: "has a fraction of one or more after a whole number"}
				}
				n, c = decimal(head)
				return n + part, after, c
			}
		}
		for more := len(head) <= 3 && head[0] != '0'; more; { // 1 500
			var digits string
			if digits, rest, more = group(rest); more {
				head += digits
			}
		}
	}
	if rest != "" && (rest[0] == 'e' || rest[0] == 'E') && len(rest) > 1 && strings.IndexByte("0123456789+-", rest[1]) >= 0 {
		return 0, "", complaint{what: "has a number with an exponent", hint: "write the number out, like 0.001"}
	}
	if head == "0" && rest != "" && (rest[0] == 'x' || rest[0] == 'X') {
		return 0, "", complaint{what: "is not a plain number", hint: "write it in ordinary digits"}
	}
	n, c = decimal(head)
	return n, rest, c
}

// decimal reads digits with at most one decimal point or comma.
func decimal(s string) (float64, complaint) {
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	if points+commas > 1 {
		return 0, complaint{what: "has more than one point or comma in a number", hint: "write 1234.5, without marks between the thousands"}
	}
	if i := strings.IndexByte(s, ','); i >= 0 {
		before, after := s[:i], s[i+1:]
		if len(after) == 3 && len(before) >= 1 && len(before) <= 3 && before[0] != '0' {
			return 0, complaint{
				what: "may be read two ways: " + before + after + ", or " + before + "." + after,
				hint: "write " + before + after + " or " + before + "." + after,
			}
		}
		s = before + "." + after
	}
	n, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, complaint{what: "does not hold a number that can be read"}
	}
	return n, complaint{}
}

// over reads "/" and the whole number under it.
func over(s string) (den, rest string, ok bool) {
	if s == "" || s[0] != '/' {
		return "", "", false
	}
	n := span(s[1:], "0123456789")
	return s[1 : 1+n], s[1+n:], n > 0
}

func divide(num, den string) (float64, complaint) {
	a, errA := strconv.ParseFloat(num, 64)
	b, errB := strconv.ParseFloat(den, 64)
	if errA != nil || errB != nil {
		return 0, complaint{what: "does not hold a number that can be read"}
	}
	if b == 0 {
		return 0, complaint{what: "is divided by nothing"}
	}
	return a / b, complaint{}
}

// group reads a space and exactly three digits more of the same number.
func group(s string) (digits, rest string, ok bool) {
	if s == "" || s[0] != ' ' {
		return "", s, false
	}
	n := span(s[1:], "0123456789.,/")
	if n != 3 || strings.Trim(s[1:4], "0123456789") != "" {
		return "", s, false
	}
	return s[1:4], s[4:], true
}

// span returns the length of the prefix of s made of the bytes in set.
func span(s, set string) int {
	n := 0
	for n < len(s) && strings.IndexByte(set, s[n]) >= 0 {
		n++
	}
	return n
}
