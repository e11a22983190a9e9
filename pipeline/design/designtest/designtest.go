// Package designtest draws random designs for property tests. Every design it
// draws is free of faults; most are plausible plants, and some lie at the
// edges of what Drawoff accepts.
package designtest

import (
	"fmt"
	"slices"
	"strconv"
	"unicode"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"pgregory.net/rapid"
)

// Design draws a design without faults.
func Design(t *rapid.T) design.Design {
	g := &generator{t: t, tubes: catalog.Tubes()}
	if g.rarely("any-series") {
		return g.design()
	}
	// A plant is mostly of one series of tube.
	series := rapid.SampledFrom(catalog.SeriesList()).Draw(t, "series").Slug
	g.tubes = slices.DeleteFunc(g.tubes, func(t catalog.Tube) bool { return t.Series != series })
	return g.design()
}

// Text draws words as a person, or somebody up to mischief, may type them:
// at most n characters, none of them a control character.
func Text(t *rapid.T, n int, label string) string {
	if rapid.IntRange(0, 9).Draw(t, label+"-mischief") == 0 {
		return rapid.SampledFrom([]string{`<script>alert(1)</script>`, `"'&<>`, `\u0000`, "../../", "🍐 perry", "null", " "}).Draw(t, label)
	}
	return rapid.StringOfN(rapid.RuneFrom(nil, unicode.L, unicode.N, unicode.P, unicode.Zs, unicode.Sm), 0, n, -1).Draw(t, label)
}

type generator struct {
	t     *rapid.T
	tubes []catalog.Tube
}

