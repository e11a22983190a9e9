package design

import (
	"slices"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// Edit is one change to a design. The zero Op sets a field.
type Edit struct {
	_     [0]func() // no ==: the page would load it
	Op    string    `json:"op,omitempty"` // "" sets Value; "insert" puts a zero item into a list before Path; "remove" takes the item at Path out; "up" and "down" move it
	Path  string    `json:"path"`
	Value string    `json:"value,omitempty"` // as typed; only for setting
}

// Ops are the words that Edit.Op may hold.
var ops = []string{"insert", "remove", "up", "down"}

// Apply returns d with each edit made, in order, leaving d as it was. A fault
// is returned for the first edit that cannot be made; then d comes back as it
// was. Apply only sets: whether the plant makes sense is for Validate to say.
func (d Design) Apply(edits ...Edit) (Design, Faults) {
	out := d.Clone()
	for _, e := range edits {
		if f := apply(&out, e); f != nil {
			return d, Faults{*f}
		}
		out.looked(e)
	}
	return out, nil
}

// Moved returns where what is at path, an item of a list or a field of one, is
// after e; "" when e takes it out.
func (e Edit) Moved(path string) string {
	at := strings.LastIndexByte(e.Path, '.')
	if e.Op == "" || at < 0 {
		return path
	}
	list := e.Path[:at+1]
	moved, _ := place(e.Path[at+1:])
	rest, ok := strings.CutPrefix(path, list)
	number, field, deeper := strings.Cut(rest, ".")
	n, counted := place(number)
	if !ok || !counted {
		return path
	}
	switch {
	case e.Op == "remove" && n == moved:
		return ""
	case e.Op == "insert" && n >= moved:
		n++
	case e.Op == "remove" && n > moved, e.Op == "up" && n == moved, e.Op == "down" && n == moved+1:
		n--
	case e.Op == "up" && n == moved-1, e.Op == "down" && n == moved:
		n++
	}
	path = list + strconv.Itoa(n)
	if deeper {
		path += "." + field
	}
	return path
}

// Get returns the words in the field at path, and whether there is such a field.
func (d *Design) Get(path string) (string, bool) {
	at, f := locate(d, path)
	if f != nil {
		return "", false
	}
	return text(at)
}

// Amount returns the quantity in the field at path, and whether one is there.
func (d *Design) Amount(path string) (q.Amount, bool) {
	at, _ := locate(d, path)
	if e, ok := at.(entry); ok && !e.IsZero() {
		return e.Amount(), true
	}
	return q.Amount{}, false
}

// Typed tells hear each quantity that somebody typed, and none that is assumed.
func (d *Design) Typed(hear func(k q.Kind, text string)) {
	leaves(d, "", func(in, name string, at any) {
		if e, ok := at.(entry); ok && !e.IsZero() && (len(d.Assumed) == 0 || !d.Assumes(within(in, name))) {
			hear(e.Amount().Kind, e.String())
		}
	})
}

// Clone returns a copy that shares nothing with d.
func (d Design) Clone() Design {
	d.Under = copiedPieces(d.Under)
	d.Run = copiedPieces(d.Run)
	d.Delivery.Pieces = copiedPieces(d.Delivery.Pieces)
	d.Pump.Curve = copied(d.Pump.Curve)
	d.Pump.Slip = copied(d.Pump.Slip)
	d.Measured = copied(d.Measured)
	d.Cleaning = copied(d.Cleaning)
	d.Made = copied(d.Made)
	for i := range d.Made {
		d.Made[i].Pieces = copiedPieces(d.Made[i].Pieces)
	}
	d.KeepOuts = copied(d.KeepOuts)
	d.Assumed = copied(d.Assumed)
	return d
}

// copied clones a list; an empty one becomes nil, as it is when read from a file.
func copied[T any](s []T) []T {
	if len(s) == 0 {
		return nil
	}
	return slices.Clone(s)
}

// copiedPieces clones pieces with what they hold.
func copiedPieces(pieces []Piece) []Piece {
	out := copied(pieces)
	for i := range out {
		out[i].Drops = copied(out[i].Drops)
	}
	return out
}

func apply(d *Design, e Edit) *Fault {
	if e.Op == "" {
		to, f := locate(d, e.Path)
		if f != nil {
			f.Given = shorten(e.Value)
			return f
		}
		return setText(to, e.Path, e.Value)
	}
	if !slices.Contains(ops, e.Op) {
		return &Fault{Field: shorten(e.Path), Given: shorten(e.Op), What: "is not a change that can be made", Hint: pick(e.Op, ops)}
	}
	at := strings.LastIndexByte(e.Path, '.')
	if at < 0 {
		return notAnItem(e.Path)
	}
	path := e.Path[:at]
	in, f := locate(d, path)
	if f != nil {
		f.Field = shorten(e.Path)
		return f
	}
	items, ok := in.(sequence)
	if !ok {
		return notAnItem(e.Path)
	}
	i, ok := place(e.Path[at+1:])
	last := items.len() - 1
	if e.Op == "insert" {
		last++
	}
	if !ok || i > last {
		return &Fault{Field: shorten(e.Path), What: "is not there: " + path + " holds " + strconv.Itoa(items.len()), Hint: "count from 0"}
	}
	return rearrange(items, path, i, e.Op)
}

// rearrange changes the items at path at place i.
func rearrange(items sequence, path string, i int, op string) *Fault {
	n := items.len()
	switch op {
	case "insert":
		if most := maxItems(path); n >= most {
			return &Fault{Field: itemPath(path, i), What: "would be more than the " + strconv.Itoa(most) + " that " + path + " may hold", Hint: "take another out first"}
		}
		items.insert(i)
	case "remove":
		items.remove(i)
	case "up":
		if i == 0 {
			return &Fault{Field: itemPath(path, i), What: "is the first already", Hint: "move another"}
		}
		items.swap(i, i-1)
	case "down":
		if i == n-1 {
			return &Fault{Field: itemPath(path, i), What: "is the last already", Hint: "move another"}
		}
		items.swap(i, i+1)
	}
	return nil
}

func notAnItem(path string) *Fault {
	return &Fault{Field: shorten(path), What: "is not an item of a list", Hint: "name one like under.0 or pump.curve." + strconv.Itoa(1)}
}
