package holdup

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/vessel"
)

func check(l route.Layout) Result { return Check(Input{Layout: l, Limit: 2}) }

func held(l route.Layout) float64 { return float64(check(l).Held) }

// A level line that ends in the step of a concentric reducer holds the segment
// below that step, for every metre: computed apart from this package, from the
// closed form of a circle's segment, for 47.5 to 34.8 mm 141 mL, for 72.9 to
// 47.5 mm 487 mL. A flat bottom holds none, a flat top the whole of the step.
func TestLevelStepAgainstClosedForm(t *testing.T) {
	t.Parallel()
	metre := func(from, to, shape, turn string) float64 {
		line := func(mm float64) float64 {
			return held(lay(from, bend("90°", "0°"), straight(mm, ""), reducer(to, shape, turn), straight(300, "")))
		}
		return line(1500) - line(500)
	}
	assert.InDelta(t, 141e-6, metre("asme-bpe/2in", "asme-bpe/1.5in", "concentric", "0°"), 0.5e-6)
	assert.InDelta(t, 487e-6, metre("asme-bpe/3in", "asme-bpe/2in", "concentric", "0°"), 0.5e-6)
	assert.Zero(t, metre("asme-bpe/2in", "asme-bpe/1.5in", "eccentric", "180°"))
	r, h := 0.0474980/2, 0.0474980-0.034798 // OD 50.8 and 38.1 mm less two walls of 1.651 mm, ASME BPE
	segment := r*r*math.Acos((r-h)/r) - (r-h)*math.Sqrt(2*r*h-h*h)
	assert.InEpsilon(t, segment, metre("asme-bpe/2in", "asme-bpe/1.5in", "eccentric", "0°"), 1e-4)
}

// A shallow trough, falling and rising by s, holds V = (2/s) ∫ A dh of the
// circle's segment, here by Simpson's rule.
func TestTroughAgainstIntegral(t *testing.T) {
	t.Parallel()
	const s, length = 1.0 / 50, 1.2
	r := (0.0508 - 2*0.001651) / 2 // ASME BPE 2 in
	area := func(h float64) float64 { return r*r*math.Acos((r-h)/r) - (r-h)*math.Sqrt(max(0, 2*r*h-h*h)) }
	depth, sum := length*s, 0.0
	const steps = 2000
	for i := range steps + 1 {
		weight := 2.0 + 2*float64(i%2)
		if i == 0 || i == steps {
			weight = 1
		}
		sum += weight * area(depth*float64(i)/steps) * depth / steps / 3
	}
	got := held(lay("asme-bpe/2in", bend("90°", "0°"), straight(2000, "1:50"), straight(length*1000, "-1:50")))
	// The tubes are tilted by 1.15°: their sections lean by 1 part in 5000.
	assert.InEpsilon(t, 2/s*sum, got, 2e-3)
}

// A trough of bends is full up to its lower end: the torus of Pappus, half a
// turn of it with the level through the bore's centre.
func TestBendsAgainstPappus(t *testing.T) {
	t.Parallel()
	r, big := 0.05, 0.12
	at := func(angle q.Angle) *route.Segment {
		return &route.Segment{Dir: route.Vec{Z: -1}, Toward: route.Vec{X: 1}, Radius: q.Length(big), Angle: angle, Length: q.Length(big) * q.Length(angle), BoreFrom: q.Length(2 * r), BoreTo: q.Length(2 * r)}
	}
	whole := math.Pi * r * r * big * math.Pi
	assert.InEpsilon(t, whole, volume(at(math.Pi), 0, 1, 1), 1e-9)
	// An upright half ring, from below: up to the centre of its lowest bore.
	// Slices of the ring by level planes are what is tested against: at height z
	// over the ring's axis a chord of the ring, by Simpson over depth.
	level := -big + 0.01
	want, steps := 0.0, 4000
	for i := range steps + 1 { // over y, across the ring's plane
		y := -r + 2*r*float64(i)/float64(steps)
		half := math.Sqrt(max(0, r*r-y*y))
		cap := func(radius float64) float64 { // below level, of a disc about the ring's axis
			h := -level
			if radius <= h {
				return 0
			}
			return radius*radius*math.Acos(h/radius) - h*math.Sqrt(radius*radius-h*h)
		}
		weight := 2.0 + 2*float64(i%2)
		if i == 0 || i == steps {
			weight = 1
		}
		want += weight * (cap(big+half) - cap(big-half)) * 2 * r / float64(steps) / 3
	}
	got := volume(at(math.Pi), 0, 0.5, level) + volume(at(math.Pi), 0.5, 1, level)
	assert.InEpsilon(t, want, got, 1e-5)
	// A ring that lies flat, filled to its axis, is half full.
	flat := at(math.Pi)
	flat.Dir = route.Vec{Y: 1}
	assert.InEpsilon(t, whole/2, volume(flat, 0, 1, 0), 1e-9)
}

