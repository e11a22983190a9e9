//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
)

// A grip is dragged with the mouse, a finger or the keys, what hangs on it
// follows, and one undo takes the whole drag back.
func TestDrawingIsDragged(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			js[bool](p, `(document.getElementById("drawing-title").scrollIntoView(), true)`)
			at := js[[]float64](p, `(() => { const b = document.getElementById("grip-stand.height").querySelector(".grip-room").getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; })()`)
			was := p.value("stand.height")
			mouse := func(kind input.DispatchMouseEventType, dy float64) {
				call(p, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: kind, X: at[0], Y: at[1] + dy, Button: input.MouseButtonLeft, ClickCount: 1})
			}
			mouse(input.DispatchMouseEventTypeMousePressed, 0)
			for dy := 0.0; dy >= -30; dy -= 5 {
				mouse(input.DispatchMouseEventTypeMouseMoved, dy)
			}
			mouse(input.DispatchMouseEventTypeMouseReleased, -30)
			p.until(`document.getElementById("in-stand.height").value !== %s`, was)
			assert.Regexp(t, `^\d+[05] mm$`, p.value("stand.height"))
			p.keep("drag-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.click("#undo")
			p.untilValue("stand.height", design.Demo().Stand.Height.String())

			js[bool](p, `(document.getElementById("grip-pump.height").focus(), true)`)
			p.do(chromedp.KeyEvent(kb.ArrowUp))
			p.untilValue("pump.height", "250 mm")
			assert.Equal(t, "grip-pump.height", js[string](p, `document.activeElement.id`))
		})
	}
}

// A finger drags a grip and does not scroll the page by it.
func TestGripIsDraggedByAFinger(t *testing.T) {
	t.Parallel()
	p := openAs(t, look{390, 844, "light"})
	call(p, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: true})
	for grip, by := range map[string][2]float64{"stand.height": {0, -4}, "pump.away": {4, 0}, "delivery.height": {0, 4}} {
		js[bool](p, `(document.getElementById("drawing-title").scrollIntoView(), true)`)
		at := js[[]float64](p, `(() => { const b = document.getElementById(%s).querySelector(".grip-room").getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2, scrollY]; })()`, "grip-"+grip)
		there := func() float64 { return js[float64](p, `Number(document.getElementById(%s).dataset.at)`, "grip-"+grip) }
		metre := js[float64](p, `(() => { const svg = document.querySelector("#side-view svg"); return Number(svg.dataset.scale) * svg.clientWidth / svg.viewBox.baseVal.width; })()`)
		begun := there()
		touch := func(kind input.DispatchTouchEventType, steps float64) {
			points := []*input.TouchPoint{{X: at[0] + steps*by[0], Y: at[1] + steps*by[1]}}
			if kind == input.DispatchTouchEventTypeTouchEnd {
				points = []*input.TouchPoint{}
			}
			call(p, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
		}
		was := p.value(grip)
		touch(input.DispatchTouchEventTypeTouchStart, 0)
		for steps := 1.0; steps <= 6; steps++ {
			touch(input.DispatchTouchEventTypeTouchMove, steps)
		}
		touch(input.DispatchTouchEventTypeTouchEnd, 6)
		p.until(`document.getElementById(%s).value !== %s`, "in-"+grip, was)
		p.answered()
		assert.InDelta(t, begun+6*(by[0]-by[1])/metre, there(), 0.01, grip) // it is set in steps of 5 or 10 mm
		assert.Equal(t, at[2], js[float64](p, `scrollY`), "the page scrolls")
	}
}

