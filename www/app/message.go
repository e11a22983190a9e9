package app

import (
	"sort"
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/tokens"
	"drawoff/www/view"
)

// This file turns messages into JSON and back, member by member: few enough
// that encoding/json is not worth its weight here; see package tokens.

// Request is something that the user did.
type Request struct {
	Op     string        `json:"op"` // see Handle
	Edits  []design.Edit `json:"edits,omitempty"`
	Typing bool          `json:"typing,omitempty"` // edit: a keystroke, not yet a finished entry
	Kind   string        `json:"kind,omitempty"`   // add: the kind of piece, the cleaning agent or a part of the user's own
	Path   string        `json:"path,omitempty"`   // add, point, measure, keep, forget: where, or what
	Value  string        `json:"value,omitempty"`  // measure: as typed; mend: the sentence of the way out
	Text   string        `json:"text,omitempty"`   // open: a file; start: what Store held
	Shelf  string        `json:"shelf,omitempty"`  // start: the shelf that the browser kept
	Link   string        `json:"link,omitempty"`   // start, follow: the fragment of the address
	Width  int           `json:"width,omitempty"`  // pixels for the drawing, when it has changed
	See    []string      `json:"see,omitempty"`    // ids of the regions in sight, to be answered first; empty: all of them
}

// Response is what the page must do about it.
type Response struct {
	Regions map[string]string `json:"regions,omitempty"` // new content by element id, only what changed
	Message string            `json:"message,omitempty"` // to be told to the user
	Problem bool              `json:"problem,omitempty"` // the message is about something that went wrong
	Store   string            `json:"store,omitempty"`   // to be kept by the browser until the next visit
	Shop    string            `json:"shop,omitempty"`    // a request for the workshop, which takes longer
	More    bool              `json:"more,omitempty"`    // what is out of sight waits for a request "rest"
	Shelf   string            `json:"shelf,omitempty"`   // to be kept by the browser beside the design, for every design
	Link    string            `json:"link,omitempty"`    // link, print: the fragment
	File    string            `json:"file,omitempty"`    // save: the file's text
	Name    string            `json:"name,omitempty"`    // save: the file's name
	Focus   string            `json:"focus,omitempty"`   // id of the element to move the focus to
	Undo    bool              `json:"undo"`
	Redo    bool              `json:"redo"`
	Title   string            `json:"title"`
}

// deepest is more than the brackets of any message, a design inside included.
const deepest = 24

// readObject calls take with each member and the first token of its value.
// take reads no further than the value, and reports whether it could be used.
func readObject(r *tokens.Reader, open tokens.Token, take func(name string, value tokens.Token) bool) bool {
	if open.Kind != tokens.Open {
		return false
	}
	for {
		t := r.Next()
		if t.Kind != tokens.Name {
			return t.Kind == tokens.Close
		}
		if !take(t.Text, r.Next()) {
			return false
		}
	}
}

// readList calls take with the first token of each item.
func readList(r *tokens.Reader, open tokens.Token, take func(tokens.Token) bool) bool {
	if open.Kind != tokens.First {
		return false
	}
	for {
		t := r.Next()
		if t.Kind == tokens.Last {
			return true
		}
		if t.Kind == tokens.Bad || !take(t) {
			return false
		}
	}
}

// readText takes text into s.
func readText(s *string, t tokens.Token) bool {
	*s = t.Text
	return t.Kind == tokens.String
}

// readCount takes a whole number into n.
func readCount(n *int, t tokens.Token) bool {
	var err error
	*n, err = strconv.Atoi(t.Text)
	return t.Kind == tokens.Number && err == nil
}

// readRequest reads a request; members that are not known are passed over.
func readRequest(text string) (Request, bool) {
	var req Request
	r := tokens.NewReader(text, deepest)
	ok := readObject(r, r.Next(), func(name string, t tokens.Token) bool {
		switch name {
		case "op":
			return readText(&req.Op, t)
		case "edits":
			return readList(r, t, func(t tokens.Token) bool {
				e, ok := readEdit(r, t)
				req.Edits = append(req.Edits, e)
				return ok
			})
		case "typing":
			req.Typing = t.Text == "true"
			return t.Kind == tokens.Bool
		case "kind":
			return readText(&req.Kind, t)
		case "path":
			return readText(&req.Path, t)
		case "value":
			return readText(&req.Value, t)
		case "text":
			return readText(&req.Text, t)
		case "shelf":
			return readText(&req.Shelf, t)
		case "link":
			return readText(&req.Link, t)
		case "width":
			return readCount(&req.Width, t)
		case "see":
			return readList(r, t, func(t tokens.Token) bool {
				req.See = append(req.See, t.Text)
				return t.Kind == tokens.String
			})
		}
		r.Skip(t)
		return true
	})
	return req, ok && r.Next().Kind == tokens.End
}

