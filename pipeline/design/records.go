package design

import "slices"

// This file says which fields each part of a design has, by the names that its
// JSON tags give them and in their order; a test holds the one to the other.
// They are listed and not reflected upon: reflection would be a thirtieth of
// the page's first load.

// record is a part of a design that holds fields.
type record interface {
	// fields shows each field to see until it returns false.
	fields(see see) bool
}

// see is shown a field of a record: a pointer to its words, count, flag or
// measure, another record, or a sequence of them.
type see func(name string, at any, when presence) bool

// presence says when a field is in a file.
type presence bool

const (
	may  presence = false // when it is not empty
	must presence = true  // always
)

// sequence is a list of records.
type sequence interface {
	len() int
	item(i int) record
	blank() record // what its items are, with nothing in it
	insert(i int)  // a blank one before i
	remove(i int)
	swap(i, j int)
}

// rows is the sequence of what a slice holds.
func rows[T any, P interface {
	*T
	record
}](at *[]T) sequence {
	return slice[T, P]{at}
}

type slice[T any, P interface {
	*T
	record
}] struct{ at *[]T }

func (s slice[T, P]) len() int          { return len(*s.at) }
func (s slice[T, P]) item(i int) record { return P(&(*s.at)[i]) }
func (s slice[T, P]) blank() record     { return P(new(T)) }
func (s slice[T, P]) insert(i int)      { var blank T; *s.at = slices.Insert(*s.at, i, blank) }
func (s slice[T, P]) swap(i, j int)     { (*s.at)[i], (*s.at)[j] = (*s.at)[j], (*s.at)[i] }

// remove leaves nil where nothing is left, as reading a file does.
func (s slice[T, P]) remove(i int) {
	if *s.at = slices.Delete(*s.at, i, i+1); len(*s.at) == 0 {
		*s.at = nil
	}
}

func (d *Design) fields(see see) bool {
	return see("title", &d.Title, may) &&
		see("note", &d.Note, may) &&
		see("date", &d.Date, may) &&
		see("tank", &d.Tank, may) &&
		see("under", rows(&d.Under), may) &&
		see("stand", &d.Stand, may) &&
		see("run", rows(&d.Run), may) &&
		see("pump", &d.Pump, may) &&
		see("delivery", &d.Delivery, may) &&
		see("liquid", &d.Liquid, may) &&
		see("site", &d.Site, may) &&
		see("cleaning", rows(&d.Cleaning), may) &&
		see("wash", &d.Wash, may) &&
		see("vent", &d.Vent, may) &&
		see("seal", &d.Seal, may) &&
		see("finish", &d.Finish, may) &&
		see("limits", &d.Limits, may) &&
		see("measured", rows(&d.Measured), may) &&
		see("made", rows(&d.Made), may) &&
		see("keepOuts", rows(&d.KeepOuts), may) &&
		see("finder", &d.Finder, may) &&
		see("assumed", rows(&d.Assumed), may)
}

func (a *Assumption) fields(see see) bool { return see("path", &a.Path, must) }

func (t *Tank) fields(see see) bool {
	return see("bore", &t.Bore, may) &&
		see("height", &t.Height, may) &&
		see("bottom", &t.Bottom, may) &&
		see("coneAngle", &t.ConeAngle, may) &&
		see("fill", &t.Fill, may) &&
		see("lowest", &t.Lowest, may) &&
		see("outlet", &t.Outlet, may) &&
		see("wall", &t.Wall, may) &&
		see("manway", &t.Manway, may) &&
		see("seam", &t.Seam, may)
}

func (o *Outlet) fields(see see) bool {
	return see("place", &o.Place, may) &&
		see("above", &o.Above, may) &&
		see("stub", &o.Stub, may) &&
		see("fall", &o.Fall, may) &&
		see("size", &o.Size, may) &&
		see("end", &o.End, may)
}

