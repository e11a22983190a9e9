package design

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"
)

// decoder reads a Design out of JSON and keeps going after a fault, so that
// one reading finds them all. encoding/json would stop at the first, would
// take "Bore" for "bore" and the last of two "bore"s, all in silence.
type decoder struct {
	tokens  *json.Decoder
	data    []byte
	lenient bool // members that are not known are passed over
	files   bool // lines are counted, and the file's version is read

	seenTo int // lines are counted up to here
	line   int // of the token read last

	lineOf map[string]int // by path, of every member that was read
	faults Faults
	broken bool // no use reading on
}

// decode reads data into d. Syntax that is not JSON ends the reading.
func decode(d *Design, data []byte, files bool) *decoder {
	dec := &decoder{data: data, files: files, lenient: !files, line: 1, lineOf: map[string]int{}}
	if !utf8.Valid(data) {
		at := 0
		for at < len(data) {
			r, n := utf8.DecodeRune(data[at:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			at += n
		}
		dec.lineTo(int64(at))
		dec.stop("", "", "the file holds a byte that is not UTF-8 text", "save the file as UTF-8")
		return dec
	}
	dec.tokens = json.NewDecoder(bytes.NewReader(data))
	dec.tokens.UseNumber()
	tok, ok := dec.next()
	switch {
	case !ok:
	case tok == json.Delim('{'):
		dec.object(reflect.ValueOf(d).Elem(), "", 1)
		if dec.broken {
			break
		}
		if _, err := dec.tokens.Token(); !errors.Is(err, io.EOF) {
			dec.lineTo(dec.tokens.InputOffset() + 1)
			dec.stop("", "", "the file has something more after the design's last brace", "delete it")
		}
	default:
		dec.stop("", shown(tok), "the file is not a design, which is a JSON object in braces", `begin with {"drawoff": 1, "tank": {`)
	}
	return dec
}

// next returns the next token, or reports why there is none.
func (d *decoder) next() (json.Token, bool) {
	if d.broken {
		return nil, false
	}
	tok, err := d.tokens.Token()
	if err == nil {
		d.lineTo(d.tokens.InputOffset())
		return tok, true
	}
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		d.lineTo(int64(len(d.data)))
		d.stop("", "", "the file ends in the middle", "look for a brace, a bracket or a quote that is not closed")
	case errors.As(err, &syntax):
		d.lineTo(syntax.Offset)
		d.stop("", d.around(syntax.Offset), "the file is not JSON", "look for a comma, a colon or a quote that is missing or too many")
	default:
		d.stop("", "", "the file is not JSON", "look for a comma, a colon or a quote that is missing or too many")
	}
	return nil, false
}

// lineTo counts the lines up to offset.
func (d *decoder) lineTo(offset int64) {
	to := min(int(offset), len(d.data))
	if to > d.seenTo {
		d.line += bytes.Count(d.data[d.seenTo:to], []byte{'\n'})
		d.seenTo = to
	}
}

// around returns the rest of the line at a syntax error.
func (d *decoder) around(offset int64) string {
	at := max(0, min(int(offset)-1, len(d.data)))
	line, _, _ := bytes.Cut(d.data[at:], []byte{'\n'})
	return shorten(strings.TrimSpace(string(line[:min(len(line), 4*maxGiven)])))
}

// object reads the members of a struct, its brace already read.
func (d *decoder) object(v reflect.Value, path string, depth int) {
	seen := make(map[string]bool, 8)
	for d.tokens.More() {
		tok, ok := d.next()
		if !ok {
			return
		}
		name, ok := tok.(string)
		if !ok {
			return // not reached: the token stream gives no other name
		}
		member := within(path, name)
		in, f, known := named(v, name)
		switch {
		case seen[name]:
			d.fault(member, "", "is there twice", "keep one of the two")
			d.skip(depth)
		case path == "" && name == "drawoff" && d.files:
			d.version()
		case known:
			d.lineOf[member] = d.line
			d.value(in, f.shape, member, depth)
		case d.lenient:
			d.skip(depth)
		default:
			d.fault(shorten(member), "", "is not in the format", pick(name, names(v)))
			d.skip(depth)
		}
		seen[name] = true
		if d.broken {
			return
		}
	}
	d.next()
}

// version reads the value of the file's version member.
func (d *decoder) version() {
	tok, ok := d.next()
	if !ok {
		return
	}
	n, isNumber := tok.(json.Number)
	version, err := strconv.Atoi(n.String())
	switch {
	case !isNumber || err != nil || version < 1:
		d.fault("drawoff", shown(tok), "is not a version of the file format", "write \"drawoff\": 1")
		d.rest(tok, 1)
	case version > fileVersion:
		// Whatever else looks wrong is only unknown to this version.
		d.faults = nil
		d.stop("drawoff", n.String(), "the file was made by a newer Drawoff", fmt.Sprintf("open it in that one; this one reads version %d", fileVersion))
	}
}

// value reads one member's value into v.
func (d *decoder) value(v reflect.Value, s shape, path string, depth int) {
	tok, ok := d.next()
	if !ok {
		return
	}
	switch t := tok.(type) {
	case json.Delim:
		switch {
		case t == '{' && s == group:
			if d.deep(depth + 1) {
				return
			}
			d.object(v, path, depth+1)
			return
		case t == '[' && s == list:
			if d.deep(depth + 1) {
				return
			}
			d.items(v, path, depth+1)
			return
		}
	case string:
		if s == words || s == measure {
			if strings.ContainsRune(t, utf8.RuneError) && d.lostHalf() {
				d.fault(path, shorten(t), "holds half of a character, written \\u", "write the character itself")
				return
			}
			if f := setText(v, path, t); f != nil {
				d.fault(f.Field, f.Given, f.What, f.Hint)
			}
			return
		}
	case json.Number:
		if s == count {
			if f := setText(v, path, t.String()); f != nil {
				d.fault(f.Field, f.Given, f.What, f.Hint)
			}
			return
		}
	case bool:
		if s == flag {
			v.SetBool(t)
			return
		}
	}
	what, hint := misfit(tok, s)
	d.fault(path, shown(tok), what, hint)
	d.rest(tok, depth)
}

// lostHalf reports whether the replacement character in the string just read
// stands for a \u escape that means nothing, and was not typed as such.
func (d *decoder) lostHalf() bool {
	end := min(int(d.tokens.InputOffset()), len(d.data))
	start := bytes.LastIndexByte(d.data[:end], '\n') + 1 // a string is on one line
	return bytes.Contains(d.data[start:end], []byte(`\u`)) && !bytes.ContainsRune(d.data[start:end], utf8.RuneError)
}

// items reads a list, its bracket already read.
func (d *decoder) items(v reflect.Value, path string, depth int) {
	most := maxItems(path)
	for i := 0; d.tokens.More(); i++ {
		if i == most {
			d.fault(path, "", fmt.Sprintf("has more than %d items", most), "split the plant into more than one design")
			for d.tokens.More() && !d.broken {
				d.skip(depth)
			}
			break
		}
		v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
		item := itemPath(path, i)
		d.value(v.Index(i), group, item, depth)
		d.lineOf[item] = d.line
		if d.broken {
			return
		}
	}
	d.next()
}

// skip reads past the next value.
func (d *decoder) skip(depth int) {
	if tok, ok := d.next(); ok {
		d.rest(tok, depth)
	}
}

// rest reads past what tok opened, if anything.
func (d *decoder) rest(tok json.Token, depth int) {
	if tok != json.Delim('{') && tok != json.Delim('[') {
		return
	}
	for open := 1; open > 0; {
		if d.deep(depth + open) {
			return
		}
		tok, ok := d.next()
		if !ok {
			return
		}
		switch tok {
		case json.Delim('{'), json.Delim('['):
			open++
		case json.Delim('}'), json.Delim(']'):
			open--
		}
	}
}

// deep ends the reading when the nesting is deeper than any design.
func (d *decoder) deep(depth int) bool {
	if depth > maxDepth {
		d.stop("", "", fmt.Sprintf("the file is nested more than %d deep", maxDepth), "look for brackets that were not meant")
	}
	return d.broken
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
func shown(tok json.Token) string {
	switch t := tok.(type) {
	case nil:
		return "null"
	case string:
		return shorten(t)
	case json.Delim:
		return t.String()
	}
	return shorten(fmt.Sprint(tok))
}

// misfit says why tok is not what a field of shape s holds.
func misfit(tok json.Token, s shape) (what, hint string) {
	switch t := tok.(type) {
	case nil:
		return "says nothing", "leave the member out"
	case json.Number:
		what = "is a bare number"
		if s == measure {
			return what, `write it as text with its unit, "` + shorten(t.String()) + ` mm"`
		}
	case string:
		what = "is text"
	case bool:
		what = "is true or false"
	case json.Delim:
		what = "opens a list"
		if t == '{' {
			what = "opens an object"
		}
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
