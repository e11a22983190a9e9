// Package catalog knows what can be bought: tube series, unions, seals,
// bends, tees, reducers, valves and hoses. Its tables are CSV files, each row
// with its source and a mark that says how far it is to be trusted.
//
// A length that no standard publishes, or that nobody here has read in one,
// is no value: it is a working assumption with a width of doubt and a place
// to put the caliper, until the user measures the part in hand.
//
// Names are our own and read as words: "bs-4825/2in" is a tube,
// "ring-joint/2in" a joint, "ring-joint/2in/liner" a part to order,
// "ring-joint/2in/liner/length" a dimension of it.
package catalog

import (
	"math"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// Trust says how far a number is to be trusted, the surest first.
type Trust string

// The marks.
const (
	Measured Trust = "measured" // by this user, on the part in hand
	Standard Trust = "standard" // printed in a standard or a reproduction of its table
	Memory   Trust = "memory"   // a standard's value from memory, not re-read: check before relying on it
	Derived  Trust = "derived"  // calculated from other values; the source holds the formula
	Custom   Trust = "custom"   // trade custom, not from a standard
	Unknown  Trust = "unknown"  // a working assumption of ours: measure it
)

// Dimension is one length of a part.
type Dimension struct {
	_       [0]func() // no ==: the page would load it
	Slug    string
	Length  q.Length
	Either  q.Length // half-width of doubt; 0 when only tolerances remain
	Trust   Trust
	Source  string
	Caliper string // for an unknown: where to put the caliper, a sentence
}

// Series is a range of tube sizes.
type Series struct {
	Slug     string // "bs-4825"
	Name     string // "BS 4825-1"
	Standard string // with edition and row
	Note     string // what to know before mixing it with another, a sentence

	// NotForProduct says what a tube that only looks like hygienic tube is, and
	// why no product should touch it; "" for hygienic tube.
	NotForProduct string
}

// Tube is one size of one series.
type Tube struct {
	Slug   string // "bs-4825/2in"
	Series string // "bs-4825"
	Size   string // "2 in"
	Name   string // "2 in (BS 4825-1)"
	OD     q.Length
	Wall   q.Length
	Trust  Trust
	Source string
}

// Bore returns OD less two walls.
func (t Tube) Bore() q.Length { return t.OD - 2*t.Wall }

// SteelDensity is the density of austenitic stainless steel 1.4301 at 20 °C,
// EN 10088-1, annex of physical properties (from memory). 1.4404 is 8000 kg/m³
// there: 1 % more.
const SteelDensity q.Density = 7900

// MassPerMetre returns the mass of one metre of t, kg, at SteelDensity:
// pi (OD - wall) wall x density.
func (t Tube) MassPerMetre() q.Mass {
	return q.Mass(math.Pi * float64(t.OD-t.Wall) * float64(t.Wall) * float64(SteelDensity))
}

// Part is something to order.
type Part struct {
	Slug string
	Name string // in plain words, singular: "ring joint liner, 2 in, to weld"
}

// Family is a kind of union.
type Family struct {
	Slug     string   // "ring-joint", "dairy-union", "clamp"
	Name     string   // "ring joint"
	Standard string   // "BS 4825-5"
	Halves   []string // "male", "liner"; one name when both halves are alike: "ferrule"
	Closers  []string // parts besides the halves and the seal, one each per joint: "nut"; a set of bolts is one
	Unsealed bool     // no seal is bought for it: a hose on its tail, a pipe thread
	Flush    string   // "yes", "no", "if the bores match": whether the seal lies level with the bore
	Clean    string   // "in place", "strip", "in place if the bores match"
	Trust    Trust
	Source   string

	Lowest, Highest q.Temperature // that the union itself is made for; 0 where no source gives one
	LimitTrust      Trust
	LimitSource     string
	Tighten         string // with what it is done up, and how far
	NotForProduct   string // why no product should pass through it; "" where it may
}

// Partner returns the half of f that half closes on: itself where both are alike.
func (f Family) Partner(half string) string {
	for _, name := range f.Halves {
		if name != half {
			return name
		}
	}
	return half
}

// Joint is one size of a family.
type Joint struct {
	Slug          string // "ring-joint/2in"
	Family        string
	Name          string      // "2 in ring joint"
	Tubes         []string    // tube slugs it is made to be welded to, the usual first
	Size          string      // "2 in"
	Face          string      // what closes on what, whatever is sold for it: "flange 50.5", "thread Rd 78 x 1/6". Joints of one face close together, right or wrong
	Thread        string      // "Rd 78 x 1/6", "G 2"; "" for none, or where no source gives it. Unions of two families may share one: the nut goes on and nothing seals
	SealSize      string      // "64 x 54 x 5 mm" (OD, ID, thickness), "O-ring 52 x 5 mm" (ID, section); "" where no source gives it
	Nut           q.Length    // OD of a slotted nut, for its hook spanner; 0 where no source gives it
	Bore          q.Length    // of the seal and the half as made for Tubes[0]
	Lengths       []Dimension // one for each of Family.Halves, from its weld end to its mating face
	Gap           Dimension   // left between the mating faces when closed on the seal
	Pressure      q.Pressure  // highest working gauge pressure, 0 where no source gives one
	PressureTrust Trust
	PressureFrom  string // source of Pressure
	Trust         Trust  // of Face, Thread, SealSize, Nut and Tubes
	Source        string
}

// Length returns the length of one half of j, named as in Family.Halves; the
// zero Dimension when j has no such half.
func (j Joint) Length(half string) Dimension {
	f, _ := FindFamily(j.Family)
	for i, name := range f.Halves {
		if name == half && i < len(j.Lengths) {
			return j.Lengths[i]
		}
	}
	return Dimension{}
}

// Half is half of a joint, or a plain tube end, on a tube: what a piece ends in.
type Half struct {
	Tube  Tube
	Joint Joint  // zero for a plain end
	Name  string // one of Family.Halves, "" for a plain end
}

// How far a part stands out where no table tells, on the safe side of what is
// on the market: common practice, no source. Up to DN 125 the nuts of DIN 11851
// stand out by less than Proud.
const (
	Proud      = 25 * q.Millimetre // a nut, a flange with its bolts or the body of a valve, beyond the outside of its tube
	proudClamp = 10 * q.Millimetre // a clamp, its wing nut turned up, beyond the rims of the flanges
)

// Outside returns how far from its axis what closes on h reaches: the clamp
// round its flange, its nut, the tube itself of a plain end.
func (h *Half) Outside() q.Length {
	tube := h.Tube.OD / 2
	if h.Plain() {
		return tube
	}
	if rim, ok := strings.CutPrefix(h.Joint.Face, "flange "); ok {
		mm, _ := strconv.ParseFloat(rim, 64)
		return max(tube, q.Length(mm/2)*q.Millimetre+proudClamp)
	}
	if h.Joint.Nut > 0 {
		return max(tube, h.Joint.Nut/2)
	}
	return tube + Proud
}

// Plain reports whether h is a tube end to weld, or nothing.
func (h *Half) Plain() bool { return h == nil || h.Name == "" }

// End names h as an end is named: "ring-joint/liner", or "weld".
func (h *Half) End() string {
	if h.Plain() {
		return weld
	}
	return h.Joint.Family + "/" + h.Name
}

// Bend is a bend of one tube.
type Bend struct {
	Part
	Radius      q.Length  // of the centreline; a working assumption wherever CentreToEnd is Unknown
	CentreToEnd Dimension // from where the axes cross to the weld end
}

// TeeFitting is a tee of one tube, branch as large as the run, or what stands
// on a tube like one: a cross, a thermometer pocket, a sample cock.
type TeeFitting struct {
	Part
	CentreToEnd Dimension // run, from the branch axis
	BranchToEnd Dimension // branch, from the run axis
}

// ReducerFitting joins two tubes.
type ReducerFitting struct {
	Part
	Length Dimension // end to end
}

// BodyFitting is a valve or another body that stands in a line, over its weld ends.
type BodyFitting struct {
	Part
	Length Dimension
}

// Rating is how a seal material stands a medium.
type Rating string

// The ratings.
const (
	Good    Rating = "good"
	Limited Rating = "limited or grade-dependent"
	Avoid   Rating = "avoid"
)

// Material is what a seal is made of.
type Material struct {
	Slug     string // "epdm"
	Name     string // "EPDM"
	Lowest   q.Temperature
	Highest  q.Temperature // continuous, dry
	HotWater q.Temperature // highest in hot water; equal to Highest where no source tells them apart
	Trust    Trust
	Source   string
}
