// Package cut lays pieces of tube out of offcuts and stock lengths: which
// piece is sawn from which length, in what order, and what is left.
//
// The rack's offcuts are used first: of all ways to lay the pieces out, one
// that takes the fewest new lengths is looked for. That is the bin packing
// problem, which no quick method solves every time; but what a workshop asks
// is small. A bound says how many lengths are needed at least, a search
// closes the gap where there is one, and where the search ends before it is
// done the plan says that only the bound is known.
//
// Between two pieces goes one saw cut, and none after the last where nothing
// is left over:
//
//	n·piece + (n − 1)·kerf ≤ stock − trim
//
// Common practice, no source. The search counts its steps and knows no clock:
// the same question has the same answer on every machine.
package cut

import (
	"math"
	"slices"

	q "drawoff/pipeline/quantity"
)

// Stock is what there is to saw from, and the saw. No length is negative.
type Stock struct {
	Length q.Length   `json:"length"`         // of a new length, as sold; 0 for none to be had
	Trim   q.Length   `json:"trim"`           // sawn off one end of a new length to square it, that saw cut included
	Kerf   q.Length   `json:"kerf"`           // width of the saw cut
	Rack   []q.Length `json:"rack,omitempty"` // offcuts in hand, square at both ends
	Keep   q.Length   `json:"keep"`           // what is left and at least as long goes back on the rack
}

// Plan is how pieces are laid out.
type Plan struct {
	Bars    []Bar `json:"bars"`              // offcuts from the rack, then new lengths; only those that are sawn
	New     int   `json:"new"`               // new lengths among them
	AtLeast int   `json:"atLeast"`           // no plan takes fewer new lengths than this
	TooLong []int `json:"tooLong,omitempty"` // pieces that are longer than a new length and than any offcut that is free
	Steps   int   `json:"-"`                 // of the search; 0 where the first plan was the best at once
}

// Proven reports whether no plan takes fewer new lengths than p does.
func (p Plan) Proven() bool { return p.New == p.AtLeast }

// Bar is one length of tube with what is sawn from it.
type Bar struct {
	Rack   int      `json:"rack"` // its place in Stock.Rack; -1 for a new length
	Length q.Length `json:"length"`
	Trim   q.Length `json:"trim"` // squared off at its start
	Cuts   []Cut    `json:"cuts"` // from its start to its end, the longest first
	Left   q.Length `json:"left"` // at its end, after the last saw cut
	Kept   bool     `json:"kept"` // what is left goes back on the rack
}

// Cut is a piece within a bar.
type Cut struct {
	Piece  int      `json:"piece"` // its place among the pieces
	From   q.Length `json:"from"`  // from the bar's start
	Length q.Length `json:"length"`
}

// Steps is how many steps the search takes at most.
const Steps = 1_000_000

// Lay lays pieces out of s. A piece without a length is passed over.
func Lay(pieces []q.Length, s Stock) Plan { return lay(pieces, s, Steps) }

func lay(pieces []q.Length, s Stock, steps int) Plan {
	var plan Plan
	var items []item
	kerf := max(0, units(s.Kerf))
	whole := units(s.Length) - max(0, units(s.Trim))
	for i, l := range pieces {
		if size := units(l); size > 0 {
			items = append(items, item{i, size + kerf})
		}
	}
	slices.SortStableFunc(items, func(a, b item) int { return b.size - a.size })

	// A saw cut's width is lent to every bin and taken back with each piece.
	p := problem{items: items, whole: whole + kerf, steps: steps}
	for i, offcut := range s.Rack {
		p.rack = append(p.rack, bin{rack: i, room: units(offcut) + kerf})
	}
	slices.SortStableFunc(p.rack, func(a, b bin) int { return a.room - b.room })
	bins, atLeast := p.solve()
	plan.AtLeast, plan.Steps, plan.TooLong = atLeast, steps-p.steps, p.over
	for _, b := range bins {
		if len(b.items) == 0 {
			continue
		}
		bar := Bar{Rack: b.rack, Length: s.Length, Trim: max(0, s.Trim)}
		if b.rack < 0 {
			plan.New++
		} else {
			bar.Length, bar.Trim = s.Rack[b.rack], 0
		}
		at := bar.Trim
		for _, it := range b.items {
			length := pieces[p.items[it].piece]
			bar.Cuts = append(bar.Cuts, Cut{Piece: p.items[it].piece, From: at, Length: length})
			at += length + max(0, s.Kerf)
		}
		bar.Left = max(0, bar.Length-at)
		bar.Kept = bar.Left > 0 && bar.Left >= s.Keep
		plan.Bars = append(plan.Bars, bar)
	}
	return plan
}

// units returns a length in whole micrometres, which no saw tells apart, so
// that sums are exact. A length that is a hair under the next is that one.
func units(l q.Length) int {
	return int(math.Floor(math.Min(float64(l)*1e6+1e-3, 1e15)))
}
