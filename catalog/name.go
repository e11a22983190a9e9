package catalog

import "strings"

// DimensionName says which length slug means, in words to be put in a
// sentence: "1½ in clamp joint ferrule, length", "90° bend, short, 1½ in (BS
// 4825-1), centre to end". What is no dimension comes back as it is.
func DimensionName(slug string) string {
	words := strings.Split(slug, "/")
	last := len(words) - 1
	if last < 2 {
		return slug
	}
	what := strings.ReplaceAll(words[last], "-", " ")
	t := load()
	if at, ok := t.jointAt[words[0]+"/"+words[1]]; ok {
		if last == 2 {
			return t.joints[at].Name + ", " + what + " when closed"
		}
		return t.joints[at].Name + " " + strings.Join(words[2:last], " ") + ", " + what
	}
	tube, ok := FindTube(words[0] + "/" + words[1])
	if !ok || last < 3 {
		return slug
	}
	kind := strings.ReplaceAll(words[2], "-", " ")
	rest, size := words[3:last], tube.Name
	switch kind {
	case "bend":
		if len(rest) > 0 {
			kind, rest = rest[0]+"° bend", rest[1:]
		}
	case "reducer":
		if n := len(rest) - 1; n > 0 {
			to, from := strings.Join(rest[:n], "/"), tube.Name
			if n == 1 { // within one series
				to, from = tube.Series+"/"+to, tube.Size
			}
			if small, ok := FindTube(to); ok {
				size = from + " to " + small.Name
			}
			kind, rest = rest[n]+" reducer", nil
		}
	}
	for i, word := range rest {
		rest[i] = strings.ReplaceAll(word, "-", " ")
	}
	switch {
	case len(rest) == 2 && rest[0] == rest[1]: // what it is bought with
		kind += ", both ends " + rest[0]
	case len(rest) == 2 && words[2] != "bend":
		kind += ", ends " + rest[0] + " and " + rest[1]
	case len(rest) > 0:
		kind += ", " + strings.Join(rest, ", ")
	}
	return kind + ", " + size + ", " + what
}
