//go:build edge

package live

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// patience is how long anything may take before a test gives up on it.
const patience = 2 * time.Minute

// tab opens an empty tab of a browser of its own. Whatever its console
// complains of, a breach of the policy above all, fails the test.
func tab(t *testing.T) context.Context {
	t.Helper()
	program := ""
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			program = found
			break
		}
	}
	require.NotEmpty(t, program, "no Chromium here: install it, or name one in $CHROMIUM")
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))
	allocator, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, cancel := chromedp.NewContext(allocator)
	t.Cleanup(cancel)
	var mu sync.Mutex
	var complaints []string
	require.NoError(t, chromedp.Do(ctx))
	require.NoError(t, chromedp.Listen(ctx, func(event any) {
		mu.Lock()
		defer mu.Unlock()
		switch e := event.(type) {
		case *runtime.EventExceptionThrown:
			complaints = append(complaints, fmt.Sprintf("%+v", e.ExceptionDetails))
		case *log.EventEntryAdded:
			if e.Entry.Level == "error" || e.Entry.Level == "warning" {
				complaints = append(complaints, e.Entry.Text+" "+e.Entry.URL)
			}
		}
	}))
	t.Cleanup(func() {
		mu.Lock()
		defer mu.Unlock()
		assert.Empty(t, complaints, "the console of the browser must stay empty")
	})
	return ctx
}

func until(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	limited, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	_, err := chromedp.Run(limited, chromedp.Poll[bool](expression, chromedp.WithPollingTimeout(patience)))
	for err != nil && limited.Err() == nil && strings.Contains(err.Error(), "Cannot find context") {
		_, err = chromedp.Run(limited, chromedp.Poll[bool](expression, chromedp.WithPollingTimeout(patience))) // a navigation took the document away
	}
	require.NoErrorf(t, err, "waited for %s", expression)
}

func js[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	limited, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	value, err := chromedp.Run(limited, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	return value
}

// The page works under the worker's policy: its module, its workshop, its
// drawings, files and catalogue. The report that it gives is the terminal's,
// and a design that was saved comes back from its short link unchanged.
func TestThePageUnderThePolicy(t *testing.T) {
	w := start(t, t.TempDir())
	ctx := tab(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(w.address+"/")))
	until(t, ctx, `document.documentElement.dataset.ready === "true"`)
	until(t, ctx, `document.documentElement.dataset.shop === "idle" && document.querySelector('button[data-file="report.json"]') !== null`)
	js[bool](t, ctx, `(() => {
		const make = URL.createObjectURL;
		URL.createObjectURL = (blob) => { blob.text().then((text) => { window.saved = text; }); return make(blob); };
		return true;
	})()`)
	save := func(selector, begins string) string {
		js[bool](t, ctx, `(window.saved = undefined, document.querySelector('`+selector+`').click(), true)`)
		until(t, ctx, `window.saved?.startsWith(`+begins+`)`)
		return js[string](t, ctx, `window.saved`)
	}
	assert.True(t, report(t) == save(`button[data-file="report.json"]`, `"{\n  \"drawoff\": 1,\n  \"title\""`), "the page's report is the terminal's")
	assert.Contains(t, save(`button[data-file="templates.pdf"]`, `"%PDF"`), "%%EOF")

	// The sheets to print bring their own style, which the policy lets in.
	assert.Greater(t, js[int](t, ctx, `(() => {
		dispatchEvent(new Event("beforeprint"));
		const rules = document.querySelector("#sheets style").sheet?.cssRules.length ?? 0;
		dispatchEvent(new Event("afterprint"));
		return rules;
	})()`), 3)

	// An edit, so that it is not the demo that comes back.
	js[bool](t, ctx, `(() => {
		const field = document.querySelector('[data-path="title"]');
		field.value = "Ours, <i>not</i> the demo";
		field.dispatchEvent(new Event("input", {bubbles: true}));
		field.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`)
	saved := save(`#save-file`, `"{\n  \"drawoff\": 1"`)
	require.Contains(t, saved, "Ours, <i>")
	m := w.kept(saved, "")
	assert.Equal(t, saved, w.do(ask{path: "/api/links/" + m.ID}).body)
	d, faults := design.ReadFile([]byte(saved))
	require.Empty(t, faults)
	title, err := json.Marshal(d.Title)
	require.NoError(t, err)

	// The page makes one, too.
	until(t, ctx, `document.documentElement.dataset.shop === "idle" && document.getElementById("summary").value.includes("Ours, <i>")`)
	js[bool](t, ctx, `(document.getElementById("short-link").click(), true)`)
	until(t, ctx, `document.getElementById("message").textContent.includes("/l/")`)
	_, short, _ := strings.Cut(js[string](t, ctx, `document.getElementById("message").textContent`), "/l/")
	require.GreaterOrEqual(t, len(short), 22)
	assert.Equal(t, saved, w.do(ask{path: "/api/links/" + short[:22]}).body)

	// In another browser the short link opens the page with it.
	other := tab(t)
	require.NoError(t, chromedp.Do(other, chromedp.Navigate(m.Link)))
	until(t, other, `document.documentElement.dataset.ready === "true"`)
	until(t, other, `document.querySelector('[data-path="title"]')?.value === `+string(title))
	assert.Equal(t, w.address+"/", js[string](t, other, `location.href`))

	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(w.address+"/catalogue.html")))
	until(t, ctx, `document.querySelectorAll("tr").length > 50`)

	// The module for other programs works in a page, too.
	level := js[string](t, ctx, `import("/drawoff.mjs").then((m) => m.open()).then((core) => core.check(`+demo()+`).level)`)
	assert.Contains(t, report(t), `"level": "`+level+`",`)
}
