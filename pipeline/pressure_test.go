package pipeline_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
)

// led is a tank with its outlet a metre over the floor, whose line is led as
// the pieces say, "s 300" being a straight and "b 180°" a bend. run goes to the
// pump, by gravity to the end; out is what follows the pump, "" by gravity.
func led(t *testing.T, run, out string, edits ...string) pipeline.Report {
	t.Helper()
	r := pipeline.Check(laid(t, run, out, edits...))
	require.Empty(t, r.Faults)
	return r
}

// laid is the design of it.
func laid(t *testing.T, run, out string, edits ...string) design.Design {
	t.Helper()
	pieces := func(s string) string {
		var all []string
		for p := range strings.SplitSeq(s, ",") {
			kind, arg, _ := strings.Cut(strings.TrimSpace(p), " ")
			member := map[string]string{"s": `"kind":"straight","length":"%s mm"`, "b": `"kind":"bend","turn":"%s"`, "h": `"kind":"hose","length":"%s mm"`, "v": `"kind":"%s"`}[kind]
			all = append(all, `{"in":"clamp/ferrule","out":"clamp/ferrule",`+fmt.Sprintf(member, arg)+`}`)
		}
		return "[" + strings.Join(all, ",") + "]"
	}
	pump, delivery := `{"kind":"none"}`, `{}`
	if out != "" {
		pump = `{"away":"3 m","height":"300 mm","inSize":"bs-4825/2in","inEnd":"clamp/ferrule","curve":[{"flow":"0 L/min","head":"8.2 m"},{"flow":"160 L/min","head":"1.4 m"}]}`
		delivery = `{"pieces":` + pieces(out) + `}`
	}
	d, faults := design.ReadFile([]byte(`{"drawoff":1,"tank":{"bore":"1 m","height":"1.5 m","coneAngle":"90°","outlet":{"size":"bs-4825/2in","end":"clamp/ferrule"}},
		"under":` + pieces("b 0°") + `,"stand":{"height":"1 m"},"run":` + pieces(run) + `,"pump":` + pump + `,"delivery":` + delivery + `}`))
	require.Empty(t, faults)
	for i := 0; i < len(edits); i += 2 {
		d, faults = d.Apply(design.Edit{Path: edits[i], Value: edits[i+1]})
		require.Empty(t, faults)
	}
	return d
}

func judged(t *testing.T, r pipeline.Report, rule string) finding.Verdict {
	t.Helper()
	v := verdictsOf(r, rule)
	require.Len(t, v, 1, rule)
	return v[0]
}

// A siphon reckoned back from its outflow, with flow and losses found by
// python3-fluids 1.0.22 (Colebrook, Hooper2K) and water by iapws 1.5.2: 180
// L/min at the lowest level, and 35.4 kPa under the air's where the last bend
// begins, of which what the bend loses before its highest point is part.
func TestLeastPressureOfASiphon(t *testing.T) {
	t.Parallel()
	const run = "v butterfly-valve, s 300, b 0°, s 3000, b 0°, s 300, b 180°, s 3500"
	r := led(t, run, "", "delivery.height", "0.2 m")
	p, ok := r.Figure("least-pressure")
	require.True(t, ok)
	assert.Equal(t, finding.Sound, judged(t, r, "line-pressure").Level)
	under := float64(r.Scene.FlowInput.Air) - p.Amount.SI
	assert.Greater(t, under, 34e3)
	assert.Less(t, under, 38e3)

	// At 2500 m water of 80 °C boils 27.3 kPa under the air's: ISO 2533 gives
	// 74.7 kPa, IAPWS R7-97 47.4 kPa.
	hot := led(t, run, "", "delivery.height", "0.2 m", "liquid.temperature", "80 °C", "site.altitude", "2500 m")
	v := judged(t, hot, "line-pressure")
	assert.Equal(t, finding.Stop, v.Level, v.Sentence)
	assert.NotEmpty(t, v.Advice)
}

// Water of 99 °C is 3.5 kPa from boiling under the air of sea level (97.8 kPa,
// IAPWS R7-97; ISO 2533), in the tank as in the line: a line that sucks at no
// point of it brings it no nearer, one that leads it up a metre parts it (ρ g z).
func TestLineThatDoesNotSuckBoilsNothing(t *testing.T) {
	t.Parallel()
	hot := func(run string) finding.Verdict {
		return judged(t, led(t, run, "", "liquid.temperature", "99 °C", "tank.lowest", "900 mm", "run.1.kv", "4"), "line-pressure")
	}
	v := hot("s 300, v butterfly-valve")
	assert.Equal(t, finding.Sound, v.Level, v.Sentence)
	v = hot("s 300, v butterfly-valve, b 0°, s 1700, b 0°, s 300, b 180°, s 2500")
	assert.Equal(t, finding.Stop, v.Level, v.Sentence)
}

// No siphon of water stands higher than the air carries it, 10.1 m at 20 °C
// ((101 325 - 2339) Pa over 998.2 kg/m³: ISO 2533, IAPWS R7-97), whatever it loses.
func TestNoSiphonOverTenMetres(t *testing.T) {
	t.Parallel()
	for _, up := range []string{"10200", "14000", "30000"} {
		r := led(t, "s 300, b 0°, s "+up+", b 0°, s 300, b 180°, s "+up+", b 0°, s 300", "", "delivery.height", "0.5 m")
		assert.Equal(t, finding.Stop, judged(t, r, "line-pressure").Level, up)
	}
}

