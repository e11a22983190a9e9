//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
)

// With gloves on: the pair of buttons stands beside the field in use and moves
// it in its own unit, the field keeps the focus, and the arrow keys do the same.
func TestSteps(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "dark"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			height := field("stand.height")
			assert.True(t, js[bool](p, `document.querySelector("#stepper").hidden`))
			p.unfold(height)
			p.do(chromedp.ScrollIntoView(chromedp.CSS(height)), chromedp.Focus(chromedp.CSS(height)))
			p.until(`document.querySelector("#stepper").previousElementSibling?.dataset.path === "stand.height"`)
			js[bool](p, `(document.activeElement.scrollIntoView({block: "center"}), true)`)
			p.keep("steps-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.True(t, js[bool](p, `(() => {
				const pair = document.querySelector("#stepper").getBoundingClientRect(), field = document.activeElement.getBoundingClientRect();
				return Math.abs(pair.top - field.top) < 2 && Math.abs(pair.right - field.right) < 2;
			})()`), "the pair is at the end of its field")
			assert.Empty(t, js[[]string](p, `[...document.querySelectorAll("#stepper button")].filter(b => b.offsetWidth < 44 || b.offsetHeight < 44).map(b => b.textContent)`), "too small for a glove")

			press := chromedp.Click(chromedp.CSS(`#stepper [data-by="1"]`))
			p.do(press)
			p.untilValue("stand.height", "765 mm")
			p.answered() // the pair of buttons stands still
			p.do(press)
			p.untilValue("stand.height", "770 mm")
			assert.Equal(t, "stand.height", js[string](p, `document.activeElement.dataset.path`))
			p.do(chromedp.KeyEvent(kb.ArrowDown))
			p.untilValue("stand.height", "765 mm")
			p.click("#undo")
			p.untilValue("stand.height", "770 mm")

			// What is being typed is what is moved.
			p.do(chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)), chromedp.KeyEvent("30 1/2 in"), chromedp.KeyEvent(kb.ArrowUp))
			p.untilValue("stand.height", "30 3/4 in")

			// In a table the pair stands below its cell.
			cell := field("pump.curve.0.head")
			p.unfold(cell)
			p.do(chromedp.ScrollIntoView(chromedp.CSS(cell)), chromedp.Focus(chromedp.CSS(cell)))
			js[bool](p, `(document.activeElement.scrollIntoView({block: "center"}), true)`)
			p.keep("steps-table-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.True(t, js[bool](p, `document.querySelector("#stepper").getBoundingClientRect().top >= document.activeElement.getBoundingClientRect().bottom - 1`))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			p.unfold(field("title"))
			p.do(chromedp.Focus(chromedp.CSS(field("title"))))
			assert.True(t, js[bool](p, `document.querySelector("#stepper").hidden`), "a title has no steps")
		})
	}
}
