package design

// Sized is a piece with the tubes at its two ends worked out from what
// stands before it.
type Sized struct {
	Path  string
	Piece *Piece // the design's own, not to be changed
	From  string // tube slug at its upstream end
	To    string // tube slug at its downstream end; From but for a reducer
}

// Sizes returns every piece in flow order with its sizes. A piece that names
// no size takes that of the end before it: the first under the tank the
// outlet's, the first of the delivery the pump's outlet, or that of the last
// piece before it where the liquid runs by gravity.
func (d *Design) Sizes() []Sized {
	out := make([]Sized, 0, len(d.Under)+len(d.Run)+len(d.Delivery.Pieces))
	size := d.Tank.Outlet.Size
	follow := func(path string, pieces []Piece) {
		for i := range pieces {
			p := &pieces[i]
			s := Sized{Path: itemPath(path, i), Piece: p, From: either(p.Size, size)}
			s.To = s.From
			if p.Kind == Reducer {
				s.To = p.To
			}
			out = append(out, s)
			size = s.To
		}
	}
	follow("under", d.Under)
	follow("run", d.Run)
	if d.Pump.Kind != NoPump {
		size = either(d.Pump.OutSize, d.Pump.InSize)
	}
	follow("delivery.pieces", d.Delivery.Pieces)
	return out
}
