//go:build edge

package live

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	"drawoff/www/edge"
)

// as asks and holds question and answer against the API's description.
func (w *worker) as(a ask) answer {
	w.t.Helper()
	got := w.do(a)
	v, err := described()
	require.NoError(w.t, err)
	if a.method == "" {
		a.method = "GET"
	}
	request, err := http.NewRequest(a.method, a.path, strings.NewReader(a.body))
	require.NoError(w.t, err)
	if a.kind != "" {
		request.Header.Set("Content-Type", a.kind)
	}
	if got.status < 400 {
		ok, wrong := v.ValidateHttpRequest(request)
		for _, e := range wrong {
			w.t.Errorf("%s %s: the question: %s: %s", a.method, a.path, e.Message, e.Reason)
		}
		require.True(w.t, ok)
	}
	ok, wrong := v.ValidateHttpResponse(request, &http.Response{StatusCode: got.status, Header: got.header, Body: io.NopCloser(strings.NewReader(got.body))})
	for _, e := range wrong {
		w.t.Errorf("%s %s: the answer %d: %s: %s", a.method, a.path, got.status, e.Message, e.Reason)
	}
	require.True(w.t, ok)
	return got
}

type made struct{ ID, Link, Design string }

// kept keeps a design and returns what was answered.
func (w *worker) kept(body, client string) made {
	w.t.Helper()
	q := post("/api/links", body)
	q.client = client
	got := w.as(q)
	require.Equal(w.t, 201, got.status, got.body)
	var m made
	require.NoError(w.t, json.Unmarshal([]byte(got.body), &m))
	assert.Regexp(w.t, `^[A-Za-z0-9_-]{22}$`, m.ID)
	assert.Equal(w.t, w.address+"/l/"+m.ID, m.Link)
	assert.Equal(w.t, w.address+got.header.Get("Location"), m.Design)
	return m
}

func TestEveryRoute(t *testing.T) {
	w := start(t, t.TempDir())
	checked := w.as(post("/api/check", demo()))
	assert.Equal(t, 200, checked.status)
	assert.Equal(t, report(t), checked.body)
	assert.Equal(t, "*", checked.header.Get("Access-Control-Allow-Origin"))

	m := w.kept(demo(), "")
	given := w.as(ask{path: "/api/links/" + m.ID})
	assert.Equal(t, 200, given.status)
	assert.Equal(t, demo(), given.body)
	assert.Equal(t, "*", given.header.Get("Access-Control-Allow-Origin"))

	opened := w.as(ask{path: "/l/" + m.ID})
	assert.Equal(t, 302, opened.status)
	d, faults := design.ReadLink(opened.header.Get("Location"))
	require.Empty(t, faults)
	assert.Equal(t, demo(), string(design.WriteFile(d)))

	for path, allow := range map[string]string{"/api/check": "POST, OPTIONS", "/api/links": "POST, OPTIONS", "/api/links/" + m.ID: "GET, HEAD, OPTIONS", "/l/" + m.ID: "GET, HEAD, OPTIONS"} {
		may := w.as(ask{method: "OPTIONS", path: path, header: map[string]string{"Origin": "https://example.org", "Access-Control-Request-Method": "POST"}})
		assert.Equal(t, 204, may.status)
		assert.Equal(t, allow, may.header.Get("Allow"))
		open := map[bool]string{true: "*"}[path == "/api/check" || strings.HasPrefix(path, "/api/links/")]
		assert.Equal(t, open, may.header.Get("Access-Control-Allow-Origin"), path)
	}
	for _, path := range []string{"/", "/index.html", "/api/links/" + m.ID, "/l/" + m.ID} {
		got, head := w.do(ask{path: path}), w.do(ask{method: "HEAD", path: path})
		assert.Equal(t, got.status, head.status, path)
		assert.Empty(t, head.body, path)
	}
}

// The site comes as it was built, each file under its own type.
func TestServesTheSite(t *testing.T) {
	w := start(t, t.TempDir())
	types := map[string]string{".html": "text/html", ".css": "text/css", ".js": "text/javascript", ".mjs": "text/javascript", ".wasm": "application/wasm", ".json": "application/json", ".svg": "image/svg+xml", ".png": "image/png", ".webmanifest": "application/manifest+json"}
	entries, err := os.ReadDir(filepath.Join(folder, "site"))
	require.NoError(t, err)
	require.Greater(t, len(entries), 15)
	for _, entry := range entries {
		want, err := os.ReadFile(filepath.Join(folder, "site", entry.Name()))
		require.NoError(t, err)
		got := w.do(ask{path: "/" + entry.Name()})
		assert.Equal(t, 200, got.status, entry.Name())
		assert.True(t, string(want) == got.body, "%s came changed", entry.Name())
		if kind := types[filepath.Ext(entry.Name())]; kind != "" {
			assert.True(t, strings.HasPrefix(got.header.Get("Content-Type"), kind), "%s: %s", entry.Name(), got.header.Get("Content-Type"))
		}
		again := w.do(ask{path: "/" + entry.Name(), header: map[string]string{"If-None-Match": got.header.Get("ETag")}})
		assert.Equal(t, 304, again.status, entry.Name())
	}
	assert.Equal(t, w.do(ask{path: "/index.html"}).body, w.do(ask{path: "/"}).body)
}

