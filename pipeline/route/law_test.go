package route_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// far is how large the designs drawn here get, metres: positions are held to
// rounding at that size.
const far = 2000

func height(t *rapid.T) q.Length {
	return q.Length(rapid.Float64Range(0.01, 20).Draw(t, "height"))
}

// Every piece starts where the one before it ends, but for what the seal
// between them keeps open, and its path runs from end to end unbroken.
func TestLineIsContinuous(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		l := route.Lay(designtest.Design(t).Filled(), height(t))
		for _, j := range l.Junctions {
			if j.Ref == "pump" {
				continue // the line may miss it: that is the gap
			}
			want := j.Up.At.Add(j.Up.Dir.Scale(float64(j.Gap.Length)))
			assert.InDelta(t, 0, want.Sub(j.Down.At).Len(), nanometre, j.Ref)
		}
		for _, p := range l.Pieces() {
			at := p.In.At
			var long q.Length
			for _, s := range p.Path {
				assert.InDelta(t, 0, at.Sub(s.From).Len(), nanometre, p.Ref)
				end, dir := s.Point(1)
				assert.InDelta(t, 0, end.Sub(s.To).Len(), nanometre, p.Ref)
				assert.InDelta(t, 1, dir.Len(), 1e-12, p.Ref)
				at = s.To
				long += s.Length
			}
			assert.InDelta(t, 0, at.Sub(p.Out.At).Len(), nanometre, p.Ref)
			assert.InDelta(t, float64(long), float64(p.Length), nanometre, p.Ref)
			assert.InDelta(t, 1, p.In.Dir.Len(), 1e-12, p.Ref)
			assert.InDelta(t, 1, p.Out.Dir.Len(), 1e-12, p.Ref)
			assert.GreaterOrEqual(t, float64(p.Cut), 0.0, p.Ref)
			assert.NotEmpty(t, p.Path, p.Ref)
		}
	})
}

// Nothing that comes out is not a number, and laying twice gives the same.
func TestLayIsSound(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d, h := designtest.Design(t).Filled(), height(t)
		l := route.Lay(d, h)
		numbers := []float64{float64(l.Suction.Distance), float64(l.Suction.Turn), float64(l.Discharge.Distance), float64(route.Lowest(l.Pieces())), float64(l.SuctionDoubt().Either), float64(l.DischargeDoubt().Either)}
		for i, p := range l.Pieces() {
			assert.Equal(t, i+1, p.Number)
			numbers = append(numbers, p.Out.At.X, p.Out.At.Y, p.Out.At.Z, float64(p.Length), float64(p.Spring), float64(p.Radius))
			if p.Third != nil {
				numbers = append(numbers, p.Third.At.X, p.Third.At.Y, p.Third.At.Z)
			}
			numbers = append(numbers, float64(l.CutDoubt(&p).Either))
		}
		for _, n := range numbers {
			assert.False(t, math.IsNaN(n) || math.IsInf(n, 0))
			assert.Less(t, math.Abs(n), 1e5)
		}
		assert.Equal(t, l, route.Lay(d, h))
	})
}

// stiff returns d with hoses of a given length only: one that reaches for its
// target by itself is not a matter of how long the straights are.
func stiff(d design.Design) design.Design {
	d = d.Clone()
	for _, line := range [][]design.Piece{d.Under, d.Run, d.Delivery.Pieces} {
		for i := range line {
			if line[i].Kind == design.Hose {
				line[i].Fit, line[i].Length = false, metres(1)
			}
		}
	}
	return d
}

// unfitted returns d with every piece made to fit given the length it was laid with.
func unfitted(d design.Design, l route.Layout) design.Design {
	d = d.Clone()
	var i int
	pieces := l.Pieces()
	for _, line := range [][]design.Piece{d.Under, d.Run, d.Delivery.Pieces} {
		for k := range line {
			if line[k].Fit {
				line[k].Fit, line[k].Length = false, metres(float64(pieces[i].Cut))
			}
			i++
		}
	}
	return d
}

