package design

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"drawoff/pipeline/tokens"
)

// decoder reads a Design out of JSON and keeps going after a fault, so that
// one reading finds them all. encoding/json would stop at the first, would
// take "Bore" for "bore" and the last of two "bore"s, all in silence.
type decoder struct {
	tokens  *tokens.Reader
	data    string
	lenient bool     // members that are not known are passed over
	passed  []string // the first few of them, where a link is read
	files   bool     // lines are counted, and the file's version is read

	rest *string // where members of the whole that are not known are kept; nil where they are not

	line int // of the token read last

	lineOf map[string]int // by path, of every member that was read
	faults Faults
	broken bool // no use reading on
}

// maxPassed is how many of the members that are not known are named.
const maxPassed = 4

// decode reads data into root, a design or a shelf. Syntax that is not JSON ends the reading.
func decode(root record, data string, files bool, rest *string) *decoder {
	dec := &decoder{data: data, files: files, rest: rest, lenient: !files, line: 1, lineOf: map[string]int{}}
	if !utf8.ValidString(data) {
		// Looked for first, since in the wrong encoding nothing else is to be believed.
		at := 0
		for r, n := utf8.DecodeRuneInString(data); r != utf8.RuneError || n > 1; r, n = utf8.DecodeRuneInString(data[at:]) {
			at += n
		}
		dec.line += strings.Count(data[:at], "\n")
		dec.stop("", "", "the file holds a byte that is not UTF-8 text", "save the file as UTF-8")
		return dec
	}
	dec.tokens = tokens.NewReader(data, maxDepth)
	tok, ok := dec.next()
	switch {
	case !ok:
	case tok.Kind == tokens.Open:
		dec.object(root, "")
		if !dec.broken {
			dec.next()
		}
	default:
		dec.stop("", shown(tok), "the file is not a design, which is a JSON object in braces", `begin with {"drawoff": 1, "tank": {`)
	}
	return dec
}

// next returns the next token, or reports why there is none.
func (d *decoder) next() (tokens.Token, bool) {
	if d.broken {
		return tokens.Token{}, false
	}
	tok := d.tokens.Next()
	d.line = tok.Line
	if tok.Kind != tokens.Bad {
		return tok, true
	}
	switch f := d.tokens.Fault(); f.What {
	case tokens.CutShort:
		d.stop("", "", "the file ends in the middle", "look for a brace, a bracket or a quote that is not closed")
	case tokens.Trailing:
		d.stop("", "", "the file has something more after the design's last brace", "delete it")
	case tokens.TooDeep:
		d.stop("", "", "the file is nested more than "+strconv.Itoa(maxDepth)+" deep", "look for brackets that were not meant")
	default:
		line, _, _ := strings.Cut(d.data[f.Offset:], "\n")
		given := shorten(strings.TrimSpace(line[:min(len(line), 4*maxGiven)]))
		d.stop("", given, "the file is not JSON", "look for a comma, a colon or a quote that is missing or too many")
	}
	return tok, false
}

// object reads the members of a record, its brace already read.
func (d *decoder) object(r record, path string) {
	seen := make(map[string]bool, 8)
	for {
		tok, ok := d.next()
		if !ok || tok.Kind == tokens.Close {
			return
		}
		name := tok.Text
		member := within(path, name)
		in := named(r, name)
		known := in != nil
		twice, line := seen[name], d.line
		seen[name] = true
		if twice {
			d.fault(member, "", "is there twice", "keep one of the two")
		} else if known {
			d.lineOf[member] = line
		} else if !d.lenient && !(path == "" && name == "drawoff") {
			d.fault(shorten(member), "", "is not in the format", pick(name, names(r)))
		} else if d.lenient && d.rest == nil && len(d.passed) < maxPassed {
			d.passed = append(d.passed, shorten(member))
		}
		if tok, ok = d.next(); !ok {
			return
		}
		switch {
		case twice:
			d.tokens.Skip(tok)
		case path == "" && name == "drawoff" && d.files:
			d.version(tok)
		case known:
			d.value(in, member, tok)
		case path == "" && d.rest != nil && name != "shelf":
			keep(d.rest, name, d.tokens.Raw(tok))
		default:
			d.tokens.Skip(tok)
		}
	}
}