// A branch as wide as the bore that runs past it holds its cylinder less half
// of what two crossing cylinders share, 16 r³/3 (Archimedes).
func TestBranchAgainstArchimedes(t *testing.T) {
	t.Parallel()
	tee := turned(design.Tee, "180°")
	l := lay("asme-bpe/2in", bend("90°", "0°"), straight(300, "1:50"), tee, straight(300, "1:50"))
	r := check(l)
	require.Len(t, r.Pools, 1)
	require.Len(t, r.Ends, 1)
	bore := float64(r.Ends[0].Bore) / 2
	reach := l.Under[2].Third.At.Sub(l.Under[2].Path[0].To).Len()
	full := math.Pi*bore*bore*reach - 8.0/3*bore*bore*bore
	assert.InEpsilon(t, full, newBranch(&l.Under[2], l.Under[2].Ports()[0]).holds(math.Inf(1)), 1e-3)
	// It stands a little less than full: over the mouth's lowest point nothing stays.
	assert.Less(t, float64(r.Pools[0].Volume), full)
	assert.Greater(t, float64(r.Pools[0].Volume), 0.5*full)
	assert.True(t, r.Ends[0].Down)
	valve := tee
	valve.Third = "valve"
	r = check(lay("asme-bpe/2in", bend("90°", "0°"), straight(300, "1:50"), valve, straight(300, "1:50")))
	assert.Zero(t, r.Left, "its valve empties it")
	assert.NotZero(t, r.Held, "as long as it is shut it does not")
}

// A branch of two bores from the wall is one of two and a half from the
// centreline where both bores are the same, and back: the conventions differ by
// half the bore that runs past (ASME BPE and the proposed 21 CFR 212).
func TestDeadEndConventions(t *testing.T) {
	t.Parallel()
	for _, ratio := range []float64{1, 2, 3} {
		main, own := 0.0348, 0.0348/ratio
		tube := route.Segment{From: route.Vec{}, To: route.Vec{X: 1}, Dir: route.Vec{X: 1}, BoreFrom: q.Length(main), BoreTo: q.Length(main)}
		b := branch{piece: &route.Piece{}, main: tube.Dir, wall: main / 2, radius: own / 2, reach: main/2 + 2*own, port: route.Port{End: &route.End{Dir: route.Vec{Z: 1}}}}
		e := b.end()
		assert.InDelta(t, 2, e.FromWall, 1e-12)
		assert.InDelta(t, 2+ratio/2, e.FromCentre, 1e-12)
		assert.InDelta(t, e.FromWall, e.FromCentre-float64(e.Main/e.Bore)/2, 1e-12)
		assert.True(t, e.Up)
	}
}

// The limit is what the user sets: over it a branch is to be looked at, on it not.
func TestDeadEndLimit(t *testing.T) {
	t.Parallel()
	l := lay("asme-bpe/2in", bend("90°", "0°"), straight(300, "1:50"), turned(design.Tee, "90°"), straight(300, "1:50"))
	long := check(l).Ends[0].FromWall
	judged := func(limit float64) bool {
		return slices.ContainsFunc(Check(Input{Layout: l, Limit: limit}).Verdicts, func(v finding.Verdict) bool { return v.Rule == "dead-end" })
	}
	assert.False(t, judged(long))
	assert.True(t, judged(long-0.01))
}

