package stand

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// A line that leaves along x in the plane of the axis passes upright legs, the
// nearest two turned half a step to either side of it, by R sin(π/N) less half
// of the leg's and half of the line's OD: plane geometry.
func TestLineBetweenLegs(t *testing.T) {
	t.Parallel()
	for n := 3; n <= 6; n++ {
		for _, r := range []float64{0.05, 0.3, 0.455} {
			vs := clearVerdict(standingAt(n, r))
			require.Len(t, vs, 1)
			v := vs[0]
			want := q.Length(r*math.Sin(math.Pi/float64(n)) - 0.0381/2 - 0.0508/2)
			if want > 0 {
				assert.Equal(t, finding.Sound, v.Level)
				assert.Contains(t, v.Sentence, "with "+q.Text(want)+" to spare")
				first := map[int]string{3: "60°, 180°, 300°", 4: "45°, 135°, 225°, 315°", 5: "36°, 108°, 180°, 252°, 324°", 6: "30°, 90°, 150°, 210°, 270°, 330°"}
				assert.Contains(t, v.Sentence, "legs at "+first[n]+",")
			} else {
				assert.Equal(t, finding.Stop, v.Level)
				assert.Contains(t, v.Sentence, "by "+q.Text(-want)+" at best")
			}
		}
	}
}

// A line that passes with less than 20 mm to spare is looked at: R sin(π/N), less
// half of both ODs, is 10 mm here (plane geometry).
func TestLineHardByALeg(t *testing.T) {
	t.Parallel()
	v := clearVerdict(standingAt(6, 2*(0.0381/2+0.0508/2+0.010)))
	require.Len(t, v, 1)
	assert.Equal(t, finding.Look, v[0].Level)
	assert.Contains(t, v[0].Sentence, "with 10 mm to spare")
	assert.NotEmpty(t, v[0].Advice)
}

// A line that ends before it comes as far out as the legs asks for no turn.
func TestLineWithinTheLegs(t *testing.T) {
	t.Parallel()
	assert.Empty(t, clearVerdict(standingAt(3, 4)))
}

// No turn of a braced and splayed stand leaves more room than the one that is
// told: against distances sampled along every member at turns all round.
func TestRoomAgainstSamples(t *testing.T) {
	t.Parallel()
	in := standingAt(4, 0.5)
	in.Braced, in.BraceOD, in.Splay, in.LegTop = true, q.Mm(33.7), 6*q.Degree, q.Mm(200)
	line := in.underfoot()
	require.NotEmpty(t, line)
	most := math.Inf(-1)
	for i := range 720 {
		room, nearest := roomFor(line, in.membersAt(float64(i)*math.Pi/2/720, nil), math.Inf(-1))
		most = math.Max(most, room)
		assert.True(t, strings.HasPrefix(line[nearest].ref, "run."), line[nearest].ref)
	}
	v := clearVerdict(in)[0]
	said := most
	if v.Level == finding.Sound {
		assert.Contains(t, v.Sentence, q.Text(q.Length(said)))
	} else {
		assert.Contains(t, v.Sentence, q.Text(-q.Length(said)))
	}
}

// The distance between two segments against points sampled along both.
func TestBetweenAgainstSamples(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		point := func(name string) route.Vec {
			c := rapid.SliceOfN(rapid.Float64Range(-1, 1), 3, 3).Draw(t, name)
			return route.Vec{X: c[0], Y: c[1], Z: c[2]}
		}
		p, r := rod{from: point("a"), to: point("b")}, rod{from: point("c"), to: point("d")}
		if rapid.Bool().Draw(t, "a point") {
			p.to = p.from
		}
		const n = 60
		least, step := math.Inf(1), 0.0
		for i := range n + 1 {
			x := p.from.Add(p.to.Sub(p.from).Scale(float64(i) / n))
			for k := range n + 1 {
				y := r.from.Add(r.to.Sub(r.from).Scale(float64(k) / n))
				least = math.Min(least, x.Sub(y).Len())
			}
		}
		step = (p.to.Sub(p.from).Len() + r.to.Sub(r.from).Len()) / n
		got := between(p, r)
		const long, parallel = 3.5, 1e-6 // across the box; what is taken as parallel
		assert.LessOrEqual(t, got, least+long*parallel)
		assert.GreaterOrEqual(t, got, least-step)
	})
}
