package design

import (
	"strconv"
	"strings"

	"drawoff/pipeline/tokens"
)

// Shelf is what a person has of their own, whatever plant they are at work on:
// what they have measured, the parts they have made up, the parts and offcuts
// in hand, and the habits of their shop. A design holds only what it uses of
// it; what is in hand and what things cost is no part of any design.
//
// As JSON it is an object, so that more can be put on it: its members are
// written as those of a design are, and members that this version does not
// know are kept as they stand and written back.
type Shelf struct {
	Measured []Measurement `json:"measured,omitempty"` // the newest last
	Made     []Made        `json:"made,omitempty"`     // the newest last
	Items    []Item        `json:"items,omitempty"`    // what is in hand, what it costs
	Rack     []Offcut      `json:"rack,omitempty"`     // tube in hand
	Shop     Shop          `json:"shop,omitzero"`

	rest string // unknown members as JSON, each with a comma before it
}

// shelfVersion is that of a shelf's JSON. It changes when an old shelf would
// be read wrongly, not when a member is added.
const shelfVersion = 1

// IsShelf reports whether text begins as a shelf does and no design can.
func IsShelf(text string) bool {
	t := tokens.NewReader(text, maxDepth)
	return t.Next().Kind == tokens.Open && t.Next().Text == "shelf"
}

// ReadShelf reads a shelf. With faults it holds what could be read; an entry
// with a fault is left out.
func ReadShelf(text string) (Shelf, Faults) {
	if len(text) > MaxFile {
		return Shelf{}, Faults{{What: "the shelf is larger than it may be, 1 MB", Hint: "check that it is the right file"}}
	}
	var s Shelf
	dec := decode(&s, text, false, &s.rest)
	if dec.broken {
		return Shelf{}, dec.faults
	}
	faults := dec.faults
	s.Measured = faultless(s.Measured, &faults, func(v *validator, m []Measurement) { v.measured(m) })
	s.Made = faultless(s.Made, &faults, func(v *validator, m []Made) { v.made(m) })
	s.Items = faultless(s.Items, &faults, func(v *validator, m []Item) { v.items(m) })
	s.Rack = faultless(s.Rack, &faults, func(v *validator, m []Offcut) { v.rack(m) })
	if shop := faultless([]Shop{s.Shop}, &faults, func(v *validator, m []Shop) { v.shop(m[0]) }); len(shop) == 0 {
		s.Shop = Shop{}
	}
	return s, faults
}

// faultless returns the entries that have no fault, each judged beside those before it.
func faultless[T any, P interface {
	*T
	record
}](entries []T, faults *Faults, judge func(*validator, []T)) []T {
	var kept []T
	for _, e := range entries {
		v := validator{}
		v.words(P(&e), "")
		judge(&v, append(kept[:len(kept):len(kept)], e))
		if len(v.faults) > 0 {
			*faults = append(*faults, v.faults...)
			continue
		}
		kept = append(kept, e)
	}
	return kept
}

// Write returns s as indented JSON, ending in a newline; "" for an empty shelf.
func (s Shelf) Write() string {
	if s.Size() == 0 && empty(&s.Shop) && s.rest == "" {
		return ""
	}
	w := writer{step: "  "}
	w.b = append(w.b, "{\n  \"shelf\": "...)
	w.b = strconv.AppendInt(w.b, shelfVersion, 10)
	w.members(&s, 1, false)
	return string(append(append(w.b, s.rest...), "\n}\n"...))
}

// Size returns how many things are on the shelf.
func (s Shelf) Size() int { return len(s.Measured) + len(s.Made) + len(s.Items) + len(s.Rack) }

// Length returns what was measured of a dimension.
func (s Shelf) Length(dimension string) (Measurement, bool) {
	for _, m := range s.Measured {
		if m.Part == dimension {
			return m, true
		}
	}
	return Measurement{}, false
}

// Measure returns s with m on it, in the place of what was measured of it before.
func (s Shelf) Measure(m Measurement) Shelf {
	s.Measured = append(s.without(m.Part), m)
	return s
}

// Forget returns s without what is called name: a dimension, or a part made up.
func (s Shelf) Forget(name string) Shelf {
	s.Measured = s.without(name)
	var made []Made
	for _, m := range s.Made {
		if m.Name != name {
			made = append(made, m)
		}
	}
	s.Made = made
	return s
}

func (s Shelf) without(dimension string) []Measurement {
	out := make([]Measurement, 0, len(s.Measured)+1)
	for _, m := range s.Measured {
		if m.Part != dimension {
			out = append(out, m)
		}
	}
	return out
}

// Join returns s with what other has and s has not, and the names of what
// both have and say differently: those stay as they are in s.
func (s Shelf) Join(other Shelf) (joined Shelf, differ []string) {
	for _, m := range other.Measured {
		if own, ok := s.Length(m.Part); !ok {
			s = s.Measure(m)
		} else if own.Length.Value() != m.Length.Value() {
			differ = append(differ, m.Part)
		}
	}
	for _, m := range other.Made {
		if own, ok := FindMade(s.Made, m.Name); !ok {
			s.Made = KeepMade(s.Made, m)
		} else if !same(&own, &m) {
			differ = append(differ, m.Name)
		}
	}
	differ = append(differ, s.joinStock(other)...)
	if s.rest == "" {
		s.rest = other.rest
	}
	return s, differ
}

// keep notes an unknown member in rest as it stands.
func keep(rest *string, name, raw string) {
	*rest += ",\n  " + string(tokens.AppendString(nil, name)) + ": " + strings.TrimSpace(raw)
}