// Jeffreys' mean film for 1 m and 60 s, computed apart: water at 20 °C
// 27.5, sucrose 60 % at 20 °C 185.3 mL/m².
func TestFilmAgainstJeffreys(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 27.5e-6, FilmThickness(1.0034e-6, 1, gravity, 60), 0.05e-6)
	assert.InDelta(t, 185.3e-6, FilmThickness(58.487e-3/1286.6, 1, gravity, 60), 0.5e-6)
	// Two walls, one over the other, hold as much as one of both lengths.
	whole := FilmThickness(1e-6, 1, gravity, 60)
	parts := 0.3*alongFilm(0, 0.3, 1e-6, gravity, 60) + 0.7*alongFilm(0.3, 1, 1e-6, gravity, 60)
	assert.InEpsilon(t, whole, parts, 1e-12)
}

// The constant for a level tube, by integrating the balance once more: with
// φ = u^(3/2) the singular ends are gone, the midpoint rule does the rest.
func TestGirth(t *testing.T) {
	t.Parallel()
	const n = 20000
	half := math.Pow(math.Pi/2, 2.0/3)
	run := make([]float64, n+1) // ∫ sin^(-1/3) from 0, at the edges of the steps
	for i := range n {
		u := (float64(i) + 0.5) * half / n
		run[i+1] = run[i] + 1.5*math.Sqrt(u)*math.Pow(math.Sin(math.Pow(u, 1.5)), -1.0/3)*half/n
	}
	film := func(phi, integral float64) float64 { return math.Sqrt(math.Pow(math.Sin(phi), -2.0/3) * integral) }
	sum := 0.0
	for i := range n {
		u := (float64(i) + 0.5) * half / n
		phi, step := math.Pow(u, 1.5), 1.5*math.Sqrt(u)*half/n
		up := (run[i] + run[i+1]) / 2
		sum += step * (film(phi, up) + film(math.Pi-phi, 2*run[n]-up))
	}
	assert.InDelta(t, sum/math.Pi, girth, 2e-3)
}

// Froude's limits, computed apart from the formulas' sources: self-venting at
// 0.3, 34.8 mm 600 L/h, 47.5 mm 1306, 72.9 mm 3812, 100 mm 8400; clearing air
// from 34.8 mm at 1:100 0.428 m/s, at 45° 0.695, upright 0.752.
func TestFroudeLimits(t *testing.T) {
	t.Parallel()
	for mm, litres := range map[float64]float64{34.8: 600, 47.5: 1306, 72.9: 3812, 100: 8400} {
		assert.InEpsilon(t, litres/3.6e6, float64(SelfVentingFlow(q.Length(mm/1000))), 2e-3)
	}
	// 36 m³/h in 180 mm is a Froude number of 0.296: a worked check of a public source.
	assert.InEpsilon(t, 36.0/3600*0.3/0.296, float64(SelfVentingFlow(0.18)), 2e-3)
	for sine, speed := range map[float64]float64{0.0099995: 0.428, math.Sqrt2 / 2: 0.695, 1: 0.752} {
		assert.InDelta(t, speed, float64(ClearingSpeed(0.0348, sine)), 6e-4)
	}
}

// Heels of tanks against geometry: a cylinder, and a frustum of a cone.
func TestHeels(t *testing.T) {
	t.Parallel()
	heel := func(v vessel.Vessel, lip q.Length) float64 { return float64(Check(Input{Vessel: v, Lip: lip}).Heel) }
	assert.InEpsilon(t, math.Pi*0.25*0.1, heel(vessel.Vessel{Bore: 1, Straight: 1, Bottom: vessel.Flat}, 0.1), 1e-12)
	cone := vessel.Vessel{Bore: 1, Straight: 1, Bottom: vessel.Cone, ConeAngle: 90 * q.Degree}
	assert.InEpsilon(t, math.Pi/3*0.2*0.2*0.2, heel(cone, 0.2), 1e-12)
	assert.Zero(t, heel(cone, 0))
}

