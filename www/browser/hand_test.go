//go:build browser

package browser

import (
	"strconv"
	"unicode/utf8"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// hand is one of the ways in which somebody works the page. Each does with what
// a selector finds first, when it is to be seen, only what a person could.
type hand interface {
	use(selector string)          // a button, a link, a heading that folds
	write(selector, text string)  // in place of what stands in a field
	pick(selector, option string) // of a list
}

func count(n int) string { return strconv.Itoa(n) }

// first is the element that a selector finds first, in the page.
const first = `document.querySelector(%s)`

// uncover unfolds what an element is folded into, the outermost first, by its heading.
func (p *page) uncover(selector string, press func(selector string)) {
	p.t.Helper()
	p.until(first+` !== null`, selector)
	if js[bool](p, first+`.matches(".bar > *") && !`+first+`.checkVisibility()`, selector, selector) {
		press("#more")
	}
	const shut = `(() => {
		let shut = null;
		for (let e = ` + first + `; e; e = e.parentElement) if (e.matches("details:not([open])") && !e.querySelector(":scope > summary").contains(document.querySelector(%s))) shut = e;
		document.querySelectorAll("[data-hand]").forEach(e => delete e.dataset.hand);
		if (shut) shut.querySelector("summary").dataset.hand = "next";
		return shut !== null;
	})()`
	for range 6 {
		if !js[bool](p, shut, selector, selector) {
			return
		}
		press(`[data-hand="next"]`)
		p.until(`document.querySelector('[data-hand="next"]')?.parentElement.open !== false`)
	}
	require.Failf(p.t, "it does not unfold", "%s", selector)
}

// point scrolls what selector finds into sight and returns its middle, on the
// screen. Nothing may lie over it.
func (p *page) point(selector string) (x, y float64) {
	p.t.Helper()
	p.until(first+` !== null && !`+first+`.disabled`, selector, selector)
	at := js[[]float64](p, `(async () => {
		const e = `+first+`;
		e.scrollIntoView({ block: "center", behavior: "instant" });
		await new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn)));
		const box = e.getClientRects()[0];
		if (!box) return [0, 0, 0];
		const x = box.x + box.width / 2, y = box.y + box.height / 2, there = document.elementFromPoint(x, y);
		return [x, y, there && (e.contains(there) || there.contains(e) && e.matches("svg *") || e.labels?.[0]?.contains(there)) ? 1 : 0];
	})()`, selector)
	require.NotZerof(p.t, at[2], "nobody can point at %s: it is hidden, or something lies over it at %v: %s", selector, at[:2],
		js[string](p, `document.elementFromPoint(`+strconv.FormatFloat(at[0], 'f', 1, 64)+`, `+strconv.FormatFloat(at[1], 'f', 1, 64)+`)?.outerHTML.slice(0, 200) ?? ""`))
	return at[0], at[1]
}

// replace types text over what stands in the field that has the focus.
func (p *page) replace(selector, text string) {
	p.t.Helper()
	p.until(`document.activeElement === `+first, selector)
	p.do(chromedp.KeyEvent(kb.End))
	for range utf8.RuneCountInString(js[string](p, first+`.value`, selector)) {
		p.do(chromedp.KeyEvent(kb.Backspace))
	}
	p.do(chromedp.KeyEvent(text))
	p.until(first+`.value === %s`, selector, text)
	p.do(chromedp.KeyEvent(kb.Tab)) // on to the next, as a phone's keyboard has a key for, too
}

// picked chooses of the list that has the focus by what the option begins with.
func (p *page) picked(selector, option string, then ...string) {
	p.t.Helper()
	p.until(`document.activeElement === `+first, selector)
	for _, keys := range append([]string{option}, then...) {
		p.do(chromedp.KeyEvent(keys))
	}
	p.until(first+`.selectedOptions[0]?.textContent.startsWith(%s)`, selector, option)
}

// pointer presses what it points at, and types on what is shown for it.
type pointer struct {
	*page
	press func(p *page, x, y float64)
}

// mouse clicks.
func mouse(p *page) pointer {
	return pointer{p, func(p *page, x, y float64) {
		call(p, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: input.DispatchMouseEventTypeMouseMoved, X: x, Y: y})
		for _, what := range []input.DispatchMouseEventType{input.DispatchMouseEventTypeMousePressed, input.DispatchMouseEventTypeMouseReleased} {
			call(p, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: what, X: x, Y: y, Button: input.MouseButtonLeft, ClickCount: 1})
		}
	}}
}

// finger taps.
func finger(p *page) pointer {
	return pointer{p, func(p *page, x, y float64) {
		call(p, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchStart, TouchPoints: []*input.TouchPoint{{X: x, Y: y}}})
		call(p, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{}})
	}}
}

func (h pointer) at(selector string) {
	h.t.Helper()
	x, y := h.point(selector)
	h.press(h.page, x, y)
}

func (h pointer) use(selector string) {
	h.t.Helper()
	h.uncover(selector, h.at)
	h.at(selector)
}

func (h pointer) write(selector, text string) {
	h.t.Helper()
	h.use(selector)
	h.replace(selector, text)
}

// pick opens the list, which the browser shows in a window of its own, and
// goes on with the keys.
func (h pointer) pick(selector, option string) {
	h.t.Helper()
	h.use(selector)
	h.picked(selector, option, kb.Enter)
}

// keyboard goes everywhere by Tab, and asks what a screen reader says there.
type keyboard struct{ *page }

func (k keyboard) tabTo(selector string) {
	k.t.Helper()
	k.until(first+` !== null && !`+first+`.disabled`, selector, selector)
	const way = `(() => {
		const at = document.activeElement, to = ` + first + `;
		return at === to ? 0 : at.compareDocumentPosition(to) & Node.DOCUMENT_POSITION_PRECEDING ? -1 : 1;
	})()`
	for range 1000 {
		switch js[int](k.page, way, selector) {
		case 0:
			k.named()
			return
		case 1:
			k.do(chromedp.KeyEvent(kb.Tab))
		case -1:
			k.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift)))
		}
	}
	require.Failf(k.t, "Tab does not get there", "%s; the focus is on %s", selector, js[string](k.page, `document.activeElement.outerHTML.slice(0, 120)`))
}

// named is satisfied with a role and a name of what has the focus (WCAG 2.2, 4.1.2).
func (k keyboard) named() {
	k.t.Helper()
	at := call(k.page, runtime.Evaluate, runtime.EvaluateParams{Expression: `document.activeElement`}).Result
	node := call(k.page, accessibility.GetPartialAXTree, accessibility.GetPartialAXTreeParams{ObjectID: at.ObjectID, FetchRelatives: new(bool)}).Nodes[0]
	require.Falsef(k.t, node.Ignored || word(node.Role) == "" || word(node.Name) == "", "a screen reader does not say what this is: %s", at.Description)
}

func (k keyboard) enter(selector string) {
	k.t.Helper()
	k.tabTo(selector)
	k.do(chromedp.KeyEvent(kb.Enter))
}

func (k keyboard) use(selector string) {
	k.t.Helper()
	k.uncover(selector, k.enter)
	k.enter(selector)
}

func (k keyboard) write(selector, text string) {
	k.t.Helper()
	k.uncover(selector, k.enter)
	k.tabTo(selector)
	k.replace(selector, text)
}

func (k keyboard) pick(selector, option string) {
	k.t.Helper()
	k.uncover(selector, k.enter)
	k.tabTo(selector)
	k.picked(selector, option)
}
