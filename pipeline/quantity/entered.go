package quantity

// Entered is a quantity as somebody typed it: the words are kept, and the
// value they mean is computed once. The zero Entered is an empty field.
//
// In JSON it is the string that was typed: "2 1/2 in", "1:100", "38 °C".
type Entered[Q Quantity] struct {
	_     [0]func() // no ==: the compiler would write it for every struct of a design, and the page load it
	text  string
	value Q
}

// Parse reads a quantity of type Q as a person types it: "240 mm", "0,9 m",
// `2 1/2"`, "1½ in", "40 L/min", "1:100", "12 °C". Spaces, decimal commas and
// the usual spellings of units are forgiven. A number without a unit is an
// error where the kind has units, since 900 may be millimetres or litres.
// The error is a *ParseError; the text is kept by nobody but the caller.
func Parse[Q Quantity](text string) (Entered[Q], error) {
	a, err := ParseAmount(Q(0).Kind(), text)
	if err != nil {
		return Entered[Q]{}, err
	}
	return Entered[Q]{text: text, value: Q(a.SI)}, nil
}

// MustParse is Parse for text that is written in the program; it panics on an error.
func MustParse[Q Quantity](text string) Entered[Q] {
	e, err := Parse[Q](text)
	if err != nil {
		panic("quantity: " + err.Error())
	}
	return e
}

// Value returns the quantity in SI units, 0 when nothing was typed.
func (e Entered[Q]) Value() Q { return e.value }

// Or returns the quantity, or def when nothing was typed.
func (e Entered[Q]) Or(def Q) Q {
	if e.IsZero() {
		return def
	}
	return e.value
}

// String returns the words as typed.
func (e Entered[Q]) String() string { return e.text }

// IsZero reports whether the field is empty.
func (e Entered[Q]) IsZero() bool { return e.text == "" }

// Kind returns the kind of Q.
func (e Entered[Q]) Kind() Kind { return Q(0).Kind() }

// Amount returns the quantity as an Amount.
func (e Entered[Q]) Amount() Amount { return Of(e.value) }

// MarshalText returns the words as typed.
func (e Entered[Q]) MarshalText() ([]byte, error) { return []byte(e.text), nil }

// UnmarshalText parses the words; empty text clears the field.
func (e *Entered[Q]) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*e = Entered[Q]{}
		return nil
	}
	p, err := Parse[Q](string(b))
	if err != nil {
		return err
	}
	*e = p
	return nil
}
