package edge_test

import (
	"bytes"
	"crypto/sha512"
	"encoding/hex"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/quantity"
	"drawoff/www/edge"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const (
	origin = "https://example.org"
	id     = "AAAAAAAAAAAAAAAAAAAA-_"
)

// store answers q to the end, with a map for the store.
type store map[string]string

func (s store) serve(q edge.Request) edge.Answer {
	a := edge.Handle(q)
	switch a.Do {
	case edge.Get:
		var ok bool
		if q.Kept, ok = s[a.Key]; ok {
			q.Came = edge.Done
		} else {
			q.Came = edge.None
		}
	case edge.Put:
		s[a.Key] = a.Value
		q.Came = edge.Done
	default:
		return a
	}
	return edge.Handle(q)
}

func post(path, body string) edge.Request {
	return edge.Request{Method: "POST", Path: path, Origin: origin, Type: "application/json", Body: body, ID: id}
}

func get(path string) edge.Request {
	return edge.Request{Method: "GET", Path: path, Origin: origin, ID: id}
}

func header(a edge.Answer, name string) string {
	for _, h := range a.Headers {
		if h.Name == name {
			return h.Value
		}
	}
	return ""
}

type problem struct {
	Type, Title, Reason, Detail string
	Status, Line                int
	Faults                      []design.Fault
}

// problemOf reads the body of a problem, and holds it to RFC 9457.
func problemOf(t require.TestingT, a edge.Answer) (p problem) {
	require.Equal(t, "application/problem+json", header(a, "Content-Type"), "section 3")
	d := json.NewDecoder(strings.NewReader(a.Body))
	require.NoError(t, d.Decode(&p), a.Body)
	require.Equal(t, a.Status, p.Status, "section 3.1.2: the status of the answer")
	require.Equal(t, "about:blank", p.Type)
	require.NotEmpty(t, p.Title)
	require.Contains(t, reasons(), p.Reason, "reasons are described")
	require.True(t, strings.HasSuffix(p.Detail, "."), p.Detail)
	return p
}

// reasons are those that the description of the API names.
var reasons = sync.OnceValue(func() []string {
	var api struct {
		Components struct {
			Schemas struct {
				Problem struct {
					Properties struct{ Reason struct{ Enum []string } }
				}
			}
		}
	}
	text, err := os.ReadFile(filepath.Join("..", "site", "edge", "openapi.json"))
	if err == nil {
		err = json.Unmarshal(text, &api)
	}
	if err != nil {
		panic(err)
	}
	return api.Components.Schemas.Problem.Properties.Reason.Enum
})

func demo() string { return string(design.WriteFile(design.Demo())) }

func TestCheckAnswersWithTheReport(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		a := store{}.serve(post("/api/check", string(design.WriteFile(e.Design))))
		assert.Equal(t, 200, a.Status)
		assert.Equal(t, "application/json", header(a, "Content-Type"))
		assert.Equal(t, "*", header(a, "Access-Control-Allow-Origin"))
		r := pipeline.Check(e.Design)
		assert.Equal(t, string(asjson.Indent(asjson.Report(r, r.Work(design.Shelf{})))), a.Body)
	}
}

// A design comes back from its link as it went, from both doors.
func TestLinksKeepDesigns(t *testing.T) {
	t.Parallel()
	there := func(t require.TestingT, d design.Design) {
		s := store{}
		file := string(design.WriteFile(d))
		a := s.serve(post("/api/links", file))
		require.Equal(t, 201, a.Status)
		require.Empty(t, header(a, "Access-Control-Allow-Origin"), "links are made by the site's own pages")
		var made struct{ ID, Link, Design string }
		require.NoError(t, json.Unmarshal([]byte(a.Body), &made))
		require.Equal(t, id, made.ID)
		require.Equal(t, origin+"/l/"+id, made.Link)
		require.Equal(t, origin+header(a, "Location"), made.Design)

		a = s.serve(get("/api/links/" + id))
		require.Equal(t, 200, a.Status)
		require.Equal(t, file, a.Body)

		a = s.serve(get("/l/" + id))
		require.Equal(t, 302, a.Status)
		opened, faults := design.ReadLink(header(a, "Location"))
		require.Empty(t, faults)
		require.Equal(t, file, string(design.WriteFile(opened)))
	}
	for _, e := range design.Examples() {
		there(t, e.Design)
	}
	rapid.Check(t, func(t *rapid.T) {
		if d := designtest.Design(t); len(d.Validate()) == 0 && len(design.WriteLink(d)) <= design.MaxLink && len(design.WriteFile(d)) <= edge.MaxBody {
			there(t, d)
		}
	})
}

