package design

import "drawoff/pipeline/tokens"

// writer writes a design as JSON, by the same fields that it is read by.
type writer struct {
	b    []byte
	step string // one level's indent; "" writes all on one line
}

// compact returns r as JSON without white space.
func compact(r record) []byte {
	w := writer{}
	w.object(r, 0)
	return w.b
}

// same reports whether a and b say the same.
func same(a, b record) bool { return string(compact(a)) == string(compact(b)) }

func (w *writer) object(r record, level int) {
	w.b = append(w.b, '{')
	if w.members(r, level+1, true) {
		w.line(level)
	}
	w.b = append(w.b, '}')
}

// members writes the fields of r and reports whether there were any; first
// says that nothing stands before them.
func (w *writer) members(r record, level int, first bool) bool {
	r.fields(func(name string, at any, when presence) bool {
		if when == may && empty(at) {
			return true
		}
		if !first {
			w.b = append(w.b, ',')
		}
		first = false
		w.line(level)
		w.b = tokens.AppendString(w.b, name)
		w.b = append(w.b, ':')
		if w.step != "" {
			w.b = append(w.b, ' ')
		}
		w.value(at, level)
		return true
	})
	return !first
}

func (w *writer) value(at any, level int) {
	switch at := at.(type) {
	case record:
		w.object(at, level)
	case sequence:
		w.b = append(w.b, '[')
		for i := range at.len() {
			if i > 0 {
				w.b = append(w.b, ',')
			}
			w.line(level + 1)
			w.object(at.item(i), level+1)
		}
		if at.len() > 0 {
			w.line(level)
		}
		w.b = append(w.b, ']')
	case *int, *bool: // left out when empty
		s, _ := text(at)
		w.b = append(w.b, s...)
	default:
		s, _ := text(at)
		w.b = tokens.AppendString(w.b, s)
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
