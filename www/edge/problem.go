package edge

import (
	"strconv"
	"strings"

	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/pipeline/markup"
	"drawoff/pipeline/tokens"
)

// titles are the phrases of RFC 9110 for the statuses that problems have;
// RFC 9457 section 4.2.1 wants them as the title where the type is about:blank.
var titles = []struct {
	status int
	title  string
}{
	{400, "Bad Request"},
	{404, "Not Found"},
	{405, "Method Not Allowed"},
	{413, "Content Too Large"},
	{415, "Unsupported Media Type"},
	{422, "Unprocessable Content"},
	{429, "Too Many Requests"},
	{500, "Internal Server Error"},
	{503, "Service Unavailable"},
}

// problemObject begins the body of a problem: reason is a slug for programs, detail
// a sentence for people that says what would be right.
func problemObject(status int, reason, detail string) tokens.Object {
	var o tokens.Object
	o.Text("type", "about:blank")
	for _, t := range titles {
		if t.status == status {
			o.Text("title", t.title)
		}
	}
	o.Int("status", status)
	o.Text("reason", reason)
	o.Text("detail", detail)
	return o
}

func problem(status int, reason, detail string) Answer {
	return problemAnswer(status, problemObject(status, reason, detail))
}

func problemAnswer(status int, o tokens.Object) Answer {
	return Answer{Status: status, Headers: []Header{{"Content-Type", "application/problem+json"}}, Body: o.String() + "\n"}
}

func jsonAnswer(status int, body string) Answer {
	return Answer{Status: status, Headers: []Header{{"Content-Type", "application/json"}}, Body: body}
}

// faulty tells what is wrong with a design, field by field.
func faulty(faults design.Faults) Answer {
	o := problemObject(422, "not-a-design", "The design cannot be worked out: each of the faults says where, what is wrong and what would be right.")
	o.Raw("faults", string(asjson.Append(nil, faults)))
	return problemAnswer(422, o)
}

func wrongMethod(methods string) Answer {
	a := problem(405, "wrong-method", "This address takes "+methods+".")
	a.Headers = append(a.Headers, Header{"Allow", methods + ", OPTIONS"})
	return a
}

func storeFailed() Answer {
	return problem(503, "store-failed", "The store of the short links does not answer. Try again in a minute; the page's own long link needs no store.")
}

// unknownLink answers a link that leads nowhere, to a person as a page.
func unknownLink(q Request) Answer {
	if strings.HasPrefix(q.Path, "/l/") && wantsHTML(q) {
		return page(404, "There is no design under this short link. It may have been cut short or changed on its way: copy the whole link again from where it came, or ask for the long one.")
	}
	return problem(404, "unknown-link", "There is no design under this link: look whether the whole of it was copied. A link that was made less than a minute ago may not have reached this place yet.")
}

// wantsHTML reports whether a person waits for the answer, in a browser.
func wantsHTML(q Request) bool { return strings.Contains(q.Accept, "text/html") }

// page tells a person what is the matter.
func page(status int, sentence string) Answer {
	var h markup.Writer
	h.Raw(`<!doctype html><html lang="en-GB"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><title>Drawoff</title></head><body><h1>Drawoff</h1>`)
	h.El("p", sentence)
	h.Raw(`<p><a href="/">Open Drawoff</a> with what you had on your bench; nothing of it was touched.</p></body></html>`)
	return Answer{Status: status, Headers: []Header{{"Content-Type", "text/html; charset=utf-8"}}, Body: h.String()}
}

// read returns the design in the body of q, or the answer that refuses it.
func read(q Request) (design.Design, *Answer) {
	refuse := func(a Answer) (design.Design, *Answer) { return design.Design{}, &a }
	kind, _, _ := strings.Cut(q.Type, ";")
	switch {
	case !strings.EqualFold(strings.TrimSpace(kind), "application/json"):
		a := problem(415, "not-json", "Send the design as JSON, with Content-Type: application/json.")
		a.Headers = append(a.Headers, Header{"Accept", "application/json"})
		return refuse(a)
	case q.Coding != "" && !strings.EqualFold(q.Coding, "identity"):
		a := problem(415, "packed", "Send the design as it is, without Content-Encoding.")
		a.Headers = append(a.Headers, Header{"Accept-Encoding", "identity"})
		return refuse(a)
	case len(q.Body) > MaxBody:
		return refuse(problem(413, "too-large", "The body is larger than a design may be here, "+strconv.Itoa(MaxBody>>10)+" kB."))
	case q.Garbled:
		return refuse(problem(400, "not-utf-8", "The body is not UTF-8, as JSON must be."))
	}
	if f := wellFormed(q.Body); f.What != "" {
		reason := "bad-json"
		if f.What == tokens.TooDeep {
			reason = "too-deep"
		}
		o := problemObject(400, reason, "The body is not JSON that can be read, in line "+strconv.Itoa(f.Line)+": "+f.What+".")
		o.Int("line", f.Line)
		o.Int("offset", f.Offset)
		return refuse(problemAnswer(400, o))
	}
	d, faults := design.ReadFile([]byte(q.Body))
	if len(faults) > 0 {
		return refuse(faulty(faults))
	}
	return d, nil
}

// deepest is how deep the brackets of a body may nest, as in a design file.
const deepest = 16

// wellFormed returns why body is not JSON; What is then not "".
func wellFormed(body string) tokens.Fault {
	r := tokens.NewReader(strings.TrimPrefix(body, "\uFEFF"), deepest)
	for {
		switch r.Next().Kind {
		case tokens.End:
			return tokens.Fault{}
		case tokens.Bad:
			return r.Fault()
		}
	}
}
