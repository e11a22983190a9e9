package holdup

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// lay hangs pieces under an outlet: the line starts running down.
func lay(size string, pieces ...design.Piece) route.Layout {
	return route.Lay(design.Design{
		Tank:  design.Tank{Bore: q.MustParse[q.Length]("1 m"), Outlet: design.Outlet{Size: size}},
		Under: pieces,
		Pump:  design.Pump{Away: q.MustParse[q.Length]("1.5 m"), Height: q.MustParse[q.Length]("300 mm")},
	}.Filled(), 3)
}

func straight(mm float64, fall string) design.Piece {
	p := design.Piece{Kind: design.Straight, Length: q.MustParse[q.Length](fmt.Sprintf("%.1f mm", mm))}
	if fall != "" {
		p.Fall = q.MustParse[q.Slope](fall)
	}
	return p
}

func turned(kind, turn string) design.Piece {
	return design.Piece{Kind: kind, Turn: q.MustParse[q.Angle](turn)}
}

func bend(angle, turn string) design.Piece {
	p := turned(design.Bend, turn)
	p.Angle = q.MustParse[q.Angle](angle)
	return p
}

func reducer(to, shape, turn string) design.Piece {
	p := turned(design.Reducer, turn)
	p.To, p.Shape = to, shape
	return p
}

var sizes = []string{"asme-bpe/1.5in", "asme-bpe/2in", "asme-bpe/2.5in", "asme-bpe/3in"}

// anyLine makes a line of a few pieces that runs up and down, no joint of which
// is sprung by more than 15°: at a sharper kink two bores have no one floor.
func anyLine(rng *rand.Rand) route.Layout {
next:
	for {
		l := oneLine(rng)
		for _, p := range l.Under {
			if p.Spring > 15*q.Degree {
				continue next
			}
		}
		return l
	}
}

func oneLine(rng *rand.Rand) route.Layout {
	one := func(of ...string) string { return of[rng.IntN(len(of))] }
	size := one(sizes...)
	pieces := []design.Piece{straight(100+200*rng.Float64(), ""), bend("90°", one("0°", "30°", "90°"))}
	for range 3 + rng.IntN(5) {
		switch rng.IntN(5) {
		case 0, 1:
			pieces = append(pieces, straight(60+400*rng.Float64(), one("", "1:50", "-1:50", "1:8", "-1:8", "-1:200", "1:3")))
		case 2:
			pieces = append(pieces, bend(one("45°", "90°", "30°"), one("0°", "180°", "90°", "270°", "20°", "160°", "200°")))
		case 3:
			pieces = append(pieces, reducer(one(sizes...), one("concentric", "eccentric"), one("0°", "180°", "90°", "45°")))
		default:
			pieces = append(pieces, bend("90°", one("0°", "180°")), straight(50+100*rng.Float64(), ""), bend("90°", one("0°", "180°")))
		}
	}
	return lay(size, pieces...)
}