func (g *generator) design() design.Design {
	d := design.Design{
		Title: Text(g.t, 60, "title"),
		Note:  Text(g.t, 60, "note"),
		Tank:  g.tank(),
		Stand: g.stand(),
		Site: design.Site{
			Altitude: maybe(g, "altitude", func() q.Entered[q.Length] { return g.length("altitude", -430, 5000, 0, 2000) }),
			Ceiling:  maybe(g, "ceiling", func() q.Entered[q.Length] { return g.length("ceiling", 0.5, 50, 2.2, 5) }),

			Door:      maybe(g, "door", func() q.Entered[q.Length] { return g.length("door", 0.5, 50, 1.8, 3) }),
			DoorWidth: maybe(g, "door-width", func() q.Entered[q.Length] { return g.length("door-width", 0.3, 50, 0.7, 2) }),
			FloorFall: maybe(g, "floor-fall", func() q.Entered[q.Slope] { return g.fall("floor-fall", 0, 20) }),
			Uneven:    maybe(g, "uneven", func() q.Entered[q.Length] { return g.length("uneven", 0, 0.2, 0, 0.02) }),
		},
		Liquid: g.liquid(),
		Seal:   g.material("seal", ""),
		Limits: g.limits(),
	}
	for i := range rapid.SampledFrom([]int{0, 0, 1, 2, 3}).Draw(g.t, "cleaning") {
		at := "cleaning-" + strconv.Itoa(i)
		d.Cleaning = append(d.Cleaning, design.Cleaning{
			Agent:       rapid.SampledFrom(catalog.Agents()).Draw(g.t, at).Slug,
			Temperature: maybe(g, at+"-t", func() q.Entered[q.Temperature] { return typed[q.Temperature](g, at+"-t", -50, 1500, 10, "°C") }),
			Strength:    maybe(g, at+"-w", func() q.Entered[q.Fraction] { return typed[q.Fraction](g, at+"-w", 0, 50, 10, "%") }),
			Time:        maybe(g, at+"-time", func() q.Entered[q.Duration] { return typed[q.Duration](g, at+"-time", 1, 90, 1, "min") }),
		})
	}
	if g.rarely("wash") {
		d.Wash = design.Wash{
			Speed:    typed[q.Velocity](g, "wash-speed", 1, 100, 10, "m/s"),
			Flow:     maybe(g, "wash-flow", func() q.Entered[q.Flow] { return typed[q.Flow](g, "wash-flow", 1, 400, 1, "L/min") }),
			Spray:    maybe(g, "spray", func() q.Entered[q.Flow] { return typed[q.Flow](g, "spray", 1, 400, 1, "L/min") }),
			Pressure: maybe(g, "spray-pressure", func() q.Entered[q.Pressure] { return typed[q.Pressure](g, "spray-pressure", 1, 60, 10, "bar") }),
			Scavenge: maybe(g, "scavenge", func() q.Entered[q.Flow] { return typed[q.Flow](g, "scavenge", 1, 400, 1, "L/min") }),
			Sump:     typed[q.Volume](g, "sump", 0, 900, 1, "L"),
			Supply:   typed[q.Temperature](g, "supply", 0, 100, 1, "°C"),
			Element:  maybe(g, "element", func() q.Entered[q.Power] { return typed[q.Power](g, "element", 1, 600, 10, "kW") }),
			Rinses:   typed[q.Number](g, "rinses", 10, 100, 10, ""),
		}
		d.Vent = design.Vent{
			Bore:     maybe(g, "vent-bore", func() q.Entered[q.Length] { return g.length("vent-bore", 0.001, 2, 0.005, 0.2) }),
			Pressure: typed[q.Pressure](g, "vent-pressure", 1, 500, 100, "kPa"),
			Fill:     maybe(g, "vent-fill", func() q.Entered[q.Flow] { return typed[q.Flow](g, "vent-fill", 1, 400, 1, "L/min") }),
		}
	}
	for i := range rapid.SampledFrom([]int{0, 0, 0, 1, 2}).Draw(g.t, "keep-outs") {
		at := "keep-out-" + strconv.Itoa(i)
		side := func(name string) q.Entered[q.Length] { return g.length(at+name, 0.001, 100, 0.05, 2) }
		d.KeepOuts = append(d.KeepOuts, design.KeepOut{
			Away:  maybe(g, at+"-away", func() q.Entered[q.Length] { return g.length(at+"-away", -100, 100, -1, 3) }),
			Aside: maybe(g, at+"-aside", func() q.Entered[q.Length] { return g.length(at+"-aside", -100, 100, -2, 2) }),
			Above: maybe(g, at+"-above", func() q.Entered[q.Length] { return g.length(at+"-above", -5, 100, 0, 2) }),
			Long:  side("-long"), Wide: side("-wide"), High: side("-high"),
		})
	}
	for range rapid.SampledFrom([]int{0, 0, 0, 1, 3}).Draw(g.t, "assumed") {
		d.Assumed = append(d.Assumed, design.Assumption{Path: rapid.SampledFrom([]string{"tank.wall", "under.0", "run.1", "pump.curve", "liquid.kind"}).Draw(g.t, "assumes")})
	}
	d.Finder.Valve = rapid.SampledFrom([]string{"", "", "none", "start", "end"}).Draw(g.t, "finder-valve")
	d.Finder.Joints = rapid.SampledFrom([]string{"", "", "welded", "unions", "orbital"}).Draw(g.t, "finder-joints")
	d.Finder.Enters = rapid.SampledFrom([]string{"", "", "above", "side"}).Draw(g.t, "finder-enters")
	d.Finder.Straight = maybe(g, "finder-straight", func() q.Entered[q.Length] { return g.length("finder-straight", 0, 2, 0, 0.1) })
	d.Finder.Longest = maybe(g, "finder-longest", func() q.Entered[q.Length] { return g.length("finder-longest", 0.2, 20, 0.5, 6) })
	size := d.Tank.Outlet.Size
	d.Under, size = g.line("under", size, 6, false)
	gravity := g.rarely("gravity")
	d.Run, size = g.line("run", size, 8, !gravity)
	if gravity {
		d.Pump.Kind = design.NoPump
	} else {
		d.Pump = g.pump()
		size = d.Pump.InSize
		if d.Pump.OutSize != "" {
			size = d.Pump.OutSize
		}
	}
	d.Delivery.Pieces, _ = g.line("delivery", size, 5, true)
	d.Delivery.Height = maybe(g, "delivery-height", func() q.Entered[q.Length] { return g.length("delivery-height", -20, 100, 0, 4) })
	d.Delivery.Flow = maybe(g, "wanted", func() q.Entered[q.Flow] { return typed[q.Flow](g, "wanted", 1, 400, 1, "L/min") })
	d.Delivery.Aside = maybe(g, "delivery-aside", func() q.Entered[q.Length] { return g.length("delivery-aside", -1000, 1000, -3, 3) })
	d.Delivery.Away = maybe(g, "delivery-away", func() q.Entered[q.Length] { return g.length("delivery-away", -1000, 1000, 0, 10) })
	for i, part := range rapid.SliceOfNDistinct(rapid.SampledFrom(catalog.Joints()), 0, 2, func(j catalog.Joint) string { return j.Slug }).Draw(g.t, "measured") {
		d.Measured = append(d.Measured, design.Measurement{Part: part.Lengths[0].Slug, Length: g.length("measured-"+strconv.Itoa(i), 0.001, 10, 0.01, 0.1)})
	}
	if g.rarely("made") {
		first := design.Design{Under: d.Under[:min(2, len(d.Under))], Tank: d.Tank}
		row := first.Sizes()
		if len(row) > 0 && !slices.ContainsFunc(row, func(s design.Sized) bool { return s.Piece.Fit }) {
			d.Made = []design.Made{design.Kept("street bend", row)}
		}
	}
	return d
}

