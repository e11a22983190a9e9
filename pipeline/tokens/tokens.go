// Package tokens reads JSON (RFC 8259) one token at a time and writes its
// strings and objects. It exists for two reasons. encoding/json would be an eighth of the
// module that a phone has to fetch: a program that imports fmt packs to 563 kB
// and to 688 kB with encoding/json. And whoever edits a file by hand is told
// the line of a mistake, which encoding/json does not know.
//
// It reads what the RFC allows and nothing else: no comments, no spare commas,
// no leading zeros, no text that is not UTF-8. It does not judge members that
// are there twice, which the RFC allows and a reader may refuse.
package tokens

import "unicode/utf8"

// Kind says what a token is.
type Kind uint8

// The kinds of token. Commas and colons are checked and not handed out.
const (
	End    Kind = iota // of the text; again and again
	Bad                // the text is not JSON, see Reader.Fault; again and again
	Open               // {
	Close              // }
	First              // [
	Last               // ]
	Name               // of a member: Text is the name
	String             // Text is what it says
	Number             // Text is the number as it stands
	Bool               // Text is true or false
	Null               // Text is null
)

// Token is the next thing in a text.
type Token struct {
	Kind Kind
	Text string // brackets: as they stand
	Line int    // counted from 1
	Half bool   // a string held half of a \u pair, for which U+FFFD stands
}

// What can be wrong with a text.
const (
	CutShort  = "the text ends in the middle"
	Misplaced = "this does not belong here"
	Trailing  = "there is more after the end"
	NotText   = "this is not UTF-8"
	TooDeep   = "the text is nested too deep"
)

// Fault is why a text is not JSON.
type Fault struct {
	What   string // one of the constants
	Line   int    // counted from 1
	Offset int    // of the byte that is wrong
}

// Reader hands out the tokens of one text.
type Reader struct {
	data  string
	at    int
	from  int // where the token read last begins, a value's or a bracket's
	line  int
	most  int
	open  []byte // brackets that are not closed yet
	want  want
	fault Fault
}

// want is what may come next.
type want uint8

const (
	value     want = iota
	item           // a value or the end of an empty list
	member         // a name or the end of an empty object
	name           // a name, after a comma
	separator      // a comma or the end of what is open
	nothing        // the text is whole
)

// NewReader returns a reader of data that refuses brackets nested deeper than most.
func NewReader(data string, most int) *Reader {
	return &Reader{data: data, line: 1, most: most}
}

// Fault returns what is wrong, after a token that is Bad.
func (r *Reader) Fault() Fault { return r.fault }

// Next returns the next token.
func (r *Reader) Next() Token {
	if r.fault.What != "" {
		return Token{Kind: Bad, Line: r.fault.Line}
	}
	c, ok := r.peek()
	if r.want == separator && c == ',' {
		r.at++
		r.want = value
		if r.open[len(r.open)-1] == '{' {
			r.want = name
		}
		c, ok = r.peek()
	}
	if !ok {
		if r.want == nothing {
			return Token{Kind: End, Line: r.line}
		}
		return r.bad(CutShort)
	}
	switch r.want {
	case nothing:
		return r.bad(Trailing)
	case name, member:
		if c == '"' {
			return r.name()
		}
		if c != '}' || r.want == name {
			return r.bad(Misplaced)
		}
		return r.close(Close)
	case separator, item:
		inside := r.open[len(r.open)-1]
		switch {
		case c == '}' && inside == '{':
			return r.close(Close)
		case c == ']' && inside == '[':
			return r.close(Last)
		case r.want == separator:
			return r.bad(Misplaced)
		}
	}
	return r.value(c)
}

// Skip reads to the end of the value that t began.
func (r *Reader) Skip(t Token) {
	if t.Kind != Open && t.Kind != First {
		return
	}
	for outside := len(r.open) - 1; len(r.open) > outside; {
		if r.Next().Kind == Bad {
			return
		}
	}
}

// Raw returns the text of the value that t, the token read last, began, and
// reads past it.
func (r *Reader) Raw(t Token) string {
	from := r.from
	r.Skip(t)
	return r.data[from:r.at]
}

// peek passes over white space and returns the byte after it.
func (r *Reader) peek() (byte, bool) {
	for ; r.at < len(r.data); r.at++ {
		switch c := r.data[r.at]; c {
		case '\n':
			r.line++
		case ' ', '\t', '\r':
		default:
			return c, true
		}
	}
	return 0, false
}

func (r *Reader) bad(what string) Token {
	if what == Misplaced && r.at >= len(r.data) {
		what = CutShort
	}
	r.fault = Fault{What: what, Line: r.line, Offset: r.at}
	return Token{Kind: Bad, Line: r.line}
}

func (r *Reader) close(k Kind) Token {
	r.open = r.open[:len(r.open)-1]
	r.at++
	r.done()
	return Token{Kind: k, Text: r.data[r.at-1 : r.at], Line: r.line}
}

// done notes that a value is whole.
func (r *Reader) done() {
	r.want = separator
	if len(r.open) == 0 {
		r.want = nothing
	}
}

func (r *Reader) name() Token {
	t := r.text(Name)
	if t.Kind == Bad {
		return t
	}
	if c, _ := r.peek(); c != ':' {
		return r.bad(Misplaced)
	}
	r.at++
	r.want = value
	return t
}

// value reads what begins with c, or its bracket.
func (r *Reader) value(c byte) Token {
	t := Token{Line: r.line}
	from := r.at
	r.from = from
	switch {
	case c == '{' || c == '[':
		if len(r.open) == r.most {
			return r.bad(TooDeep)
		}
		r.open = append(r.open, c)
		r.at++
		t.Kind, r.want = Open, member
		if c == '[' {
			t.Kind, r.want = First, item
		}
		t.Text = r.data[from:r.at]
		return t
	case c == '"':
		t = r.text(String)
	case c == '-' || digit(c):
		t.Kind = Number
		if !r.number() {
			return r.bad(Misplaced)
		}
	default:
		t.Kind = Bool
		word := "true"
		switch c {
		case 'f':
			word = "false"
		case 'n':
			t.Kind, word = Null, "null"
		}
		for i := range len(word) {
			if r.at >= len(r.data) || r.data[r.at] != word[i] {
				return r.bad(Misplaced)
			}
			r.at++
		}
	}
	if t.Kind == Bad {
		return t
	}
	if t.Kind != String {
		t.Text = r.data[from:r.at]
	}
	r.done()
	return t
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// number reads past a number; false if it is none.
func (r *Reader) number() bool {
	r.is('-', '-')
	if !r.is('0', '0') && !r.digits() {
		return false
	}
	if r.is('.', '.') && !r.digits() {
		return false
	}
	if r.is('e', 'E') {
		_ = r.is('+', '-')
		return r.digits()
	}
	return true
}

func (r *Reader) digits() bool {
	from := r.at
	for r.at < len(r.data) && digit(r.data[r.at]) {
		r.at++
	}
	return r.at > from
}

// is reads past one byte that is a or b.
func (r *Reader) is(a, b byte) bool {
	if r.at < len(r.data) && (r.data[r.at] == a || r.data[r.at] == b) {
		r.at++
		return true
	}
	return false
}

// valid reports how many bytes the character at the start of s takes, 0 if it is none.
func valid(s string) int {
	if r, n := utf8.DecodeRuneInString(s); r != utf8.RuneError || n > 1 {
		return n
	}
	return 0
}