// Where nobody says how high the outflow stands it is where the line ends: a
// line that ends over the liquid runs nothing by gravity (energy equation), and
// one that ends a known fall under it as if that had been typed.
func TestOutflowIsWhereTheLineEnds(t *testing.T) {
	t.Parallel()
	up := led(t, "s 300, b 0°, s 4500", "")
	v := judged(t, up, "gravity-flow")
	assert.Equal(t, finding.Stop, v.Level, v.Sentence)

	down := led(t, "s 300, b 180°, s 400", "")
	pieces := down.Scene.Layout.Pieces()
	end := pieces[len(pieces)-1].Out.At.Z
	typed := led(t, "s 300, b 180°, s 400", "", "delivery.height", fmt.Sprintf("%.9f m", end))
	assert.InEpsilon(t, float64(typed.Scene.Points[0].Flow), float64(down.Scene.Points[0].Flow), 1e-6)
	assert.InDelta(t, float64(down.Scene.Points[0].Level.Height)-end, float64(down.Scene.Points[0].Static), 1e-9)

	pumped := led(t, "s 1500", "s 1500, b 0°, s 1000")
	pieces = pumped.Scene.Layout.Pieces()
	assert.InDelta(t, pieces[len(pieces)-1].Out.At.Z-float64(pumped.Scene.Points[0].Level.Height), float64(pumped.Scene.Points[0].Static), 1e-9)
}

// A pump of 8.2 m at no flow fills no line that leads 8.6 m over the liquid,
// though once full it would run (hydrostatics).
func TestOverTheTop(t *testing.T) {
	t.Parallel()
	over := func(up, down string) pipeline.Report {
		return led(t, "s 1500", "s "+up+", b 0°, s 500, b 180°, s "+down)
	}
	r := over("9600", "8000")
	for _, v := range verdictsOf(r, "pump-range") {
		assert.NotEqual(t, finding.Stop, v.Level, v.Sentence)
	}
	assert.Equal(t, finding.Stop, judged(t, r, "over-the-top").Level)
	assert.Equal(t, finding.Sound, judged(t, over("4000", "2500"), "over-the-top").Level)
	assert.Empty(t, verdictsOf(led(t, "s 1500", "s 1500, b 0°, s 500"), "over-the-top"))
}

// What stands still runs where it can (hydrostatics): on through the pump while
// the tank stands over the outflow, which a non-return valve does not stop, and
// back when it stands under it.
func TestWhenThePumpStops(t *testing.T) {
	t.Parallel()
	high, low := "s 4000, b 0°, s 500", "s 300, b 0°, s 500"
	for _, row := range []struct {
		run, out string
		level    finding.Level
	}{
		{"s 1500", high, finding.Look},
		{"s 1500", low, finding.Look},
		{"s 1500, v non-return-valve", high, finding.Sound},
		{"s 1500, v non-return-valve", low, finding.Look},
		{"v butterfly-valve, s 1500", high, finding.Sound},
		{"v butterfly-valve, s 1500", low, finding.Sound},
	} {
		v := judged(t, led(t, row.run, row.out), "pump-stops")
		assert.Equal(t, row.level, v.Level, "%s | %s: %s", row.run, row.out, v.Sentence)
		if row.out == low {
			assert.Contains(t, v.Sentence, "runs on")
		} else {
			assert.Contains(t, v.Sentence, "runs back")
		}
	}
}

// A hose pump squeezes its hose shut where it stands; through the gaps of a lobe
// pump liquid slips (common practice, no source).
func TestWhenAPositivePumpStops(t *testing.T) {
	t.Parallel()
	stops := func(kind string) finding.Verdict {
		r := pipeline.Check(creeps(t, design.Edit{Op: "remove", Path: "under.0"}, design.Edit{Path: "pump.kind", Value: kind}))
		require.Empty(t, r.Faults)
		return judged(t, r, "pump-stops")
	}
	// What is shut drains on neither side through the other.
	empties := func(kind string) string {
		return strings.Join(pipeline.Check(creeps(t, design.Edit{Path: "pump.kind", Value: kind})).Stays().Steps, "\n")
	}
	assert.Contains(t, empties(design.Peristaltic), "the joint at the pump's inlet and the one at its outlet")
	assert.Contains(t, empties(design.Lobe), "the pump's drain plug, or the joint at its inlet")
	v := stops(design.Peristaltic)
	assert.Equal(t, finding.Sound, v.Level, v.Sentence)
	for kind, by := range map[string]string{design.Lobe: "through its gaps", design.Flexible: "past its vanes"} {
		v = stops(kind)
		assert.Equal(t, finding.Look, v.Level, v.Sentence)
		assert.Contains(t, v.Sentence, "slips on of itself slowly through the pump, "+by)
	}
}

// A hose three metres over the liquid stands under 29 kPa of vacuum and more
// (ρ g z): a soft one folds, one that is said to be made for it does not.
func TestHoseUnderSuction(t *testing.T) {
	t.Parallel()
	const run = "s 300, b 0°, h 3000, b 0°, s 300"
	assert.Equal(t, finding.Look, judged(t, led(t, run, "s 1500"), "hose-suction").Level)
	assert.Equal(t, finding.Sound, judged(t, led(t, run, "s 1500", "run.2.suction", "true"), "hose-suction").Level)
	assert.Empty(t, verdictsOf(led(t, "h 3000", "s 1500"), "hose-suction"), "under the liquid it hangs full")
	for _, made := range []string{"run.2", "run.4"} { // of two, the one that nobody says is made for it
		v := judged(t, led(t, "s 300, b 0°, h 3000, b 0°, h 300", "s 1500", made+".suction", "true"), "hose-suction")
		assert.Equal(t, finding.Look, v.Level, made)
		assert.NotEqual(t, made, v.Piece)
	}
}
