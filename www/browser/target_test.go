//go:build browser

package browser

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Whatever can be pressed on a phone has 44 px to be pressed on, up and down
// and to either side of its middle: where it is smaller, nothing else to be
// pressed is as near (WCAG 2.2, 2.5.5 and 2.5.8). The drawings are for another
// test; links in the middle of a text, which 2.5.5 leaves out, are not left out.
func TestTargetsAreLargeEnough(t *testing.T) {
	t.Parallel()
	p := openAs(t, look{390, 844, "light"})
	p.until(`document.documentElement.dataset.shop === "idle"`)
	const tooNear = `(async () => {
		const press = "a[href],button,select,input:not([type=file]),textarea,summary,label:has(input)", out = [];
		for (const e of document.querySelectorAll(press)) {
			if (!e.checkVisibility({ visibilityProperty: true }) || e.closest("svg") || e.matches(".skip")) continue;
			e.scrollIntoView({ block: "center", inline: "center", behavior: "instant" });
			const box = e.getClientRects()[0], x = box.x + box.width / 2, y = box.y + box.height / 2;
			const mine = (o) => o === e || e.contains(o) || o.contains(e) || e.labels && Array.from(e.labels).includes(o) || o.control === e;
			for (const [dx, dy] of [[0, -21], [0, 21], [-21, 0], [21, 0]]) {
				const there = document.elementFromPoint(x + dx, y + dy)?.closest(press);
				if (there && !mine(there)) out.push((e.textContent || e.ariaLabel || e.id).slice(0, 40) + " | " + (there.textContent || there.ariaLabel || there.id).slice(0, 40));
			}
		}
		return out;
	})()`
	assert.Empty(t, js[[]string](p, tooNear), "as it comes")
	js[bool](p, `(document.querySelectorAll("details").forEach(d => d.open = true), document.getElementById("more").click(), true)`)
	assert.Empty(t, js[[]string](p, tooNear), "all unfolded")
}

// The page never scrolls sideways, down to the 320 px that 1280 px at 400 % are:
// not unfolded, and not with letters, words and lines as far apart as a reader
// may set them (WCAG 2.2, 1.4.10 and 1.4.12).
func TestNarrowPageReflows(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{320, 640, "light"}, {360, 640, "light"}, {390, 844, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			p := openAs(t, l)
			p.until(`document.documentElement.dataset.shop === "idle"`)
			const width = `document.documentElement.scrollWidth`
			assert.LessOrEqual(t, js[int](p, width), int(l.width), "as it comes")
			js[bool](p, `(document.querySelectorAll("details").forEach(d => d.open = true), true)`)
			assert.LessOrEqual(t, js[int](p, width), int(l.width), "all unfolded")
			js[bool](p, `(document.head.insertAdjacentHTML("beforeend", "<style>* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }</style>"), true)`)
			assert.LessOrEqual(t, js[int](p, width), int(l.width), "letters spaced")
		})
	}
}
