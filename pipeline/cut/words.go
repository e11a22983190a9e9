package cut

import q "drawoff/pipeline/quantity"

// Name says what b is: "New length, 6000 mm".
func (b Bar) Name() string {
	if b.Rack < 0 {
		return "New length, " + q.Text(b.Length)
	}
	return "Off the rack, " + q.Text(b.Length)
}

// Rest says what is left of b and what becomes of it.
func (b Bar) Rest() string {
	switch {
	case b.Left == 0:
		return "nothing left"
	case b.Kept:
		return q.Tape(b.Left) + " left, back on the rack"
	}
	return q.Tape(b.Left) + " left, scrap"
}
