//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// The pipe drawing stands beside the side view, follows an edit, and lights a
// piece together with the table; on a phone it is scrolled, not shrunk.
func TestPipeDrawing(t *testing.T) {
	t.Parallel()
	for _, width := range []int{390, 1280} {
		p := tab(t)
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: int64(width), Height: 900, DeviceScaleFactor: 1})
		p.goTo("")
		p.until(`document.querySelector("#isometric svg") !== null`)
		p.unfold("#isometric")
		assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), width, "nothing runs out at the side")
		assert.InDelta(t, 12, js[float64](p, `(() => {
			const svg = document.querySelector("#isometric svg");
			return 12 * svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
		})()`), 0.01, "words are as large as they were meant")
		p.keep("isometric-"+strconv.Itoa(width)+".png", get(p, chromedp.Screenshot(chromedp.CSS("#isometric-part"))))
		p.typed("run.0.fall", "1:50")
		p.until(`document.querySelector("#isometric").textContent.includes("falls 1:50")`)
		js[bool](p, `(document.querySelector('#isometric [data-ref="run.0"]').dispatchEvent(new Event("pointerover", {bubbles: true})), true)`)
		assert.True(t, js[bool](p, `document.querySelector('#pieces tr[data-ref="run.0"]').matches(".lit")`))
	}
}
