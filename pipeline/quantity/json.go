package quantity

import "strconv"

// jsonDigits is how many significant digits an amount is written with.
// Floating point differs in its last digits between processors, and a report
// must be the same bytes wherever it was made.
const jsonDigits = 9

// MarshalJSON writes {"value": 1.25, "unit": "m/s"} in the metric unit of the
// amount's kind. A slope is the fall over the run, a strength a mass
// fraction, both without a unit.
func (a Amount) MarshalJSON() ([]byte, error) {
	value, unit := a.In(Metric), a.Kind.Unit(Metric)
	if a.Kind == KindSlope || a.Kind == KindFraction || a.Kind == KindStrength {
		value, unit = a.SI, ""
	}
	b := append(make([]byte, 0, 48), `{"value":`...)
	b = strconv.AppendFloat(b, round(value, jsonDigits), 'g', -1, 64)
	if unit != "" {
		b = append(b, `,"unit":`...)
		b = strconv.AppendQuote(b, unit)
	}
	return append(b, '}'), nil
}

// round returns x to n significant digits, and plain zero for either zero.
func round(x float64, n int) float64 {
	if x == 0 {
		return 0
	}
	r, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', n-1, 64), 64)
	return r
}

// Every quantity is written as its Amount, so that a report names its units.

func (v Length) MarshalJSON() ([]byte, error)      { return Of(v).MarshalJSON() }
func (v Head) MarshalJSON() ([]byte, error)        { return Of(v).MarshalJSON() }
func (v Volume) MarshalJSON() ([]byte, error)      { return Of(v).MarshalJSON() }
func (v Flow) MarshalJSON() ([]byte, error)        { return Of(v).MarshalJSON() }
func (v Velocity) MarshalJSON() ([]byte, error)    { return Of(v).MarshalJSON() }
func (v Pressure) MarshalJSON() ([]byte, error)    { return Of(v).MarshalJSON() }
func (v Temperature) MarshalJSON() ([]byte, error) { return Of(v).MarshalJSON() }
func (v Angle) MarshalJSON() ([]byte, error)       { return Of(v).MarshalJSON() }
func (v Slope) MarshalJSON() ([]byte, error)       { return Of(v).MarshalJSON() }
func (v Duration) MarshalJSON() ([]byte, error)    { return Of(v).MarshalJSON() }
func (v Mass) MarshalJSON() ([]byte, error)        { return Of(v).MarshalJSON() }
