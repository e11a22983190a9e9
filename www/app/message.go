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
	Path   string        `json:"path,omitempty"`   // add, point, measure, slide, step, keep, forget, whatif, move: where, or what
	Value  string        `json:"value,omitempty"`  // measure: as typed; slide: metres; step: how many, down with a minus; units, start: the system; mend: the sentence of the way out; whatif: the figure; later: the plant; go: the step
	Text   string        `json:"text,omitempty"`   // open: a file; start, take: what Store held; step: what stands in the field; later: verdicts
	Home   string        `json:"home,omitempty"`   // start, take, own, open, move: what the browser keeps the design under
	Shelf  string        `json:"shelf,omitempty"`  // start: the shelf that the browser kept
	Link   string        `json:"link,omitempty"`   // follow: the fragment of the address
	Width  int           `json:"width,omitempty"`  // pixels for the drawing, when it has changed
	Zoom   int           `json:"zoom,omitempty"`   // per cent that the drawing is to be made larger, when it has changed
	See    []string      `json:"see,omitempty"`    // ids of the regions in sight, to be answered first; empty: all of them
}

// Response is what the page must do about it.
type Response struct {
	Regions map[string]string `json:"regions,omitempty"` // new content by element id, only what changed
	Message string            `json:"message,omitempty"` // to be told to the user
	Problem bool              `json:"problem,omitempty"` // the message is about something that went wrong
	Store   string            `json:"store,omitempty"`   // to be kept by the browser until the next visit
	Anew    bool              `json:"anew,omitempty"`    // what the workshop told is of another plant, or in other units: it is no longer to be shown
	Shop    string            `json:"shop,omitempty"`    // a request for the workshop, which takes longer
	More    bool              `json:"more,omitempty"`    // what is out of sight waits for a request "rest"
	Shelf   string            `json:"shelf,omitempty"`   // to be kept by the browser beside the design, for every design
	Link    string            `json:"link,omitempty"`    // link: the fragment
	File    string            `json:"file,omitempty"`    // save: the file's text
	Name    string            `json:"name,omitempty"`    // save: the file's name
	Focus   string            `json:"focus,omitempty"`   // id of the element to move the focus to
	Value   string            `json:"value,omitempty"`   // step: what the field was moved to
	Step    int               `json:"step"`              // which step made the present design, 0 for none
	Steps   []int             `json:"steps,omitempty"`   // history: those that can be gone to, the first before the last
	Undo    bool              `json:"undo"`
	Redo    bool              `json:"redo"`
	Title   string            `json:"title"`
	Home    string            `json:"home,omitempty"` // where the present design, and Store, belong
}

// deepest is more than the brackets of any message, a design inside included.
const deepest = 24

// readRequest reads a request; members that are not known are passed over.
func readRequest(text string) (Request, bool) {
	var req Request
	r := tokens.NewReader(text, deepest)
	ok := r.Members(r.Next(), func(name string, t tokens.Token) bool {
		switch name {
		case "op":
			return t.Take(&req.Op)
		case "edits":
			return r.Items(t, func(t tokens.Token) bool {
				e, ok := readEdit(r, t)
				req.Edits = append(req.Edits, e)
				return ok
			})
		case "typing":
			req.Typing = t.Text == "true"
			return t.Kind == tokens.Bool
		case "kind":
			return t.Take(&req.Kind)
		case "path":
			return t.Take(&req.Path)
		case "value":
			return t.Take(&req.Value)
		case "text":
			return t.Take(&req.Text)
		case "home":
			return t.Take(&req.Home)
		case "shelf":
			return t.Take(&req.Shelf)
		case "link":
			return t.Take(&req.Link)
		case "width":
			return t.TakeInt(&req.Width)
		case "zoom":
			return t.TakeInt(&req.Zoom)
		case "see":
			return r.Items(t, func(t tokens.Token) bool {
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
	ok = r.Members(open, func(name string, t tokens.Token) bool {
		switch name {
		case "op":
			return t.Take(&e.Op)
		case "path":
			return t.Take(&e.Path)
		case "value":
			return t.Take(&e.Value)
		}
		r.Skip(t)
		return true
	})
	return e, ok
}

// write writes res into o, the same members for the same response.
func (res Response) write(o *tokens.Object) {
	if len(res.Regions) > 0 {
		ids := make([]string, 0, len(res.Regions))
		for id := range res.Regions {
			ids = append(ids, id)
		}
		sort.SliceStable(ids, func(i, j int) bool { return ids[i] < ids[j] })
		o.Begin("regions")
		for _, id := range ids {
			o.Text(id, res.Regions[id])
		}
		o.End()
	}
	o.Words("message", res.Message)
	if res.Problem {
		o.Flag("problem", true)
	}
	if res.More {
		o.Flag("more", true)
	}
	if res.Anew {
		o.Flag("anew", true)
	}
	o.Words("shop", res.Shop)
	o.Words("store", res.Store)
	o.Words("shelf", res.Shelf)
	o.Words("link", res.Link)
	o.Words("file", res.File)
	o.Words("name", res.Name)
	o.Words("focus", res.Focus)
	o.Words("value", res.Value)
	o.Int("step", res.Step)
	if len(res.Steps) > 0 {
		o.Name("steps")
		*o = append(*o, '[')
		for i, n := range res.Steps {
			if i > 0 {
				*o = append(*o, ',')
			}
			*o = strconv.AppendInt(*o, int64(n), 10)
		}
		*o = append(*o, ']')
	}
	o.Flag("undo", res.Undo)
	o.Flag("redo", res.Redo)
	o.Text("title", res.Title)
	o.Words("home", res.Home)
}

// stored is what the browser keeps between visits.
type stored struct {
	design  string // as a file
	pending []view.Pending
}

func (s stored) json() string {
	var o tokens.Object
	o.Raw("design", s.design)
	if len(s.pending) > 0 {
		o.Name("pending")
		for i, p := range s.pending {
			separator := byte(',')
			if i == 0 {
				separator = '['
			}
			var item, fault tokens.Object
			fault.Text("field", p.Fault.Field)
			fault.Text("given", p.Fault.Given)
			fault.Text("what", p.Fault.What)
			fault.Text("hint", p.Fault.Hint)
			item.Text("Path", p.Path)
			item.Text("Value", p.Value)
			item.Raw("Fault", fault.String())
			o = append(append(o, separator), item.String()...)
		}
		o = append(o, ']')
	}
	return o.String()
}

// readStored reads what stored.json wrote.
func readStored(text string) (s stored, ok bool) {
	r := tokens.NewReader(text, deepest)
	ok = r.Members(r.Next(), func(name string, t tokens.Token) bool {
		switch name {
		case "design":
			s.design = r.Raw(t)
			return true
		case "pending":
			return r.Items(t, func(t tokens.Token) bool {
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
	ok = r.Members(open, func(name string, t tokens.Token) bool {
		switch name {
		case "Path":
			return t.Take(&p.Path)
		case "Value":
			return t.Take(&p.Value)
		case "Fault":
			return r.Members(t, func(name string, t tokens.Token) bool {
				switch name {
				case "field":
					return t.Take(&p.Fault.Field)
				case "given":
					return t.Take(&p.Fault.Given)
				case "what":
					return t.Take(&p.Fault.What)
				case "hint":
					return t.Take(&p.Fault.Hint)
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
