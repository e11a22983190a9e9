// Package pressure follows the pressure along the line while the liquid runs:
// where it is least, whether the liquid boils there, and what a hose there must
// bear. It says too what has to be lifted to fill a delivery that leads over a
// top, and what runs on or back when the pump stops. Wash asks the same of the
// line while it is washed: hotter, and faster than the liquid goes.
//
// With the energy equation from the tank, or back from the outflow, the
// pressure at the highest point of the bore is that of the air and the liquid
// over it, less what has been lost up to there and the velocity head. Left out:
// the drop within a valve that is nearly shut, and a surge.
package pressure

import (
	"math"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Input is what Check needs. All heights are above the floor.
type Input struct {
	*Line
	With      string     // of a step of the wash: what runs, "caustic soda, 2 %, at 75 °C"; "" for the liquid
	Air       q.Pressure // absolute
	Vapour    q.Pressure // of the liquid, absolute
	Density   q.Density
	Discharge q.Length // of the outflow, or of the level it enters
	Levels    []Level  // the fullest first
	Margin    q.Head   // that the liquid is to be away from boiling
	Pump      string   // its kind, of design
	ShutOff   q.Head   // most that the pump gives against no flow; 0 by gravity, or where it is not known
}

// Line is a line as laid, with where along it the pressure is looked at: what
// everything that runs through it has in common.
type Line struct {
	Layout           route.Layout
	toPump, delivery []route.Section
}

// NewLine finds where along layout the pressure is to be looked at.
func NewLine(layout route.Layout) *Line {
	return &Line{layout, sections(layout.ToPump()), sections(layout.Delivery)}
}

// Level is a height of the liquid with what then runs.
type Level struct {
	When    string // "with the tank full"
	Height  q.Length
	Flow    bool           // something runs
	AtLeast bool           // more may run than the pump's curve tells
	Pieces  map[string]Run // by ref; "tank" and "delivery" are the line's ends
}

// Run is what runs through a piece.
type Run struct {
	Flow        q.Flow
	Loss        q.Head
	Least, Most q.Head // by the methods that say so
}

const (
	gravity = 9.80665

	lineSource = "energy equation (Bernoulli with losses), along the top of the bore"
	lineRange  = "a line that runs full; what a valve nearly shut does inside is not reckoned"
)

// Point is where in the line the pressure is least.
type Point struct {
	Ref      string
	When     string
	At       q.Length   // top of the bore there, above the floor
	Pressure q.Pressure // absolute, as reckoned; not over the vapour pressure where the liquid would part
	atLeast  bool       // more may run than was reckoned with
	from     q.Length   // free surface it is reckoned from
	lost     q.Head     // from there to it; under 0 where it is reckoned back from the outflow
	speed    q.Velocity
}

// Check judges the pressure along the line.
func Check(in Input) finding.Findings {
	var f finding.Findings
	p, h, ok := in.survey()
	if ok {
		f.Figures = append(f.Figures, in.figure(p))
		f.Verdicts = append(f.Verdicts, in.judge(p))
	}
	if h.piece != nil {
		f.Verdicts = append(f.Verdicts, in.folds(h))
	}
	f.Verdicts = append(f.Verdicts, in.overTop()...)
	f.Verdicts = append(f.Verdicts, in.stands()...)
	return f
}

// survey finds the point of the least pressure at any level, ok if there is one,
// and what the hose must bear that bears most, which has no piece where none does.
func (in *Input) survey() (least Point, worst hosed, ok bool) {
	for i := range in.Levels {
		if !in.Levels[i].Flow {
			continue
		}
		in.Along(&in.Levels[i], func(piece *route.Piece, p Point) {
			if !ok || p.Pressure < least.Pressure {
				least, ok = p, true
			}
			if piece.Kind == design.Hose {
				if h := (hosed{piece, in.Air - p.Pressure, p.When}); h.under >= fold && h.over(worst) {
					worst = h
				}
			}
		})
	}
	return least, worst, ok
}

// Along calls do with the points of the line where the pressure may be least,
// and the piece that each is in, the liquid standing at level. Before the pump
// the most that any method says is lost, after it the least: both make the
// pressure the lower.
func (in *Input) Along(level *Level, do func(*route.Piece, Point)) {
	l := &in.Layout
	loss := func(r Run) q.Head { return r.Most }
	if l.Gravity {
		loss = func(r Run) q.Head { return r.Loss } // which brings it to the air's at the outflow
	}
	lost := loss(level.Pieces["tank"])
	in.stretch(l.ToPump(), in.toPump, level, level.Height, func(r Run, part float64) q.Head {
		return lost + q.Head(part)*loss(r)
	}, func(r Run) { lost += loss(r) }, do)
	if l.Gravity || in.ends() {
		return
	}
	after := level.Pieces["delivery"].Least
	for i := range l.Delivery {
		after += level.Pieces[l.Delivery[i].Ref].Least
	}
	in.stretch(l.Delivery, in.delivery, level, in.Discharge, func(r Run, part float64) q.Head {
		return q.Head(part)*r.Least - after
	}, func(r Run) { after -= r.Least }, do)
}

// stretch goes along pieces, cut at cuts; lost says what is lost from the surface
// to a part of the way through a piece, passed that one has been gone through.
func (in *Input) stretch(pieces []route.Piece, cuts []route.Section, level *Level, surface q.Length, lost func(Run, float64) q.Head, passed func(Run), do func(*route.Piece, Point)) {
	for i := range pieces {
		ref := pieces[i].Ref
		run, end, length := level.Pieces[ref], 0, 0.0
		for end < len(cuts) && cuts[end].Piece == i {
			if end > 0 {
				length += cuts[end].At.Sub(cuts[end-1].At).Len()
			}
			end++
		}
		gone := 0.0
		for k := range cuts[:end] {
			c := &cuts[k]
			if k > 0 {
				gone += c.At.Sub(cuts[k-1].At).Len()
			}
			part := 1.0 // a hose whose ends lie together is all passed, or none of it
			if length > 0 {
				part = gone / length
			} else if k == 0 {
				part = 0
			}
			p := Point{Ref: ref, When: level.When, atLeast: level.AtLeast, At: q.Length(c.Crown), from: surface, lost: lost(run, part)}
			if c.Radius > 0 {
				p.speed = q.Velocity(float64(run.Flow) / (math.Pi * c.Radius * c.Radius))
			}
			head := float64(surface-p.At) - float64(p.lost) - float64(p.speed*p.speed)/(2*gravity)
			p.Pressure = in.Air + q.Pressure(float64(in.Density)*gravity*head)
			do(&pieces[i], p)
		}
		cuts = cuts[end:]
		passed(run)
	}
}

// sections are those of route.Profile and, within an arc, more between them:
// where a bend begins to fall its bore sinks less than what is lost on the way,
// so that the pressure can be least in the middle of it.
func sections(pieces []route.Piece) []route.Section {
	const parts = 16 // of an arc between two cuts: within a tenth of a millimetre of head in a bend of 1.5 bores
	cuts := route.Profile(pieces)
	out := make([]route.Section, 0, 2*len(cuts))
	for i, c := range cuts {
		if i > 0 {
			b := &cuts[i-1]
			if s := &pieces[c.Piece].Path[c.Segment]; s.Radius > 0 && b.Piece == c.Piece && b.Segment == c.Segment {
				for k := 1; k < parts; k++ {
					m := s.SectionAt(b.T + (c.T-b.T)*float64(k)/parts)
					m.Piece, m.Segment = c.Piece, c.Segment
					out = append(out, m)
				}
			}
		}
		out = append(out, c)
	}
	return out
}