// liquid draws a liquid: those told by their own figures have all of them.
func (g *generator) liquid() design.Liquid {
	l := design.Liquid{
		Kind: g.oneOf("liquid", "", "water", "sugar", "fermented", "spirits", "milk", "skim", "cream", "whey",
			"caustic", "nitric", "phosphoric", "peracetic", design.Other, design.PowerLaw, design.Bingham),
		Strength:    maybe(g, "strength", func() q.Entered[q.Strength] { return typed[q.Strength](g, "strength", 0, 850, 10, "°P", "%", "°Bx") }),
		Alcohol:     maybe(g, "alcohol", func() q.Entered[q.Fraction] { return typed[q.Fraction](g, "alcohol", 0, 1000, 10, "%") }),
		Fat:         maybe(g, "fat", func() q.Entered[q.Fraction] { return typed[q.Fraction](g, "fat", 0, 500, 10, "%") }),
		Temperature: maybe(g, "temperature", func() q.Entered[q.Temperature] { return typed[q.Temperature](g, "temperature", -50, 1500, 10, "°C") }),
	}
	switch l.Kind {
	case design.Other, design.PowerLaw, design.Bingham:
		l.Density = typed[q.Density](g, "density", 500, 2500, 1, "kg/m³")
		l.Viscosity = typed[q.Viscosity](g, "viscosity", 1, 1000000, 10, "mPa·s", "cP")
		l.Consistency = typed[q.Consistency](g, "consistency", 1, 1000000, 1000, "Pa·sⁿ")
		l.Index = q.MustParse[q.Number](strconv.FormatFloat(float64(rapid.IntRange(10, 150).Draw(g.t, "index"))/100, 'f', -1, 64))
		l.Yield = typed[q.Pressure](g, "yield", 0, 20000, 10, "Pa")
		l.VapourPressure = maybe(g, "vapour", func() q.Entered[q.Pressure] { return typed[q.Pressure](g, "vapour", 0, 1000, 1, "kPa") })
		l.Medium = g.oneOf("medium", "", design.Unlike, "sugar", "citrus-oil")
	}
	return l
}

