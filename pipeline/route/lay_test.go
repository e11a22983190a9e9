package route_test

import (
	"fmt"
	"math"
	"testing"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func length(s string) q.Entered[q.Length] { return q.MustParse[q.Length](s) }
func angle(s string) q.Entered[q.Angle]   { return q.MustParse[q.Angle](s) }
func slope(s string) q.Entered[q.Slope]   { return q.MustParse[q.Slope](s) }

// nanometre is what positions computed two ways may differ by: rounding only.
const nanometre = 1e-9

// perry is a small plant: a cone-bottomed tank, a stack under it and a run to
// a pump that stands to the left.
func perry() design.Design {
	return design.Design{
		Tank: design.Tank{
			Bore:   length("1.1 m"),
			Height: length("1 m"),
			Outlet: design.Outlet{Size: "bs-4825/2.5in", End: "ring-joint/male"},
		},
		Under: []design.Piece{
			{Kind: design.Butterfly, In: "ring-joint/liner", Out: "ring-joint/male"},
			{Kind: design.Reducer, To: "bs-4825/1.5in", In: "ring-joint/liner", Out: "clamp/ferrule"},
			{Kind: design.Straight, Fit: true, In: "clamp/ferrule"},
			{Kind: design.Bend},
		},
		Run: []design.Piece{
			{Kind: design.Straight, Fall: slope("1:80"), Fit: true, Out: "clamp/ferrule"},
			{Kind: design.Ball, In: "clamp/ferrule", Out: "clamp/ferrule"},
			{Kind: design.Tee, Turn: angle("90°"), In: "clamp/ferrule", Out: "clamp/ferrule"},
			{Kind: design.Bend, Turn: angle("-90°"), In: "clamp/ferrule"},
			{Kind: design.Straight, Fit: true},
			{Kind: design.Bend, Turn: angle("90°"), Out: "clamp/ferrule"},
		},
		Pump: design.Pump{
			Away: length("2.4 m"), Aside: length("600 mm"), Height: length("300 mm"),
			InSize: "bs-4825/1.5in", InEnd: "clamp/ferrule",
		},
		Delivery: design.Delivery{
			Pieces: []design.Piece{
				{Kind: design.Straight, Fit: true, In: "clamp/ferrule"},
				{Kind: design.Bend},
				{Kind: design.Straight, Length: length("1.5 m")},
			},
			Height: length("2.1 m"),
		},
	}
}

// below hangs pieces under a plain outlet of size and lays them, no pump.
func below(size string, pieces ...design.Piece) route.Layout {
	return route.Lay(design.Design{
		Tank:  design.Tank{Bore: length("1 m"), Outlet: design.Outlet{Size: size}},
		Under: pieces,
		Pump:  design.Pump{Kind: "none"},
	}.Filled(), 1)
}

// aside leads pieces from a plain side outlet of size: they start level, along +x.
func aside(size string, pieces ...design.Piece) route.Layout {
	return route.Lay(design.Design{
		Tank:  design.Tank{Bore: length("1 m"), Outlet: design.Outlet{Size: size, Place: "side", Stub: length("40 mm")}},
		Under: pieces,
		Pump:  design.Pump{Kind: "none"},
	}.Filled(), 1)
}

func near(t assert.TestingT, want, got route.Vec) {
	assert.InDelta(t, 0, float64(want.Sub(got).Len()), nanometre, "want %v, got %v", want, got)
}

func TestOutlet(t *testing.T) {
	t.Parallel()
	l := below("bs-4825/2in")
	near(t, route.Vec{Z: 1}, l.Outlet.At)
	near(t, route.Vec{Z: -1}, l.Outlet.Dir)
	l = aside("bs-4825/2in")
	near(t, route.Vec{X: 0.54, Z: 1}, l.Outlet.At)
	near(t, route.Vec{X: 1}, l.Outlet.Dir)
}

// Centre to end, mm: BS 4825-2 table of bends, from a stockholder's reproduction.
func TestBendTakeOuts(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		size        string
		short, long float64
	}{
		{"1in", 43.5, 65}, {"1.5in", 63.5, 85}, {"2in", 88.5, 110},
		{"2.5in", 113.5, 135}, {"3in", 133.5, 155}, {"4in", 173.5, 195},
	} {
		for shape, a := range map[string]float64{"short": row.short / 1000, "long": row.long / 1000} {
			p := below("bs-4825/"+row.size, design.Piece{Kind: design.Bend, Shape: shape}).Under[0]
			near(t, route.Vec{X: a, Z: 1 - a}, p.Out.At)
			near(t, route.Vec{X: 1}, p.Out.Dir)
			assert.InDelta(t, 2*a-2*float64(p.Radius)+float64(p.Radius)*math.Pi/2, float64(p.Length), nanometre, "two legs and a quarter circle")
		}
	}
}

