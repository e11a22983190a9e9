//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tabTo goes by Tab alone to what a screen reader calls by that role and name.
func (p *page) tabTo(role, name string) {
	p.t.Helper()
	root := call(p, dom.GetDocument, dom.GetDocumentParams{}).Root
	found := call(p, accessibility.QueryAXTree, accessibility.QueryAXTreeParams{NodeID: root.NodeID, Role: role, AccessibleName: name})
	var at *accessibility.Node
	for _, node := range found.Nodes {
		if !node.Ignored && at == nil {
			at = node
		}
	}
	require.NotNilf(p.t, at, "a screen reader finds no %s called %q", role, name)
	object := call(p, dom.ResolveNode, dom.ResolveNodeParams{BackendNodeID: at.BackendDOMNodeID}).Object
	call(p, runtime.CallFunctionOn, runtime.CallFunctionOnParams{ObjectID: object.ObjectID, FunctionDeclaration: `function() { window.wanted = this; }`})
	const way = `(() => {
		const at = document.activeElement, to = window.wanted;
		return at === to ? 0 : at.compareDocumentPosition(to) & Node.DOCUMENT_POSITION_PRECEDING ? -1 : 1;
	})()`
	for range 1000 {
		switch js[int](p, way) {
		case 0:
			return
		case 1:
			p.do(chromedp.KeyEvent(kb.Tab))
		case -1:
			p.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift)))
		}
	}
	require.Failf(p.t, "Tab does not get there", "%s %q; the focus is on %s", role, name, js[string](p, `document.activeElement.outerHTML.slice(0, 120)`))
}

// keys types one key after another.
func (p *page) keys(keys ...string) {
	p.t.Helper()
	for _, k := range keys {
		p.do(chromedp.KeyEvent(k))
	}
}

// The whole job by keyboard alone, from what a screen reader is told: a plant
// of one's own, a piece put in, a repair taken and taken back, the sheets
// printed, the plant shared (WCAG 2.2, 2.1.1, 2.1.2, 2.4.3 and 4.1.2).
func TestKeyboardAloneDoesTheJob(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	call(p, accessibility.Enable, cdp.Empty{})
	idle := func() { p.until(`document.documentElement.dataset.shop === "idle"`) }
	idle()

	p.tabTo("button", "Start my own")
	p.keys(kb.Enter)
	p.until(`document.querySelector("#own").open`)
	for _, said := range []struct{ name, text string }{
		{"Tank, inside diameter", "90 cm"}, {"Straight side of the tank", "1.3 m"},
		{"Pump inlet from the tank's axis", "1.8 m"}, {"Pump inlet over the floor", "240 mm"},
	} {
		p.tabTo("textbox", said.name)
		p.keys(said.text)
	}
	p.tabTo("combobox", "Outlet tube")
	p.keys("2 in")
	p.until(`document.getElementById("own-tank.outlet.size").value !== ""`)
	p.tabTo("button", "Start")
	p.keys(kb.Enter)
	p.until(`!document.querySelector("#own").open`)
	p.untilValue("tank.bore", "90 cm")
	assert.NotEqual(t, "BODY", js[string](p, `document.activeElement.tagName`), "the focus is on the page, not lost")
	idle()

	const offer = `.verdict:not(.sound) .ways button`
	p.until(`document.querySelector(%s) !== null`, offer)
	repair := js[string](p, `document.querySelector(%s).textContent`, offer)
	p.tabTo("button", repair)
	before := p.text("#verdicts")
	p.keys(kb.Enter)
	p.until(`document.querySelector("#message").textContent.includes(%s)`, "Done: "+repair)
	assert.Equal(t, "verdicts-title", js[string](p, `document.activeElement.id`))
	idle()
	assert.NotEqual(t, before, p.text("#verdicts"))
	p.tabTo("button", "Undo")
	p.keys(kb.Enter)
	p.until(`document.querySelector("#verdicts").textContent === %s`, before)
	idle()

	js[bool](p, `(window.print = () => { window.printed = true; }, true)`)
	p.tabTo("button", "Print")
	p.keys(kb.Enter)
	p.until(`window.printed === true`)

	p.tabTo("DisclosureTriangle", "Share "+p.text("#share-gist"))
	p.keys(kb.Enter)
	p.until(`document.querySelector("#share-part").open`)
	p.tabTo("button", "Copy as text")
	p.keys(kb.Enter)
	p.until(`/summary is copied|Copy this: /.test(document.querySelector("#message").textContent)`)
	p.tabTo("button", "Copy link")
	p.keys(kb.Enter)
	p.until(`/link is copied|Copy this: .*#1\./.test(document.querySelector("#message").textContent)`)
}
