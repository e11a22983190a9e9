//go:build browser

// Package browser tests the page as people use it: the real site, served from
// a folder deep in some host, in a real browser. It needs Chromium, so it is
// built only with the tag "browser"; make browser runs it.
package browser

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	"drawoff/www/site"
)

// where the site is put on its host: no address in it may start at the root.
const where = "/some/where/"

// patience is how long anything may take before a test gives up on it. It
// decides nothing else: nothing passes for being fast.
const patience = 2 * time.Minute

// late makes what the page waits for come up to so many milliseconds late, each
// by chance: LATE=400 go test -tags=browser ./www/browser. What the page or a
// test takes for done before it is comes out so.
var late = os.Getenv("LATE")

const answersLate = `{
	const late = () => new Promise(on => setTimeout(on, %s * Math.random()));
	const heard = Object.getOwnPropertyDescriptor(Worker.prototype, "onmessage");
	Object.defineProperty(Worker.prototype, "onmessage", {set(hear) {
		let last = Promise.resolve();
		heard.set.call(this, said => { last = last.then(late).then(() => hear.call(this, said)); });
	}});
	const listen = IDBTransaction.prototype.addEventListener;
	IDBTransaction.prototype.addEventListener = function (name, hear, ...more) {
		listen.call(this, name, name === "complete" ? said => late().then(() => hear.call(this, said)) : hear, ...more);
	};
}`

var (
	address string          // of the page
	files   []site.File     // that are served
	chrome  context.Context // the one browser of all tests
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
	var err error
	files, err = site.Build(context.Background())
	if err != nil {
		return 0, err
	}
	mux := http.NewServeMux()
	mux.Handle(where, http.StripPrefix(where[:len(where)-1], site.Handler(files)))
	server := httptest.NewServer(mux)
	defer server.Close()
	address = server.URL + where

	var stop func()
	chrome, stop, err = start()
	if err != nil {
		return 0, err
	}
	defer stop()
	return m.Run(), nil
}

// start starts a browser, with more flags if there are any.
func start(flags ...chromedp.ExecAllocatorOption) (browser context.Context, stop func(), err error) {
	program, err := chromium()
	if err != nil {
		return nil, nil, err
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program),
		chromedp.NoSandbox, // tests run as root in containers, and load only our own page
		chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
	)
	allocator, stop := chromedp.NewExecAllocator(context.Background(), append(options, flags...)...)
	browser, _ = chromedp.NewContext(allocator)
	if err := chromedp.Do(browser); err != nil {
		stop()
		return nil, nil, fmt.Errorf("%s does not start: %w", program, err)
	}
	return browser, stop, nil
}

// chromium finds the browser: $CHROMIUM, or one by a usual name.
func chromium() (string, error) {
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			return found, nil
		}
	}
	return "", fmt.Errorf("no Chromium here: install it (Debian: apt-get install chromium), or name one in $CHROMIUM")
}

// page is a tab of a browser profile.
type page struct {
	t   *testing.T
	ctx context.Context

	mu         sync.Mutex
	complaints []string // of the browser's console
}

// tab opens an empty tab of a fresh profile. Whatever its console complains
// of fails the test.
func tab(t *testing.T) *page {
	t.Helper()
	return tabOf(t, chrome, chromedp.WithNewBrowserContext())
}

// another opens an empty tab of the same profile as p.
func (p *page) another() *page {
	p.t.Helper()
	return tabOf(p.t, p.ctx)
}

func tabOf(t *testing.T, parent context.Context, options ...chromedp.ContextOption) *page {
	t.Helper()
	p := &page{t: t}
	ctx, cancel := chromedp.NewContext(parent, options...)
	t.Cleanup(cancel)
	p.ctx = ctx
	require.NoError(t, chromedp.Listen(ctx, p.hear))
	t.Cleanup(func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		assert.Empty(t, p.complaints, "the console of the browser must stay empty")
	})
	if late != "" {
		call(p, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: fmt.Sprintf(answersLate, late)})
	}
	// A tab in the background counts as the one in use: several tests share a window.
	call(p, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	return p
}

// open opens the page in a fresh profile, with suffix after its address, and
// waits until it can be used.
func open(t *testing.T, suffix string) *page {
	t.Helper()
	p := tab(t)
	p.goTo(suffix)
	return p
}

// goTo loads the page anew with suffix after its address.
func (p *page) goTo(suffix string) {
	p.t.Helper()
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(address+suffix))
	p.ready()
}

// given opens d by a link and makes it the user's own.
func (p *page) given(d design.Design) {
	p.t.Helper()
	p.goTo("#" + design.WriteLink(d))
	p.click("#sent button")
	p.until(`!("sent" in document.documentElement.dataset)`)
}

func (p *page) reload() {
	p.t.Helper()
	p.do(chromedp.Reload())
	p.ready()
}

// ready waits until the module has loaded.
func (p *page) ready() {
	p.t.Helper()
	p.until(`document.documentElement.dataset.ready === "true"`)
}

// hear notes what the console says that it should not.
func (p *page) hear(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		what := e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			what += " " + e.ExceptionDetails.Exception.Description
		}
		p.complaints = append(p.complaints, what)
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "warning" || e.Type == "assert" {
			for _, arg := range e.Args {
				p.complaints = append(p.complaints, string(e.Type)+": "+arg.Description+string(arg.Value))
			}
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			p.complaints = append(p.complaints, string(e.Entry.Level)+": "+e.Entry.Text+" "+e.Entry.URL)
		}
	}
}