func TestEveryRefusal(t *testing.T) {
	w := start(t, t.TempDir())
	const nobody = "AAAAAAAAAAAAAAAAAAAAAA"
	spaces := func(n int) string { return strings.Repeat(" ", n) }
	for name, test := range map[string]struct {
		asked  ask
		status int
		reason string
	}{
		"nothing there":                {ask{path: "/api/nothing"}, 404, "unknown-address"},
		"no file":                      {ask{path: "/nothing.html"}, 404, "unknown-address"},
		"a file of the host":           {ask{path: "/..%2f..%2fetc/passwd"}, 404, "unknown-address"},
		"the worker's source":          {ask{path: "/worker/worker.js"}, 404, "unknown-address"},
		"the marker":                   {ask{path: "/.drawoff-site"}, 404, "unknown-address"},
		"the API's root":               {ask{path: "/api/"}, 404, "unknown-address"},
		"a list":                       {ask{path: "/api/links/"}, 404, "unknown-address"},
		"a list, by method":            {ask{path: "/api/links"}, 405, "wrong-method"},
		"a query for a list":           {ask{path: "/api/links?prefix="}, 405, "wrong-method"},
		"overwrite":                    {ask{method: "PUT", path: "/api/links/" + nobody, kind: "application/json", body: demo()}, 405, "wrong-method"},
		"change":                       {ask{method: "PATCH", path: "/api/links/" + nobody, kind: "application/json", body: "{}"}, 405, "wrong-method"},
		"delete":                       {ask{method: "DELETE", path: "/api/links/" + nobody}, 405, "wrong-method"},
		"write to the site":            {ask{method: "PUT", path: "/index.html", body: "x"}, 405, "wrong-method"},
		"post to the page":             {post("/", demo()), 405, "wrong-method"},
		"get a check":                  {ask{path: "/api/check"}, 405, "wrong-method"},
		"no type":                      {ask{method: "POST", path: "/api/check", body: demo()}, 415, "not-json"},
		"a form":                       {ask{method: "POST", path: "/api/links", kind: "application/x-www-form-urlencoded", body: demo()}, 415, "not-json"},
		"packed":                       {ask{method: "POST", path: "/api/check", kind: "application/json", body: packed(demo()), header: map[string]string{"Content-Encoding": "gzip"}}, 415, "packed"},
		"one byte too many":            {post("/api/check", demo()+spaces(edge.MaxBody-len(demo())+1)), 413, "too-large"},
		"far too many":                 {post("/api/links", demo()+spaces(5*edge.MaxBody)), 413, "too-large"},
		"too many, cut in a character": {post("/api/check", strings.Repeat("½", edge.MaxBody)), 413, "too-large"},
		"not UTF-8":                    {post("/api/check", "{\"title\": \"\xff\"}"), 400, "not-utf-8"},
		"nothing":                      {post("/api/check", ""), 400, "bad-json"},
		"half":                         {post("/api/links", demo()[:200]), 400, "bad-json"},
		"deep":                         {post("/api/check", strings.Repeat(`{"tank":`, 7000)), 400, "too-deep"},
		"deep lists":                   {post("/api/links", strings.Repeat("[", edge.MaxBody)), 400, "too-deep"},
		"no design":                    {post("/api/check", `[1, 2]`), 422, "not-a-design"},
		"no tank":                      {post("/api/links", `{"drawoff": 1}`), 422, "not-a-design"},
		"unknown member":               {post("/api/check", `{"__proto__": {}}`), 422, "not-a-design"},
		"unknown id":                   {ask{path: "/api/links/" + nobody}, 404, "unknown-link"},
		"unknown id, opened":           {ask{path: "/l/" + nobody}, 404, "unknown-link"},
		"no id":                        {ask{path: "/l/short"}, 404, "unknown-link"},
	} {
		t.Run(name, func(t *testing.T) {
			w := &worker{t: t, address: w.address}
			known := test.reason != "unknown-address" && test.reason != "wrong-method" && name != "no id"
			got := answer{}
			if known {
				got = w.as(test.asked)
			} else {
				got = w.do(test.asked)
			}
			assert.Equal(t, test.status, got.status)
			var p struct {
				Status         int
				Reason, Detail string
			}
			require.NoError(t, json.Unmarshal([]byte(got.body), &p), got.body)
			assert.Equal(t, test.status, p.Status)
			assert.Equal(t, test.reason, p.Reason)
			if test.status == 405 {
				assert.NotEmpty(t, got.header.Get("Allow"))
			}
		})
	}
	assert.Equal(t, 200, w.do(post("/api/check", demo()+spaces(edge.MaxBody-len(demo())))).status, "the largest that is taken")

	page := w.do(ask{path: "/l/" + nobody, header: map[string]string{"Accept": "text/html"}})
	assert.Equal(t, 404, page.status)
	assert.Contains(t, page.body, "no design under this short link")
}