func (g *generator) tank() design.Tank {
	t := design.Tank{
		Bore:      g.length("bore", 0.3, 10, 0.4, 2.5),
		Height:    g.length("height", 0, 20, 0.3, 3),
		Bottom:    g.oneOf("bottom", "", "cone", "klopper", "korbbogen", "flat"),
		ConeAngle: maybe(g, "cone-angle", func() q.Entered[q.Angle] { return typed[q.Angle](g, "cone-angle", 10, 170, 1, "°", "deg") }),
		Fill:      maybe(g, "fill", func() q.Entered[q.Volume] { return typed[q.Volume](g, "fill", 10, 30000, 10, "L", "hL", "imp gal") }),
		Lowest:    maybe(g, "lowest", func() q.Entered[q.Length] { return g.length("lowest", 0, 20, 0, 0.3) }),
		Wall:      maybe(g, "wall", func() q.Entered[q.Length] { return g.length("wall", 0.0005, 0.05, 0.0015, 0.005) }),
		Manway:    maybe(g, "manway", func() q.Entered[q.Length] { return g.length("manway", 0, 30, 0.5, 3) }),
		Seam:      maybe(g, "seam", func() q.Entered[q.Length] { return g.length("seam", 0, 0.01, 0, 0.003) }),
	}
	tube := g.tube("outlet", 0.25) // narrower than the narrowest tank
	t.Outlet = design.Outlet{
		Place: g.oneOf("place", "", "bottom", "side"),
		Above: maybe(g, "above", func() q.Entered[q.Length] { return g.length("above", 0, 20, 0, 0.4) }),
		Stub:  maybe(g, "stub", func() q.Entered[q.Length] { return g.length("stub", 0, 2, 0.01, 0.1) }),
		Fall:  maybe(g, "outlet-fall", func() q.Entered[q.Slope] { return g.fall("outlet-fall", 0, 20) }),
		Size:  tube.Slug,
		End:   g.end("outlet-end", tube, false),
	}
	return t
}

func (g *generator) stand() design.Stand {
	return design.Stand{
		Height:    maybe(g, "stand-height", func() q.Entered[q.Length] { return g.length("stand-height", 0.01, 20, 0.3, 2) }),
		LegTop:    maybe(g, "leg-top", func() q.Entered[q.Length] { return g.length("leg-top", -5, 20, -0.1, 1) }),
		Foot:      maybe(g, "foot", func() q.Entered[q.Length] { return g.length("foot", 0, 1, 0, 0.1) }),
		Legs:      rapid.SampledFrom([]int{0, 3, 4, 5, 6}).Draw(g.t, "legs"),
		Bucket:    maybe(g, "bucket", func() q.Entered[q.Length] { return g.length("bucket", 0, 5, 0.1, 0.5) }),
		Clearance: maybe(g, "clearance", func() q.Entered[q.Length] { return g.length("clearance", 0, 5, 0, 0.3) }),
		Stock:     maybe(g, "stock", func() q.Entered[q.Length] { return g.length("stock", 0.5, 20, 3, 6) }),
		Kerf:      maybe(g, "kerf", func() q.Entered[q.Length] { return g.length("kerf", 0, 0.02, 0.001, 0.004) }),
		Access:    maybe(g, "access", func() q.Entered[q.Length] { return g.length("access", 0, 5, 0.08, 0.2) }),
		LegOD:     maybe(g, "leg-od", func() q.Entered[q.Length] { return g.length("leg-od", 0.01, 0.5, 0.03, 0.09) }),
		LegWall:   maybe(g, "leg-wall", func() q.Entered[q.Length] { return g.length("leg-wall", 0.0005, 0.005, 0.001, 0.003) }),
		Feet:      maybe(g, "feet", func() q.Entered[q.Length] { return g.length("feet", 0.02, 20, 0.2, 1.2) }),
		Splay:     maybe(g, "splay", func() q.Entered[q.Angle] { return typed[q.Angle](g, "splay", 0, 450, 10, "°") }),
		Brace:     g.oneOf("brace", "", "", design.NoBrace, design.DiagonalBrace),
		BraceOD:   maybe(g, "brace-od", func() q.Entered[q.Length] { return g.length("brace-od", 0.006, 0.5, 0.02, 0.06) }),
		Pad:       maybe(g, "pad", func() q.Entered[q.Length] { return g.length("pad", 0.01, 2, 0.04, 0.15) }),
		Adjust:    maybe(g, "adjust", func() q.Entered[q.Length] { return g.length("adjust", 0, 0.5, 0.01, 0.08) }),
		Castors:   maybe(g, "castors", func() q.Entered[q.Length] { return g.length("castors", 0, 0.3, 0.02, 0.05) }),
		Anchored:  g.rarely("anchored"),
		Load:      maybe(g, "load", func() q.Entered[q.Mass] { return typed[q.Mass](g, "load", 0, 3000, 10, "kg", "lb") }),
	}
}

