//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// Somebody starts their own plant: is asked what must be known, is told at the
// question what is wrong, and says of what was made up that it is right.
func TestStartMyOwn(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "dark"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.click("#own-open")
			p.until(`document.activeElement.id === "own-tank.bore"`)
			say := func(path, value string) {
				js[bool](p, `(() => { const c = document.getElementById(%s); c.focus(); c.value = %s; return true; })()`, "own-"+path, value)
			}
			say("tank.bore", "90 cm wide")
			say("tank.height", "1.3 m")
			js[bool](p, `(document.getElementById("own-tank.outlet.size").focus(), true)`)
			say("tank.outlet.size", "bs-4825/2in")
			say("pump.away", "1.5 m")
			say("pump.height", "200 mm")
			p.click("#own-start")
			p.until(`document.getElementById("own-fault").textContent !== ""`)
			assert.Equal(t, "own-tank.bore", js[string](p, `document.activeElement.id`))
			p.keep("own-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			say("tank.bore", "90 cm")
			p.click("#own-start")
			p.until(`!document.getElementById("own").open`)
			p.untilValue("tank.bore", "90 cm")
			p.shows("#assumed", "It is right")
			p.shows("#tally", "to look at")
			before := js[int](p, `document.querySelectorAll("#assumed li").length`)
			p.unfold("#assumed")
			js[bool](p, `(document.getElementById("assumed-title").scrollIntoView(), true)`)
			p.keep("own-assumed-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			js[bool](p, `(window.scrollTo(0, 0), true)`)
			p.keep("own-plant-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			p.click("#assumed li button")
			p.until(`document.querySelectorAll("#assumed li").length < ` + strconv.Itoa(before))
		})
	}
}
