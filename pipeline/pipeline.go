// Package pipeline is the whole of Drawoff behind one function: Check takes a
// design and returns a report. Glance returns the part of it that a page shows
// at every keystroke.
//
//	Design  --catalog-->  Layout  --liquid-->  Findings  -->  Report
//	what the     real parts     every piece     figures and       one value
//	user said    with sizes     placed in 3D    verdicts          holding all
//
// Each question has a package of its own below this one; they know nothing of
// each other, and this package joins them.
package pipeline

import (
	"drawoff/pipeline/design"
	"drawoff/pipeline/drain"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/stand"
)

// Glance works out what whoever is typing looks at: whether the line fits, mates, flows
// and drains, how high the tank stands, what to buy. Check has all of that and the rest.
func Glance(d design.Design) Report {
	if faults := d.Validate(); len(faults) > 0 {
		return Report{Title: d.Title, Faults: faults}
	}
	plant, faults := assemble(d.Filled())
	if len(faults) > 0 {
		return Report{Title: d.Title, Faults: faults}
	}
	return plant.report()
}

// plant is a filled design with everything that the rooms need to know of it.
type plant struct {
	design design.Design
	known  known
	height q.Length // of the outlet face
	layout route.Layout
	flow   flow.Result
	stand  stand.Result
}

// assemble lays d, a filled design, out at its height. Where no height was typed it takes the
// least that every need allows, which the layout and the flow at some height
// are needed to find.
func assemble(d design.Design) (plant, design.Faults) {
	p := plant{design: d}
	var faults design.Faults
	if p.known, faults = know(d); len(faults) > 0 {
		return plant{}, faults
	}
	typed := !d.Stand.Height.IsZero()
	p.layAt(d.Stand.Height.Or(provisionalHeight))
	// The suction need follows the flow, and the flow the height: a second
	// round settles it to less than the 5 mm that heights are rounded to.
	for round := 0; round < heightRounds && !typed; round++ {
		p.layAt(stand.Needed(p.standInput()))
	}
	p.stand = stand.Check(p.standInput())
	return p, nil
}

const (
	provisionalHeight = 1 * q.Metre
	heightRounds      = 3
)

// layAt places the plant with its outlet face at height and works out the flow.
func (p *plant) layAt(height q.Length) {
	p.height = height
	p.layout = route.Lay(p.design, height)
	p.flow = flow.Check(p.flowInput())
}

// report collects what the rooms find at a glance.
func (p plant) report() Report {
	joints := joint.Check(p.jointInput())
	drains := drain.Check(p.drainInput())
	orders := order.Check(p.orderInput())

	all := finding.Join(p.tank(), finding.Findings{Verdicts: p.materials()}, p.flow.Findings, p.air(), p.meeting(), p.stand.Findings, drains.Findings, joints.Findings, orders.Findings, p.measured())
	p.spread(all)

	r := Report{
		Title:      p.design.Title,
		Figures:    all.Figures,
		Verdicts:   mostPressingFirst(all.Verdicts),
		Drivers:    p.stand.Drivers,
		Bounds:     p.stand.Bounds,
		Parts:      orders.Lines,
		Cuts:       orders.Cuts,
		Welds:      orders.Welds,
		Dimensions: p.dimensions(),
		Cautions:   p.cautions(),
		Scene:      p.scene(),
		plant:      &p,
	}
	r.Level = finding.Worst(r.Verdicts)
	r.Pieces = p.pieces(drains, gravest(r.Verdicts))
	return r
}

// gravest returns the gravest level of what is said of each piece.
func gravest(verdicts []finding.Verdict) map[string]finding.Level {
	levels := map[string]finding.Level{}
	for i := range verdicts {
		v := &verdicts[i]
		levels[v.Piece] = max(levels[v.Piece], v.Level)
	}
	return levels
}
