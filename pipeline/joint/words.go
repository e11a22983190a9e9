package joint

import (
	"strconv"
	"strings"

	"drawoff/catalog"
)

// noun returns what a half is called in a sentence.
func noun(half string) string { return catalog.HalfNoun(half) }

// article returns s with "a" or "an" before it, by its sound.
func article(s string) string {
	if s == "" {
		return s
	}
	vowel := strings.ContainsRune("aeioAEIO8", rune(s[0])) || strings.HasPrefix(s, "SMS") || strings.HasPrefix(s, "11 ")
	if vowel {
		return "an " + s
	}
	return "a " + s
}

// sentence returns s with a capital, where its first letter is a plain one.
func sentence(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// lower returns s with a small letter first.
func lower(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]+'a'-'A') + s[1:]
	}
	return s
}

// flange returns "64 mm" for the face of a clamp, "flange 64", and false for another face.
func flange(face string) (string, bool) {
	size, ok := strings.CutPrefix(face, "flange ")
	return strings.TrimSuffix(size, " mm") + " mm", ok
}

// closes returns why a joint closes on another of its face.
func closes(j catalog.Joint) string {
	if size, ok := flange(j.Face); ok {
		return "the clamp closes, since both flanges are " + size
	}
	if f, _ := catalog.FindFamily(j.Family); f.Unsealed { // it has no nut
		return "they go together, since both sides are " + j.Name + "s"
	}
	return "the nut goes on, since both sides are " + j.Name + "s"
}

// apart returns why two joints of one family do not close, "" where their names say it.
func apart(a, b catalog.Joint) string {
	x, ok := flange(a.Face)
	y, also := flange(b.Face)
	switch {
	case ok && also:
		return ": one flange is " + x + ", the other " + y
	case strings.HasPrefix(a.Face, "thread ") && strings.HasPrefix(b.Face, "thread "):
		return ": the one has " + a.Face + ", the other " + b.Face
	}
	return ""
}

func tubeSize(t catalog.Tube) string {
	return decimal(t.OD.Millimetres(), 2) + " x " + decimal(t.Wall.Millimetres(), 2) + " mm"
}

func percent(part float64) string { return decimal(part*100, 1) + " %" }

// decimal returns x to at most n decimals, without idle noughts.
func decimal(x float64, n int) string {
	s := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// some returns a count with its noun: "1 weld", "3 welds".
func some(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}
