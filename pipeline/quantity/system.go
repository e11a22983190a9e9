package quantity

import "strings"

// System chooses the units in which amounts are shown.
type System uint8

// The unit systems.
const (
	Metric  System = iota
	Inches         // inch lengths, US gallons per minute, psi, °F
	AsTyped        // of each kind what most of what was typed of it is in: see Speak
)

// shown holds each kind's unit in Metric and in Inches.
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

// spoken holds each kind's unit in AsTyped, as Speak found it.
var spoken [len(shown)]string

// Unit returns the symbol in which kind k is shown in system s: "mm", "m",
// "L/min", "m/s", "kPa", "°C", "°", "" for a slope shown as 1:n.
func (k Kind) Unit(s System) string {
	if s == AsTyped && spoken[k] != "" {
		return spoken[k]
	}
	return shown[k][s&1]
}

// names are the systems as a user chooses them.
var names = [...]string{"mm", "in", "typed"}

// SystemOf returns the system called name: "mm", "in" for Inches, "typed" for
// AsTyped. Whatever else is Metric.
func SystemOf(name string) System {
	for s := range names {
		if names[s] == name {
			return System(s)
		}
	}
	return Metric
}

// String returns what SystemOf reads.
func (s System) String() string { return names[s] }

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

// Typed returns the system of the unit that text, of kind k, was typed in.
func Typed(k Kind, text string) System {
	if u, _ := unitOf(k, text); u.inch {
		return Inches
	}
	return Metric
}

// Foreign reports whether text, of kind k, was typed in another system than
// the one that k is shown in.
func (k Kind) Foreign(text string) bool { return Typed(k, text) != Typed(k, "") }

// Speak chooses the units of AsTyped where Show has chosen that: each kind goes
// with the system in which most of what was typed of it is. Where that is as
// much in either, or nothing, it goes with the lengths, and these with Metric.
// In its system it is shown in the unit that most was typed in, of those that
// can be shown; a gallon that only volumes or only flows tell holds for both.
// Typed tells each quantity as somebody typed it. Nothing may be at work meanwhile.
func Speak(typed func(hear func(k Kind, text string))) {
	if system != AsTyped {
		return
	}
	const others = 8                     // past the units of every kind
	var said [len(shown)][others + 2]int // by kind and own unit; the others by system
	var lead [len(shown)]int             // of Inches over Metric
	typed(func(k Kind, text string) {
		u, is := unitOf(k, text)
		if !is && k != KindSlope { // 1:80 has none
			return
		}
		at, by := others, -1
		if u.inch {
			at, by = others+1, 1
		}
		for i := range kinds[k].units {
			if is && u.own && u == &kinds[k].units[i] && k != KindHead { // a head is in m or ft
				at = i
			}
		}
		said[k][at]++
		lead[k] += by
	})
	lengths := Metric
	for k := range shown {
		s := lengths
		if lead[k] > 0 {
			s = Inches
		} else if lead[k] < 0 {
			s = Metric
		}
		if Kind(k) == KindLength { // the first
			lengths = s
		}
		spoken[k] = shown[k][s]
		most := said[k][others+int(s)]
		for i := range kinds[k].units {
			if u := &kinds[k].units[i]; said[k][i] > most && u.inch == (s == Inches) {
				spoken[k], most = u.symbol, said[k][i]
			}
		}
	}
	for _, x := range [...][2]Kind{{KindVolume, KindFlow}, {KindFlow, KindVolume}} {
		if us, ok := strings.CutPrefix(spoken[x[1]], "US"); ok && lead[x[1]] == 0 && strings.HasPrefix(spoken[x[0]], "imp") {
			spoken[x[1]] = "imp" + us
		}
	}
}