// What is changed in place, value by value, is what a page shows that reads the
// whole: after numbers, words that need escaping, pieces more and fewer, a
// piece pointed at.
func TestWhatIsTouchedUpIsAsReadAnew(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	shown := func() map[string]string {
		p.until(`document.documentElement.dataset.shop === "idle"`)
		return js[map[string]string](p, `Object.fromEntries(["tally", "drawing", "verdicts", "pieces", "figures", "isometric", "heights", "emptying", "stays", "stability", "wash", "parts", "cuts"].map(id => [id, document.getElementById(id).innerHTML]))`)
	}
	same := func(after string) {
		t.Helper()
		touched := shown()
		p.reload()
		for id, anew := range shown() {
			at := 0 // where they part: whole regions are long to read
			for at < min(len(anew), len(touched[id])) && anew[at] == touched[id][at] {
				at++
			}
			from := max(0, at-100)
			assert.Equal(t, anew[from:min(len(anew), at+100)], touched[id][from:min(len(touched[id]), at+100)], "%s after %s", id, after)
		}
	}
	for _, height := range []string{"1600 mm", "1605 mm", "1.9 m"} {
		p.typed("tank.height", height)
	}
	same("numbers")
	p.typed("title", "Tank <b> & \"pump\"")
	p.typed("title", "Bottler's > & < tank")
	p.typed("stand.height", "800 mm") // the words of who cannot see the drawing hold an apostrophe
	same("words that need escaping")
	p.unfold("#pieces")
	js[bool](p, `(document.querySelector("#pieces tr[data-ref='under.1'] a").focus({preventScroll: true}), true)`)
	p.shows("#what", "butterfly valve")
	js[bool](p, `(document.activeElement.blur(), document.querySelectorAll(".lit").forEach(n => n.classList.length > 1 ? n.classList.remove("lit") : n.removeAttribute("class")), true)`)
	p.typed("stand.height", "810 mm")
	same("a piece pointed at")
	p.act("remove", "under.2")
	p.typed("stand.height", "820 mm")
	p.click("#undo")
	p.click("#undo")
	p.typed("stand.height", "830 mm")
	same("a piece fewer, and back")
}

// The drawing is made larger where it stands and fits again; a piece that is
// pointed at says what it is.
func TestDrawingIsMadeLarger(t *testing.T) {
	t.Parallel()
	p := openAs(t, look{390, 844, "light"})
	width := func() int { return js[int](p, `document.querySelector("#side-view svg").clientWidth`) }
	fits := width()
	for range 4 {
		p.click(`[data-zoom="1.25"]`)
	}
	assert.Greater(t, width(), 2*fits)
	assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), 390, "the page scrolls sideways")
	js[bool](p, `(document.getElementById("drawing-title").scrollIntoView(), true)`)
	p.unfold("#pieces")
	js[bool](p, `(document.querySelector("#pieces tr[data-ref='under.1'] a").focus({preventScroll: true}), true)`)
	p.shows("#what", "butterfly valve")
	p.keep("larger-390.png", get(p, chromedp.CaptureScreenshot()))
	p.click(`[data-zoom="0"]`)
	assert.Equal(t, fits, width())
}

// Where a piece and the room of a grip lie one over the other it is the piece
// that a finger means; one of the two arrow heads of a grip at least is the grip's.
func TestPiecesLieOverGrips(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		for _, name := range []string{"", "whey", "settling", "purée"} {
			t.Run(l.String()+" "+name, func(t *testing.T) {
				t.Parallel()
				p := openAs(t, l)
				if name != "" {
					was := p.text("#drawing")
					p.example(name)
					p.until(`document.getElementById("drawing").textContent !== %s`, was)
					p.answered()
				}
				assert.Empty(t, js[[]string](p, `(() => {
					document.getElementById("side-view").scrollIntoView({block: "center", behavior: "instant"});
					const out = [], middle = (e) => { const b = e.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]; };
					for (const b of document.querySelectorAll("#side-view .balloon .number")) {
						const piece = b.closest("[data-ref]").dataset.ref, hit = document.elementFromPoint(...middle(b))?.closest("[data-ref]")?.dataset.ref;
						if (hit !== piece) out.push("the balloon of " + piece + " gives " + hit);
					}
					for (const path of document.querySelectorAll("#side-view [data-ref] path.tube")) {
						for (const share of [0.1, 0.5, 0.9]) {
							const on = path.getPointAtLength(share * path.getTotalLength()).matrixTransform(path.getScreenCTM());
							const grip = document.elementFromPoint(on.x, on.y)?.closest("[data-grip]");
							if (grip) out.push(path.closest("[data-ref]").dataset.ref + " gives " + grip.id);
						}
					}
					for (const g of document.querySelectorAll("#side-view .grip")) {
						const [x, y] = middle(g.querySelector(".grip-room")), level = g.matches(".level");
						const hit = (by) => document.elementFromPoint(x + (level ? by : 0), y - (level ? 0 : by))?.closest("[data-grip]")?.id;
						if (hit(6) !== g.id && hit(-6) !== g.id) out.push(g.id + " gives " + hit(6));
					}
					return out;
				})()`))
				assert.Positive(t, js[int](p, `document.querySelectorAll("#side-view [data-ref] path.tube").length`))
			})
		}
	}
}
