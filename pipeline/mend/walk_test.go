package mend_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/mend"
)

// forAPerson are the rules that no change of the plant answers, with why.
var forAPerson = map[string]string{
	"fitting-range": "no loss of a fitting was ever measured in so thick a liquid: the advice says how to",
	"sheet-liquid":  "somebody has to measure the drop in that liquid",
	"hose-suction":  "somebody has to look at the hose",
	"wash-hose":     "somebody has to look at the hose",
	"assumed":       "only somebody who has looked at each can say that it is right",
	"leg-brackets":  "what a shell bears in one spot is for whoever may design vessels: the advice says so",
	"legs-clear":    "which legs or braces may go is the builder's to say: the advice says what does",
	"leg-length":    "legs longer than the stock want other stock to be bought, or another plant",
}

// walked takes the first way out of the first verdict that has one, again and
// again, until none has but by a trade, which is for a person. No plant may come
// twice, and no way out may move what the plant is held to.
func walked(t require.TestingT, d design.Design, most int) (taps int, left []finding.Verdict, story string) {
	seen := map[string]bool{}
	for {
		file := string(design.WriteFile(d))
		require.False(t, seen[file], "the repairs go round in a ring:\n%s", story)
		seen[file] = true
		require.LessOrEqual(t, taps, most, "too many taps:\n%s", story)
		r := pipeline.Check(d)
		require.Empty(t, r.Faults)
		left = nil
		var way *mend.Way
		for _, v := range r.Verdicts {
			if v.Level == finding.Sound {
				continue
			}
			ways := mend.Ways(d, r, v)
			if len(ways) == 0 || ways[0].Trades {
				left = append(left, v)
				continue
			}
			way = &ways[0]
			story += "  " + strconv.Itoa(taps+1) + " [" + v.Level.String() + " " + v.Rule + " " + v.Piece + "] " + v.Sentence + "\n    -> " + way.Sentence + "\n"
			break
		}
		if way == nil {
			return taps, left, story
		}
		for _, e := range way.Edits {
			require.False(t, strings.HasPrefix(e.Path, "limits.") || e.Path == "wash.speed", "%s: what the plant is held to is the user's to say", way.Sentence)
		}
		changed, faults := d.Apply(way.Edits...)
		require.Empty(t, faults)
		d = changed
		taps++
	}
}

// soundAtLast walks until nothing is left but what is for a person.
func soundAtLast(t require.TestingT, d design.Design, most int) int {
	taps, left, story := walked(t, d, most)
	for _, v := range left {
		require.Contains(t, forAPerson, v.Rule, "%s: %s\n%s", v.Level, v.Sentence, story)
		require.NotEmpty(t, v.Advice)
	}
	return taps
}

// Somebody who takes the first way out of the first verdict, again and again,
// ends with every rule met, from each example.
func TestExamplesEndSound(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		t.Run(e.Slug, func(t *testing.T) {
			t.Parallel()
			t.Log(soundAtLast(t, e.Design, 8), "taps")
		})
	}
}

// So does whoever starts a plant of their own, whatever they answer.
func TestOwnPlantsEndSound(t *testing.T) {
	t.Parallel()
	var tubes []string
	for _, tube := range catalog.Tubes() {
		if tube.Bore() > 0.020 && tube.Bore() < 0.110 {
			tubes = append(tubes, tube.Slug)
		}
	}
	pick := func(t *rapid.T, path string, values ...string) design.Edit {
		return set(path, rapid.SampledFrom(values).Draw(t, path))
	}
	rapid.Check(t, func(t *rapid.T) {
		d, faults := design.Own(
			pick(t, "tank.bore", "500 mm", "36 in", "900 mm", "1.2 m", "2 m"), pick(t, "tank.height", "400 mm", "4 ft", "1.2 m", "3 m"),
			pick(t, "tank.bottom", "cone", "klopper", "korbbogen", "flat"), pick(t, "tank.coneAngle", "", "60°", "90°", "140°"),
			pick(t, "tank.outlet.size", tubes...),
			pick(t, "pump.kind", design.Centrifugal, design.Lobe, "flexible-impeller", "peristaltic", design.NoPump),
			pick(t, "pump.away", "700 mm", "1.8 m", "12 ft", "6 m"), pick(t, "pump.height", "100 mm", "240 mm", "900 mm"), pick(t, "pump.inSize", append(tubes, "", "", "", "", "", "", "", "", "", "")...))
		if len(faults) > 0 {
			t.Skip(faults.Error())
		}
		soundAtLast(t, d, 10)
	})
}

// Whatever is wrong with a plant, whoever takes first ways out comes to an end:
// none brings back what another mended. What is left then is for a person, or
// is a thing against another.
func TestWaysOutGoRoundInNoRing(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) { walked(t, likelyPlant(t), 20) })
}

func TestWaysOutOfRandomPlantsGoRoundInNoRing(t *testing.T) {
	t.Parallel()
	plants := rapid.Custom(designtest.Design)
	for seed := range 60 {
		if d := plants.Example(seed); len(pipeline.Check(d).Faults) == 0 {
			walked(t, d, 60)
		}
	}
}
