package stand

import (
	"sort"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Driver is one need that the height of the tank has to meet.
type Driver struct {
	Slug    string          `json:"slug"`
	Name    string          `json:"name"`
	Why     string          `json:"why"`               // a sentence
	Needed  q.Length        `json:"needed"`            // of the outlet face over the floor, at least
	Slack   q.Length        `json:"slack"`             // height less Needed; negative where it is not met
	Governs bool            `json:"governs"`           // needs the most
	Until   q.Length        `json:"until"`             // of the one that governs: how much less of it lowers the tank, before another governs; of the others: how much more they may need before they do
	Either  q.Length        `json:"either"`            // half-width of doubt about Needed
	Hangs   []finding.Share `json:"hangsOn,omitempty"` // what that doubt hangs on, the part to measure first at its head
}

func (d Driver) doubt() route.Doubt { return route.Doubt{Either: d.Either, Hangs: d.Hangs} }

// The needs.
const (
	driverBucket  = "bucket"
	driverAccess  = "access"
	driverFloor   = "floor-space"
	driverFall    = "fall-to-pump"
	driverOutflow = "fall-to-outflow"
	driverSuction = "suction-head"
)

// met forgives a hundredth of a millimetre, far under what a saw can do.
func (d Driver) met() bool { return d.Slack >= -q.Millimetre/100 }

// ranked returns the needs, the largest first, with the first marked as governing.
func ranked(in Input, l line) []Driver {
	ds := drivers(in, l)
	sort.SliceStable(ds, func(i, j int) bool { return ds[i].Needed > ds[j].Needed })
	for i := range ds {
		ds[i].Slack = in.Height - ds[i].Needed
		ds[i].Governs = i == 0
		ds[i].Until = ds[0].Needed - ds[i].Needed
	}
	if len(ds) > 1 {
		ds[0].Until = ds[0].Needed - ds[1].Needed
	} else if len(ds) == 1 {
		ds[0].Until = max(0, ds[0].Needed)
	}
	return ds
}

// drivers returns every need that the plant has.
func drivers(in Input, l line) []Driver {
	ds := make([]Driver, 0, 5)
	if in.Bucket > 0 {
		hang, doubt := l.hanging(in, l.stack())
		ds = append(ds, Driver{
			Slug: driverBucket,
			Name: "Bucket under the stack",
			Why: "What hangs under the outlet, unions and all, reaches " + q.Text(hang) + " below its face; the bucket takes " +
				q.Text(in.Bucket) + " and wants " + q.Text(in.Clearance) + " free over it.",
			Needed: hang + in.Bucket + in.Clearance,
			Either: doubt.Either, Hangs: doubt.Hangs,
		})
	}
	if in.Access > 0 {
		hang, doubt := l.hanging(in, l.stack())
		ds = append(ds, Driver{
			Slug: driverAccess,
			Name: "Jack or pallet truck under the stack",
			Why: "What hangs under the outlet, unions and all, reaches " + q.Text(hang) + " below its face; the truck is " +
				q.Text(in.Access) + " high and wants " + q.Text(in.Clearance) + " free over it.",
			Needed: hang + in.Access + in.Clearance,
			Either: doubt.Either, Hangs: doubt.Hangs,
		})
	}
	// Where the line is rigid the pump's height decides what is free under it, and floorVerdict has it.
	if in.FloorSpace > 0 && !l.rigid {
		hang, doubt := l.hanging(in, l.first)
		ds = append(ds, Driver{
			Slug: driverFloor,
			Name: "Free height to clean the floor",
			Why: "What hangs on the tank, unions and all, reaches " + q.Text(hang) + " below the outlet face and is to stay " +
				q.Text(in.FloorSpace) + " clear of the floor.",
			Needed: hang + in.FloorSpace,
			Either: doubt.Either, Hangs: doubt.Hangs,
		})
	}
	if d, ok := fallDriver(in, l); ok {
		ds = append(ds, d)
	}
	if in.RaiseKnown {
		d := Driver{
			Slug:   driverSuction,
			Name:   "Suction head of the pump",
			Why:    "The liquid must stand high enough over the pump that it does not boil at the inlet.",
			Needed: in.Height + in.Raise,
		}
		if d.Needed < 0 {
			d.Needed = 0
			d.Why += " Here it stands high enough at any height."
		} else if l.rigid {
			d.Why += " Raised alone, the tank lifts this line off the pump: give it something that is made to fit."
		}
		ds = append(ds, d)
	}
	return ds
}

// fallDriver is the height from which the line reaches the pump (by gravity:
// the outflow) without climbing. As laid, the line's end misses its target by
// l.miss; what gives may be used up on the way down; and what is laid flatter
// than the least fall still wants its fall, where something gives to grant it.
func fallDriver(in Input, l line) (Driver, bool) {
	if l.climbs || l.free {
		return Driver{}, false
	}
	d := Driver{Slug: driverFall, Name: "Fall to the pump", Needed: in.Height + l.miss - l.give, Either: l.doubt.Either, Hangs: l.doubt.Hangs}
	to := l.end()
	if !l.toPump {
		d.Slug, d.Name = driverOutflow, "Fall to the outflow"
	}
	switch {
	case l.rigid:
		d.Why = "Nothing in the line gives up or down, so it meets " + to + " at this height and no other."
	case l.fall > 0:
		d.Needed += l.fall
		d.Why = "The line must come down to " + to + " by itself, and the " + q.Text(l.level) + " of it that lies too level wants " +
			q.Text(l.fall) + " more to fall " + q.Text(in.FallLimit) + "."
	default:
		d.Why = "The line must come down to " + to + " by itself."
	}
	return d, true
}