func (g *generator) limits() design.Limits {
	if !g.rarely("limits") {
		return design.Limits{}
	}
	return design.Limits{
		SuctionMargin: typed[q.Head](g, "suction-margin", 0, 20, 10, "m", "ft"),
		SuctionRatio:  typed[q.Number](g, "suction-ratio", 10, 100, 10, ""),
		SuctionSpeed:  typed[q.Velocity](g, "suction-speed", 4, 60, 10, "m/s", "ft/s"),
		Fall:          g.fall("limits-fall", 0, 50),
		BoreStep:      typed[q.Fraction](g, "bore-step", 0, 100, 1, "%"),
		Gap:           g.length("gap", 0, 0.1, 0, 0.005),
		Spring:        typed[q.Angle](g, "spring", 0, 100, 10, "°"),
		FloorSpace:    g.length("floor-space", 0, 2, 0, 0.3),
		Tip:           typed[q.Angle](g, "tip", 0, 450, 10, "°"),
		Reach:         g.length("reach", 0.5, 20, 1.4, 2),
		DeadEnd:       typed[q.Number](g, "dead-end", 0, 100, 10, ""),
		DrainTime:     typed[q.Duration](g, "drain-time", 1, 1440, 1, "min", "s"),
	}
}

func (g *generator) pump() design.Pump {
	in := g.tube("pump-in", 1)
	p := design.Pump{
		Kind:     g.oneOf("pump-kind", "", design.Centrifugal, "", design.Lobe, design.Flexible, design.Peristaltic),
		Away:     g.length("away", 0, 100, 0.3, 6),
		Aside:    maybe(g, "aside", func() q.Entered[q.Length] { return g.length("aside", -100, 100, -2, 2) }),
		Height:   g.length("pump-height", -5, 20, 0.1, 0.6),
		Faces:    maybe(g, "faces", func() q.Entered[q.Angle] { return typed[q.Angle](g, "faces", -360, 360, 1, "°") }),
		InSize:   in.Slug,
		InEnd:    g.end("pump-in-end", in, false),
		Seal:     g.material("pump-seal", "none"),
		OutUp:    maybe(g, "out-up", func() q.Entered[q.Length] { return g.length("out-up", -2, 2, 0, 0.3) }),
		Casing:   maybe(g, "casing", func() q.Entered[q.Volume] { return typed[q.Volume](g, "casing", 0, 200, 10, "L") }),
		OutAhead: maybe(g, "out-ahead", func() q.Entered[q.Length] { return g.length("out-ahead", -2, 2, 0, 0.3) }),
	}
	if g.rarely("pump-out") {
		out := g.tube("pump-out", 1)
		p.OutSize, p.OutEnd = out.Slug, design.Weld
	}
	flow, head := 0, rapid.IntRange(20, 600).Draw(g.t, "shut-off")
	for i := range rapid.IntRange(2, 6).Draw(g.t, "points") {
		at := "point-" + strconv.Itoa(i)
		point := design.CurvePoint{
			Flow: q.MustParse[q.Flow](fmt.Sprintf("%d L/min", flow)),
			Head: q.MustParse[q.Head](fmt.Sprintf("%d.%d m", head/10, head%10)),
		}
		if g.often(at) {
			point.HeadRequired = typed[q.Head](g, at+"-required", 3, 60, 10, "m")
		}
		if g.rarely(at + "-efficiency") {
			point.Efficiency = typed[q.Fraction](g, at+"-efficiency", 1, 100, 1, "%")
		}
		p.Curve = append(p.Curve, point)
		flow += rapid.IntRange(1, 200).Draw(g.t, at+"-more")
		head = max(0, head-rapid.IntRange(0, 80).Draw(g.t, at+"-less"))
	}
	if design.Positive(p.Kind) || g.rarely("slip") {
		p.Slip = g.slip()
	}
	if g.rarely("pump-speed") {
		p.Rated = typed[q.Rotation](g, "rated", 10, 4000, 1, "rpm")
		p.Speed = maybe(g, "speed", func() q.Entered[q.Rotation] { return typed[q.Rotation](g, "speed", 10, 4000, 1, "rpm") })
	}
	p.DryLift = maybe(g, "dry-lift", func() q.Entered[q.Head] { return typed[q.Head](g, "dry-lift", 1, 95, 10, "m") })
	p.Relief = maybe(g, "relief", func() q.Entered[q.Pressure] { return typed[q.Pressure](g, "relief", 1, 200, 10, "bar") })
	return p
}

