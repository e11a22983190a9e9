package stand

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vessel"
)

// standingAt returns a stand with n feet on a circle of radius r metres.
func standingAt(n int, r float64) Input {
	in := plant{drop: fits, along: falling}.at(900)
	in.Legs, in.Feet = n, q.Length(r)
	in.LegOD, in.LegWall, in.Pad = q.Mm(38.1), q.Mm(1.65), q.Mm(60)
	in.Tank.Vessel = vessel.Vessel{Bore: 0.96, Straight: 1.15, Bottom: vessel.Cone, ConeAngle: 75 * q.Degree, Opening: 0.06}
	in.Tank.Depth = in.Tank.Vessel.Brim()
	in.Tank.Wall, in.Tank.Full, in.Tank.Manway = q.Mm(2), 1.4, in.Tank.Depth
	in.Density, in.Temperature = 1000, q.Celsius(20)
	in.Tip = 10 * q.Degree
	return in
}

// Feet on a regular polygon: the line through two neighbours is R cos(π/n)
// from the axis: 0.5, √2/2, (1 + √5)/4 and √3/2 for 3 to 6.
func TestTippingArms(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]float64{3: 0.5, 4: math.Sqrt2 / 2, 5: (1 + math.Sqrt(5)) / 4, 6: math.Sqrt(3) / 2} {
		s := newSteady(standingAt(n, 0.4))
		assert.InEpsilon(t, 0.4*want, s.arm, 1e-12, n)
		// And from the feet's own places.
		a := math.Pi / float64(n)
		x1, y1, x2, y2 := math.Cos(-a), math.Sin(-a), math.Cos(a), math.Sin(a)
		assert.InEpsilon(t, math.Abs(x1*y2-x2*y1)/math.Hypot(x2-x1, y2-y1), want, 1e-12, n)
	}
}

// A body with its centre 0.9 m up tips at atan(a/h), worked by hand: with
// feet at 0.30 m 9.462° on three and 13.263° on four, at 0.35 m 11.004° and
// 15.376°; 10° want 0.31739 m on three and 0.22443 m on four.
func TestTipAngles(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		n       int
		r, want float64
	}{{3, 0.30, 9.462}, {4, 0.30, 13.263}, {3, 0.35, 11.004}, {4, 0.35, 15.376}, {3, 0.31739, 10}, {4, 0.22443, 10}} {
		arm := newSteady(standingAt(c.n, c.r)).arm
		assert.InDelta(t, c.want, math.Atan(tipping(arm, 0.9, 0))*180/math.Pi, 6e-4)
	}
}

// The free surface against brute force: a cylinder of liquid cut by a surface
// that tilts by t, its centre summed over strips, tips where the weight of all
// passes through the foot.
func TestFreeSurfaceAgainstStrips(t *testing.T) {
	t.Parallel()
	const r, depth, liquid, dry, low, arm = 0.5, 0.8, 1000.0, 120.0, 0.7, 0.4
	mass := dry + liquid*math.Pi*r*r*depth
	slope := tipping(arm, (dry*1.1+liquid*math.Pi*r*r*depth*(low+depth/2))/mass, liquid*math.Pi*r*r*r*r/4/mass)
	x, z := 0.0, 0.0 // first moments of the liquid in the tank's own frame
	const n = 200000
	for i := range n {
		u := -r + (float64(i)+0.5)*2*r/n
		strip := 2 * math.Sqrt(r*r-u*u) * 2 * r / n
		h := depth + u*slope
		require.Greater(t, h, 0.0, "the surface meets the straight side all round")
		x += strip * h * u
		z += strip * h * (low + h/2)
	}
	x, z = liquid*x/mass, (dry*1.1+liquid*z)/mass
	assert.InEpsilon(t, arm, x+z*slope, 1e-6)
}

