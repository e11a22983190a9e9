package finding

import (
	"strconv"

	"drawoff/pipeline/quantity"
	"drawoff/pipeline/tokens"
)

// passed is how many words there are to a verdict that is passed: its own,
// then its level, the kind of its limit and that in SI.
const passed = 10

// words are where v has its words.
func (v *Verdict) words() [passed - 3]*string {
	return [...]*string{&v.Rule, &v.Piece, &v.Sentence, &v.Advice, &v.Figure, &v.Measure, &v.Basis}
}

// Pass writes verdicts for another module of the same build, which reads them
// with Passed: a list of words, so many for each.
func Pass(verdicts []Verdict) string {
	b := []byte{'['}
	for i := range verdicts {
		v := verdicts[i]
		kind, limit := "", ""
		if v.Limit != nil {
			kind, limit = strconv.Itoa(int(v.Limit.Kind)), strconv.FormatFloat(v.Limit.SI, 'g', -1, 64)
		}
		level := strconv.Itoa(int(v.Level))
		own := v.words()
		for j, w := range append(own[:], &level, &kind, &limit) {
			if i+j > 0 {
				b = append(b, ',')
			}
			b = tokens.AppendString(b, *w)
		}
	}
	return string(append(b, ']'))
}

// Passed reads what Pass wrote: never nil where ok.
func Passed(text string) (verdicts []Verdict, ok bool) {
	var words []string
	r := tokens.NewReader(text, 1)
	ok = r.Items(r.Next(), func(t tokens.Token) bool {
		words = append(words, t.Text)
		return t.Kind == tokens.String
	})
	ok = ok && len(words)%passed == 0 && r.Next().Kind == tokens.End
	verdicts = make([]Verdict, len(words)/passed)
	for i := range verdicts {
		v := &verdicts[i]
		for j, to := range v.words() {
			*to = words[i*passed+j]
		}
		rest := words[i*passed+len(v.words()):]
		level, bad := strconv.Atoi(rest[0])
		ok = ok && bad == nil && 0 <= level && level <= int(Stop)
		v.Level = Level(level)
		if rest[1] != "" {
			n, bad := strconv.Atoi(rest[1])
			kind, known := quantity.KindOf(n)
			si, worse := strconv.ParseFloat(rest[2], 64)
			ok = ok && bad == nil && known && worse == nil && si-si == 0 // finite
			v.Limit = &quantity.Amount{Kind: kind, SI: si}
		}
	}
	return verdicts, ok
}