// A chain of the length 2 a sinh(b/a) between points 2 b apart, level, sags by
// a (cosh(b/a) - 1): Bernoulli's, from any book on statics.
func TestCatenary(t *testing.T) {
	t.Parallel()
	const a, b = 0.7, 0.9
	curve := catenary(2*b, 0, 2*a*math.Sinh(b/a))
	x, z := curve(a * math.Sinh(b/a))
	assert.InDelta(t, b, x, 1e-9)
	assert.InDelta(t, -a*(math.Cosh(b/a)-1), z, 1e-9)
	rapid.Check(t, func(t *rapid.T) {
		span, rise := rapid.Float64Range(0.1, 3).Draw(t, "span"), rapid.Float64Range(-2, 2).Draw(t, "rise")
		length := math.Hypot(span, rise) * rapid.Float64Range(1.01, 3).Draw(t, "slack")
		curve := catenary(span, rise, length)
		x, z := curve(length)
		assert.InDelta(t, span, x, 1e-6)
		assert.InDelta(t, rise, z, 1e-6)
		sum, px, pz := 0.0, 0.0, 0.0
		for i := range 2000 {
			x, z := curve(length * float64(i+1) / 2000)
			sum += math.Hypot(x-px, z-pz)
			px, pz = x, z
		}
		assert.InEpsilon(t, length, sum, 1e-3)
	})
}

// A slack hose is full up to its lower end: what hangs below that is its
// length of bore. The same hose taut holds nothing.
func TestSaggingHose(t *testing.T) {
	t.Parallel()
	hose := func(metres string) Result {
		d := design.Design{
			Tank:  design.Tank{Bore: q.MustParse[q.Length]("1 m"), Outlet: design.Outlet{Size: "bs-4825/1.5in"}},
			Under: []design.Piece{{Kind: design.Hose, Fit: true, Length: q.MustParse[q.Length](metres)}},
			Pump:  design.Pump{Away: q.MustParse[q.Length]("1.5 m"), Height: q.MustParse[q.Length]("800 mm")},
		}
		return check(route.Lay(d.Filled(), 1))
	}
	r := hose("2.6 m")
	require.Len(t, r.Pools, 1)
	assert.Contains(t, r.Pools[0].Why, "sags")
	bore := math.Pi / 4 * 0.0349 * 0.0349 // BS 4825-1, 1½ in: 38.1 mm less two walls of 1.6 mm
	assert.Less(t, float64(r.Held), 2.6*bore)
	assert.Greater(t, float64(r.Held), 1.6*bore, "most of it hangs below the pump")
	assert.Empty(t, hose("1.52 m").Pools)
}

// The ring of a butterfly valve dams a level line by a millimetre: the segment
// of a circle one millimetre deep, over the length of the line before it.
func TestButterflysLowSide(t *testing.T) {
	t.Parallel()
	line := func(mm float64) float64 {
		return held(lay("asme-bpe/2in", bend("90°", "0°"), straight(mm, ""), design.Piece{Kind: design.Butterfly}, bend("90°", "180°")))
	}
	r, h := 0.0474980/2, 1e-3
	segment := r*r*math.Acos((r-h)/r) - (r-h)*math.Sqrt(2*r*h-h*h)
	assert.InEpsilon(t, segment, line(1500)-line(500), 1e-4)
	assert.Zero(t, held(lay("asme-bpe/2in", design.Piece{Kind: design.Butterfly})), "upright it holds none")
}

// What a non-return valve keeps from running back is the riser over it.
func TestNonReturnHoldsTheRiser(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	before := Check(Input{Layout: route.Lay(d.Filled(), 1)})
	d.Delivery.Pieces = append([]design.Piece{{Kind: design.NonReturn}}, d.Delivery.Pieces...)
	after := Check(Input{Layout: route.Lay(d.Filled(), 1)})
	assert.Zero(t, before.Left)
	assert.Greater(t, float64(after.Left), 1e-4)
	assert.Contains(t, after.Pools[0].Why, "non-return valve")
}

// content returns what the line holds when it is full, its branches with it.
func (l *line) content() float64 {
	sum := 0.0
	l.between(0, len(l.cuts), func(_ int, s *route.Segment, a, b float64) { sum += volume(s, a, b, math.Inf(1)) })
	for i := range l.cuts {
		for _, b := range l.cuts[i].branch {
			sum += b.holds(math.Inf(1))
		}
	}
	return sum
}

