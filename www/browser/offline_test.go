//go:build browser

package browser

import (
	"context"
	"net/http"
	"net/http/httptest"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	"drawoff/www/site"
)

// host serves a site of its own, whose files can be changed and which can go away.
func host(t *testing.T) (where string, serve func([]site.File), cut func()) {
	var handler atomic.Value
	serve = func(files []site.File) { handler.Store(site.Handler(files)) }
	serve(files)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		handler.Load().(http.Handler).ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL + "/", serve, func() {
		server.CloseClientConnections()
		server.Close()
	}
}

// With the host gone the page opens, keeps what was typed, answers, has its
// workshop, its examples and its catalogue.
func TestWorksWithoutNetwork(t *testing.T) {
	t.Parallel()
	at, _, cut := host(t)
	p := tab(t)
	p.do(chromedp.Navigate(at))
	p.ready()
	p.typed("title", "in the shed")
	p.until(`document.documentElement.dataset.kept === "true"`)
	p.untilKept(`kept[0]?.text.includes("in the shed")`)
	cut()
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(at))
	p.ready()
	assert.Equal(t, "in the shed", p.value("title"))
	p.shows("#emptying", "drawn off")
	for _, e := range design.Examples() {
		p.example(e.Name)
		p.untilValue("title", e.Design.Title)
	}
	p.do(chromedp.Navigate(at + "catalogue.html?q=seal"))
	p.until(`document.querySelector("#found").textContent !== ""`)
}

// A new version waits until it is taken; then it is the one that runs, and
// the design is as it was.
func TestNewVersionAsks(t *testing.T) {
	t.Parallel()
	at, serve, _ := host(t)
	p := tab(t)
	p.do(chromedp.Navigate(at))
	p.ready()
	p.until(`document.documentElement.dataset.kept === "true"`)

	newer := slices.Clone(files)
	for i, f := range newer {
		switch f.Name {
		case site.Offline:
			newer[i].Body = []byte("const newer = true;\n" + string(f.Body[:len("const unit = {")]) + `"files":["./"],"version":"newer"};` + "\n" + string(f.Body[slices.Index(f.Body, '\n')+1:]))
		case site.Index:
			newer[i].Body = []byte(string(f.Body) + "<!-- --><p id=newer>newer</p>")
		}
	}
	serve(newer)
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(at))
	p.ready()
	p.shows("#version", "A new version")
	assert.False(t, js[bool](p, `document.querySelector("#newer") !== null`), "not before it is taken")
	p.typed("title", "half way through")
	p.untilKept(`kept[0]?.text.includes("half way")`)
	p.click("#version button")
	// The page goes away under whoever waits in it.
	const arrived = `document.querySelector("#newer") !== null && document.documentElement.dataset.ready === "true"`
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	for there := false; !there; {
		there, _ = chromedp.Run(ctx, chromedp.Poll[bool](arrived))
		require.NoError(t, ctx.Err(), "the new version did not come")
	}
	assert.Equal(t, "half way through", p.value("title"))
}
