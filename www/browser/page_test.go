//go:build browser

package browser

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// The regions of the page that a design must fill.
var regions = []string{"drawing", "verdicts", "figures", "parts", "form"}

func TestOpensOnTheDemo(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	demo := design.Demo()
	assert.Equal(t, demo.Title, p.value("title"))
	assert.Equal(t, demo.Tank.Bore.String(), p.value("tank.bore"))
	for _, region := range regions {
		assert.NotEmptyf(t, strings.TrimSpace(p.text("#"+region)), "#%s is empty", region)
	}
	assert.NotContains(t, js[string](p, `document.body.innerText`), "NaN")
}

// The page is there before the module is, and where scripts do not run at all.
func TestReadsWithoutTheModule(t *testing.T) {
	t.Parallel()
	p := tab(t)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(address))
	html := get(p, chromedp.OuterHTML(chromedp.CSS("body")))
	assert.Contains(t, html, design.Demo().Run[0].Name, "the table of its pieces")
	assert.Contains(t, html, "<svg")
}

func TestEditChangesWhatIsSaid(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	before := p.text("#figures")
	p.typed("tank.height", "1.9 m")
	p.until(`document.querySelector("#figures").textContent !== %s`, before)
	p.untilValue("tank.height", "1.9 m")

	p.click("#undo")
	p.until(`document.querySelector("#figures").textContent === %s`, before)
	p.untilValue("tank.height", design.Demo().Tank.Height.String())
	p.click("#redo")
	p.untilValue("tank.height", "1.9 m")
}

func TestWhatCannotBeReadStaysInItsField(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	before := p.text("#figures")
	const wrong = `about 9oo "mm" <b>`
	p.typed("tank.bore", wrong)
	p.until(`document.getElementById("err-tank.bore") !== null`)
	assert.Equal(t, wrong, p.value("tank.bore"), "what was typed is not lost")
	assert.NotEmpty(t, js[string](p, `document.getElementById("err-tank.bore").textContent`))
	assert.Equal(t, "true", js[string](p, `document.querySelector(%s).getAttribute("aria-invalid")`, field("tank.bore")))
	assert.Contains(t, js[string](p, `document.querySelector(%s).getAttribute("aria-describedby")`, field("tank.bore")), "err-tank.bore")
	assert.Equal(t, before, p.text("#figures"), "the figures are those of the last design that could be read")

	p.reload()
	assert.Equal(t, wrong, p.value("tank.bore"), "nor is it lost by loading the page again")

	p.typed("tank.bore", "1 m")
	p.until(`document.getElementById("err-tank.bore") === null`)
	p.untilValue("tank.bore", "1 m")
}

// untilUnder waits until the pieces under the tank, as they are stored, are of
// these kinds.
func (p *page) untilUnder(kinds ...string) {
	p.t.Helper()
	p.untilKept(`(JSON.parse(kept[0].text).design.under ?? []).map(piece => piece.kind).join() === %s`, strings.Join(kinds, ","))
}

func TestPiecesCanBePutMovedSwappedAndTakenOut(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	var demo []string
	for _, piece := range design.Demo().Under {
		demo = append(demo, piece.Kind)
	}
	p.untilUnder(demo...)
	steps := [][]string{demo}
	then := func(change func(kinds []string) []string) {
		t.Helper()
		steps = append(steps, change(slices.Clone(steps[len(steps)-1])))
		p.untilUnder(steps[len(steps)-1]...)
	}
	swap := func(kinds []string) []string { kinds[0], kinds[1] = kinds[1], kinds[0]; return kinds }

	p.choose("under.0", design.Straight)
	then(func(kinds []string) []string { return slices.Insert(kinds, 0, design.Straight) })
	assert.Equal(t, "in-under.0.kind", js[string](p, `document.activeElement.id`), "the new piece is at hand")
	p.act("down", "under.0")
	then(swap)
	p.act("up", "under.1")
	then(swap)
	p.typed("under.0.kind", design.Hose)
	then(func(kinds []string) []string { kinds[0] = design.Hose; return kinds })
	p.act("remove", "under.0")
	then(func(kinds []string) []string { return kinds[1:] })

	for i := len(steps) - 2; i >= 0; i-- {
		p.click("#undo")
		p.untilUnder(steps[i]...)
	}
}