// What runs out of every way and what stays are together what the lines hold.
func TestNothingIsLost(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := Input{Layout: lay("asme-bpe/2in", linePieces(t)...)}
		r := Check(in)
		whole, out := 0.0, float64(r.Left)
		for _, l := range in.lines() {
			whole += l.content()
		}
		for _, d := range r.Drains {
			assert.GreaterOrEqual(t, float64(d.Volume), 0.0)
			out += float64(d.Volume)
		}
		assert.InDelta(t, whole, out, 1e-9+1e-6*whole)
	})
}

// linePieces draws a line with whatever can stand in one.
func linePieces(t *rapid.T) []design.Piece {
	pieces := []design.Piece{bend("90°", "0°")}
	for i := range rapid.IntRange(1, 7).Draw(t, "pieces") {
		n := strconv.Itoa(i)
		falls := rapid.SampledFrom([]string{"", "1:100", "1:20", "-1:100", "-1:20"})
		turns := rapid.SampledFrom([]string{"0°", "90°", "180°", "45°", "200°"})
		switch rapid.IntRange(0, 6).Draw(t, "kind "+n) {
		case 0, 1:
			pieces = append(pieces, straight(rapid.Float64Range(50, 800).Draw(t, "length "+n), falls.Draw(t, "fall "+n)))
		case 2:
			pieces = append(pieces, bend(rapid.SampledFrom([]string{"90°", "45°"}).Draw(t, "angle "+n), turns.Draw(t, "turn "+n)))
		case 3:
			pieces = append(pieces, reducer(rapid.SampledFrom(sizes).Draw(t, "size "+n), rapid.SampledFrom([]string{"concentric", "eccentric"}).Draw(t, "shape "+n), turns.Draw(t, "turn "+n)))
		case 4:
			tee := turned(design.Tee, turns.Draw(t, "turn "+n))
			tee.Third = rapid.SampledFrom([]string{"cap", "valve"}).Draw(t, "third "+n)
			tee.Shape = rapid.SampledFrom([]string{"run", "branch"}).Draw(t, "shape "+n)
			pieces = append(pieces, tee)
		case 5:
			pieces = append(pieces, design.Piece{Kind: rapid.SampledFrom([]string{design.Butterfly, design.Diaphragm, design.Ball, design.SightGlass, design.NonReturn}).Draw(t, "body "+n)})
		default:
			pieces = append(pieces, turned(rapid.SampledFrom([]string{design.Cross, design.Pocket, design.Cock, design.Seat}).Draw(t, "port "+n), turns.Draw(t, "turn "+n)))
		}
	}
	return pieces
}

// No volume is negative, no more is left than was held, and every total is the
// sum of its parts.
func TestPartsMakeTheTotal(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := check(lay(rapid.SampledFrom(sizes).Draw(t, "size"), linePieces(t)...))
		total, left := 0.0, 0.0
		for _, p := range r.Pools {
			sum := 0.0
			for _, part := range p.Parts {
				assert.Greater(t, float64(part.Volume), 0.0)
				sum += float64(part.Volume)
			}
			assert.InDelta(t, sum, float64(p.Volume), 1e-15)
			assert.GreaterOrEqual(t, float64(p.Left), 0.0)
			assert.LessOrEqual(t, float64(p.Left), float64(p.Volume))
			assert.Greater(t, float64(p.Depth), 0.0)
			total += float64(p.Volume)
			left += float64(p.Left)
		}
		assert.InDelta(t, total, float64(r.Held), 1e-15)
		assert.InDelta(t, left, float64(r.Left), 1e-15)
		for _, a := range r.Air {
			assert.Greater(t, float64(a.Volume), 0.0)
		}
	})
}