func metres(x float64) q.Entered[q.Length] {
	return length(strconv.FormatFloat(x, 'f', 15, 64) + " m")
}

// A plant raised with nothing to fit keeps its shape: every height moves by
// as much, and nothing else.
func TestRaising(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d, h := stiff(designtest.Design(t).Filled()), height(t)
		d = unfitted(d, route.Lay(d, h))
		up := rapid.Float64Range(0, 5).Draw(t, "up")
		low, high := route.Lay(d, h), route.Lay(d, h+q.Length(up))
		lows, highs := append(low.Under, low.Run...), append(high.Under, high.Run...)
		for i := range lows {
			moved := highs[i].Out.At.Sub(lows[i].Out.At)
			assert.InDelta(t, 0, moved.Sub(route.Vec{Z: up}).Len(), far*1e-12)
			assert.Equal(t, lows[i].Length, highs[i].Length)
		}
	})
}

// Seen in a mirror, a plant is the same plant with left and right exchanged.
func TestMirror(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d, h := designtest.Design(t).Filled(), height(t)
		m := d.Clone()
		m.Pump.Aside = metres(-float64(d.Pump.Aside.Value()))
		m.Pump.Faces = opposite(d.Pump.Faces)
		if !d.Delivery.Aside.IsZero() {
			m.Delivery.Aside = metres(-float64(d.Delivery.Aside.Value()))
		}
		for _, line := range [][]design.Piece{m.Under, m.Run, m.Delivery.Pieces} {
			for i := range line {
				line[i].Turn = opposite(line[i].Turn)
			}
		}
		a, b := route.Lay(d, h), route.Lay(m, h)
		as, bs := a.Pieces(), b.Pieces()
		// A fit divides by how far apart its straights point, so rounding in
		// the mirrored angles comes back a little larger.
		const rounding = 1e-7
		for i := range as {
			p, r := as[i].Out.At, bs[i].Out.At
			assert.InDelta(t, 0, p.Sub(route.Vec{X: r.X, Y: -r.Y, Z: r.Z}).Len(), rounding, as[i].Ref)
			assert.InDelta(t, float64(as[i].Length), float64(bs[i].Length), rounding, as[i].Ref)
		}
		assert.InDelta(t, float64(a.Suction.Distance), float64(b.Suction.Distance), rounding)
	})
}

func opposite(a q.Entered[q.Angle]) q.Entered[q.Angle] {
	if a.IsZero() {
		return a
	}
	return angle(strconv.FormatFloat(-a.Value().Degrees(), 'f', 12, 64) + "°")
}

// No change of any one fitted straight brings a line nearer to its target.
func TestFittedIsNearest(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d, h := designtest.Design(t), height(t)
		d.Run = append(d.Run,
			design.Piece{Kind: design.Straight, Fit: true},
			design.Piece{Kind: design.Bend, Turn: angle(rapid.SampledFrom([]string{"0°", "90°", "180°"}).Draw(t, "turn"))},
			design.Piece{Kind: design.Straight, Fit: true},
		)
		d = stiff(d.Filled())
		best := route.Lay(d, h)
		miss := func(l route.Layout) float64 {
			if l.Gravity {
				return float64(l.Discharge.Distance)
			}
			return float64(l.Suction.Distance)
		}
		least := miss(best)
		plain := unfitted(d, best)
		assert.InDelta(t, least, miss(route.Lay(plain, h)), 1e-7, "as typed lengths the fitted ones lie the same")
		i := rapid.SampledFrom([]int{len(d.Run) - 1, len(d.Run) - 3}).Draw(t, "which")
		by := rapid.Float64Range(-0.5, 0.5).Draw(t, "by")
		cut := max(0, float64(best.Run[i].Cut)+by)
		plain.Run[i].Length = metres(cut)
		assert.GreaterOrEqual(t, miss(route.Lay(plain, h)), least-1e-9, fmt.Sprint(best.Run[i].Cut, " to ", cut))
	})
}