// How a turn is counted, in words in package design: a level flow along +x has
// right at -y; a flow running down has 0° at +x and, facing the pump, right at -y.
func TestTurn(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		lay  func(string, ...design.Piece) route.Layout
		turn string
		want route.Vec
	}{
		{aside, "0°", route.Vec{Z: 1}},
		{aside, "90°", route.Vec{Y: -1}},
		{aside, "180°", route.Vec{Z: -1}},
		{aside, "270°", route.Vec{Y: 1}},
		{aside, "-90°", route.Vec{Y: 1}},
		{below, "0°", route.Vec{X: 1}},
		{below, "90°", route.Vec{Y: -1}},
		{below, "180°", route.Vec{X: -1}},
		{below, "270°", route.Vec{Y: 1}},
	} {
		p := c.lay("bs-4825/2in", design.Piece{Kind: design.Bend, Turn: angle(c.turn)}).Under[0]
		near(t, c.want, p.Out.Dir)
	}
}

// A rolled offset: two equal bends turned opposite ways shift the line by
// travel x sin(angle) across and travel x cos(angle) along, travel being
// measured between the points where the axes cross (common practice in pipe
// fitting, no source). The roll splits the offset into cos and sin of it.
func TestRolledOffset(t *testing.T) {
	t.Parallel()
	for _, roll := range []float64{0, 30, 45, 110, 200} {
		l := below("bs-4825/2in",
			design.Piece{Kind: design.Bend, Angle: angle("45°"), Turn: angle(fmt.Sprintf("%v°", roll))},
			design.Piece{Kind: design.Straight, Length: length("400 mm")},
			design.Piece{Kind: design.Bend, Angle: angle("45°"), Turn: angle("180°")},
		)
		end := l.Under[2].Out
		b, ok := catalog.BendOf(l.Outlet.Half.Tube, "", 45*q.Degree)
		require.True(t, ok)
		a := float64(b.CentreToEnd.Length)
		travel := 0.4 + 2*a
		offset, advance := travel*math.Sin(math.Pi/4), travel*math.Cos(math.Pi/4)
		r := roll * math.Pi / 180
		near(t, route.Vec{X: offset * math.Cos(r), Y: -offset * math.Sin(r), Z: 1 - a - advance - a}, end.At)
		near(t, route.Vec{Z: -1}, end.Dir)
	}
}

// 1:100 over a level run of 3 m is 30 mm: the meaning of a fall.
func TestFall(t *testing.T) {
	t.Parallel()
	cut := math.Hypot(3, 0.03)
	l := aside("bs-4825/1.5in", design.Piece{Kind: design.Straight, Fall: slope("1:100"), Length: length(fmt.Sprintf("%.12f m", cut))})
	p := l.Under[0]
	near(t, route.Vec{X: 0.54 + 3, Z: 1 - 0.03}, p.Out.At)
	assert.InDelta(t, math.Atan(0.01), float64(p.Spring), 1e-12)
	assert.InDelta(t, cut, float64(p.Cut), nanometre)

	// What runs straight down has no fall to be laid to, and says so.
	steep := below("bs-4825/1.5in", design.Piece{Kind: design.Straight, Fall: slope("1:100"), Length: length("1 m")}).Under[0]
	assert.True(t, steep.Unlaid)
	assert.Zero(t, steep.Spring)
	near(t, route.Vec{}, steep.Out.At)
}

