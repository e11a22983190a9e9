package flow

import (
	"math"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Where what is used for liquids that are not Newtonian was measured, and from
// where on what was taken with water holds for another liquid.
const (
	leastIndex      = 0.36 // Dodge and Metzner
	mostReynolds    = 36000.0
	fittingReynolds = 20.0    // Steffe
	sheetReynolds   = 10000.0 // IEC 60534-2-1, from memory
	asWater         = 2e-6    // m²/s: no thicker than twice water; ours, no source
)

// Beyond says where r, what Check found in in, rests on a formula, a data
// sheet or a pump's curve beyond what it was measured in.
func Beyond(in Input, r Result) []finding.Verdict {
	p := newPlant(&in)
	var out []finding.Verdict
	newtonian := in.Liquid.Rheology.Newtonian()
	if !newtonian && !in.Layout.Gravity && !in.Curve.IsZero() && !in.Curve.positive {
		out = append(out, finding.Verdict{
			Rule: "pump-liquid", Level: finding.Look, Piece: refPump,
			Sentence: "The pump's curve is published for water. In a liquid that is not Newtonian a centrifugal pump gives less flow and head, and no rule says how much less.",
			Advice:   "Ask its maker for a curve in this liquid, or take a pump that displaces: lobe, peristaltic or screw.",
			Basis:    "ANSI/HI 9.6.7 covers Newtonian liquids only (from memory)",
		})
	}
	if len(r.Points) == 0 || fastest(r.Points).Flow == 0 {
		return out
	}
	flow := float64(fastest(r.Points).Flow)
	out = append(out, p.sheets(flow)...)
	if newtonian {
		return out
	}
	return append(append(out, p.creeping(&r, flow)...), p.fastThick(flow)...)
}

// sheets warns of drops and Kv taken with water where the liquid is so thick
// that they no longer hold for it.
func (p *plant) sheets(flow float64) (out []finding.Verdict) {
	nu := viscosity(p.Liquid)
	if nu.rheology.Newtonian() && nu.nu <= asWater {
		return nil
	}
	p.eachPiece(func(piece *route.Piece, e *Element) {
		what := "drop typed for this piece holds"
		switch {
		case piece.Said == nil, e.Drops != nil && e.Drops.own:
			return
		case e.Drops != nil:
		case piece.Said.Kv.IsZero(), !nu.rheology.Newtonian(), piece.Kind != design.Device && !design.IsBody(piece.Kind):
			return // in a liquid that is not Newtonian a Kv follows the law of the fittings
		default:
			what = "Kv of this piece holds"
		}
		in := reachOf(e, &nu)
		re, _, _ := in.regime(flow)
		if e.Drops == nil {
			re = ofValve(float64(piece.Said.Kv.Value()), flow*in.share, nu.nu)
		}
		if re >= sheetReynolds {
			return
		}
		number, _ := q.Apart(q.Number(re), sheetReynolds)
		out = append(out, finding.Verdict{
			Rule: "sheet-liquid", Level: finding.Look, Piece: piece.Ref, Limit: new(q.Of(q.Number(sheetReynolds))),
			Sentence: "The " + what + " for water. This liquid runs through it at Reynolds number " + number + ", where it may lose more than that says.",
			Advice:   "Measure the drop over it with this liquid at about this flow, and type that in instead.",
			Basis:    "IEC 60534-2-1, from memory: under Reynolds number 10 000 a Kv is to be corrected",
		})
	})
	return out
}

// ofValve returns the Reynolds number by which a Kv, in m³/h at 1 bar, is to be
// corrected: Re_v = 0.0707 Q/(ν √Kv), Q in m³/h, ν in m²/s, its factors for the
// kind of valve taken as 1 and the speed of approach left out (IEC 60534-2-1).
func ofValve(kv, flow, nu float64) float64 {
	return 0.0707 * flow * 3600 / (nu * math.Sqrt(within(kv, 1e-6, 1e6)))
}

// creeping judges what fittings lose that a liquid creeps through: a guess, which
// does no harm where it is little, or where twice of it can be borne.
func (p *plant) creeping(r *Result, flow float64) []finding.Verdict {
	nu := viscosity(p.Liquid)
	var at *Element
	slowest, before, guess := fittingReynolds, q.Head(0), q.Head(0)
	for i, line := range [...]Line{p.suction, p.delivery} {
		for j := range line {
			e := &line[j]
			in := reachOf(e, &nu)
			v := in.velocity * flow
			mr := in.thick.metznerReed(v, in.thick.wall(v))
			if mr >= fittingReynolds || in.laminar == 0 {
				continue
			}
			in.straight = 0
			guess += q.Head(in.loss(flow))
			if i == 0 {
				before = guess
			}
			if mr < slowest {
				at, slowest = e, mr
			}
		}
	}
	if at == nil {
		return nil
	}
	all := q.Head(p.whole.loss(flow))
	v := finding.Verdict{
		Rule: "fitting-range", Piece: at.Ref,
		Sentence: "The liquid creeps through the fittings at Reynolds number " + q.Text(q.Number(slowest)) + "; their losses are measured from " + q.Text(q.Number(fittingReynolds)) +
			". What they lose, " + q.Text(guess) + " of the line's " + q.Text(all) + ", is a guess there, the same law taken on",
		Basis: "Steffe 1996, p. 137: K = A/Re from Re 20 to 500; that twice as much is room enough: common practice, no source",
	}
	switch {
	case guess <= all/20:
		v.Sentence += ", and too little to matter."
	case p.bears(r, before, guess):
		v.Sentence += ". Were it twice that, the pump would still keep its suction margin and press within its points."
	default:
		v.Level = finding.Look
		v.Sentence += "."
		v.Advice = "Measure the drop over such a piece with this liquid at about this flow, and type it in; or leave room in the head for twice that."
	}
	return []finding.Verdict{v}
}

// bears reports whether a positive pump would keep its suction margin and run
// on its points with more lost in the line, before of it ahead of the pump. What
// another pump moves, and what runs by gravity, hangs on what is lost.
func (p *plant) bears(r *Result, before, more q.Head) bool {
	if !p.Curve.positive {
		return false
	}
	for i := range r.Points {
		pt := &r.Points[i]
		if pt.Status != Running || !pt.holds() || pt.Margin < before || pt.Head+more > p.Curve.duties[0].Head {
			return false
		}
	}
	return true
}

// fastThick warns where turbulent friction is asked beyond its measurements.
func (p *plant) fastThick(flow float64) []finding.Verdict {
	nu := viscosity(p.Liquid)
	fast, fastRe := (*Element)(nil), 0.0
	for _, line := range [...]Line{p.suction, p.delivery} {
		for i := range line {
			e := &line[i]
			in := reachOf(e, &nu)
			v := in.velocity * flow
			n := in.thick.index
			if re := in.thick.reynolds(v, in.thick.wall(v)); n != 0 && e.Length > 0 && re > in.thick.laminarTo && (n < leastIndex || n > 1 || re > mostReynolds) && re > fastRe {
				fast, fastRe = e, re
			}
		}
	}
	if fast == nil {
		return nil
	}
	return []finding.Verdict{{
		Rule: "friction-range", Level: finding.Look, Piece: fast.Ref,
		Sentence: "Turbulent friction of this liquid, index " + q.Text(p.Liquid.Rheology.Index) + ", is asked at Reynolds number " + q.Text(q.Number(fastRe)) + "; it was measured from n 0.36 to 1 and to Reynolds number 36 000. The formula is used beyond that.",
		Advice:   "Leave room in the head for it.",
		Basis:    "Dodge & Metzner 1959",
	}}
}

// Through is what passes a piece, or an end of the line, and what it loses.
type Through struct {
	Flow        q.Flow
	Loss        q.Head
	Least, Most q.Head // by the methods that say so
}

// AllThrough returns what passes everything of in's line at a flow, by its ref.
// What a joint loses whose bores do not match is with the piece before it.
func AllThrough(in Input, flow q.Flow) map[string]Through {
	p := newPlant(&in)
	out := make(map[string]Through, len(p.suction)+len(p.delivery))
	for _, line := range [...]Line{p.suction, p.delivery} {
		for i, e := range line.Loss(flow, in.Liquid).Elements {
			all := out[e.Ref]
			all.Flow = flow * q.Flow(line[i].Share)
			all.Loss += e.Loss
			all.Least += e.Least
			all.Most += e.Most
			out[e.Ref] = all
		}
	}
	return out
}
