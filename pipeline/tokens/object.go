package tokens

import "strconv"

// Members calls take with each member of the object that open began and the
// first token of its value. take reads no further than the value, and says
// whether it could be used; so does Members, of the whole object.
func (r *Reader) Members(open Token, take func(name string, value Token) bool) bool {
	if open.Kind != Open {
		return false
	}
	for {
		t := r.Next()
		if t.Kind != Name {
			return t.Kind == Close
		}
		if !take(t.Text, r.Next()) {
			return false
		}
	}
}

// Items calls take with the first token of each item of the list that open
// began, as Members does.
func (r *Reader) Items(open Token, take func(Token) bool) bool {
	if open.Kind != First {
		return false
	}
	for {
		t := r.Next()
		if t.Kind == Last {
			return true
		}
		if t.Kind == Bad || !take(t) {
			return false
		}
	}
}

// Take puts the text of a string into s.
func (t Token) Take(s *string) bool {
	*s = t.Text
	return t.Kind == String
}

// TakeInt puts a whole number into n.
func (t Token) TakeInt(n *int) bool {
	var err error
	*n, err = strconv.Atoi(t.Text)
	return t.Kind == Number && err == nil
}

// Object is a JSON object that is being written, member by member; the zero
// Object has none.
type Object []byte

// Name begins a member, whose value is then to be appended.
func (o *Object) Name(name string) {
	switch n := len(*o); {
	case n == 0:
		*o = append(*o, '{')
	case (*o)[n-1] != '{': // which ends no value: an object has just begun
		*o = append(*o, ',')
	}
	*o = append(AppendString(*o, name), ':')
}

// Begin begins a member that is an object: what is written until End is in it.
func (o *Object) Begin(name string) {
	o.Name(name)
	*o = append(*o, '{')
}

// End ends what Begin began.
func (o *Object) End() { *o = append(*o, '}') }

// Text writes a member that is a string.
func (o *Object) Text(name, s string) {
	o.Name(name)
	*o = AppendString(*o, s)
}

// Words writes a member that is a string, unless there is nothing in it.
func (o *Object) Words(name, s string) {
	if s != "" {
		o.Text(name, s)
	}
}

// Flag writes a member that is true or false.
func (o *Object) Flag(name string, on bool) {
	o.Name(name)
	*o = strconv.AppendBool(*o, on)
}

// Int writes a member that is a whole number.
func (o *Object) Int(name string, n int) {
	o.Name(name)
	*o = strconv.AppendInt(*o, int64(n), 10)
}

// Raw writes a member whose value is JSON already.
func (o *Object) Raw(name, json string) {
	o.Name(name)
	*o = append(*o, json...)
}

// String returns the object, closed.
func (o Object) String() string {
	if len(o) == 0 {
		return "{}"
	}
	return string(o) + "}"
}