// The flat side of an eccentric reducer keeps the wall of the bore in line.
func TestEccentricReducer(t *testing.T) {
	t.Parallel()
	reduce := func(shape, turn string) route.Piece {
		return aside("bs-4825/2.5in", design.Piece{Kind: design.Reducer, To: "bs-4825/1.5in", Shape: shape, Turn: angle(turn)}).Under[0]
	}
	bottom := func(e route.End) float64 { return e.At.Z - float64(e.Bore())/2 }
	top := func(e route.End) float64 { return e.At.Z + float64(e.Bore())/2 }
	right := func(e route.End) float64 { return e.At.Y - float64(e.Bore())/2 }

	down, up, side := reduce("eccentric", "180°"), reduce("eccentric", "0°"), reduce("eccentric", "90°")
	assert.InDelta(t, bottom(down.In), bottom(down.Out), nanometre)
	assert.InDelta(t, top(up.In), top(up.Out), nanometre)
	assert.InDelta(t, right(side.In), right(side.Out), nanometre)
	near(t, route.Vec{X: 1}, down.Out.Dir)
	concentric := reduce("concentric", "180°")
	assert.InDelta(t, concentric.In.At.Z, concentric.Out.At.Z, nanometre)
	assert.Equal(t, "concentric reducer, 2½ to 1½ in", concentric.Label)
	assert.Equal(t, concentric.Out.Bore(), concentric.Path[0].BoreTo)
}

// BS 4825-2: tees have the centre to end of the bends of their size.
func TestTee(t *testing.T) {
	t.Parallel()
	const a = 0.0885 // 2 in
	run := aside("bs-4825/2in", design.Piece{Kind: design.Tee, Turn: angle("180°"), Third: "valve"}).Under[0]
	near(t, route.Vec{X: 0.54 + 2*a, Z: 1}, run.Out.At)
	near(t, route.Vec{X: 0.54 + a, Z: 1 - a}, run.Third.At)
	near(t, route.Vec{Z: -1}, run.Third.Dir)
	assert.Equal(t, "valve", run.Port)

	branch := aside("bs-4825/2in", design.Piece{Kind: design.Tee, Shape: "branch", Turn: angle("180°")}).Under[0]
	near(t, route.Vec{X: 0.54 + a, Z: 1 - a}, branch.Out.At)
	near(t, route.Vec{Z: -1}, branch.Out.Dir)
	near(t, route.Vec{X: 0.54 + 2*a, Z: 1}, branch.Third.At)
	near(t, route.Vec{X: 1}, branch.Third.Dir)
	assert.Equal(t, "cap", branch.Port)
}

// A clamp ferrule's length adds to each end, and the seal keeps the faces apart.
func TestUnions(t *testing.T) {
	t.Parallel()
	l := below("bs-4825/2in",
		design.Piece{Kind: design.Straight, Length: length("300 mm"), Out: "clamp/ferrule"},
		design.Piece{Kind: design.Straight, Length: length("200 mm"), In: "clamp/ferrule", Seal: "fkm"},
	)
	half, ok := catalog.FindHalf("clamp/ferrule", l.Outlet.Half.Tube)
	require.True(t, ok)
	ferrule, gap := half.Joint.Length("ferrule"), half.Joint.Gap
	up, down := l.Under[0], l.Under[1]
	assert.InDelta(t, 0.3, float64(up.Cut), nanometre)
	assert.InDelta(t, 0.3+float64(ferrule.Length), float64(up.Length), nanometre)
	assert.Equal(t, []catalog.Dimension{ferrule}, up.Dims)
	assert.InDelta(t, float64(gap.Length), up.Out.At.Sub(down.In.At).Len(), nanometre)

	require.Len(t, l.Junctions, 2)
	assert.Equal(t, "under.0", l.Junctions[0].Ref)
	assert.Equal(t, "epdm", l.Junctions[0].Seal)
	assert.Zero(t, l.Junctions[0].Gap)
	assert.Equal(t, "fkm", l.Junctions[1].Seal)
	assert.Equal(t, gap, l.Junctions[1].Gap)
	assert.Equal(t, up.Out, l.Junctions[1].Up)
	assert.Equal(t, down.In, l.Junctions[1].Down)
}

