//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// The programme of the wash is edited in the form and shown as a card, which
// prints alone; a step that has not been taken stays in its field.
func TestWashIsEditedAndPrinted(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.until(`document.querySelectorAll("#wash .card tbody tr").length >= 6`)
	for _, step := range []string{"1. pre-rinse", "2. caustic", "3. rinse", "4. acid", "5. rinse", "6. sanitise"} {
		assert.Contains(t, p.text("#wash .card"), step)
	}
	assert.Contains(t, p.text("#breathing"), "no pass")

	// The pressure along the line is judged while it is washed, and where its way
	// is not known it is said that it is not.
	p.until(`document.querySelector("#wash").textContent.includes("In no step of the wash does the line")`)
	p.typed("wash.flow", "200 L/min")
	p.until(`document.querySelector("#wash").textContent.includes("are not judged")`)
	p.typed("wash.flow", "")
	p.until(`!document.querySelector("#wash").textContent.includes("are not judged")`)

	p.typed("wash.element", "6 kW")
	p.until(`document.querySelector("#wash .card").textContent.includes("of warming")`)
	p.choose("cleaning.0", "nitric")
	p.untilValue("cleaning.6.agent", "nitric")
	p.typed("cleaning.1.time", "35 min")
	p.until(`document.querySelector("#wash .card").textContent.includes("35 min")`)
	p.act("up", "cleaning.6")
	p.untilValue("cleaning.5.agent", "nitric")
	p.typed("cleaning.1.strength", "4 %")
	p.until(`document.querySelector("#verdicts").textContent.includes("of which nothing is known")`)
	p.typed("cleaning.1.strength", "soapy")
	p.untilValue("cleaning.1.strength", "soapy")
	p.until(`document.getElementById("err-cleaning.1.strength") !== null`)
	p.typed("cleaning.1.strength", "2 %")

	for _, width := range []int64{390, 1280} {
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: width, Height: 900, DeviceScaleFactor: 1})
		p.until(`document.documentElement.scrollWidth <= %s`, width) // once the drawings have followed
		for _, part := range []string{"#wash", "#breathing", ".cleaning"} {
			p.unfold(part)
			js[bool](p, `(document.querySelector(%s).scrollIntoView({block: "start"}), true)`, part)
			p.keep("wash-"+part[1:]+"-"+strconv.FormatInt(width, 10)+".png", get(p, chromedp.CaptureScreenshot()))
		}
	}

	js[bool](p, `(window.print = () => { window.printed = true; dispatchEvent(new Event("beforeprint")); }, true)`)
	p.click("#print-card")
	p.until(`window.printed === true`)
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	assert.Equal(t, []bool{true, false, false, false}, js[[]bool](p, `["#sheets .wash", "#sheets .leaf:not(.wash)", "#verdicts", ".top"].map(s => document.querySelector(s).checkVisibility())`))
	p.keep("wash-card.pdf", get(p, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize())))
	js[bool](p, `dispatchEvent(new Event("afterprint"))`)
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "screen"})
	assert.True(t, js[bool](p, `document.querySelector("#verdicts").checkVisibility()`), "the next sheet is whole again")
}