// The steeper a line is laid, the less it holds, whatever stands in it.
func TestSteeperHoldsLess(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var bodies []design.Piece
		for i := range rapid.IntRange(1, 3).Draw(t, "bodies") {
			n := strconv.Itoa(i)
			bodies = append(bodies, rapid.SampledFrom([]design.Piece{
				{Kind: design.Butterfly}, {Kind: design.Diaphragm}, {Kind: design.Ball},
				reducer("asme-bpe/1.5in", "concentric", "0°"), reducer("asme-bpe/3in", "concentric", "0°"),
				reducer("asme-bpe/1.5in", "eccentric", "0°"), reducer("asme-bpe/2in", "eccentric", "180°"),
			}).Draw(t, "body "+n))
		}
		line := func(fall float64) float64 {
			word := "1:" + strconv.FormatFloat(1/fall, 'f', 3, 64)
			pieces := []design.Piece{bend("90°", "0°"), straight(700, word)}
			for _, b := range bodies {
				pieces = append(pieces, b, straight(500, word))
			}
			return held(lay("asme-bpe/2in", pieces...))
		}
		s := rapid.Float64Range(0.002, 0.1).Draw(t, "fall")
		steeper := s * rapid.Float64Range(1.05, 4).Draw(t, "steeper by")
		assert.LessOrEqual(t, line(steeper), line(s)+1e-12)
	})
}

// A reducer with its flat side down never holds more than turned any other way.
func TestFlatSideDownHoldsLeast(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		fall := rapid.SampledFrom([]string{"", "1:200", "1:50", "1:20"}).Draw(t, "fall")
		to := rapid.SampledFrom([]string{"asme-bpe/1.5in", "asme-bpe/1in"}).Draw(t, "to")
		turn := strconv.Itoa(rapid.IntRange(0, 359).Draw(t, "turn")) + "°"
		line := func(shape, turn string) float64 {
			return held(lay("asme-bpe/2in", bend("90°", "0°"), straight(800, fall), reducer(to, shape, turn), straight(500, fall)))
		}
		flat := line("eccentric", "180°")
		assert.GreaterOrEqual(t, line("eccentric", turn), flat-1e-12)
		assert.GreaterOrEqual(t, line("concentric", "0°"), flat-1e-12)
	})
}

// Whichever end the pieces are counted from, as much stays.
func TestFromTheOtherEnd(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		pieces := slices.DeleteFunc(linePieces(t), func(p design.Piece) bool { return p.Kind == design.NonReturn })
		l := lay("asme-bpe/2in", pieces...)
		there := line{pieces: l.Under}
		there.cut(true)
		back := line{pieces: make([]route.Piece, len(l.Under))}
		for i := range l.Under {
			p := l.Under[i]
			path := slices.Clone(p.Path)
			slices.Reverse(path)
			for k := range path {
				path[k] = reversed(path[k])
			}
			p.Path = path
			p.In, p.Out = p.Out, p.In
			p.In.Dir, p.Out.Dir = p.In.Dir.Scale(-1), p.Out.Dir.Scale(-1)
			back.pieces[len(l.Under)-1-i] = p
		}
		back.cut(true)
		sum := func(l *line) float64 {
			total := 0.0
			for _, p := range l.pools(l.settle(false)) {
				total += float64(p.Volume)
			}
			return total
		}
		assert.InDelta(t, sum(&there), sum(&back), 1e-10)
	})
}

func reversed(s route.Segment) route.Segment {
	_, dir := s.Point(1)
	out := s
	out.From, out.To, out.BoreFrom, out.BoreTo = s.To, s.From, s.BoreTo, s.BoreFrom
	out.Dir = dir.Scale(-1)
	if s.Radius > 0 {
		centre := s.From.Add(s.Toward.Scale(float64(s.Radius)))
		out.Toward = centre.Sub(s.To).Unit()
	}
	return out
}

