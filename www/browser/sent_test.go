//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
)

// isSent and isMine tell whether the page reads a plant that was sent.
const (
	isSent = `"sent" in document.documentElement.dataset && document.querySelector("#sent").textContent.includes("Nothing of yours was touched.")`
	isMine = `!("sent" in document.documentElement.dataset) && document.querySelector("#sent").textContent === ""`
)

// reach are the controls that change a design or the shelf, and can be reached.
const reach = `[...document.querySelectorAll("[data-path],[data-edits],[data-grip],[data-measure],[data-stock],[data-add],[data-act],[data-from],[data-op],#form *")].filter(e => (e.focus(), document.activeElement === e)).map(e => e.outerHTML)`

func sentPlant() design.Design {
	d := design.Demo()
	d.Title = "Barn <b>two</b>"
	d.Note = "for the welder"
	return d
}

// A link opens as a report. Nothing of it is kept and nothing of the reader's
// is touched until they want it for their own; they go back as they came.
func TestSentPlantIsReadFirst(t *testing.T) {
	t.Parallel()
	link := "#" + design.WriteLink(sentPlant())
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.typed("title", "Of mine")
			p.untilKept(`kept.length === 1 && kept[0].title === "Of mine"`)
			js[bool](p, `(() => {
				const c = document.querySelector(%s);
				c.value = "1.87 m";
				c.dispatchEvent(new InputEvent("input", {bubbles: true}));
				location.hash = %s;
				return true;
			})()`, field("tank.height"), link)
			p.until(isSent)
			p.until(`document.documentElement.dataset.shop === "idle"`)
			assert.Contains(t, p.text("#sent"), "sent to you: Barn <b>two</b>.")
			assert.Empty(t, js[[]string](p, reach), "nothing that edits can be reached")
			assert.True(t, js[bool](p, `document.querySelector("#form").inert`))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			p.untilKept(`kept.length === 1 && kept[0].title === "Of mine" && kept[0].text.includes("1.87 m")`)
			p.keep("sent-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))

			// The window is loaded again, its address without the link: it reads on.
			assert.Empty(t, js[string](p, `location.hash`))
			p.reload()
			p.until(isSent)
			p.untilKept(`kept.length === 1 && kept[0].title === "Of mine" && kept[0].text.includes("1.87 m")`)

			// A hurt link is told, and the reader reads on.
			js[bool](p, `(location.hash = "#1.AAAA", true)`)
			p.until(`document.querySelector("#message").textContent.includes("link")`)
			assert.True(t, js[bool](p, isSent))

			js[bool](p, `(document.querySelectorAll("#sent button")[1].click(), true)`)
			p.until(isMine)
			assert.Equal(t, "Of mine", p.value("title"))
			assert.Equal(t, "1.87 m", p.value("tank.height"))
			p.reload()
			assert.Equal(t, "Of mine", p.value("title"), "and is not brought back to it")

			js[bool](p, `(location.hash = %s, true)`, link)
			p.until(isSent)
			p.click("#undo")
			p.until(isMine)
			p.click("#redo")
			p.until(isSent)
			p.click("#sent button")
			p.until(isMine)
			p.untilValue("title", "Barn <b>two</b>")
			p.typed("note", "welded")
			p.untilKept(`kept.length === 2 && kept[0].title === "Barn <b>two</b>" && kept[0].text.includes("welded") && kept[1].title === "Of mine" && kept[1].text.includes("1.87 m")`)
			p.reload()
			assert.Equal(t, "Barn <b>two</b>", p.value("title"))
		})
	}
}

// Several links are gone through one after the other, each of them a plant of
// its own, and Back to mine goes back over all of them.
func TestSentPlantsOneAfterTheOther(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("title", "Of mine")
	for i := range 3 {
		d := sentPlant()
		d.Title = "Sent " + strconv.Itoa(i)
		js[bool](p, `(location.hash = %s, true)`, "#"+design.WriteLink(d))
		p.until(`document.querySelector("#sent").textContent.includes(%s)`, d.Title)
	}
	js[bool](p, `(document.querySelectorAll("#sent button")[1].click(), true)`)
	p.until(isMine)
	assert.Equal(t, "Of mine", p.value("title"))
	p.untilKept(`kept.length === 1 && kept[0].title === "Of mine"`)
}

// What was read can be printed, saved and sent on.
func TestSentPlantGoesOn(t *testing.T) {
	t.Parallel()
	p := open(t, "#"+design.WriteLink(sentPlant()))
	dir := t.TempDir()
	downloadTo(p, dir)
	p.until(isSent)
	p.until(`document.documentElement.dataset.shop === "idle" && document.querySelector("#summary") !== null`)
	assert.Contains(t, js[string](p, `document.querySelector("#summary").value`), "Barn <b>two</b>")
	js[bool](p, `(dispatchEvent(new Event("beforeprint")), true)`)
	assert.Contains(t, p.text("#sheets"), "for the welder")
	p.click("#save-file")
	p.until(`document.querySelector("#message").textContent.includes("Saved as")`)
	p.until(isSent)
}