// do runs steps in the tab.
func (p *page) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	require.NoError(p.t, chromedp.Do(ctx, steps...))
}

// get runs an action in the tab and returns what it gives.
func get[T any](p *page, action chromedp.Action[T]) T {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	value, err := chromedp.Run(ctx, action)
	require.NoError(p.t, err)
	return value
}

// call runs a command of the browser's protocol in the tab.
func call[P, R any](p *page, command cdp.Command[P, R], params P) R {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	result, err := chromedp.Call(ctx, command, params)
	require.NoError(p.t, err)
	return result
}

// js returns the value of an expression in the page, waiting for a promise.
func js[T any](p *page, format string, args ...any) T {
	p.t.Helper()
	return get(p, chromedp.Evaluate[T](quoted(format, args), chromedp.EvalAwaitPromise))
}

// until waits until an expression in the page is true.
func (p *page) until(format string, args ...any) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	expression := quoted(format, args)
	_, err := chromedp.Run(ctx, chromedp.Poll[bool](expression))
	for err != nil && ctx.Err() == nil && (strings.Contains(err.Error(), "Cannot find context") || strings.Contains(err.Error(), "navigated or closed")) {
		// A navigation took the document away that was asked: the next one answers.
		_, err = chromedp.Run(ctx, chromedp.Poll[bool](expression))
	}
	if err != nil {
		p.keep("waited-"+strings.ReplaceAll(p.t.Name(), "/", "-")+".png", get(p, chromedp.CaptureScreenshot()))
	}
	require.NoErrorf(p.t, err, "waited for %s", expression)
}

// untilKept waits until a condition holds of what the browser keeps: kept, the
// records of its designs, the one that was changed last first.
func (p *page) untilKept(condition string, args ...any) {
	p.t.Helper()
	js[bool](p, `(async () => {
		for (;;) {
			const db = await idb.openDB("drawoff"), kept = (await db.getAll("designs")).sort((a, b) => b.changed - a.changed);
			db.close();
			if (`+condition+`) return true;
			await new Promise(again => setTimeout(again, 20));
		}
	})()`, args...)
}

// quoted puts args into format as strings of JavaScript.
func quoted(format string, args []any) string {
	for i, arg := range args {
		args[i] = strconv.QuoteToASCII(fmt.Sprint(arg))
	}
	if len(args) == 0 {
		return format
	}
	return fmt.Sprintf(format, args...)
}

// unfold opens whatever is folded round what selector finds.
func (p *page) unfold(selector string) {
	p.t.Helper()
	js[bool](p, `(() => {
		for (let d = document.querySelector(%s).closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
		return true;
	})()`, selector)
}

// field is the selector of the form's control for a design path.
func field(path string) string {
	return `:is(input,select,textarea)[data-path="` + path + `"]`
}

// typed puts value into the control for path as if it had been typed.
func (p *page) typed(path, value string) {
	p.t.Helper()
	p.unfold(field(path))
	js[bool](p, `(() => {
		const control = document.querySelector(%s), value = %s;
		control.focus();
		if (control.type === "checkbox") control.checked = value === "true"; else control.value = value;
		control.dispatchEvent(new Event("input", {bubbles: true}));
		control.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, field(path), value)
	p.answered()
}

// value returns what stands in the control for path.
func (p *page) value(path string) string {
	p.t.Helper()
	return js[string](p, `document.querySelector(%s).value`, field(path))
}

// untilValue waits until value stands in the control for path.
func (p *page) untilValue(path, value string) {
	p.t.Helper()
	p.until(`document.querySelector(%s)?.value === %s`, field(path), value)
}

// text returns the text of the first element that selector finds.
func (p *page) text(selector string) string {
	p.t.Helper()
	return js[string](p, `document.querySelector(%s).textContent`, selector)
}

// click clicks as a script does, wherever the element is on the page.
func (p *page) click(selector string) {
	p.t.Helper()
	js[bool](p, `(document.querySelector(%s).click(), true)`, selector)
	p.answered()
}

// answered waits until the module has answered all that it was asked.
func (p *page) answered() {
	p.t.Helper()
	p.until(`!("asking" in document.documentElement.dataset)`)
}

// act presses one of the buttons of a piece.
func (p *page) act(act, path string) {
	p.t.Helper()
	p.click(`button[data-act="` + act + `"][data-path="` + path + `"]`)
}

// choose puts a piece of kind before path.
func (p *page) choose(path, kind string) {
	p.t.Helper()
	js[bool](p, `(() => {
		const add = document.querySelector(%s);
		add.value = %s;
		add.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, `select[data-add="`+path+`"]`, kind)
	p.answered()
}

// example opens one of the examples.
func (p *page) example(name string) {
	p.t.Helper()
	js[bool](p, `(() => {
		const list = document.getElementById("examples");
		list.value = Array.from(list.options).find(o => o.textContent.includes(%s)).value;
		list.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, name)
}

// keep writes data to name in $SCREENSHOTS, if that is set.
func (p *page) keep(name string, data []byte) {
	p.t.Helper()
	dir := os.Getenv("SCREENSHOTS")
	if dir == "" {
		return
	}
	require.NoError(p.t, os.MkdirAll(dir, 0o755))
	require.NoError(p.t, os.WriteFile(filepath.Join(dir, name), data, 0o644))
}
