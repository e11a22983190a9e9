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
func host(t *testing.T) (at string, serve func([]site.File), cut func()) {
	var handler atomic.Value
	serve = func(files []site.File) { handler.Store(http.StripPrefix(where[:len(where)-1], site.Handler(files))) }
	serve(files)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		handler.Load().(http.Handler).ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL + where, serve, func() {
		server.CloseClientConnections()
		server.Close()
	}
}

// With the host gone the page opens, keeps what was typed, answers, has its
// workshop, its lists, its examples, its sheets and its catalogue with the search.
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
	p.typed("tank.height", "1.9 m")
	p.click("#history")
	p.shows("#history-list", "Straight side")
	p.click("#history-dialog button")
	p.click("#designs")
	p.shows("#designs-list", "in the shed")
	p.click("#designs-dialog form button")
	p.until(`document.documentElement.dataset.shop === "idle"`)
	js[bool](p, `(window.print = () => { dispatchEvent(new Event("beforeprint")); window.printed = document.querySelector("#sheets").textContent; }, document.querySelector("#print-sheet").click(), true)`)
	p.until(`window.printed?.includes("in the shed")`)
	for _, e := range design.Examples() {
		p.example(e.Name)
		p.untilValue("title", e.Design.Title)
	}
	p.do(chromedp.Navigate(at + "catalogue.html?q=seal"))
	p.until(`document.querySelector("#found .hits a") !== null`)
	p.do(chromedp.Navigate(js[string](p, `document.querySelector(".back").href`)))
	p.ready()
}

// A new version waits until it is taken; then it is the one that runs, and
// the design is as it was, with what was entered half.
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
	const half = "nine hundred mi"
	p.unfold(field("tank.bore"))
	p.do(chromedp.Focus(chromedp.CSS(field("tank.bore"))), chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)), chromedp.KeyEvent(half))
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
	assert.Equal(t, half, p.value("tank.bore"))
	p.shows("#pending", "1 entry not taken yet")
}
