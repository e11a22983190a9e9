package design

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Fault is something in a design, a file or a link that cannot be used.
type Fault struct {
	Field string `json:"field"`          // design path, "tank.bore"; "" for the whole
	Line  int    `json:"line,omitempty"` // in a file, counted from 1; 0 where there are no lines
	Given string `json:"given"`          // as typed, cut to 80 characters
	What  string `json:"what"`           // what is wrong, a clause without a full stop
	Hint  string `json:"hint"`           // what would be right, a clause without a full stop
}

// String returns f as one sentence: where it is, what was given, what is
// wrong with it and what would be right.
func (f Fault) String() string {
	var b strings.Builder
	part := func(s string) {
		if b.Len() > 0 {
			b.WriteString(", ")
		}
		b.WriteString(s)
	}
	if f.Line > 0 {
		part("line " + strconv.Itoa(f.Line))
	}
	if f.Field != "" {
		part(f.Field)
	}
	if f.Given != "" {
		part("\"" + f.Given + "\"")
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	b.WriteString(f.What)
	if f.Hint != "" {
		b.WriteString("; ")
		b.WriteString(f.Hint)
	}
	return b.String()
}

// Faults is every fault found, in the order of the design's fields. It is an error.
type Faults []Fault

// Error returns the faults one to a line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].String()
	}
	return strings.Join(lines, "\n")
}

// maxGiven is how many characters of what was typed a fault repeats.
const maxGiven = 80

// shorten cuts s to maxGiven characters and mends what is not UTF-8.
func shorten(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	if utf8.RuneCountInString(s) <= maxGiven {
		return s
	}
	n := 0
	for i := range s {
		if n == maxGiven-1 {
			return s[:i] + "…"
		}
		n++
	}
	return s
}
