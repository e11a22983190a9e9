package pipeline_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// holding returns the demo with another liquid in it; pairs are fields of the
// liquid and what is typed into them.
func holding(t *testing.T, kind string, pairs ...string) design.Design {
	var edits []design.Edit
	for _, field := range []string{"strength", "alcohol", "temperature"} {
		edits = append(edits, design.Edit{Path: "liquid." + field})
	}
	edits = append(edits, design.Edit{Path: "liquid.kind", Value: kind})
	for i := 0; i < len(pairs); i += 2 {
		edits = append(edits, design.Edit{Path: "liquid." + pairs[i], Value: pairs[i+1]})
	}
	d, faults := design.Demo().Apply(edits...)
	require.Empty(t, faults)
	return d
}

// verdictsOf returns those of a rule.
func verdictsOf(r pipeline.Report, rule string) (out []finding.Verdict) {
	for _, v := range r.Verdicts {
		if v.Rule == rule {
			out = append(out, v)
		}
	}
	return out
}

// 12 °P wort at 98 °C: its vapour pressure, 93.691 kPa, is Starzak and
// Peacock's (1998), worked out in another program; its density and viscosity
// are past their sources' 80 °C, which is said and not silently so.
func TestHotWort(t *testing.T) {
	r := pipeline.Check(holding(t, "sugar", "strength", "12 °P", "temperature", "98 °C"))
	require.Empty(t, r.Faults)
	assert.InDelta(t, 93691, value(t, r, "liquid-vapour-pressure"), 5)
	left := verdictsOf(r, "liquid-range")
	require.Len(t, left, 1)
	assert.Equal(t, finding.Look, left[0].Level)
	for _, said := range []string{"density and viscosity", "98 °C", "0 to 80 °C", "the value at 80 °C"} {
		assert.Contains(t, left[0].Sentence, said)
	}
	assert.Equal(t, "liquid", left[0].Piece)
	// A hydrometer in it, cold: 1.04838 in air by the usual inverse of the ASBC table.
	f, _ := r.Figure("liquid-density")
	assert.Contains(t, f.Source, "SG 1.0484 in air")
	assert.Contains(t, f.Source, "1.0483 true")
}

// Whey at 72 °C is inside every range, is judged as milk by the seals, and
// scalds.
func TestHotWhey(t *testing.T) {
	r := pipeline.Check(holding(t, "whey", "temperature", "72 °C"))
	require.Empty(t, r.Faults)
	assert.Empty(t, verdictsOf(r, "liquid-range"))
	assert.InEpsilon(t, float64(liquid.Whey(q.Celsius(72)).Viscosity), value(t, r, "liquid-viscosity"), 1e-12)
	assert.Contains(t, strings.Join(r.Cautions, " "), "scalds")
}

// puree is apple sauce of 11 % solids at 30 °C: K 11.6, n 0.34 (Steffe 1996,
// appendix, from memory).
var puree = []string{"density", "1050 kg/m³", "consistency", "11.6 Pa·s^n", "index", "0.34", "temperature", "30 °C", "medium", "sugar"}

// Apple purée creeps: the loss of the line is that of the flow package for the
// same rheology, the regime laminar, and what the pump's curve is worth said.
func TestApplePuree(t *testing.T) {
	d := holding(t, "power-law", puree...)
	d.Pump.Kind = design.NoPump
	d.Delivery = design.Delivery{}
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	for _, slug := range []string{"liquid-consistency", "liquid-index"} {
		f, ok := r.Figure(slug)
		require.True(t, ok)
		assert.Equal(t, "as typed", f.Source)
	}
	assert.InEpsilon(t, 11.6*0.047863, value(t, r, "liquid-viscosity"), 1e-4, "K 100^(n-1), 100^-0.66 = 0.047863")
	f, ok := r.Figure("line-loss-full")
	require.True(t, ok)
	assert.Contains(t, f.Source, "Metzner & Reed 1955")
	regime := verdictsOf(r, "flow-regime")
	require.Len(t, regime, 1)
	assert.Equal(t, "The flow is laminar.", regime[0].Sentence)
	assert.Less(t, value(t, r, "reynolds"), flow.CriticalPowerLaw(0.34))

	pumped := pipeline.Check(holding(t, "power-law", puree...))
	require.Len(t, verdictsOf(pumped, "pump-liquid"), 1)
	assert.Equal(t, finding.Look, verdictsOf(pumped, "pump-liquid")[0].Level)
}

