package flow

import (
	"math"
	"slices"
	"sort"

	q "drawoff/pipeline/quantity"
)

// Drop is a point of a device's data sheet: the pressure that it drops at a flow of water.
type Drop struct {
	Flow q.Flow
	Drop q.Pressure
}

// Drops is the pressure drop of a device, a plate cooler or a filter, by
// the points of its data sheet. Between them it is a monotone cubic, which
// never swings; from no flow and no drop to the first; beyond the last it
// grows with the square of the flow from there, and Beyond says so.
//
// The head lost is the same for every liquid, as in turbulent flow the
// pressure drop goes with the density; one much thicker than water loses more.
type Drops struct {
	curve spline
	last  float64 // m³/s
	most  float64 // head there, m
}

// NewDrops draws the drop through points in any order. Points without a flow
// over zero, or with a drop under zero or not finite, are left out; of two at one
// flow the higher drop counts, and a drop never falls as the flow grows. Without
// points there is no drop.
func NewDrops(points []Drop) *Drops {
	var ok []Drop
	for _, p := range points {
		if p.Flow > 0 && usable(float64(p.Flow)) && p.Drop >= 0 && p.Drop <= 1e9 {
			ok = append(ok, p)
		}
	}
	sort.SliceStable(ok, func(i, j int) bool {
		return ok[i].Flow < ok[j].Flow || ok[i].Flow == ok[j].Flow && ok[i].Drop > ok[j].Drop
	})
	ok = slices.CompactFunc(ok, func(a, b Drop) bool { return a.Flow == b.Flow })
	d := &Drops{}
	d.curve.add(0, 0)
	for _, p := range ok {
		d.last = float64(p.Flow)
		d.most = math.Max(d.most, float64(p.Drop)/(1000*gravity))
		d.curve.add(d.last, d.most)
	}
	d.curve.shape()
	return d
}

// Head returns the head lost at flow.
func (d *Drops) Head(flow q.Flow) q.Head { return q.Head(d.at(within(float64(flow), 0, greatestFlow))) }

func (d *Drops) at(flow float64) float64 {
	if flow > d.last && d.last > 0 {
		part := flow / d.last
		return d.most * part * part
	}
	y, _ := d.curve.at(flow)
	return y
}

// Beyond reports whether flow is more than the last point.
func (d *Drops) Beyond(flow q.Flow) bool { return float64(flow) > d.last }
