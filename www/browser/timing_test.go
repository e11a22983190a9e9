//go:build browser

package browser

import (
	"slices"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// How long an edit takes on a slow phone, as the browser itself times what a
// person does: from the key to the next picture. It is printed for people to
// read, and judged by nobody: it tells as much of the machine as of the page.
func TestEditsAreTimed(t *testing.T) {
	p := openAs(t, look{390, 844, "light"})
	p.until(`document.documentElement.dataset.shop === "idle"`)
	call(p, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4})
	js[bool](p, `(() => {
		window.timed = new Map(); // the longest event of each interaction
		new PerformanceObserver(list => {
			for (const e of list.getEntries()) if (e.interactionId) timed.set(e.interactionId, Math.max(e.duration, timed.get(e.interactionId) || 0));
		}).observe({type: "event", durationThreshold: 16});
		return true;
	})()`)
	tell := func(what string, act func(path string) int) {
		js[bool](p, `(timed.clear(), true)`)
		edits := 0
		for _, path := range []string{"tank.height", "pump.away"} {
			p.unfold(field(path))
			p.do(chromedp.Focus(chromedp.CSS(field(path))))
			edits += act(path)
		}
		times := js[[]float64](p, `[...timed.values()]`)
		require.NotEmpty(t, times, "the browser times nothing")
		for len(times) < edits {
			times = append(times, 16) // what takes less is not reported
		}
		slices.Sort(times)
		at := func(share float64) string {
			return strconv.FormatFloat(times[int(share*float64(len(times)-1))], 'f', 0, 64)
		}
		t.Logf("%s, at a quarter of this machine's speed: %d, median %s ms, 95th percentile %s ms, longest %s ms, in steps of 8 ms", what, len(times), at(0.5), at(0.95), at(1))
	}
	tell("keys typed into a field", func(path string) int {
		text := p.value(path)
		p.do(chromedp.KeyEvent(kb.End))
		p.settled()
		for range text {
			p.do(chromedp.KeyEvent(kb.Backspace))
			p.settled()
		}
		for _, key := range text {
			p.do(chromedp.KeyEvent(string(key)))
			p.settled()
		}
		return 2 * len([]rune(text))
	})
	tell("steps by the arrow keys", func(string) int {
		keys := []string{kb.ArrowUp, kb.ArrowUp, kb.ArrowDown, kb.ArrowUp, kb.ArrowDown, kb.ArrowDown}
		for _, key := range keys {
			p.do(chromedp.KeyEvent(key))
			p.settled()
		}
		return len(keys)
	})
}

// settled waits until all that an edit brings is on the screen, as a person
// does who looks before the next key.
func (p *page) settled() {
	p.t.Helper()
	p.until(`document.documentElement.dataset.shop === "idle"`)
	js[bool](p, `new Promise(done => requestAnimationFrame(() => setTimeout(() => done(true))))`)
}
