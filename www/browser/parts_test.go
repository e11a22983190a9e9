//go:build browser

package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"

	"drawoff/www/view"
)

// opened lists the parts that are not folded.
const opened = `[...document.querySelectorAll("details.part[open]")].map(d => d.id)`

// At first every part is folded and tells its answer in a line, which follows an
// edit; what somebody opens stays open on the next visit, in every design.
func TestPartsFold(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "dark"}, {1920, 1080, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.until(`document.documentElement.dataset.shop === "idle"`)
			assert.Empty(t, js[[]string](p, opened))
			assert.Empty(t, js[[]string](p, `[...document.querySelectorAll("details.part > summary")].filter(s => s.offsetHeight < 44 || !s.querySelector(".gist").textContent).map(s => s.textContent)`))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")

			p.typed("stand.height", "905 mm")
			p.shows("#heights-gist", "905 mm over the floor")
			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.do(chromedp.ScrollIntoView(chromedp.CSS("#heights-title")), chromedp.Click(chromedp.CSS("#heights-part > summary")))
			p.until(`document.querySelector("#heights-part").open && document.querySelector("#heights svg").checkVisibility()`)
			p.do(chromedp.KeyEvent(kb.Tab))
			p.do(chromedp.KeyEvent(kb.Enter)) // on the next part
			p.until(`document.querySelector("#stability-part").open`)
			p.keep("parts-"+l.String()+".png", get(p, chromedp.FullScreenshot(100)))
			p.reload()
			assert.Equal(t, []string{"heights-part", "stability-part"}, js[[]string](p, opened))
			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.example("whey")
			p.shows("#message", "Opened")
			assert.Equal(t, []string{"heights-part", "stability-part"}, js[[]string](p, opened))

			p.click("#heights-part > summary")
			p.click("#stability-part > summary")
			p.until(`!localStorage.getItem("drawoff.folds").includes('-part":true')`)
			p.goTo("#wash-title")
			assert.Equal(t, []string{"wash-part"}, js[[]string](p, opened), "what a link leads to is open")
		})
	}
}

// A screen reader finds each part by its heading, and what unfolds it by that name.
func TestPartsAreHeadings(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.until(`document.documentElement.dataset.shop === "idle"`)
	call(p, accessibility.Enable, cdp.Empty{})
	headings, summaries := map[string]bool{}, []string{}
	for _, node := range call(p, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{}).Nodes {
		switch {
		case node.Ignored:
		case word(node.Role) == "heading":
			headings[word(node.Name)] = true
		case word(node.Role) == "DisclosureTriangle":
			summaries = append(summaries, word(node.Name))
		}
	}
	all := "\n" + strings.Join(summaries, "\n")
	for _, part := range view.Parts() {
		assert.True(t, headings[part.Title], part.Title)
		assert.Contains(t, all, "\n"+part.Title+" ")
	}
}
