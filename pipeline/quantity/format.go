package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// System chooses the units in which amounts are shown.
type System uint8

// The unit systems.
const (
	Metric System = iota
	Inches        // inch lengths, US gallons per minute, psi, °F
)

// shown holds each kind's unit in the two systems.
var shown = [...][2]string{
	KindLength:      {"mm", "in"},
	KindHead:        {"m", "ft"},
	KindVolume:      {"L", "US gal"},
	KindFlow:        {"L/min", "US gal/min"},
	KindVelocity:    {"m/s", "ft/s"},
	KindPressure:    {"kPa", "psi"},
	KindTemperature: {"°C", "°F"},
	KindAngle:       {"°", "°"},
	KindSlope:       {"", ""},
	KindDensity:     {"kg/m³", "kg/m³"},
	KindViscosity:   {"mPa·s", "mPa·s"},
	KindMass:        {"kg", "lb"},
	KindDuration:    {"min", "min"},
	KindPower:       {"kW", "hp"},
	KindFraction:    {"%", "%"},
	KindNumber:      {"", ""},
	KindStrength:    {"°P", "°P"},
	KindConsistency: {"Pa·sⁿ", "Pa·sⁿ"},
	KindRotation:    {"rpm", "rpm"},
	KindForce:       {"N", "lbf"},
}

// Unit returns the symbol in which kind k is shown in system s: "mm", "m",
// "L/min", "m/s", "kPa", "°C", "°", "" for a slope shown as 1:n.
func (k Kind) Unit(s System) string { return shown[k][s&1] }

// In returns the number that a shows in system s's unit for its kind. A slope
// and a pure number, which have no unit, come back as they are.
func (a Amount) In(s System) float64 { return a.in(a.Kind.Unit(s)) }

func (a Amount) in(symbol string) float64 {
	u, ok := a.Kind.bySymbol(symbol)
	if !ok {
		return a.SI
	}
	return u.fromSI(a.SI)
}

// SystemOf returns the system called name, as a user chooses it: "mm", or
// "in" for Inches. Whatever else is Metric.
func SystemOf(name string) System {
	if name == "in" {
		return Inches
	}
	return Metric
}

// String returns what SystemOf reads.
func (s System) String() string { return [...]string{"mm", "in"}[s&1] }

// Typed returns the system of the units that a quantity was typed in.
func Typed(text string) System {
	text = strings.ToLower(strings.TrimSpace(text))
	for _, unit := range [...]string{"in", "inch", "inches", `"`, "″", "ft", "feet", "foot", "'", "′", "gal", "gal/min", "gpm", "ft/s", "psi", "f", "lb", "lbs", "lbf", "hp"} {
		before, ok := strings.CutSuffix(text, unit)
		last, _ := utf8.DecodeLastRuneInString(before)
		if ok && !unicode.IsLetter(last) || ok && unit == "gal" { // US gal, imp gal
			return Inches
		}
	}
	return Metric
}

// system is what Show chose.
var system = Metric

// Show chooses the system that Text and String write in, for all that is
// worked out from then on: one program tells one person. It changes words
// only, never a value. Nothing may be at work while it is called.
func Show(s System) {
	if system != s {
		system = s
	}
}

// Shown returns what Show chose, Metric until then.
func Shown() System { return system }

// Text returns q with its unit, rounded for reading, in the system that Show chose.
func Text[Q Quantity](q Q) string { return Of(q).Text(system) }

// String returns a as Text does in the system that Show chose.
func (a Amount) String() string { return a.Text(system) }

// Fine returns a as String does, but with five digits where that keeps three:
// as a number that goes into a working which somebody checks by hand.
func (a Amount) Fine() string {
	switch a.Kind {
	case KindPressure, KindNumber:
		symbol := a.Kind.Unit(system)
		if n := a.in(symbol); math.Abs(n) >= 0.09995 && math.Abs(n) < 9995 {
			return strings.TrimSuffix(significant(n, 5)+" "+symbol, " ")
		}
	}
	return a.String()
}

// Text returns a with its unit, rounded as a person would read it: "240 mm",
// "1.23 m/s", "38.5 L/min", "1:100", "12 °C". What it returns can be typed
// back in. A number that is not one, which no room should make, is "not a number".
func (a Amount) Text(s System) string {
	if math.IsNaN(a.SI) || math.IsInf(a.SI, 0) {
		return "not a number"
	}
	symbol := a.Kind.Unit(s)
	n := a.in(symbol)
	switch a.Kind {
	case KindLength:
		return lengthText(a, n, s)
	case KindHead:
		if s == Inches {
			return fixed(n, 1) + " ft"
		}
		return fixed(n, 2) + " m"
	case KindVolume:
		if s == Metric && math.Abs(n) < 0.9995 {
			return significant(n*1000, 3) + " mL"
		}
	case KindVelocity:
		return fixed(n, 2) + " " + symbol
	case KindTemperature, KindStrength:
		return trimmed(n, 1) + " " + symbol
	case KindAngle:
		return trimmed(n, 1) + symbol
	case KindSlope:
		return slopeText(a.SI)
	case KindDensity:
		return significant(n, 4) + " " + symbol
	case KindRotation:
		if math.Abs(n) >= 100 {
			return fixed(n, 0) + " " + symbol
		}
	case KindDuration:
		return durationText(a.SI)
	case KindPressure:
		if s == Metric && math.Abs(n) < 0.09995 { // a yield stress
			return significant(a.SI, 3) + " Pa"
		}
		if s == Metric && math.Abs(n) >= 9995 { // in steel
			return significant(n/1000, 3) + " MPa"
		}
	case KindForce:
		if s == Metric && math.Abs(n) >= 999.5 {
			return significant(n/1000, 3) + " kN"
		}
	case KindPower:
		if s == Metric && math.Abs(n) < 0.9995 {
			return significant(n*1000, 3) + " W"
		}
	}
	if symbol == "" {
		return significant(n, 3)
	}
	return significant(n, 3) + " " + symbol
}