// slip draws the points of a positive pump.
func (g *generator) slip() []design.SlipPoint {
	var out []design.SlipPoint
	pressure, flow := rapid.IntRange(0, 10).Draw(g.t, "least-pressure"), rapid.IntRange(1, 300).Draw(g.t, "free-flow")
	for i := range rapid.IntRange(2, 5).Draw(g.t, "slips") {
		at := "slip-" + strconv.Itoa(i)
		point := design.SlipPoint{
			Pressure: q.MustParse[q.Pressure](fmt.Sprintf("%d.%d bar", pressure/10, pressure%10)),
			Flow:     q.MustParse[q.Flow](fmt.Sprintf("%d L/min", flow)),
		}
		if g.often(at) {
			point.HeadRequired = typed[q.Head](g, at+"-required", 3, 60, 10, "m")
		}
		out = append(out, point)
		pressure += rapid.IntRange(1, 30).Draw(g.t, at+"-more")
		flow = max(0, flow-rapid.IntRange(0, 20).Draw(g.t, at+"-less"))
	}
	return out
}

// line draws up to most pieces, the first on the tube called size, and
// returns the size that the last ends in.
func (g *generator) line(label, size string, most int, last bool) ([]design.Piece, string) {
	var pieces []design.Piece
	n := rapid.IntRange(0, most).Draw(g.t, label+"-pieces")
	for i := range n {
		p := g.piece(label+"-"+strconv.Itoa(i), &size)
		if p.Kind == design.Hose && last && i == n-1 && g.rarely(label+"-hose-fit") {
			p.Fit, p.Length = true, q.Entered[q.Length]{}
		}
		pieces = append(pieces, p)
	}
	return pieces, size
}

