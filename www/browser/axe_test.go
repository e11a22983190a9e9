//go:build browser

package browser

import (
	"os"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// axe is what axe-core 4.14.1 finds against WCAG 2.2 and its own list of good
// practice: the rule, what it is about and where.
const axe = `(async () => {
	const {violations, passes} = await axe.run(%s, {resultTypes: ["violations"]});
	return {passed: passes.length, found: violations.map(v => v.id + ": " + v.help + " " +
		v.nodes.slice(0, 6).map(n => n.target.join(" ") + " | " + n.html.slice(0, 160) + " | " + [...n.any, ...n.all, ...n.none].map(c => c.message).join("; ").slice(0, 300)).join("\n    ") +
		(v.nodes.length > 6 ? "\n    and " + (v.nodes.length - 6) + " more" : ""))};
})()`

// withAxe brings axe-core into the tab.
func (p *page) withAxe() {
	p.t.Helper()
	source, err := os.ReadFile("../../.ci/axe/node_modules/axe-core/axe.min.js")
	require.NoError(p.t, err, "axe-core is not installed: make browser does it")
	p.do(chromedp.Evaluate[chromedp.Void](string(source)))
}

// holds checks that axe-core finds nothing wrong within what a selector finds.
func (p *page) holds(view, selector string) {
	p.t.Helper()
	got := js[struct {
		Passed int
		Found  []string
	}](p, axe, selector)
	assert.Emptyf(p.t, got.Found, "%s", view)
	assert.Greaterf(p.t, got.Passed, 10, "%s: axe-core has hardly anything to look at", view)
}

// everyLook is by day and by night, in the colours that somebody has forced
// on every page, on a phone, and at 200 % on a screen that is 1280 px wide.
var everyLook = []look{{1280, 900, "light"}, {1280, 900, "dark"}, {1280, 900, "forced"}, {390, 844, "dark"}, {640, 450, "light"}}

// Nothing stands in the way of somebody who sees, hears or moves otherwise, as
// far as a machine can tell: on every view, with everything open.
func TestEveryone(t *testing.T) {
	t.Parallel()
	for _, l := range everyLook {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.withAxe()
			p.until(`document.documentElement.dataset.shop === "idle" && document.querySelector("#keep-a") !== null`)
			p.holds("as it opens", "html")

			p.typed("tank.bore", "wide") // told beside its field
			p.click("#keep-a")
			p.typed("stand.height", "700 mm")
			p.shows("#compare", "700 mm")
			js[bool](p, `(() => {
				for (const [id, value] of [["whatif-move", "liquid.temperature"], ["whatif-watch", "suction-head-available-lowest"]]) {
					const select = document.getElementById(id);
					select.value = value;
					select.dispatchEvent(new Event("change", {bubbles: true}));
				}
				return true;
			})()`)
			p.until(`document.querySelector("#whatif-at") !== null && document.documentElement.dataset.shop === "idle"`)
			p.openAll()
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			p.holds("with everything open", "html")

			p.click("#own-open")
			p.until(`document.querySelector("#own").open`)
			p.keep("everyone-own-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.holds("to start one's own", "#own")
			p.click("#own-cancel")
			p.click("#history")
			p.until(`document.getElementById("history-dialog").open`)
			p.holds("the history", "#history-dialog")
			p.click("#history-dialog form button")
			p.click("#designs")
			p.until(`document.querySelector(".designs > li svg") !== null`)
			p.keep("everyone-designs-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.holds("the designs", "#designs-dialog")

			p.goTo("#" + design.WriteLink(sentPlant()))
			p.until(isSent + ` && document.documentElement.dataset.shop === "idle"`)
			p.openAll()
			p.withAxe()
			p.holds("a plant that was sent", "html")

			p.do(chromedp.Navigate(address + "catalogue.html?q=2+inch+rjt"))
			p.until(`document.querySelector("#found .hits") !== null`)
			// Rows of one table look alike: four of each are enough to look at closely.
			js[bool](p, `(document.querySelectorAll("tbody").forEach(b => [...b.rows].slice(4).forEach(r => r.remove())), true)`)
			p.withAxe()
			p.holds("the catalogue", "html")
		})
	}
}