func packed(s string) string {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	_, _ = z.Write([]byte(s))
	_ = z.Close()
	return b.String()
}

func TestTheStoreIsDown(t *testing.T) {
	w := start(t, t.TempDir(), "broken")
	const some = "AAAAAAAAAAAAAAAAAAAAAA"
	for _, a := range []ask{post("/api/links", demo()), {path: "/api/links/" + some}, {path: "/l/" + some}} {
		got := w.as(a)
		assert.Equal(t, 503, got.status)
		assert.Contains(t, got.body, `"store-failed"`)
	}
	page := w.as(ask{path: "/l/" + some, header: map[string]string{"Accept": "text/html"}})
	assert.Equal(t, 503, page.status)
	assert.Contains(t, page.body, "<h1>Drawoff</h1>")
	assert.Equal(t, 200, w.as(post("/api/check", demo())).status, "checks need no store")
	assert.Equal(t, 200, w.do(ask{path: "/"}).status)
}

// A client writes until it is told to stop, which it is within its twenty of
// a minute, or two times twenty where a minute ends between.
func TestWritesAreLimited(t *testing.T) {
	w := start(t, t.TempDir())
	const most = 20 // of wrangler.json
	limited := func(client func(i int) string) answer {
		for i := range 2*most + 1 {
			q := post("/api/links", demo())
			q.client = client(i)
			if got := w.as(q); got.status != 201 {
				return got
			}
		}
		require.Fail(t, "no limit")
		return answer{}
	}
	got := limited(func(int) string { return "192.0.2.1" })
	require.Equal(t, 429, got.status)
	assert.Contains(t, got.body, `"too-many-links"`)
	assert.Equal(t, "60", got.header.Get("Retry-After"))
	q := post("/api/check", demo())
	q.client = "192.0.2.1"
	assert.Equal(t, 200, w.do(q).status, "checks are not limited")
	q = post("/api/links", demo())
	q.client = "192.0.2.2"
	assert.Equal(t, 201, w.do(q).status, "nor is another client")

	got = limited(func(i int) string { return fmt.Sprintf("2001:db8:1:2:3:4:5:%x", i) })
	assert.Equal(t, 429, got.status, "one client of IPv6 under many addresses")
}

// Many write at once, each their own design, and each gets their own back,
// also after the worker was ended and started again.
func TestConcurrentWritersAndRestarts(t *testing.T) {
	store := t.TempDir()
	w := start(t, store)
	const writers, each = 12, 5
	designs := make([][]string, writers)
	links := make([][]made, writers)
	var all sync.WaitGroup
	for i := range writers {
		designs[i] = make([]string, each)
		links[i] = make([]made, each)
		for k := range each {
			d := design.Demo()
			d.Title = fmt.Sprintf("Writer %d, plant %d <b>&\"\u2028½", i, k)
			designs[i][k] = string(design.WriteFile(d))
		}
		all.Go(func() {
			for k := range each {
				q := post("/api/links", designs[i][k])
				q.client = fmt.Sprintf("192.0.2.%d", i+1)
				got, err := w.try(q)
				if err == nil {
					_ = json.Unmarshal([]byte(got.body), &links[i][k]) // an empty one is found out below
				}
			}
		})
	}
	all.Wait()
	seen := map[string]bool{}
	look := func(w *worker) {
		for i := range writers {
			for k := range each {
				require.NotEmpty(t, links[i][k].ID)
				seen[links[i][k].ID] = true
				assert.Equal(t, designs[i][k], w.do(ask{path: "/api/links/" + links[i][k].ID}).body)
			}
		}
	}
	look(w)
	assert.Len(t, seen, writers*each, "no two links are the same")
	w.stop()
	again := start(t, store)
	look(again)
	assert.Equal(t, 302, again.do(ask{path: "/l/" + links[0][0].ID}).status)
}

