package route

import (
	"math"
	"strconv"
)

// MarshalJSON writes {"x": 0.7585, "y": 0, "z": 1.2}, in metres to the
// micrometre: floating point differs in its last digits between processors,
// and a report must be the same bytes wherever it was made.
func (v Vec) MarshalJSON() ([]byte, error) {
	b := make([]byte, 0, 48)
	for i, x := range [...]float64{v.X, v.Y, v.Z} {
		b = append(b, [...]string{`{"x":`, `,"y":`, `,"z":`}[i]...)
		b = strconv.AppendFloat(b, math.Round(x*1e6)/1e6+0, 'f', -1, 64) // + 0 makes -0 plain
	}
	return append(b, '}'), nil
}