// piece draws a piece on the tube called *size, and sets *size to where it leads.
func (g *generator) piece(label string, size *string) design.Piece {
	p := design.Piece{
		Kind: rapid.SampledFrom(design.Kinds()).Draw(g.t, label+"-kind").Slug,
		Seal: g.material(label+"-seal", "none"),
	}
	p.Prepared = g.rarely(label + "-prepared")
	if g.rarely(label + "-named") {
		p.Name = Text(g.t, 30, label+"-name")
	}
	from, _ := catalog.FindTube(*size)
	if g.rarely(label + "-other-size") {
		from = g.tube(label+"-size", 1)
		p.Size = from.Slug
	}
	to := from
	p.In = g.end(label+"-in", from, p.Kind == design.Hose)
	switch p.Kind {
	case design.Straight:
		p.Fit = g.rarely(label + "-fit")
		if !p.Fit {
			p.Length = g.length(label+"-length", 0.001, 100, 0.05, 3)
		}
		p.Fall = maybe(g, label+"-fall", func() q.Entered[q.Slope] { return g.fall(label+"-fall", -20, 20) })
	case design.Bend:
		if made := catalog.BendShapes(from); len(made) > 0 {
			p.Shape = g.oneOf(label+"-shape", append(made, "")...)
		}
		p.Angle = maybe(g, label+"-angle", func() q.Entered[q.Angle] {
			return typed[q.Angle](g, label+"-angle", 1, 170, 1, "°", "degrees")
		})
		p.Turn = g.turn(label)
	case design.Reducer:
		to = g.tube(label+"-to", 1)
		p.To = to.Slug
		p.Shape = g.oneOf(label+"-shape", "", "concentric", "eccentric")
		p.Turn = g.turn(label)
		p.Length = g.measured(label)
	case design.Tee:
		p.Shape = g.oneOf(label+"-shape", "", "run", "branch")
		p.Third = g.oneOf(label+"-third", "", "cap", "valve")
		p.Turn = g.turn(label)
		if g.rarely(label + "-split") {
			least := -80
			if p.Shape == "branch" {
				least = 0
			}
			p.Share = typed[q.Fraction](g, label+"-share", least, 80, 1, "%")
		}
	case design.Cross:
		p.Third = g.oneOf(label+"-third", "", "cap", "valve")
		p.Fourth = g.oneOf(label+"-fourth", "", "cap", "valve")
		p.Turn = g.turn(label)
	case design.Pocket, design.Cock, design.Seat:
		p.Turn = g.turn(label)
	case design.Butterfly, design.Ball, design.Diaphragm, design.NonReturn, design.SightGlass:
		p.Length = g.measured(label)
		p.Open = maybe(g, label+"-open", func() q.Entered[q.Angle] { return typed[q.Angle](g, label+"-open", 25, 90, 1, "°") })
	case design.Hose:
		p.Length = g.length(label+"-length", 0.001, 100, 0.3, 5)
		p.Lining = g.oneOf(label+"-lining", "", "", "epdm", "nbr")
		p.Suction = g.rarely(label + "-suction")
		p.Roughness = maybe(g, label+"-rough", func() q.Entered[q.Length] { return g.length(label+"-rough", 0.001, 0.003, 0.001, 0.002) })
	case design.Device:
		p.Length = g.length(label+"-length", 0.001, 100, 0.1, 1)
		p.Kv = typed[q.Number](g, label+"-kv", 1, 1000, 10, "")
	}
	if p.Kind == design.Device || design.Drops(p.Kind) && g.rarely(label+"-measured") {
		g.drops(label, &p)
	}
	p.Out = g.end(label+"-out", to, p.Kind == design.Hose)
	*size = to.Slug
	return p
}

// drops draws points of what p drops.
func (g *generator) drops(label string, p *design.Piece) {
	flow, drop := 0, 0
	for i := range rapid.IntRange(0, 4).Draw(g.t, label+"-drops") {
		at := label + "-drop-" + strconv.Itoa(i)
		flow += rapid.IntRange(1, 100).Draw(g.t, at+"-flow")
		drop += rapid.IntRange(0, 100).Draw(g.t, at)
		p.Drops = append(p.Drops, design.DropPoint{
			Flow: q.MustParse[q.Flow](fmt.Sprintf("%d L/min", flow)),
			Drop: q.MustParse[q.Pressure](fmt.Sprintf("%d kPa", drop)),
		})
	}
	p.DropsIn = g.oneOf(label+"-drops-in", "", "water", design.OwnLiquid)
}

func (g *generator) turn(label string) q.Entered[q.Angle] {
	return maybe(g, label+"-turn", func() q.Entered[q.Angle] {
		return q.MustParse[q.Angle](rapid.SampledFrom([]string{"0°", "90°", "180°", "270°", "-90°", "37.5°"}).Draw(g.t, label+"-turn"))
	})
}

// measured draws the length of a fitting that somebody has in hand, now and then.
func (g *generator) measured(label string) q.Entered[q.Length] {
	if !g.rarely(label + "-measured") {
		return q.Entered[q.Length]{}
	}
	return g.length(label+"-measured", 0.001, 100, 0.03, 0.3)
}

