package pipeline_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// plants are designs of every sort: what each has to say differs.
func plants(t require.TestingT) map[string]design.Design {
	edits := map[string][]design.Edit{
		"demo":     {},
		"hot":      {{Path: "liquid.kind", Value: "water"}, {Path: "liquid.temperature", Value: "85 °C"}, {Path: "site.altitude", Value: "1200 m"}},
		"boiling":  {{Path: "liquid.kind", Value: "water"}, {Path: "liquid.temperature", Value: "99 °C"}, {Path: "site.altitude", Value: "2000 m"}},
		"syrup":    {{Path: "liquid.kind", Value: "sugar"}, {Path: "liquid.strength", Value: "62 %"}},
		"milk":     {{Path: "liquid.kind", Value: "milk"}, {Path: "tank.bottom", Value: "klopper"}},
		"caustic":  {{Path: "liquid.kind", Value: "caustic"}, {Path: "tank.bottom", Value: "flat"}, {Path: "tank.fill", Value: "700 L"}},
		"gravity":  {{Path: "pump.kind", Value: "none"}, {Path: "delivery.height", Value: "0.3 m"}},
		"runs dry": {{Path: "pump.kind", Value: "none"}, {Path: "delivery.height", Value: "1.5 m"}},
		"too high": {{Path: "delivery.height", Value: "9.5 m"}},
		"side":     {{Path: "tank.outlet.place", Value: "side"}, {Path: "tank.outlet.above", Value: "450 mm"}, {Path: "tank.bottom", Value: "korbbogen"}},
		"splayed": {{Path: "stand.splay", Value: "6°"}, {Path: "stand.legs", Value: "5"}, {Path: "site.floorFall", Value: "1:80"},
			{Path: "stand.brace", Value: "diagonal"}, {Path: "stand.load", Value: "40 kg"}, {Path: "stand.castors", Value: "35 mm"}},
		"leaning":  {{Path: "stand.splay", Value: "6°"}, {Path: "stand.feet", Value: "650 mm"}, {Path: "stand.legs", Value: "4"}},
		"as usual": {{Path: "tank.fill"}, {Path: "stand.height"}},
		"slower":   {{Path: "pump.rated", Value: "2900 rpm"}, {Path: "pump.speed", Value: "2400 rpm"}, {Path: "delivery.flow", Value: "60 L/min"}, {Path: "pump.curve.2.efficiency", Value: "40 %"}},
		"wanted":   {{Path: "pump.kind", Value: "none"}, {Path: "delivery.height", Value: "0.3 m"}, {Path: "delivery.flow", Value: "30 L/min"}},
		"primes":   {{Path: "pump.height", Value: "1.5 m"}, {Path: "pump.dryLift", Value: "4 m"}, {Path: "site.altitude", Value: "900 m"}, {Path: "liquid.kind", Value: "water"}, {Path: "liquid.temperature", Value: "80 °C"}},
		"lobe": {{Path: "pump.kind", Value: "lobe"}, {Path: "pump.rated", Value: "300 rpm"}, {Path: "pump.speed", Value: "240 rpm"}, {Path: "delivery.flow", Value: "40 L/min"},
			{Op: "insert", Path: "pump.slip.0"}, {Op: "insert", Path: "pump.slip.1"}, {Path: "pump.slip.0.pressure", Value: "0.5 bar"}, {Path: "pump.slip.0.flow", Value: "60 L/min"},
			{Path: "pump.slip.1.pressure", Value: "3 bar"}, {Path: "pump.slip.1.flow", Value: "52 L/min"}, {Path: "pump.slip.1.headRequired", Value: "2 m"}},
		"wort":    {{Path: "liquid.kind", Value: "sugar"}, {Path: "liquid.strength", Value: "SG 1.048"}, {Path: "liquid.temperature", Value: "98 °C"}},
		"spirits": {{Path: "liquid.kind", Value: "spirits"}, {Path: "liquid.alcohol", Value: "40 %"}},
		"purée": {{Path: "liquid.kind", Value: "power-law"}, {Path: "liquid.density", Value: "1050 kg/m³"},
			{Path: "liquid.consistency", Value: "11.6 Pa·s^n"}, {Path: "liquid.index", Value: "0.34"}},
		"slurry": {{Path: "liquid.kind", Value: "bingham"}, {Path: "liquid.density", Value: "1100 kg/m³"},
			{Path: "liquid.viscosity", Value: "50 mPa·s"}, {Path: "liquid.yield", Value: "5 Pa"}},
		"washed": {{Path: "wash.element", Value: "6 kW"}, {Path: "wash.spray", Value: "80 L/min"}, {Path: "wash.pressure", Value: "0.2 bar"}, {Path: "vent.bore", Value: "12 mm"},
			{Op: "insert", Path: "cleaning.0"}, {Path: "cleaning.0.agent", Value: "caustic"}, {Path: "cleaning.0.strength", Value: "1.5 %"}, {Path: "cleaning.0.time", Value: "30 min"}},
		"drawn off": {{Path: "wash.scavenge", Value: "50 L/min"}, {Path: "wash.flow", Value: "200 L/min"}, {Path: "tank.bottom", Value: "flat"}, {Path: "tank.fill", Value: "700 L"}, {Op: "insert", Path: "cleaning.0"}, {Path: "cleaning.0.agent", Value: "water"}},
		"dairy":     {{Path: "tank.outlet.size", Value: "din-11866-a/dn65"}, {Path: "tank.outlet.end", Value: "dairy-union/male"}},
	}
	out := map[string]design.Design{}
	for name, e := range edits {
		d, faults := design.Demo().Apply(e...)
		require.Empty(t, faults, name)
		out[name] = d
	}
	return out
}

