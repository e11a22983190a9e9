package drain_test

import (
	"math"
	"strconv"
	"testing"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/drain"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const least q.Slope = 0.01

// Short ways to write pieces.
func straight(mm int) design.Piece {
	return design.Piece{Kind: design.Straight, Length: q.MustParse[q.Length](strconv.Itoa(mm) + " mm")}
}

func falling(mm int, slope string) design.Piece {
	p := straight(mm)
	p.Fall = q.MustParse[q.Slope](slope)
	return p
}

func bend(turn string) design.Piece {
	return design.Piece{Kind: design.Bend, Turn: q.MustParse[q.Angle](turn)}
}

func reducer(to, shape, turn string) design.Piece {
	return design.Piece{Kind: design.Reducer, To: to, Shape: shape, Turn: q.MustParse[q.Angle](turn)}
}

func tee(turn, third string) design.Piece {
	return design.Piece{Kind: design.Tee, Turn: q.MustParse[q.Angle](turn), Third: third}
}

// lay hangs pieces under a plain 2½ in outlet: the line starts running down.
// Where the pump stands does not matter here.
func lay(pieces ...design.Piece) route.Layout {
	return route.Lay(design.Design{
		Tank:  design.Tank{Bore: q.MustParse[q.Length]("1 m"), Outlet: design.Outlet{Size: "bs-4825/2.5in"}},
		Under: pieces,
	}.Filled(), 1.5)
}

func check(pieces ...design.Piece) drain.Result {
	return drain.Check(drain.Input{Layout: lay(pieces...), Least: least})
}

// A seat valve holds liquid unless one of its ports points down, a dam on a
// level line and not on a steep one; a non-return valve matters where a line should run back.
// Common practice, no source.
func TestBodiesThatHoldLiquid(t *testing.T) {
	t.Parallel()
	held := func(r drain.Result) (n int) {
		for _, v := range r.Verdicts {
			if v.Rule == "body-holds" {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 1, held(check(bend("0°"), falling(500, "1:50"), design.Piece{Kind: design.Diaphragm})))
	assert.Zero(t, held(check(design.Piece{Kind: design.Diaphragm})), "under the tank the line runs straight down")
	seat := func(turn string) design.Piece {
		return design.Piece{Kind: design.Seat, Turn: q.MustParse[q.Angle](turn)}
	}
	assert.Equal(t, 1, held(check(bend("0°"), falling(500, "1:50"), seat("90°"))), "in and out level")
	assert.Zero(t, held(check(bend("0°"), falling(500, "1:50"), seat("180°"))), "out at the bottom")
	assert.Equal(t, 1, held(check(seat("0°"))), "in from above, out level")
	assert.Zero(t, held(check(bend("0°"), falling(500, "1:50"), design.Piece{Kind: design.Ball})))
	d := design.Demo()
	d.Delivery.Pieces = append([]design.Piece{{Kind: design.NonReturn}}, d.Delivery.Pieces...)
	assert.Equal(t, 1, held(drain.Check(drain.Input{Layout: route.Lay(d.Filled(), 1), Least: least})), "on a riser that should run back to the pump")
}

// Of a cross both open ports are looked at; a sample cock at a low point is a
// valve that empties it, and a thermometer pocket that points down a dead end.
func TestPortsOfOtherPieces(t *testing.T) {
	t.Parallel()
	turn := func(kind, turn string) design.Piece {
		return design.Piece{Kind: kind, Turn: q.MustParse[q.Angle](turn)}
	}
	level := func(p design.Piece) drain.Result {
		return check(bend("0°"), falling(500, "1:50"), p, falling(500, "1:50"))
	}
	across := level(turn(design.Cross, "0°"))
	assert.Len(t, across.Lows, 1, "one capped end down")
	assert.Len(t, across.Highs, 1, "one capped end up")
	assert.Empty(t, level(turn(design.Cross, "90°")).Lows, "both ends level")
	open := turn(design.Cross, "0°")
	open.Fourth = "valve"
	assert.Empty(t, level(open).Lows)
	assert.Len(t, level(open).Highs, 1)
	assert.Empty(t, level(turn(design.Cock, "180°")).Lows)
	pocket := level(turn(design.Pocket, "180°"))
	require.Len(t, pocket.Lows, 1)
	assert.Equal(t, "under.2", pocket.Lows[0].Ref)
}

// verdict returns the one verdict of rule on piece.
func verdict(t *testing.T, r drain.Result, rule, piece string) finding.Verdict {
	t.Helper()
	var found []finding.Verdict
	for _, v := range r.Verdicts {
		if v.Rule == rule && v.Piece == piece {
			found = append(found, v)
		}
	}
	require.Len(t, found, 1, "%s on %s in %+v", rule, piece, r.Verdicts)
	return found[0]
}

func figure(t *testing.T, r drain.Result, slug string) finding.Figure {
	t.Helper()
	for _, f := range r.Figures {
		if f.Slug == slug {
			return f
		}
	}
	require.Fail(t, "no figure "+slug)
	return finding.Figure{}
}

func TestSoundLine(t *testing.T) {
	t.Parallel()
	r := check(bend("0°"), falling(1000, "1:80"), falling(500, "1:50"))
	require.Len(t, r.Verdicts, 1)
	v := r.Verdicts[0]
	assert.Equal(t, finding.Sound, v.Level)
	assert.Equal(t, "The line falls all the way from the tank to the pump, nowhere flatter than 1:80.", v.Sentence)
	assert.Equal(t, "under.1", v.Piece)
	assert.InDelta(t, 1.0/80, figure(t, r, "least-fall").Amount.SI, 1e-12)
	assert.Zero(t, figure(t, r, "low-points").Amount.SI)
	assert.Zero(t, figure(t, r, "high-points").Amount.SI)
	assert.True(t, r.Falls[0].Vertical)
	assert.InDelta(t, 1.0/50, float64(r.Falls[2].Slope), 1e-12)

	// The limit itself is enough.
	assert.Equal(t, finding.Sound, finding.Worst(check(bend("0°"), falling(1000, "1:100")).Verdicts))
	assert.Equal(t, "The line runs steeply down all the way from the tank to the pump.", check(straight(300)).Verdicts[0].Sentence)
}

func TestFallLevels(t *testing.T) {
	t.Parallel()
	level := verdict(t, check(bend("0°"), straight(600)), "fall", "under.1")
	assert.Equal(t, finding.Look, level.Level)
	assert.Contains(t, level.Sentence, "lies level")
	assert.Contains(t, level.Advice, "1:100, 10 mm in every metre")
	assert.Equal(t, "least-fall", level.Figure)

	flat := verdict(t, check(bend("0°"), falling(600, "1:150")), "fall", "under.1")
	assert.Equal(t, finding.Look, flat.Level)
	assert.Contains(t, flat.Sentence, "falls 1:150, flatter than 1:100")

	rising := verdict(t, check(bend("0°"), falling(600, "-1:50")), "fall", "under.1")
	assert.Equal(t, finding.Stop, rising.Level)
	assert.Contains(t, rising.Sentence, "rises 1:50 towards the pump")

	unlaid := verdict(t, check(falling(600, "1:100")), "fall", "under.0")
	assert.Equal(t, finding.Look, unlaid.Level)
	assert.Contains(t, unlaid.Sentence, "no effect")
}

// A line that runs down, along and up again by 400 mm holds liquid 400 mm
// deep, whatever its bore: the geometry of it.
func TestPocket(t *testing.T) {
	t.Parallel()
	l := lay(straight(600), bend("0°"), straight(500), bend("0°"), straight(173), bend("0°"), straight(300))
	r := drain.Check(drain.Input{Layout: l, Least: least})
	require.Len(t, r.Lows, 1)
	assert.Equal(t, "under.2", r.Lows[0].Ref)
	assert.InDelta(t, l.Under[2].In.At.Z, r.Lows[0].At.Z, 1e-12)
	// Two bends of centre to end 113.5 mm (BS 4825-2, 2½ in) and 173 mm make 400 mm.
	assert.Contains(t, verdict(t, r, "low-point", "under.2").Sentence, "up to 400 mm deep")
	assert.Empty(t, r.Highs, "the line runs on level to the pump")
	assert.EqualValues(t, 1, figure(t, r, "low-points").Amount.SI)
}

// A hump holds air on the way to a pump.
func TestHump(t *testing.T) {
	t.Parallel()
	hump := []design.Piece{straight(600), bend("0°"), bend("0°"), straight(200), bend("0°"), straight(300), bend("180°"), straight(300)}
	r := check(hump...)
	require.Len(t, r.Lows, 1)
	require.Len(t, r.Highs, 1)
	assert.Equal(t, "under.5", r.Highs[0].Ref)
	assert.Contains(t, verdict(t, r, "high-point", "under.5").Sentence, "lose its prime")

	// A tee with a valve pointing up lets it out.
	hump[5] = tee("0°", "valve")
	assert.Empty(t, check(hump...).Highs)
}

// A concentric reducer lying level holds half the difference of the bores
// behind its step, an eccentric one flat side up all of it, flat side down
// none. BS 4825-1: bores of 2½ and 1½ in tube are 60.3 and 34.9 mm.
func TestReducerStep(t *testing.T) {
	t.Parallel()
	line := func(r design.Piece) []design.Piece {
		return []design.Piece{bend("0°"), straight(400), r, straight(400)}
	}
	concentric := check(line(reducer("bs-4825/1.5in", "concentric", "0°"))...)
	v := verdict(t, concentric, "reducer-step", "under.2")
	assert.Equal(t, finding.Look, v.Level)
	assert.Contains(t, v.Sentence, "up to 12.7 mm deep")
	assert.Contains(t, v.Advice, "eccentric")
	require.Len(t, concentric.Lows, 1)

	up := verdict(t, check(line(reducer("bs-4825/1.5in", "eccentric", "0°"))...), "reducer-step", "under.2")
	assert.Contains(t, up.Sentence, "up to 25.4 mm deep")
	assert.Equal(t, "Turn its flat side down.", up.Advice)

	assert.Empty(t, check(line(reducer("bs-4825/1.5in", "eccentric", "180°"))...).Lows)
	assert.Empty(t, check(reducer("bs-4825/1.5in", "concentric", "0°"), bend("0°"), falling(400, "1:50")).Lows, "upright it empties")
	assert.Empty(t, check(line(reducer("bs-4825/3in", "concentric", "0°"))...).Lows, "an enlarger steps down")
}

func TestDeadEnds(t *testing.T) {
	t.Parallel()
	line := func(p design.Piece) drain.Result {
		return check(bend("0°"), falling(500, "1:50"), p, falling(500, "1:50"))
	}
	down := line(tee("180°", "cap"))
	require.Len(t, down.Lows, 1)
	assert.Contains(t, verdict(t, down, "low-point", "under.2").Sentence, "points down")
	up := line(tee("0°", "cap"))
	require.Len(t, up.Highs, 1)
	assert.Contains(t, verdict(t, up, "high-point", "under.2").Sentence, "points up")
	for _, sound := range []design.Piece{tee("90°", "cap"), tee("180°", "valve"), tee("0°", "valve")} {
		r := line(sound)
		assert.Empty(t, r.Lows)
		assert.Empty(t, r.Highs)
	}

	// A tee that the line leaves by its branch: its other end hangs below.
	out := tee("0°", "cap")
	out.Shape = "branch"
	r := check(out, falling(500, "1:50"))
	require.Len(t, r.Lows, 1)
	assert.Equal(t, "under.0", r.Lows[0].Ref)
	out.Third = "valve"
	assert.Empty(t, check(out, falling(500, "1:50")).Lows)
}

// A drain valve at the bottom of a pocket empties it.
func TestDrainedPocket(t *testing.T) {
	t.Parallel()
	pocket := []design.Piece{straight(600), bend("0°"), tee("180°", "valve"), bend("0°"), straight(173), bend("0°"), straight(300)}
	assert.Empty(t, check(pocket...).Lows)
	pocket[2].Third = "cap"
	assert.NotEmpty(t, check(pocket...).Lows)
}

// A delivery that rises all the way runs back to the pump; one that dips does not.
func TestDelivery(t *testing.T) {
	t.Parallel()
	deliver := func(pieces ...design.Piece) drain.Result {
		return drain.Check(drain.Input{Least: least, Layout: route.Lay(design.Design{
			Tank:     design.Tank{Bore: q.MustParse[q.Length]("1 m"), Outlet: design.Outlet{Size: "bs-4825/1.5in"}},
			Delivery: design.Delivery{Pieces: pieces},
		}.Filled(), 1)})
	}
	rises := deliver(straight(500), bend("0°"), falling(2000, "-1:50"))
	assert.Empty(t, rises.Verdicts)
	assert.InDelta(t, -0.02, float64(rises.Falls[2].Slope), 1e-12)
	level := verdict(t, deliver(straight(500), bend("0°"), straight(2000)), "fall", "delivery.pieces.2")
	assert.Contains(t, level.Advice, "towards the pump or the outflow.", "either way empties it")
	dips := deliver(straight(900), bend("0°"), bend("180°"), straight(200), bend("0°"), straight(300), bend("0°"), straight(200))
	require.Len(t, dips.Lows, 1)
	assert.Equal(t, "delivery.pieces.5", dips.Lows[0].Ref)
	assert.Empty(t, dips.Highs, "the pump pushes air on")
}

func TestSaggingHose(t *testing.T) {
	t.Parallel()
	d := design.Design{
		Tank:  design.Tank{Bore: q.MustParse[q.Length]("1 m"), Outlet: design.Outlet{Size: "bs-4825/1.5in"}},
		Under: []design.Piece{{Kind: design.Hose, Fit: true, Length: q.MustParse[q.Length]("3 m")}},
		Pump:  design.Pump{Away: q.MustParse[q.Length]("1.5 m"), Height: q.MustParse[q.Length]("300 mm")},
	}
	r := drain.Check(drain.Input{Layout: route.Lay(d.Filled(), 1), Least: least})
	assert.Contains(t, verdict(t, r, "fall", "under.0").Sentence, "sags")
	d.Under[0].Length = q.Entered[q.Length]{}
	taut := drain.Check(drain.Input{Layout: route.Lay(d.Filled(), 1), Least: least})
	assert.Equal(t, finding.Sound, finding.Worst(taut.Verdicts))
}

// reversed returns the line with its flow turned round.
func reversed(pieces []route.Piece) []route.Piece {
	var out []route.Piece
	for i := len(pieces) - 1; i >= 0; i-- {
		p := pieces[i]
		p.In, p.Out = p.Out, p.In
		p.In.Dir, p.Out.Dir = p.In.Dir.Scale(-1), p.Out.Dir.Scale(-1)
		path := p.Path
		p.Path = nil
		for k := len(path) - 1; k >= 0; k-- {
			s := path[k]
			_, dir := s.Point(1)
			if s.Radius > 0 {
				centre := s.From.Add(s.Toward.Scale(float64(s.Radius)))
				s.Toward = centre.Sub(s.To).Unit()
			}
			s.From, s.To, s.Dir = s.To, s.From, dir.Scale(-1)
			s.BoreFrom, s.BoreTo = s.BoreTo, s.BoreFrom
			p.Path = append(p.Path, s)
		}
		out = append(out, p)
	}
	return out
}

func near(points []drain.Point, p drain.Point) bool {
	for _, other := range points {
		if other.At.Sub(p.At).Len() < 1e-6 {
			return true
		}
	}
	return false
}

// Liquid and air stay in the same places whichever end a line is counted from.
func TestReversed(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		pieces := route.Lay(designtest.Design(t).Filled(), 1).Run
		there := drain.Check(drain.Input{Least: least, Layout: route.Layout{Run: pieces}})
		back := drain.Check(drain.Input{Least: least, Layout: route.Layout{Run: reversed(pieces)}})
		require.Len(t, back.Lows, len(there.Lows))
		require.Len(t, back.Highs, len(there.Highs))
		for _, p := range there.Lows {
			assert.True(t, near(back.Lows, p), p.Ref)
		}
		for _, p := range there.Highs {
			assert.True(t, near(back.Highs, p), p.Ref)
		}
	})
}

// A line that nowhere rises holds nothing more when it is laid steeper.
func TestSteeperNeverHoldsMore(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "straights")
		step := rapid.IntRange(-1, n-1).Draw(t, "reducer after")
		var gentle, steeper []design.Piece
		add := func(a, b design.Piece) { gentle, steeper = append(gentle, a), append(steeper, b) }
		add(bend("0°"), bend("0°"))
		for i := range n {
			mm := rapid.IntRange(20, 3000).Draw(t, "length")
			fall := rapid.IntRange(0, 50).Draw(t, "fall")
			more := fall + rapid.IntRange(0, 50).Draw(t, "more")
			add(falling(mm, strconv.Itoa(fall)+" mm/m"), falling(mm, strconv.Itoa(more)+" mm/m"))
			if i == step {
				r := reducer("bs-4825/1.5in", rapid.SampledFrom([]string{"concentric", "eccentric"}).Draw(t, "shape"), "0°")
				add(r, r)
			}
		}
		a, b := check(gentle...), check(steeper...)
		assert.LessOrEqual(t, len(b.Lows), len(a.Lows))
		assert.Empty(t, b.Highs)
	})
}

