//go:build edge

// Package live tests the edge worker as it will run: the files that build
// -edge writes, in the platform's own runtime on this machine, asked over
// HTTP. It needs Node, the packages of .ci/edge and Chromium, so it is built
// only with the tag "edge"; make edge runs it.
package live

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/www/edge"
	"drawoff/www/site"
)

const root = "../../.."

var (
	tools  = filepath.Join(root, ".ci", "edge")
	folder string // what build -edge writes
)

func TestMain(m *testing.M) {
	code, err := run(m)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		code = 1
	}
	os.Exit(code)
}

func run(m *testing.M) (int, error) {
	if _, err := os.Stat(filepath.Join(tools, "node_modules", "miniflare")); err != nil {
		return 0, errors.New("the packages of .ci/edge are not installed: make edge does it")
	}
	var err error
	folder, err = os.MkdirTemp("", "drawoff-edge-")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(folder)
	files, err := site.Build(context.Background())
	if err == nil {
		files, err = site.Worker(context.Background(), files)
	}
	if err == nil {
		err = site.WritePlain(folder, files)
	}
	if err != nil {
		return 0, err
	}
	return m.Run(), nil
}

// worker is the worker, running.
type worker struct {
	t       testing.TB
	address string // without a slash at its end
	process *exec.Cmd
	stop    func()
}

// start starts the worker with its links in the folder store. With "broken"
// the store never answers.
func start(t testing.TB, store string, how ...string) *worker {
	t.Helper()
	w := &worker{t: t, process: exec.Command("node", append([]string{filepath.Join(tools, "serve.mjs"), folder, store}, how...)...)}
	var complaints bytes.Buffer
	w.process.Stderr = &complaints
	in, err := w.process.StdinPipe()
	require.NoError(t, err)
	out, err := w.process.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, w.process.Start())
	stopped := false
	w.stop = func() {
		if !stopped {
			stopped = true
			_ = in.Close()
			_ = w.process.Wait()
		}
	}
	t.Cleanup(w.stop)
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err, "%s", &complaints)
	go io.Copy(io.Discard, out) // a full pipe would stop it
	w.address = strings.TrimSuffix(strings.TrimSpace(line), "/")
	return w
}

// ask is one request: everything beside the address may be left out.
type ask struct {
	method, path, kind, body string
	header                   map[string]string
	client                   string // its address, as the platform tells it
}

type answer struct {
	status int
	header http.Header
	body   string
}

// client follows no redirect: what the worker says is looked at.
var client = &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}

// do asks, and holds the answer to what is true of all of them.
func (w *worker) do(a ask) answer {
	w.t.Helper()
	got, err := w.try(a)
	require.NoError(w.t, err)
	for name, want := range map[string]string{
		"X-Content-Type-Options": "nosniff",
		"Referrer-Policy":        "no-referrer",
	} {
		assert.Equal(w.t, want, got.header.Get(name), "%s %s: %s", a.method, a.path, name)
	}
	policy := got.header.Get("Content-Security-Policy")
	assert.Contains(w.t, policy, "frame-ancestors 'none'")
	assert.Contains(w.t, policy, "default-src 'none'")
	assert.Contains(w.t, policy, "script-src 'self' 'wasm-unsafe-eval';")
	assert.NotContains(w.t, policy, "'unsafe-eval'")
	if got.status >= 400 && a.method != "HEAD" && !strings.HasPrefix(got.header.Get("Content-Type"), "text/html") {
		assert.Equal(w.t, "application/problem+json", got.header.Get("Content-Type"), "%s %s", a.method, a.path)
	}
	return got
}

func (w *worker) try(a ask) (answer, error) {
	if a.method == "" {
		a.method = "GET"
	}
	request, err := http.NewRequest(a.method, w.address+a.path, strings.NewReader(a.body))
	if err != nil {
		return answer{}, err
	}
	// What the worker did not read to its end cannot be followed by another request.
	request.Close = len(a.body) > edge.MaxBody
	if a.kind != "" {
		request.Header.Set("Content-Type", a.kind)
	}
	if a.client != "" {
		request.Header.Set("CF-Connecting-IP", a.client)
	}
	for name, value := range a.header {
		request.Header.Set(name, value)
	}
	response, err := client.Do(request)
	if err != nil {
		return answer{}, err
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	return answer{response.StatusCode, response.Header, string(body)}, err
}

func post(path, body string) ask {
	return ask{method: "POST", path: path, kind: "application/json", body: body}
}

func demo() string { return string(design.WriteFile(design.Demo())) }

// report is what the terminal prints with check -json of the demo.
func report(t *testing.T) string {
	t.Helper()
	r := pipeline.Check(design.Demo())
	return string(asjson.Indent(asjson.Report(r, r.Work(design.Shelf{}))))
}
