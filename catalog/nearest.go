package catalog

import "strings"

// Nearest returns the slug of a tube, end, seal, seal material or dimension
// of a joint that most resembles what was written, for "did you mean"; "" when
// none does. It searches the whole catalogue: for errors only.
func Nearest(slug string) string {
	written := strings.ToLower(strings.TrimSpace(slug))
	if written == "" || len(written) > 80 {
		return ""
	}
	// More than a third of the letters wrong is another word, not a slip.
	best, least := "", len(written)/3+1
	try := func(candidate string) {
		distance := edits(written, candidate, least)
		// Words left out before or after are one slip: "2in" or "bs-4825/2.5".
		_, size, _ := strings.Cut(candidate, "/")
		if strings.HasPrefix(candidate, written) || strings.HasPrefix(size, written) {
			distance = min(distance, 1)
		}
		if distance < least {
			best, least = candidate, distance
		}
	}
	t := load()
	for _, tube := range t.tubes {
		if written == tube.Size || written == strings.ToLower(tube.Name) {
			return tube.Slug
		}
		try(tube.Slug)
	}
	try(weld)
	for _, f := range t.families {
		for _, half := range f.Halves {
			try(f.Slug + "/" + half)
		}
	}
	for _, m := range t.materials {
		try(m.Slug)
	}
	for _, j := range t.joints {
		for _, m := range t.materials {
			try(j.Slug + "/seal/" + m.Slug)
		}
		for _, d := range j.Lengths {
			try(d.Slug)
		}
		try(j.Gap.Slug)
	}
	return best
}

// edits returns how many letters must be put in, left out, changed or swapped
// with their neighbour to make b of a (the distance of optimal string
// alignment), or any number of at least limit when it is that many.
func edits(a, b string, limit int) int {
	if len(a)-len(b) >= limit || len(b)-len(a) >= limit {
		return limit
	}
	// rows[k] holds the distances from the first i-k letters of a to the starts of b.
	width := len(b) + 1
	memory := make([]int, 3*width)
	rows := [3][]int{memory[:width], memory[width : 2*width], memory[2*width:]}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		rows[0], rows[1], rows[2] = rows[2], rows[0], rows[1]
		rows[0][0] = i
		for j := 1; j <= len(b); j++ {
			change := rows[1][j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			rows[0][j] = min(change, rows[1][j]+1, rows[0][j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				rows[0][j] = min(rows[0][j], rows[2][j-2]+1)
			}
		}
	}
	return rows[0][len(b)]
}
