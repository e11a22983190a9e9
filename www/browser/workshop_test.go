//go:build browser

package browser

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	cdppage "github.com/chromedp/cdproto/page"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// A page that is left before it was painted keeps what was typed: it may not
// come back.
func TestLastKeystrokeIsKeptWhenThePageIsLeft(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.untilKept(`kept.length === 1`)
	js[bool](p, `(() => {
		const control = document.querySelector(%s);
		control.value = "1234 mm";
		control.dispatchEvent(new Event("input", {bubbles: true}));
		setTimeout(() => location.reload()); // once this is answered
		delete document.documentElement.dataset.ready;
		return true;
	})()`, field("tank.height"))
	p.ready()
	p.untilValue("tank.height", "1234 mm")
}

// A workshop that cannot be had is told, the page lives on, and the next
// change tries again.
func TestWorkshopThatFailsIsTold(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.until(`document.querySelector("#emptying").textContent.includes("the transfer takes")`)
	const module = `document.querySelector("script[data-workshop]").dataset.workshop`
	js[bool](p, `(window.whole = `+module+`, `+module+` = document.querySelector("link[rel=stylesheet]").href, document.querySelector("#stop-finding").click(), true)`)
	p.typed("tank.fill", "800 L")
	p.until(`document.querySelector("#message .fault")?.textContent.includes("tried again at the next change")`)
	p.until(`document.documentElement.dataset.shop === "idle"`)
	p.until(`document.querySelector("#verdicts").textContent.includes("Not worked out yet")`)

	js[bool](p, `(`+module+` = window.whole, true)`)
	p.typed("tank.fill", "700 L")
	p.until(`document.querySelector("#emptying").textContent.includes("700 L")`)
}

// threads notes the threads that a page starts, so that a test can end one.
func (p *page) threads() {
	p.t.Helper()
	call(p, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{
		Source: `window.threads = []; window.Worker = class extends Worker { constructor(...all) { super(...all); threads.push(this); } };`,
	})
}

// dies ends the thread of the page's module, as if the program were gone.
func (p *page) dies() {
	p.t.Helper()
	p.until(`document.documentElement.dataset.shop === "idle"`)
	js[bool](p, `(threads[0].onerror(new Event("error")), true)`)
}

// When the module dies while somebody looks at what was sent to them, their own
// design stays what it was.
func TestModuleThatDiesKeepsOwnAndSentApart(t *testing.T) {
	t.Parallel()
	p := tab(t)
	p.threads()
	p.goTo("")
	p.typed("title", "My own")
	p.untilKept(`kept[0]?.title === "My own"`)
	sent, faults := design.Demo().Apply(design.Edit{Path: "title", Value: "Sent to me"})
	require.Empty(t, faults)
	js[bool](p, `(location.hash = %s, true)`, "#"+design.WriteLink(sent))
	p.until(`"sent" in document.documentElement.dataset`)
	p.dies()
	p.click(`[data-zoom="1.25"]`) // asks something
	p.until(`document.querySelector("#keeping").textContent.includes("started again")`)
	p.answered()
	p.until(`document.querySelector("#sent").textContent.includes("Sent to me")`)
	p.untilKept(`kept.length === 1 && kept[0].title === "My own" && kept[0].text.includes("My own")`)
	p.click("#sent button:last-of-type")
	p.untilValue("title", "My own")
}

// A module that dies is told, started again with the design as it was, and a
// file is offered.
func TestModuleThatDiesIsStartedAgain(t *testing.T) {
	t.Parallel()
	p := tab(t)
	p.threads()
	p.goTo("")
	p.typed("tank.fill", "800 L")
	p.dies()
	p.typed("tank.fill", "700 L")
	p.until(`document.querySelector("#keeping").textContent.includes("started again")`)
	p.answered()
	assert.Equal(t, "700 L", p.value("tank.fill"), "what was typed is not lost")
	assert.Equal(t, "Save it as a file", p.text("#keeping button"))
	dir := t.TempDir()
	downloadTo(p, dir)
	p.click("#keeping button")
	saved := filepath.Join(dir, "plant.drawoff.json")
	require.Eventually(t, func() bool { _, err := os.Stat(saved); return err == nil }, patience, 20*time.Millisecond)
	text, err := os.ReadFile(saved)
	require.NoError(t, err)
	d, faults := design.ReadFile(text)
	require.Empty(t, faults)
	assert.Equal(t, "700 L", d.Tank.Fill.String())

	p.typed("tank.fill", "750 L")
	p.until(`document.querySelector("#emptying").textContent.includes("750 L")`)
}
