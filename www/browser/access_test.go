//go:build browser

package browser

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openAll unfolds everything that folds.
func (p *page) openAll() {
	p.t.Helper()
	js[bool](p, `(document.querySelectorAll("details").forEach(d => d.open = true), true)`)
}

// Every control has a name, as the browser tells it to a screen reader
// (WCAG 2.2, 4.1.2).
func TestEveryControlHasAName(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.openAll()
	call(p, accessibility.Enable, cdp.Empty{})
	tree := call(p, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	controls := map[string]bool{"button": true, "textbox": true, "combobox": true, "checkbox": true, "link": true, "spinbutton": true, "img": true, "image": true}
	named := 0
	for _, node := range tree.Nodes {
		if node.Ignored || node.Role == nil || !controls[word(node.Role)] {
			continue
		}
		if name := word(node.Name); assert.NotEmptyf(t, name, "a %s without a name (node %d)", word(node.Role), node.BackendDOMNodeID) {
			named++
		}
	}
	assert.Greater(t, named, 50, "the form's controls are among what was looked at")
}

func word(v *accessibility.Value) string {
	var s string
	if v == nil || json.Unmarshal(v.Value, &s) != nil {
		return ""
	}
	return s
}

// Every control that can be used is reached by Tab, in the order of the page,
// and the focus can be seen on it (WCAG 2.2, 2.1.1 and 2.4.7).
func TestKeyboardReachesEverything(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	const controls = `[...document.querySelectorAll("button,input:not([type=file]),select,textarea,summary,a[href]")].filter(e =>
		!e.disabled && e.tabIndex >= 0 && e.checkVisibility({visibilityProperty: true}))`
	count := js[int](p, `(window.wanted = new Set(`+controls+`)).size`)
	require.Greater(t, count, 30)
	js[bool](p, `(document.body.focus(), window.bare = [], document.addEventListener("focusin", e => {
		window.wanted.delete(e.target);
		const style = getComputedStyle(e.target);
		if (style.outlineStyle === "none" && style.boxShadow === "none") window.bare.push(e.target.id || e.target.outerHTML.slice(0, 80));
	}), true)`)
	for range 2 * count {
		p.do(chromedp.KeyEvent(kb.Tab))
		if js[int](p, `window.wanted.size`) == 0 {
			break
		}
	}
	assert.Empty(t, js[[]string](p, `[...window.wanted].map(e => e.id || e.outerHTML.slice(0, 120))`), "Tab does not get to these")
	assert.Empty(t, js[[]string](p, `window.bare`), "nothing shows that the focus is on these")
}

func TestKeyboardAloneEdits(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	before := p.text("#figures")
	p.do(
		chromedp.Focus(chromedp.CSS(field("tank.height"))),
		chromedp.KeyEvent("a", chromedp.KeyModifiers(chromedp.ModifierCtrl)),
		chromedp.KeyEvent("1.9 m"),
		chromedp.KeyEvent(kb.Tab),
	)
	p.until(`document.querySelector("#figures").textContent !== %s`, before)
	assert.Equal(t, "1.9 m", p.value("tank.height"))
	assert.True(t, js[bool](p, `document.activeElement.matches("#form [data-path]")`), "Tab went on to the next field")
}

// look is how a page is looked at.
type look struct {
	width, height int64
	scheme        string // light, dark, or forced: colours of the reader's own
}

func (l look) String() string { return fmt.Sprintf("%d-%s", l.width, l.scheme) }

var looks = []look{{390, 844, "light"}, {390, 844, "dark"}, {1280, 900, "light"}, {1280, 900, "dark"}}

func openAs(t *testing.T, l look) *page {
	t.Helper()
	p := tab(t)
	p.as(l)
	p.goTo("")
	return p
}

// as makes the tab a screen of the kind of l.
func (p *page) as(l look) {
	p.t.Helper()
	var options []chromedp.EmulateViewportOption
	if l.width < 600 {
		options = append(options, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulateScale(2))
	}
	p.do(chromedp.EmulateViewport(l.width, l.height, options...))
	feature := &emulation.MediaFeature{Name: "prefers-color-scheme", Value: l.scheme}
	if l.scheme == "forced" {
		feature = &emulation.MediaFeature{Name: "forced-colors", Value: "active"}
	}
	call(p, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{feature}})
}