// What the user measured replaces the catalogue's, and leaves no doubt.
func TestMeasured(t *testing.T) {
	t.Parallel()
	d := perry()
	half, ok := catalog.FindHalf("ring-joint/liner", mustTube(t, "bs-4825/2.5in"))
	require.True(t, ok)
	slug := half.Joint.Length("liner").Slug
	d.Measured = []design.Measurement{
		{Part: slug, Length: length("19.4 mm")},
		{Part: half.Joint.Gap.Slug, Length: length("0.7 mm")},
	}
	d.Under[0].Length = length("52 mm")
	l := route.Lay(d.Filled(), 1)
	valve, reducer := l.Under[0], l.Under[1]
	require.Len(t, reducer.Dims, 3)
	assert.Equal(t, slug, reducer.Dims[0].Slug)
	assert.Equal(t, length("19.4 mm").Value(), reducer.Dims[0].Length)
	assert.Zero(t, reducer.Dims[0].Either)
	assert.Equal(t, catalog.Measured, reducer.Dims[0].Trust)
	require.Len(t, valve.Dims, 1, "its ends are on it: they are nobody's to measure")
	assert.Equal(t, catalog.Measured, valve.Dims[0].Trust, "the length typed for the valve")
	assert.InDelta(t, 0.052, float64(valve.Length), nanometre, "over its ends, as it is bought")
	assert.InDelta(t, 1-0.0007, valve.In.At.Z, nanometre)
	assert.Positive(t, float64(reducer.Dims[2].Either), "the reducer's own length is still in doubt")
}

// A measured centre to end shorter than the arc's tangent still ends there.
func TestBendMeasuredShort(t *testing.T) {
	t.Parallel()
	l := route.Lay(design.Design{
		Tank:     design.Tank{Bore: length("1 m"), Outlet: design.Outlet{Size: "bs-4825/2in"}},
		Under:    []design.Piece{{Kind: design.Bend}},
		Pump:     design.Pump{Kind: "none"},
		Measured: []design.Measurement{{Part: "bs-4825/2in/bend/90/short/centre-to-end", Length: length("60.5 mm")}},
	}.Filled(), 1)
	near(t, route.Vec{X: 0.0605, Z: 1 - 0.0605}, l.Under[0].Out.At)
}

func TestPumpFaces(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		faces string
		flow  route.Vec
	}{
		{"0°", route.Vec{X: 1}},    // faces the tank: the liquid runs in away from it
		{"90°", route.Vec{Y: 1}},   // a quarter counter-clockwise from that
		{"180°", route.Vec{X: -1}}, // turned away
		{"-90°", route.Vec{Y: -1}},
	} {
		d := perry()
		d.Pump.Faces, d.Pump.OutAhead, d.Pump.OutUp = angle(c.faces), length("100 mm"), length("150 mm")
		l := route.Lay(d.Filled(), 1)
		inlet := route.Vec{X: 2.4, Y: 0.6, Z: 0.3}
		near(t, inlet, l.PumpIn.At)
		near(t, c.flow, l.PumpIn.Dir)
		near(t, inlet.Add(c.flow.Scale(0.1)).Add(route.Vec{Z: 0.15}), l.PumpOut.At)
		near(t, route.Vec{Z: 1}, l.PumpOut.Dir)
		assert.Equal(t, l.PumpIn.Half, l.PumpOut.Half)
	}
}

func TestFitCloses(t *testing.T) {
	t.Parallel()
	l := route.Lay(perry().Filled(), 0.9)
	assert.Less(t, float64(l.Suction.Distance), nanometre)
	assert.Less(t, float64(l.Suction.Turn), 1e-9)
	assert.Less(t, float64(l.Discharge.Distance), nanometre)
	last := l.Junctions[len(l.Under)+len(l.Run)]
	assert.Equal(t, "pump", last.Ref)
	assert.InDelta(t, float64(last.Gap.Length), last.Down.At.Sub(last.Up.At).Len(), nanometre)
	assert.Equal(t, l.PumpIn, last.Down)
	assert.Len(t, l.Junctions, len(l.Pieces())+1)
	assert.InDelta(t, 2.1, l.Delivery[2].Out.At.Z, nanometre)
	assert.Contains(t, l.Run[0].Label, q.Text(l.Run[0].Cut))

	// The doubt of the piece cut to close the gap is at least that of the
	// longest doubtful length along it.
	assert.GreaterOrEqual(t, float64(l.CutDoubt(&l.Run[0]).Either), float64(l.Run[1].Dims[0].Either)*0.999)
	assert.Zero(t, l.CutDoubt(&l.Run[1]).Either)
}

