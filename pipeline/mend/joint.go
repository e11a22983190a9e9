package mend

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/joint"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// joined makes of what is proposed for a joint what is proposed for the verdict,
// where that is about a joint.
func joined(propose func(m *mender, i int) []proposal) func(*mender) []proposal {
	return func(m *mender) []proposal {
		for i := range m.junctions {
			if m.junctions[i].Ref == m.verdict.Piece {
				return propose(m, i)
			}
		}
		return nil
	}
}

// end is one of the two ends that meet in a joint.
type end struct {
	path  string // of the field that says what it is
	piece string // path of its piece, "" for the tank and the pump
	what  string // "the upstream end of piece 4", "the pump inlet"
	half  catalog.Half
	fixed bool // it came with the pump
}

// ends returns the ends that meet at junctions[i].
func (m *mender) ends(i int) (up, down end) {
	j := &m.junctions[i]
	down = end{path: j.Ref + ".in", piece: j.Ref, what: "the upstream end of " + m.called(j.Ref), half: *j.Down.Half}
	if j.Ref == pump {
		down = end{path: "pump.inEnd", what: "the pump inlet", half: *j.Down.Half, fixed: true}
	}
	up = end{half: *j.Up.Half}
	switch {
	case i == 0:
		up.path, up.what = "tank.outlet.end", "the tank outlet"
	case m.junctions[i-1].Ref == pump:
		up.path, up.what, up.fixed = "pump.outEnd", "the pump outlet", true
	default:
		up.piece = m.junctions[i-1].Ref
		up.path, up.what = up.piece+".out", "the downstream end of "+m.called(up.piece)
	}
	return up, down
}

const pump = "pump"

// called names a piece by its number on the drawing.
func (m *mender) called(ref string) string {
	for _, p := range m.report.Scene.Layout.Pieces() {
		if p.Ref == ref {
			return "piece " + strconv.Itoa(p.Number)
		}
	}
	return ref
}

// set is the change of a field, none where it says so already.
func set(path, value string) design.Edit { return design.Edit{Path: path, Value: value} }

// mate returns the end that closes on h, on tube t.
func mate(h catalog.Half, t catalog.Tube) (string, catalog.Half, bool) {
	slug := catalog.Mate(h.End())
	other, ok := catalog.FindHalf(slug, t)
	if !ok {
		return "", catalog.Half{}, false
	}
	return slug, *other, true
}

// name says what an end is: "ring joint male part", "plain end".
func name(h catalog.Half) string {
	if h.Plain() {
		return "plain end to weld"
	}
	s, _, _ := strings.Cut(catalog.HalfPart(h).Name, ",")
	return s
}

// article puts "a" or "an" before a word, by how it sounds.
func article(s string) string {
	if s != "" && strings.IndexByte("aeioAEIO8", s[0]) >= 0 || strings.HasPrefix(s, "SMS") || strings.HasPrefix(s, "11 ") {
		return "an " + s
	}
	return "a " + s
}

// turned turns round what lies between two joints that are wrong each its own way.
func (m *mender) turned(i int) []proposal {
	rounds := joint.TurnRound(m.junctions, i)
	if rounds == nil {
		return nil
	}
	p := proposal{}
	for _, r := range rounds {
		in, out := m.junctions[r.First].Ref+".in", m.junctions[r.Last].Ref+".out"
		was, _ := m.filled.Get(in)
		is, _ := m.filled.Get(out)
		p.edits = append(p.edits, set(in, is), set(out, was))
	}
	first, last := m.junctions[rounds[0].First].Ref, m.junctions[rounds[len(rounds)-1].Last].Ref
	p.sentence = "Turn " + m.called(first) + " round."
	if first != last {
		p.sentence = "Turn everything from " + m.called(first) + " to " + m.called(last) + " round, union for union."
	}
	return []proposal{p}
}

// mated makes the two ends at junctions[i] close: one is changed to what the
// other wants, or something that has both is put between them.
func (m *mender) mated(i int) (out []proposal) {
	up, down := m.ends(i)
	suit := func(e, to end) {
		if slug, half, ok := mate(to.half, e.half.Tube); ok && !e.fixed {
			out = append(out, change("Change "+e.what+" to "+article(name(half))+".", set(e.path, slug)))
		}
	}
	suit(down, up)
	if up.piece != "" {
		suit(up, down)
	}
	if !up.fixed && !down.fixed && up.piece != "" && !(up.half.Plain() && down.half.Plain()) {
		out = append(out, change("Weld them: make "+up.what+" and "+down.what+" plain.",
			set(up.path, design.Weld), set(down.path, design.Weld)))
	}
	out = append(out, m.between(i, up, down)...)
	if up.piece == "" {
		suit(up, down) // the tank's own end last: it may be welded on already
	}
	return out
}

// adaptor is how long the tube of an adaptor is: room to draw a nut back and
// to weld both halves on. Common practice, no source.
const (
	adaptor = "100 mm"
	half    = "50 mm" // of it, where it is made of two tubes
)