// tube draws a tube under the given bore.
func (g *generator) tube(label string, under q.Length) catalog.Tube {
	fit := slices.DeleteFunc(slices.Clone(g.tubes), func(t catalog.Tube) bool { return t.Bore() >= under })
	return rapid.SampledFrom(fit).Draw(g.t, label)
}

func (g *generator) end(label string, t catalog.Tube, hose bool) string {
	ends := append([]string{""}, catalog.Ends(t)...)
	if !hose {
		ends = slices.DeleteFunc(ends, catalog.OnHose)
	}
	return g.oneOf(label, ends...)
}

func (g *generator) material(label, also string) string {
	if g.often(label + "-usual") {
		return ""
	}
	words := []string{"", also}
	for _, m := range catalog.Materials() {
		words = append(words, m.Slug)
	}
	return g.oneOf(label, words...)
}

// length draws a length in metres between low and high, mostly between
// usualLow and usualHigh, in one of the units that people use.
func (g *generator) length(label string, low, high, usualLow, usualHigh float64) q.Entered[q.Length] {
	if !g.rarely(label + "-extreme") {
		low, high = usualLow, usualHigh
	}
	switch g.oneOf(label+"-unit", "mm", "cm", "m", "in") {
	case "cm":
		n := rapid.IntRange(ceil(low*1000), floor(high*1000)).Draw(g.t, label)
		return q.MustParse[q.Length](strconv.FormatFloat(float64(n)/10, 'f', 1, 64) + " cm")
	case "m":
		n := rapid.IntRange(ceil(low*1000), floor(high*1000)).Draw(g.t, label)
		return q.MustParse[q.Length](strconv.FormatFloat(float64(n)/1000, 'f', 3, 64) + " m")
	case "in":
		if from, to := ceil(low/0.0254*16), floor(high/0.0254*16); from <= to {
			n := rapid.IntRange(from, to).Draw(g.t, label)
			return q.MustParse[q.Length](strconv.FormatFloat(float64(n)/16, 'f', 4, 64) + " in")
		}
	}
	n := rapid.IntRange(ceil(low*1000), floor(high*1000)).Draw(g.t, label)
	return q.MustParse[q.Length](strconv.Itoa(n) + " mm")
}

func ceil(x float64) int {
	n := int(x)
	if float64(n) < x-1e-9 {
		n++
	}
	return n
}

func floor(x float64) int { return -ceil(-x) }

// fall draws a fall between from and to parts in a hundred.
func (g *generator) fall(label string, from, to int) q.Entered[q.Slope] {
	n := rapid.IntRange(from, to).Draw(g.t, label)
	switch g.oneOf(label+"-unit", "%", "mm/m", ":") {
	case "%":
		return q.MustParse[q.Slope](fmt.Sprintf("%d %%", n))
	case "mm/m":
		return q.MustParse[q.Slope](fmt.Sprintf("%d mm/m", 10*n))
	}
	if n == 0 {
		return q.MustParse[q.Slope]("level")
	}
	return q.MustParse[q.Slope](fmt.Sprintf("%d:100", n))
}

// typed draws a number from low/by to high/by in one of units.
func typed[Q q.Quantity](g *generator, label string, low, high, by int, units ...string) q.Entered[Q] {
	n := rapid.IntRange(low, high).Draw(g.t, label)
	return q.MustParse[Q](strconv.FormatFloat(float64(n)/float64(by), 'f', -1, 64) + " " + g.oneOf(label+"-unit", units...))
}

// maybe draws a field or leaves it empty.
func maybe[Q q.Quantity](g *generator, label string, draw func() q.Entered[Q]) q.Entered[Q] {
	if g.often(label + "-empty") {
		return q.Entered[Q]{}
	}
	return draw()
}

func (g *generator) oneOf(label string, words ...string) string {
	return rapid.SampledFrom(words).Draw(g.t, label)
}

func (g *generator) rarely(label string) bool {
	return rapid.IntRange(0, 5).Draw(g.t, label+"?") == 5
}

func (g *generator) often(label string) bool {
	return rapid.IntRange(0, 5).Draw(g.t, label+"?") < 3
}
