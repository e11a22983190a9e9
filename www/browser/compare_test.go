//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// Somebody keeps their plant as A, raises the stand and changes the valve, and
// sees what that brings; A lasts a reload, prints as a sheet, and comes back.
func TestCompare(t *testing.T) {
	t.Parallel()
	for _, l := range looks {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.until(`document.querySelector("#keep-a") !== null`)
			p.click("#keep-a")
			p.shows("#compare", "B is A")
			before := p.value("stand.height")
			p.typed("title", "A higher stand")
			p.typed("stand.height", "700 mm")
			p.typed("tank.height", "1.9 m")
			p.act("remove", "under.0")
			p.shows("#compare", "Stand: outlet face over floor")
			p.shows("#compare", "700 mm")
			p.shows("#compare", before)
			p.shows("#compare", "Figures that differ")
			p.shows("#compare", "not there")
			p.until(`document.querySelectorAll("#compare .pair svg").length === 2`)
			p.reload()
			p.shows("#compare", "Stand: outlet face over floor")

			p.unfold("#compare")
			js[bool](p, `(document.querySelectorAll("#compare details").forEach(d => d.open = true), document.querySelector("#compare-title").scrollIntoView(), true)`)
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			assert.Empty(t, js[[]string](p, `[...document.querySelectorAll("#compare button")].filter(b => b.getBoundingClientRect().height < 44).map(b => b.textContent)`), "too small for a glove")
			assert.Empty(t, js[[]string](p, faint), "too faint to read")
			p.keep("compare-"+l.String()+".png", get(p, chromedp.Screenshot(chromedp.CSS("#compare-part"))))

			// The sheet alone is printed, whole.
			js[bool](p, `(window.print = () => { window.printed = document.documentElement.dataset.print; }, true)`)
			p.click("#print-compare")
			assert.Equal(t, "compare", js[string](p, `window.printed`))
			call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
			js[bool](p, `(dispatchEvent(new Event("beforeprint")), true)`)
			assert.True(t, js[bool](p, `(() => {
				const sheet = document.querySelector("#sheets .compare"), seen = e => e.checkVisibility();
				return [...sheet.querySelectorAll("table")].every(seen) && sheet.querySelectorAll("table").length > 4 &&
					![...sheet.querySelectorAll("button")].some(seen) && !seen(document.querySelector("#parts"));
			})()`), "the comparison and nothing else")
			js[bool](p, `(dispatchEvent(new Event("afterprint")), true)`)
			assert.Equal(t, 0, js[int](p, `document.querySelectorAll("#sheets .compare").length`), "the plant's own sheets come back")
			p.do(chromedp.Evaluate[chromedp.Void](`document.documentElement.dataset.print = "compare"`))
			p.keep("compare-"+l.String()+".pdf", get(p, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize())))
			call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})

			p.click("#a-back")
			p.untilValue("stand.height", before)
			p.shows("#compare", "Keep this plant as A")
			p.click("#undo")
			p.untilValue("stand.height", "700 mm")
			p.shows("#compare", "Stand: outlet face over floor")
			p.click("#drop-a")
			p.shows("#compare", "Keep this plant as A")
		})
	}
}

// A design from the list can be compared with what is on the bench.
func TestCompareWithAnother(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("title", "The first")
	p.untilKept(`kept[0]?.title === "The first"`)
	p.lists("The first")
	p.press("duplicate", "The first")
	p.press("open", "Copy of The first")
	p.untilValue("title", "Copy of The first")
	p.typed("pump.away", "2.5 m")
	p.lists("The first")
	p.press("against", "The first")
	p.shows("#compare", "Title")
	p.shows("#compare", "2.5 m")
	assert.Equal(t, "compare-title", js[string](p, `document.activeElement.id`))
}