func readEdit(r *tokens.Reader, open tokens.Token) (e design.Edit, ok bool) {
	ok = readObject(r, open, func(name string, t tokens.Token) bool {
		switch name {
		case "op":
			return readText(&e.Op, t)
		case "path":
			return readText(&e.Path, t)
		case "value":
			return readText(&e.Value, t)
		}
		r.Skip(t)
		return true
	})
	return e, ok
}

// object is a JSON object that is being written.
type object []byte

func (o *object) name(name string) {
	separator := byte(',')
	if len(*o) == 0 {
		separator = '{'
	}
	*o = append(tokens.AppendString(append(*o, separator), name), ':')
}

func (o *object) text(name, s string) {
	o.name(name)
	*o = tokens.AppendString(*o, s)
}

// words writes s unless there is nothing in it.
func (o *object) words(name, s string) {
	if s != "" {
		o.text(name, s)
	}
}

func (o *object) flag(name string, on bool) {
	o.name(name)
	*o = strconv.AppendBool(*o, on)
}

// json returns res as JSON, the same bytes for the same response.
func (res Response) json() string {
	var o object
	if len(res.Regions) > 0 {
		var regions object
		ids := make([]string, 0, len(res.Regions))
		for id := range res.Regions {
			ids = append(ids, id)
		}
		sort.SliceStable(ids, func(i, j int) bool { return ids[i] < ids[j] })
		for _, id := range ids {
			regions.text(id, res.Regions[id])
		}
		o.name("regions")
		o = append(append(o, regions...), '}')
	}
	o.words("message", res.Message)
	if res.Problem {
		o.flag("problem", true)
	}
	if res.More {
		o.flag("more", true)
	}
	o.words("shop", res.Shop)
	o.words("store", res.Store)
	o.words("shelf", res.Shelf)
	o.words("link", res.Link)
	o.words("file", res.File)
	o.words("name", res.Name)
	o.words("focus", res.Focus)
	o.flag("undo", res.Undo)
	o.flag("redo", res.Redo)
	o.text("title", res.Title)
	return string(append(o, '}'))
}

// stored is what the browser keeps between visits.
type stored struct {
	design  string // as a file
	pending []view.Pending
}

func (s stored) json() string {
	var o object
	o.name("design")
	o = append(o, s.design...)
	if len(s.pending) > 0 {
		o.name("pending")
		for i, p := range s.pending {
			separator := byte(',')
			if i == 0 {
				separator = '['
			}
			var item, fault object
			fault.text("field", p.Fault.Field)
			fault.text("given", p.Fault.Given)
			fault.text("what", p.Fault.What)
			fault.text("hint", p.Fault.Hint)
			item.text("Path", p.Path)
			item.text("Value", p.Value)
			item.name("Fault")
			o = append(o, separator)
			o = append(append(append(o, item...), fault...), "}}"...)
		}
		o = append(o, ']')
	}
	return string(append(o, '}'))
}

// readStored reads what stored.json wrote.
func readStored(text string) (s stored, ok bool) {
	r := tokens.NewReader(text, deepest)
	ok = readObject(r, r.Next(), func(name string, t tokens.Token) bool {
		switch name {
		case "design":
			s.design = r.Raw(t)
			return true
		case "pending":
			return readList(r, t, func(t tokens.Token) bool {
				p, ok := readPending(r, t)
				s.pending = append(s.pending, p)
				return ok
			})
		}
		r.Skip(t)
		return true
	})
	return s, ok && r.Next().Kind == tokens.End
}

func readPending(r *tokens.Reader, open tokens.Token) (p view.Pending, ok bool) {
	ok = readObject(r, open, func(name string, t tokens.Token) bool {
		switch name {
		case "Path":
			return readText(&p.Path, t)
		case "Value":
			return readText(&p.Value, t)
		case "Fault":
			return readObject(r, t, func(name string, t tokens.Token) bool {
				switch name {
				case "field":
					return readText(&p.Fault.Field, t)
				case "given":
					return readText(&p.Fault.Given, t)
				case "what":
					return readText(&p.Fault.What, t)
				case "hint":
					return readText(&p.Fault.Hint, t)
				}
				r.Skip(t)
				return true
			})
		}
		r.Skip(t)
		return true
	})
	return p, ok
}