func allFigures(r pipeline.Report) []finding.Figure {
	return slices.Concat(r.Figures, r.Transfer().Figures, r.Reserve().Figures, r.Stability().Figures, r.Wash().Figures, r.Breathing().Figures, r.Work(design.Shelf{}).Figures)
}

// notByFormula are the figures that no calculator gives from the inputs shown,
// by the beginning of their slug, with the reason, and where they are held
// against something else.
var notByFormula = map[string]string{
	"tank-fill":              "typed, or the usual part of brimful",
	"level-full":             "solved: package vessel undoes its own volumes",
	"left-":                  "the tank's volume: closed forms in package vessel",
	"heel":                   "the tank's volume: closed forms in package vessel",
	"liquid-":                "a correlation of many terms: its source's tables, in package liquid",
	"flow-":                  "solved: TestSolvedFlows puts it back",
	"pump-head-":             "read off the pump's curve",
	"suction-head-required-": "read off the pump's curve",
	"suction-loss-":          "summed over the pieces: package flow, against handbooks",
	"delivery-loss-":         "summed over the pieces: package flow, against handbooks",
	"line-loss-":             "summed over the pieces: package flow, against handbooks",
	"transfer-time":          "an integral: closed forms in package transfer, and its bounds in TestTransferTimes",
	"time-to-air":            "an integral: closed forms in package transfer, and its bounds in TestTransferTimes",
	"level-of-rest":          "found by halving: TestStopsByItself",
	"level-of-air":           "solved: TestLevelOfAir puts it back",
	"outlet-height":          "typed, or the largest need: package stand",
	"legs-per-length":        "a whole number: TestWholeNumbers",
	"leg-stock-lengths":      "a whole number: TestWholeNumbers",
	"motor":                  "the next of a list of sizes: TestMotor in package flow",
	"speed-for-flow-":        "solved: TestWantedFlowFigures in package flow puts it back",
	"level-margin-ends":      "found by halving: TestReserves in package flow",
	"hottest-safe":           "found by halving: TestReserves in package flow",
	"greatest-safe-flow":     "found by halving: TestReserves in package flow",
	"purge-argon":            "a sum over the welds: TestPurge in package order",
	"low-points":             "counted",
	"high-points":            "counted",
	"welded-joints":          "counted",
	"welds":                  "counted",
	"parts":                  "counted",
	"tube-length":            "a sum over the cuts, which are listed",

	"stays-line":       "an integral over the pools, which are listed: package holdup, against closed forms and chance",
	"stays-shut":       "an integral over the pools, which are listed: package holdup, against closed forms and chance",
	"film-line":        "summed over the pieces: package holdup",
	"wash-flow-had":    "solved: TestWashFlowsPutBack",
	"wash-pool":        "the tank's volume at a level that is solved: TestPoolRunsOff",
	"wash-line-volume": "summed over the pieces: TestLineHolds, in package clean",

	"centre-":         "summed moments: packages vessel and stand",
	"mass-empty":      "summed: package stand",
	"mass-worst":      "summed: package stand",
	"tip-angle-full":  "solved: TestFreeSurfaceAgainstStrips, in package stand",
	"tip-angle-worst": "solved: TestFreeSurfaceAgainstStrips, in package stand",
	"steel-strength":  "a table: package stand",
	"leg-resistance":  "the standard's curve: TestResistance, in package stand",
}

