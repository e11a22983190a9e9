package pipeline

import (
	"drawoff/catalog"
	"drawoff/pipeline/drain"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// pieces makes the table of pieces.
func (p plant) pieces(drains drain.Result, levels map[string]finding.Level) []Piece {
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
			Level:  levels[piece.Ref],
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

// dimensions lists each length of a part that the plant rests on, once. Where
// its length was typed for one piece and is in doubt in another, the doubt stands.
func (p plant) dimensions() []Dimension {
	placed := p.layout.Pieces()
	out := make([]Dimension, 0, 2*len(placed))
	at := make(map[string]int, 2*len(placed))
	add := func(d *catalog.Dimension) {
		i, had := at[d.Slug]
		switch {
		case d.Slug == "" || had && (d.Either == 0 || out[i].Either != nil):
			return
		case !had:
			i = len(out)
			at[d.Slug] = i
			out = append(out, Dimension{})
		}
		out[i] = Dimension{
			Dimension: d.Slug,
			Length:    q.Of(d.Length),
			Trust:     string(d.Trust),
			Measure:   d.Caliper,
			Source:    d.Source,
		}
		if d.Either > 0 {
			out[i].Either = new(q.Of(d.Either))
		}
	}
	for i := range placed {
		for k := range placed[i].Dims {
			add(&placed[i].Dims[k])
		}
	}
	for i := range p.layout.Junctions {
		add(&p.layout.Junctions[i].Gap)
	}
	return out
}

// scene gathers where everything is.
func (p plant) scene() Scene {
	d, in := p.design, p.standInput()
	return Scene{
		Layout:    p.layout,
		Vessel:    p.known.vessel,
		TankFoot:  p.known.foot(p.height),
		Levels:    p.known.levels(p.known.foot(p.height)),
		Outlet:    p.height,
		LegTop:    p.height + in.LegTop,
		Bucket:    d.Stand.Bucket.Value(),
		KeepOuts:  d.KeepOuts,
		Ceiling:   d.Site.Ceiling.Value(),
		Delivery:  p.discharge(),
		Points:    p.flow.Points,
		System:    p.flow.System,
		FlowInput: p.flowInput(),
		Stand:     in,
		Seam:      d.Tank.Seam.Value(),
	}
}
