//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
)

// An input is chosen, a figure is watched, the slider is moved by the
// keyboard, and what it is at is taken as one edit, which undo takes back.
func TestWhatIf(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "dark"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.until(`document.querySelector("#whatif-watch") !== null`)
			choose := func(id, value string) {
				js[bool](p, `(() => {
					const select = document.getElementById(%s);
					select.value = %s;
					select.dispatchEvent(new Event("change", {bubbles: true}));
					return true;
				})()`, id, value)
			}
			p.unfold("#whatif")
			choose("whatif-move", "liquid.temperature")
			choose("whatif-watch", "suction-head-available-lowest")
			p.until(`document.querySelector("#whatif-at") !== null && document.documentElement.dataset.shop === "idle"`)
			assert.Contains(t, p.text("#whatif-says"), "12 °C, as now: ")
			before := js[string](p, `document.querySelector(".whatif-dot").getAttribute("cx")`)

			js[bool](p, `(document.getElementById("whatif-at").focus(), true)`)
			p.do(chromedp.KeyEvent(kb.ArrowRight))
			p.click(`[data-step="1"]`)
			p.click(`[data-step="1"]`)
			p.click(`[data-step="-1"]`)
			p.until(`document.getElementById("whatif-says").textContent.startsWith("20 °C: ")`)
			assert.Contains(t, p.text("#whatif-says"), ", held to ")
			assert.Equal(t, p.text("#whatif-says"), js[string](p, `document.getElementById("whatif-at").getAttribute("aria-valuetext")`))
			assert.NotEqual(t, before, js[string](p, `document.querySelector(".whatif-dot").getAttribute("cx")`), "the dot follows")
			js[bool](p, `(document.getElementById("whatif-title").scrollIntoView(), true)`)
			p.keep("whatif-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			for _, id := range []string{"whatif-move", "whatif-watch", "whatif-at", "whatif-use"} {
				assert.GreaterOrEqual(t, js[float64](p, `document.getElementById(%s).getBoundingClientRect().height`, id), 44.0, id)
			}

			p.click("#whatif-use")
			p.untilValue("liquid.temperature", "20 °C")
			p.until(`document.getElementById("whatif-says").textContent.startsWith("20 °C, as now: ")`)
			p.click("#undo")
			p.untilValue("liquid.temperature", "12 °C")
			p.until(`document.getElementById("whatif-says").textContent.startsWith("12 °C, as now: ")`)
		})
	}
}
