package quantity

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
	KindDensity:     {"kg/m³", "lb/US gal"},
	KindViscosity:   {"mPa·s", "cP"},
	KindMass:        {"kg", "lb"},
	KindDuration:    {"min", "min"},
	KindPower:       {"kW", "hp"},
	KindFraction:    {"%", "%"},
	KindNumber:      {"", ""},
	KindStrength:    {"°P", "°P"},
	KindConsistency: {"Pa·sⁿ", "Pa·sⁿ"},
	KindRotation:    {"rpm", "rpm"},
	KindForce:       {"N", "lbf"},
	KindMoment:      {"N·m", "lbf·ft"},
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

// Spoken tells in which units everything is shown: another text, other units.
func Spoken() (all string) {
	for k := range shown {
		all += Kind(k).Unit(system) + " "
	}
	return all
}

// Typed returns the system of the unit that text, of kind k, was typed in.
func Typed(k Kind, text string) System {
	u, _ := unitOf(k, text)
	return u.system
}

// Foreign reports whether text, of kind k, was typed in another system than
// the one that k is shown in.
func (k Kind) Foreign(text string) bool { return Typed(k, text) != Typed(k, "") }

// Speak chooses the units of AsTyped where Show has chosen that: each kind goes
// with the system in which most of what was typed of it is. Where that is as
// much in either, or nothing, it goes with the lengths, and these with Metric.
// A unit in which more than half of that was typed is shown itself, where it
// can be; a gallon that only volumes or only flows tell holds for both. Typed
// tells each quantity as somebody typed it. Nothing may be at work meanwhile.
func Speak(typed func(hear func(k Kind, text string))) {
	if system != AsTyped {
		return
	}
	const all = 8                     // past the units of every kind: all of Metric, and behind it of Inches
	var said [len(shown)][all + 2]int // by kind and unit
	typed(func(k Kind, text string) {
		u, is := unitOf(k, text)
		if !is && k != KindSlope { // 1:80 has none
			return
		}
		n := &said[k]
		n[all+u.system]++
		for i := range kinds[k].units {
			if u == &kinds[k].units[i] && is && k != KindHead { // a head is in m or ft
				n[i]++
			}
		}
	})
	lengths := Metric
	for k := range said {
		n, s := &said[k], lengths
		if n[all+1-s] > n[all+s] {
			s = 1 - s
		}
		if k == 0 { // KindLength
			lengths = s
		}
		spoken[k] = shown[k][s]
		for i := range kinds[k].units {
			if u := &kinds[k].units[i]; u.own && u.system == s && 2*n[i] > n[all+s] {
				spoken[k] = u.symbol
			}
		}
	}
	volume, flow := &spoken[KindVolume], &spoken[KindFlow]
	switch {
	case *volume == "imp gal" && *flow == "US gal/min" && said[KindFlow][all+Inches] == 0:
		*flow = "imp gal/min"
	case *flow == "imp gal/min" && *volume == "US gal" && said[KindVolume][all+Inches] == 0:
		*volume = "imp gal"
	}
}
