package find_test

import (
	"math"
	"math/rand"
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/find"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// toOutflow is a plant drawn by chance with an outflow to be reached: from the
// pump, or by gravity from the tank.
func toOutflow(r *rand.Rand, gravity bool) (d design.Design, line find.Line) {
	d, line = plant(r), find.FromPump
	between := func(low, high float64) q.Entered[q.Length] { return mm(low + r.Float64()*(high-low)) }
	d.Delivery = design.Delivery{Away: between(2000, 5000), Aside: between(-1500, 1500), Height: between(100, 2500)}
	if gravity {
		line = find.FromTank
		d.Pump, d.Run = design.Pump{Kind: design.NoPump}, nil
		d.Delivery.Height = between(100, 400)
	}
	d.Finder.Enters = []string{"", "above", "side"}[r.Intn(3)]
	if d.Finder.Enters == "side" {
		d.Finder.Faces = deg([]float64{0, 90, -90}[r.Intn(3)])
	}
	return d, line
}

// clearOf checks, point by point on both axes, that no tube of a line runs
// through one of the other, away from the pump where both are joined to it.
func clearOf(t *testing.T, line, other []route.Piece, pump route.Vec, seed int64, n int) {
	type point struct {
		at     route.Vec
		radius float64
	}
	points := func(pieces []route.Piece) (all []point) {
		for _, p := range pieces {
			for _, s := range p.Path {
				for i := range int(s.Length/0.01) + 2 {
					at, _ := s.Point(min(1, float64(i)*0.01/math.Max(1e-9, float64(s.Length))))
					if at.Sub(pump).Len() > 0.2 {
						all = append(all, point{at, float64(min(p.In.Half.Tube.OD, p.Out.Half.Tube.OD)) / 2})
					}
				}
			}
		}
		return all
	}
	others := points(other)
	for _, a := range points(line) {
		for _, b := range others {
			if a.at.Sub(b.at).Len() < a.radius+b.radius {
				assert.Fail(t, "one tube runs through another", "seed %d run %d at %v", seed, n, a.at)
				return
			}
		}
	}
}

// Every run to an outflow is one: it comes out where it was to, the way it was
// to, and put in by its own edits it is the design that was offered.
func TestEveryRunToAnOutflow(t *testing.T) {
	t.Parallel()
	for _, gravity := range []bool{false, true} {
		some, drain := 0, 0
		for seed := range int64(30) {
			d, line := toOutflow(rand.New(rand.NewSource(seed)), gravity)
			qu, why := find.Of(d, pipeline.Check(d), line)
			require.Empty(t, why)
			a := find.Find(qu, nil)
			if len(a.Runs) == 0 {
				assert.NotEmpty(t, a.Why, "seed %d", seed)
				continue
			}
			some++
			for n, run := range a.Runs {
				isOne(t, d, line, run, seed, n)
				laid := run.Laid()
				end := laid[len(laid)-1].Out
				want := route.Vec{X: float64(d.Delivery.Away.Value()), Y: float64(d.Delivery.Aside.Value()), Z: float64(d.Delivery.Height.Value())}
				assert.Less(t, end.At.Sub(want).Len(), 1e-5, "seed %d run %d", seed, n)
				way := route.Vec{Z: -1}
				if d.Finder.Enters == "side" {
					sin, cos := math.Sincos(float64(d.Finder.Faces.Value()))
					way = route.Vec{X: cos, Y: sin}
				}
				assert.Less(t, end.Dir.Angle(way), 1.6*q.Degree, "seed %d run %d", seed, n) // the spring of the design, and its fall
				if run.Drains != "" {
					drain++
				}
				if !gravity {
					clearOf(t, laid, run.Report.Scene.Layout.ToPump(), run.Report.Scene.Layout.PumpOut.At, seed, n)
				}
				put, faults := d.Apply(run.Edits(d)...)
				require.Empty(t, faults, "seed %d run %d", seed, n)
				assert.Equal(t, string(design.WriteFile(run.Design)), string(design.WriteFile(put)), "seed %d run %d", seed, n)
			}
		}
		assert.Greater(t, some, 15, "gravity %v", gravity)
		assert.Greater(t, drain, 15, "gravity %v", gravity)
		t.Log(gravity, some, drain)
	}
}

// Welded with bends of 88° and 92° a run leaves no joint sprung between two
// bends: what runs level there falls by about 2°, and it meets its end all the same.
func TestOrbital(t *testing.T) {
	t.Parallel()
	tilted, runs := 0, 0
	for seed := range int64(20) {
		d, line := toOutflow(rand.New(rand.NewSource(seed)), false)
		if seed%2 == 0 {
			d, line = plant(rand.New(rand.NewSource(seed))), find.FromTank
		}
		d.Finder.Joints, d.Finder.Valve, d.Finder.Other = find.Orbital, "", ""
		d.Stand.Height, d.Pump.Height = mm(1100), mm(200) // such falls want height
		qu, why := find.Of(d, pipeline.Check(d), line)
		require.Empty(t, why)
		for n, run := range find.Find(qu, nil).Runs {
			runs++
			isOne(t, d, line, run, seed, n)
			laid := run.Laid()
			for i := 1; i < len(laid)-1; i++ {
				a, p, b := laid[i-1], laid[i], laid[i+1]
				if p.Kind != design.Straight || a.Kind != design.Bend || b.Kind != design.Bend || route.Steep(p.In.Dir) || run.Drains == "" {
					continue
				}
				fall := math.Abs(p.In.Dir.Z)
				if a.Turned != 90*q.Degree || b.Turned != 90*q.Degree {
					tilted++
					// An upright that follows a first leg laid to 1:100 leans as much.
					assert.InDelta(t, math.Sin(2*math.Pi/180), fall, 0.0101, "seed %d run %d", seed, n)
				}
				assert.Less(t, p.Spring, 0.1*q.Degree, "seed %d run %d", seed, n)
			}
		}
	}
	assert.Greater(t, runs, 10)
	assert.Greater(t, tilted, 5)
	t.Log(runs, tilted)
}

// A line that has come down goes to a pump that stands aside with one bend of
// 90°, rolled by 45°, and one of 45°. Between their corners it goes aside by
// sin 45° of its way (a pipefitter's rule, common practice): 400 mm aside are
// 565.7 mm.
func TestRolledToThePump(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	d.Under, d.Pump.Aside, d.Stand.Height = d.Under[:2], mm(400), mm(900)
	d.Stand.Bucket = q.Entered[q.Length]{}
	a := found(t, d)
	some := false
	for n, run := range a.Runs {
		isOne(t, d, find.FromTank, run, 0, n)
		var corners []route.Vec
		var turned []q.Angle
		for _, p := range run.Laid() {
			if p.Kind == design.Bend {
				turned = append(turned, p.Turned)
				corners = append(corners, corner(p))
			}
		}
		if len(turned) == 2 && turned[0] == 90*q.Degree && turned[1] == 45*q.Degree {
			some = true
			assert.Equal(t, "the pump", run.Drains)
			assert.InDelta(t, 0.4*math.Sqrt2, corners[1].Sub(corners[0]).Len(), 0.001) // it falls by 1:100
		}
	}
	assert.True(t, some)
}

// corner is where the lines through the ends of a bend cross, the nearest
// point of the first to the second.
func corner(p route.Piece) route.Vec {
	a, b := p.In.Dir, p.Out.Dir
	by := p.Out.At.Sub(p.In.At)
	c := a.Dot(b)
	return p.In.At.Add(a.Scale((by.Dot(a) - c*by.Dot(b)) / (1 - c*c)))
}

// Seen in a mirror, a plant has the same runs to its outflow, mirrored.
func TestMirrorToAnOutflow(t *testing.T) {
	t.Parallel()
	for seed := range int64(12) {
		d, line := toOutflow(rand.New(rand.NewSource(seed)), seed%3 == 0)
		m := d.Clone()
		mirrored := func(x q.Entered[q.Length]) q.Entered[q.Length] { return mm(-1000 * float64(x.Value())) }
		m.Pump.Aside, m.Delivery.Aside = mirrored(d.Pump.Aside), mirrored(d.Delivery.Aside)
		m.Pump.Faces, m.Finder.Faces = deg(-d.Pump.Faces.Value().Degrees()), deg(-d.Finder.Faces.Value().Degrees())
		for i, k := range d.KeepOuts {
			m.KeepOuts[i].Aside = mm(-1000 * float64(k.Aside.Value()+k.Wide.Value()))
		}
		answer := func(d design.Design) find.Answer {
			qu, why := find.Of(d, pipeline.Check(d), line)
			require.Empty(t, why)
			return find.Find(qu, nil)
		}
		bends, shortest, drain := bests(answer(d))
		b, s, ok := bests(answer(m))
		assert.Equal(t, drain, ok, "seed %d", seed)
		assert.Equal(t, bends, b, "seed %d", seed)
		assert.InDelta(t, shortest, s, 0.003, "seed %d", seed)
	}
}

// No run goes through the tank, wherever its end is: what lies round it is
// walked point by point, here by its cylinder.
func TestRoundTheTank(t *testing.T) {
	t.Parallel()
	side := design.Examples()[2].Design // it runs out at the side, by gravity
	side.Delivery.Away, side.Delivery.Aside, side.Delivery.Height = mm(-1500), mm(150), mm(300)
	over := design.Demo() // the pump stands as high as the tank
	over.Pump.Height, over.Pump.Away = mm(900), mm(900)
	over.Delivery.Pieces, over.Delivery.Height = nil, mm(1300)
	over.Delivery.Away, over.Delivery.Aside = mm(-1200), mm(0)
	for name, c := range map[string]struct {
		plant design.Design
		line  find.Line
	}{"side outlet": {side, find.FromTank}, "high pump": {over, find.FromPump}} {
		r := pipeline.Check(c.plant)
		qu, why := find.Of(c.plant, r, c.line)
		require.Empty(t, why, name)
		a := find.Find(qu, nil)
		require.NotEmpty(t, a.Runs, "%s: %s", name, a.Why)
		bore, foot := float64(r.Scene.Vessel.Bore)/2, float64(r.Scene.TankFoot)
		brim := foot + float64(r.Scene.Vessel.BottomDepth()+r.Scene.Vessel.Straight)
		for n, run := range a.Runs {
			for _, p := range run.Laid() {
				for _, s := range p.Path {
					for i := range 101 {
						at, _ := s.Point(float64(i) / 100)
						in := math.Hypot(at.X, at.Y) < bore && at.Z > foot && at.Z < brim
						require.False(t, in, "%s, run %d: in the tank at %v", name, n, at)
					}
				}
			}
		}
	}
}

// To an end a little over the pump's outlet, where there is no room for the
// bends of a run that rises to it, one goes higher and comes down.
func TestOverAndDown(t *testing.T) {
	t.Parallel()
	d := design.Demo() // the outlet is 350 mm over the floor
	d.Delivery.Pieces, d.Delivery.Height = nil, mm(380)
	d.Delivery.Away, d.Delivery.Aside = mm(4000), mm(500)
	d.Finder.Enters = "side"
	qu, why := find.Of(d, pipeline.Check(d), find.FromPump)
	require.Empty(t, why)
	a := find.Find(qu, nil)
	require.NotEmpty(t, a.Runs, a.Why)
	for n, run := range a.Runs {
		isOne(t, d, find.FromPump, run, 0, n)
		assert.Equal(t, "the outflow", run.Drains)
	}
}
