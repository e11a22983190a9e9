package flow

import (
	"math"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// The workings of losses, written once.
const (
	lossFormula = "h_f = Σ (f L/D + K) v²/2g; f by Colebrook from Re 4000, 64/Re to Re 2000, the higher between; K = K_1/Re + K_∞ (1 + 1/D in inches)"
	lossSource  = "Colebrook 1939; bends, tees and valves: Hooper two-K 1981; reducers, steps, entrance, exit and tees that split: Crane TP-410; valves part open: Weisbach; drops: as typed; other methods, for the band: Rennels & Hudson 2012, Darby three-K 2001, Crane TP-410, Idelchik"
	lossRange   = "Newtonian liquid, full bore; in laminar flow one method only, so no band"
)

// lossFigure adds a loss with what other methods say of it.
func (p *plant) lossFigure(r *Result, pt *Point, slug, name string, value q.Head, c circuit) {
	least, most := c.band(float64(pt.Flow))
	said := p.said()
	add(r, pt, slug, name, "", value, finding.Working{
		Formula: said.loss,
		Inputs: append(p.resistance(append(make([]finding.Input, 0, 7),
			finding.In("Q", "flow", pt.Flow),
			finding.In("ρ", "density", p.Liquid.Density),
		)),
			finding.In("ε", "roughness of the bores, 5.863 Ra", p.rough()),
			finding.In("h_least", "least that any method says", q.Head(least)),
			finding.In("h_most", "most that any method says; verdicts are taken on it", q.Head(most)),
		),
		Source: said.source, Range: said.lossRange,
	})
	either := math.Max(most-float64(value), float64(value)-least)
	if either > 1e-6 {
		r.Figures[len(r.Figures)-1].Either = new(q.Of(q.Head(either)))
	}
}

// finishFigure adds how far the loss hangs on the finish of the bores, at the
// first level's flow: between smooth and a rough finish it seldom matters.
func (p *plant) finishFigure(r *Result) {
	flow := r.Points[0].Flow
	if flow == 0 {
		return
	}
	at := func(ra q.Length) q.Head {
		sum, nu := 0.0, viscosity(p.Liquid)
		for _, line := range [...]Line{p.suction, p.delivery} {
			for i := range line {
				e := line[i]
				if e.Length == 0 {
					continue
				}
				if e.Roughness == p.rough() {
					e.Roughness = Roughness(ra)
				}
				reach := reachOf(&e, &nu)
				sum += reach.loss(float64(flow))
			}
		}
		return q.Head(sum)
	}
	smooth, rough, own := at(0), at(RoughFinish), at(p.Finish)
	r.Figures = append(r.Figures, finding.Figure{
		Slug: "finish-loss", Name: "What the finish adds to the friction, " + r.Points[0].Level.Name, Amount: q.Of(own - smooth),
		Working: finding.Working{
			Formula: "Δh = h_f - h_0, for ε = 5.863 Ra",
			Inputs: []finding.Input{
				finding.In("Ra", "finish of the bores", p.Finish),
				finding.In("ε", "equivalent sand grain", p.rough()),
				finding.In("h_0", "friction with smooth bores", smooth),
				finding.In("h_f", "friction with this finish", own),
				finding.In("h_3", "friction with a rough finish, Ra "+q.Text(RoughFinish), rough),
			},
			Source: "Adams, Grant & Watson 2012, the factor from memory; Colebrook 1939", Range: "new or clean metal; scale and stone are rougher by far",
		},
	})
}

// splitFigures adds what leaves or joins at each tee that splits the flow.
func (p *plant) splitFigures(r *Result) {
	flow := fastest(r.Points).Flow
	p.eachPiece(func(piece *route.Piece, e *Element) {
		share := shareOf(piece)
		if share == 0 || flow == 0 {
			return
		}
		name := "Drawn off at the tee"
		if share < 0 {
			name = "Joins at the tee"
		}
		all := q.Flow(float64(flow) * e.Share)
		r.Figures = append(r.Figures, finding.Figure{
			Slug: "split-" + slugOf(piece.Ref), Name: name, Piece: piece.Ref, Amount: q.Of(all * q.Flow(math.Abs(share))),
			Working: finding.Working{
				Formula: "Q_3 = s Q",
				Inputs: []finding.Input{
					finding.In("Q", "combined flow through the tee, greatest", all),
					finding.In("s", "share at the third port", q.Fraction(math.Abs(share))),
				},
				Source: "as typed: what stands at the third port is taken to pass just this share; K by Crane TP-410 on the combined flow",
				Range:  "90° tee of one bore",
			},
		})
	})
}

// slugOf makes a ref into words of a slug: "run.2" into "run-2".
func slugOf(ref string) string {
	b := []byte(ref)
	for i := range b {
		if b[i] == '.' {
			b[i] = '-'
		}
	}
	return string(b)
}

// eachPiece calls do with every piece and its element.
func (p *plant) eachPiece(do func(*route.Piece, *Element)) {
	elements := [...]Line{p.suction, p.delivery}
	for _, pieces := range [...][]route.Piece{p.Layout.Under, p.Layout.Run, p.Layout.Delivery} {
		for i := range pieces {
			if e := elementAt(elements[:], pieces[i].Ref); e != nil {
				do(&pieces[i], e)
			}
		}
	}
}

// elementAt returns the first element of the piece at ref.
func elementAt(lines []Line, ref string) *Element {
	for _, l := range lines {
		for i := range l {
			if l[i].Ref == ref {
				return &l[i]
			}
		}
	}
	return nil
}