func TestLinkOpensElsewhere(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	allowClipboard(p)
	p.typed("title", "Bottling tank, “north” shed")
	p.typed("tank.height", "1.9 m")
	p.untilValue("tank.height", "1.9 m")
	p.click("#copy-link")
	p.until(`document.querySelector("#message").textContent.trim() !== ""`)
	link := js[string](p, `navigator.clipboard.readText()`)
	require.True(t, strings.HasPrefix(link, address+"#1."), "the link is this page's address and a design: %s", link)
	figures := p.text("#figures")

	other := open(t, strings.TrimPrefix(link, address))
	assert.Equal(t, "Bottling tank, “north” shed", other.value("title"))
	assert.Equal(t, "1.9 m", other.value("tank.height"))
	assert.Equal(t, figures, other.text("#figures"))
}

func TestReloadKeepsTheDesign(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("tank.height", "1.9 m")
	p.typed("note", "two lines\nof a note")
	p.untilKept(`kept[0]?.text.includes("of a note")`)
	p.reload()
	assert.Equal(t, "1.9 m", p.value("tank.height"))
	assert.Equal(t, "two lines\nof a note", p.value("note"))
	p.example("Farm perry")
	p.untilValue("tank.height", design.Demo().Tank.Height.String())
}

func TestFileGoesOutAndComesBack(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	dir := t.TempDir()
	downloadTo(p, dir)
	p.typed("tank.height", "1.9 m")
	p.untilValue("tank.height", "1.9 m")
	p.click("#save-file")
	var files []string
	require.Eventually(t, func() bool {
		files, _ = filepath.Glob(filepath.Join(dir, "*.json"))
		return len(files) == 1
	}, patience, patience/1000, "a file is saved")

	saved, err := os.ReadFile(files[0])
	require.NoError(t, err)
	d, faults := design.ReadFile(saved)
	require.Empty(t, faults, "the command can read it too")
	assert.Equal(t, "1.9 m", d.Tank.Height.String())

	other := open(t, "")
	other.do(chromedp.SetUploadFiles(chromedp.ID("file"), files))
	other.untilValue("tank.height", "1.9 m")
	assert.Equal(t, p.text("#figures"), other.text("#figures"))

	bad := filepath.Join(dir, "bad.json")
	require.NoError(t, os.WriteFile(bad, []byte(`{"tank": {"bore": "wide"}}`), 0o600))
	other.do(chromedp.SetUploadFiles(chromedp.ID("file"), []string{bad}))
	other.until(`document.querySelector("#message").textContent.includes("bore")`)
	assert.Equal(t, "1.9 m", other.value("tank.height"), "what is on the bench stays")
}

func TestBadLinkLeavesTheDesignAlone(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("tank.height", "1.9 m")
	p.untilKept(`kept[0]?.text.includes("1.9 m")`)
	told := func(link string) {
		t.Helper()
		p.until(`document.querySelector("#message").textContent.includes("link")`)
		assert.Equalf(t, "1.9 m", p.value("tank.height"), "after %s", link)
	}
	p.goTo("#1.!!!!")
	told("a link opened anew")
	for _, link := range []string{"#1.AAAA", "#99.q1YqSy0qzszPU7JSUAIA", "#1.", "#1", "#1%252EAAAA", "#%31%2EAAAA"} { // pasted over the address of the open page
		js[bool](p, `(document.querySelector("#message").replaceChildren(), location.hash = %s, true)`, link)
		told(link)
	}
}

