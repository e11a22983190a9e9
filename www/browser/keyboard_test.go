//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lost says where the focus is when nobody can see it: on nothing, on what
// cannot be used, off the screen or behind something else.
const lost = `(() => {
	const on = document.activeElement, box = on.getBoundingClientRect();
	if (on === document.body || on.disabled || !on.checkVisibility({visibilityProperty: true})) return "on " + on.outerHTML.slice(0, 120);
	const x = box.x + box.width / 2, y = Math.max(box.y, 0) + Math.min(box.height, innerHeight) / 2, top = document.elementFromPoint(x, y);
	return top && (on.contains(top) || top.contains(on)) ? "" : "behind, at " + [x, y] + ": " + on.outerHTML.slice(0, 120);
})()`

// pressed goes to a button by the keyboard and presses it; the focus must stay
// where somebody sees it (WCAG 2.2, 2.4.7 and 2.4.11).
func (k keyboard) pressed(selector string) {
	k.t.Helper()
	k.use(selector)
	k.answered()
	k.until(`document.documentElement.dataset.shop === "idle"`)
	assert.Empty(k.t, js[string](k.page, lost), "after %s", selector)
}

// on is the selector of what has the focus, by what it does.
func (k keyboard) on() string {
	k.t.Helper()
	return js[string](k.page, `(({dataset: {act, path}, id}) => act ? act + " " + path : id)(document.activeElement)`)
}

// What is pressed may go away by that: the focus is then on what stands next to it.
func TestFocusIsNeverLost(t *testing.T) {
	t.Parallel()
	for _, l := range []look{looks[0], looks[2]} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			k := keyboard{p}
			p.until(`document.documentElement.dataset.shop === "idle"`)

			last := js[string](p, `[...document.querySelectorAll('button[data-act="remove"][data-path^="under."]')].at(-1).dataset.path`)
			k.pressed(`button[data-act="remove"][data-path="` + last + `"]`)
			k.pressed(`button[data-act="remove"][data-path="under.0"]`)
			assert.Equal(t, "remove under.0", k.on(), "the next one is there now")
			k.pressed(`#undo`)
			k.pressed(`#undo`)
			assert.NotEqual(t, "undo", k.on(), "there is nothing more to undo")
			k.pressed(`button[data-act="up"][data-path="under.1"]`)
			assert.Equal(t, "down under.0", k.on(), "the piece that was moved, which goes no further up")
			k.pressed(`#undo`)

			for range 3 { // ways out, each of which takes a verdict away
				k.pressed(`.ways button`)
			}
			k.pressed(`#message button`)

			if js[bool](p, `document.querySelector("#more").checkVisibility()`) {
				k.pressed(`#more`)
			}
			for _, opener := range []string{"history", "own-open", "designs"} {
				k.tabTo("#" + opener)
				p.do(chromedp.KeyEvent(kb.Enter))
				p.until(`document.querySelector("dialog[open]") !== null`)
				assert.Empty(t, js[string](p, lost), "in the dialog of %s", opener)
				p.do(chromedp.KeyEvent(kb.Escape))
				p.until(`document.querySelector("dialog[open]") === null`)
				assert.Equal(t, opener, k.on(), "back where it was opened")
			}
		})
	}
}

// Whatever has the focus is seen whole, or as much of it as the screen holds,
// below the bar that stays, on a phone held sideways too (WCAG 2.2, 2.4.11).
func TestFocusIsNotHidden(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {844, 390, "light"}, {1280, 800, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.openAll()
			hidden := js[[]string](p, `(() => {
				const bar = document.querySelector(".tally-bar"), found = [];
				for (const from of [0, 1e6]) for (const on of document.querySelectorAll("main :is(a[href],button,input,select,textarea,summary)")) {
					if (on.disabled || on.tabIndex < 0 || !on.checkVisibility({visibilityProperty: true})) continue;
					scrollTo(0, from);
					on.focus();
					const box = on.getBoundingClientRect();
					if (box.top < bar.getBoundingClientRect().bottom - 1 || box.top > innerHeight - 10) found.push(from + ": " + on.outerHTML.slice(0, 120));
				}
				return found;
			})()`)
			require.Empty(t, hidden)
		})
	}
}
