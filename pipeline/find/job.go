package find

import (
	"math"
	"slices"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// job is a question asked of one tube, one style of joints and one fall.
type job struct {
	*Question
	tube  catalog.Tube
	style string
	mid   string // upstream half of the unions within the run; "" where the tube carries none
	last  string // what the last tube of the run ends in
	ends  []design.Piece
	sets  []setOut // by the scene's starts' id
	scene scene
	x, y  route.Vec // of the scene, in the plant
	rises bool      // the run rises to its end, and drains back
	crown float64   // height of the level line that a run from the pump comes down from; 0: it does not go over one
	hook  bool      // it rises to its end and comes down into it from above
}

// setOut is one bearing of the outlet, with what stands at the start of the run.
type setOut struct {
	turn   q.Entered[q.Angle] // of the bend that swivels
	pieces []design.Piece
	half   string // that they end in
	dir    route.Vec
}

// Bends lose about what this many diameters of straight tube do: Crane TP-410,
// 90° bend of r/d 1.5, and half of that for 45° (both from memory). It only
// orders the search: what a run loses is the flow room's to say.
const (
	worth90 = 14
	worth45 = 8
)

// jobs makes the jobs of a tube, a style and a fall; fall 0 is a run that lies
// level. There is one, but where the line may come from any side to the bend
// that turns it down into its end.
func (qu *Question) jobs(tube catalog.Tube, style string, fall float64) []*job {
	if qu.rises() && route.Steep(qu.To.Dir) {
		var all []*job
		for _, d := range [4]route.Vec{{X: 1}, {Y: 1}, {Y: -1}, {X: -1}} {
			all = append(all, qu.job(tube, style, fall, d))
		}
		return all
	}
	return []*job{qu.job(tube, style, fall, qu.To.Dir)}
}

// rises reports whether the run goes up to its end, which is over its start.
func (qu *Question) rises() bool { return qu.To.At.Z > qu.From.At.Z+same && !qu.goOver }

// over is the question whether a run from a pump goes higher than its end and
// comes down to it, where one that rises all the way may have no room for its
// bends; ok is false where that is no other question.
func (qu Question) over() (other Question, ok bool) {
	ok = qu.Line == FromPump && qu.rises()
	qu.goOver = true
	return qu, ok
}

// job makes the job of a run that comes to its last fitting along dir.
func (qu *Question) job(tube catalog.Tube, style string, fall float64, dir route.Vec) *job {
	j := &job{Question: qu, tube: tube, style: style, rises: qu.rises()}
	s := &j.scene
	s.goalDir, s.fall, s.mostOf, s.offsets = ahead, fall, mostBends, true
	j.hook = j.rises && route.Steep(qu.To.Dir)
	if style == Orbital && fall > 0 {
		s.inner = math.Tan(float64(tilt))
		s.ends = [2]bool{qu.Line == FromPump && !j.rises, j.hook}
	}
	if route.Steep(dir) {
		s.goalDir, dir = down, route.Vec{X: qu.From.Dir.X, Y: qu.From.Dir.Y}
		if dir.Len() < same {
			dir = route.Vec{X: 1}
		}
	}
	j.x = route.Vec{X: dir.X, Y: dir.Y}.Unit()
	j.y = route.Vec{Z: 1}.Cross(j.x)
	j.unions()
	s.radius, s.room = float64(tube.OD)/2, float64(qu.Room)
	s.steep = math.Tan(float64(qu.Spring))
	s.least = float64(tube.OD)
	if qu.Straight != nil {
		s.least = float64(*qu.Straight)
	}
	j.gauge()
	j.overTop()
	s.worth90 = worth90 * float64(tube.Bore())
	s.worth45 = worth45 * float64(tube.Bore())
	j.setOuts()
	j.endings()
	way := s.goal
	for _, st := range s.starts {
		way = s.goal.Sub(st.at)
	}
	s.reach = 3*(math.Abs(way.X)+math.Abs(way.Y)+math.Abs(way.Z)) + 3
	s.band = max(fall, s.inner) * (1.5*(math.Abs(way.X)+math.Abs(way.Y)) + 0.5)
	for _, b := range qu.Boxes {
		s.boxes = append(s.boxes, j.inScene(b))
	}
	s.boxes = append(s.boxes, j.around()...)
	return j
}

// Orbital is the style of a run that is welded with a head that wants tubes
// and bends square to each other, so that no joint is sprung: the bends
// themselves take up the fall, 88° and 92° in place of 90° (bends of these
// angles are made for it: ASME BPE, from memory).
const Orbital = "orbital"

// tilt is what such a bend has more or less than 90°.
const tilt = 2 * q.Degree

// mostBends is more than anybody would make; an offset counts two.
const mostBends = 6

// unions chooses the union that the run is taken apart at: the outlet's, else
// the pump's, else the first that the tube carries.
func (j *job) unions() {
	ends := []string{j.From.Half.End(), j.closing()}
	if all := catalog.Ends(j.tube); len(all) > 1 {
		ends = append(ends, all[1])
	}
	for _, e := range ends {
		if _, ok := catalog.FindHalf(e, j.tube); ok && e != design.Weld {
			j.mid = e
			return
		}
	}
}

// closing is what the run ends in: what closes on the pump, or what the
// outflow is to have.
func (j *job) closing() string {
	if !j.toOutflow() {
		return catalog.Mate(j.To.Half.End())
	}
	return midOn(j.tube, j.ending)
}

// overTop sets the height of the level line that a run from a pump, whose outlet
// points up, comes down from: no higher than it must be.
func (j *job) overTop() {
	if j.Line != FromPump || j.rises {
		return
	}
	s := &j.scene
	way := j.To.At.Sub(j.From.At)
	j.crown = j.To.At.Z + max(s.fall, s.inner)*(math.Abs(way.X)+math.Abs(way.Y))
	if s.goalDir == down {
		j.crown += s.corner()
	}
	j.crown = max(j.crown, j.From.At.Z+s.t90)
}

// laid places pieces on the end of a tube, as Lay does.
func (j *job) laid(size, end string, pieces ...design.Piece) []route.Piece {
	d := design.Design{Tank: design.Tank{Outlet: design.Outlet{Size: size, End: end, Place: "side"}}, Under: pieces, Measured: j.design.Measured}
	d.Pump.Kind = design.NoPump
	return route.Lay(d.Filled(), 0).Under
}

// gauge takes the take-outs off bends and unions as they are laid, so that
// what the user measured counts.
func (j *job) gauge() {
	s := &j.scene
	size := j.tube.Slug
	quarter := j.laid(size, "", design.Piece{Kind: design.Bend})[0]
	by := quarter.Out.At.Sub(quarter.In.At)
	s.t90 = by.Dot(quarter.In.Dir)
	eighth := j.laid(size, "", design.Piece{Kind: design.Bend, Angle: degrees(45 * q.Degree)})[0]
	s.t45 = eighth.Out.At.Sub(eighth.In.At).Len() / (2 * math.Cos(math.Pi/8))
	s.unions = j.style == "unions" && j.mid != ""
	if j.mid != "" {
		two := j.laid(size, "", design.Piece{Kind: design.Straight, Out: j.mid}, design.Piece{Kind: design.Straight, In: catalog.Mate(j.mid)})
		s.union = two[1].Out.At.Sub(two[0].In.At).Len()
	}
}

// midOn is the union of the run where a tube carries it, else a plain end.
func midOn(t catalog.Tube, mid string) string {
	if _, ok := catalog.FindHalf(mid, t); ok && mid != "" {
		return mid
	}
	return design.Weld
}

// valve is the valve that must be in the run, closed on both sides by unions
// where there are any, so that it comes out.
func (j *job) valve(in string) design.Piece {
	out := design.Weld
	if j.mid != "" {
		out = j.mid
	}
	return design.Piece{Kind: design.Butterfly, In: in, Out: out}
}

// reducer is the change of bore between two tubes. Upright it is concentric.
// Lying, its flat side keeps the bore's floor in line where the liquid runs
// from the larger to the smaller tube, and its roof where it runs the other way.
func (j *job) reducer(from, to catalog.Tube, in string, upright bool) design.Piece {
	p := design.Piece{Kind: design.Reducer, To: to.Slug, In: in, Shape: "concentric"}
	if upright || from.OD == to.OD {
		return p
	}
	p.Shape = "eccentric"
	if (from.OD > to.OD) != j.rises { // what drains gets to the smaller tube last
		p.Turn = degrees(180 * q.Degree)
	}
	return p
}

// setOuts lays what stands at the start of the run, for every bearing.
func (j *job) setOuts() {
	for id, turn := range j.bearings() {
		set := setOut{turn: turn, half: j.From.Half.End()}
		tube := j.From.Half.Tube
		if (j.Valve == "start" || tube.Slug != j.tube.Slug) && j.scene.fall > 0 && !route.Steep(j.From.Dir) {
			// What stands at the start is to fall as well.
			f := j.scene.fall
			if j.rises {
				f = -f
			}
			p := design.Piece{Kind: design.Straight, In: catalog.Mate(set.half), Length: length(q.Length(math.Ceil(j.scene.least*1000) / 1000)), Fall: slope(f)}
			if set.half = design.Weld; j.Valve == "start" {
				set.half = midOn(tube, j.mid)
				p.Out = set.half
			}
			set.pieces = append(set.pieces, p)
		}
		if j.Valve == "start" {
			v := j.valve(catalog.Mate(set.half))
			v.Out = midOn(tube, j.mid)
			set.pieces = append(set.pieces, v)
			set.half = v.Out
		}
		if tube.Slug != j.tube.Slug {
			set.pieces = append(set.pieces, j.reducer(tube, j.tube, catalog.Mate(set.half), route.Steep(j.From.Dir)))
			set.half = design.Weld
		}
		if j.crown > 0 {
			j.goOver(&set, id)
		}
		first, end := j.begin(turn, set)
		set.dir = end.Dir
		j.sets = append(j.sets, set)
		w, ok := j.wayOf(end.Dir)
		if !ok {
			continue
		}
		j.scene.lead = first.Out.At.Sub(end.At).Len()
		j.scene.starts = append(j.scene.starts, start{at: j.in(end.At), dir: w, id: id})
	}
}

// begin lays what stands at the start of the run and a straight of no length
// on it, and returns that and the end it stands on.
func (j *job) begin(turn q.Entered[q.Angle], set setOut) (first route.Piece, end route.End) {
	d := j.turned(turn)
	j.put(&d, append(append([]design.Piece{}, set.pieces...), design.Piece{Kind: design.Straight, In: catalog.Mate(set.half)}))
	l := route.Lay(d, j.height)
	all, end := l.ToPump(), l.Outlet
	if j.Line == FromPump {
		all, end = l.Delivery, l.PumpOut
	}
	n := len(all) - 1
	if n > 0 {
		end = all[n-1].Out
	}
	return all[n], end
}

// goOver adds the riser from the pump's outlet and the bend that turns the
// line level, to the id-th side.
func (j *job) goOver(set *setOut, id int) {
	bend := design.Piece{Kind: design.Bend, In: catalog.Mate(set.half), Angle: j.sharper(), Turn: degrees(route.Turn(route.Vec{Z: 1}, j.sides()[id]))}
	top := setOut{pieces: append(slices.Clone(set.pieces), bend), half: design.Weld}
	if _, end := j.begin(q.Entered[q.Angle]{}, top); j.crown-end.At.Z > same {
		riser := design.Piece{Kind: design.Straight, In: bend.In, Length: length(q.Length(math.Ceil(max(j.crown-end.At.Z, j.scene.least)*1000) / 1000))}
		if j.scene.unions {
			riser.Out = j.mid
		}
		bend.In = design.Weld
		if riser.Out != "" {
			bend.In = catalog.Mate(j.mid)
		}
		set.pieces = append(set.pieces, riser)
	}
	if set.half = design.Weld; j.scene.unions {
		bend.Out, set.half = j.mid, j.mid
	}
	set.pieces = append(set.pieces, bend)
}

// sharper is the angle of a bend that turns a line over its crown or down into
// its end: what 88° is between a level line and an upright one below it, 92° is
// to one above. Empty, 90°, where no bend takes the fall up.
func (j *job) sharper() q.Entered[q.Angle] {
	if j.scene.inner == 0 {
		return q.Entered[q.Angle]{}
	}
	return degrees(90*q.Degree + tilt)
}

// sides are the ways that a level line may set out.
func (j *job) sides() [4]route.Vec {
	return [4]route.Vec{j.x, j.y, j.y.Scale(-1), j.x.Scale(-1)}
}

// bearings returns the turns of the bend under the tank that bring the run
// into line with its end, square to it or back; the present one, "", where it
// does not swivel. A run that goes over a crown has as many, though nothing
// of it swivels.
func (j *job) bearings() []q.Entered[q.Angle] {
	if j.crown > 0 {
		return make([]q.Entered[q.Angle], 4)
	}
	if j.swivel < 0 {
		return []q.Entered[q.Angle]{{}}
	}
	now := j.design.Under[j.swivel].Turn.Value()
	plan := math.Atan2(j.From.Dir.Y, j.From.Dir.X)
	var out []q.Entered[q.Angle]
	for _, d := range j.sides() {
		// Turn counts clockwise seen from above on a line that runs down.
		turn := now - q.Angle(math.Atan2(d.Y, d.X)-plan)
		for turn < 0 {
			turn += 2 * math.Pi
		}
		out = append(out, degrees(turn))
	}
	return out
}

// turned is the design with the outlet at a bearing.
func (j *job) turned(turn q.Entered[q.Angle]) design.Design {
	d := j.design
	if !turn.IsZero() {
		d.Under = append([]design.Piece{}, d.Under...)
		d.Under[j.swivel].Turn = turn
	}
	return d
}

// endings lays what stands at the end of the run, and so finds where the last
// tube must come to.
func (j *job) endings() {
	to := j.tube
	if !j.toOutflow() {
		to = j.To.Half.Tube
	}
	final := j.closing()
	j.last = final
	switch {
	case to.Slug != j.tube.Slug:
		r := j.reducer(j.tube, to, design.Weld, false)
		r.Out = final
		j.ends = append(j.ends, r)
		j.last = design.Weld
	case j.hook:
		drop := length(q.Length(math.Ceil(j.scene.least*1000) / 1000))
		j.ends = append(j.ends, design.Piece{Kind: design.Bend, Angle: j.sharper(), Turn: degrees(180 * q.Degree)}, design.Piece{Kind: design.Straight, Length: drop, Out: final})
		j.last = design.Weld
	}
	if j.Valve == "end" {
		v := j.valve(catalog.Mate(j.mid))
		if v.Out = design.Weld; len(j.ends) == 0 {
			v.Out = final
		}
		j.ends = append([]design.Piece{v}, j.ends...)
		j.last = design.Weld
		if j.mid != "" {
			j.last = j.mid
		}
	}
	line := j.laid(j.tube.Slug, "", append([]design.Piece{{Kind: design.Straight, Out: j.last}}, j.ends...)...)
	by := line[len(line)-1].Out.At.Sub(line[0].In.At)
	if !j.toOutflow() && !j.To.Half.Plain() && final != design.Weld {
		joint := j.laid(to.Slug, "", design.Piece{Kind: design.Straight, Out: final}, design.Piece{Kind: design.Straight, In: j.To.Half.End()})
		by.X += joint[1].In.At.Sub(joint[0].Out.At).Len()
	}
	j.scene.tail = by.X
	j.scene.goal = j.in(j.To.At.Sub(route.Vec{Z: by.Z}))
}

// in takes a point of the plant into the scene, out takes one back. A run
// that rises is sought upside down.
func (j *job) in(v route.Vec) route.Vec {
	z := v.Z
	if j.rises {
		z = -z
	}
	return route.Vec{X: v.Dot(j.x), Y: v.Dot(j.y), Z: z}
}

func (j *job) out(v route.Vec) route.Vec {
	z := v.Z
	if j.rises {
		z = -z
	}
	w := j.x.Scale(v.X).Add(j.y.Scale(v.Y))
	w.Z = z
	return w
}

// wayOf returns the scene's way that a direction of the plant has; false
// where it is askew by more than bends of 90° and 45° can make up.
func (j *job) wayOf(dir route.Vec) (way, bool) {
	for w := ahead; w <= down; w++ {
		if j.out(w.vec()).Dot(dir) > math.Cos(askew) {
			return w, true
		}
	}
	return 0, false
}

const askew = 3 * math.Pi / 180 // a line laid to a fall, or tilted by a bend of 92°, counts as level

// inScene takes a box into the scene: turned, it takes the room of the box
// around it.
func (j *job) inScene(b Box) box {
	out := box{name: b.Name}
	for i := range 8 {
		c := b.Min
		if i&1 != 0 {
			c.X = b.Max.X
		}
		if i&2 != 0 {
			c.Y = b.Max.Y
		}
		if i&4 != 0 {
			c.Z = b.Max.Z
		}
		p := j.in(c)
		for axis, x := range [3]float64{p.X, p.Y, p.Z} {
			if i == 0 || x < out.min[axis] {
				out.min[axis] = x
			}
			if i == 0 || x > out.max[axis] {
				out.max[axis] = x
			}
		}
	}
	return out
}

// The room that a pump is taken to need behind its inlet. Working assumptions
// for the small pumps of such plants, no source.
const (
	pumpLong = 0.34
	pumpWide = 0.2
	pumpHigh = 0.12 // over its inlet
)

// around is what stands at the end of the run: the pump, and the floor.
func (j *job) around() (boxes []box) {
	floor := j.in(route.Vec{}).Z
	if !j.toOutflow() {
		at, roof := j.in(j.To.At), j.in(route.Vec{Z: float64(j.To.At.Z) + pumpHigh}).Z
		keep := j.scene.radius + j.scene.room
		boxes = append(boxes, box{"the pump", [3]float64{at.X + keep + same, at.Y - pumpWide/2, min(floor, roof)}, [3]float64{at.X + pumpLong, at.Y + pumpWide/2, max(floor, roof)}})
	}
	if j.To.At.Z < j.scene.radius {
		return boxes // it leads through the floor: where is for the user to know
	}
	const far = 1e3
	ground := box{"the floor", [3]float64{-far, -far, floor - far}, [3]float64{far, far, floor - j.scene.room}}
	if j.rises {
		ground.min[2], ground.max[2] = floor+j.scene.room, floor+far
	}
	return append(boxes, ground)
}
