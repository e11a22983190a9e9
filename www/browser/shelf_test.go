//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
)

// measured types what the caliper says into the field with an id.
func (p *page) measured(id, value string) {
	p.t.Helper()
	js[bool](p, `(() => {
		const control = document.getElementById(%s);
		control.focus();
		control.value = %s;
		control.dispatchEvent(new Event("input", {bubbles: true}));
		control.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, id, value)
}

// shows waits until the element that selector finds holds words.
func (p *page) shows(selector, words string) {
	p.t.Helper()
	p.until(`(document.querySelector(%s)?.textContent ?? "").includes(%s)`, selector, words)
}

// Somebody with a caliper: they leave the height to Drawoff and see the doubt
// about the legs, measure the part that is named first, see the doubt fall,
// start another plant and find what they measured offered there.
func TestMeasuringOnceServesEveryDesign(t *testing.T) {
	t.Parallel()
	const reducer = "bs-4825/2.5in/reducer/1.5in/concentric/length"
	const bend = "bs-4825/1.5in/bend/90/short/centre-to-end"
	p := open(t, "")
	p.typed("stand.height", "")
	p.shows("#figure-leg-length", "±")
	p.shows("#drawing", "±")
	p.shows("#heights", "Measure first: concentric reducer")
	before := p.text("#figure-leg-length .value")

	p.measured("in-measure:"+reducer, "78.5 mm")
	p.until(`document.querySelector("#figure-leg-length .value").textContent !== %s`, before)
	p.shows("#shelf", "78.5 mm")

	// A length that a standard gives is typed at its piece.
	p.measured("in-run.1-measure-"+bend, "85 mm")
	p.shows("#verdicts", "the standard says 63.5 mm, +0.5/-0 mm")
	p.measured("in-run.1-measure-"+bend, "")
	p.until(`!document.querySelector("#verdicts").textContent.includes("the standard says")`)

	p.example("Farm perry")
	p.untilValue("stand.height", design.Demo().Stand.Height.String())
	p.reload()
	use := `#doubts button[data-op="measure"][data-path="` + reducer + `"]`
	p.shows(use, "You measured this as 78.5 mm: use it")
	p.click(use)
	p.until(`document.querySelector(%s) === null`, use)
	p.shows("#doubts", "Measured by you, in this design")
	assert.Equal(t, "78.5 mm", js[string](p, `document.getElementById(%s).value`, "in-measure:"+reducer))

	p.click(`#shelf button[data-op="forget"][data-path="` + reducer + `"]`)
	p.until(`!(localStorage.getItem("drawoff.shelf.1") ?? "").includes(%s)`, reducer)
}

// A street bend is built once, named and kept, and then put in from the list.
func TestStreetBendIsMadeOnce(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.click(`button[data-op="keep"][data-path="run.1"]`)
	p.shows("#message", "Give it a name first")
	assert.Equal(t, "in-run.1.name", js[string](p, `document.activeElement.id`), "the name is at hand")
	p.typed("run.1.name", "street bend")
	p.typed("run.1.in", "ring-joint/liner")
	p.typed("run.1.out", "ring-joint/male")
	p.untilValue("run.1.out", "ring-joint/male")
	p.click(`button[data-op="keep"][data-path="run.1"]`)
	p.shows("#message", "Kept as")
	p.shows("#shelf", "street bend")

	p.example("Farm perry")
	p.untilValue("run.1.name", "")
	p.reload()
	p.choose("run.2", "made:street bend")
	p.untilValue("run.2.name", "street bend")
	p.untilValue("run.2.out", "ring-joint/male")
	p.shows("#parts", "ring joint male part")
}

// What the page looks like with doubts, offers and a shelf that is in use.
func TestLooksOfTheShelf(t *testing.T) {
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			p := openAs(t, l)
			p.typed("stand.height", "")
			p.measured("in-measure:bs-4825/1.5in/butterfly-valve/clamp-ferrule/clamp-ferrule/length", "52 mm")
			p.shows("#shelf", "52 mm")
			p.typed("run.1.name", "street bend")
			p.typed("run.1.in", "ring-joint/liner")
			p.typed("run.1.out", "ring-joint/male")
			p.untilValue("run.1.out", "ring-joint/male")
			p.click(`button[data-op="keep"][data-path="run.1"]`)
			p.shows("#message", "Kept as")
			p.measured("in-measure:bs-4825/1.5in/butterfly-valve/clamp-ferrule/clamp-ferrule/length", "")
			p.shows("#doubts", "You measured this as 52 mm")
			js[bool](p, `(document.querySelectorAll("#card-under\\.1 details, #figure-leg-length").forEach(d => d.open = true), true)`)
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			assert.Empty(t, js[[]string](p, narrow), "too small to touch: under 24 px")
			assert.Empty(t, js[[]string](p, faint), "too faint to read")
			p.keep("shelf-"+l.String()+".png", get(p, chromedp.FullScreenshot(100)))
			for _, id := range []string{"drawing", "heights", "doubts", "shelf", "card-under.1", "figure-leg-length"} {
				p.unfold("[id='" + id + "']")
				p.keep("shelf-"+l.String()+"-"+id+".png", get(p, chromedp.Screenshot(chromedp.CSS("[id='"+id+"']"))))
			}
		})
	}
}
