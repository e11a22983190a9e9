//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// The summary follows an edit, carries the link, and is there to be copied;
// the code is on the screen, on a phone and on a laptop.
func TestShare(t *testing.T) {
	t.Parallel()
	for name, width := range map[string]int64{"share-phone.png": 390, "share.png": 1280} {
		p := open(t, "")
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 800, DeviceScaleFactor: 1})
		p.typed("title", "Barn, east")
		p.until(`document.documentElement.dataset.shop === "idle" && document.querySelector("#summary")?.value.startsWith("Barn, east")`)
		p.until(`document.querySelector("#share svg.code") !== null`)
		assert.Contains(t, js[string](p, `document.querySelector("#summary").value`), "#1.")
		assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(width))
		p.click("#copy-summary")
		p.until(`/summary is copied|Copy this: Barn/.test(document.querySelector("#message").textContent)`)
		p.unfold("#share")
		js[bool](p, `(document.querySelector("#share").scrollIntoView(), true)`)
		p.keep(name, get(p, chromedp.CaptureScreenshot()))
	}
}
