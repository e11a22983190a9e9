package quantity

import (
	"math"
	"strconv"
	"strings"
)

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

// Text returns q with its unit, rounded for reading, in the system that Show chose.
func Text[Q Quantity](q Q) string { return Of(q).Text(system) }

// String returns a as Text does in the system that Show chose.
func (a Amount) String() string { return a.Text(system) }

// Fine returns a as String does, but with five digits where that keeps three,
// and a bore as a caliper reads it: as a number that goes into a working which
// somebody checks by hand.
func (a Amount) Fine() string {
	switch a.Kind {
	case KindLength:
		if size := math.Abs(a.SI); InInches() && size < 0.09995 && size >= 24.5e-6 {
			return Caliper(Length(a.SI))
		}
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
		return lengthText(a, n, symbol)
	case KindHead:
		if symbol == "ft" && math.Abs(n) >= 0.995 {
			return fixed(n, 1) + " ft"
		}
		if symbol == "ft" { // a loss
			return fixed(n, 2) + " ft"
		}
		return fixed(n, 2) + " m"
	case KindVolume:
		switch {
		case symbol == "US gal" && math.Abs(n) < 0.24975: // less than a quart
			return significant(n*128, 3) + " US fl oz"
		case strings.HasSuffix(symbol, "gal"):
		case math.Abs(a.SI) < 0.9995e-3:
			return significant(a.SI*1e6, 3) + " mL"
		case math.Abs(n) < 0.9995: // of a hectolitre, of a cubic metre
			return significant(a.SI*1000, 3) + " L"
		}
	case KindVelocity:
		return fixed(n, 2) + " " + symbol
	case KindTemperature, KindStrength:
		return trimmed(n, 1) + " " + symbol
	case KindAngle:
		return trimmed(n, 1) + symbol
	case KindSlope:
		return slopeText(a.SI, n, symbol)
	case KindDensity:
		return significant(n, 4) + " " + symbol
	case KindRotation:
		if math.Abs(n) >= 100 {
			return fixed(n, 0) + " " + symbol
		}
	case KindDuration:
		return durationText(a.SI)
	case KindPressure:
		switch {
		case symbol == "psi":
		case math.Abs(a.SI) < 99.95: // a yield stress
			return significant(a.SI, 3) + " Pa"
		case symbol == "bar" && math.Abs(n) < 0.09995:
			return significant(n*1000, 3) + " mbar"
		case math.Abs(a.SI) >= 9995e3: // in steel
			return significant(a.SI/1e6, 3) + " MPa"
		}
	case KindForce:
		if symbol == "N" && math.Abs(n) >= 999.5 {
			return significant(n/1000, 3) + " kN"
		}
	case KindPower:
		if symbol == "kW" && math.Abs(n) < 0.9995 {
			return significant(n*1000, 3) + " W"
		}
	}
	if symbol == "" {
		return significant(n, 3)
	}
	return significant(n, 3) + " " + symbol
}

// lengthText gives whole millimetres from 100 mm on, tenths below, metres from
// 20 m on; centimetres from 10 cm on, under which a workshop says millimetres.
// Of inches it gives the nearest that is on a tape from 100 mm on, which is as
// near as the whole millimetre is; below it a fraction where it is one within
// 0.01 mm, else decimals, so that a wall of 1.6 mm does not pass for 1/16 in.
func lengthText(a Amount, n float64, symbol string) string {
	size := math.Abs(a.SI)
	far := size >= 19.9995 // what would round to 20 m
	if symbol == "in" {
		switch {
		case far:
			return trimmed(n/12, 1) + " ft"
		case size >= 0.499e-6 && size < 24.5e-6: // a finish; what is less is a rounding
			return significant(n*1e6, 3) + " µin"
		case size >= 0.09995, math.Abs(n-onTape(n)) <= 0.0003:
			return fraction(n) + " in"
		case math.Abs(n) < 1:
			return trimmed(n, 3) + " in"
		}
		return trimmed(n, 2) + " in"
	}
	n = a.SI * 1000
	switch {
	case far:
		return trimmed(a.SI, 2) + " m"
	case size >= 0.09995 && symbol == "cm":
		return trimmed(n/10, 1) + " cm"
	case math.Abs(n) >= 100:
		return fixed(n, 0) + " mm"
	case math.Abs(n) < 0.945 && math.Abs(n) >= 0.000499: // a finish, a weld's misfit; the bounds lie under what would round over them
		return significant(n, 2) + " mm"
	}
	return trimmed(n, 1) + " mm"
}

// Tape returns l as Text does, but of inches the nearest that is on a tape,
// however short: a length to saw.
func Tape(l Length) string {
	if InInches() {
		l = Length(onTape(float64(l/Inch))) * Inch
	}
	return Text(l)
}

// Caliper returns l as a caliper reads it: to a hundredth of a millimetre, or a
// thousandth of an inch.
func Caliper(l Length) string {
	if InInches() {
		return trimmed(float64(l/Inch), 3) + " in"
	}
	return trimmed(l.Millimetres(), 2) + " mm"
}

// Run returns what something is told for each of, and its name: a metre, or a
// foot where lengths are shown in inches.
func Run() (Length, string) {
	if InInches() {
		return 12 * Inch, "foot"
	}
	return Metre, "metre"
}

// InInches reports whether lengths are shown in inches.
func InInches() bool { return KindLength.Unit(system) == "in" }

// onTape returns the nearest to n inches that a tape or a rule has: a 32nd.
func onTape(n float64) float64 { return math.Round(n*32) / 32 }

// fraction writes n as a whole number and a fraction of 32nds in lowest terms.
func fraction(n float64) string {
	k := int64(math.Abs(onTape(n)) * 32)
	if k == 0 {
		return "0"
	}
	b := make([]byte, 0, 16)
	if n < 0 {
		b = append(b, '-')
	}
	whole, num, den := k/32, k%32, int64(32)
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

// slopeText writes a fall as 1:n, or as n of a unit where there is one. Less
// than a hundredth of a millimetre in a metre is level: nobody can lay or measure it.
func slopeText(s, n float64, symbol string) string {
	if math.Abs(s) < 1e-5 {
		return "level"
	}
	run := math.Abs(1 / s)
	t := "1:" + significant(run, 3)
	switch {
	case symbol != "":
		t = significant(math.Abs(n), 3) + " " + symbol
	case run >= 9.995:
		t = "1:" + fixed(run, 0)
	}
	if s < 0 {
		return "rising " + t
	}
	return t
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
