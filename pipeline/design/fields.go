package design

import (
	"encoding"
	"errors"
	"reflect"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	q "drawoff/pipeline/quantity"
)

// This file is the one place that knows how paths and Go fields belong
// together. It reads the struct's JSON tags, so that a field added to Design
// is at once readable, editable and checked.

// shape says what kind of thing a field holds.
type shape uint8

const (
	words   shape = iota // string
	count                // int
	flag                 // bool
	measure              // quantity.Entered
	group                // struct of fields
	list                 // slice of structs
)

// field is one member of a struct of the design.
type field struct {
	name  string
	index int
	shape shape
	omit  bool // left out of a file when empty
}

// fieldsOf holds the fields of every struct type within Design, in order.
var fieldsOf = map[reflect.Type][]field{}

var designType = reflect.TypeFor[Design]()

func init() {
	survey(designType)
	survey(reflect.TypeFor[Shelf]())
}

var measureType = reflect.TypeFor[encoding.TextUnmarshaler]()

// survey fills fieldsOf for t and all that it holds. A type it does not know
// is a mistake in design.go, and stops the program at once.
func survey(t reflect.Type) {
	if _, done := fieldsOf[t]; done {
		return
	}
	fields := make([]field, 0, t.NumField())
	for i := range t.NumField() {
		f := t.Field(i)
		if !f.IsExported() {
			continue
		}
		name, option, _ := strings.Cut(f.Tag.Get("json"), ",")
		fields = append(fields, field{name: name, index: i, shape: shapeOf(f.Type), omit: option != ""})
		switch shapeOf(f.Type) {
		case group:
			survey(f.Type)
		case list:
			survey(f.Type.Elem())
		}
	}
	fieldsOf[t] = fields
}

func shapeOf(t reflect.Type) shape {
	switch {
	case t.Kind() == reflect.String:
		return words
	case t.Kind() == reflect.Int:
		return count
	case t.Kind() == reflect.Bool:
		return flag
	case t.Kind() == reflect.Struct && reflect.PointerTo(t).Implements(measureType):
		return measure
	case t.Kind() == reflect.Struct:
		return group
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Struct:
		return list
	}
	panic("design: no way to read a field of type " + t.String())
}

// named returns the field of struct v called name.
func named(v reflect.Value, name string) (reflect.Value, field, bool) {
	for _, f := range fieldsOf[v.Type()] {
		if f.name == name {
			return v.Field(f.index), f, true
		}
	}
	return reflect.Value{}, field{}, false
}

// names returns the names of the fields of struct v.
func names(v reflect.Value) []string {
	fields := fieldsOf[v.Type()]
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = f.name
	}
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

// locate follows path from the struct root. The fault says how far it came.
func locate(root reflect.Value, path string) (reflect.Value, *Fault) {
	if len(path) > maxPath {
		return reflect.Value{}, &Fault{Field: shorten(path), What: "is longer than any path of a field", Hint: "name a field like tank.bore"}
	}
	v, sofar := root, ""
	for rest, more := path, true; more; {
		var step string
		step, rest, more = strings.Cut(rest, ".")
		switch {
		case v.Kind() == reflect.Slice:
			i, ok := place(step)
			switch {
			case !ok:
				return v, &Fault{Field: shorten(path), What: "wants a number after " + sofar, Hint: "write " + sofar + ".0 for the first"}
			case i >= v.Len():
				return v, &Fault{Field: shorten(path), What: "is not there: " + sofar + " holds " + strconv.Itoa(v.Len()), Hint: "count from 0"}
			}
			v = v.Index(i)
		case shapeOf(v.Type()) == group:
			in, _, ok := named(v, step)
			if !ok {
				return v, &Fault{Field: shorten(path), What: "is not a field of " + whole(sofar), Hint: pick(step, names(v))}
			}
			v = in
		default:
			return v, &Fault{Field: shorten(path), What: "goes on after " + sofar + ", which holds nothing more", Hint: "write " + sofar}
		}
		sofar = within(sofar, step)
	}
	return v, nil
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

// text returns the words in v, and whether v is a field and no group or list.
// A switch that is off and a count of nothing are empty fields.
func text(v reflect.Value) (string, bool) {
	switch shapeOf(v.Type()) {
	case words:
		return v.String(), true
	case count:
		if v.Int() == 0 {
			return "", true
		}
		return strconv.FormatInt(v.Int(), 10), true
	case flag:
		if v.Bool() {
			return "true", true
		}
		return "", true
	case measure:
		return v.Interface().(interface{ String() string }).String(), true
	}
	return "", false
}

// setText puts typed words into the field v at path. Blank words empty it.
func setText(v reflect.Value, path, typed string) *Fault {
	fault := func(what, hint string) *Fault {
		return &Fault{Field: path, Given: shorten(typed), What: what, Hint: hint}
	}
	switch shapeOf(v.Type()) {
	case words:
		if f := judgeWords(path, typed); f != nil {
			return f
		}
		v.SetString(typed)
	case count:
		trimmed := strings.TrimSpace(typed)
		n, err := strconv.Atoi(trimmed)
		if trimmed != "" && (err != nil || n < -1e6 || n > 1e6) {
			return fault("is not a whole number", "write it in digits, like 3")
		}
		v.SetInt(int64(n))
	case flag:
		switch strings.TrimSpace(typed) {
		case "true":
			v.SetBool(true)
		case "false", "":
			v.SetBool(false)
		default:
			return fault("is neither true nor false", "write true or false")
		}
	case measure:
		if strings.TrimSpace(typed) == "" {
			v.SetZero()
			return nil
		}
		err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(typed))
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
