package design

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// Validate returns every fault of d: sizes and ends that the catalogue does
// not know, lengths that cannot be, an outlet wider than its tank, more than
// MaxPieces pieces in a line. A design without faults can be laid out and
// checked without a panic or a number that is not one.
//
// The ranges are no rules of engineering: they are as wide as a plant of this
// sort could ever be, so that what lies outside is a slip of the unit.
func (d Design) Validate() Faults {
	if faults := d.oversize(); faults != nil {
		return faults
	}
	v := &validator{}
	v.words(&d, "")
	v.tank(d.Tank)
	v.pieces(d)
	v.stand(d.Stand)
	v.pump(d.Pump)
	v.rest(d)
	return v.inOrder()
}

// leastBore is the narrowest tank. An outlet too wide for one narrower still
// is not worth a second fault.
const leastBore = 50 * q.Millimetre

// The legs that a stand may have.
const (
	fewestLegs = 3
	mostLegs   = 6
)

// oversize returns the lists that are too long to look at any further.
func (d Design) oversize() (faults Faults) {
	for _, l := range [...]struct {
		path string
		n    int
	}{
		{"under", len(d.Under)}, {"run", len(d.Run)}, {"pump.curve", len(d.Pump.Curve)}, {"pump.slip", len(d.Pump.Slip)},
		{"delivery.pieces", len(d.Delivery.Pieces)}, {"measured", len(d.Measured)}, {"cleaning", len(d.Cleaning)}, {"made", len(d.Made)}, {"keepOuts", len(d.KeepOuts)}, {"assumed", len(d.Assumed)},
	} {
		if most := maxItems(l.path); l.n > most {
			faults = append(faults, Fault{
				Field: l.path, Given: strconv.Itoa(l.n) + " items",
				What: "is more than a list may hold, " + strconv.Itoa(most), Hint: "split the plant into more than one design",
			})
		}
	}
	return faults
}

// validator gathers faults.
type validator struct{ faults Faults }

func (v *validator) fault(path, given, what, hint string) {
	v.faults = append(v.faults, Fault{Field: path, Given: shorten(given), What: what, Hint: hint})
}

// words judges every field of words, and what reading a file would refuse.
func (v *validator) words(in record, path string) {
	leaves(in, path, func(in, name string, at any) {
		if words, ok := at.(*string); ok && !plain(*words) {
			if fault := judgeWords(within(in, name), *words); fault != nil {
				v.faults = append(v.faults, *fault)
			}
		}
	})
}

func (v *validator) tank(t Tank) {
	need(v, "tank.bore", t.Bore, leastBore, 10, "the inside diameter of the shell", "50 mm to 10 m")
	need(v, "tank.height", t.Height, 0, 20, "the straight side of the shell", "0 to 20 m")
	v.choice("tank.bottom", t.Bottom, bottoms)
	span(v, "tank.coneAngle", t.ConeAngle, rad(10), rad(170), "10° to 170°, the full angle of the cone")
	span(v, "tank.fill", t.Fill, 0.001, 2000, "1 L to 2000 m³")
	span(v, "tank.lowest", t.Lowest, 0, 20, "0 to 20 m")
	span(v, "tank.wall", t.Wall, 0.0005, 0.05, "0.5 mm to 50 mm")
	span(v, "tank.manway", t.Manway, 0, 30, "0 to 30 m, over the lowest inside point")
	span(v, "tank.seam", t.Seam, 0, 0.01, "0 to 10 mm")

	o := t.Outlet
	v.choice("tank.outlet.place", o.Place, places)
	span(v, "tank.outlet.above", o.Above, 0, 20, "0 to 20 m")
	span(v, "tank.outlet.stub", o.Stub, 0, 2, "0 to 2 m")
	span(v, "tank.outlet.fall", o.Fall, 0, 0.2, "level to 1:5")
	tube, ok := v.tube("tank.outlet.size", o.Size, true)
	if !ok {
		return
	}
	v.end("tank.outlet.end", o.End, tube, false)
	if t.Bore.Value() >= leastBore && tube.Bore() >= t.Bore.Value() {
		v.fault("tank.outlet.size", o.Size, "is wider than the tank, "+t.Bore.String(), "choose a smaller outlet, or check the bore of the tank")
	}
}

