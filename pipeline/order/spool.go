package order

import (
	"math"
	"slices"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Spool is what is welded up in one and carried to its place: all that hangs
// together by welds, from one joint that opens to the next.
type Spool struct {
	Number int        `json:"number"` // in flow order from 1; 0 for what is welded to the tank
	Pieces []string   `json:"pieces"` // their paths in the design, in flow order
	Welds  []int      `json:"welds"`  // their numbers
	Volume q.Volume   `json:"volume"` // within it, to be swept by the purge
	Argon  q.Volume   `json:"argon"`  // that the purge takes before each weld
	Time   q.Duration `json:"time"`   // that it takes
}

// Spools returns every spool that has a weld in it, with the volume within it.
// stub is the length of the tank's outlet, which the tank's spool begins with.
func Spools(l route.Layout, welds []Weld, stub q.Length) []Spool {
	groups := []Spool{{}}
	groupOf := map[string]int{Outlet: 0}
	joints := l.Junctions
	walk := func(lines ...[]route.Piece) {
		for _, line := range lines {
			for i := range line {
				p := &line[i]
				for len(joints) > 0 && joints[0].Ref != p.Ref { // the pump's
					joints = joints[1:]
				}
				welded := len(joints) > 0 && joints[0].Up.Half.Plain() && joints[0].Down.Half.Plain()
				if !welded {
					groups = append(groups, Spool{})
				}
				at := len(groups) - 1
				groups[at].Pieces = append(groups[at].Pieces, p.Ref)
				groups[at].Volume += inside(p)
				groupOf[p.Ref] = at
			}
		}
	}
	walk(l.Under, l.Run)
	last := len(groups) - 1
	if !l.Gravity {
		groupOf["pump"] = last
		if len(l.Delivery) > 0 {
			groups = append(groups, Spool{})
		}
	}
	walk(l.Delivery)
	for _, w := range welds {
		at, known := groupOf[w.Ref]
		if !known {
			at = len(groups) - 1
		}
		groups[at].Welds = append(groups[at].Welds, w.Number)
	}
	groups[0].Volume += cylinder(float64(l.Outlet.Bore()), float64(l.Outlet.Bore()), float64(max(0, stub)))
	number := 0
	for i := range groups {
		if i > 0 && len(groups[i].Welds) > 0 {
			number++
			groups[i].Number = number
		}
	}
	return slices.DeleteFunc(groups, func(s Spool) bool { return len(s.Welds) == 0 })
}

// inside returns the volume within p and its open ports.
func inside(p *route.Piece) q.Volume {
	var v q.Volume
	for _, s := range p.Path {
		v += cylinder(float64(s.BoreFrom), float64(s.BoreTo), float64(s.Length))
	}
	for _, port := range p.Ports() {
		if port.End == nil || len(p.Path) == 0 {
			continue
		}
		bore := float64(port.End.Bore())
		reach := float64(0)
		for _, s := range p.Path {
			// From the axis of the run: the port stands across it.
			off := port.At.Sub(s.From)
			away := off.Sub(s.Dir.Scale(off.Dot(s.Dir))).Len()
			if reach == 0 || away < reach {
				reach = away
			}
		}
		v += cylinder(bore, bore, math.Max(0, reach-float64(p.In.Bore())/2))
	}
	return v
}

// cylinder returns the volume of a frustum of two bores, which for equal ones
// is a cylinder: π h (d² + d e + e²)/12.
func cylinder(d, e, h float64) q.Volume { return q.Volume(math.Pi * h * (d*d + d*e + e*e) / 12) }
