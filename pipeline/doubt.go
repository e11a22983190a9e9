package pipeline

import (
	"sort"

	"drawoff/catalog"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
)

// Dimension is a length of a part, with how far it is to be trusted.
type Dimension struct {
	_         [0]func() // no ==: the page would load it
	Dimension string    `json:"dimension"`        // slug, as design.Measurement.Part takes it
	Length    q.Amount  `json:"length"`           // taken for it
	Either    *q.Amount `json:"either,omitempty"` // half-width of the doubt, nil for none but tolerances
	Trust     string    `json:"trust"`            // a catalog.Trust
	Measure   string    `json:"measure"`          // where to put the caliper
	Source    string    `json:"source"`
}

// Name says in words which length it is.
func (d Dimension) Name() string { return catalog.DimensionName(d.Dimension) }

// Move is how far one length could move one answer, either way.
type Move struct {
	Answer string // the figure's name, or the piece that is to be cut
	By     q.Length
}

// Moves returns what the dimension could move, what it moves furthest first.
// Heads, which follow the height of the tank, are left out.
func (r Report) Moves(dimension string) []Move {
	var out []Move
	add := func(answer string, hangs []finding.Share) {
		for _, s := range hangs {
			if s.Dimension == dimension && s.By > 0 {
				out = append(out, Move{answer, s.By})
			}
		}
	}
	for i := range r.Figures {
		if f := &r.Figures[i]; f.Amount.Kind == q.KindLength {
			add(f.Name, f.Hangs)
		}
	}
	for i := range r.Drivers {
		add("Height needed: "+r.Drivers[i].Name, r.Drivers[i].Hangs)
	}
	for i := range r.Cuts {
		if c := &r.Cuts[i]; c.Ref != order.Stand { // a leg's is a figure already
			add("Cut of "+c.Name, c.Hangs)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].By > out[j].By })
	return out
}

// Doubtful returns the dimensions that are in doubt until somebody measures
// them, those that move an answer furthest first.
func (r Report) Doubtful() []Dimension {
	type ranked struct {
		Dimension
		most q.Length
	}
	var all []ranked
	for _, d := range r.Dimensions {
		if d.Either == nil {
			continue
		}
		most := q.Length(0)
		if moves := r.Moves(d.Dimension); len(moves) > 0 {
			most = moves[0].By
		}
		all = append(all, ranked{d, most})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].most > all[j].most })
	out := make([]Dimension, len(all))
	for i := range all {
		out[i] = all[i].Dimension
	}
	return out
}