func (v *validator) stand(s Stand) {
	span(v, "stand.height", s.Height, 0.01, 20, "10 mm to 20 m")
	span(v, "stand.legTop", s.LegTop, -5, 20, "-5 m to 20 m, over the outlet face")
	span(v, "stand.foot", s.Foot, 0, 1, "0 to 1 m")
	if s.Legs != 0 && (s.Legs < fewestLegs || s.Legs > mostLegs) {
		v.fault("stand.legs", strconv.Itoa(s.Legs), "is not a number of legs that a tank stands on", "write 3 to 6")
	}
	span(v, "stand.bucket", s.Bucket, 0, 5, "0 to 5 m")
	span(v, "stand.clearance", s.Clearance, 0, 5, "0 to 5 m")
	span(v, "stand.stock", s.Stock, 0.5, 20, "500 mm to 20 m")
	span(v, "stand.kerf", s.Kerf, 0, 0.02, "0 to 20 mm")
	span(v, "stand.access", s.Access, 0, 5, "0 to 5 m")
	span(v, "stand.legOD", s.LegOD, 0.01, 0.5, "10 mm to 500 mm")
	span(v, "stand.legWall", s.LegWall, 0.0005, 0.05, "0.5 mm to 50 mm")
	if od, wall := s.LegOD.Or(usualLegOD.Value()), s.LegWall.Or(usualLegWall.Value()); wall > od/2 && od > 0 {
		v.fault("stand.legWall", s.LegWall.String(), "is more than half of the leg tube", "a tube of "+q.Text(od)+" has a wall of less than "+q.Text(od/2))
	}
	span(v, "stand.feet", s.Feet, 0.02, 20, "20 mm to 20 m, from the tank's axis")
	span(v, "stand.splay", s.Splay, 0, rad(45), "0° to 45° from upright")
	v.choice("stand.brace", s.Brace, braces)
	span(v, "stand.braceOD", s.BraceOD, 0.006, 0.5, "6 mm to 500 mm")
	span(v, "stand.pad", s.Pad, 0.01, 2, "10 mm to 2 m")
	span(v, "stand.adjust", s.Adjust, 0, 0.5, "0 to 500 mm")
	span(v, "stand.castors", s.Castors, 0, 0.3, "0 to 300 mm, wheel behind swivel")
	span(v, "stand.load", s.Load, 0, 1e5, "0 to 100 t")
}

func (v *validator) pump(p Pump) {
	v.choice("pump.kind", p.Kind, pumps)
	if p.Kind == NoPump {
		return // its other fields are kept and have no effect
	}
	need(v, "pump.away", p.Away, 0, 100, "how far the inlet face is from the tank's axis", "0 to 100 m")
	span(v, "pump.aside", p.Aside, -100, 100, "-100 m to 100 m, to the left")
	need(v, "pump.height", p.Height, -5, 20, "how high the inlet's centre is over the floor", "-5 m to 20 m")
	span(v, "pump.faces", p.Faces, rad(-360), rad(360), "-360° to 360°")
	if in, ok := v.tube("pump.inSize", p.InSize, true); ok {
		v.end("pump.inEnd", p.InEnd, in, false)
	}
	v.seal("pump.seal", p.Seal, true)
	span(v, "pump.outUp", p.OutUp, -2, 2, "-2 m to 2 m")
	span(v, "pump.outAhead", p.OutAhead, -2, 2, "-2 m to 2 m")
	size := either(p.OutSize, p.InSize)
	if out, ok := v.tube("pump.outSize", p.OutSize, false); ok || (p.OutSize == "" && size != "") {
		if p.OutSize == "" {
			out, ok = catalog.FindTube(size)
		}
		if ok {
			v.end("pump.outEnd", either(p.OutEnd, p.InEnd), out, false)
		}
	}
	span(v, "pump.rated", p.Rated, q.RPM, 20000*q.RPM, "1 rpm to 20000 rpm")
	span(v, "pump.speed", p.Speed, q.RPM, 20000*q.RPM, "1 rpm to 20000 rpm")
	if !p.Speed.IsZero() && p.Rated.IsZero() {
		v.fault("pump.rated", "", "is missing", "write the speed that the curve was taken at, so that it can be moved to "+p.Speed.String())
	}
	span(v, "pump.dryLift", p.DryLift, 0, 9.5, "0 to 9.5 m: no pump draws water higher")
	span(v, "pump.casing", p.Casing, 0, 0.2, "0 to 200 L")
	span(v, "pump.relief", p.Relief, 1e3, 1e8, "1 kPa to 1000 bar, over the pressure at the inlet")
	if Positive(p.Kind) {
		v.slip(p.Slip)
		return
	}
	v.curve(p.Curve)
}

