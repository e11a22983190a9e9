package design

import "strings"

// The most that a design may hold. They are far above any plant and keep
// everything after them fast.
const (
	MaxPieces     = 200 // in each of Under, Run and Delivery.Pieces
	MaxCurve      = 50  // points of a pump, or of a piece's drops
	MaxMeasured   = 500 // measured dimensions
	MaxCleaning   = 20  // cleaning agents
	MaxMade       = 100 // parts made up by the user
	MaxMadePieces = 20  // pieces of one of them
	MaxKeepOuts   = 50  // boxes to go round
	MaxAssumed    = 100 // assumptions
	MaxTitle      = 200 // characters
	MaxNote       = 4000
	MaxWord       = 80 // characters in any other field of words

	MaxFile = 1 << 20 // bytes of a design file
	MaxLink = 16000   // characters of a link's fragment

	maxInflated = 256 << 10 // bytes of JSON in a link
	maxDepth    = 16        // levels of nesting in JSON
	maxFaults   = 100       // faults reported before reading stops
	maxPath     = 100       // bytes of a path in an edit
)

// maxItems returns how many items the list at path may hold.
func maxItems(path string) int {
	switch path {
	case "pump.curve", "pump.slip":
		return MaxCurve
	case "measured", "items":
		return MaxMeasured
	case "cleaning":
		return MaxCleaning
	case "made":
		return MaxMade
	case "keepOuts":
		return MaxKeepOuts
	case "assumed":
		return MaxAssumed
	}
	switch {
	case strings.HasSuffix(path, ".drops"):
		return MaxCurve
	case strings.HasPrefix(path, "made."):
		return MaxMadePieces
	}
	return MaxPieces
}

// maxRunes returns how many characters the words at path may have.
func maxRunes(path string) int {
	switch path {
	case "title":
		return MaxTitle
	case "note":
		return MaxNote
	}
	return MaxWord
}