// columns sums up liquid to level in a tank that leans by slope, column by
// column, the plane of its surface sought by halving: its volume and its first
// moments, downhill and upwards. There is nothing of the program's in it but
// what the tank holds and how high its bottom is.
func columns(v vessel.Vessel, level q.Length, slope float64) (volume, mx, mz float64) {
	const rings, turns = 200, 60
	r := float64(v.Bore) / 2
	floor := make([]float64, rings)
	for i := range floor {
		ring := (float64(i) + 0.5) * r / rings
		low := 0.0
		floor[i] = float64(v.BottomDepth())
		for range 50 {
			if m := (low + floor[i]) / 2; v.Area(q.Length(m)) < math.Pi*ring*ring {
				low = m
			} else {
				floor[i] = m
			}
		}
	}
	sums := func(at float64) (volume, mx, mz float64) {
		for i, z := range floor {
			ring := (float64(i) + 0.5) * r / rings
			for k := range turns {
				x := ring * math.Cos((float64(k)+0.5)*2*math.Pi/turns)
				if top := at + slope*x; top > z {
					column := (top - z) * ring * r / rings * 2 * math.Pi / turns
					volume, mx, mz = volume+column, mx+column*x, mz+column*(top+z)/2
				}
			}
		}
		return volume, mx, mz
	}
	want := float64(v.VolumeAt(level))
	low, high := -1.0, 2.0
	for range 35 {
		m := (low + high) / 2
		if volume, _, _ := sums(m); volume < want {
			low = m
		} else {
			high = m
		}
	}
	return sums(high)
}

// On a flat bottom, or nearly, the wall-sided formula does not hold: the tank
// tips where the centre of all, with the liquid summed over columns, stands
// over the line through two feet.
func TestLiquidOnAFlatBottom(t *testing.T) {
	t.Parallel()
	for _, v := range []vessel.Vessel{{Bottom: vessel.Flat}, {Bottom: vessel.Cone, ConeAngle: 150 * q.Degree}, {Bottom: vessel.Cone, ConeAngle: 170 * q.Degree}} {
		for _, level := range []q.Length{0.002, 0.03, 0.1, 0.2} {
			in := standingAt(4, 0.5)
			v.Bore, v.Straight = 0.96, 1.15
			in.Tank.Vessel = v
			s := newSteady(in)
			slope := math.Tan(float64(s.with(level).Tip))
			volume, mx, mz := columns(v, level, slope)
			mass := s.dry + 1000*volume
			assert.InEpsilon(t, s.arm, 1000*mx/mass+(s.lift+1000*(mz+volume*s.foot))/mass*slope, 1e-3, "%s %v, %v", v.Bottom, v.ConeAngle, level)
		}
	}
}

// Down in a dish or a cone the formula tells at most 6 % too little and 1 % too
// much of a slope, by the liquid summed over columns.
func TestWallSidedInTheBottom(t *testing.T) {
	t.Parallel()
	for _, v := range []vessel.Vessel{{Bottom: vessel.Klopper}, {Bottom: vessel.Korbbogen}, {Bottom: vessel.Cone, ConeAngle: 60 * q.Degree}, {Bottom: vessel.Cone, ConeAngle: 120 * q.Degree}} {
		in := standingAt(4, 0.6)
		v.Bore, v.Straight = 0.96, 1.15
		in.Tank.Vessel = v
		s := newSteady(in)
		for _, part := range []q.Length{0.3, 0.6, 1} {
			level := part * v.BottomDepth()
			slope := math.Tan(float64(s.with(level).Tip))
			reaches := func(slope float64) float64 {
				volume, mx, mz := columns(v, level, slope)
				mass := s.dry + 1000*volume
				return 1000*mx/mass + (s.lift+1000*(mz+volume*s.foot))/mass*slope
			}
			assert.Less(t, reaches(slope/1.01), s.arm, "%s %v, %v", v.Bottom, v.ConeAngle, level)
			assert.Greater(t, reaches(slope/0.94), s.arm, "%s %v, %v", v.Bottom, v.ConeAngle, level)
		}
	}
}