// slip judges the points of a positive pump: its flow falls, if at all, as the pressure rises.
func (v *validator) slip(points []SlipPoint) {
	if len(points) < 2 {
		v.fault("pump.slip", "", "has fewer than two points", "write at least two points from the maker's sheet, each a pressure and its flow")
	}
	for i, p := range points {
		at := itemPath("pump.slip", i)
		need(v, at+".pressure", p.Pressure, 0, 1e8, "the pressure of the point, outlet less inlet", "0 to 1000 bar")
		need(v, at+".flow", p.Flow, 0, 1, "the flow of the point", "0 to 3600 m³/h")
		v.besides(at, p.HeadRequired, p.Efficiency)
		if i == 0 {
			continue
		}
		before := points[i-1]
		switch {
		case p.Pressure.IsZero() || before.Pressure.IsZero():
		case p.Pressure.Value() <= before.Pressure.Value():
			v.fault(at+".pressure", p.Pressure.String(), "is not more than the pressure of the point before it, "+before.Pressure.String(), "put the points in the order of their pressure")
		case p.Flow.IsZero() || before.Flow.IsZero():
		case p.Flow.Value() > before.Flow.Value():
			v.fault(at+".flow", p.Flow.String(), "is more than at the lower pressure before it, "+before.Flow.String(), "a positive pump slips more as the pressure rises: see which of the two was misread")
		}
	}
}

// besides judges what a point may say in addition.
func (v *validator) besides(at string, required q.Entered[q.Head], efficiency q.Entered[q.Fraction]) {
	span(v, at+".headRequired", required, 0, 100, "0 to 100 m")
	span(v, at+".efficiency", efficiency, 0.01, 1, "1 % to 100 %")
}

// curve judges the points of a pump's curve. A head that rises with the flow
// is refused: the pump could then run at two flows, and which one is chance.
func (v *validator) curve(points []CurvePoint) {
	if len(points) < 2 {
		v.fault("pump.curve", "", "has fewer than two points", "write at least two points from the maker's curve, or choose no pump")
	}
	for i, p := range points {
		at := itemPath("pump.curve", i)
		need(v, at+".flow", p.Flow, 0, 1, "the flow of the point", "0 to 3600 m³/h")
		need(v, at+".head", p.Head, 0, 1000, "the head of the point", "0 to 1000 m")
		v.besides(at, p.HeadRequired, p.Efficiency)
		if i == 0 {
			continue
		}
		before := points[i-1]
		switch {
		case p.Flow.IsZero() || before.Flow.IsZero():
		case p.Flow.Value() <= before.Flow.Value():
			v.fault(at+".flow", p.Flow.String(), "is not more than the flow of the point before it, "+before.Flow.String(), "put the points in the order of their flow")
		case p.Head.IsZero() || before.Head.IsZero():
		case p.Head.Value() > before.Head.Value():
			v.fault(at+".head", p.Head.String(), "is more than at the smaller flow before it, "+before.Head.String(),
				"Drawoff judges only curves whose head falls with the flow: start from the highest point")
		}
	}
}

func (v *validator) rest(d Design) {
	span(v, "delivery.height", d.Delivery.Height, -20, 100, "-20 m to 100 m")
	span(v, "delivery.away", d.Delivery.Away, -1000, 1000, "-1000 m to 1000 m")
	span(v, "delivery.aside", d.Delivery.Aside, -1000, 1000, "-1000 m to 1000 m")
	span(v, "delivery.flow", d.Delivery.Flow, 0.001*q.LitrePerMinute, 1, "1 mL/min to 3600 m³/h")

	v.liquid(d.Liquid)

	span(v, "site.altitude", d.Site.Altitude, -430, 5000, "-430 m to 5000 m")
	span(v, "site.ceiling", d.Site.Ceiling, 0.5, 50, "500 mm to 50 m")
	span(v, "site.door", d.Site.Door, 0.5, 50, "500 mm to 50 m")
	span(v, "site.doorWidth", d.Site.DoorWidth, 0.3, 50, "300 mm to 50 m")
	span(v, "site.floorFall", d.Site.FloorFall, 0, 0.2, "level to 1:5")
	span(v, "site.uneven", d.Site.Uneven, 0, 0.2, "0 to 200 mm")
	v.seal("seal", d.Seal, false)
	span(v, "finish", d.Finish, 0, 50e-6, "0 to 50 µm, as Ra")
	v.cleaning(d.Cleaning)
	v.wash(d.Wash, d.Vent)
	v.finder(d.KeepOuts, d.Finder)

	l := d.Limits
	span(v, "limits.suctionMargin", l.SuctionMargin, 0, 20, "0 to 20 m")
	span(v, "limits.suctionRatio", l.SuctionRatio, 1, 10, "1 to 10")
	span(v, "limits.suctionSpeed", l.SuctionSpeed, 0.1, 20, "0.1 m/s to 20 m/s")
	span(v, "limits.fall", l.Fall, 0, 1, "level to 1:1")
	span(v, "limits.boreStep", l.BoreStep, 0, 1, "0 to 100 %")
	span(v, "limits.gap", l.Gap, 0, 0.1, "0 to 100 mm")
	span(v, "limits.spring", l.Spring, 0, rad(10), "0 to 10°")
	span(v, "limits.floorSpace", l.FloorSpace, 0, 2, "0 to 2 m")
	span(v, "limits.tip", l.Tip, 0, rad(45), "0° to 45°")
	span(v, "limits.reach", l.Reach, 0.5, 20, "500 mm to 20 m")
	span(v, "limits.deadEnd", l.DeadEnd, 0, 100, "0 to 100 bores")
	span(v, "limits.drainTime", l.DrainTime, 1, 86400, "1 s to 24 h")

	v.measured(d.Measured)
	v.made(d.Made)
}

