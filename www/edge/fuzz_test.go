package edge_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"drawoff/pipeline/design"
	"drawoff/www/edge"

	"github.com/stretchr/testify/require"
)

// Whatever is sent, the answer is one that is described, its headers are
// headers, its body is what its type says, and the worker gets the same answer
// through its door.
func FuzzHandle(f *testing.F) {
	for _, e := range design.Examples() {
		f.Add("POST", "/api/check", "application/json", string(design.WriteFile(e.Design)))
	}
	f.Add("GET", "/l/"+id, "", "")
	f.Add("OPTIONS", "/api/links", "", "")
	f.Add("GET", "/api/links/"+strings.Repeat("é", 11), "", "{}")
	f.Fuzz(func(t *testing.T, method, path, kind, body string) {
		q := edge.Request{Method: method, Path: path, Origin: origin, Type: kind, Body: body, ID: id}
		s := store{}
		a := s.serve(q)
		require.Contains(t, []int{200, 201, 204, 302, 400, 404, 405, 413, 415, 422}, a.Status)
		for _, h := range a.Headers {
			require.NotContains(t, h.Value, "\n")
			require.NotContains(t, h.Value, "\r")
			require.NotEmpty(t, h.Value, h.Name)
		}
		switch kind := header(a, "Content-Type"); {
		case a.Body == "":
		case kind == "application/problem+json":
			problemOf(t, a)
		case kind == "application/json":
			require.True(t, json.Valid([]byte(a.Body)))
		default:
			require.Equal(t, "text/html; charset=utf-8", kind)
		}
		if a.Status == 201 { // what was kept is a design, and comes back
			require.Len(t, s, 1)
			back := s.serve(get("/api/links/" + id))
			require.Equal(t, 200, back.Status)
			require.Equal(t, s[id], back.Body)
		} else {
			require.Empty(t, s)
		}

		request, err := json.Marshal(map[string]any{"method": method, "path": path, "origin": origin, "type": kind, "body": body, "id": id, "garbled": false, "accept": "", "coding": "", "came": "", "kept": ""})
		require.NoError(t, err)
		var door struct {
			Do, Key, Value, Body string
			Status               int
			Headers              map[string]string
		}
		require.NoError(t, json.Unmarshal([]byte(edge.HandleJSON(string(request))), &door))
		// The door carries text: what is not UTF-8 was replaced on the way in.
		text := func(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }
		if !slices.Equal([]string{method, path, kind, body}, []string{text(method), text(path), text(kind), text(body)}) {
			return
		}
		direct := edge.Handle(q)
		require.Equal(t, direct.Status, door.Status)
		require.Equal(t, string(direct.Do), door.Do)
		require.Equal(t, direct.Body, door.Body)
		require.Len(t, door.Headers, len(direct.Headers))
	})
}

func TestTheDoorRefusesWhatIsNoRequest(t *testing.T) {
	t.Parallel()
	for _, text := range []string{``, `[]`, `{`, `{"method":1}`, `{"other":"x"}`, `{"method":"GET"}x`} {
		var a struct{ Status int }
		require.NoError(t, json.Unmarshal([]byte(edge.HandleJSON(text)), &a))
		require.Equal(t, 500, a.Status, text)
	}
}
