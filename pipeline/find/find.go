// Package find finds the run: the ways from the end of what hangs under the
// tank to the pump, from the pump's outlet to the outflow, or by gravity all
// the way, with parts that exist, round what stands in the way, each with what
// it is worth.
//
// It searches the lines that the two ends and the boxes span (Hanan 1966, from
// memory: a shortest way along the axes needs no others), with the direction
// in the state and several costs kept, and never drops a way that could end as
// the best of one of them. Legs are drawn level; what they fall comes off the
// upright ones, and route.Lay has the last word: a run that does not meet its
// end within a hundredth of a millimetre is not offered.
//
// Moves are 90° bends and offsets of two 45° bends, rolled to any side, along
// the way into the end and square to it; and, for a line that has come down, a
// level leg at 45° to that way. A run goes down or level all the way (where its
// end is higher: up or level), so that it has no pockets. Two may turn over
// once: one from a pump's outlet, which points up, to something lower, or so
// little higher that its bends have no room, has its highest place at its
// start, and one that comes into a vessel from above at its end; both sides of
// that drain. What a bend of 90° lacks to the fall is
// sprung at the joint before the straight, within the limit of the design, or
// left to bends of 88° and 92°.
//
// Left out: bends of other angles, level legs at other angles, more than six
// bends, and more than one over the fewest that do; legs of the stand and supports of the line, which are for the user to
// mark as boxes.
//
// Everything is a pure function of the question, and asks keepGoing every few
// thousand looks whether to go on.
package find