func TestHose(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Run = []design.Piece{{Kind: design.Hose, Fit: true, Out: "clamp/ferrule"}}
	d.Under[2].Fit, d.Under[2].Length = false, length("100 mm")

	l := route.Lay(d.Filled(), 0.9)
	hose := l.Run[0]
	assert.Less(t, float64(l.Suction.Distance), nanometre)
	assert.Zero(t, l.Suction.Turn)
	assert.InDelta(t, float64(hose.Length), hose.Out.At.Sub(hose.In.At).Len(), nanometre, "no length typed: as long as the way")

	d.Run[0].Length = length("5 m")
	l = route.Lay(d.Filled(), 0.9)
	assert.Less(t, float64(l.Suction.Distance), nanometre)
	assert.InDelta(t, 5, float64(l.Run[0].Length), nanometre, "over its ends, ferrule and all, as it is bought")

	d.Run[0].Length = length("1 m")
	l = route.Lay(d.Filled(), 0.9)
	whole := hose.Length
	assert.InDelta(t, float64(whole-l.Run[0].Length), float64(l.Suction.Distance), nanometre, "chord less hose")
}

// By gravity every straight of the whole line may close the gap to the outflow.
func TestGravity(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Pump = design.Pump{Kind: "none"}
	d.Delivery = design.Delivery{
		Height: length("200 mm"), Away: length("3 m"),
		Pieces: []design.Piece{{Kind: design.Bend, Turn: angle("180°")}, {Kind: design.Straight, Length: length("100 mm")}},
	}
	l := route.Lay(d.Filled(), 0.9)
	assert.True(t, l.Gravity)
	assert.Zero(t, l.PumpIn)
	assert.Zero(t, l.Suction)
	assert.Less(t, float64(l.Discharge.Distance), nanometre)
	assert.InDelta(t, 0.2, l.Delivery[1].Out.At.Z, nanometre)
	assert.InDelta(t, 3, l.Delivery[1].Out.At.X, nanometre)
	assert.Len(t, l.Junctions, len(l.Pieces()))
	assert.Equal(t, "delivery.pieces.0", l.Delivery[0].Ref)
	assert.Equal(t, len(l.Under)+len(l.Run)+1, l.Delivery[0].Number)
}

func TestLabels(t *testing.T) {
	t.Parallel()
	var got []string
	for _, p := range aside("bs-4825/1.5in",
		design.Piece{Kind: design.Bend},
		design.Piece{Kind: design.Bend, Shape: "long", Angle: angle("45°"), Turn: angle("180°")},
		design.Piece{Kind: design.Straight, Length: length("412 mm")},
		design.Piece{Kind: design.Butterfly},
		design.Piece{Kind: design.Ball},
		design.Piece{Kind: design.Tee},
		design.Piece{Kind: design.Reducer, To: "bs-4825/2in", Shape: "eccentric"},
	).Pieces() {
		got = append(got, p.Label)
	}
	assert.Equal(t, []string{
		"90° bend, 1½ in", "45° long bend, 1½ in", "straight, 1½ in, 412 mm", "butterfly valve, 1½ in",
		"ball valve, 1½ in", "tee, 1½ in", "eccentric enlarger, 1½ to 2 in",
	}, got)
}

// A level tube reaches half its OD below its axis, an upright one not at all,
// and an arc that runs under itself as far as its lowest point.
func TestLowest(t *testing.T) {
	t.Parallel()
	straight := design.Piece{Kind: design.Straight, Length: length("200 mm")}
	assert.InDelta(t, 1-0.0254, float64(route.Lowest(aside("bs-4825/2in", straight).Under)), nanometre)
	assert.InDelta(t, 1-0.2, float64(route.Lowest(below("bs-4825/2in", straight).Under)), nanometre)
	assert.Zero(t, route.Lowest(nil))

	// Down, then through 120° in one bend: the axis is lowest where it runs level.
	p := below("bs-4825/2in", design.Piece{Kind: design.Bend, Angle: angle("120°")}).Under[0]
	leg := p.Path[0].Length
	assert.InDelta(t, float64(1-leg-p.Radius)-0.0254, float64(route.Lowest([]route.Piece{p})), nanometre)
}