// lengthText gives whole millimetres from 100 mm on, tenths below, metres
// from 20 m on; inches as a fraction where it is one within 0.01 mm, else
// decimals, so that a wall of 1.6 mm does not pass for 1/16 in.
func lengthText(a Amount, n float64, s System) string {
	far := math.Abs(a.SI) >= 19.9995 // what would round to 20 m
	if s == Inches {
		switch {
		case far:
			return trimmed(n/12, 1) + " ft"
		case math.Abs(n-math.Round(n*16)/16) <= 0.0003:
			return sixteenths(n) + " in"
		case math.Abs(n) < 1:
			return trimmed(n, 3) + " in"
		}
		return trimmed(n, 2) + " in"
	}
	switch {
	case far:
		return trimmed(a.SI, 2) + " m"
	case math.Abs(n) >= 100:
		return fixed(n, 0) + " mm"
	case math.Abs(n) < 0.945 && math.Abs(n) >= 0.000499: // a finish, a weld's misfit; the bounds lie under what would round over them
		return significant(n, 2) + " mm"
	}
	return trimmed(n, 1) + " mm"
}

// sixteenths writes n as a whole number and a fraction in lowest terms.
func sixteenths(n float64) string {
	k := int64(math.Round(math.Abs(n) * 16))
	if k == 0 {
		return "0"
	}
	b := make([]byte, 0, 16)
	if n < 0 {
		b = append(b, '-')
	}
	whole, num, den := k/16, k%16, int64(16)
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	if whole != 0 || num == 0 {
		b = strconv.AppendInt(b, whole, 10)
		if num != 0 {
			b = append(b, ' ')
		}
	}
	if num != 0 {
		b = strconv.AppendInt(b, num, 10)
		b = append(b, '/')
		b = strconv.AppendInt(b, den, 10)
	}
	return string(b)
}

// slopeText writes a fall as 1:n. Less than a hundredth of a millimetre in a
// metre is level: nobody can lay or measure it.
func slopeText(s float64) string {
	if math.Abs(s) < 1e-5 {
		return "level"
	}
	n := math.Abs(1 / s)
	t := significant(n, 3)
	if n >= 9.995 {
		t = fixed(n, 0)
	}
	if s < 0 {
		return "rising 1:" + t
	}
	return "1:" + t
}

// durationText writes a time in the units that somebody waiting would use.
func durationText(s float64) string {
	sign := ""
	if s < 0 {
		sign, s = "-", -s
	}
	switch {
	case s < 0.945 && s >= 0.999e-9: // the blow of a valve
		return sign + significant(s, 2) + " s"
	case s < 9.95:
		if t := trimmed(s, 1); t != "0" {
			return sign + t + " s"
		}
		return "0 s"
	case s < 99.5:
		return sign + fixed(s, 0) + " s"
	case s < 599.5:
		whole := int64(math.Round(s))
		return sign + strconv.FormatInt(whole/60, 10) + " min " + two(whole%60) + " s"
	case s < 3570:
		return sign + fixed(s/60, 0) + " min"
	case s > MaxSI:
		return sign + significant(s/3600, 3) + " h"
	}
	whole := int64(math.Round(s / 60))
	return sign + strconv.FormatInt(whole/60, 10) + " h " + two(whole%60) + " min"
}

func two(n int64) string {
	if n < 10 {
		return "0" + strconv.FormatInt(n, 10)
	}
	return strconv.FormatInt(n, 10)
}

// fixed writes n with d decimals, never "-0".
func fixed(n float64, d int) string {
	t := strconv.FormatFloat(n, 'f', d, 64)
	if t[0] == '-' && strings.Trim(t, "-0.") == "" {
		t = t[1:]
	}
	return t
}

// trimmed is fixed without closing zeros.
func trimmed(n float64, d int) string {
	t := fixed(n, d)
	if strings.IndexByte(t, '.') >= 0 {
		t = strings.TrimRight(t, "0")
		t = strings.TrimSuffix(t, ".")
	}
	return t
}

// significant writes n to d significant figures, without an exponent and
// without closing zeros after the point. Less than a billionth of the unit
// shown is what rounding left over, and is written 0.
func significant(n float64, d int) string {
	if math.Abs(n) < 1e-9 {
		return "0"
	}
	e := strconv.FormatFloat(n, 'e', d-1, 64)
	rounded, err := strconv.ParseFloat(e, 64)
	if err != nil { // rounded up past the largest float
		return strconv.FormatFloat(n, 'g', d, 64)
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
