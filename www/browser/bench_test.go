//go:build browser

package browser

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// stocks puts value into the field for something of the user's own as if it had
// been typed, and waits until the workshop has worked with it.
func (p *page) stocks(path, value string) {
	p.t.Helper()
	p.until(`document.querySelector(%s) !== null`, `input[data-stock="`+path+`"]`)
	js[bool](p, `(() => {
		const control = document.querySelector(%s);
		control.focus();
		control.value = %s;
		control.dispatchEvent(new Event("input", {bubbles: true}));
		control.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, `input[data-stock="`+path+`"]`, value)
	p.answered()
	p.until(`document.documentElement.dataset.shop === "idle"`)
}

// What is in hand comes off the order and stays on this device; offcuts are
// sawn first, and what is left goes back on the rack at a press.
func TestBench(t *testing.T) {
	t.Parallel()
	const ferrule = "clamp/1.5in/ferrule"
	p := open(t, "")
	p.until(`document.querySelector("#welds").textContent.includes("Spool 1")`)
	p.stocks("items:"+ferrule+":inHand", "2")
	p.until(`document.querySelector("#parts").textContent.includes("6, less 2 in hand")`)
	p.stocks("items:"+ferrule+":price", "4.25")
	p.until(`document.querySelector("#parts").textContent.includes("In all 17.00")`)
	p.stocks("items:"+ferrule+":from", "=the shop in town")
	p.stocks("rack:bs-4825/1.5in", "2.1 m")
	p.until(`document.querySelector("#cuts").textContent.includes("Off the rack, 2100 mm")`)
	assert.NotEmpty(t, js[int](p, `document.querySelectorAll("#cuts .saw-picture").length`))

	// What cannot be taken stays in its field with the reason, whatever else is typed.
	p.stocks("rack:bs-4825/1.5in", "long")
	p.until(`document.querySelector(%s)?.getAttribute("aria-invalid") === "true"`, `input[data-stock="rack:bs-4825/1.5in"]`)
	p.typed("stand.legs", "4")
	p.until(`document.querySelector("#cuts").textContent.includes("leg 4 of 4")`)
	assert.Equal(t, "long", js[string](p, `document.querySelector('input[data-stock="rack:bs-4825/1.5in"]').value`))
	p.stocks("rack:bs-4825/1.5in", "")
	p.until(`document.querySelector(%s)?.getAttribute("aria-invalid") === null`, `input[data-stock="rack:bs-4825/1.5in"]`)

	// The list as a file, and nothing in it runs.
	js[bool](p, `(() => {
		const make = URL.createObjectURL;
		URL.createObjectURL = (blob) => { blob.text().then((text) => { window.saved = text; }); return make(blob); };
		return true;
	})()`)
	p.click(`button[data-file="parts.csv"]`)
	p.until(`window.saved !== undefined && window.saved.includes(%s)`, ferrule)
	saved := js[string](p, `window.saved`)
	assert.True(t, strings.Contains(saved, ",'=the shop in town,"), saved)

	p.click(`button[data-op="stock"][data-path="rack"]`)
	p.until(`(localStorage.getItem("drawoff.shelf.1") ?? "").includes("leg-tube")`)
	p.until(`!document.querySelector("#cuts").textContent.includes("On the rack: 2.1 m")`)

	p.reload()
	p.until(`document.querySelector("#parts").textContent.includes("6, less 2 in hand")`)
	p.untilKept(`kept.length > 0`)
	p.untilKept(`!kept.some(r => r.text.includes("shop in town"))`) // what things cost is no part of a design
}

// The bench fits a phone and a screen.
func TestLooksOfTheBench(t *testing.T) {
	t.Parallel()
	for _, width := range []int{390, 1280} {
		p := tab(t)
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: int64(width), Height: 900, DeviceScaleFactor: 1})
		p.goTo("")
		p.typed("stand.legs", "4")
		p.typed("stand.brace", "diagonal")
		p.stocks("rack:bs-4825/1.5in", "2.1 m")
		p.stocks("items:clamp/1.5in/seal/epdm:inHand", "3")
		p.stocks("items:clamp/1.5in/ferrule:price", "dear")
		p.until(`document.querySelector("#cuts").textContent.includes("brace 4 of 4")`)
		assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), width, "nothing runs out at the side")
		for _, id := range []string{"parts", "cuts", "welds"} {
			p.unfold("#" + id)
			p.keep("bench-"+id+"-"+strconv.Itoa(width)+".png", get(p, chromedp.Screenshot(chromedp.CSS("#"+id))))
		}
	}
}

// What was typed on the shelf over something else comes back with Undo, which
// says so, since the shelf may be folded; in the history it has its name.
func TestShelfIsUndone(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			const field = "items:clamp/1.5in/ferrule:inHand"
			p := openAs(t, l)
			p.stocks(field, "2")
			p.stocks(field, "12")
			at := func() string {
				p.until(`document.documentElement.dataset.shop === "idle"`)
				return js[string](p, `document.querySelector(%s).value`, `input[data-stock="`+field+`"]`)
			}
			p.click("#undo")
			p.answered()
			assert.Equal(t, "2", at())
			assert.Equal(t, "Taken back: your shelf is as it was before.", p.text("#message"))
			p.keep("shelf-undone-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.click("#redo")
			p.answered()
			assert.Equal(t, "12", at())
			assert.Equal(t, "Done again on your shelf.", p.text("#message"))
			if l.width < 600 {
				p.click("#more")
			}
			p.click("#history")
			p.until(`document.getElementById("history-dialog").open`)
			assert.Equal(t, []string{"To buy: On my shelf, 12", "To buy: On my shelf, 2", "As it was when the page was opened"},
				js[[]string](p, `[...document.querySelectorAll("#history-list li")].map(li => li.textContent.replace(" (here)", ""))`))
			p.click("#history-list li:last-child button")
			p.answered()
			assert.Empty(t, at())
			p.reload()
			assert.Empty(t, at(), "and so it is at the next visit")
		})
	}
}
