// Package markup writes HTML and SVG as text, everything escaped that was not
// written in the program. It is what is left of a template engine when the
// page must load in a workshop with one bar of signal.
package markup

// Writer is markup in the making. The zero Writer is empty.
type Writer struct{ b []byte }

// String returns what was written, and leaves w empty.
func (w *Writer) String() string {
	s := string(w.b)
	giveRoom(w.b)
	w.b = nil
	return s
}

// Raw writes s as it is; s must come from the program, never from a person.
func (w *Writer) Raw(s string) {
	if w.b == nil {
		w.b = takeRoom()
	}
	w.b = append(w.b, s...)
}

// Open starts an element; attrs are names and values in pairs. An attribute
// with an empty value is left out, so that one may be written on a condition;
// Empty is for one that is wanted without a value.
func (w *Writer) Open(name string, attrs ...string) {
	w.start(name, attrs)
	w.b = append(w.b, '>')
}

// Void writes an element that has no content: an input, an SVG line.
func (w *Writer) Void(name string, attrs ...string) {
	w.start(name, attrs)
	w.Raw("/>")
}

// Close ends an element.
func (w *Writer) Close(name string) {
	w.Raw("</")
	w.Raw(name)
	w.b = append(w.b, '>')
}

// El writes an element that holds text.
func (w *Writer) El(name, text string, attrs ...string) {
	w.Open(name, attrs...)
	w.Text(text)
	w.Close(name)
}

// Empty is the value of an attribute that is there or not: "checked".
const Empty = "\x00"

// If returns value when cond holds, "" otherwise: for attributes written on a condition.
func If(cond bool, value string) string {
	if cond {
		return value
	}
	return ""
}

func (w *Writer) start(name string, attrs []string) {
	w.Raw("<")
	w.Raw(name)
	for i := 0; i+1 < len(attrs); i += 2 {
		switch attrs[i+1] {
		case "":
		case Empty:
			w.b = append(w.b, ' ')
			w.Raw(attrs[i])
		default:
			w.Attr(attrs[i], attrs[i+1])
		}
	}
}

// Attr writes one attribute inside an element that is being started by hand.
func (w *Writer) Attr(name, value string) {
	w.b = append(w.b, ' ')
	w.Raw(name)
	w.Raw(`="`)
	w.Text(value)
	w.b = append(w.b, '"')
}

// Text writes s escaped for text and for quoted attributes.
func (w *Writer) Text(s string) {
	from := 0
	for i := 0; i < len(s); i++ {
		var e string
		switch s[i] {
		case '<':
			e = "&lt;"
		case '>':
			e = "&gt;"
		case '&':
			e = "&amp;"
		case '"':
			e = "&quot;"
		case '\'':
			e = "&#39;"
		case 0:
			e = "\uFFFD"
		default:
			continue
		}
		w.b = append(w.b, s[from:i]...)
		w.Raw(e)
		from = i + 1
	}
	w.b = append(w.b, s[from:]...)
}

// Number writes x with at most one decimal, which is finer than a screen shows.
func (w *Writer) Number(x float64) { w.b = appendTenths(w.b, x) }
