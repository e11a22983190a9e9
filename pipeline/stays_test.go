package pipeline_test

import (
	"encoding/json"
	"slices"
	"strings"
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

func edited(t require.TestingT, d design.Design, edits ...design.Edit) pipeline.Report {
	d, faults := d.Apply(edits...)
	require.Empty(t, faults)
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	return r
}

func verdictOf(r pipeline.Report, rule string) (finding.Verdict, bool) {
	for _, v := range r.Verdicts {
		if v.Rule == rule {
			return v, true
		}
	}
	return finding.Verdict{}, false
}

// Whatever a person can say, what stays is whole (json refuses NaN and Inf), no
// volume is negative, and the report's total is the sum of what is listed.
func TestStaysIsWhole(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		s := r.Stays()
		_, err := json.Marshal(s)
		require.NoError(t, err)
		sum := s.Casing + s.Heel
		for _, p := range s.Pools {
			assert.GreaterOrEqual(t, float64(p.Left), 0.0)
			assert.LessOrEqual(t, float64(p.Left), float64(p.Volume))
			sum += p.Left
		}
		for _, f := range s.Films {
			assert.GreaterOrEqual(t, float64(f.Volume), 0.0)
		}
		if len(r.Faults) == 0 {
			f, ok := r.Figure("stays-in-all")
			require.True(t, ok)
			assert.InDelta(t, float64(sum), f.Amount.SI, 1e-12)
			assert.NotEmpty(t, s.Steps)
		}
	})
}

// Two rooms look for low points by ways of their own: wherever the judgement of
// falls finds one that no valve opens, something stays, in that piece or, where two
// bores meet in a step, beside it.
func TestLowPointsHoldSomething(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r := pipeline.Check(designtest.Design(t))
		holds := map[string]bool{}
		for _, p := range r.Stays().Pools {
			for _, part := range p.Parts {
				holds[part.Ref] = true
			}
		}
		near := func(ref string) bool {
			at := slices.IndexFunc(r.Pieces, func(p pipeline.Piece) bool { return p.Ref == ref })
			for _, p := range r.Pieces[max(0, at-1):min(len(r.Pieces), at+2)] {
				if holds[p.Ref] || p.Length.SI < 1e-3 { // what has no length holds nothing
					return true
				}
			}
			return false
		}
		for _, v := range r.Verdicts {
			if (v.Rule == "low-point" || v.Rule == "reducer-step") && strings.Contains(v.Sentence, "deep") {
				assert.True(t, near(v.Piece), "%s: %s", v.Piece, v.Sentence)
			}
		}
	})
}

// What the user says of casing, limit and time is what counts.
func TestStaysFollowsWhatIsSaid(t *testing.T) {
	t.Parallel()
	usual := edited(t, design.Demo()).Stays()
	assert.InDelta(t, 0.5e-3, float64(usual.Casing), 1e-12)
	said := edited(t, design.Demo(), design.Edit{Path: "pump.casing", Value: "1.2 L"}, design.Edit{Path: "limits.drainTime", Value: "20 min"}).Stays()
	assert.InDelta(t, 1.2e-3, float64(said.Casing), 1e-12)
	// Four times as long leaves half the film, by Jeffreys' law.
	require.Len(t, said.Films, len(usual.Films))
	for i := range said.Films {
		assert.InEpsilon(t, float64(usual.Films[i].Volume)/2, float64(said.Films[i].Volume), 1e-9)
	}
	tee := []design.Edit{{Op: "insert", Path: "under.2"}, {Path: "under.2.kind", Value: "tee"}}
	_, short := verdictOf(edited(t, design.Demo(), tee...), "dead-end")
	_, strict := verdictOf(edited(t, design.Demo(), append(tee, design.Edit{Path: "limits.deadEnd", Value: "0.5"})...), "dead-end")
	assert.False(t, short)
	assert.True(t, strict)
	gravity := edited(t, design.Demo(), design.Edit{Path: "pump.kind", Value: "none"}, design.Edit{Path: "delivery.height", Value: "0.3 m"})
	assert.Zero(t, gravity.Stays().Casing)
	_, ok := gravity.Figure("self-venting-flow")
	assert.True(t, ok)
	_, ok = verdictOf(gravity, "self-venting")
	assert.True(t, ok)
}

// Turning a reducer flat side down, lying, takes what it holds out of the sum at once.
func TestTurningAReducerEmptiesIt(t *testing.T) {
	t.Parallel()
	line := func(shape, turn string) q.Volume {
		return edited(t, design.Demo(),
			design.Edit{Op: "remove", Path: "under.0"},
			design.Edit{Op: "insert", Path: "run.1"}, design.Edit{Path: "run.1.kind", Value: "reducer"}, design.Edit{Path: "run.1.to", Value: "bs-4825/1.5in"},
			design.Edit{Path: "run.1.shape", Value: shape}, design.Edit{Path: "run.1.turn", Value: turn},
		).Stays().Left
	}
	assert.Greater(t, float64(line("concentric", "")), 1e-6)
	assert.Less(t, float64(line("eccentric", "180°")), float64(line("concentric", ""))/10)
	assert.Greater(t, float64(line("eccentric", "0°")), float64(line("concentric", "")))
}
