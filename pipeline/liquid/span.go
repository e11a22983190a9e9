package liquid

import (
	"math"
	"strconv"

	q "drawoff/pipeline/quantity"
)

// span is the range that a correlation holds in, in the unit that people use
// for it (°C, %), what it is of, and the words for it.
type span struct {
	low, high float64
	of        string // "density and viscosity"
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
// What is hotter is then taken on as water goes: see Properties.warm.
func (s span) temperature(t q.Temperature, outside *[]Outside) q.Temperature {
	low, high := q.Celsius(s.low), q.Celsius(s.high)
	given, _ := q.Apart(t, max(low, min(high, t)))
	switch {
	case t >= low && t <= high:
		return t
	case t > high:
		*outside = append(*outside, Outside{s.of, "temperature", given, q.Local(s.words), "the value at " + q.Text(high) + ", taken on from there as water goes"})
	default: // not a number among them
		*outside = append(*outside, Outside{"density, viscosity and vapour pressure", "temperature", given, q.Local(s.words), "the value at " + q.Text(low)})
	}
	return q.Temperature(held(float64(t), float64(low), float64(high)))
}

// part returns a fraction held inside the span, which is in per cent, and
// notes when that moved it; unit is what follows the number, "°P" or "%".
func (s span) part(what string, x float64, unit string, outside *[]Outside) float64 {
	low, high := s.low/100, s.high/100
	if x >= low && x <= high {
		return x
	}
	at := held(x, low, high)
	given := percent(x, unit)
	switch edge := percent(at, unit); {
	case given != edge:
	case x > at:
		given = q.Hair + " over " + edge
	default:
		given = q.Hair + " under " + edge
	}
	*outside = append(*outside, Outside{s.of, what, given, q.Local(s.words), "the value at " + percent(at, unit)})
	return at
}

// hottest returns t between 0 °C and so many degrees Celsius, for a vapour
// pressure: its range goes further than that of density and viscosity, and
// held with them it would tell a pump on boiling wort that all is well.
func hottest(t q.Temperature, celsius float64, outside *[]Outside) q.Temperature {
	edge := q.Celsius(celsius)
	if t > edge {
		given, _ := q.Apart(t, edge)
		*outside = append(*outside, Outside{"vapour pressure", "temperature", given, "to " + q.Text(edge), "the value at " + q.Text(edge)})
	}
	return q.Temperature(held(float64(t), float64(q.Celsius(0)), float64(edge)))
}

// warm takes density and viscosity from the temperature that a range held
// them at on to t, in the ratio in which water's go: most of these liquids is
// water. The hottest is 150 °C.
func (p *Properties) warm(from, t q.Temperature) {
	if !(t > from) {
		return
	}
	a, b := Water(from), Water(q.Temperature(min(float64(t), float64(q.Celsius(waterRange.high)))))
	p.Density *= b.Density / a.Density
	p.Viscosity *= b.Viscosity / a.Viscosity
}

// name returns "<what> at 10 °C".
func name(what string, t q.Temperature) string { return what + " at " + q.Text(t) }

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
