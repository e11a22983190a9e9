package compare

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// A plant does not differ from itself, and each of its figures is there once.
func TestAPlantIsAsItIs(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p := Check(designtest.Design(t))
		s := Of(p, p)
		assert.Empty(t, s.Said)
		assert.Empty(t, s.Gained)
		assert.Empty(t, s.Lost)
		assert.Empty(t, s.Moved)
		assert.Empty(t, s.Parts)
		assert.Empty(t, s.Cuts)
		assert.Empty(t, s.Welds)
		seen := map[string]bool{}
		for _, f := range s.Figures {
			assert.Falsef(t, f.Differs || seen[f.Slug], "%s", f.Slug)
			seen[f.Slug] = true
		}
		for _, f := range p.Report.Figures {
			assert.Contains(t, seen, f.Slug)
		}
	})
}

// Whatever two plants are, nothing is left out or told twice: what A has and
// the sheet says of it gives back what B has. The counting is done here from
// the reports alone.
func TestNothingIsLeftOut(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a, b := Check(designtest.Design(t)), Check(designtest.Design(t))
		s := Of(a, b)

		trouble := func(r pipeline.Report) map[string]int {
			n := map[string]int{}
			for _, v := range r.Verdicts {
				if v.Level != finding.Sound {
					n[v.Rule]++
				}
			}
			return n
		}
		now := trouble(a.Report)
		for _, v := range s.Lost {
			now[v.A.Rule]--
		}
		for _, v := range s.Gained {
			now[v.B.Rule]++
		}
		for rule, n := range now {
			assert.Equal(t, trouble(b.Report)[rule], n, rule)
		}
		for _, v := range s.Moved {
			assert.Equal(t, v.A.Rule, v.B.Rule)
		}

		bought := func(r pipeline.Report) map[string]float64 {
			n := map[string]float64{}
			for _, p := range r.Parts {
				n[p.Name+p.Unit] += p.Quantity
			}
			return n
		}
		wants := bought(a.Report)
		for _, c := range s.Parts {
			wants[c.Name+c.Unit] += c.B - c.A
		}
		for name, n := range wants {
			assert.InDelta(t, bought(b.Report)[name], n, 0.0005, name) // a part sold by the metre is the same to half a millimetre
		}

		cut := func(r pipeline.Report) map[string]int {
			n := map[string]int{}
			for _, c := range r.Cuts {
				n[c.Name+q.Text(c.Length)]++
			}
			return n
		}
		saws := cut(a.Report)
		for _, c := range s.Cuts {
			if c.A != nil {
				saws[c.Name+q.Text(*c.A)]--
			}
			if c.B != nil {
				saws[c.Name+q.Text(*c.B)]++
			}
		}
		for name, n := range saws {
			assert.Equal(t, cut(b.Report)[name], n, name)
		}
		assert.Equal(t, len(b.Report.Welds)-len(a.Report.Welds), more(s.Welds))

		differs := true
		for _, f := range s.Figures {
			require.False(t, f.Differs && !differs, "those that differ come first")
			differs = f.Differs
			if f.By != nil {
				was, is := f.A.Amount.SI, f.B.Amount.SI
				// Taking away and adding back each round once, to half of 2^-52 of the larger.
				assert.InDelta(t, is, was+f.By.SI, 0x1p-52*2*max(math.Abs(was), math.Abs(is)), f.Slug)
			}
		}
	})
}

func more(counts []Count) int {
	n := 0.0
	for _, c := range counts {
		n += c.B - c.A
	}
	return int(n)
}

// A tank raised by 85 mm: its outlet stands 85 mm higher, by plain subtraction,
// and that is all that was said.
func TestAStandRaised(t *testing.T) {
	t.Parallel()
	a := design.Demo()
	a.Stand.Height = q.MustParse[q.Length]("760 mm")
	b := a.Clone()
	b.Stand.Height = q.MustParse[q.Length]("845 mm")
	s := Of(Check(a), Check(b))
	assert.Equal(t, []design.Difference{{A: "stand.height", B: "stand.height", Was: "760 mm", Is: "845 mm"}}, s.Said)
	for _, f := range s.Figures {
		if f.Slug == "outlet-height" {
			assert.InDelta(t, 0.085, f.By.SI, 1e-12)
			return
		}
	}
	assert.Fail(t, "the outlet's height is among the figures")
}
