package design

import (
	"slices"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// Item is what a person has and knows of a part to order.
type Item struct {
	Part   string              `json:"part"`             // its slug, as the parts list names it
	InHand int                 `json:"inHand,omitempty"` // how many lie on the shelf
	Price  q.Entered[q.Number] `json:"price,omitzero"`   // of one, of tube for one stock length
	From   string              `json:"from,omitempty"`   // the supplier, and what they call it
}

// Offcut is a length of tube in hand, square at both ends.
type Offcut struct {
	Tube   string              `json:"tube"` // slug, as the cut list names it
	Length q.Entered[q.Length] `json:"length"`
}

// Shop is how a person works: what the saw and the torch take, and what is
// kept. An empty field means the usual.
type Shop struct {
	Trim     q.Entered[q.Length] `json:"trim,omitzero"`      // sawn off a new length to square it; default 0: lengths come longer than they are sold as, by up to 100 mm (BS EN 10296-2), and that is trimmed
	Keep     q.Entered[q.Length] `json:"keep,omitzero"`      // shortest offcut worth keeping; default 300 mm
	Gap      q.Entered[q.Length] `json:"gap,omitzero"`       // left between two tube ends to be welded; default 0, closed up for a weld without filler
	Spares   q.Entered[q.Number] `json:"spares,omitzero"`    // of each seal, over what the plant takes; default 1
	Argon    q.Entered[q.Flow]   `json:"argon,omitzero"`     // of the purge; default 10 L/min
	Currency string              `json:"currency,omitempty"` // that prices are in
}

// The usual of a shop: common practice, no source.
var (
	usualTrim   = q.MustParse[q.Length]("0 mm")
	usualKeep   = q.MustParse[q.Length]("300 mm")
	usualGap    = q.MustParse[q.Length]("0 mm")
	usualSpares = q.MustParse[q.Number]("1")
	usualArgon  = q.MustParse[q.Flow]("10 L/min")
)

// Filled returns s with the usual in every field that is empty.
func (s Shop) Filled() Shop {
	s.Trim = usually(s.Trim, usualTrim)
	s.Keep = usually(s.Keep, usualKeep)
	s.Gap = usually(s.Gap, usualGap)
	s.Spares = usually(s.Spares, usualSpares)
	s.Argon = usually(s.Argon, usualArgon)
	return s
}

// Item returns what the shelf says of the part.
func (s Shelf) Item(part string) Item {
	for _, it := range s.Items {
		if it.Part == part {
			return it
		}
	}
	return Item{Part: part}
}

// Put returns s with typed words in one of its fields, and leaves s as it was.
// path is "shop.trim", "rack.2" (empty words take that offcut off), "rack:" and
// a tube's slug (puts a length of it on; empty words put on nothing), "rack" (all that is on it, as
// RackText writes it), or "items:" and a part's slug, with
// the field after a further colon: "items:clamp/2in/seal/epdm:inHand". An item
// of which nothing is said is taken off. With a fault it is s that comes back.
func (s Shelf) Put(path, typed string) (Shelf, *Fault) {
	old := s
	list, rest, _ := strings.Cut(path, ":")
	var v validator
	switch {
	case list == "items":
		part, field, _ := strings.Cut(rest, ":")
		s.Items = slices.Clone(s.Items)
		i := slices.IndexFunc(s.Items, func(it Item) bool { return it.Part == part })
		if i < 0 {
			i = len(s.Items)
			s.Items = append(s.Items, Item{Part: part})
		}
		if f := put(&s.Items[i], field, path, typed); f != nil {
			return old, f
		}
		if same(&s.Items[i], &Item{Part: part}) {
			s.Items = slices.Delete(s.Items, i, i+1)
		}
		v.items(s.Items)
	case path == "rack":
		read, faults := ReadShelf(`{"rack":` + typed + "}")
		if len(faults) > 0 {
			return old, &faults[0]
		}
		s.Rack = read.Rack
	case list == "rack" && typed == "": // nothing to put on
	case list == "rack":
		s.Rack = append(slices.Clone(s.Rack), Offcut{Tube: rest})
		if f := put(&s.Rack[len(s.Rack)-1], "length", path, typed); f != nil {
			return old, f
		}
		v.rack(s.Rack)
	case strings.HasPrefix(path, "rack.") && typed == "":
		i, err := strconv.Atoi(path[len("rack."):])
		if err != nil || i < 0 || i >= len(s.Rack) {
			return old, &Fault{Field: path, What: "is not on the rack", Hint: "look at the rack again"}
		}
		s.Rack = slices.Delete(slices.Clone(s.Rack), i, i+1)
	default:
		if f := put(&s, path, path, typed); f != nil {
			return old, f
		}
		v.shop(s.Shop)
	}
	if len(v.faults) > 0 {
		return old, &v.faults[0]
	}
	return s, nil
}

// RackText writes offcuts as Put takes them for a whole rack.
func RackText(rack []Offcut) string {
	b := []byte{'['}
	for i := range rack {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(b, compact(&rack[i])...)
	}
	return string(append(b, ']'))
}

// put sets the field of a struct; a fault speaks of it as of the one at path.
func put(of record, field, path, typed string) *Fault {
	at, f := locate(of, field)
	if f == nil {
		f = setText(at, path, typed)
	}
	if f != nil {
		f.Field = path
	}
	return f
}

// joinStock puts what other has in hand, and s has not, on s.
func (s *Shelf) joinStock(other Shelf) (differ []string) {
	for _, it := range other.Items {
		switch own := s.Item(it.Part); {
		case same(&own, &Item{Part: it.Part}):
			s.Items = append(s.Items[:len(s.Items):len(s.Items)], it)
		case !same(&own, &it):
			differ = append(differ, it.Part)
		}
	}
	// Which of two racks holds an offcut of the other, nobody can tell.
	if len(s.Rack) == 0 {
		s.Rack = other.Rack
	} else if len(other.Rack) > 0 && !slices.EqualFunc(s.Rack, other.Rack, func(a, b Offcut) bool { return same(&a, &b) }) {
		differ = append(differ, "the offcuts on the rack")
	}
	if empty(&s.Shop) {
		s.Shop = other.Shop
	} else if !empty(&other.Shop) && !same(&s.Shop, &other.Shop) {
		differ = append(differ, "the habits of the shop")
	}
	return differ
}

func (v *validator) items(items []Item) {
	seen := make(map[string]bool, len(items))
	for i, it := range items {
		at := itemPath("items", i)
		switch {
		case strings.TrimSpace(it.Part) == "":
			v.fault(at+".part", "", "is missing", "name the part, as the parts list does")
		case seen[it.Part]:
			v.fault(at+".part", it.Part, "is there already, further up", "keep one of the two")
		}
		seen[it.Part] = true
		if it.InHand < 0 {
			v.fault(at+".inHand", strconv.Itoa(it.InHand), "is less than nothing", "write how many there are, like 2")
		}
		span(v, at+".price", it.Price, 0, 1e6, "0 to 1000000")
	}
}

func (v *validator) rack(rack []Offcut) {
	for i, o := range rack {
		at := itemPath("rack", i)
		if strings.TrimSpace(o.Tube) == "" {
			v.fault(at+".tube", "", "is missing", "name the tube, as the cut list does")
		}
		need(v, at+".length", o.Length, 0.01, 30, "how long it is", "10 mm to 30 m")
	}
}

func (v *validator) shop(s Shop) {
	span(v, "shop.trim", s.Trim, 0, 0.5, "0 to 500 mm")
	span(v, "shop.keep", s.Keep, 0, 10, "0 to 10 m")
	span(v, "shop.gap", s.Gap, 0, 0.005, "0 to 5 mm")
	span(v, "shop.spares", s.Spares, 0, 100, "0 to 100")
	span(v, "shop.argon", s.Argon, 0.1e-3/60, 200e-3/60, "0.1 L/min to 200 L/min")
}