// between puts an adaptor or a reducer, with one end for each, into a joint.
func (m *mender) between(i int, up, down end) (out []proposal) {
	at := m.junctions[i].Ref
	where := "before " + m.called(at)
	if at == pump {
		at = "run." + strconv.Itoa(len(m.design.Run))
		where = "before the pump"
	}
	start := func(kind string) []design.Edit {
		return []design.Edit{{Op: "insert", Path: at}, set(at+".kind", kind)}
	}
	a, b := up.half.Tube, down.half.Tube
	if a.Slug != b.Slug {
		out = m.madeUp(at, where, up, down)
		if max(a.OD-b.OD, b.OD-a.OD) < leastReduced {
			return out
		}
		in, inHalf, ok := mate(up.half, a)
		outEnd, outHalf, also := mate(down.half, b)
		if !ok || !also {
			return out
		}
		shapes := []string{"concentric"}
		if !route.Steep(m.junctions[i].Up.Dir) {
			shapes = []string{"eccentric", "concentric"}
		}
		for _, shape := range shapes {
			edits := append(start(design.Reducer), set(at+".size", a.Slug), set(at+".to", b.Slug),
				set(at+".shape", shape), set(at+".in", in), set(at+".out", outEnd))
			flat := ""
			if shape == "eccentric" {
				edits = append(edits, set(at+".turn", "180°"))
				flat = ", flat side down"
			}
			out = append(out, change("Put in "+article(shape)+" reducer"+flat+", "+a.Name+" to "+b.Name+", "+
				withEnds(inHalf, outHalf)+", "+where+".", edits...))
		}
		return out
	}
	in, inHalf, ok := mate(up.half, a)
	outEnd, outHalf, also := mate(down.half, a)
	if ok && also {
		long := q.KindLength.Start(adaptor)
		out = append(out, change("Put in an adaptor, "+a.Name+", "+withEnds(inHalf, outHalf)+" over "+long+" of tube, "+where+".",
			append(start(design.Straight), set(at+".size", a.Slug), set(at+".length", long), set(at+".in", in), set(at+".out", outEnd))...))
	}
	return out
}

// leastReduced is the least difference in OD that reducers are made for.
// Common practice, no source.
const leastReduced = 1.5 * q.Millimetre

// madeUp is an adaptor of two tubes so nearly alike that one is prepared and
// welded to the other, with the end of each that the joint wants.
func (m *mender) madeUp(at, where string, up, down end) []proposal {
	a, b := up.half.Tube, down.half.Tube
	how, ok := joint.Prepare(catalog.Half{Tube: a}, catalog.Half{Tube: b}, float64(m.filled.Limits.BoreStep.Value()))
	in, inHalf, first := mate(up.half, a)
	out, outHalf, second := mate(down.half, b)
	if !ok || !first || !second || up.half.Plain() || down.half.Plain() {
		return nil
	}
	dot := strings.LastIndexByte(at, '.')
	i, _ := strconv.Atoi(at[dot+1:])
	next, half := at[:dot+1]+strconv.Itoa(i+1), q.KindLength.Start(half)
	return []proposal{{
		sentence: "Put in an adaptor made of " + a.Name + " and " + b.Name + ", " + withEnds(inHalf, outHalf) + ", " + half + " of each tube, " + where + "; before they are welded, " + how + ".",
		edits: []design.Edit{
			{Op: "insert", Path: at}, set(at+".kind", design.Straight), set(at+".size", a.Slug), set(at+".length", half), set(at+".in", in),
			{Op: "insert", Path: next}, set(next+".kind", design.Straight), set(next+".size", b.Slug), set(next+".length", half), set(next+".out", out), set(next+".prepared", "true"),
		},
	}}
}

// withEnds says what a piece has at its two ends.
func withEnds(in, out catalog.Half) string {
	if in.Plain() && out.Plain() {
		return "to weld in"
	}
	if name(in) == name(out) {
		return "with " + article(name(in)) + " at each end"
	}
	return name(in) + " to " + name(out)
}

// level takes up a step between two tubes without a change of their ends: one
// end is prepared, or one piece is made of the other's tube.
func (m *mender) level(i int) (out []proposal) {
	up, down := m.ends(i)
	limit := float64(m.filled.Limits.BoreStep.Value())
	if how, ok := joint.Prepare(up.half, down.half, limit); ok && down.piece != "" {
		out = append(out, change("Prepare the end before it is welded, upstream of "+m.called(down.piece)+": "+how+".",
			set(down.piece+".prepared", "true")))
	}
	kind := func(piece string) string {
		k, _ := m.design.Get(piece + ".kind")
		return k
	}
	if up.piece != "" && kind(up.piece) == design.Reducer {
		out = append(out, change("Make "+m.called(up.piece)+" end in "+down.half.Tube.Name+".", set(up.piece+".to", down.half.Tube.Slug)))
	}
	if down.piece != "" {
		out = append(out, change("Make "+m.called(down.piece)+m.followers(down.piece)+" of the tube before it, "+up.half.Tube.Name+".", set(down.piece+".size", up.half.Tube.Slug)))
	}
	if up.piece != "" && kind(up.piece) != design.Reducer {
		out = append(out, change("Make "+m.called(up.piece)+" of the tube after it, "+down.half.Tube.Name+".", set(up.piece+".size", down.half.Tube.Slug)))
	}
	return out
}

