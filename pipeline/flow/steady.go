package flow

import q "drawoff/pipeline/quantity"

// Steady is an Input made ready to be asked at many levels, one after the
// other: what depends on the line alone is worked out once, and asking
// allocates nothing.
type Steady struct {
	in    Input
	plant plant
}

// NewSteady makes in ready. Its Levels are not looked at.
func NewSteady(in Input) *Steady {
	s := &Steady{in: in}
	s.plant = newPlant(&s.in)
	return s
}

// At returns where the line runs with the liquid's surface at height above the floor.
func (s *Steady) At(height q.Length) Point { return s.plant.at(Level{Height: height}) }

// Loss returns what the whole line loses at a flow, by the default methods;
// what is lifted is no part of it.
func (s *Steady) Loss(flow q.Flow) q.Head { return q.Head(s.plant.whole.loss(float64(flow))) }

// Boils reports whether the liquid boils: nothing can then be said of how it is drawn off.
func (s *Steady) Boils() bool { return s.plant.boils }

// Drawn returns what leaves the tank for each unit of a Point's flow, as Result.Drawn.
func (s *Steady) Drawn() float64 { return s.plant.suction[0].Share }