// measured judges lengths taken with a caliper. That the catalogue has such a
// dimension is for whoever uses it to say.
func (v *validator) measured(measured []Measurement) {
	seen := make(map[string]bool, len(measured))
	for i, m := range measured {
		at := itemPath("measured", i)
		switch {
		case strings.TrimSpace(m.Part) == "":
			v.fault(at+".part", "", "is missing", "name the dimension that was measured, like ring-joint/2in/liner/length")
		case seen[m.Part]:
			v.fault(at+".part", m.Part, "was measured already, further up", "keep one of the two")
		}
		seen[m.Part] = true
		need(v, at+".length", m.Length, 0.0001, 10, "what the caliper showed", "0.1 mm to 10 m")
	}
}

// finder judges what a run that is found goes round, and what is wished of it.
func (v *validator) finder(boxes []KeepOut, f Finder) {
	for i, k := range boxes {
		at := itemPath("keepOuts", i)
		span(v, at+".away", k.Away, -100, 100, "-100 m to 100 m, from the tank's axis")
		span(v, at+".aside", k.Aside, -100, 100, "-100 m to 100 m, to the left")
		span(v, at+".above", k.Above, -5, 100, "-5 m to 100 m, over the floor")
		need(v, at+".long", k.Long, 0.001, 200, "how far it goes away from the tank", "1 mm to 200 m")
		need(v, at+".wide", k.Wide, 0.001, 200, "how wide it is across that", "1 mm to 200 m")
		need(v, at+".high", k.High, 0.001, 100, "how high it is", "1 mm to 100 m")
	}
	v.tube("finder.size", f.Size, false)
	v.tube("finder.other", f.Other, false)
	v.choice("finder.joints", f.Joints, finderJoints)
	v.choice("finder.valve", f.Valve, finderValves)
	v.choice("finder.enters", f.Enters, finderEnters)
	span(v, "finder.faces", f.Faces, rad(-360), rad(360), "-360° to 360°")
	span(v, "finder.straight", f.Straight, 0, 2, "0 to 2 m")
	span(v, "finder.longest", f.Longest, 0.2, 20, "200 mm to 20 m")
	span(v, "finder.fall", f.Fall, 0, 0.5, "level to 1:2")
	span(v, "finder.room", f.Room, 0, 1, "0 to 1 m")
}

// cleaning judges what the line is cleaned with.
func (v *validator) cleaning(list []Cleaning) {
	for i, c := range list {
		at := itemPath("cleaning", i)
		if c.Agent == "" {
			v.fault(at+".agent", "", "is missing", "write "+or(slugs(Agents())))
		}
		v.choice(at+".agent", c.Agent, Agents())
		span(v, at+".temperature", c.Temperature, q.Celsius(-5), q.Celsius(150), "-5 °C to 150 °C")
		span(v, at+".strength", c.Strength, 0, 0.05, "0 to 5 %, of the pure agent by mass")
		span(v, at+".time", c.Time, 1, 24*q.Hour, "1 s to 24 h")
	}
}

