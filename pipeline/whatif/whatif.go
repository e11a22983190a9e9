// Package whatif moves one input of a plant and watches one figure: how the
// suction head falls as the liquid gets warmer, how long the tank takes to
// empty through a wider tube, and where the limit lies. Every value is tried
// on the whole plant, so whoever shows it asks for it.
package whatif

import (
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Curve is how a figure moves with an input.
type Curve struct {
	Path   string // of the input
	Figure string // slug
	Name   string // of the figure
	Unit   string // of the input's numbers, as typed; "" for tubes and counts
	Named  bool   // the input is one of a list and no number
	Points []Point
	Now    int // the point that the plant is at
}

// Point is the figure at one value of the input.
type Point struct {
	Value string    // as it is typed into the field
	Says  string    // the same for people
	At    float64   // where it lies along the input, in Unit
	Is    *q.Amount // the figure; nil where it cannot be worked out
	Limit *q.Amount // what the figure is held to there; nil where nothing holds it
}

// Sweep works the figure called slug out for every value that Values has for
// the input at path. It returns false where the input has none or the plant
// has no such figure.
func Sweep(d design.Design, path, slug string) (Curve, bool) {
	base, ok := figure(pipeline.Check(d), slug)
	values := Values(d, path)
	if !ok || len(values) == 0 {
		return Curve{}, false
	}
	c := Curve{Path: path, Figure: slug, Name: base.Name, Points: make([]Point, len(values))}
	for i, v := range values {
		c.Points[i] = Point{Value: v.Typed, Says: v.Says, At: v.At}
		c.Unit, c.Named = v.Unit, v.Named
		if v.Now {
			c.Now = i
		}
		changed, faults := d.Apply(design.Edit{Path: path, Value: v.Typed})
		if len(faults) > 0 {
			continue
		}
		r := pipeline.Check(changed)
		if f, ok := figure(r, slug); ok && f.Amount.Kind == base.Amount.Kind {
			c.Points[i].Is, c.Points[i].Limit = new(f.Amount), limit(r, f)
		}
	}
	return c, true
}

// figure returns the figure called slug, of the check or of what is worked out
// only when it is asked for.
func figure(r pipeline.Report, slug string) (finding.Figure, bool) {
	if f, ok := r.Figure(slug); ok {
		return f, true
	}
	for _, more := range beside {
		for _, f := range more(r) {
			if f.Slug == slug {
				return f, true
			}
		}
	}
	return finding.Figure{}, false
}

// beside are the figures that are not of the check.
var beside = [...]func(pipeline.Report) []finding.Figure{
	func(r pipeline.Report) []finding.Figure { return r.Transfer().Figures },
	func(r pipeline.Report) []finding.Figure { return r.Stability().Figures },
	func(r pipeline.Report) []finding.Figure { return r.Wash().Figures },
	func(r pipeline.Report) []finding.Figure { return r.Breathing().Figures },
}

// limit returns what a verdict holds f to.
func limit(r pipeline.Report, f finding.Figure) *q.Amount {
	for _, v := range r.Verdicts {
		if v.Figure == f.Slug && v.Limit != nil && v.Limit.Kind == f.Amount.Kind {
			return v.Limit
		}
	}
	return nil
}

// Figures returns every figure of r that can be watched, each once.
func Figures(r pipeline.Report) (out []finding.Figure) {
	seen := map[string]bool{}
	add := func(figures []finding.Figure) {
		for _, f := range figures {
			if !seen[f.Slug] {
				seen[f.Slug] = true
				out = append(out, f)
			}
		}
	}
	add(r.Figures)
	for _, more := range beside {
		add(more(r))
	}
	return out
}

// leg counts that a tank may stand on.
const leastLegs, mostLegs = 3, 6

func counts(now string) (out []Value) {
	for n := leastLegs; n <= mostLegs; n++ {
		s := strconv.Itoa(n)
		out = append(out, Value{Typed: s, Says: s, At: float64(n), Now: s == now})
	}
	return out
}