// Worst, empty and full: nothing between tips sooner than the worst.
func TestWorstLevel(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := standingAt(rapid.IntRange(3, 6).Draw(t, "legs"), rapid.Float64Range(0.2, 1.2).Draw(t, "feet"))
		in.Tank.Vessel.Straight = q.Length(rapid.Float64Range(0.2, 3).Draw(t, "straight"))
		in.Tank.Vessel.Bottom = rapid.SampledFrom([]vessel.Bottom{vessel.Cone, vessel.Flat, vessel.Klopper}).Draw(t, "bottom")
		in.Tank.Full = in.Tank.Vessel.Brim() * q.Length(rapid.Float64Range(0.1, 1).Draw(t, "full"))
		in.Load = q.Mass(rapid.Float64Range(0, 300).Draw(t, "load"))
		s := newSteady(in)
		worst := s.worst()
		for i := range 101 {
			assert.GreaterOrEqual(t, float64(s.with(in.Tank.Full*q.Length(i)/100).Tip), float64(worst.Tip)*(1-2e-4))
		}
		feet := s.feetFor(worst.Tip, worst)
		assert.InEpsilon(t, float64(in.Feet), float64(feet), 1e-9, "feet for the incline that it tips on are where they stand")
	})
}

// Weights by hand: a shell of 0.96 m bore, 1.15 m high and 2 mm thick is
// π × 0.962 × 1.15 × 0.002 m³ of steel; its frustum of 75° adds
// π (0.48 + 0.03) × 0.45/sin 37.5° × 0.002.
func TestWeights(t *testing.T) {
	t.Parallel()
	s := newSteady(standingAt(3, 0.4))
	want := 7900 * 0.002 * math.Pi * (0.962*1.15 + 0.51*0.45/math.Sin(37.5*math.Pi/180))
	assert.InEpsilon(t, want, s.tank, 1e-9)
	// 38.1 × 1.65 tube is 1.493 kg/m: a stockholder's arithmetic at 7900 kg/m³.
	assert.InDelta(t, 3*0.9*1.493, s.frame, 0.01)
}

// Section properties and Euler loads of tubes: handbook formulas worked apart.
func TestSections(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ od, wall, area, inertia, modulus, kN float64 }{
		{38.1, 1.65, 188.94, 31443.1, 1650.6, 31.7}, {50.8, 1.65, 254.78, 77020, 3032.3, 77.6},
		{25.4, 1.65, 123.11, 8722.2, 686.8, 8.8}, {48.3, 2, 290.91, 78098, 3233.9, 78.7},
	} {
		s := tube(q.Mm(c.od), q.Mm(c.wall))
		assert.InEpsilon(t, c.area, s.area*1e6, 1e-4)
		assert.InEpsilon(t, c.inertia, s.inertia*1e12, 1e-4)
		assert.InEpsilon(t, c.modulus, s.modulus*1e9, 1e-4)
		assert.InDelta(t, c.kN, s.euler(200e9, 2, 0.7)/1e3, 0.05)
		assert.InEpsilon(t, 4*s.euler(200e9, 2, 0.7), s.euler(200e9, 1, 0.7), 1e-12, "braced is half as long")
	}
}

// EN 1993-1-4 by hand for 38.1 × 1.65, 0.7 m, K 2, 210 MPa: slenderness 1.119,
// χ 0.508, 18.3 kN (the curve's constants from memory).
func TestResistance(t *testing.T) {
	t.Parallel()
	s := tube(q.Mm(38.1), q.Mm(1.65))
	euler := s.euler(200e9, 2, 0.7)
	assert.InDelta(t, 1.119, math.Sqrt(s.area*210e6/euler), 5e-4)
	assert.InDelta(t, 18.3, s.resistance(210e6, euler)/1e3, 0.05)
	assert.InDelta(t, 0.508, s.resistance(210e6, euler)*1.1/(s.area*210e6), 5e-4)
	assert.InEpsilon(t, s.area*210e6/1.1, s.resistance(210e6, euler*1000), 1e-9, "a stocky tube yields")
}