// long returns a design that fits into a body and not into a link: names that
// cannot be packed.
func long(t *testing.T) string {
	d := design.Demo()
	for i := range design.MaxPieces - 10 {
		sum := sha512.Sum512([]byte{byte(i)})
		name := hex.EncodeToString(sum[:])[:design.MaxWord]
		d.Run = append(d.Run, design.Piece{Kind: design.Bend, Name: name})
		d.Delivery.Pieces = append(d.Delivery.Pieces, design.Piece{Kind: design.Bend, Name: name[1:] + name[:1]})
	}
	for i := range 200 {
		sum := sha512.Sum512([]byte{byte(i), 1})
		d.Measured = append(d.Measured, design.Measurement{Part: hex.EncodeToString(sum[:])[:design.MaxWord], Length: quantity.MustParse[quantity.Length]("10 mm")})
	}
	var b bytes.Buffer
	require.NoError(t, json.Compact(&b, design.WriteFile(d)))
	require.LessOrEqual(t, b.Len(), edge.MaxBody)
	return b.String()
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	with := func(q edge.Request, change func(*edge.Request)) edge.Request {
		change(&q)
		return q
	}
	for name, test := range map[string]struct {
		asked  edge.Request
		status int
		reason string
	}{
		"nothing there":         {get("/api/nothing"), 404, "unknown-address"},
		"nothing of the site":   {get("/nothing"), 404, "unknown-address"},
		"a list of links":       {get("/api/links/"), 404, "unknown-address"},
		"put on the site":       {edge.Request{Method: "PUT", Path: "/index.html"}, 405, "wrong-method"},
		"get a check":           {get("/api/check"), 405, "wrong-method"},
		"list the links":        {get("/api/links"), 405, "wrong-method"},
		"overwrite a link":      {edge.Request{Method: "PUT", Path: "/api/links/" + id, Type: "application/json", Body: demo()}, 405, "wrong-method"},
		"delete a link":         {edge.Request{Method: "DELETE", Path: "/api/links/" + id}, 405, "wrong-method"},
		"write to a link":       {post("/api/links/"+id, demo()), 405, "wrong-method"},
		"no type":               {with(post("/api/check", demo()), func(q *edge.Request) { q.Type = "" }), 415, "not-json"},
		"a form":                {with(post("/api/links", demo()), func(q *edge.Request) { q.Type = "text/plain" }), 415, "not-json"},
		"packed":                {with(post("/api/check", demo()), func(q *edge.Request) { q.Coding = "gzip" }), 415, "packed"},
		"one byte too many":     {post("/api/check", demo()+strings.Repeat(" ", edge.MaxBody-len(demo())+1)), 413, "too-large"},
		"not UTF-8":             {with(post("/api/check", ""), func(q *edge.Request) { q.Garbled = true }), 400, "not-utf-8"},
		"nothing":               {post("/api/check", ""), 400, "bad-json"},
		"half":                  {post("/api/check", demo()[:100]), 400, "bad-json"},
		"two":                   {post("/api/links", demo()+demo()), 400, "bad-json"},
		"deep":                  {post("/api/check", strings.Repeat("[", 17)+strings.Repeat("]", 17)), 400, "too-deep"},
		"deep objects":          {post("/api/check", strings.Repeat(`{"a":`, 10000)), 400, "too-deep"},
		"a list":                {post("/api/check", "[]"), 422, "not-a-design"},
		"null":                  {post("/api/links", "null"), 422, "not-a-design"},
		"an unknown member":     {post("/api/check", strings.Replace(demo(), "{", `{"__proto__": {},`, 1)), 422, "not-a-design"},
		"an unknown version":    {post("/api/check", `{"drawoff": 2}`), 422, "not-a-design"},
		"no tank":               {post("/api/links", `{"drawoff": 1}`), 422, "not-a-design"},
		"not a length":          {post("/api/check", `{"tank": {"bore": "wide"}}`), 422, "not-a-design"},
		"longer than a link":    {post("/api/links", long(t)), 422, "too-long-for-a-link"},
		"unknown link":          {get("/api/links/" + id), 404, "unknown-link"},
		"unknown link, page":    {get("/l/" + id), 404, "unknown-link"},
		"no link at all":        {get("/l/../../secret"), 404, "unknown-link"},
		"limited":               {with(post("/api/links", demo()), func(q *edge.Request) { q.Came = edge.Limited }), 429, "too-many-links"},
		"cannot be kept":        {with(post("/api/links", demo()), func(q *edge.Request) { q.Came = edge.Failed }), 503, "store-failed"},
		"cannot be got":         {with(get("/api/links/"+id), func(q *edge.Request) { q.Came = edge.Failed }), 503, "store-failed"},
		"cannot be opened":      {with(get("/l/"+id), func(q *edge.Request) { q.Came = edge.Failed }), 503, "store-failed"},
		"kept badly":            {with(get("/api/links/"+id), func(q *edge.Request) { q.Came, q.Kept = edge.Done, "{}" }), 500, "kept-badly"},
		"came what cannot come": {with(post("/api/links", demo()), func(q *edge.Request) { q.Came = "lost" }), 503, "store-failed"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := store{}
			a := s.serve(test.asked)
			assert.Equal(t, test.status, a.Status)
			p := problemOf(t, a)
			assert.Equal(t, test.reason, p.Reason)
			assert.Empty(t, s, "nothing was kept")
			switch a.Status {
			case 405:
				assert.NotEmpty(t, header(a, "Allow"), "RFC 9110 section 15.5.6")
			case 429:
				assert.NotEmpty(t, header(a, "Retry-After"))
			}
			if p.Reason == "not-a-design" {
				require.NotEmpty(t, p.Faults)
				for _, f := range p.Faults {
					assert.NotEmpty(t, f.What)
					assert.NotEmpty(t, f.Hint)
				}
			}
		})
	}
}

