// Package edge answers what the edge worker is asked: checks of designs for
// other programs, and short links.
//
//	POST /api/check       a design in, its report out, as check -json prints it
//	POST /api/links       a design in, a short link to it out
//	GET  /api/links/{id}  the design again
//	GET  /l/{id}          the page with that design
//
// It computes and nothing else: no network, no store, no chance. Where a
// request asks for something to be read or kept, Handle says so and is called
// again with what came of it. Whoever holds the store, the platform or a test,
// needs two calls of it, get and put, and nothing can be listed, changed or
// overwritten since nothing here asks for that.
//
// Problems are told as RFC 9457 has it, and in plain words.
package edge

import (
	"strings"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/pipeline/tokens"
)

// MaxBody is the most bytes that the body of a request may have.
const MaxBody = 64 << 10

// Request is a request as the worker passes it on.
type Request struct {
	Method  string
	Path    string // as it came, with its percent signs
	Origin  string // under which the worker is reached: "https://example.org"
	Type    string // Content-Type
	Coding  string // Content-Encoding
	Accept  string
	Body    string // of one that is too long, MaxBody bytes and some more
	Garbled bool   // the body is not UTF-8, and not passed on

	ID   string // 128 bits of chance in 22 characters, the name of a link if one is made
	Came Came   // what came of what the answer before asked for
	Kept string // what was read
}

// Came is what came of what was asked of the store.
type Came string

// What may come of it. The first call of a request has none.
const (
	Done    Came = "done"
	None    Came = "none"    // there is nothing under that name
	Limited Came = "limited" // this client has written enough for now
	Failed  Came = "failed"
)

// Do is what is to be done before a request can be answered.
type Do string

// What may be to be done: "" means that the answer stands.
const (
	Get Do = "get" // what is kept under Key
	Put Do = "put" // keep Value under Key, if the client's limit of writes allows it
)

// Header is one header of an answer.
type Header struct{ Name, Value string }

// Answer is what is to be done or what is to be sent.
type Answer struct {
	Do         Do
	Key, Value string

	Status  int
	Headers []Header
	Body    string
}

// route is what is behind a path: the methods that it takes beside OPTIONS,
// and whether pages of other hosts may ask.
type route struct {
	methods string
	open    bool
	answer  func(Request) Answer
}

// find returns the route of path; ok is false where there is none.
func find(path string) (r route, ok bool) {
	switch path {
	case "/api/check":
		return route{"POST", true, check}, true
	case "/api/links":
		return route{"POST", false, keep}, true
	}
	if id, ok := strings.CutPrefix(path, "/api/links/"); ok && isID(id) {
		return route{"GET, HEAD", true, func(q Request) Answer { return give(q, id) }}, true
	}
	if id, ok := strings.CutPrefix(path, "/l/"); ok && isID(id) {
		return route{"GET, HEAD", false, func(q Request) Answer { return open(q, id) }}, true
	}
	return route{}, false
}

// isID reports whether s may be the name of a link.
func isID(s string) bool {
	const length, alphabet = 22, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	return len(s) == length && strings.Trim(s, alphabet) == ""
}

// Handle answers q. It never panics on anything that a client can send.
func Handle(q Request) Answer {
	r, ok := find(q.Path)
	if !ok {
		return missing(q)
	}
	var a Answer
	switch {
	case q.Method == "OPTIONS":
		a = Answer{Status: 204, Headers: []Header{{"Allow", r.methods + ", OPTIONS"}}}
		if r.open {
			a.Headers = append(a.Headers, Header{"Access-Control-Allow-Methods", r.methods},
				Header{"Access-Control-Allow-Headers", "Content-Type"}, Header{"Access-Control-Max-Age", "86400"})
		}
	case !has(r.methods, q.Method):
		a = wrongMethod(r.methods)
	default:
		a = r.answer(q)
	}
	if a.Do != "" {
		return a
	}
	if r.open {
		a.Headers = append(a.Headers, Header{"Access-Control-Allow-Origin", "*"})
	}
	a.Headers = append(a.Headers, Header{"Cache-Control", "no-store"})
	if q.Method == "HEAD" {
		a.Body = ""
	}
	return a
}

