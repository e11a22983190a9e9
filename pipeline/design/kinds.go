package design

// Kind is a kind of piece: what it is called and which fields of a Piece
// count for it, in the order a form shows them. Name, Size, In, Seal and
// Prepared count for every kind, Out for every kind but a cap; Drops, a list,
// with DropsIn for every kind that Drops says.
type Kind struct {
	Slug   string
	Name   string
	Fields []string
}

var everyPiece = []string{"name", "size", "in", "out", "seal", "prepared"}

// kindList is the one list of kinds: forms and Validate read it.
var kindList = []Kind{
	{Straight, "straight", counting("length", "fit", "fall")},
	{Bend, "bend", counting("shape", "angle", "turn")},
	{Reducer, "reducer or enlarger", counting("to", "shape", "turn", "length")},
	{Tee, "tee", counting("shape", "third", "turn", "share")},
	{Butterfly, "butterfly valve", counting("length", "open", "kv")},
	{Ball, "ball valve", counting("length", "open", "kv")},
	{Hose, "hose", counting("length", "fit", "lining", "suction", "roughness")},
	{Device, "plate cooler, filter or other device", counting("length", "kv")},
	{Seat, "seat valve", counting("turn", "kv")},
	{Diaphragm, "diaphragm valve", counting("length", "kv")},
	{NonReturn, "non-return valve", counting("length", "kv")},
	{SightGlass, "sight glass", counting("length", "kv")},
	{Pocket, "thermometer pocket", counting("turn")},
	{Cock, "sample cock", counting("turn")},
	{Cross, "cross", counting("third", "fourth", "turn")},
	{Cap, "cap, blank end", []string{"name", "size", "in", "seal", "prepared"}},
}

func counting(own ...string) []string {
	return append(append([]string{}, everyPiece...), own...)
}

// Kinds returns every kind of piece, the usual first. The slice is not to be changed.
func Kinds() []Kind { return kindList }

// FindKind returns the kind named slug.
func FindKind(slug string) (Kind, bool) {
	for _, k := range kindList {
		if k.Slug == slug {
			return k, true
		}
	}
	return Kind{}, false
}

// Drops reports whether the pressure that a kind of piece drops can be typed
// in: anything but plain tube and hose, which have a length to measure it over.
func Drops(kind string) bool { return kind != Straight && kind != Hose && kind != Cap }

// IsBody reports whether a kind is a body that stands in the line between two
// ends of its own, as a valve does.
func IsBody(kind string) bool {
	switch kind {
	case Butterfly, Ball, Seat, Diaphragm, NonReturn, SightGlass:
		return true
	}
	return false
}
