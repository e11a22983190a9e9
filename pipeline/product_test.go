package pipeline_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// withPiece is the demo with a piece before the first of its delivery.
func withPiece(p design.Piece) design.Design {
	d := design.Demo()
	d.Delivery.Pieces = append([]design.Piece{p}, d.Delivery.Pieces...)
	return d
}

// EN 10312 tube need not have its inside weld bead taken off (the standard,
// option 5): a stop where product runs, and something to know with water.
func TestTubeThatIsNotForProduct(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	d.Delivery.Pieces = append(d.Delivery.Pieces, design.Piece{Kind: design.Straight, Size: "en-10312/54", Length: q.MustParse[q.Length]("300 mm")})
	for kind, level := range map[string]finding.Level{"fermented": finding.Stop, "milk": finding.Stop, "sugar": finding.Stop, "water": finding.Look, "caustic": finding.Look} {
		d.Liquid = design.Liquid{Kind: kind}
		r := pipeline.Check(d)
		require.Empty(t, r.Faults, kind)
		found := verdictsOf(r, "tube-for-product")
		require.Len(t, found, 1, "once for the series: %s", kind)
		assert.Equal(t, level, found[0].Level, kind)
		assert.Equal(t, "delivery.pieces.3", found[0].Piece)
		assert.Contains(t, found[0].Sentence, "weld bead")
	}
	assert.Empty(t, verdictsOf(pipeline.Check(design.Demo()), "tube-for-product"))
}

// Pipe thread in the line is warned of, whatever runs through it: common
// hygienic guidance, from memory.
func TestScrewedJointIsWarnedOf(t *testing.T) {
	t.Parallel()
	d := withPiece(design.Piece{Kind: design.Straight, In: "bsp/male", Out: "bsp/female", Length: q.MustParse[q.Length]("300 mm")})
	found := verdictsOf(pipeline.Check(d), "union-for-product")
	require.Len(t, found, 1)
	assert.Equal(t, finding.Look, found[0].Level)
}

// A cap closes the line, and is bought as what closes the half before it.
func TestCapClosesTheLine(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	last := len(d.Delivery.Pieces)
	d.Delivery.Pieces[last-1].Out = "ring-joint/male"
	d.Delivery.Pieces = append(d.Delivery.Pieces, design.Piece{Kind: design.Cap, In: "ring-joint/liner"})
	r := pipeline.Check(d)
	require.Empty(t, r.Faults)
	found := verdictsOf(r, "line-closed")
	require.Len(t, found, 1)
	assert.Equal(t, finding.Stop, found[0].Level)
	bought := map[string]float64{}
	for _, l := range r.Parts {
		bought[l.Slug] = l.Quantity
	}
	for _, slug := range []string{"ring-joint/1.5in/cap/male", "ring-joint/1.5in/male", "ring-joint/1.5in/nut", "ring-joint/1.5in/seal/epdm"} {
		assert.InDelta(t, 1, bought[slug], 1e-9, slug)
	}
	assert.NotContains(t, bought, "ring-joint/1.5in/liner", "the cap is the other half")
}

// Every kind of piece can be put in a line and is worked out, bought and drawn.
func TestEveryKindOfPiece(t *testing.T) {
	t.Parallel()
	for _, k := range design.Kinds() {
		p := design.Piece{Kind: k.Slug}
		switch k.Slug {
		case design.Straight, design.Hose:
			p.Length = q.MustParse[q.Length]("300 mm")
		case design.Device:
			p.Length, p.Kv = q.MustParse[q.Length]("300 mm"), q.MustParse[q.Number]("20")
		case design.Reducer:
			p.To = "bs-4825/2in"
		}
		r := pipeline.Check(withPiece(p))
		require.Empty(t, r.Faults, k.Slug)
		require.Equal(t, "delivery.pieces.0", r.Pieces[len(design.Demo().Under)+len(design.Demo().Run)].Ref)
		piece := r.Pieces[len(design.Demo().Under)+len(design.Demo().Run)]
		assert.NotEmpty(t, piece.Label, k.Slug)
		require.NotNil(t, piece.Loss, k.Slug)
		if k.Slug != design.Cap {
			assert.Positive(t, piece.Length.SI, k.Slug)
			assert.Positive(t, piece.Loss.SI, k.Slug)
		}
	}
}

// Fully open, a diaphragm valve with a dam costs more than a swing check valve,
// and that more than a butterfly valve and a ball valve: K∞ 2.0, 1.5, 0.25 and
// 0.10 of Hooper, Chem. Eng., 24 Aug 1981.
func TestValvesInTheOrderOfTheirLosses(t *testing.T) {
	t.Parallel()
	at := len(design.Demo().Under) + len(design.Demo().Run)
	before := 1e9
	for _, kind := range []string{design.Diaphragm, design.NonReturn, design.Butterfly, design.Ball} {
		piece := pipeline.Check(withPiece(design.Piece{Kind: kind})).Pieces[at]
		v := piece.Velocity.SI
		k := piece.Loss.SI / (v * v)
		assert.Less(t, k, before, kind)
		before = k
	}
}

// A pump that the liquid drives by itself empties the tank when it is left: that
// is told where everybody reads it, and only then. Energy: the outflow hangs
// lower than the level, by more than the line loses. A hose pump that stands is
// shut, and so holds it (common practice, no source).
func TestLiquidThatDrivesThePumpIsACaution(t *testing.T) {
	t.Parallel()
	const said = "runs through this pump by itself"
	for _, row := range []struct {
		kind, height string
		want         bool
	}{{design.Lobe, "200 mm", true}, {design.Lobe, "8 m", false}, {design.Centrifugal, "200 mm", false}, {design.Flexible, "200 mm", true}, {design.Peristaltic, "200 mm", false}} {
		d, faults := design.Examples()[3].Design.Apply(design.Edit{Path: "pump.kind", Value: row.kind}, design.Edit{Path: "delivery.height", Value: row.height}, design.Edit{Path: "liquid.kind", Value: "water"})
		require.Empty(t, faults)
		cautions := strings.Join(pipeline.Check(d).Cautions, " ")
		assert.Equal(t, row.want, strings.Contains(cautions, said), "%s at %s", row.kind, row.height)
		if row.height == "200 mm" && design.Positive(row.kind) {
			v := verdictsOf(pipeline.Check(d), "pump-range")[0]
			by := map[string]string{design.Lobe: "slips forward through its gaps", design.Flexible: "slips forward past its vanes", design.Peristaltic: "squeezes its hose shut"}[row.kind]
			assert.Contains(t, v.Sentence, by)
			assert.Equal(t, row.kind == design.Peristaltic, !strings.Contains(v.Sentence, "slips"), v.Sentence)
		}
	}
}