// What closes a union hangs lower than its tube on a level line, and no lower
// where the line runs upright. Flange of a 2 in clamp ferrule 64 mm: trade size
// guides; nut of a DN 50 dairy union 92 mm: DIN 11851, from memory. A clamp
// 10 mm beyond its flange, a nut that no table gives and a valve's body 25 mm
// beyond the tube: common practice, no source.
func TestLowestWithUnions(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		size, out string
		hangs     float64
	}{
		{"bs-4825/2in", "weld", 50.8 / 2},
		{"bs-4825/2in", "clamp/ferrule", 64.0/2 + 10},
		{"din-11866-a/dn50", "dairy-union/male", 92.0 / 2},
		{"bs-4825/2in", "ring-joint/male", 50.8/2 + 25},
		{"bs-4825/2in", "idf/liner", 50.8/2 + 25},
	} {
		straight := design.Piece{Kind: design.Straight, Length: length("200 mm"), Out: c.out}
		assert.InDelta(t, 1-c.hangs/1000, float64(route.Lowest(aside(c.size, straight).Under)), nanometre, c.out)
		down := below(c.size, straight).Under
		assert.InDelta(t, float64(down[0].Out.At.Z), float64(route.Lowest(down)), nanometre, c.out)
		bend := below(c.size, design.Piece{Kind: design.Bend, Out: c.out}).Under
		assert.InDelta(t, float64(bend[0].Out.At.Z)-c.hangs/1000, float64(route.Lowest(bend)), nanometre, c.out)
	}
	valve := aside("bs-4825/2in", design.Piece{Kind: design.Butterfly}).Under
	assert.InDelta(t, 1-0.0254-0.025, float64(route.Lowest(valve)), nanometre)
}

// A valve on the open port of a tee that looks down hangs under the port by its
// length, 40 mm and half the OD give or take a third of that, taken at its
// longest: a working assumption of the catalogue. Port at 88.5 mm: BS 4825-2.
func TestLowestWithAValveOnAPort(t *testing.T) {
	t.Parallel()
	tee := design.Piece{Kind: design.Tee, Turn: angle("180°"), Third: "valve"}
	assert.InDelta(t, 1-0.0885-(0.040+0.0254)*4/3, float64(route.Lowest(aside("bs-4825/2in", tee).Under)), nanometre)
	tee.Third = "cap"
	assert.InDelta(t, 1-0.0885, float64(route.Lowest(aside("bs-4825/2in", tee).Under)), nanometre)
	tee.Third, tee.Turn = "valve", angle("90°")
	assert.InDelta(t, 1-0.0254-0.025, float64(route.Lowest(aside("bs-4825/2in", tee).Under)), nanometre)
}

func mustTube(t *testing.T, slug string) catalog.Tube {
	tube, ok := catalog.FindTube(slug)
	require.True(t, ok)
	return tube
}

func BenchmarkLay(b *testing.B) {
	d := perry().Filled()
	b.ReportAllocs()
	for b.Loop() {
		route.Lay(d, 0.9)
	}
}

// What hangs on a side outlet that is welded on to fall 1:50 comes down by a
// fiftieth of how far it reaches out.
func TestSideOutletFalls(t *testing.T) {
	t.Parallel()
	d := perry()
	d.Tank.Outlet.Place, d.Tank.Outlet.Fall = "side", slope("1:50")
	d.Under = []design.Piece{{Kind: design.Butterfly, In: "ring-joint/liner", Out: "ring-joint/male"}, {Kind: design.Straight, In: "ring-joint/liner", Length: length("300 mm")}}
	d.Run = nil
	l := route.Lay(d.Filled(), 1)
	from, to := l.Outlet.At, l.Under[1].Out.At
	assert.InDelta(t, 1, from.Z, nanometre)
	assert.Greater(t, to.X-from.X, 0.3)
	assert.InDelta(t, (to.X-from.X)/50, from.Z-to.Z, nanometre)
}