// Whatever is drawn, what comes out can be read: no number that is not one, a
// sentence for every verdict and advice for every one that is not sound.
func TestCheckIsSound(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		l := route.Lay(designtest.Design(t).Filled(), 1)
		r := drain.Check(drain.Input{Layout: l, Least: least})
		assert.Len(t, r.Falls, len(l.Pieces()))
		for _, f := range r.Falls {
			assert.False(t, math.IsNaN(float64(f.Slope)) || math.IsInf(float64(f.Slope), 0), f.Ref)
		}
		for _, v := range r.Verdicts {
			assert.NotEmpty(t, v.Sentence)
			assert.NotEmpty(t, v.Basis)
			assert.NotContains(t, v.Sentence, "not a number")
			assert.Equal(t, v.Level == finding.Sound, v.Advice == "")
		}
		for _, f := range r.Figures {
			assert.False(t, math.IsNaN(f.Amount.SI) || math.IsInf(f.Amount.SI, 0), f.Slug)
			assert.NotEmpty(t, f.Formula)
			assert.NotEmpty(t, f.Source)
		}
	})
}

func BenchmarkCheck(b *testing.B) {
	l := lay(bend("0°"), falling(1000, "1:80"), tee("90°", "cap"), reducer("bs-4825/1.5in", "eccentric", "180°"), falling(500, "1:50"),
		bend("90°"), straight(200), bend("-90°"), straight(100), bend("0°"), straight(500))
	b.ReportAllocs()
	for b.Loop() {
		drain.Check(drain.Input{Layout: l, Least: least})
	}
}
