package design

import "strings"

// pick says which of options was probably meant by word, or lists them.
func pick(word string, options []string) string {
	if near := nearest(word, options); near != "" {
		return "perhaps " + near + " was meant"
	}
	const most = 20
	if len(options) > most {
		return "pick one of those offered, such as " + options[0]
	}
	return "write " + or(options)
}

// or joins options as a sentence does: "a, b or c".
func or(options []string) string {
	n := len(options)
	if n < 2 {
		return strings.Join(options, "")
	}
	return strings.Join(options[:n-1], ", ") + " or " + options[n-1]
}

// nearest returns the option that word is most likely a slip of, or "" when
// none is near: a third of its letters may be wrong, case aside.
func nearest(word string, options []string) string {
	const longest = 40 // no name in the format comes near it
	if word == "" || len(word) > longest {
		return ""
	}
	best, least := "", max(1, len(word)/3)+1
	low := strings.ToLower(word)
	for _, o := range options {
		if d := distance(low, strings.ToLower(o), least); d < least {
			best, least = o, d
		}
	}
	return best
}

// distance counts the letters to put in, take out, change or swap with their
// neighbour to turn a into b (optimal string alignment), or gives up at limit.
func distance(a, b string, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	two := make([]int, len(b)+1) // row i-2
	one := make([]int, len(b)+1) // row i-1
	row := make([]int, len(b)+1)
	for j := range one {
		one[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(one[j]+1, row[j-1]+1, one[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], two[j-2]+1)
			}
		}
		two, one, row = one, row, two
	}
	return one[len(b)]
}
