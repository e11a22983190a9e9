//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// The side view shows every leg where the verdict has it, and legs beside the
// shell are for somebody who may judge them.
func TestLegsAreDrawnWhereTheyGo(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	for _, row := range []struct {
		n  int
		at string
	}{{4, "45°, 135°, 225°, 315°"}, {3, "60°, 180°, 300°"}} {
		p.typed("stand.legs", strconv.Itoa(row.n))
		p.until(`document.querySelectorAll(".elevation:not(.stays) .stand .leg").length == %s`, row.n)
		p.until(`document.querySelector("#elevation-desc").textContent.includes(%s)`, "legs stand at "+row.at)
		p.until(`document.querySelector('#verdicts .verdict[data-rule="legs-clear"]').textContent.includes(%s)`, row.at)
	}
	p.typed("stand.feet", "620 mm")
	p.until(`document.querySelector('#verdicts .verdict.look[data-rule="leg-brackets"]') !== null`)
	assert.Contains(t, p.text(`#verdicts .verdict[data-rule="leg-brackets"]`), "not judged")
	for _, width := range []int64{390, 1280} {
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 900, DeviceScaleFactor: 1})
		p.until(`document.documentElement.scrollWidth <= %s`, width)
		js[bool](p, `(document.querySelector('#verdicts .verdict[data-rule="leg-brackets"]').scrollIntoView({block: "center"}), true)`)
		p.keep("leg-brackets-"+strconv.FormatInt(width, 10)+".png", get(p, chromedp.CaptureScreenshot()))
		js[bool](p, `(document.querySelector(".elevation:not(.stays)").scrollIntoView({block: "center"}), true)`)
		p.keep("legs-"+strconv.FormatInt(width, 10)+".png", get(p, chromedp.CaptureScreenshot()))
	}
}
