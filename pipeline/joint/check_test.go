package joint

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

func meet(ref string, up, down catalog.Half, seal string) route.Junction {
	return route.Junction{Ref: ref, Up: route.End{Half: &up}, Down: route.End{Half: &down}, Seal: seal}
}

// A perry line of ours: a clamp at the outlet, a weld, a ring joint at the pump.
func perry(t testing.TB) Input {
	const size = "bs-4825/2in"
	ferrule, plain := half(t, "clamp/ferrule", size), half(t, "weld", size)
	return Input{
		Junctions: []route.Junction{
			meet("under.0", ferrule, ferrule, "epdm"),
			meet("run.0", plain, plain, "epdm"),
			meet("run.1", plain, plain, "epdm"),
			meet("pump", half(t, "ring-joint/male", size), half(t, "ring-joint/liner", size), "epdm"),
		},
		Medium:      "water",
		Liquid:      "perry",
		Temperature: q.Celsius(12),
		BoreStep:    bpe,
	}
}

func byRule(r Result, rule string) []finding.Verdict {
	var out []finding.Verdict
	for _, v := range r.Verdicts {
		if v.Rule == rule {
			out = append(out, v)
		}
	}
	return out
}

func figure(t testing.TB, r Result, slug string) finding.Figure {
	t.Helper()
	for _, f := range r.Figures {
		if f.Slug == slug {
			return f
		}
	}
	t.Fatalf("no figure %s", slug)
	return finding.Figure{}
}

func TestCheckSound(t *testing.T) {
	t.Parallel()
	r := Check(perry(t))
	sound := byRule(r, RuleSound)
	require.Len(t, sound, 1)
	assert.Equal(t, "All 4 joints close (2 unions, 2 welds), with seals that stand perry at 12 °C.", sound[0].Sentence)
	assert.Equal(t, finding.Sound, sound[0].Level)
	assert.InDelta(t, 4, figure(t, r, figureJoints).Amount.SI, 0)
	assert.InDelta(t, 2, figure(t, r, figureWelded).Amount.SI, 0)
	require.Len(t, r.Joints, 4)
	assert.Equal(t, "clamp", r.Joints[0].Kind)
	assert.Equal(t, "clamp/2in/seal/epdm", r.Joints[0].Seal.Slug)
	assert.Equal(t, weld, r.Joints[1].Kind)
	assert.False(t, r.Joints[1].HasSeal)
}

// Trade page on the ring joint to BS 4825-5: not advised for cleaning in place.
func TestRingJointsAreStripped(t *testing.T) {
	t.Parallel()
	r := Check(perry(t))
	strip := byRule(r, RuleStrip)
	require.Len(t, strip, 1)
	assert.Equal(t, finding.Look, strip[0].Level)
	assert.Equal(t, "pump", strip[0].Piece)
	assert.Contains(t, strip[0].Sentence, "1 ring joint has to be taken apart")
	assert.Equal(t, finding.Look, r.Joints[3].Level)
	assert.Equal(t, finding.Sound, r.Joints[0].Level)
}

func TestCheckReportsEachFaultAtItsJoint(t *testing.T) {
	t.Parallel()
	in := perry(t)
	in.Junctions[0].Seal = "none"
	in.Junctions[3].Up = in.Junctions[3].Down // two liners
	r := Check(in)
	assert.Empty(t, byRule(r, RuleSound))
	require.Len(t, byRule(r, RuleMissing), 1)
	assert.Equal(t, "under.0", byRule(r, RuleMissing)[0].Piece)
	require.Len(t, byRule(r, RuleHalves), 1)
	assert.Equal(t, "pump", byRule(r, RuleHalves)[0].Piece)
	assert.Equal(t, finding.Stop, r.Joints[3].Level)
	assert.False(t, r.Joints[0].HasSeal)
}

// One material in two joints is one fault, and both joints show it.
func TestSealMaterialIsJudgedOnce(t *testing.T) {
	t.Parallel()
	in := perry(t)
	in.Temperature = q.Celsius(105)
	for i := range in.Junctions {
		in.Junctions[i].Seal = "nbr" // trade list: 99 °C continuous, not for steam
	}
	r := Check(in)
	hot := byRule(r, RuleTemperature)
	require.Len(t, hot, 1)
	assert.Equal(t, finding.Stop, hot[0].Level)
	assert.Equal(t, "under.0", hot[0].Piece)
	assert.Contains(t, hot[0].Sentence, "It is in 2 joints")
	assert.Equal(t, finding.Stop, r.Joints[0].Level)
	assert.Equal(t, finding.Stop, r.Joints[3].Level)
	assert.Empty(t, byRule(r, RuleSound))
}

