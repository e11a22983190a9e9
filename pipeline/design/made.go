package design

import (
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// Made is a part that the user makes up once and uses again: a street bend, a
// valve with the ends their plant has. It is a piece, or a short row of pieces
// welded or joined together, and putting it into a line puts in a copy: from
// then on the line's pieces are the line's own, and are counted as any others.
//
// Its pieces name their sizes and lengths, since a part in hand has them
// whatever stands before it.
type Made struct {
	Name   string  `json:"name"`
	Pieces []Piece `json:"pieces"` // in flow order, as it was kept
}

// FindMade returns the part called name.
func FindMade(made []Made, name string) (Made, bool) {
	for _, m := range made {
		if m.Name == name {
			return m, true
		}
	}
	return Made{}, false
}

// KeepMade returns made with m in it, in the place of one of the same name.
func KeepMade(made []Made, m Made) []Made {
	out := make([]Made, 0, len(made)+1)
	for _, old := range made {
		if old.Name != m.Name {
			out = append(out, old)
		}
	}
	return append(out, m)
}

// Kept returns the part that pieces, whose sizes are worked out, make. What
// belongs to a place and not to a part is left behind: the fall that a
// straight is laid to, and that its length is made to fit.
func Kept(name string, pieces []Sized) Made {
	m := Made{Name: name}
	for _, s := range pieces {
		p := *s.Piece
		p.Name, p.Size = name, s.From
		p.Fit, p.Fall = false, q.Entered[q.Slope]{}
		m.Pieces = append(m.Pieces, p)
	}
	return m
}

// made judges parts that the user has made up.
func (v *validator) made(made []Made) {
	seen := make(map[string]bool, len(made))
	for i, m := range made {
		at := itemPath("made", i)
		switch {
		case strings.TrimSpace(m.Name) == "":
			v.fault(at+".name", "", "is missing", "write what the part is to be called")
		case seen[m.Name]:
			v.fault(at+".name", m.Name, "is the name of another part, further up", "give each its own")
		}
		seen[m.Name] = true
		if len(m.Pieces) == 0 {
			v.fault(at+".pieces", "", "is missing", "name at least one piece")
		}
		// As a line of its own, with nothing before it to take a size from.
		own := validator{}
		own.pieces(Design{Run: m.Pieces, Pump: Pump{Kind: NoPump}})
		for _, f := range own.faults {
			f.Field = at + ".pieces." + strings.TrimPrefix(f.Field, "run.")
			v.faults = append(v.faults, f)
		}
		if n := len(m.Pieces); n > MaxMadePieces {
			v.fault(at+".pieces", strconv.Itoa(n)+" items", "is more than a part may hold, "+strconv.Itoa(MaxMadePieces), "keep it as two parts")
		}
	}
}