// reason returns why the figure of that slug is not given by its formula.
func reason(slug string) (string, bool) {
	for start, why := range notByFormula {
		if strings.HasPrefix(slug, start) {
			return why, true
		}
	}
	return "", false
}

// Every figure of every plant shows how it was reached: formula, the numbers
// that went in with their symbols and names, source, and where it holds. Where
// a formula can be worked out from the inputs shown, a calculator that knows
// nothing of Drawoff gets the figure.
func TestEveryFigureShowsItsWorking(t *testing.T) {
	t.Parallel()
	evaluated := map[string]bool{}
	for name, d := range plants(t) {
		r := pipeline.Check(d)
		require.Empty(t, r.Faults, name)
		seen := map[string]bool{}
		for _, f := range allFigures(r) {
			at := name + ", " + f.Slug
			assert.False(t, seen[f.Slug], "%s: twice", at)
			seen[f.Slug] = true
			assert.NotEmpty(t, f.Name, at)
			assert.NotEmpty(t, f.Formula, at)
			assert.NotEmpty(t, f.Source, at)
			assert.NotEmpty(t, f.Range, at)
			assert.False(t, math.IsNaN(f.Amount.SI) || math.IsInf(f.Amount.SI, 0), at)
			why, exempt := reason(f.Slug)
			assert.True(t, len(f.Inputs) > 0 || why == "counted" || strings.HasPrefix(why, "a sum"), "%s: no inputs", at)
			for _, in := range f.Inputs {
				assert.NotEmpty(t, in.Symbol, at)
				assert.NotEmpty(t, in.Name, at)
				unitless := in.Amount.Kind.Unit(q.Metric) == ""
				assert.True(t, !unitless || in.Amount.Kind == q.KindNumber || in.Amount.Kind == q.KindSlope, at)
			}
			if exempt {
				continue
			}
			got, ok := evaluate(f.Working)
			if assert.True(t, ok, "%s: %q cannot be worked out from its inputs, and notByFormula has no reason", at, f.Formula) {
				evaluated[f.Slug] = true
				assert.InDelta(t, f.Amount.SI, got, 1e-9*math.Max(1, math.Abs(f.Amount.SI)), "%s: %s", at, f.Formula)
			}
		}
	}
	for _, slug := range []string{"tank-brimful", "air-pressure", "suction-head-available-full", "suction-margin-lowest", "reynolds", "suction-velocity",
		"wave-speed", "surge-quick", "surge-closing-time", "submergence-lowest", "leg-length", "worst-bore-step", "pump-gap", "transfer-flow",
		"viscosity-parameter", "displacement", "dry-lift", "hydraulic-power", "shaft-power", "throttle-head-full", "throttle-kv-lowest",
		"wash-flow", "film-thickness", "spray-pressure", "wash-suction-margin", "wash-batch", "wash-chemical", "wash-heat", "wash-warming", "vent-running", "steam-condensed", "shut-cooled", "caustic-swallows"} {
		assert.True(t, evaluated[slug], "%s was not worked out from its formula", slug)
	}
}

