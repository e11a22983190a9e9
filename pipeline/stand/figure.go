package stand

import (
	"strconv"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// The figures of the stand.
const (
	figureHeight  = "outlet-height"
	figureLeg     = "leg-length"
	figurePer     = "legs-per-length"
	figureLengths = "leg-stock-lengths"
	figureOverall = "overall-height"
	figureBucket  = "bucket-space"
	figureBracket = "bracket-moment"
)

// exact is the range of what is only added up.
const exact = "any heights; as doubtful as the lengths that go in"

func figures(in Input, r Result, l line) []finding.Figure {
	legs := r.Legs
	fs := []finding.Figure{
		{Slug: figureHeight, Name: "Outlet face over the floor", Amount: q.Of(in.Height), Either: either(r.Height), Hangs: r.Height.Hangs, Piece: "stand", Working: heightWorking(in, r.Drivers)},
		{Slug: figureLeg, Name: "Leg tube, each", Amount: q.Of(legs.LegLength), Either: either(legs.LegDoubt), Hangs: legs.LegDoubt.Hangs, Piece: "stand", Working: finding.Working{
			Formula: "L = (H + t - f)/cos(θ)",
			Inputs: []finding.Input{
				finding.In("H", "outlet face over the floor", in.Height),
				finding.In("t", "top of the legs over the outlet face", in.LegTop),
				finding.In("f", "foot under the leg tube", in.Foot),
				finding.In("θ", "splay", in.Splay),
			},
			Source: "geometry; where nobody said otherwise, t ends the outer edge of the leg on the underside of the tank", Range: exact,
		}},
	}
	if in.skew() > 0 {
		w := &fs[1].Working
		w.Formula += " + d tan(θ)"
		w.Inputs = append(w.Inputs, finding.In("d", "leg tube, outside", in.LegOD))
	}
	if legs.PerLength > 0 {
		inputs := []finding.Input{
			finding.In("S", "stock length", in.Stock),
			finding.In("L", "leg tube", legs.LegLength),
			finding.In("k", "saw cut", in.Kerf),
		}
		fs = append(fs,
			finding.Figure{Slug: figurePer, Name: "Legs out of one length", Amount: q.Of(q.Number(legs.PerLength)), Piece: "stand", Working: finding.Working{
				Formula: "the largest n with n L + (n - 1) k ≤ S",
				Inputs:  inputs,
				Source:  noSource,
				Range:   "the whole stock length used; take off what the ends need squaring",
			}},
			finding.Figure{Slug: figureLengths, Name: "Lengths to buy for the legs", Amount: q.Of(q.Number(legs.Lengths)), Piece: "stand", Working: finding.Working{
				Formula: "N / n, rounded up; left over: " + q.Text(legs.Offcut),
				Inputs: append(inputs[:3:3],
					finding.In("N", "legs", q.Number(legs.LegCount)),
					finding.In("n", "legs out of one length", q.Number(legs.PerLength))),
				Source: noSource, Range: "legs of one length, all out of one stock",
			}})
	}
	fs = append(fs, finding.Figure{Slug: figureOverall, Name: "Brim over the floor", Amount: q.Of(r.Overall), Either: either(r.Height), Hangs: r.Height.Hangs, Piece: "tank", Working: finding.Working{
		Formula: "Z = H + b + d",
		Inputs: []finding.Input{
			finding.In("H", "outlet face over the floor", in.Height),
			finding.In("b", "lowest inside point over the outlet face", in.Tank.BottomToOutlet),
			finding.In("d", "lowest inside point to brim", in.Tank.Depth),
		},
		Source: "geometry", Range: exact,
	}})
	if len(in.Layout.Under) > 0 || !in.Tank.Side {
		fs = append(fs, bucketSpace(in, l))
	}
	return fs
}

// bucketSpace is the free height under the stack, bucket or no bucket.
func bucketSpace(in Input, l line) finding.Figure {
	hang, doubt := l.hanging(in, l.under)
	return finding.Figure{Slug: figureBucket, Name: "Free height under the stack", Amount: q.Of(in.Height - hang), Either: either(doubt), Hangs: doubt.Hangs, Piece: "stand",
		Working: finding.Working{
			Formula: "B = H - h",
			Inputs: []finding.Input{
				finding.In("H", "outlet face over the floor", in.Height),
				finding.In("h", "what hangs under it reaches below it, unions and all", hang),
			},
			Source: "geometry; a clamp reckoned 10 mm beyond its flange, a nut that no table gives and a valve's body 25 mm beyond the tube (common practice, no source)", Range: exact + "; handles turned up",
		}}
}

func heightWorking(in Input, ds []Driver) finding.Working {
	w := finding.Working{Formula: "as typed, held against the largest of the needs", Source: "geometry and the limits of each need", Range: exact}
	if !in.HeightTyped {
		w.Formula = "the largest of the needs, rounded up to 5 mm unless only one height meets the pump"
	}
	for i, d := range ds {
		w.Inputs = append(w.Inputs, finding.In("H_"+strconv.Itoa(i+1), lower(d.Name), d.Needed))
	}
	return w
}

func either(d route.Doubt) *q.Amount {
	if d.Either == 0 {
		return nil
	}
	return amount(d.Either)
}
