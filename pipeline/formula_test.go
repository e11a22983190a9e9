package pipeline_test

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"drawoff/pipeline/finding"
)

// This file reads the formulas of figures as a person with a calculator would,
// knowing nothing of how they were computed: letters with their marks are
// symbols, what stands side by side is multiplied, × and / and what stands
// side by side bind alike, from the left.

// evaluate returns what the formula of w gives for its inputs, in SI units:
// of the sides of its equations, and of its clauses, the first that holds
// nothing but inputs and numbers.
func evaluate(w finding.Working) (float64, bool) {
	symbols := map[string]float64{"π": math.Pi}
	for _, in := range w.Inputs {
		symbols[in.Symbol] = in.Amount.SI
	}
	for _, clause := range clauses(w.Formula) {
		sides := strings.Split(clause, "=")
		for _, side := range sides[min(1, len(sides)-1):] {
			r := reader{rest: strings.TrimSpace(side), symbols: symbols}
			if v := r.sum(); !r.lost && r.rest == "" {
				return v, true
			}
		}
	}
	return 0, false
}

// clauses cuts a formula at semicolons and at commas that stand in no bracket.
func clauses(s string) []string {
	var out []string
	depth, from := 0, 0
	for i, c := range s {
		switch {
		case c == '(':
			depth++
		case c == ')':
			depth--
		case (c == ',' || c == ';') && depth == 0:
			out = append(out, s[from:i])
			from = i + 1
		}
	}
	return append(out, s[from:])
}

type reader struct {
	rest    string
	symbols map[string]float64
	lost    bool // something was no part of a formula, or no input
	bars    int  // |...| that are open
}

// take takes word off the front, and the blanks after it.
func (r *reader) take(word string) bool {
	rest, ok := strings.CutPrefix(r.rest, word)
	if ok {
		r.rest = strings.TrimLeft(rest, " ")
	}
	return ok
}

func (r *reader) sum() float64 {
	v := r.product()
	for !r.lost {
		switch {
		case r.take("+"):
			v += r.product()
		case r.take("-"):
			v -= r.product()
		default:
			return v
		}
	}
	return v
}

func (r *reader) product() float64 {
	v := r.power()
	for !r.lost {
		switch {
		case r.take("×"):
			v *= r.power()
		case r.take("/"):
			v /= r.power()
		case r.rest == "" || strings.ContainsAny(r.rest[:1], "+-),") || r.bars > 0 && r.rest[0] == '|':
			return v
		default:
			v *= r.power()
		}
	}
	return v
}

func (r *reader) power() float64 {
	v := r.single()
	switch {
	case r.take("²"):
		return v * v
	case r.take("³"):
		return v * v * v
	case r.take("^n"): // the index of a power law
		return math.Pow(v, r.symbols["n"])
	case r.take("^"):
		return math.Pow(v, r.number())
	}
	return v
}

func (r *reader) single() float64 {
	switch {
	case r.take("("):
		v := r.sum()
		r.lost = r.lost || !r.take(")")
		return v
	case r.take("|"):
		r.bars++
		v := math.Abs(r.sum())
		r.lost = r.lost || !r.take("|")
		r.bars--
		return v
	case r.take("∛"):
		return math.Cbrt(r.single())
	case r.take("√"):
		return math.Sqrt(r.single())
	case r.take("ln("):
		return math.Log(r.bracket())
	case r.take("cos("):
		return math.Cos(r.bracket())
	case r.take("sin("):
		return math.Sin(r.bracket())
	case r.take("tan("):
		return math.Tan(r.bracket())
	case r.take("atan("):
		return math.Atan(r.bracket())
	case r.take("max("):
		return r.among(math.Max)
	case r.take("min("):
		return r.among(math.Min)
	case r.rest != "" && unicode.IsDigit(rune(r.rest[0])):
		return r.number()
	}
	end := strings.IndexFunc(r.rest, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '_' })
	if end < 0 {
		end = len(r.rest)
	}
	v, known := r.symbols[r.rest[:end]]
	if !known || end == 0 {
		r.lost = true
		return 0
	}
	r.take(r.rest[:end])
	return v
}

// bracket reads what is left of a bracket.
func (r *reader) bracket() float64 {
	v := r.sum()
	r.lost = r.lost || !r.take(")")
	return v
}

func (r *reader) among(choose func(a, b float64) float64) float64 {
	v := r.sum()
	for !r.lost && r.take(",") {
		v = choose(v, r.sum())
	}
	r.lost = r.lost || !r.take(")")
	return v
}

func (r *reader) number() float64 {
	end := strings.IndexFunc(r.rest, func(c rune) bool { return !unicode.IsDigit(c) && c != '.' })
	if end < 0 {
		end = len(r.rest)
	}
	v, err := strconv.ParseFloat(r.rest[:end], 64)
	r.lost = r.lost || err != nil
	r.take(r.rest[:end])
	return v
}