// The calculator itself, against sums done by hand.
func TestCalculator(t *testing.T) {
	t.Parallel()
	in := []finding.Input{finding.In("a", "", q.Number(2)), finding.In("b_1", "", q.Number(3)), finding.In("Δx", "", q.Number(-4))}
	for formula, want := range map[string]float64{
		"y = a + b_1":                     5,
		"y = 4 a/(b_1 a)":                 4.0 / 3,
		"y = a b_1² - 2 (a + 1)":          12,
		"y = |Δx|/2":                      2,
		"y = |a + Δx| b_1":                6,
		"y = √(Δx² + b_1²)":               5,
		"y = max(a, b_1 × 2)":             6,
		"y = min(a, b_1)/a, all day":      1,
		"y = f(z), nonsense; y = a^3":     8,
		"y = ρ a = a (1 - 0.5 b_1)^2":     0.5,
		"the sum of two words; y = a - 1": 1,
	} {
		got, ok := evaluate(finding.Working{Formula: formula, Inputs: in})
		assert.True(t, ok, formula)
		assert.InDelta(t, want, got, 1e-12, formula)
	}
	_, ok := evaluate(finding.Working{Formula: "y = a + unknown", Inputs: in})
	assert.False(t, ok)
}

// input returns the value of the input of that symbol.
func input(t require.TestingT, f finding.Figure, symbol string) float64 {
	for _, in := range f.Inputs {
		if in.Symbol == symbol {
			return in.Amount.SI
		}
	}
	require.Fail(t, "no such input", "%s of %s", symbol, f.Slug)
	return 0
}

// A solved flow, put back: the pump's head is what is lifted and lost, and by
// gravity what is lost is the fall. Where the pump runs beyond its curve, or
// nothing flows, there is nothing to balance.
func TestSolvedFlows(t *testing.T) {
	t.Parallel()
	checked := 0
	for name, d := range plants(t) {
		r := pipeline.Check(d)
		for _, f := range r.Figures {
			level, ok := strings.CutPrefix(f.Slug, "flow-")
			if !ok || f.Amount.SI == 0 {
				continue
			}
			if r.Scene.Layout.Gravity {
				assert.InDelta(t, input(t, f, "z_l")-input(t, f, "z_d"), value(t, r, "line-loss-"+level), 1e-6, name)
				checked++
				continue
			}
			beyond := f.Amount.SI >= float64(r.Scene.FlowInput.Curve.Last())
			if !beyond {
				assert.InDelta(t, input(t, f, "H_pump"), input(t, f, "z_d - z_l")+input(t, f, "h_f"), 1e-6, name)
				checked++
			}
		}
	}
	assert.Greater(t, checked, 10)
}

func TestWholeNumbers(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	per, _ := r.Figure("legs-per-length")
	s, l, k := input(t, per, "S"), input(t, per, "L"), input(t, per, "k")
	n := per.Amount.SI
	assert.LessOrEqual(t, n*l+(n-1)*k, s)
	assert.Greater(t, (n+1)*l+n*k, s, "one more would not come out")
	lengths, _ := r.Figure("leg-stock-lengths")
	assert.Equal(t, math.Ceil(input(t, lengths, "N")/n), lengths.Amount.SI)
}

// The tank cannot empty faster than at its greatest flow, nor more slowly than
// at its least.
func TestTransferTimes(t *testing.T) {
	t.Parallel()
	checked := 0
	for name, d := range plants(t) {
		for _, f := range pipeline.Check(d).Transfer().Figures {
			if f.Slug != "transfer-time" && f.Slug != "time-to-air" {
				continue
			}
			drawn := input(t, f, "V_1") - input(t, f, "V_2")
			assert.GreaterOrEqual(t, f.Amount.SI, drawn/input(t, f, "Q_1")*(1-1e-5), "%s, %s", name, f.Slug)
			assert.LessOrEqual(t, f.Amount.SI, drawn/input(t, f, "Q_2")*(1+1e-5), "%s, %s", name, f.Slug)
			checked++
		}
	}
	assert.Greater(t, checked, 8)
}
