package pipeline

import (
	"drawoff/catalog"
	"drawoff/pipeline/drain"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// pieces makes the table of pieces.
func (p plant) pieces(drains drain.Result, verdicts []finding.Verdict) []Piece {
	gravest := map[string]finding.Level{}
	for _, v := range verdicts {
		gravest[v.Piece] = max(gravest[v.Piece], v.Level)
	}
	falls := map[string]q.Amount{}
	for _, f := range drains.Falls {
		if !f.Vertical {
			falls[f.Ref] = q.Of(f.Slope)
		}
	}
	flows := map[string]flow.PieceFlow{}
	for _, f := range p.flow.Pieces {
		flows[f.Ref] = f
	}
	placed := p.layout.Pieces()
	said := p.design.Sizes() // the same pieces, in the same order
	out := make([]Piece, len(placed))
	for i, piece := range placed {
		out[i] = Piece{
			Ref:    piece.Ref,
			Number: piece.Number,
			Label:  piece.Label,
			Name:   said[i].Piece.Name,
			Length: q.Of(piece.Length),
			From:   piece.In.At,
			To:     piece.Out.At,
			Level:  gravest[piece.Ref],
		}
		if fall, ok := falls[piece.Ref]; ok {
			out[i].Fall = &fall
		}
		if f, ok := flows[piece.Ref]; ok {
			velocity, loss := q.Of(f.Velocity), q.Of(f.Loss)
			out[i].Velocity, out[i].Loss = &velocity, &loss
		}
	}
	return out
}

// doubts lists each length that rests on no published figure, once.
func (p plant) doubts() []Doubt {
	out := []Doubt{}
	seen := map[string]bool{}
	add := func(d catalog.Dimension) {
		if d.Either == 0 || seen[d.Slug] {
			return
		}
		seen[d.Slug] = true
		out = append(out, Doubt{
			Dimension: d.Slug,
			Length:    q.Of(d.Length),
			Either:    q.Of(d.Either),
			Trust:     string(d.Trust),
			Measure:   d.Caliper,
			Source:    d.Source,
		})
	}
	for _, piece := range p.layout.Pieces() {
		for _, d := range piece.Dims {
			add(d)
		}
	}
	for _, j := range p.layout.Junctions {
		add(j.Gap)
	}
	return out
}

// scene gathers where everything is.
func (p plant) scene() Scene {
	d := p.design
	return Scene{
		Layout:    p.layout,
		Vessel:    p.known.vessel,
		TankFoot:  p.known.foot(p.height),
		Levels:    p.known.levels(p.known.foot(p.height)),
		Outlet:    p.height,
		LegTop:    p.height + d.Stand.LegTop.Value(),
		Legs:      d.Stand.Legs,
		Bucket:    d.Stand.Bucket.Value(),
		Ceiling:   d.Site.Ceiling.Value(),
		Delivery:  d.Delivery.Height.Value(),
		Points:    p.flow.Points,
		System:    p.flow.System,
		FlowInput: p.flowInput(),
	}
}