// Worker and terminal give the same bytes for every design of testdata.
func TestSameBytesAsTheTerminal(t *testing.T) {
	w := start(t, t.TempDir())
	program := filepath.Join(t.TempDir(), "drawoff")
	build := exec.Command("go", "build", "-o", program, ".")
	build.Dir = root
	out, err := build.CombinedOutput()
	require.NoError(t, err, "%s", out)
	files, err := filepath.Glob(filepath.Join(root, "testdata", "*.json"))
	require.NoError(t, err)
	count := 0
	for _, file := range files {
		if strings.HasSuffix(file, ".schema.json") {
			continue
		}
		count++
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		terminal, _ := exec.Command(program, "check", "-json", file).Output() // it ends with 1 where something says stop
		require.NotEmpty(t, terminal)
		got := w.as(post("/api/check", string(text)))
		assert.Equal(t, 200, got.status)
		assert.True(t, string(terminal) == got.body, "%s: the reports differ", file)
		assert.True(t, string(terminal) == asModule(t, file), "%s: the module for other programs differs", file)
	}
	assert.Equal(t, len(design.Examples()), count)
}

// What is hostile in the corpus of package edge gets an answer of the API.
func TestHostileBodies(t *testing.T) {
	w := start(t, t.TempDir())
	files, err := filepath.Glob(filepath.Join("..", "testdata", "fuzz", "FuzzHandle", "*"))
	require.NoError(t, err)
	require.Greater(t, len(files), 30)
	for _, file := range files {
		method, path, kind, body := corpus(t, file)
		if method != "POST" || kind != "application/json" {
			continue // no client of HTTP sends the others
		}
		got := w.as(ask{method: method, path: path, kind: kind, body: body})
		assert.Contains(t, []int{400, 422}, got.status, file)
		assert.NotContains(t, got.header, "Set-Cookie")
	}
	assert.Equal(t, 200, w.do(post("/api/check", demo())).status, "it lives")
}

// The memory of the runtime does not grow with the number of checks. What the
// module has grows to what one check needs and stays; the runtime's own heap
// takes thousands of requests to settle, so it is held to what would show if a
// sixth of the reports were kept. Seen once over 3300 checks by the runtime's
// inspector: the worker's heap fell back to 2.3 and 3.5 MB at its collections,
// the module kept its 13 MB, and the process still grew, by 21 kB a check at
// first and by some 8 kB at the end, outside of the worker's own heap.
func TestAThousandChecks(t *testing.T) {
	w := start(t, t.TempDir())
	runtime := child(t, w.process.Process.Pid)
	want := report(t)
	checks := func(n int) {
		for range n {
			got, err := w.try(post("/api/check", demo()))
			require.NoError(t, err)
			require.Equal(t, 200, got.status)
			require.True(t, got.body == want)
		}
	}
	checks(300)
	before := memory(t, runtime)
	checks(1000)
	after := memory(t, runtime)
	t.Logf("the runtime takes %d kB after 300 checks, %d kB after 1300", before, after)
	assert.Less(t, after-before, 1000*len(want)/1024/6)
}

// The module's own memory, which never shrinks, stays as it is but for gaps
// between what is in it: by a fiftieth of what the checks write.
func TestTheModuleKeepsNothing(t *testing.T) {
	out, err := node(t, `
		import { readFileSync } from "node:fs";
		await import(process.argv[2] + "/worker/wasm_exec.js");
		const go = new Go();
		const { instance } = await WebAssembly.instantiate(readFileSync(process.argv[2] + "/worker/edge.wasm"), go.importObject);
		go.run(instance);
		const request = JSON.stringify({ method: "POST", path: "/api/check", type: "application/json", body: process.argv[3] });
		const size = (n) => {
			for (let i = 0; i < n; i++) if (JSON.parse(globalThis.drawoff(request)).status !== 200) throw new Error("a check failed");
			return instance.exports.mem.buffer.byteLength;
		};
		const before = size(100), after = size(400);
		if (after - before > 1e6) throw new Error("it grew from " + before + " to " + after + " bytes");`, absolute(t, folder), demo())
	require.NoError(t, err, out)
}

// What is put on the platform stays under its limit for a worker, 3 MB packed
// by gzip on the free plan (from memory).
func TestTheWorkerIsSmallEnough(t *testing.T) {
	total := 0
	for _, name := range []string{"worker.js", "wasm_exec.js", "edge.wasm"} {
		text, err := os.ReadFile(filepath.Join(folder, "worker", name))
		require.NoError(t, err)
		total += len(packed(string(text)))
	}
	t.Logf("%d bytes packed", total)
	assert.Less(t, total, 3_000_000)
}