// EN 10088-1: E 200, 194, 186 GPa at 20, 100, 200 °C. EN 10028-7, from memory:
// 157 MPa at 100 °C, a quarter under the 210 of 20 °C.
func TestSteelAtHeat(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 200, at(elastic, q.Celsius(4)), 1e-9)
	assert.InDelta(t, 197, at(elastic, q.Celsius(60)), 1e-9)
	assert.InDelta(t, 186, at(elastic, q.Celsius(300)), 1e-9)
	assert.InDelta(t, 157, at(proof, q.Celsius(100)), 1e-9)
	assert.InDelta(t, 0.75, at(proof, q.Celsius(100))/at(proof, q.Celsius(20)), 0.01)
}

// 350 kg: on three feet a third each, 0.405 MPa under 60 mm and 0.910 under
// 40 mm; on four the worst two half each, 0.607 and 1.366 MPa. Worked by hand.
func TestFootLoads(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		legs      int
		pad, want float64
	}{{3, 60, 0.405}, {3, 40, 0.910}, {4, 60, 0.607}, {4, 40, 1.366}, {6, 40, 1.366}} {
		s := newSteady(standingAt(c.legs, 0.4))
		l := s.loads(350)
		assert.InDelta(t, c.want, l.each/(math.Pi/4*c.pad*c.pad), 6e-4)
	}
}

// A leg that leans under a load straight up from the floor is a beam: axial
// F cos θ, and F sin θ at the end of a cantilever of L.
func TestSplayBends(t *testing.T) {
	t.Parallel()
	in := standingAt(3, 0.5)
	in.Splay = 10 * q.Degree
	s := newSteady(in)
	l := s.loads(300)
	sin, cos := math.Sincos(10 * math.Pi / 180)
	length := 0.9 / cos
	assert.InEpsilon(t, 100*9.80665*(cos/188.94e-6+sin*length/1650.6e-9), l.stress, 1e-4)
	assert.InEpsilon(t, length, float64(Check(in).LegLength), 1e-12)
	top, floor := in.LegsAt()
	assert.InEpsilon(t, 0.5-0.9*math.Tan(10*math.Pi/180), float64(top), 1e-12)
	assert.InEpsilon(t, 0.5, float64(floor), 1e-12)
	in.Braced = true
	b := newSteady(in)
	assert.Less(t, b.loads(300).stress, l.stress)
	assert.Greater(t, b.loads(300).resists, l.resists)
}

// The widest that feet of a regular polygon stand apart in one direction, by
// turning it.
func TestAdjustersForAFall(t *testing.T) {
	t.Parallel()
	for n := 3; n <= 6; n++ {
		in := standingAt(n, 0.5)
		in.FloorFall, in.Uneven = 0.0125, q.Mm(5)
		widest := 0.0
		for turn := 0.0; turn < math.Pi; turn += 1e-4 {
			low, high := math.Inf(1), math.Inf(-1)
			for i := range n {
				x := 0.5 * math.Cos(turn+2*math.Pi*float64(i)/float64(n))
				low, high = math.Min(low, x), math.Max(high, x)
			}
			widest = math.Max(widest, high-low)
		}
		want := 0.0125 * widest * 1000
		if n > 3 {
			want += 5
		}
		assert.InDelta(t, want, in.adjusters().Millimetres(), 1e-3, n)
		in.Adjust = in.adjusters()
		assert.Zero(t, in.slant())
		assert.Equal(t, finding.Sound, rockVerdict(in).Level)
		in.Adjust -= q.Millimetre
		assert.InDelta(t, math.Atan(0.0125), float64(in.slant()), 1e-12)
		assert.Equal(t, finding.Look, rockVerdict(in).Level)
	}
	assert.Equal(t, finding.Sound, rockVerdict(standingAt(3, 0.5)).Level, "three never rock")
}

