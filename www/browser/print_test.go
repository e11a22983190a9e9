//go:build browser

package browser

import (
	"bytes"
	"image/png"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sheets come out of the browser's own printing, a page each, whatever the
// paper and the screen's scheme, and a code on one of them opens the design.
func TestPrints(t *testing.T) {
	t.Parallel()
	p := openAs(t, looks[3])
	for _, plant := range []string{"", "whey"} {
		if plant != "" {
			p.example(plant)
			p.until(`document.querySelector('[data-path="title"]').value.includes(%s)`, plant)
		}
		p.typed("date", "27 November")
		p.until(`document.documentElement.dataset.shop === "idle" && document.querySelector("#isometric svg") !== null`)
		for _, paper := range []string{"A4", "Letter"} {
			size := chromedp.PaperA4
			if paper == "Letter" {
				size = chromedp.PaperLetter
			}
			pdf := get(p, chromedp.PrintToPDF(chromedp.PDFPaper(size), chromedp.PDFPreferCSSPageSize()))
			p.keep("sheets-"+plant+paper+".pdf", pdf)
			assert.Equal(t, "%PDF-", string(pdf[:5]))
			pages := bytes.Count(pdf, []byte("/Type /Page\n"))
			// Each sheet begins a page, and only the last, what was asked and
			// what came of it, takes several.
			assert.GreaterOrEqual(t, pages, 7, "%s on %s", plant, paper)
			assert.LessOrEqual(t, pages, 9, "%s on %s", plant, paper)
		}
	}
	js[bool](p, `(window.print = () => { window.printed = true; }, document.querySelector("#print-sheet").click(), true)`)
	p.until(`window.printed === true`)
	js[bool](p, `(dispatchEvent(new Event("beforeprint")), true)`)
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print", Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}})
	assert.Contains(t, []string{"rgb(255, 255, 255)", "rgba(0, 0, 0, 0)"}, js[string](p, `getComputedStyle(document.body).backgroundColor`), "white paper")
	assert.False(t, js[bool](p, `document.querySelector("#copy-link").checkVisibility()`), "buttons are no use on paper")
	assert.Contains(t, p.text("#sheets .head"), "27 November")
	call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: 800, Height: 1000, DeviceScaleFactor: 4})
	shot := get(p, chromedp.Screenshot(chromedp.CSS("#sheets .code")))
	p.keep("code.png", shot)
	picture, err := png.Decode(bytes.NewReader(shot))
	require.NoError(t, err)
	bitmap, err := gozxing.NewBinaryBitmapFromImage(picture)
	require.NoError(t, err)
	code, err := qrcode.NewQRCodeReader().Decode(bitmap, nil)
	require.NoError(t, err)
	assert.Equal(t, p.text("#sheets .address"), code.GetText())
	assert.True(t, strings.HasPrefix(code.GetText(), address+"#1."))
	_, fragment, _ := strings.Cut(code.GetText(), "#")
	p.goTo("#" + fragment)
	assert.Equal(t, "27 November", p.value("date"))
	assert.Contains(t, p.value("title"), "whey")
}
