package whatif

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// Value is one setting of an input.
type Value struct {
	Typed string  // as it goes into the field
	Says  string  // for people
	At    float64 // its number, in Unit; of a tube its outside diameter in mm
	Unit  string
	Named bool // it is one of a list and no number: At is its place there
	Now   bool // it is what the plant has
}

// steps is about how many values a number is tried at.
const steps = 24

// Values returns the settings that the input at path is tried at, rising, what
// it has now among them as it was typed; none for an input that takes any
// words, one that is empty and has no usual value, and a number that says
// nothing of how far it may go.
func Values(d design.Design, path string) []Value {
	filled := d.Filled()
	now, _ := filled.Get(path)
	switch member := path[strings.LastIndexByte(path, '.')+1:]; {
	case path == "stand.legs":
		return counts(now)
	case member == "size" || member == "to" || member == "inSize" || member == "outSize":
		return tubes(now)
	}
	a, ok := filled.Amount(path)
	if !ok {
		return chosen(d, path, now)
	}
	return numbers(a, now, path == "site.altitude")
}

// mostChoices is how long a list may be that is tried from end to end.
const mostChoices = 20

// chosen returns the choices of an input that is one of a short list, in the
// order of the list. Another kind of piece or pump is another plant, and what
// ends mate is for the verdicts to say.
func chosen(d design.Design, path, now string) (out []Value) {
	switch member := path[strings.LastIndexByte(path, '.')+1:]; {
	case member == "kind" && path != "liquid.kind", member == "in", member == "out", strings.HasSuffix(strings.ToLower(member), "end"):
		return nil
	}
	all := design.Choices(d, path)
	if len(all) > mostChoices {
		return nil
	}
	here := false
	for i, c := range all {
		here = here || c.Slug == now
		out = append(out, Value{Typed: c.Slug, Says: c.Name, At: float64(i), Named: true, Now: c.Slug == now})
	}
	if !here {
		return nil
	}
	return out
}

// tubes returns the tubes of the series that the one called slug is of.
func tubes(slug string) (out []Value) {
	of, ok := catalog.FindTube(slug)
	if !ok {
		return nil
	}
	for _, t := range catalog.Tubes() {
		if t.Series != of.Series {
			continue
		}
		out = inserted(out, Value{Typed: t.Slug, Says: t.Name, At: t.OD.Millimetres(), Unit: "mm outside", Now: t.Slug == slug})
	}
	return out
}

// span is how far a number may go that is nothing now, in its unit.
func span(k q.Kind, unit string) float64 {
	switch {
	case unit == "m":
		return 3000
	case unit == "ft":
		return 10000
	case unit == "in":
		return 20
	case k == q.KindLength:
		return 500
	case k == q.KindAngle:
		return 90
	case k == q.KindFraction:
		return 50
	case k == q.KindSlope:
		return 5
	case k == q.KindMass:
		return 200
	}
	return 0
}

// numbers returns round numbers about a, which was typed as now: a temperature
// from freezing to boiling, all else from nothing to twice as much.
func numbers(a q.Amount, now string, altitude bool) []Value {
	unit, at := unitOf(a, now)
	switch {
	case altitude && unit == "in":
		unit, at = "ft", at/12
	case altitude:
		unit, at = "m", a.SI
	}
	low, high := 0.0, 2*at
	switch {
	case a.Kind == q.KindTemperature && unit == "°F":
		low, high = 32, 212
	case a.Kind == q.KindTemperature:
		low, high = 0, 100
	case at < 0:
		low, high = 2*at, 0
	case at == 0 || math.Abs(at) < 1e-9:
		high = span(a.Kind, unit)
	}
	if !(high > low) {
		return nil
	}
	step := round((high - low) / steps)
	var out []Value
	for i := math.Ceil(low / step); i*step <= high+step/1e3; i++ {
		x := i * step
		if math.Abs(x-at) <= step/1e3 {
			continue // what it has now stands for it
		}
		text := strings.TrimSpace(strconv.FormatFloat(x, 'f', decimals(step), 64) + " " + unit)
		out = append(out, Value{Typed: text, Says: text, At: x, Unit: unit})
	}
	return inserted(out, Value{Typed: now, Says: a.Kind.Told(now), At: at, Unit: unit, Now: true})
}

// inserted puts v before the first of values, which rise, that is over it.
func inserted(values []Value, v Value) []Value {
	i := slices.IndexFunc(values, func(other Value) bool { return other.At > v.At })
	if i < 0 {
		i = len(values)
	}
	return slices.Insert(values, i, v)
}

// unitOf returns the unit that a is moved in, and its number in that: as it was
// typed, in inches or not, unless other units are shown; a fall in per cent.
func unitOf(a q.Amount, typed string) (string, float64) {
	if a.Kind == q.KindSlope {
		return "%", a.SI * 100
	}
	system := q.Typed(a.Kind, typed)
	if a.Kind.Foreign(typed) { // nobody chooses among numbers in other units than are shown
		system = q.Shown()
	}
	return a.Kind.Unit(system), a.In(system)
}

// round returns the nearest of 1, 2 and 5 times a power of ten over x.
func round(x float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range [...]float64{1, 2, 5} {
		if x <= m*p*(1+1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// decimals returns how many places a multiple of step needs.
func decimals(step float64) int { return max(0, -int(math.Floor(math.Log10(step)+1e-9))) }
