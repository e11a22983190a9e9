package vessel

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// VolumeAt returns the volume of liquid below level: the heel that a drain at
// that level leaves behind. A level under 0 (or not a number) counts as 0, one
// over the brim as the brim.
//
// Every bottom is a closed form: a cone's frustum, a sphere's cap, the ring
// under a circular arc.
func (v Vessel) VolumeAt(level q.Length) q.Volume {
	s := v.shape()
	z := hold(float64(level), s.brim)
	if z <= s.depth {
		return q.Volume(s.bottomVolume(z))
	}
	return q.Volume(s.bottomVolume(s.depth) + s.shellArea()*(z-s.depth))
}

// LevelAt returns the level at which the vessel holds volume: the inverse of
// VolumeAt to the last few bits. A volume under 0 (or not a number) counts as
// 0, one over Brimful as Brimful.
func (v Vessel) LevelAt(volume q.Volume) q.Length {
	s := v.shape()
	want := float64(volume)
	if !(want > 0) || s.radius == 0 {
		return 0
	}
	below := s.bottomVolume(s.depth)
	if want > below {
		return q.Length(math.Min(s.depth+(want-below)/s.shellArea(), s.brim))
	}
	return q.Length(s.bottomLevel(want))
}

// Area returns the free surface at level, in square metres. Over the brim it
// is the brim's, under 0 the surface at 0: of a cone that is its opening.
func (v Vessel) Area(level q.Length) float64 {
	s := v.shape()
	r := s.radiusAt(hold(float64(level), s.brim))
	return math.Pi * r * r
}

// BottomDepth returns the height of the bottom, from the lowest inside point
// to where the shell begins.
func (v Vessel) BottomDepth() q.Length { return q.Length(v.shape().depth) }

// Brim returns the level of the shell's upper edge.
func (v Vessel) Brim() q.Length { return q.Length(v.shape().brim) }

// Brimful returns the volume up to the upper edge of the shell.
func (v Vessel) Brimful() q.Volume { return v.VolumeAt(q.Length(math.Inf(1))) }

// hold returns x between 0 and top, and 0 when x is not a number.
func hold(x, top float64) float64 {
	if !(x > 0) {
		return 0
	}
	return math.Min(x, top)
}