// The largest body that is taken is taken.
func TestBodyOfTheMostBytes(t *testing.T) {
	t.Parallel()
	a := store{}.serve(post("/api/check", demo()+strings.Repeat(" ", edge.MaxBody-len(demo()))))
	assert.Equal(t, 200, a.Status)
}

func TestPeopleAreToldInHTML(t *testing.T) {
	t.Parallel()
	q := get("/l/" + id)
	q.Accept = "text/html,application/xhtml+xml,*/*;q=0.8"
	for came, status := range map[edge.Came]int{edge.None: 404, edge.Failed: 503} {
		q.Came = came
		a := edge.Handle(q)
		assert.Equal(t, status, a.Status)
		assert.Equal(t, "text/html; charset=utf-8", header(a, "Content-Type"))
		assert.Contains(t, a.Body, `<a href="/">`)
	}
}

func TestHeadIsGetWithoutABody(t *testing.T) {
	t.Parallel()
	s := store{id: demo()}
	for _, path := range []string{"/api/links/" + id, "/l/" + id, "/api/nothing", "/l/short"} {
		q := get(path)
		want := s.serve(q)
		q.Method = "HEAD"
		got := s.serve(q)
		assert.Empty(t, got.Body)
		assert.Equal(t, want.Status, got.Status)
		assert.Equal(t, want.Headers, got.Headers)
	}
}

func TestOptionsSayWhatMayBeAsked(t *testing.T) {
	t.Parallel()
	for path, want := range map[string]struct{ allow, open string }{
		"/api/check":       {"POST, OPTIONS", "*"},
		"/api/links":       {"POST, OPTIONS", ""},
		"/api/links/" + id: {"GET, HEAD, OPTIONS", "*"},
		"/l/" + id:         {"GET, HEAD, OPTIONS", ""},
	} {
		a := edge.Handle(edge.Request{Method: "OPTIONS", Path: path})
		assert.Equal(t, 204, a.Status)
		assert.Equal(t, want.allow, header(a, "Allow"))
		assert.Equal(t, want.open, header(a, "Access-Control-Allow-Origin"))
	}
}