// has reports whether methods, with commas between, has method.
func has(methods, method string) bool {
	for {
		first, rest, more := strings.Cut(methods, ", ")
		if first == method {
			return true
		}
		if !more {
			return false
		}
		methods = rest
	}
}

// missing answers a request for what is not there: nothing of the API, and no
// file of the site.
func missing(q Request) Answer {
	of := strings.HasPrefix(q.Path, "/api/") || strings.HasPrefix(q.Path, "/l/")
	if !of && q.Method != "GET" && q.Method != "HEAD" {
		return wrongMethod("GET, HEAD")
	}
	a := problem(404, "unknown-address", "There is nothing under this address. What there is stands in /openapi.json; the page itself is at /.")
	if strings.HasPrefix(q.Path, "/l/") {
		a = unknownLink(q)
	}
	if q.Method == "HEAD" {
		a.Body = ""
	}
	return a
}

// check answers with the report on a design.
func check(q Request) Answer {
	d, refused := read(q)
	if refused != nil {
		return *refused
	}
	r := pipeline.Check(d)
	if len(r.Faults) > 0 {
		return faulty(r.Faults)
	}
	work := r.Work(design.Shelf{}) // nothing in hand: the shelf stays with whoever has it
	return jsonAnswer(200, string(asjson.Indent(asjson.Report(r, work))))
}

// keep keeps a design and answers with its short link.
func keep(q Request) Answer {
	d, refused := read(q)
	if refused != nil {
		return *refused
	}
	// The short link opens the page by its long link, so there must be one.
	if len(design.WriteLink(d)) > design.MaxLink {
		return problem(422, "too-long-for-a-link", "The design is longer than a link can be: send it as a file.")
	}
	switch q.Came {
	case "":
		return Answer{Do: Put, Key: q.ID, Value: string(design.WriteFile(d))}
	case Done:
		var o tokens.Object
		o.Text("id", q.ID)
		o.Text("link", q.Origin+"/l/"+q.ID)
		o.Text("design", q.Origin+"/api/links/"+q.ID)
		a := jsonAnswer(201, o.String()+"\n")
		a.Headers = append(a.Headers, Header{"Location", "/api/links/" + q.ID})
		return a
	case Limited:
		a := problem(429, "too-many-links", "Too many links were made from here in the last minute: wait a minute, or send the page's own long link, which needs nobody's help.")
		a.Headers = append(a.Headers, Header{"Retry-After", "60"})
		return a
	}
	return storeFailed()
}

// give answers with the design that a link leads to.
func give(q Request, id string) Answer {
	d, asked := kept(q, id)
	if asked != nil {
		return *asked
	}
	return jsonAnswer(200, string(design.WriteFile(d)))
}

// open sends the browser to the page with the design that a link leads to. The
// page then does what it does with every link: it asks before it replaces anything.
func open(q Request, id string) Answer {
	d, asked := kept(q, id)
	if asked != nil {
		return *asked
	}
	return Answer{Status: 302, Headers: []Header{{"Location", "/#" + design.WriteLink(d)}}}
}

// kept returns the design under id, or what to ask or answer instead.
func kept(q Request, id string) (design.Design, *Answer) {
	var a Answer
	switch q.Came {
	case "":
		a = Answer{Do: Get, Key: id}
	case Done:
		d, faults := design.ReadFile([]byte(q.Kept))
		if len(faults) == 0 {
			return d, nil
		}
		a = problem(500, "kept-badly", "What is kept under this link is not a design that can be read: the fault is not yours. Ask whoever sent the link for the long one, or for the file.")
	case None:
		a = unknownLink(q)
	default:
		a = storeFailed()
		if wantsHTML(q) {
			a = page(503, "The short links cannot be reached just now. Try again in a minute, or ask whoever sent the link for the long one, which needs nobody's help.")
		}
		a.Headers = append(a.Headers, Header{"Retry-After", "5"})
	}
	return design.Design{}, &a
}
