//go:build browser

package browser

import (
	"testing"
)

// A page that is left before it was painted keeps what was typed: it may not
// come back.
func TestLastKeystrokeIsKeptWhenThePageIsLeft(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.untilKept(`kept.length === 1`)
	js[bool](p, `(() => {
		const control = document.querySelector(%s);
		control.value = "1234 mm";
		control.dispatchEvent(new Event("input", {bubbles: true}));
		location.reload();
		delete document.documentElement.dataset.ready;
		return true;
	})()`, field("tank.height"))
	p.ready()
	p.untilValue("tank.height", "1234 mm")
}

// A workshop that cannot be had is told, the page lives on, and the next
// change tries again.
func TestWorkshopThatFailsIsTold(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.until(`document.querySelector("#emptying").textContent.includes("the transfer takes")`)
	const module = `document.querySelector("script[data-workshop]").dataset.workshop`
	js[bool](p, `(window.whole = `+module+`, `+module+` = document.querySelector("link[rel=stylesheet]").href, document.querySelector("#stop-finding").click(), true)`)
	p.typed("tank.fill", "800 L")
	p.until(`document.querySelector("#message .fault")?.textContent.includes("tried again at the next change")`)
	p.until(`document.documentElement.dataset.shop === "idle"`)
	p.until(`document.querySelector("#verdicts").textContent.includes("Not worked out yet")`)

	js[bool](p, `(`+module+` = window.whole, true)`)
	p.typed("tank.fill", "700 L")
	p.until(`document.querySelector("#emptying").textContent.includes("700 L")`)
}
