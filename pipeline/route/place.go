package route

import (
	"math"
	"slices"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// place resolves one piece and lays it on from where the line has come to:
// its upstream half, its body, its downstream half.
func (w *walk) place(p *Piece, spec *design.Piece) {
	tube := tubeOr(spec.Size, w.half.Tube)
	after := tube
	if spec.Kind == design.Reducer {
		after = tubeOr(spec.To, tube)
	}
	p.Kind, p.Said = spec.Kind, spec
	p.In.Half, p.Out.Half = half(spec.In, tube), half(spec.Out, after)

	gap := w.join(p.Ref, spec.Seal, p.In.Half)
	w.junctions[len(w.junctions)-1].Prepared = spec.Prepared
	w.at = w.at.Add(w.dir.Scale(float64(gap)))
	if spec.Kind == design.Straight && !spec.Fall.IsZero() {
		w.tilt(p, spec.Fall.Value())
	}
	p.In.At, p.In.Dir = w.at, w.dir

	segments, dims, parts := len(w.segments), len(w.dims), len(w.parts)
	var upstream, downstream q.Length
	if !withEnds(spec.Kind) {
		upstream, downstream = w.halfLength(p.In.Half), w.halfLength(p.Out.Half)
	}
	switch spec.Kind {
	case design.Bend:
		w.bend(p, spec, tube, upstream, downstream)
	case design.Reducer:
		w.reducer(spec, tube, after, upstream, downstream)
	case design.Tee:
		f, _ := catalog.TeeOf(tube, "")
		w.tee(p, spec, f, tube, upstream, downstream)
	case design.Cross, design.Pocket, design.Cock, design.Seat:
		f, _ := catalog.TeeLike(spec.Kind, tube)
		if spec.Kind == design.Seat {
			bought := f.Over(p.In.Half, p.Out.Half)
			bought.CentreToEnd = w.bought(f.CentreToEnd, bought.CentreToEnd, p.In.Half)
			bought.BranchToEnd = w.bought(f.BranchToEnd, bought.BranchToEnd, p.Out.Half)
			f = bought
		}
		w.tee(p, spec, f, tube, upstream, downstream)
	case design.Cap:
		// The half of a union is the cap itself here, and has no length beyond its face.
		w.dims = w.dims[:dims]
		w.parts = append(w.parts, catalog.CapFor(*p.In.Half))
		p.Out.Half = half("", tube)
		w.ahead(0, tube.Bore())
	case design.Butterfly, design.Ball, design.Diaphragm, design.NonReturn, design.SightGlass:
		v, _ := catalog.BodyOf(spec.Kind, tube)
		w.parts = append(w.parts, v.Part)
		w.ahead(w.counted(typed(w.bought(v.Length, v.Over(p.In.Half, p.Out.Half), p.In.Half, p.Out.Half), spec)), tube.Bore())
	case design.Device:
		name := spec.Name
		if name == "" {
			name = "device"
		}
		w.parts = append(w.parts, catalog.Part{Slug: tube.Slug + "/device/" + p.Ref, Name: name + ", " + tube.Name + ", to weld"})
		w.ahead(spec.Length.Value(), tube.Bore())
	case design.Straight:
		if p.Fit = spec.Fit; p.Fit {
			w.fits = append(w.fits, p)
		} else {
			p.Cut = spec.Length.Value()
		}
		w.ahead(upstream+p.Cut+downstream, tube.Bore())
	case design.Hose:
		if p.Fit = spec.Fit; p.Fit {
			w.hose, w.hoseFree = p, spec.Length.IsZero()
		}
		w.ahead(spec.Length.Value(), tube.Bore())
	default:
		w.ahead(upstream+downstream, tube.Bore())
	}

	p.Path = slices.Clip(w.segments[segments:])
	p.Dims = slices.Clip(w.dims[dims:])
	p.Parts = slices.Clip(w.parts[parts:])
	for i := range p.Path {
		p.Length += p.Path[i].Length
	}
	p.Out.At, p.Out.Dir = w.at, w.dir
	w.half = p.Out.Half
	p.Label = label(p, spec.Shape)
}

// withEnds reports whether a kind of piece is bought with its ends on it and
// has its length over them.
func withEnds(kind string) bool {
	return design.IsBody(kind) || kind == design.Device || kind == design.Hose
}

// tilt turns the line to fall by s, the joint before p taking up the spring.
// A line that runs steeply has no fall to be laid to.
func (w *walk) tilt(p *Piece, s q.Slope) {
	if Steep(w.dir) {
		p.Unlaid = true
		return
	}
	tilted := fallen(w.dir, s)
	p.Spring = w.dir.Angle(tilted)
	w.dir = tilted
}

// ahead lays a straight stretch of one bore.
func (w *walk) ahead(length, bore q.Length) {
	to := w.at.Add(w.dir.Scale(float64(length)))
	w.segments = append(w.segments, Segment{From: w.at, To: to, Dir: w.dir, Length: length, BoreFrom: bore, BoreTo: bore})
	w.at = to
}

// leg lays a straight stretch within a fitting, nothing where it has none.
func (w *walk) leg(length, bore q.Length) {
	if length > 0 {
		w.ahead(length, bore)
	}
}

// bend lays the straight legs and the arc of a bend. A leg is what its centre
// to end leaves over the tangent of the arc, R tan(angle/2). Where a measured
// centre to end leaves less than nothing, the arc is drawn tighter to end there.
func (w *walk) bend(p *Piece, spec *design.Piece, tube catalog.Tube, upstream, downstream q.Length) {
	angle := spec.Angle.Or(90 * q.Degree)
	var radius, leg q.Length
	if b, ok := catalog.BendOf(tube, spec.Shape, angle); ok {
		w.parts = append(w.parts, b.Part)
		centreToEnd := w.counted(b.CentreToEnd)
		w.counted(b.CentreToEnd)
		tan := q.Length(math.Tan(float64(angle) / 2))
		radius = min(b.Radius, centreToEnd/tan)
		leg = max(0, centreToEnd-radius*tan)
	}
	side := toward(w.dir, spec.Turn.Value())
	sin, cos := math.Sincos(float64(angle))
	bore := tube.Bore()

	w.leg(upstream+leg, bore)
	arc := Segment{
		From: w.at, Dir: w.dir, Toward: side,
		Radius: radius, Angle: angle, Length: radius * q.Length(angle),
		BoreFrom: bore, BoreTo: bore,
	}
	r := float64(radius)
	arc.To = w.at.Add(w.dir.Scale(r * sin)).Add(side.Scale(r * (1 - cos)))
	w.segments = append(w.segments, arc)
	w.at, w.dir = arc.To, tidy(w.dir.Scale(cos).Add(side.Scale(sin)))
	w.leg(leg+downstream, bore)
	p.Turned, p.Radius = angle, radius
}

// reducer lays a change of bore. An eccentric one keeps the bore's wall in
// line on its flat side, so that its centre moves by half the change.
func (w *walk) reducer(spec *design.Piece, tube, after catalog.Tube, upstream, downstream q.Length) {
	f := catalog.ReducerOf(tube, after, spec.Shape)
	w.parts = append(w.parts, f.Part)
	length := w.counted(typed(f.Length, spec))

	w.leg(upstream, tube.Bore())
	cone := Segment{From: w.at, Dir: w.dir, Length: length, BoreFrom: tube.Bore(), BoreTo: after.Bore()}
	cone.To = w.at.Add(w.dir.Scale(float64(length)))
	if spec.Shape == "eccentric" {
		flat := toward(w.dir, spec.Turn.Value())
		cone.To = cone.To.Add(flat.Scale(float64(cone.BoreFrom-cone.BoreTo) / 2))
	}
	w.segments = append(w.segments, cone)
	w.at = cone.To
	w.leg(downstream, after.Bore())
}

// tee lays a tee straight through, or out by its branch. A cross, a pocket and
// a cock are laid straight through; a seat valve out by its branch, and it has
// no third port.
func (w *walk) tee(p *Piece, spec *design.Piece, f catalog.TeeFitting, tube catalog.Tube, upstream, downstream q.Length) {
	w.parts = append(w.parts, f.Part)
	run := w.counted(f.CentreToEnd)
	branch := w.taken(f.BranchToEnd).Length
	side := toward(w.dir, spec.Turn.Value())
	bore := tube.Bore()
	open := End{Half: half(design.Weld, tube)}

	w.ahead(upstream+run, bore)
	if spec.Shape == "branch" && spec.Kind == design.Tee || spec.Kind == design.Seat {
		w.counted(f.BranchToEnd)
		open.At, open.Dir = w.at.Add(w.dir.Scale(float64(run))), w.dir
		w.dir = side
		w.ahead(branch+downstream, bore)
	} else {
		w.counted(f.CentreToEnd)
		open.At, open.Dir = w.at.Add(side.Scale(float64(branch))), side
		w.ahead(run+downstream, bore)
	}
	if spec.Kind == design.Seat {
		return
	}
	p.Third, p.Port = &open, onPort(spec.Third)
	switch spec.Kind {
	case design.Pocket:
		p.Port = "cap"
	case design.Cock:
		p.Port = "valve"
	case design.Cross:
		far := open
		far.At, far.Dir = open.At.Sub(side.Scale(2*float64(branch))), side.Scale(-1)
		p.Fourth, p.Far = &far, onPort(spec.Fourth)
	}
}

// onPort returns what is on an open port: a cap where nothing is said.
func onPort(said string) string {
	if said == "" {
		return "cap"
	}
	return said
}

// typed returns d with the length that the user typed for the piece, if any.
func typed(d catalog.Dimension, spec *design.Piece) catalog.Dimension {
	if !spec.Length.IsZero() {
		d.Length, d.Either, d.Trust = spec.Length.Value(), 0, catalog.Measured
	}
	return d
}

// taken returns d as the user measured it, or as the catalogue has it.
func (w *walk) taken(d catalog.Dimension) catalog.Dimension {
	for i := range w.measured {
		if w.measured[i].Part == d.Slug {
			d.Length, d.Either, d.Trust = w.measured[i].Length.Value(), 0, catalog.Measured
		}
	}
	return d
}

// bought returns over, the length of a body with ends on it, as the user
// measured it. Who measured own, its length without them, as older designs asked
// for, has said as much: the ends come on top.
func (w *walk) bought(own, over catalog.Dimension, ends ...*catalog.Half) catalog.Dimension {
	over, own = w.taken(over), w.taken(own)
	if over.Trust == catalog.Measured || own.Trust != catalog.Measured {
		return over
	}
	over.Length, over.Either = own.Length, 0
	for _, h := range ends {
		if !h.Plain() {
			end := w.taken(h.Joint.Length(h.Name))
			over.Length += end.Length
			over.Either += end.Either
		}
	}
	if over.Either == 0 {
		over.Trust = catalog.Measured
	}
	return over
}

// counted notes d among the dimensions of the piece and returns its length.
func (w *walk) counted(d catalog.Dimension) q.Length {
	if d.Trust != catalog.Measured {
		d = w.taken(d)
	}
	w.dims = append(w.dims, d)
	return d.Length
}

// halfLength returns the length of a union half over its weld end, nothing
// for a plain end.
func (w *walk) halfLength(h *catalog.Half) q.Length {
	if h.Plain() {
		return 0
	}
	return w.counted(h.Joint.Length(h.Name))
}