import (
	"math"
	"slices"
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Run is a run that reaches its end.
type Run struct {
	Line   Line
	Pieces []design.Piece
	Design design.Design   // the plant with this run in it
	Report pipeline.Report // on that
	Best   []string        // what no other run offered does better: "fewest parts"
	Drains string          // where it drains to, all the way: "the pump", "the tank", "the outflow"; "" when it does not
	Notes  []string        // what to know before it is built, sentences

	Size    string // of its tube, in words
	Style   string // of the joints at its bends: welded or unions
	Parts   int    // pieces
	Bends   int
	Unions  int      // to be opened to strip it
	Welds   int      // within it
	Length  q.Length // along its centreline
	Longest q.Length // of what it comes apart into, along the centreline
	Loss    q.Head   // from tank to pump, or from the pump on, with the tank full
	Suction q.Head   // available at the pump at the lowest level; 0 where the run does not lead to one
	Flow    q.Flow   // with the tank full

	toOutflow bool
}

// Laid are the run's pieces as they come to lie.
func (r Run) Laid() []route.Piece { return r.Line.own(r.Report.Scene.Layout) }

// Answer is what was found.
type Answer struct {
	Runs   []Run    // the ones that are best at something, at most six
	Why    string   // why there is none, or none that drains; a sentence or two
	Loses  string   // what is in the line now that no run holds, a sentence
	Ways   []string // what would make one drain: more height, another place for the pump
	Raise  q.Length // the least height that the tank must be raised for a run that drains; 0 where there is one, or none by raising
	Halted bool     // it was told to stop
}

// most is how many runs are offered: more is a list to study.
const most = 6

// Find answers a question. keepGoing, where it is not nil, is asked now and
// then; once it says no the answer is what had been found, and Halted.
func Find(qu Question, keepGoing func() bool) Answer {
	f := &finder{Question: qu, going: keepGoing}
	fall := float64(qu.Fall)
	runs := f.runs(fall)
	drain := func() bool { return slices.ContainsFunc(runs, func(r Run) bool { return r.Drains != "" }) }
	if over, ok := qu.over(); ok && !drain() {
		f.Question = over
		runs = append(runs, f.runs(fall)...)
		f.Question = qu
	}
	if !drain() && !f.halted {
		if fall > 0 {
			runs = append(runs, f.runs(0)...)
		}
		why, ways := f.why(fall)
		if len(runs) > 0 {
			why = strings.Replace(why, noWay, "No run drains", 1)
		}
		f.answer.Why, f.answer.Ways = why, append(f.answer.Ways, ways...)
	}
	if f.answer.Runs = best(runs); len(f.answer.Runs) > 0 {
		f.answer.Loses = f.loses()
	}
	f.answer.Halted = f.halted
	return f.answer
}

type finder struct {
	Question
	going  func() bool
	halted bool
	answer Answer
}

// runs finds every run worth a look at a fall, for each tube and style.
func (f *finder) runs(fall float64) (runs []Run) {
	if fall > math.Tan(float64(f.Spring))+1e-9 {
		fall = math.Tan(float64(f.Spring))
		if !slices.Contains(f.Styles, Orbital) {
			f.Styles = append(slices.Clone(f.Styles), Orbital)
			f.answer.Ways = []string{"A joint may be sprung by " + q.Text(f.Spring) + " here, so what is sprung is laid to " + q.Text(q.Slope(fall)) + " and no steeper. Runs with bends of 88° and 92°, which take up more, are tried as well."}
		}
	}
	for _, tube := range f.Sizes {
		for _, style := range f.Styles {
			for _, j := range f.jobs(tube, style, fall) {
				if style == "unions" && j.mid == "" && len(f.Styles) > 1 {
					continue
				}
				for _, p := range f.search(j, false) {
					if r, ok := j.run(p); ok {
						runs = append(runs, r)
					}
				}
			}
		}
	}
	return runs
}

// search looks for the paths of a job that can be made: with more room where
// a line, as it leans and falls, would touch something after all.
func (f *finder) search(j *job, first bool) (made []placed) {
	room := j.scene.room
	for _, more := range [3]float64{0, 0.015, 0.04} {
		j.scene.room = room + more
		any := false // as drawn
		for _, flat := range [2]bool{false, true} {
			j.scene.flat = flat
			if flat && !j.mayFall() {
				continue
			}
			j.scene.offsets = !flat
			found, drawn := f.deepen(j, first)
			made, any = append(made, found...), any || drawn
		}
		if len(made) > 0 || !any || first || f.halted {
			break
		}
	}
	j.scene.room, j.scene.flat, j.scene.offsets = room, false, true
	return made
}

// deepen looks for runs of few bends before it looks for ones of more. The
// fewest that do are followed by one look at a bend more, which may make the
// run shorter; what takes yet more is nobody's choice. Where first is set any
// run will do.
func (f *finder) deepen(j *job, first bool) (made []placed, drawn bool) {
	g := j.scene.grid()
	var known []cost
	for most := 2; most <= mostBends && !f.halted; most++ {
		if first && (most == 2 || most == 4) {
			continue // where any run will do there is mostly one of few bends, or none
		}
		enough := len(made) > 0
		j.scene.mostOf = most
		paths, complete := j.scene.pathsOn(g, known, f.going)
		f.halted = f.halted || !complete
		drawn = drawn || len(paths) > 0
		for _, p := range paths {
			known = append(known, p.cost)
			if r, ok := j.placed(p); ok && j.touched(r) == "" {
				made = append(made, r)
			}
		}
		if enough || first && (len(made) > 0 || most == mostBends-1) || !g.deeper {
			break
		}
	}
	return made, drawn
}

// mayFall reports whether the height between the ends can go into the fall
// alone, whatever way the line takes.
func (j *job) mayFall() bool {
	if len(j.scene.starts) == 0 || j.scene.fall == 0 || j.scene.goalDir == down {
		return false
	}
	least := math.Inf(1)
	for _, s := range j.scene.starts {
		by := j.scene.goal.Sub(s.at)
		if s.dir == down || -by.Z < 0 {
			return false
		}
		least = min(least, math.Abs(by.X)+math.Abs(by.Y))
	}
	dz := j.scene.starts[0].at.Z - j.scene.goal.Z
	return dz > 0 && dz <= j.scene.steep*least && dz >= j.scene.fall*least
}

// run checks the plant with a run in it.
func (j *job) run(p placed) (Run, bool) {
	d := j.asked()
	if !p.turn.IsZero() {
		d.Under[j.swivel].Turn = p.turn
	}
	j.put(&d, p.pieces)
	r := Run{Line: j.Line, Pieces: p.pieces, Design: d, Report: pipeline.Check(d), Size: j.tube.Name, Style: j.style, toOutflow: j.toOutflow()}
	if len(r.Report.Faults) > 0 || float64(j.gap(r.Report.Scene.Layout).Distance) > meets {
		return r, false
	}
	r.Drains = j.drains(r.Report)
	since := q.Length(0)
	for _, piece := range r.Laid() {
		if !piece.In.Half.Plain() {
			since = 0
		}
		since += piece.Length
		r.Longest = max(r.Longest, since)
		r.Parts++
		r.Length += piece.Length
		if piece.Kind == design.Bend {
			r.Bends++
		}
	}
	for _, joint := range r.Report.Scene.Layout.Junctions {
		switch ref := joint.Ref; {
		case !j.within(ref) && (ref != "pump" || j.Line == FromPump):
		case !joint.Up.Half.Plain():
			r.Unions++
		default:
			r.Welds++
		}
	}
	r.Notes = j.notes(p, r.Longest)
	at := func(slug string) float64 {
		f, _ := r.Report.Figure(slug)
		return f.Amount.SI
	}
	r.Flow = q.Flow(at("flow-full"))
	switch {
	case j.gravity:
		r.Loss = q.Head(at("line-loss-full"))
	case j.Line == FromPump:
		r.Loss = q.Head(at("delivery-loss-full"))
	default:
		r.Loss, r.Suction = q.Head(at("suction-loss-full")), q.Head(at("suction-head-available-lowest"))
	}
	return r, true
}

// within reports whether a path is that of a piece of the run.
func (qu *Question) within(ref string) bool { return strings.HasPrefix(ref, qu.Line.path()) }

// drains returns where a run drains to: it does when no verdict says that
// anything stays in it.
func (j *job) drains(r pipeline.Report) string {
	for _, v := range r.Verdicts {
		if v.Level == finding.Sound || !j.within(v.Piece) {
			continue
		}
		switch v.Rule {
		case "fall", "low-point", "high-point", "reducer-step":
			return ""
		}
	}
	if j.rises && j.sinks() {
		return ""
	}
	switch {
	case j.rises && j.Line == FromTank:
		return "the tank"
	case j.toOutflow() && !j.rises:
		return "the outflow"
	}
	return "the pump"
}

// sinks reports whether what hangs under the tank leads down, so that a run
// that rises from it holds a pocket.
func (qu *Question) sinks() bool {
	return qu.From.Dir.Z < -0.5 || qu.outlet.Z > qu.From.At.Z+float64(qu.From.Half.Tube.OD)/2
}

// notes says what to know of a run before it is built.
func (j *job) notes(p placed, longest q.Length) (notes []string) {
	if longest > j.Longest+q.Millimetre {
		notes = append(notes, "Not every piece of it could be kept under "+q.Text(j.Longest)+": there is no room for a union.")
	}
	for _, piece := range j.Line.own(p.layout) {
		if piece.Kind == design.Reducer && piece.Said.Shape == "eccentric" && piece.In.Half.Tube.OD > piece.Out.Half.Tube.OD {
			note := "The eccentric reducer lies flat side down, so that the line drains; at a pump's suction it is usual to have it up, against an air pocket (ANSI/HI 9.6.6, from memory)."
			if j.scene.fall > 0 {
				notes = append(notes, note+" Here the line falls to it all the way, so that air rises back to the tank.")
			} else {
				notes = append(notes, note+" Here the line lies level and the two are at odds: lay it to a fall, or vent it.")
			}
		}
	}
	return notes
}

// touched returns the box that a run as it is laid comes too near to, "" for none.
func (j *job) touched(p placed) string {
	for _, piece := range j.Line.own(p.layout) {
		radius := float64(max(piece.In.Half.Tube.OD, piece.Out.Half.Tube.OD)) / 2
		for _, s := range piece.Path {
			steps := math.Ceil(float64(s.Length)/0.02) + 1
			for i := range int(steps) + 1 {
				at, _ := s.Point(float64(i) / steps)
				if at.Z < radius-same && j.To.At.Z > radius {
					return "the floor"
				}
				for _, b := range j.Boxes {
					if b.away(at) < radius {
						return b.Name
					}
				}
			}
		}
	}
	return ""
}

// away is how far a point is from a box.
func (b Box) away(p route.Vec) float64 {
	out := func(x, lo, hi float64) float64 { return max(lo-x, x-hi, 0) }
	return route.Vec{X: out(p.X, b.Min.X, b.Max.X), Y: out(p.Y, b.Min.Y, b.Max.Y), Z: out(p.Z, b.Min.Z, b.Max.Z)}.Len()
}

// asked is the user's own design, its height typed.
func (qu *Question) asked() design.Design {
	d := qu.said.Clone()
	if d.Stand.Height.IsZero() {
		d.Stand.Height = qu.design.Stand.Height
	}
	if qu.toOutflow() {
		to := &d.Delivery
		to.Away, to.Aside, to.Height = qu.design.Delivery.Away, qu.design.Delivery.Aside, qu.design.Delivery.Height
	}
	return d
}