// version reads the value of the file's version member.
func (d *decoder) version(tok tokens.Token) {
	version, err := strconv.Atoi(tok.Text)
	switch {
	case tok.Kind != tokens.Number || err != nil || version < 1:
		d.fault("drawoff", shown(tok), "is not a version of the file format", "write \"drawoff\": 1")
		d.tokens.Skip(tok)
	case version > fileVersion:
		// Whatever else looks wrong is only unknown to this version.
		d.faults = nil
		d.stop("drawoff", tok.Text, "the file was made by a newer Drawoff", "open it in that one; this one reads version "+strconv.Itoa(fileVersion))
	}
}

// value reads one member's value, which tok begins, into the field at.
func (d *decoder) value(at any, path string, tok tokens.Token) {
	switch to := at.(type) {
	case *string, entry:
		if tok.Kind == tokens.String && tok.Half {
			d.fault(path, shorten(tok.Text), "holds half of a character, written \\u", "write the character itself")
			return
		}
		if tok.Kind == tokens.String {
			d.set(at, path, tok)
			return
		}
	case *int:
		if tok.Kind == tokens.Number {
			d.set(at, path, tok)
			return
		}
	case *bool:
		if tok.Kind == tokens.Bool {
			*to = tok.Text == "true"
			return
		}
	case record:
		if tok.Kind == tokens.Open {
			d.object(to, path)
			return
		}
	case sequence:
		if tok.Kind == tokens.First {
			d.items(to, path)
			return
		}
	}
	what, hint := misfit(tok, shapeOf(at))
	d.fault(path, shown(tok), what, hint)
	d.tokens.Skip(tok)
}

func (d *decoder) set(at any, path string, tok tokens.Token) {
	if f := setText(at, path, tok.Text); f != nil {
		d.fault(f.Field, f.Given, f.What, f.Hint)
	}
}

// items reads a list, its bracket already read.
func (d *decoder) items(to sequence, path string) {
	most := maxItems(path)
	for i := 0; ; i++ {
		tok, ok := d.next()
		if !ok || tok.Kind == tokens.Last {
			return
		}
		if i >= most {
			if i == most {
				d.fault(path, "", "has more than "+strconv.Itoa(most)+" items", "split the plant into more than one design")
			}
			d.tokens.Skip(tok)
			continue
		}
		to.insert(i)
		item := itemPath(path, i)
		d.value(to.item(i), item, tok)
		d.lineOf[item] = d.line
	}
}

// fault notes a fault on the line of the last token.
func (d *decoder) fault(path, given, what, hint string) {
	f := Fault{Field: shorten(path), Given: given, What: what, Hint: hint}
	if d.files {
		f.Line = d.line
	}
	d.faults = append(d.faults, f)
	if len(d.faults) >= maxFaults {
		d.broken = true
	}
}

// stop notes a fault after which nothing more can be read.
func (d *decoder) stop(path, given, what, hint string) {
	d.fault(path, given, what, hint)
	d.broken = true
}

// shown returns how a token looks in a file.
func shown(tok tokens.Token) string { return shorten(tok.Text) }

// misfit says why tok is not what a field of shape s holds.
func misfit(tok tokens.Token, s shape) (what, hint string) {
	switch tok.Kind {
	case tokens.Null:
		return "says nothing", "leave the member out"
	case tokens.Number:
		what = "is a bare number"
		if s == measure {
			return what, `write it as text with its unit, "` + shorten(tok.Text) + ` mm"`
		}
	case tokens.String:
		what = "is text"
	case tokens.Bool:
		what = "is true or false"
	case tokens.Open:
		what = "opens an object"
	default:
		what = "opens a list"
	}
	switch s {
	case words:
		hint = "write words in quotes"
	case measure:
		hint = `write it as text with its unit, "900 mm"`
	case count:
		hint = "write a whole number without quotes"
	case flag:
		hint = "write true or false without quotes"
	case group:
		hint = "write an object in braces"
	case list:
		hint = "write a list in square brackets"
	}
	return what, hint
}
