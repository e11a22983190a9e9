//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
)

// What was done is listed in the page's own words, and a press goes back to it
// and forth again, by the keyboard alone.
func TestHistory(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "dark"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			was := p.value("tank.bore")
			p.typed("tank.bore", "980 mm")
			p.typed("tank.height", "1.2 m")
			p.act("remove", "under.1")
			p.do(chromedp.Focus(chromedp.CSS(`[id="grip-pump.height"]`)), chromedp.KeyEvent(kb.ArrowUp))
			p.answered()
			p.until(`document.documentElement.dataset.shop === "idle"`)
			way := js[string](p, `document.querySelector("#verdicts button[data-edits]").dataset.value`)
			p.click("#verdicts button[data-edits]")
			if l.width < 600 {
				p.click("#more")
			}
			show := func() {
				p.do(chromedp.Focus(chromedp.CSS("#history")), chromedp.KeyEvent(kb.Enter))
				p.until(`document.getElementById("history-dialog").open`)
			}
			show()
			assert.Equal(t, []string{
				way,
				"Pump inlet over the floor",
				"butterfly valve, 1½ in: Remove piece 2",
				"Tank: Straight side, 1.2 m",
				"Tank: Bore, 980 mm",
				"As it was when the page was opened",
			}, js[[]string](p, `[...document.querySelectorAll("#history-list li")].slice(-6).map(li => li.textContent.replace(" (here)", ""))`))
			p.keep("history-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.Empty(t, js[[]string](p, `[...document.querySelectorAll("#history-dialog button")].filter(b => b.offsetHeight < 44).map(b => b.textContent)`), "too small for a glove")
			p.do(chromedp.Focus(chromedp.CSS(`#history-list li:last-child button`)), chromedp.KeyEvent(kb.Enter))
			p.untilValue("tank.bore", was)
			assert.Equal(t, "history", js[string](p, `document.activeElement.id`), "the focus comes back")
			show()
			p.do(chromedp.Focus(chromedp.CSS(`#history-list li:nth-last-child(3) button`)), chromedp.KeyEvent(kb.Enter))
			p.untilValue("tank.height", "1.2 m")
			assert.Equal(t, "980 mm", p.value("tank.bore"))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
		})
	}
}

// The focus goes with a piece that is moved, back with undo and forth again, and
// the piece is named at it; what the workshop had told of it comes back with it.
func TestUndoneMoveKeepsItsPiece(t *testing.T) {
	t.Parallel()
	p := openAs(t, look{1280, 900, "light"})
	p.until(`document.documentElement.dataset.shop === "idle"`)
	name := func() string {
		return js[string](p, `document.activeElement.closest(".piece-card")?.querySelector(".piece-label").textContent ?? document.activeElement.id`)
	}
	on := `button[data-act="down"][data-path="run.1"]`
	p.unfold(on)
	told := js[[]string](p, `[...document.querySelectorAll(".verdict.later .where")].map(n => n.textContent)`)
	p.do(chromedp.Focus(chromedp.CSS(on)))
	piece := name()
	p.do(chromedp.KeyEvent(kb.Enter))
	p.answered()
	p.until(`document.activeElement.dataset.path === "run.2"`)
	assert.Equal(t, piece, name())
	p.until(`document.documentElement.dataset.shop === "idle"`)
	for range 2 {
		p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
		p.answered()
		assert.Equal(t, "run.1", js[string](p, `document.activeElement.dataset.path`))
		assert.Equal(t, piece, name())
		assert.Equal(t, told, js[[]string](p, `[...document.querySelectorAll(".verdict.later .where")].map(n => n.textContent)`), "before the workshop has answered")
		p.do(chromedp.KeyEvent("y", chromedp.KeyModifiers(chromedp.ModifierCtrl)))
		p.answered()
		assert.Equal(t, "run.2", js[string](p, `document.activeElement.dataset.path`))
		assert.Equal(t, piece, name())
	}
	p.do(chromedp.Focus(chromedp.CSS("#undo")), chromedp.KeyEvent(kb.Enter))
	p.answered()
	assert.True(t, js[bool](p, `document.activeElement.closest(".bar") !== null`), "whoever undoes elsewhere stays there")
}

// Undo that comes at once takes back what stands in the field, too: on a slow
// phone the page has not yet been given the form that was typed in.
func TestUndoAtOnceEmptiesTheField(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	for path, value := range map[string]string{"title": "Second", "tank.bore": "980 mm"} {
		was := p.value(path)
		p.unfold(field(path))
		js[bool](p, `(() => {
			const control = document.querySelector(%s);
			control.focus();
			control.value = %s;
			for (const when of ["input", "change"]) control.dispatchEvent(new Event(when, {bubbles: true}));
			document.getElementById("undo").disabled = false;
			document.getElementById("undo").focus();
			document.getElementById("undo").click();
			return true;
		})()`, field(path), value)
		p.answered()
		p.until(`document.documentElement.dataset.shop === "idle"`)
		assert.Equal(t, was, p.value(path))
	}
}