// A golf ball is at least 42.67 mm (R&A and USGA Equipment Rules part 4
// section 3): it passes a 2 in BS 4825-1 bore and not a 1½ in one.
func TestLargestSphere(t *testing.T) {
	t.Parallel()
	ball := q.Mm(42.67)
	in := perry(t)
	// Narrower beyond the pump does not matter.
	small := half(t, "weld", "bs-4825/1in")
	in.Junctions = append(in.Junctions, meet("delivery.pieces.0", small, small, ""))
	wide := figure(t, Check(in), figureSphere)
	assert.Greater(t, wide.Amount.SI, float64(ball))
	assert.Equal(t, "Largest sphere that passes from tank to pump", wide.Name)

	narrow := half(t, "weld", "bs-4825/1.5in")
	in.Junctions[2].Up.Half, in.Junctions[2].Down.Half = &narrow, &narrow
	f := figure(t, Check(in), figureSphere)
	assert.Less(t, f.Amount.SI, float64(ball))
	assert.Equal(t, "run.1", f.Piece)

	ferrule := half(t, "clamp/ferrule", "bs-4825/2in")
	// By gravity the last piece ends in the open, where nothing is joined.
	in = Input{Junctions: in.Junctions[:1], BoreStep: bpe, Pieces: []route.Piece{{
		Ref: "run.0", Kind: design.Butterfly, In: route.End{Half: &ferrule}, Out: route.End{Half: &small},
	}}}
	f = figure(t, Check(in), figureSphere)
	assert.InDelta(t, 22.2e-3, f.Amount.SI, 1e-9, "1 in x 1.6 mm, BS 4825-1")
	assert.Contains(t, f.Range, "butterfly")
	assert.Contains(t, f.Name, "outflow")
}

func TestWorstStepIsHeldAgainstTheWall(t *testing.T) {
	t.Parallel()
	in := Input{BoreStep: bpe, Junctions: []route.Junction{
		meet("run.0", tube(101.6, 2), tube(101.6, 2.11), ""), // 0.11 of 2.0: 5.5 %
		meet("run.1", tube(25.4, 1.6), tube(25, 1.2), ""),    // 0.20 of 1.2: 16.7 %
	}}
	f := figure(t, Check(in), figureStep)
	assert.InDelta(t, 0.20e-3, f.Amount.SI, 1e-9)
	assert.Equal(t, "run.1", f.Piece)
	assert.NotEmpty(t, f.Inputs)
}

func TestCheckNothing(t *testing.T) {
	t.Parallel()
	r := Check(Input{})
	assert.Empty(t, r.Verdicts)
	assert.Empty(t, r.Joints)
}

// Temperatures from a trade guide for clamp seals and a seal maker's manual;
// media from the manual and, where marked so in the catalogue, from memory.
func TestSealStands(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		material, medium string
		celsius          float64
		rule             string
		level            finding.Level
	}{
		{"epdm", "water", 12, "", finding.Sound},
		{"epdm", "caustic", 80, "", finding.Sound},             // manual: NaOH 2 %, 80 °C, good
		{"epdm", "", 145, RuleTemperature, finding.Stop},       // trade list: to 140 °C
		{"epdm", "", 135, RuleTemperature, finding.Look},       // within 10 °C of it
		{"nbr", "", 100, RuleTemperature, finding.Stop},        // trade list: 99 °C continuous
		{"vmq", "", 101, RuleTemperature, finding.Stop},        // one clamp-seal list: to 100 °C
		{"fkm", "", -16, RuleTemperature, finding.Stop},        // trade list: down to -15 °C
		{"fkm", "caustic", 20, RuleMedium, finding.Stop},       // manual: a base-resistant grade is advised
		{"epdm", "citrus-oil", 20, RuleMedium, finding.Stop},   // manual: swells far too much
		{"epdm", "fat", 20, RuleMedium, finding.Stop},          // manual: neat fats and oils
		{"fkm", "citrus-oil", 20, "", finding.Sound},           // manual
		{"epdm", "moonbeams", 20, RuleMedium, finding.Look},    // no source
		{"unobtainium", "water", 20, RuleMedium, finding.Look}, // no material
	} {
		faults := SealStands(c.material, c.medium, q.Celsius(c.celsius))
		if c.rule == "" {
			assert.Empty(t, faults, "%s in %s at %g", c.material, c.medium, c.celsius)
			continue
		}
		require.Len(t, faults, 1, "%s in %s at %g", c.material, c.medium, c.celsius)
		assert.Equal(t, c.rule, faults[0].Rule)
		assert.Equal(t, c.level, faults[0].Level, faults[0].Sentence)
		assert.NotEmpty(t, faults[0].Advice)
	}
}

// Hotter is never better, from 20 °C up.
func TestHotterIsNeverBetter(t *testing.T) {
	t.Parallel()
	materials := catalog.Materials()
	require.NotEmpty(t, materials)
	worst := func(faults []Fault) finding.Level {
		level := finding.Sound
		for _, f := range faults {
			level = max(level, f.Level)
		}
		return level
	}
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(materials).Draw(t, "material").Slug
		c := rapid.Float64Range(20, 300).Draw(t, "t")
		more := rapid.Float64Range(0, 100).Draw(t, "more")
		assert.GreaterOrEqual(t, worst(SealStands(m, "water", q.Celsius(c+more))), worst(SealStands(m, "water", q.Celsius(c))))
	})
}

func BenchmarkCheck(b *testing.B) {
	in := perry(b)
	for b.Loop() {
		Check(in)
	}
}