func TestStandingVerdicts(t *testing.T) {
	t.Parallel()
	in := standingAt(3, 0.45)
	v := byRule(Stable(in).Verdicts, RuleTip)[0]
	require.Equal(t, finding.Look, v.Level)
	s := newSteady(in)
	in.Feet = s.feetFor(in.Tip, s.worst()) + q.Millimetre
	assert.Equal(t, finding.Sound, byRule(Stable(in).Verdicts, RuleTip)[0].Level, "the advice is enough")
	in.Castors = q.Mm(40)
	assert.Equal(t, finding.Look, byRule(Stable(in).Verdicts, RuleTip)[0].Level, "wheels that swivel inwards take from the arm")
	in.Anchored = true
	assert.Equal(t, finding.Sound, byRule(Stable(in).Verdicts, RuleTip)[0].Level)
	in.Anchored, in.Castors, in.Feet = false, 0, q.Mm(60)
	in.FloorFall = 0.1
	assert.Equal(t, finding.Stop, byRule(Stable(in).Verdicts, RuleTip)[0].Level, "it falls over as it stands")

	in = standingAt(3, 0.45)
	assert.Equal(t, finding.Sound, byRule(Stable(in).Verdicts, RuleLoad)[0].Level)
	in.LegOD, in.LegWall = q.Mm(12), q.Mm(1)
	assert.Equal(t, finding.Stop, byRule(Stable(in).Verdicts, RuleLoad)[0].Level)

	// IEC 62368-1: 13 % of the weight at 1.5 m; a/1.5 against 0.13.
	in = standingAt(3, 2*0.13*1.5-0.01)
	assert.Equal(t, finding.Look, byRule(Stable(in).Verdicts, RulePush)[0].Level)
	in = standingAt(3, 2*0.13*1.5+0.01)
	assert.Equal(t, finding.Sound, byRule(Stable(in).Verdicts, RulePush)[0].Level)
}

func TestRoomAndReach(t *testing.T) {
	t.Parallel()
	in := standingAt(3, 0.45)
	overall := in.Height + in.Tank.BottomToOutlet + in.Tank.Depth
	assert.Empty(t, Check(in).Bounds)
	in.Reach = overall + q.Millimetre
	assert.Equal(t, finding.Sound, byRule(Check(in).Verdicts, RuleReach)[0].Level)
	in.Reach = overall - q.Mm(500)
	assert.Equal(t, finding.Look, byRule(Check(in).Verdicts, RuleReach)[0].Level)
	b := Check(in).Bounds
	require.Len(t, b, 1)
	assert.InDelta(t, -500, b[0].Slack.Millimetres(), 1e-9)

	in.Door, in.DoorWidth = overall+q.Millimetre, 1.2
	assert.Equal(t, finding.Sound, byRule(Check(in).Verdicts, RuleDoor)[0].Level)
	in.Door = 2
	assert.Equal(t, finding.Look, byRule(Check(in).Verdicts, RuleDoor)[0].Level, "lying")
	in.HasCeiling, in.Ceiling = true, overall+q.Mm(10) // it stands there, but cannot be turned up
	assert.Equal(t, finding.Stop, byRule(Check(in).Verdicts, RuleDoor)[0].Level)
	in.HasCeiling, in.DoorWidth = false, 0.9
	assert.Equal(t, finding.Stop, byRule(Check(in).Verdicts, RuleDoor)[0].Level)
}

// A truck wants its height under the stack as a bucket does.
func TestAccess(t *testing.T) {
	t.Parallel()
	in := standingAt(3, 0.45)
	in.Access = q.Mm(200)
	d := driver(t, in, driverAccess)
	assert.InDelta(t, 100+200+20, d.Needed.Millimetres(), 1e-9)
	ds := Check(in).Drivers
	require.Greater(t, len(ds), 1)
	assert.InDelta(t, float64(ds[0].Needed-ds[1].Needed), float64(ds[0].Until), 1e-12)
	assert.InDelta(t, float64(ds[0].Needed-ds[1].Needed), float64(ds[1].Until), 1e-12)
	// What a change gives: less of the need that governs lowers what is needed by
	// as much, until the next governs.
	in.Bucket = q.Mm(600)
	most := Check(in).Drivers[0]
	require.Equal(t, driverBucket, most.Slug)
	require.Greater(t, most.Until, q.Mm(20))
	less := in
	less.Bucket -= q.Mm(20)
	assert.InDelta(t, 20, (Needed(in) - Needed(less)).Millimetres(), 1e-6)
}

