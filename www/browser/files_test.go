//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// A template is made by the workshop of the design as it stands, and saved;
// how the tank stands and what drives its height follow an edit.
func TestFilesForTheWorkshop(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	js[bool](p, `(() => {
		const make = URL.createObjectURL;
		URL.createObjectURL = (blob) => { blob.text().then((text) => { window.saved = text; }); return make(blob); };
		return true;
	})()`)
	p.typed("stand.legs", "4")
	p.typed("stand.brace", "diagonal")
	p.typed("stand.splay", "5°")
	p.typed("stand.access", "200 mm")
	p.until(`document.querySelector('button[data-file="brace-lower-end.pdf"]') !== null`)
	p.until(`document.querySelector("#heights").textContent.includes("Jack or pallet truck")`)
	p.until(`document.querySelector("#stability").textContent.includes("4 legs rock")`)
	assert.NotEmpty(t, p.text("#figure-tip-angle-full .value"))
	p.until(`document.documentElement.dataset.shop === "idle"`)
	p.click(`button[data-file="brace-lower-end.pdf"]`)
	p.until(`window.saved !== undefined && window.saved.startsWith("%PDF-1.4")`)
	p.until(`document.querySelector("#message").textContent.includes("Saved as brace-lower-end.pdf")`)
	p.click(`button[data-file="cone-flat.dxf"]`)
	p.until(`window.saved.includes("AC1009")`)
}

// The parts about stand and files fit a phone and a screen.
func TestLooksOfTheStand(t *testing.T) {
	t.Parallel()
	for _, width := range []int{390, 1280} {
		p := tab(t)
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: int64(width), Height: 900, DeviceScaleFactor: 1})
		p.goTo("")
		p.typed("stand.access", "200 mm")
		p.typed("site.ceiling", "2.7 m")
		p.until(`document.querySelector("#heights").textContent.includes("Brim under the ceiling")`)
		p.until(`document.querySelectorAll("#files button").length > 3`)
		assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), width, "nothing runs out at the side")
		for _, id := range []string{"heights", "stability", "files"} {
			p.unfold("#" + id)
			p.keep("stand-"+id+"-"+strconv.Itoa(width)+".png", get(p, chromedp.Screenshot(chromedp.CSS("#"+id))))
		}
	}
}
