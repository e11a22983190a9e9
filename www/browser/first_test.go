//go:build browser

package browser

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
)

// Every example opens as it is in its file, and undo brings back what was here.
func TestExamplesOpen(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("note", "my own")
	for _, e := range design.Examples() {
		p.example(e.Name)
		p.shows("#message", "Opened")
		p.untilValue("title", e.Design.Title)
		p.untilValue("tank.bore", e.Design.Tank.Bore.String())
		for _, region := range regions {
			assert.NotContains(t, p.text("#"+region), "NaN", e.Slug)
		}
		p.click("#undo")
		p.untilValue("note", "my own")
	}
}

// What the examples look like.
func TestLooksOfExamples(t *testing.T) {
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			p := openAs(t, l)
			for _, e := range design.Examples()[1:] {
				p.example(e.Name)
				p.untilValue("title", e.Design.Title)
				assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
				p.keep("example-"+e.Slug+"-"+l.String()+".png", get(p, chromedp.Screenshot(chromedp.CSS("#drawing"))))
			}
			p.keep("examples-bar-"+l.String()+".png", get(p, chromedp.Screenshot(chromedp.CSS(".top"))))
		})
	}
}

// Somebody who starts is asked about the pump where there is one, and about the
// angle of a cone; what was typed before that was known stands in nobody's way.
func TestAskedIsWhatCounts(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.click("#own-open")
	say := func(path, value string) {
		js[bool](p, `(() => { const c = document.getElementById(%s); c.value = %s; return c.value !== ""; })()`, "own-"+path, value)
	}
	asked := func(path string) bool {
		return js[bool](p, `document.getElementById(%s).checkVisibility()`, "own-"+path)
	}
	for _, path := range design.MustKnow {
		assert.True(t, asked(path), path)
	}
	say("pump.away", "a stride")
	say("pump.kind", "none")
	say("tank.bottom", "flat")
	for _, path := range []string{"tank.coneAngle", "pump.away", "pump.height", "pump.inSize"} {
		assert.False(t, asked(path), path)
	}
	say("tank.bore", "900 mm")
	say("tank.height", "1 m")
	js[bool](p, `(() => { const c = document.getElementById("own-tank.outlet.size"); c.append(new Option("", "bs-4825/2in", true, true)); return true; })()`)
	p.click("#own-start")
	p.until(`!document.getElementById("own").open`)
	p.untilValue("tank.bore", "900 mm")
}

// What is gone to stands below the bar, however much that has to tell.
func TestWhatIsGoneToClearsTheBar(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {844, 390, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			for _, told := range []string{"", "the whole design, in an address that is told to be copied by hand: " + strings.Repeat("one more word ", 12)} {
				js[bool](p, `(() => { const p = document.createElement("p"); p.textContent = %s; if (p.textContent) document.getElementById("message").replaceChildren(p); return true; })()`, told)
				js[bool](p, `new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(() => drawn(true))))`)
				for _, link := range []string{`.tally`, `nav a[href="#answers-title"]`} {
					js[bool](p, `(scrollTo(0, 0), document.querySelector(%s).click(), true)`, link)
					p.until(`(() => {
						const there = document.querySelector(document.querySelector(%s).hash).getBoundingClientRect(), bar = document.querySelector(".tally-bar").getBoundingClientRect();
						return there.top >= bar.bottom && there.bottom <= innerHeight;
					})()`, link)
				}
			}
		})
	}
}
