//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// A plate cooler is put into the delivery and told by two points of its sheet.
func TestADeviceByItsPoints(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	before := p.text("#figures")
	p.choose("delivery.pieces.1", "device")
	const card = "delivery.pieces.1"
	p.untilValue(card+".kv", "10")
	p.until(`document.querySelector("#figures").textContent !== %s`, before)
	for i := range 2 {
		row := card + ".drops." + strconv.Itoa(i)
		p.act("point", row)
		p.until(`document.querySelector(%s) !== null`, field(row+".drop"))
	}
	p.typed(card+".drops.0.drop", "5 kPa")
	p.typed(card+".drops.1.flow", "60 L/min")
	p.typed(card+".drops.1.drop", "20 kPa")
	p.untilValue(card+".drops.1.drop", "20 kPa")
	p.until(`document.querySelector("#verdicts").textContent.includes("its points end at 60")`)

	p.typed("under.1.open", "30°")
	p.untilValue("under.1.open", "30°")
	p.openAll()
	for _, width := range []int64{390, 1280} {
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 900, DeviceScaleFactor: 1})
		assert.LessOrEqual(t, js[int64](p, `document.documentElement.scrollWidth`), width, "nothing runs off the side")
		p.do(chromedp.ScrollIntoView(chromedp.CSS(`[id="in-` + card + `.drops.0.flow"]`)))
		p.keep("device-"+strconv.FormatInt(width, 10)+".png", get(p, chromedp.CaptureScreenshot()))
	}
}

// What a purée drops in a bend is measured, and typed in where it was: the
// point is taken to be of that liquid until somebody says that it is of water.
func TestADropMeasuredInPuree(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	const card = "under.2"
	assert.False(t, js[bool](p, `document.querySelector("[data-path='"+%s+"'][data-act='point']") !== null`, card+".drops.0"), "perry needs no such thing")
	p.typed("liquid.kind", "power-law")
	p.typed("liquid.density", "1050 kg/m³")
	p.typed("liquid.consistency", "2 Pa·s^n")
	p.typed("liquid.index", "0.4")
	p.until(`document.querySelector("[data-path='"+%s+"'][data-act='point']") !== null`, card+".drops.0")
	p.act("point", card+".drops.0")
	p.untilValue(card+".dropsIn", "liquid")
	p.typed(card+".drops.0.flow", "100 L/min")
	p.typed(card+".drops.0.drop", "7 kPa")
	p.untilValue(card+".drops.0.drop", "7 kPa")
	p.openAll()
	for _, width := range []int64{390, 1280} {
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 900, DeviceScaleFactor: 1})
		assert.LessOrEqual(t, js[int64](p, `document.documentElement.scrollWidth`), width, "nothing runs off the side")
		p.do(chromedp.ScrollIntoView(chromedp.CSS(`[id="in-` + card + `.dropsIn"]`)))
		p.keep("measured-"+strconv.FormatInt(width, 10)+".png", get(p, chromedp.CaptureScreenshot()))
	}
}