// followers says whether pieces take their tube from the one at ref.
func (m *mender) followers(ref string) string {
	dot := strings.LastIndexByte(ref, '.')
	i, _ := strconv.Atoi(ref[dot+1:])
	next := ref[:dot+1] + strconv.Itoa(i+1)
	kind, _ := m.design.Get(ref + ".kind")
	if size, ok := m.design.Get(next + ".size"); ok && size == "" && kind != design.Reducer {
		return ", and what follows it,"
	}
	return ""
}

// stronger changes both halves of the union at junctions[i] to another.
func (m *mender) stronger(i int) (out []proposal) {
	up, down := m.ends(i)
	if up.fixed || down.fixed {
		return nil
	}
	for _, f := range catalog.Families() {
		if f.Slug == up.half.Joint.Family {
			continue
		}
		in, o := f.Slug+"/"+f.Halves[0], f.Slug+"/"+f.Halves[len(f.Halves)-1]
		out = append(out, change("Make this joint "+article(f.Name)+".", set(up.path, in), set(down.path, o)))
	}
	return append(out, change("Weld this joint.", set(up.path, design.Weld), set(down.path, design.Weld)))
}

// clamps makes a clamp of every union that must be taken apart to come clean.
func (m *mender) clamps(int) []proposal {
	return m.clamped(func(f catalog.Family) bool { return f.Clean == "strip" })
}

// hygienic makes a clamp of every union of the family at junctions[i].
func (m *mender) hygienic(i int) []proposal {
	bad := m.junctions[i].Down.Half.Joint.Family
	return m.clamped(func(f catalog.Family) bool { return f.Slug == bad })
}

func (m *mender) clamped(which func(catalog.Family) bool) []proposal {
	p := proposal{sentence: "Make clamp joints of them."}
	for i, j := range m.junctions {
		f, ok := catalog.FindFamily(j.Up.Half.Joint.Family)
		if !ok || !which(f) || j.Down.Half.Joint.Family != f.Slug {
			continue
		}
		up, down := m.ends(i)
		if up.fixed || down.fixed {
			return nil
		}
		p.edits = append(p.edits, set(up.path, clamp), set(down.path, clamp))
	}
	if p.edits == nil {
		return nil
	}
	return []proposal{p}
}

// retubed makes all that is of tube which no product should pass through of a
// hygienic series: of its tubes that are nearest in size.
func (m *mender) retubed() (out []proposal) {
	unfit := func(t catalog.Tube) bool {
		s, _ := catalog.FindSeries(t.Series)
		return s.NotForProduct != ""
	}
	paths := []string{"tank.outlet.size", "pump.inSize", "pump.outSize"}
	for _, p := range m.report.Scene.Layout.Pieces() {
		paths = append(paths, p.Ref+".size", p.Ref+".to")
	}
	type use struct {
		path string
		of   catalog.Tube
	}
	var uses []use
	for _, path := range paths {
		slug, _ := m.design.Get(path)
		if t, ok := catalog.FindTube(slug); ok && unfit(t) {
			uses = append(uses, use{path, t})
		}
	}
	if uses == nil {
		return nil
	}
	for _, to := range nearest(uses[0].of, "")[:most] {
		sentence, said := "Take", []string{}
		var edits []design.Edit
		for _, u := range uses {
			like := nearest(u.of, to.Series)[0]
			edits = append(edits, set(u.path, like.Slug))
			if !slices.Contains(said, u.of.Slug) {
				sentence += strings.Repeat(",", min(len(said), 1)) + " " + like.Name + " for all that is of " + u.of.Name
				said = append(said, u.of.Slug)
			}
		}
		out = append(out, change(sentence+".", edits...))
	}
	return out
}

// nearest returns the tubes of a series by how near they are to t in size, of
// all that product may pass through where none is named.
func nearest(t catalog.Tube, series string) []catalog.Tube {
	all := slices.DeleteFunc(slices.Clone(catalog.Tubes()), func(o catalog.Tube) bool {
		s, _ := catalog.FindSeries(o.Series)
		return s.NotForProduct != "" || series != "" && o.Series != series
	})
	slices.SortStableFunc(all, func(a, b catalog.Tube) int {
		return cmp.Compare(max(a.OD-t.OD, t.OD-a.OD), max(b.OD-t.OD, t.OD-b.OD))
	})
	return all
}

const clamp = "clamp/ferrule"

// mates returns the ends of a piece that is put in at an end which is kept:
// after the piece that has it, or before.
func mates(end string, after bool) (in, out string) {
	if after {
		return catalog.Mate(end), end
	}
	return end, catalog.Mate(end)
}