func (p *Piece) fields(see see) bool {
	return see("kind", &p.Kind, must) &&
		see("name", &p.Name, may) &&
		see("size", &p.Size, may) &&
		see("to", &p.To, may) &&
		see("shape", &p.Shape, may) &&
		see("in", &p.In, may) &&
		see("out", &p.Out, may) &&
		see("third", &p.Third, may) &&
		see("fourth", &p.Fourth, may) &&
		see("seal", &p.Seal, may) &&
		see("length", &p.Length, may) &&
		see("fit", &p.Fit, may) &&
		see("angle", &p.Angle, may) &&
		see("turn", &p.Turn, may) &&
		see("fall", &p.Fall, may) &&
		see("open", &p.Open, may) &&
		see("share", &p.Share, may) &&
		see("lining", &p.Lining, may) &&
		see("roughness", &p.Roughness, may) &&
		see("suction", &p.Suction, may) &&
		see("kv", &p.Kv, may) &&
		see("drops", rows(&p.Drops), may) &&
		see("dropsIn", &p.DropsIn, may) &&
		see("prepared", &p.Prepared, may)
}

func (d *DropPoint) fields(see see) bool {
	return see("flow", &d.Flow, must) &&
		see("drop", &d.Drop, must)
}

func (s *Stand) fields(see see) bool {
	return see("height", &s.Height, may) &&
		see("legTop", &s.LegTop, may) &&
		see("foot", &s.Foot, may) &&
		see("legs", &s.Legs, may) &&
		see("bucket", &s.Bucket, may) &&
		see("clearance", &s.Clearance, may) &&
		see("stock", &s.Stock, may) &&
		see("kerf", &s.Kerf, may) &&
		see("access", &s.Access, may) &&
		see("legOD", &s.LegOD, may) &&
		see("legWall", &s.LegWall, may) &&
		see("feet", &s.Feet, may) &&
		see("splay", &s.Splay, may) &&
		see("brace", &s.Brace, may) &&
		see("braceOD", &s.BraceOD, may) &&
		see("pad", &s.Pad, may) &&
		see("adjust", &s.Adjust, may) &&
		see("castors", &s.Castors, may) &&
		see("anchored", &s.Anchored, may) &&
		see("load", &s.Load, may)
}

func (p *Pump) fields(see see) bool {
	return see("kind", &p.Kind, may) &&
		see("away", &p.Away, may) &&
		see("aside", &p.Aside, may) &&
		see("height", &p.Height, may) &&
		see("faces", &p.Faces, may) &&
		see("inSize", &p.InSize, may) &&
		see("inEnd", &p.InEnd, may) &&
		see("seal", &p.Seal, may) &&
		see("outUp", &p.OutUp, may) &&
		see("outAhead", &p.OutAhead, may) &&
		see("outSize", &p.OutSize, may) &&
		see("outEnd", &p.OutEnd, may) &&
		see("curve", rows(&p.Curve), may) &&
		see("slip", rows(&p.Slip), may) &&
		see("rated", &p.Rated, may) &&
		see("speed", &p.Speed, may) &&
		see("dryLift", &p.DryLift, may) &&
		see("casing", &p.Casing, may) &&
		see("relief", &p.Relief, may)
}

func (c *CurvePoint) fields(see see) bool {
	return see("flow", &c.Flow, must) &&
		see("head", &c.Head, must) &&
		see("headRequired", &c.HeadRequired, may) &&
		see("efficiency", &c.Efficiency, may)
}

func (s *SlipPoint) fields(see see) bool {
	return see("pressure", &s.Pressure, must) &&
		see("flow", &s.Flow, must) &&
		see("headRequired", &s.HeadRequired, may) &&
		see("efficiency", &s.Efficiency, may)
}

func (d *Delivery) fields(see see) bool {
	return see("pieces", rows(&d.Pieces), may) &&
		see("height", &d.Height, may) &&
		see("away", &d.Away, may) &&
		see("aside", &d.Aside, may) &&
		see("flow", &d.Flow, may)
}

func (l *Liquid) fields(see see) bool {
	return see("kind", &l.Kind, may) &&
		see("strength", &l.Strength, may) &&
		see("alcohol", &l.Alcohol, may) &&
		see("fat", &l.Fat, may) &&
		see("density", &l.Density, may) &&
		see("viscosity", &l.Viscosity, may) &&
		see("consistency", &l.Consistency, may) &&
		see("index", &l.Index, may) &&
		see("yield", &l.Yield, may) &&
		see("vapourPressure", &l.VapourPressure, may) &&
		see("medium", &l.Medium, may) &&
		see("temperature", &l.Temperature, may)
}

