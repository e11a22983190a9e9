//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// catalogue opens the page of the catalogue in a fresh profile.
func catalogue(t *testing.T, suffix string) *page {
	t.Helper()
	p := tab(t)
	p.do(chromedp.Navigate(address + "catalogue.html" + suffix))
	return p
}

// The catalogue is whole where scripts do not run at all, and offers no search
// that would do nothing.
func TestCatalogueReadsWithoutScript(t *testing.T) {
	t.Parallel()
	p := tab(t)
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	p.do(chromedp.Navigate(address + "catalogue.html"))
	html := get(p, chromedp.OuterHTML(chromedp.CSS("body")))
	for _, row := range []string{`id="bs-4825/2in"`, `id="dairy-union/dn50"`, `id="epdm"`, `id="source-1"`, `Not for product: `} {
		assert.Contains(t, html, row)
	}
	assert.Regexp(t, `<form id="find" hidden`, html)
}

// What people say finds the row where it stands, and a tap goes there.
func TestCatalogueFinds(t *testing.T) {
	t.Parallel()
	p := catalogue(t, "")
	js[bool](p, `(() => {
		const query = document.querySelector("#query");
		query.value = "DN50 dairy nut";
		query.dispatchEvent(new Event("input", {bubbles: true}));
		return true;
	})()`)
	p.until(`document.querySelector("#found .hits a")?.getAttribute("href") === "#dairy-union/dn50"`)
	assert.Contains(t, p.text("#found"), "OD 92 mm")
	p.click("#found .hits a")
	p.until(`document.querySelector("tr:target")?.id === "dairy-union/dn50"`)

	p = catalogue(t, "?q=2+inch+rjt+liner")
	p.until(`document.querySelector("#found .hits a")?.getAttribute("href") === "#ring-joint/2in"`)
	assert.Equal(t, "2 inch rjt liner", js[string](p, `document.querySelector("#query").value`))

	// The main page leads here and back, and its own bench is not touched.
	p = open(t, "")
	p.do(chromedp.Navigate(js[string](p, `document.querySelector('.bar a[href="catalogue.html"]').href`)))
	assert.Contains(t, js[string](p, `document.title`), "Catalogue")
	p.do(chromedp.Navigate(js[string](p, `document.querySelector(".back").href`)))
	p.ready()
}

// The search runs beside the page, which no module can hold up; one that does
// not start is told, and the next entry tries again.
func TestCatalogueSearchesInAThread(t *testing.T) {
	t.Parallel()
	p := catalogue(t, "")
	js[bool](p, `(window.whole = fetch, window.fetch = async () => { throw new Error("the host is gone"); }, true)`)
	const enter = `(() => {
		const query = document.querySelector("#query");
		for (const asked of [%s, %s]) {
			query.value = asked;
			query.dispatchEvent(new Event("input", {bubbles: true}));
		}
		return true;
	})()`
	js[bool](p, enter, "seal", "tube")
	p.shows("#found", "the host is gone")
	js[bool](p, `(window.fetch = window.whole, true)`)
	js[bool](p, enter, "DN50 dairy nut", "2 inch rjt liner")
	p.until(`document.querySelector("#found .hits a")?.getAttribute("href") === "#ring-joint/2in"`)
	assert.Equal(t, "undefined undefined", js[string](p, `typeof Go + " " + typeof drawoff`), "a module runs in the page itself")
}

// Every address within the page leads somewhere, and no id is there twice.
func TestCatalogueLinksWithin(t *testing.T) {
	t.Parallel()
	p := catalogue(t, "")
	assert.Empty(t, js[[]string](p, `[...document.querySelectorAll('a[href^="#"]')].map(a => a.getAttribute("href").slice(1)).filter(id => !document.getElementById(id))`))
	assert.Empty(t, js[[]string](p, `(() => { const all = [...document.querySelectorAll("[id]")].map(e => e.id); return all.filter((id, i) => all.indexOf(id) !== i); })()`))
}

// The catalogue on a phone and on a desk, by day and by night, as for the page itself.
func TestCatalogueLooks(t *testing.T) {
	t.Parallel()
	for _, l := range looks {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := tab(t)
			p.as(l)
			p.do(chromedp.Navigate(address + "catalogue.html?q=2+inch+rjt"))
			p.until(`document.querySelector("#found .hits") !== null`)
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			for _, at := range []string{"find", "ring-joint", "dairy-union", "bends", "media", "a554"} {
				js[bool](p, `(document.getElementById(%s).scrollIntoView(), true)`, at)
				p.keep("catalogue-"+l.String()+"-"+at+".png", get(p, chromedp.CaptureScreenshot()))
			}
			// Rows of one table look alike: two of each are enough to look at closely.
			js[bool](p, `(document.querySelectorAll("tbody").forEach(b => [...b.rows].slice(2).forEach(r => r.remove())), true)`)
			assert.Empty(t, js[[]string](p, narrow), "too small to touch: under 24 px")
			assert.Empty(t, js[[]string](p, faint), "too faint to read")
		})
	}
}