// byChance finds what stays in a line without its sections, its integrals or
// its pools: thousands of rims of thousands of slices tell over what the
// liquid has to rise, and points thrown into the bores at random tell how much
// stands below. It returns the volume and its standard error.
func byChance(rng *rand.Rand, pieces []route.Piece, throws int) (volume, sigma float64) {
	type slice struct{ low, level float64 }
	const per = 100
	var slices []slice
	var segments []*route.Segment
	for i := range pieces {
		for k := range pieces[i].Path {
			s := &pieces[i].Path[k]
			if s.Length <= 0 {
				continue
			}
			segments = append(segments, s)
			for j := range per + 1 {
				low := math.Inf(1)
				for a := range 36 {
					low = min(low, point(s, float64(j)/per, 1, float64(a)*math.Pi/18).Z)
				}
				slices = append(slices, slice{low: low})
			}
		}
	}
	high := math.Inf(-1)
	for i := range slices {
		high = max(high, slices[i].low)
		slices[i].level = high
	}
	high = math.Inf(-1)
	for i := len(slices) - 1; i >= 0; i-- {
		high = max(high, slices[i].low)
		slices[i].level = min(slices[i].level, high)
	}
	// Points are thrown into boxes of length × widest disc, stretched by what
	// the outside of a bend is longer.
	weights, all := make([]float64, len(segments)), 0.0
	for i, s := range segments {
		r := max(float64(s.BoreFrom), float64(s.BoreTo)) / 2
		stretch := 1.0
		if s.Radius > 0 {
			stretch = 1 + r/float64(s.Radius)
		}
		weights[i] = math.Pi * r * r * float64(s.Length) * stretch
		all += weights[i]
	}
	hits := 0
	for range throws {
		at, i := rng.Float64()*all, 0
		for at >= weights[i] && i < len(weights)-1 {
			at -= weights[i]
			i++
		}
		s := segments[i]
		t, rho, phi := rng.Float64(), math.Sqrt(rng.Float64()), rng.Float64()*2*math.Pi
		widest := max(float64(s.BoreFrom), float64(s.BoreTo)) / 2
		r := (float64(s.BoreFrom) + t*float64(s.BoreTo-s.BoreFrom)) / 2
		if rho*widest > r {
			continue
		}
		p := point(s, t, rho*widest/r, phi)
		if s.Radius > 0 { // closer to the centre of the bend there is less
			centre := s.From.Add(s.Toward.Scale(float64(s.Radius)))
			axis := s.Dir.Cross(s.Toward)
			off := p.Sub(centre)
			away := off.Sub(axis.Scale(off.Dot(axis))).Len()
			if rng.Float64()*(float64(s.Radius)+widest) > away {
				continue
			}
		}
		sl := slices[i*(per+1)+int(math.Round(t*per))]
		if sl.level > sl.low+1e-9 && p.Z < sl.level {
			hits++
		}
	}
	part := float64(hits) / float64(throws)
	return part * all, all * math.Sqrt(max(part, 4/float64(throws))*(1-part)/float64(throws))
}

// point returns a point of s a part t along it, rho radii from the centreline.
func point(s *route.Segment, t, rho, phi float64) route.Vec {
	at, dir := s.Point(t)
	r := (float64(s.BoreFrom) + t*float64(s.BoreTo-s.BoreFrom)) / 2 * rho
	side := dir.Cross(route.Vec{Z: 1})
	if side.Len() < 1e-9 {
		side = route.Vec{X: 1}
	}
	side = side.Unit()
	up := side.Cross(dir)
	sin, cos := math.Sincos(phi)
	return at.Add(side.Scale(r * cos)).Add(up.Scale(r * sin))
}

// Monte Carlo: on 200 lines laid at random what stays agrees with what points
// thrown at random find, within four and a half of its own standard errors (one line in
// 150 000 by chance) and what 0.05 mm of level are worth.
func TestVolumesAgainstChance(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 2))
	wet := 0
	for n := range 200 {
		l := anyLine(rng)
		r := Check(Input{Layout: l})
		got := 0.0
		for _, p := range r.Pools {
			got += float64(p.Volume)
		}
		want, sigma := byChance(rng, l.ToPump(), 12000)
		if want > 0 {
			wet++
		}
		surface := 0.0
		for _, p := range l.ToPump() {
			surface += float64(p.Length) * max(float64(p.In.Bore()), float64(p.Out.Bore()))
		}
		if !assert.InDelta(t, want, got, 4.5*sigma+surface*5e-5, "line %d", n) {
			for _, p := range l.ToPump() {
				t.Log(p.Label, p.In.At, p.In.Dir, p.Out.At, p.Out.Dir)
			}
			for _, p := range r.Pools {
				t.Logf("%s %s %.2f mL", p.Name, p.Why, p.Volume*1e6)
			}
		}
	}
	require.Greater(t, wet, 100, "most of these lines are to hold something")
}