// TestTimeToPaint prints how long an edit takes until what is in sight shows
// its outcome, and until the whole page does; and what an edit costs the
// page's thread in processor time, which a busy machine does not stretch. It
// is told for a screen of 60 pictures a second, where up to 17 ms of it are
// spent waiting for the next, and for one that waits for nothing, which tells
// of the page alone. It judges nothing: machines differ.
func TestTimeToPaint(t *testing.T) {
	at60, stop, err := start()
	require.NoError(t, err)
	t.Run("60 pictures a second", func(t *testing.T) { timeToPaint(t, at60) })
	stop()
	unlimited, stop, err := start(chromedp.Flag("disable-frame-rate-limit", true), chromedp.Flag("disable-gpu-vsync", true))
	require.NoError(t, err)
	defer stop()
	t.Run("no wait for a picture", func(t *testing.T) { timeToPaint(t, unlimited) })
}

func timeToPaint(t *testing.T, browser context.Context) {
	p := tabOf(t, browser)
	p.goTo("")
	p.until(`document.documentElement.dataset.shop === "idle"`)
	call(p, performance.Enable, performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks})
	used := func() map[string]float64 {
		seconds := map[string]float64{}
		for _, m := range call(p, performance.GetMetrics, cdp.Empty{}).Metrics {
			seconds[m.Name] = m.Value
		}
		return seconds
	}
	before := used()
	const edits = 100 // as below
	times := js[map[string][]float64](p, `(async () => {
		const painted = region => new Promise(resolve => {
			const seen = new MutationObserver(() => {
				seen.disconnect();
				requestAnimationFrame(() => { // a message after a frame begins comes when it is drawn
					const after = new MessageChannel();
					after.port1.onmessage = () => resolve(performance.now());
					after.port2.postMessage(0);
				});
			});
			seen.observe(document.querySelector(region), {childList: true, subtree: true, characterData: true, attributes: true});
		});
		const script = [], sight = [], whole = [];
		for (let i = 0; i < 100; i++) {
			await new Promise(resolve => setTimeout(resolve, 50 + 5 * i %% 17)); // as far apart as quick typing, and anywhere between two pictures
			const control = document.querySelector(%s);
			control.value = (1500 + 5 * i %% 300) + " mm";
			const inSight = painted("#drawing"), all = painted("#figures");
			const start = performance.now();
			control.dispatchEvent(new Event("input", {bubbles: true}));
			script.push(performance.now() - start);
			sight.push(await inSight - start);
			whole.push(await all - start);
		}
		return {script, sight, whole};
	})()`, field("tank.height"))
	after := used()
	for _, what := range []string{"ScriptDuration", "RecalcStyleDuration", "LayoutDuration", "TaskDuration"} {
		t.Logf("%s an edit: %.1f ms of processor", what, 1000*(after[what]-before[what])/edits)
	}
	for _, what := range []string{"script", "sight", "whole"} {
		took := times[what]
		slices.Sort(took)
		require.Len(t, took, edits)
		t.Logf("edit to %s: p50 %.1f ms, p95 %.1f ms, worst %.1f ms", what, took[len(took)/2], took[len(took)*95/100], took[len(took)-1])
	}
}

// profile returns the id of the tab's browser profile.
func profile(p *page) cdp.BrowserContextID { return chromedp.FromContext(p.ctx).BrowserContextID }

func allowClipboard(p *page) {
	p.t.Helper()
	for _, name := range []string{"clipboard-read", "clipboard-write"} {
		_, err := chromedp.CallBrowser(p.ctx, cdpbrowser.SetPermission, cdpbrowser.SetPermissionParams{
			Permission:       &cdpbrowser.PermissionDescriptor{Name: name},
			Setting:          "granted",
			BrowserContextID: profile(p),
		})
		require.NoError(p.t, err)
	}
}

func downloadTo(p *page, dir string) {
	p.t.Helper()
	_, err := chromedp.CallBrowser(p.ctx, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
		Behavior:         "allow",
		BrowserContextID: profile(p),
		DownloadPath:     dir,
	})
	require.NoError(p.t, err)
}