// wash judges how it is cleaned, and how the tank breathes meanwhile.
func (v *validator) wash(w Wash, t Vent) {
	span(v, "wash.speed", w.Speed, 0.1, 10, "0.1 m/s to 10 m/s")
	span(v, "wash.flow", w.Flow, 0.1*q.LitrePerMinute, 1, "100 mL/min to 3600 m³/h")
	span(v, "wash.spray", w.Spray, 0.1*q.LitrePerMinute, 1, "100 mL/min to 3600 m³/h")
	span(v, "wash.pressure", w.Pressure, 1e3, 1e8, "1 kPa to 1000 bar, over the air's")
	span(v, "wash.scavenge", w.Scavenge, 0.1*q.LitrePerMinute, 1, "100 mL/min to 3600 m³/h")
	span(v, "wash.sump", w.Sump, 0, 1000, "0 to 1000 m³")
	span(v, "wash.supply", w.Supply, q.Celsius(0), q.Celsius(100), "0 °C to 100 °C")
	span(v, "wash.element", w.Element, 10, 1e7, "10 W to 10 MW")
	span(v, "wash.rinses", w.Rinses, 1, 100, "1 to 100")
	span(v, "vent.bore", t.Bore, 0.001, 2, "1 mm to 2 m")
	span(v, "vent.pressure", t.Pressure, 10, 5e3, "10 Pa to 5 kPa: Drawoff covers tanks that are open to the air")
	span(v, "vent.fill", t.Fill, 0.1*q.LitrePerMinute, 1, "100 mL/min to 3600 m³/h")
}

// span faults a quantity that was typed and lies outside low to high, in SI units.
func span[Q q.Quantity](v *validator, path string, e q.Entered[Q], low, high Q, limits string) {
	if !e.IsZero() && !(e.Value() >= low && e.Value() <= high) {
		v.fault(path, e.String(), "is outside what Drawoff handles", "write "+q.Local(limits))
	}
}

// need is span for a field that has no usual value.
func need[Q q.Quantity](v *validator, path string, e q.Entered[Q], low, high Q, meaning, limits string) {
	if e.IsZero() {
		v.fault(path, "", "is missing", "write "+meaning+", "+q.Local(limits))
		return
	}
	span(v, path, e, low, high, limits)
}

func rad(degrees float64) q.Angle { return q.Angle(degrees) * q.Degree }

func (v *validator) choice(path, given string, from []Choice) {
	if given == "" || slices.ContainsFunc(from, func(c Choice) bool { return c.Slug == given }) {
		return
	}
	v.fault(path, given, "is not one of the choices", pick(given, slugs(from)))
}

// tube faults a size that the catalogue does not know.
func (v *validator) tube(path, slug string, needed bool) (catalog.Tube, bool) {
	if slug == "" {
		if needed {
			v.fault(path, "", "is missing", "choose a size of tube, like bs-4825/2in")
		}
		return catalog.Tube{}, false
	}
	t, ok := catalog.FindTube(slug)
	if !ok {
		hint := "pick one of the sizes offered, like bs-4825/2in"
		if near := catalog.Nearest(slug); near != "" {
			hint = "perhaps " + near + " was meant"
		}
		v.fault(path, slug, "is not a tube in the catalogue", hint)
	}
	return t, ok
}

// end faults an end that is not made for tube t. Only a hose has a cut end.
func (v *validator) end(path, end string, t catalog.Tube, hose bool) {
	switch _, ok := catalog.FindHalf(end, t); {
	case !ok:
		v.fault(path, end, "is not an end that "+t.Name+" tube can carry", pick(end, endsFor(t, hose)))
	case catalog.OnHose(end) && !hose:
		v.fault(path, end, "is the cut end of a hose, which only a hose has", pick(end, endsFor(t, hose)))
	}
}

// seal faults a seal that is neither a material nor, where that is allowed,
// "none" or the seal of a named joint.
func (v *validator) seal(path, seal string, atJoint bool) {
	if seal == "" || (atJoint && seal == noSeal.Slug) {
		return
	}
	_, ok := catalog.FindMaterial(seal)
	if !ok && atJoint {
		if _, _, ok = catalog.FindSeal(seal); !ok && strings.Contains(seal, "/") {
			hint := "write a material, or a seal like ring-joint/2in/seal/epdm"
			if near := catalog.Nearest(seal); near != "" {
				hint = "perhaps " + near + " was meant"
			}
			v.fault(path, seal, "is not a seal in the catalogue", hint)
			return
		}
	}
	if !ok {
		choices := materials()
		if atJoint {
			choices = append(choices, noSeal)
		}
		v.fault(path, seal, "is not a seal material in the catalogue", pick(seal, slugs(choices)))
	}
}
