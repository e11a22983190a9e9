package design

import (
	"reflect"

	"drawoff/pipeline/tokens"
)

// writer writes a design as JSON, by the same table of fields that it is read by.
type writer struct {
	b    []byte
	step string // one level's indent; "" writes all on one line
}

// compact returns a design, or a group of one, as JSON without white space.
func compact(group any) []byte {
	w := writer{}
	w.object(reflect.ValueOf(group), 0)
	return w.b
}

func (w *writer) object(v reflect.Value, level int) {
	w.b = append(w.b, '{')
	if w.members(v, level+1, true) {
		w.line(level)
	}
	w.b = append(w.b, '}')
}

// members writes the fields of struct v and reports whether there were any;
// first says that nothing stands before them.
func (w *writer) members(v reflect.Value, level int, first bool) bool {
	for _, f := range fieldsOf[v.Type()] {
		in := v.Field(f.index)
		if f.omit && (in.IsZero() || f.shape == list && in.Len() == 0) {
			continue
		}
		if !first {
			w.b = append(w.b, ',')
		}
		first = false
		w.line(level)
		w.b = tokens.AppendString(w.b, f.name)
		w.b = append(w.b, ':')
		if w.step != "" {
			w.b = append(w.b, ' ')
		}
		w.value(in, f.shape, level)
	}
	return !first
}

func (w *writer) value(v reflect.Value, s shape, level int) {
	switch s {
	case group:
		w.object(v, level)
	case list:
		w.b = append(w.b, '[')
		for i := range v.Len() {
			if i > 0 {
				w.b = append(w.b, ',')
			}
			w.line(level + 1)
			w.object(v.Index(i), level+1)
		}
		if v.Len() > 0 {
			w.line(level)
		}
		w.b = append(w.b, ']')
	case words, measure:
		s, _ := text(v)
		w.b = tokens.AppendString(w.b, s)
	default: // count and flag, which are left out when empty
		s, _ := text(v)
		w.b = append(w.b, s...)
	}
}

// line begins a line.
func (w *writer) line(level int) {
	if w.step == "" {
		return
	}
	w.b = append(w.b, '\n')
	for range level {
		w.b = append(w.b, w.step...)
	}
}