func TestStableTellsNumbers(t *testing.T) {
	t.Parallel()
	assert.Empty(t, Stable(Input{}).Figures)
	in := standingAt(4, 0.45)
	in.Braced, in.BraceOD, in.Splay, in.FloorFall = true, q.Mm(33.7), 5*q.Degree, 0.0125
	out := Stable(in)
	assert.NotEmpty(t, out.Caution)
	seen := map[string]bool{}
	for _, f := range out.Figures {
		assert.False(t, seen[f.Slug], f.Slug)
		seen[f.Slug] = true
		assert.Greater(t, f.Amount.SI, 0.0, f.Slug)
	}
	for _, want := range []string{"tip-angle-empty", "tip-angle-full", "push-full", "foot-load", "pad-pressure", "leg-stress", "buckling-free", "buckling-braced", "brace-length", "adjusters-needed"} {
		assert.True(t, seen[want], want)
	}
}

func BenchmarkStanding(b *testing.B) {
	in := standingAt(3, 0.45)
	for b.Loop() {
		Stable(in)
	}
}

// What misses the limit by less than rounding shows is told all the same; the
// sentence and the limit would else be one number.
func TestTipJustShort(t *testing.T) {
	t.Parallel()
	in := standingAt(4, 0.45)
	soonest := q.Angle(math.Inf(1))
	for _, p := range Stable(in).Curve {
		soonest = min(soonest, p.Tip)
	}
	in.Tip = soonest * 1.001
	v := byRule(Stable(in).Verdicts, RuleTip)[0]
	assert.Equal(t, finding.Look, v.Level)
	assert.Equal(t, q.Text(in.Tip), q.Text(soonest), "rounded they are one")
	assert.Contains(t, v.Sentence, " short.")
	assert.Equal(t, "all but empty", fillWords(in, q.Mm(0.35)))
	assert.Equal(t, "filled to 162 mm over the lowest inside point", fillWords(in, q.Mm(162)))
}

// An upright leg 100 mm from its axis to the shell bends what holds it by its
// load times that, a lever: a third of 9.81 kN makes 327 N·m. One that leans is
// pushed up at its foot, further out, unless braces hold it (statics). One
// under the shell is not held by its side.
func TestBrackets(t *testing.T) {
	t.Parallel()
	a := loads{each: 9810.0 / 3}
	in := standingAt(3, 0.48+0.002+0.1)
	s := newSteady(in)
	b, ok := s.bracket(a)
	require.True(t, ok)
	assert.InDelta(t, 0.1, float64(b.arm), 1e-9)
	assert.InDelta(t, 327, float64(b.moment), 1e-9)

	in.Splay = q.Angle(math.Atan(0.05 / float64(in.Rise()))) // its top 50 mm nearer
	s = newSteady(in)
	b, ok = s.bracket(a)
	require.True(t, ok)
	assert.InDelta(t, 327, float64(b.moment), 1e-6)
	in.Braced = true
	s = newSteady(in)
	b, ok = s.bracket(a)
	require.True(t, ok)
	assert.InDelta(t, 327.0/2, float64(b.moment), 1e-6)

	v := byRule(Stable(standingAt(3, 0.6)).Verdicts, RuleBracket)
	require.Len(t, v, 1)
	assert.Equal(t, finding.Look, v[0].Level)
	assert.Contains(t, v[0].Sentence, "not judged")
	assert.Empty(t, byRule(Stable(standingAt(3, 0.45)).Verdicts, RuleBracket))
}

// Nothing is short by nought.
func TestShortByAHair(t *testing.T) {
	t.Parallel()
	s := newSteady(standingAt(4, 0.4))
	worst := s.worst()
	s.in.Tip = worst.Tip - s.in.slant() + 1e-6
	v := tipVerdict(&s, worst)
	assert.Equal(t, finding.Look, v.Level)
	assert.Contains(t, v.Sentence, "That is a hair short.")
}
