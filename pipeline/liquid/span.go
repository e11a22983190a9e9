package liquid

import (
	"math"
	"strconv"

	q "drawoff/pipeline/quantity"
)

// span is the range that a correlation holds in, in the unit that people use
// for it (°C, %), and the words for it.
type span struct {
	low, high float64
	words     string
}

// held returns x between low and high. What is not a number becomes low, so
// that every figure derived from it is still a number.
func held(x, low, high float64) float64 {
	if !(x > low) {
		return low
	}
	return min(x, high)
}

// temperature returns t held inside the span and notes when that moved it.
func (s span) temperature(t q.Temperature, outside *[]Outside) q.Temperature {
	low, high := q.Celsius(s.low), q.Celsius(s.high)
	if t >= low && t <= high {
		return t
	}
	*outside = append(*outside, Outside{"temperature", degrees(t), s.words})
	return q.Temperature(held(float64(t), float64(low), float64(high)))
}

// part returns a fraction held inside the span, which is in per cent, and
// notes when that moved it; unit is what follows the number, "°P" or "%".
func (s span) part(what string, x float64, unit string, outside *[]Outside) float64 {
	low, high := s.low/100, s.high/100
	if x >= low && x <= high {
		return x
	}
	*outside = append(*outside, Outside{what, percent(x, unit), s.words})
	return held(x, low, high)
}

// name returns "<what> at 10 °C".
func name(what string, t q.Temperature) string { return what + " at " + degrees(t) }

func degrees(t q.Temperature) string { return tidy(t.Celsius(), 1) + " °C" }

func percent(x float64, unit string) string { return tidy(100*x, 2) + " " + unit }

// tidy returns x rounded to at most so many decimals, without idle zeros.
func tidy(x float64, decimals int) string {
	switch {
	case math.IsNaN(x), math.IsInf(x, 0):
		return "not a number"
	case math.Abs(x) >= 1e6: // no number that somebody meant
		return strconv.FormatFloat(x, 'g', 3, 64)
	}
	scale := math.Pow10(decimals)
	// Adding 0 turns a rounded −0 into 0.
	return strconv.FormatFloat(math.Round(x*scale)/scale+0, 'f', -1, 64)
}

// power returns x to the integer n by squaring: several times faster than
// math.Pow, and the same on every machine.
func power(x float64, n int) float64 {
	if n < 0 {
		return 1 / power(x, -n)
	}
	p := 1.0
	for ; n > 0; n >>= 1 {
		if n&1 == 1 {
			p *= x
		}
		x *= x
	}
	return p
}
