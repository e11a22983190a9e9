package design

import (
	"errors"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	q "drawoff/pipeline/quantity"
)

// This file is the one place that knows how paths and fields belong together:
// a field that is among its record's is at once readable, editable and checked.

// shape says what kind of thing a field holds.
type shape uint8

const (
	words   shape = iota // *string
	count                // *int
	flag                 // *bool
	measure              // *quantity.Entered
	group                // record
	list                 // sequence
)

// entry is a quantity as somebody typed it.
type entry interface {
	String() string
	Amount() q.Amount
	IsZero() bool
	UnmarshalText([]byte) error
}

// shapeOf returns the shape of the field at. One that it does not know is a
// mistake in records.go.
func shapeOf(at any) shape {
	switch at.(type) {
	case *string:
		return words
	case *int:
		return count
	case *bool:
		return flag
	case record:
		return group
	case sequence:
		return list
	case entry:
		return measure
	}
	panic("design: no way to read such a field")
}

// empty reports whether nothing is in the field at.
func empty(at any) bool {
	switch at := at.(type) {
	case *string:
		return *at == ""
	case *int:
		return *at == 0
	case *bool:
		return !*at
	case sequence:
		return at.len() == 0
	case entry:
		return at.IsZero()
	case record:
		return at.fields(func(_ string, in any, _ presence) bool { return empty(in) })
	}
	return true
}

// leaves shows every field of r that holds neither a record nor a list, with
// the path of what it is in.
func leaves(r record, path string, see func(in, name string, at any)) {
	r.fields(func(name string, at any, _ presence) bool {
		switch at := at.(type) {
		case record:
			leaves(at, within(path, name), see)
		case sequence:
			for i := range at.len() {
				leaves(at.item(i), itemPath(within(path, name), i), see)
			}
		default:
			see(path, name, at)
		}
		return true
	})
}

// lookup is shown fields until it has found the one called name.
type lookup struct {
	_     [0]func() // no ==: the page would load it
	name  string
	found any
}

func (l *lookup) see(name string, at any, _ presence) bool {
	if name == l.name {
		l.found = at
	}
	return l.found == nil
}

// named returns the field of r called name, nil where there is none.
func named(r record, name string) any {
	l := lookup{name: name}
	r.fields(l.see)
	return l.found
}

// names returns the names of the fields of r.
func names(r record) (out []string) {
	r.fields(func(name string, _ any, _ presence) bool {
		out = append(out, name)
		return true
	})
	return out
}

// within joins a path and a name.
func within(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// itemPath joins a path and a place in a list.
func itemPath(path string, i int) string { return path + "." + strconv.Itoa(i) }

// locate follows path from root to a field, a record or a sequence. The fault
// says how far it came.
func locate(root record, path string) (any, *Fault) {
	if len(path) > maxPath {
		return nil, &Fault{Field: shorten(path), What: "is longer than any path of a field", Hint: "name a field like tank.bore"}
	}
	var at any = root
	var look lookup
	see := look.see
	for rest, more := path, true; more; {
		sofar := path[:max(0, len(path)-len(rest)-1)]
		var step string
		step, rest, more = strings.Cut(rest, ".")
		switch in := at.(type) {
		case record:
			look = lookup{name: step}
			in.fields(see)
			if at = look.found; at == nil {
				return nil, &Fault{Field: shorten(path), What: "is not a field of " + whole(sofar), Hint: pick(step, names(in))}
			}
		case sequence:
			i, ok := place(step)
			switch {
			case !ok:
				return nil, &Fault{Field: shorten(path), What: "wants a number after " + sofar, Hint: "write " + sofar + ".0 for the first"}
			case i >= in.len():
				return nil, &Fault{Field: shorten(path), What: "is not there: " + sofar + " holds " + strconv.Itoa(in.len()), Hint: "count from 0"}
			}
			at = in.item(i)
		default:
			return nil, &Fault{Field: shorten(path), What: "goes on after " + sofar + ", which holds nothing more", Hint: "write " + sofar}
		}
	}
	return at, nil
}

// whole names the design itself where a path is empty.
func whole(path string) string {
	if path == "" {
		return "a design"
	}
	return path
}

// place reads a number in a path: digits, no sign, no leading zero.
func place(s string) (int, bool) {
	if s == "" || len(s) > 5 || strings.Trim(s, "0123456789") != "" || (len(s) > 1 && s[0] == '0') {
		return 0, false
	}
	i, err := strconv.Atoi(s)
	return i, err == nil
}

// text returns the words in the field at, and whether it is a field and no
// record or sequence. A switch that is off and a count of nothing are empty fields.
func text(at any) (string, bool) {
	switch at := at.(type) {
	case *string:
		return *at, true
	case *int:
		if *at == 0 {
			return "", true
		}
		return strconv.Itoa(*at), true
	case *bool:
		if *at {
			return "true", true
		}
		return "", true
	case entry:
		return at.String(), true
	}
	return "", false
}

// setText puts typed words into the field at, at path. Blank words empty it.
func setText(at any, path, typed string) *Fault {
	fault := func(what, hint string) *Fault {
		return &Fault{Field: path, Given: shorten(typed), What: what, Hint: hint}
	}
	switch at := at.(type) {
	case *string:
		if f := judgeWords(path, typed); f != nil {
			return f
		}
		*at = typed
	case *int:
		trimmed := strings.TrimSpace(typed)
		n, err := strconv.Atoi(trimmed)
		if trimmed != "" && (err != nil || n < -1e6 || n > 1e6) {
			return fault("is not a whole number", "write it in digits, like 3")
		}
		*at = n
	case *bool:
		switch strings.TrimSpace(typed) {
		case "true":
			*at = true
		case "false", "":
			*at = false
		default:
			return fault("is neither true nor false", "write true or false")
		}
	case entry:
		if strings.TrimSpace(typed) == "" {
			typed = ""
		}
		err := at.UnmarshalText([]byte(typed))
		var pe *q.ParseError
		if errors.As(err, &pe) {
			return fault(pe.What, pe.Hint)
		}
	default:
		return fault("cannot be put into a group of fields", "name one of the fields in "+whole(path))
	}
	return nil
}

// plain reports whether typed is short printable ASCII, which any field of
// words can hold: nearly all are, and need no closer look.
func plain(typed string) bool {
	for i := range len(typed) {
		if typed[i] < ' ' || typed[i] > '~' {
			return false
		}
	}
	return len(typed) <= MaxWord
}

// judgeWords returns the fault of words that a field cannot hold: too long,
// not text, or with control characters, which no form lets a person see.
func judgeWords(path, typed string) *Fault {
	f := &Fault{Field: path, Given: shorten(typed)}
	most := maxRunes(path)
	switch {
	case !utf8.ValidString(typed):
		f.What, f.Hint = "holds bytes that are not text", "type it again"
	case len(typed) > most && utf8.RuneCountInString(typed) > most:
		f.What, f.Hint = "is longer than "+strconv.Itoa(most)+" characters", "shorten it"
	case strings.IndexFunc(typed, func(r rune) bool {
		return unicode.IsControl(r) && (path != "note" || !strings.ContainsRune("\n\r\t", r))
	}) >= 0:
		f.What, f.Hint = "holds a control character or a line break", "take it out"
	default:
		return nil
	}
	return f
}
