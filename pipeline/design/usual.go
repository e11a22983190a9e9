package design

import (
	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// The usual values of fields left empty, in the words a person would type.
// This is their only home: the rooms read filled designs, and forms show
// what Filled puts into a field as its placeholder.
var (
	usualConeAngle   = q.MustParse[q.Angle]("60°")
	usualLowest      = q.MustParse[q.Length]("50 mm")
	usualStub        = q.MustParse[q.Length]("40 mm")
	usualZeroLength  = q.MustParse[q.Length]("0 mm")
	usualClearance   = q.MustParse[q.Length]("20 mm")
	usualStock       = q.MustParse[q.Length]("6 m")
	usualKerf        = q.MustParse[q.Length]("2.5 mm")
	usualWall        = q.MustParse[q.Length]("2 mm")
	usualSeam        = q.MustParse[q.Length]("1 mm")
	usualLegOD       = q.MustParse[q.Length]("48.3 mm")
	usualLegWall     = q.MustParse[q.Length]("2 mm")
	usualBraceOD     = q.MustParse[q.Length]("33.7 mm")
	usualPad         = q.MustParse[q.Length]("60 mm")
	usualLoad        = q.MustParse[q.Mass]("0 kg")
	usualFloorFall   = q.MustParse[q.Slope]("level")
	usualUneven      = q.MustParse[q.Length]("5 mm")
	usualTemperature = q.MustParse[q.Temperature]("20 °C")
	usualStrength    = q.MustParse[q.Strength]("10 °P")
	usualExtract     = q.MustParse[q.Strength]("2 %")
	usualCaustic     = q.MustParse[q.Strength]("2 %")
	usualAcid        = q.MustParse[q.Strength]("1 %")
	usualPeracetic   = q.MustParse[q.Strength]("0.2 %")
	usualAlcohol     = q.MustParse[q.Fraction]("6 %")
	usualSpirits     = q.MustParse[q.Fraction]("40 %")
	usualFat         = q.MustParse[q.Fraction]("4 %")
	usualSkim        = q.MustParse[q.Fraction]("0.1 %")
	usualCream       = q.MustParse[q.Fraction]("30 %")
	usualBendAngle   = q.MustParse[q.Angle]("90°")
	usualZeroAngle   = q.MustParse[q.Angle]("0°")
	usualOpen        = q.MustParse[q.Angle]("90°")
	usualShare       = q.MustParse[q.Fraction]("0 %")
	usualRubber      = q.MustParse[q.Length]("0.01 mm")
	usualFinish      = q.MustParse[q.Length]("0.8 µm")

	usualCasing = q.MustParse[q.Volume]("0.5 L")
	usualWash   = Wash{
		Speed:    q.MustParse[q.Velocity]("1.5 m/s"),
		Pressure: q.MustParse[q.Pressure]("1 bar"),
		Sump:     q.MustParse[q.Volume]("30 L"),
		Supply:   q.MustParse[q.Temperature]("10 °C"),
		Rinses:   q.MustParse[q.Number]("3"),
	}
	usualRinse        = q.MustParse[q.Duration]("1 min")
	usualSoak         = q.MustParse[q.Duration]("20 min") // in caustic
	usualStep         = q.MustParse[q.Duration]("10 min")
	usualVentPressure = q.MustParse[q.Pressure]("0.25 kPa")

	usualLongest = q.MustParse[q.Length]("2 m")
	usualRoom    = q.MustParse[q.Length]("10 mm")

	usualLimits = Limits{
		SuctionMargin: q.MustParse[q.Head]("0.6 m"),
		SuctionRatio:  q.MustParse[q.Number]("1.1"),
		SuctionSpeed:  q.MustParse[q.Velocity]("2.4 m/s"),
		Fall:          q.MustParse[q.Slope]("1:100"),
		BoreStep:      q.MustParse[q.Fraction]("15 %"),
		Gap:           q.MustParse[q.Length]("1 mm"),
		Spring:        q.MustParse[q.Angle]("1.5°"),
		FloorSpace:    q.MustParse[q.Length]("150 mm"),
		Tip:           q.MustParse[q.Angle]("10°"),
		DeadEnd:       q.MustParse[q.Number]("2"),
		DrainTime:     q.MustParse[q.Duration]("5 min"),
	}
)

// Filled returns d with the usual value in every empty field that has one.
// What depends on more than one field stays empty: the fill of the tank, the
// height of the stand and the top of its legs, the size of a piece that follows
// another.
func (d Design) Filled() Design {
	d.Seal = either(d.Seal, "epdm")
	d.Finish = usually(d.Finish, usualFinish)

	d.Tank.Bottom = either(d.Tank.Bottom, "cone")
	d.Tank.ConeAngle = usually(d.Tank.ConeAngle, usualConeAngle)
	d.Tank.Lowest = usually(d.Tank.Lowest, usualLowest)
	d.Tank.Outlet.Place = either(d.Tank.Outlet.Place, "bottom")
	d.Tank.Outlet.Stub = usually(d.Tank.Outlet.Stub, usualStub)
	d.Tank.Outlet.End = either(d.Tank.Outlet.End, Weld)
	d.Tank.Wall = usually(d.Tank.Wall, usualWall)
	d.Tank.Seam = usually(d.Tank.Seam, usualSeam)

	d.Stand.Foot = usually(d.Stand.Foot, usualZeroLength)
	if d.Stand.Legs == 0 {
		d.Stand.Legs = 3
	}
	d.Stand.Bucket = usually(d.Stand.Bucket, usualZeroLength)
	d.Stand.Clearance = usually(d.Stand.Clearance, usualClearance)
	d.Stand.Stock = usually(d.Stand.Stock, usualStock)
	d.Stand.Kerf = usually(d.Stand.Kerf, usualKerf)
	d.Stand.Access = usually(d.Stand.Access, usualZeroLength)
	d.Stand.LegOD = usually(d.Stand.LegOD, usualLegOD)
	d.Stand.LegWall = usually(d.Stand.LegWall, usualLegWall)
	d.Stand.Splay = usually(d.Stand.Splay, usualZeroAngle)
	d.Stand.Brace = either(d.Stand.Brace, NoBrace)
	d.Stand.BraceOD = usually(d.Stand.BraceOD, usualBraceOD)
	d.Stand.Pad = usually(d.Stand.Pad, usualPad)
	d.Stand.Adjust = usually(d.Stand.Adjust, usualZeroLength)
	d.Stand.Load = usually(d.Stand.Load, usualLoad)

	d.Pump.Kind = either(d.Pump.Kind, "centrifugal")
	d.Pump.Aside = usually(d.Pump.Aside, usualZeroLength)
	d.Pump.Faces = usually(d.Pump.Faces, usualZeroAngle)
	d.Pump.InEnd = either(d.Pump.InEnd, Weld)
	d.Pump.OutUp = usually(d.Pump.OutUp, usualZeroLength)
	d.Pump.OutAhead = usually(d.Pump.OutAhead, usualZeroLength)
	d.Pump.OutSize = either(d.Pump.OutSize, d.Pump.InSize)
	d.Pump.OutEnd = either(d.Pump.OutEnd, d.Pump.InEnd)
	d.Pump.Speed = usually(d.Pump.Speed, d.Pump.Rated)
	d.Pump.Casing = usually(d.Pump.Casing, usualCasing)

	d.Liquid.Kind = either(d.Liquid.Kind, "water")
	d.Liquid.Temperature = usually(d.Liquid.Temperature, usualTemperature)
	switch d.Liquid.Kind {
	case "sugar":
		d.Liquid.Strength = usually(d.Liquid.Strength, usualStrength)
	case "fermented":
		d.Liquid.Strength = usually(d.Liquid.Strength, usualExtract)
		d.Liquid.Alcohol = usually(d.Liquid.Alcohol, usualAlcohol)
	case "spirits":
		d.Liquid.Alcohol = usually(d.Liquid.Alcohol, usualSpirits)
	case "milk":
		d.Liquid.Fat = usually(d.Liquid.Fat, usualFat)
	case "skim":
		d.Liquid.Fat = usually(d.Liquid.Fat, usualSkim)
	case "cream":
		d.Liquid.Fat = usually(d.Liquid.Fat, usualCream)
	case "caustic":
		d.Liquid.Strength = usually(d.Liquid.Strength, usualCaustic)
	case "nitric", "phosphoric":
		d.Liquid.Strength = usually(d.Liquid.Strength, usualAcid)
	case "peracetic":
		d.Liquid.Strength = usually(d.Liquid.Strength, usualPeracetic)
	case Other, PowerLaw, Bingham:
		d.Liquid.Medium = either(d.Liquid.Medium, Unlike)
	}
	d.Site.Altitude = usually(d.Site.Altitude, usualZeroLength)
	d.Site.FloorFall = usually(d.Site.FloorFall, usualFloorFall)
	d.Site.Uneven = usually(d.Site.Uneven, usualUneven)

	d.Limits.SuctionMargin = usually(d.Limits.SuctionMargin, usualLimits.SuctionMargin)
	d.Limits.SuctionRatio = usually(d.Limits.SuctionRatio, usualLimits.SuctionRatio)
	d.Limits.SuctionSpeed = usually(d.Limits.SuctionSpeed, usualLimits.SuctionSpeed)
	d.Limits.Fall = usually(d.Limits.Fall, usualLimits.Fall)
	d.Limits.BoreStep = usually(d.Limits.BoreStep, usualLimits.BoreStep)
	d.Limits.Gap = usually(d.Limits.Gap, usualLimits.Gap)
	d.Limits.Spring = usually(d.Limits.Spring, usualLimits.Spring)
	d.Limits.FloorSpace = usually(d.Limits.FloorSpace, usualLimits.FloorSpace)
	d.Limits.Tip = usually(d.Limits.Tip, usualLimits.Tip)
	d.Limits.DeadEnd = usually(d.Limits.DeadEnd, usualLimits.DeadEnd)
	d.Limits.DrainTime = usually(d.Limits.DrainTime, usualLimits.DrainTime)

	d.KeepOuts = copied(d.KeepOuts)
	for i := range d.KeepOuts {
		k := &d.KeepOuts[i]
		k.Away = usually(k.Away, usualZeroLength)
		k.Aside = usually(k.Aside, usualZeroLength)
		k.Above = usually(k.Above, usualZeroLength)
	}
	d.Finder.Size = either(d.Finder.Size, d.Pump.InSize)
	d.Finder.Valve = either(d.Finder.Valve, "none")
	d.Finder.Longest = usually(d.Finder.Longest, usualLongest)
	d.Finder.Fall = usually(d.Finder.Fall, d.Limits.Fall)
	d.Finder.Room = usually(d.Finder.Room, usualRoom)

	d.Cleaning = copied(d.Cleaning)
	for i, c := range d.Cleaning {
		if a, ok := catalog.FindAgent(c.Agent); ok {
			d.Cleaning[i].Temperature = usually(c.Temperature, usualOf(a))
			if a.Strength > 0 {
				d.Cleaning[i].Strength = usually(c.Strength, q.MustParse[q.Fraction](q.Of(a.Strength).Text(q.Metric)))
			}
			d.Cleaning[i].Time = usually(c.Time, usualTime(c.Agent))
		}
	}
	d.Wash.Speed = usually(d.Wash.Speed, usualWash.Speed)
	d.Wash.Pressure = usually(d.Wash.Pressure, usualWash.Pressure)
	d.Wash.Sump = usually(d.Wash.Sump, usualWash.Sump)
	d.Wash.Supply = usually(d.Wash.Supply, usualWash.Supply)
	d.Wash.Rinses = usually(d.Wash.Rinses, usualWash.Rinses)
	d.Vent.Pressure = usually(d.Vent.Pressure, usualVentPressure)
	d.Under = filled(d.Under)
	d.Run = filled(d.Run)
	d.Delivery.Pieces = filled(d.Delivery.Pieces)
	return d
}

// filled returns a copy of pieces with their usual values.
func filled(pieces []Piece) []Piece {
	out := make([]Piece, len(pieces))
	for i, p := range pieces {
		p.In = either(p.In, Weld)
		p.Out = either(p.Out, Weld)
		if len(p.Drops) > 0 {
			p.DropsIn = either(p.DropsIn, "water")
		}
		switch p.Kind {
		case Bend:
			p.Angle = usually(p.Angle, usualBendAngle)
			p.Turn = usually(p.Turn, usualZeroAngle)
		case Reducer:
			p.Shape = either(p.Shape, "concentric")
			p.Turn = usually(p.Turn, usualZeroAngle)
		case Pocket, Cock, Seat:
			p.Turn = usually(p.Turn, usualZeroAngle)
		case Cross:
			p.Third = either(p.Third, "cap")
			p.Fourth = either(p.Fourth, "cap")
			p.Turn = usually(p.Turn, usualZeroAngle)
		case Tee:
			p.Shape = either(p.Shape, "run")
			p.Third = either(p.Third, "cap")
			p.Turn = usually(p.Turn, usualZeroAngle)
			p.Share = usually(p.Share, usualShare)
		case Butterfly, Ball:
			p.Open = usually(p.Open, usualOpen)
		case Hose:
			p.Roughness = usually(p.Roughness, usualRubber)
		}
		out[i] = p
	}
	return out
}

// UsualCleaning is the wash that a plant is taken to get when nothing is
// said, each step as is usual for its agent: rinsed, washed with caustic,
// rinsed, washed with acid, rinsed, and scalded. Common practice, no source.
func UsualCleaning() []Cleaning {
	return []Cleaning{{Agent: "water"}, {Agent: "caustic"}, {Agent: "water"}, {Agent: "phosphoric"}, {Agent: "water"}, {Agent: "hot-water"}}
}

// usualTime returns how long a step usually runs. Common practice, no source.
func usualTime(agent string) q.Entered[q.Duration] {
	switch agent {
	case "water":
		return usualRinse
	case "caustic":
		return usualSoak
	}
	return usualStep
}

// usualOf returns the temperature at which an agent is usually used.
func usualOf(a catalog.Agent) q.Entered[q.Temperature] {
	return q.MustParse[q.Temperature](q.Of(a.Usual).Text(q.Metric))
}

func either(given, usual string) string {
	if given == "" {
		return usual
	}
	return given
}

func usually[Q q.Quantity](given, usual q.Entered[Q]) q.Entered[Q] {
	if given.IsZero() {
		return usual
	}
	return given
}