func (s *Site) fields(see see) bool {
	return see("altitude", &s.Altitude, may) &&
		see("ceiling", &s.Ceiling, may) &&
		see("door", &s.Door, may) &&
		see("doorWidth", &s.DoorWidth, may) &&
		see("floorFall", &s.FloorFall, may) &&
		see("uneven", &s.Uneven, may)
}

func (c *Cleaning) fields(see see) bool {
	return see("agent", &c.Agent, must) &&
		see("temperature", &c.Temperature, may) &&
		see("strength", &c.Strength, may) &&
		see("time", &c.Time, may)
}

func (w *Wash) fields(see see) bool {
	return see("speed", &w.Speed, may) &&
		see("flow", &w.Flow, may) &&
		see("spray", &w.Spray, may) &&
		see("pressure", &w.Pressure, may) &&
		see("scavenge", &w.Scavenge, may) &&
		see("sump", &w.Sump, may) &&
		see("supply", &w.Supply, may) &&
		see("element", &w.Element, may) &&
		see("rinses", &w.Rinses, may)
}

func (v *Vent) fields(see see) bool {
	return see("bore", &v.Bore, may) &&
		see("pressure", &v.Pressure, may) &&
		see("fill", &v.Fill, may)
}

func (l *Limits) fields(see see) bool {
	return see("suctionMargin", &l.SuctionMargin, may) &&
		see("suctionRatio", &l.SuctionRatio, may) &&
		see("suctionSpeed", &l.SuctionSpeed, may) &&
		see("fall", &l.Fall, may) &&
		see("boreStep", &l.BoreStep, may) &&
		see("gap", &l.Gap, may) &&
		see("spring", &l.Spring, may) &&
		see("floorSpace", &l.FloorSpace, may) &&
		see("tip", &l.Tip, may) &&
		see("reach", &l.Reach, may) &&
		see("deadEnd", &l.DeadEnd, may) &&
		see("drainTime", &l.DrainTime, may)
}

func (m *Measurement) fields(see see) bool {
	return see("part", &m.Part, must) &&
		see("length", &m.Length, must)
}

func (m *Made) fields(see see) bool {
	return see("name", &m.Name, must) &&
		see("pieces", rows(&m.Pieces), must)
}

func (k *KeepOut) fields(see see) bool {
	return see("name", &k.Name, may) &&
		see("away", &k.Away, may) &&
		see("aside", &k.Aside, may) &&
		see("above", &k.Above, may) &&
		see("long", &k.Long, must) &&
		see("wide", &k.Wide, must) &&
		see("high", &k.High, must)
}

func (f *Finder) fields(see see) bool {
	return see("size", &f.Size, may) &&
		see("other", &f.Other, may) &&
		see("joints", &f.Joints, may) &&
		see("valve", &f.Valve, may) &&
		see("straight", &f.Straight, may) &&
		see("longest", &f.Longest, may) &&
		see("fall", &f.Fall, may) &&
		see("enters", &f.Enters, may) &&
		see("faces", &f.Faces, may) &&
		see("room", &f.Room, may)
}

func (s *Shelf) fields(see see) bool {
	return see("measured", rows(&s.Measured), may) &&
		see("made", rows(&s.Made), may) &&
		see("items", rows(&s.Items), may) &&
		see("rack", rows(&s.Rack), may) &&
		see("shop", &s.Shop, may)
}

func (it *Item) fields(see see) bool {
	return see("part", &it.Part, must) &&
		see("inHand", &it.InHand, may) &&
		see("price", &it.Price, may) &&
		see("from", &it.From, may)
}

func (o *Offcut) fields(see see) bool {
	return see("tube", &o.Tube, must) &&
		see("length", &o.Length, must)
}

func (s *Shop) fields(see see) bool {
	return see("trim", &s.Trim, may) &&
		see("keep", &s.Keep, may) &&
		see("gap", &s.Gap, may) &&
		see("spares", &s.Spares, may) &&
		see("argon", &s.Argon, may) &&
		see("currency", &s.Currency, may)
}