// The page on a phone and on a desk, by day and by night: nothing scrolls
// sideways (WCAG 2.2, 1.4.10), everything is large enough to touch (2.5.8),
// and text stands out (1.4.3).
func TestLooks(t *testing.T) {
	t.Parallel()
	for _, l := range looks {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.keep("first-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.keep("page-"+l.String()+".png", get(p, chromedp.FullScreenshot(100)))
			p.openAll()
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			assert.Empty(t, js[[]string](p, narrow), "too small to touch: under 24 px")
			assert.Empty(t, js[[]string](p, faint), "too faint to read")
			assert.Equal(t, l.scheme == "dark", js[float64](p, `parseInt(getComputedStyle(document.body).backgroundColor.split("(")[1])`) < 128, "the paper is %s", l.scheme)
			p.keep("page-"+l.String()+"-open.png", get(p, chromedp.FullScreenshot(100)))
		})
	}
}

// narrow lists the buttons and fields that are smaller than 24 px either way.
const narrow = `[...document.querySelectorAll("button,input:not([type=file]),select,textarea,summary")].filter(e => {
	const box = e.getBoundingClientRect();
	return e.checkVisibility() && box.width > 0 && (box.width < 24 || box.height < 24) &&
		!(e.type === "checkbox" && e.closest("label"));
}).map(e => e.outerHTML.slice(0, 100))`

// faint lists the texts that stand out from what is behind them by less than
// 4.5 to 1, large ones by less than 3 to 1, with how far they do. Colours
// are read back from a canvas, which knows every way of writing one.
const faint = `(() => {
	const pen = document.createElement("canvas").getContext("2d", {willReadFrequently: true});
	const rgba = colour => {
		pen.clearRect(0, 0, 1, 1);
		pen.fillStyle = colour;
		pen.fillRect(0, 0, 1, 1);
		const [r, g, b, a] = pen.getImageData(0, 0, 1, 1).data;
		return [r, g, b, a / 255];
	};
	const over = (top, under) => [0, 1, 2].map(i => top[i] * top[3] + under[i] * (1 - top[3])).concat(1);
	const base = getComputedStyle(document.documentElement).colorScheme.includes("dark") && matchMedia("(prefers-color-scheme: dark)").matches ? [18, 18, 18, 1] : [255, 255, 255, 1];
	const behind = e => {
		const layers = [];
		for (let n = e; n; n = n.parentElement) layers.unshift(rgba(getComputedStyle(n).backgroundColor));
		return layers.reduce((under, top) => over(top, under), base);
	};
	const light = c => {
		const [r, g, b] = c.map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
		return 0.2126 * r + 0.7152 * g + 0.0722 * b;
	};
	const found = new Set();
	for (const e of document.querySelectorAll("body *")) {
		const words = [...e.childNodes].filter(n => n.nodeType === 3).map(n => n.nodeValue.trim()).join("");
		if (!words || e.closest("svg,option,script,style,noscript") || e.matches(":disabled") || !e.checkVisibility({visibilityProperty: true, opacityProperty: true})) continue;
		const style = getComputedStyle(e), size = parseFloat(style.fontSize);
		if (e.getBoundingClientRect().width < 2) continue; // for screen readers only
		const back = behind(e), front = over(rgba(style.color), back);
		const [a, b] = [light(front), light(back)].sort((x, y) => y - x);
		const ratio = (a + 0.05) / (b + 0.05);
		const large = size >= 24 || size >= 18.66 && style.fontWeight >= 700;
		if (ratio < (large ? 3 : 4.5)) found.add(ratio.toFixed(2) + ": " + e.tagName + "." + e.className + " " + words.slice(0, 40));
	}
	return [...found].slice(0, 20);
})()`
