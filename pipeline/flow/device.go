package flow

import (
	"math"
	"slices"
	"sort"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// Drop is a point of a data sheet, or measured: the pressure that is dropped at a flow.
type Drop struct {
	Flow q.Flow
	Drop q.Pressure
}

// Drops is the pressure drop of a piece by the points of its data sheet, as of
// a plate cooler or a filter, or as measured. Between them it is a monotone
// cubic, which never swings; from no flow and no drop to the first; beyond the
// last it grows with the square of the flow from there, and Beyond says so.
//
// The head lost is the same for every liquid, as in turbulent flow the
// pressure drop goes with the density; one much thicker than water loses more
// than points taken with water say. A liquid that is not Newtonian, measured
// itself, drops at less than the first point as much less as the stress at the
// wall is less: creeping, it has no other law.
type Drops struct {
	curve spline
	first float64 // m³/s
	last  float64
	most  float64 // head there, m
	own   bool    // measured with the liquid that runs
}

// NewDrops draws the drop through points in any order, taken with a liquid of
// the given density. Points without a flow over zero, or with a drop under zero
// or not finite, are left out; of two at one flow the higher drop counts, and a
// drop never falls as the flow grows. Without points there is no drop.
func NewDrops(points []Drop, with q.Density) *Drops {
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
	for i, p := range ok {
		d.last = float64(p.Flow)
		if i == 0 {
			d.first = d.last
		}
		d.most = math.Max(d.most, float64(p.Drop)/(within(float64(with), 1, 1e6)*gravity))
		d.curve.add(d.last, d.most)
	}
	d.curve.shape()
	return d
}

// waterDensity is that of the water that data sheets are made with.
const waterDensity q.Density = 1000

// dropsOf returns the drops that are typed of a piece; nil where there are none
// that count for the liquid that runs.
func (in *Input) dropsOf(kind string, p *design.Piece) *Drops {
	own := p.DropsIn == design.OwnLiquid
	if len(p.Drops) == 0 || !design.Drops(kind) || own && in.Wash && (kind != design.Device || !p.Kv.IsZero()) {
		return nil
	}
	points := make([]Drop, len(p.Drops))
	for i, d := range p.Drops {
		points[i] = Drop{Flow: d.Flow.Value(), Drop: d.Drop.Value()}
	}
	if !own || in.Wash {
		return NewDrops(points, waterDensity)
	}
	d := NewDrops(points, in.Liquid.Density)
	d.own = true
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

// dropped returns the head that the drops of r take at a flow of the line.
func (r *reach) dropped(flow float64) float64 {
	d, through := r.drops, flow*r.share
	if r.thick == nil || !d.own || through >= d.first {
		return d.at(through)
	}
	return d.at(d.first) * r.thick.wall(r.velocity*flow) / r.thick.wall(r.velocity/r.share*d.first)
}

// Beyond reports whether flow is more than the last point.
func (d *Drops) Beyond(flow q.Flow) bool { return float64(flow) > d.last }