// Thick yeast that bears more than the fall gives does not run, and is told by
// how much; a pump of too little head is told too.
func TestYieldStressStops(t *testing.T) {
	paste := []string{"density", "1100 kg/m³", "viscosity", "60 mPa·s", "yield", "200 Pa"}
	d := holding(t, "bingham", paste...)
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	stop := verdictsOf(r, "pump-range")
	require.NotEmpty(t, stop)
	assert.Equal(t, finding.Stop, stop[0].Level)
	assert.Contains(t, stop[0].Sentence, "yield stress holds")

	d.Pump.Kind = design.NoPump
	d.Delivery = design.Delivery{Height: q.MustParse[q.Length]("0.1 m")}
	r = pipeline.Check(d)
	require.Empty(t, r.Faults)
	stop = verdictsOf(r, "gravity-flow")
	require.Len(t, stop, 1)
	assert.Equal(t, finding.Stop, stop[0].Level)
	assert.Contains(t, stop[0].Sentence, "yield stress holds")
}

// An index of 1 gives the report of the Newtonian liquid, but for what is told
// of the liquid itself.
func TestIndexOneIsNewtonian(t *testing.T) {
	thin := pipeline.Check(holding(t, "other", "density", "1020 kg/m³", "viscosity", "30 mPa·s"))
	one := pipeline.Check(holding(t, "power-law", "density", "1020 kg/m³", "consistency", "30 mPa·s^n", "index", "1"))
	require.Empty(t, thin.Faults)
	require.Empty(t, one.Faults)
	for _, f := range thin.Figures {
		assert.Equal(t, f.Amount.SI, value(t, one, f.Slug), f.Slug)
	}
}

// Every kind that can hurt has its caution, and each is something to a seal:
// one that no source rates is not passed in silence.
func TestEveryLiquidIsSomethingToASeal(t *testing.T) {
	typed := []string{"density", "1050 kg/m³", "viscosity", "5 mPa·s", "consistency", "5 Pa·s^n", "index", "0.5", "yield", "2 Pa"}
	for _, c := range []struct {
		kind, caution, unknown string
		pairs                  []string
	}{
		{kind: "water"}, {kind: "sugar"}, {kind: "fermented"}, {kind: "milk"}, {kind: "skim"}, {kind: "cream"}, {kind: "whey"},
		{kind: "spirits", caution: "vapour that burns"},
		{kind: "spirits", caution: "vapour that burns", unknown: "alcohol over 40 %", pairs: []string{"alcohol", "60 %"}},
		{kind: "caustic", caution: "Caustic burns"}, {kind: "nitric", caution: "Nitric acid burns"},
		{kind: "phosphoric", caution: "Phosphoric acid burns"}, {kind: "peracetic", caution: "never shut it in"},
		{kind: "other", caution: "safety data sheet", unknown: "your liquid", pairs: typed},
		{kind: "power-law", caution: "safety data sheet", unknown: "your liquid", pairs: typed},
		{kind: "bingham", caution: "safety data sheet", unknown: "your liquid", pairs: typed},
		{kind: "bingham", caution: "safety data sheet", pairs: append([]string{"medium", "milk"}, typed...)},
	} {
		r := pipeline.Check(holding(t, c.kind, c.pairs...))
		require.Empty(t, r.Faults, c.kind)
		assert.Contains(t, strings.Join(r.Cautions, " "), c.caution, c.kind)
		said := ""
		for _, v := range r.Verdicts {
			if strings.HasPrefix(v.Sentence, "No source here says how") {
				said = v.Sentence
				assert.Equal(t, finding.Look, v.Level)
			}
		}
		assert.Equal(t, c.unknown != "", said != "", "%s: %s", c.kind, said)
		assert.Contains(t, said, c.unknown)
	}
}