// The steps begin with letting the pressure out, open the higher valve before
// the lower, and name each pool that is left with the way to get it out.
func TestSteps(t *testing.T) {
	t.Parallel()
	valve := turned(design.Tee, "180°")
	valve.Third = "valve"
	vent := turned(design.Tee, "0°")
	vent.Third = "valve"
	r := check(lay("asme-bpe/2in",
		bend("90°", "0°"), valve, straight(200, ""), bend("90°", "180°"), straight(300, ""), bend("90°", "0°"), valve, straight(100, ""), vent, straight(100, ""),
		reducer("asme-bpe/1in", "concentric", "0°"), straight(200, "")))
	said := strings.Join(r.Steps, "\n")
	upper, lower := strings.Index(said, "drain valve of No 2 "), strings.Index(said, "drain valve of No 7 ")
	assert.Zero(t, strings.Index(said, "Stop the pump when it draws air. Let the pressure out"))
	assert.Positive(t, upper)
	assert.Greater(t, lower, upper, "from the top down")
	assert.Contains(t, said, "open the valve that points up on No 9")
	for _, p := range r.Rest {
		assert.Contains(t, said, q.Text(p.Volume)+" then still stand at "+p.Name)
	}
	held := check(lay("asme-bpe/2in", bend("90°", "0°"), straight(500, ""), reducer("asme-bpe/1in", "concentric", "0°")))
	require.Len(t, held.Rest, 1)
	assert.Contains(t, held.Steps[len(held.Steps)-1], "A drain valve would have to point down")
}

// A pig passes one bore of straights, wide bends and through tees; a reducer, a
// valve with something across its bore and a tight bend stop it. Common practice, no source.
func TestWhereAPigPasses(t *testing.T) {
	t.Parallel()
	free := check(lay("asme-bpe/2in", straight(300, ""), bend("90°", "0°"), turned(design.Tee, "90°"), design.Piece{Kind: design.Ball}))
	assert.Contains(t, free.Pigged, "passes every piece")
	assert.Contains(t, free.Pigged, "branches it runs past")
	stopped := check(lay("asme-bpe/2in", straight(300, ""), design.Piece{Kind: design.Butterfly}, reducer("asme-bpe/1in", "concentric", "0°")))
	assert.Contains(t, stopped.Pigged, "does not pass No 2 and No 3")
}

// The part that a gas front sweeps out is never all of it nor none, and the
// faster it goes the more: at walking pace in a 2 inch tube about two thirds
// (1/(1.2 + 0.54/Fr), Fr = v/√(g D), from memory).
func TestSwept(t *testing.T) {
	t.Parallel()
	assert.InDelta(t, 1/(1.2+0.54/(1.5/math.Sqrt(9.80665*0.0475))), swept(1.5, 0.0475), 1e-12)
	rapid.Check(t, func(t *rapid.T) {
		v, d := rapid.Float64Range(0.01, 10).Draw(t, "speed"), rapid.Float64Range(0.01, 0.2).Draw(t, "bore")
		assert.Greater(t, swept(v*1.1, d), swept(v, d))
		assert.Less(t, swept(v, d), 1/1.2)
	})
}

// A hump holds air, as much as the same trough upside down holds liquid; a flow
// over the criterion carries it on, a slower one is to be looked at.
func TestAirIsTheLineUpsideDown(t *testing.T) {
	t.Parallel()
	hump := lay("asme-bpe/2in", straight(900, ""), bend("90°", "0°"), bend("90°", "0°"), straight(200, ""), bend("90°", "0°"), straight(300, ""), bend("90°", "180°"), straight(300, ""))
	in := Input{Layout: hump, Speeds: map[string]q.Velocity{}}
	r := Check(in)
	require.Len(t, r.Air, 1)
	upside := in.lines()[0].upsideDown()
	pools := upside.pools(upside.settle(true))
	require.Len(t, pools, 1)
	assert.InEpsilon(t, float64(pools[0].Volume), float64(r.Air[0].Volume), 1e-12)
	assert.False(t, r.Air[0].Known)
	level := func(v q.Velocity) finding.Level {
		for _, p := range hump.ToPump() {
			in.Speeds[p.Ref] = v
		}
		for _, said := range Check(in).Verdicts {
			if said.Rule == "air-carried" {
				return said.Level
			}
		}
		return finding.Stop
	}
	upright := float64(ClearingSpeed(0.0475, 1))
	assert.Equal(t, finding.Sound, level(q.Velocity(1.01*upright)))
	assert.Equal(t, finding.Look, level(q.Velocity(0.99*upright)))
}
