//go:build browser

package browser

import (
	"bytes"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// One person does the whole job, from a tank that is only in their head to a
// plant of which every rule is met, on paper and with a colleague in a shed
// without a network: with a mouse, by keyboard alone, with a finger on a phone.
func TestWholeJob(t *testing.T) {
	t.Parallel()
	for name, way := range map[string]struct {
		look look
		hand func(*page) hand
	}{
		"mouse":    {look{1280, 900, "light"}, func(p *page) hand { return mouse(p) }},
		"keyboard": {look{1280, 900, "light"}, func(p *page) hand { return keyboard{p} }},
		"touch":    {look{390, 844, "light"}, func(p *page) hand { return finger(p) }},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			at, _, cut := host(t)
			visit := func() *person {
				p := tab(t)
				p.as(way.look)
				p.do(chromedp.Navigate(at))
				p.ready()
				return &person{page: p, hand: way.hand(p)}
			}
			maker, colleague := visit(), visit()
			colleague.until(`document.documentElement.dataset.kept === "true"`)

			maker.startsTheirOwn()
			maker.keep("whole-own-"+name+".png", get(maker.page, chromedp.CaptureScreenshot()))
			maker.looksAtWhatIsAssumed()
			taps := maker.takesWaysOutUntilAllIsSound()
			t.Log(taps, "taps from a new plant to one of which every rule is met")
			maker.seesWhatIsWrongWithANumber()
			maker.prints()
			link := maker.copiesTheLink()
			assert.LessOrEqual(t, js[int](maker.page, `document.documentElement.scrollWidth`), int(way.look.width), "the page scrolls sideways")
			maker.keep("whole-"+name+".png", get(maker.page, chromedp.CaptureScreenshot()))

			cut()
			colleague.do(chromedp.Navigate("about:blank"), chromedp.Navigate(link))
			colleague.ready()
			colleague.readsWhatWasSent()
			colleague.comparesWithAChange()
			colleague.keep("whole-sent-"+name+".png", get(colleague.page, chromedp.CaptureScreenshot()))
		})
	}
}

// person is somebody at the page, who does with a hand what they do.
type person struct {
	*page
	hand
}

// settled waits until the page has worked out what it was told.
func (p *person) settled() {
	p.t.Helper()
	p.until(`document.documentElement.dataset.shop === "idle"`)
}

// sees waits until words can be read in what selector finds, if need be after scrolling.
func (p *person) sees(selector, words string) {
	p.t.Helper()
	p.until(`Array.from(document.querySelectorAll(%s)).some(e => e.checkVisibility() && e.innerText.includes(%s))`, selector, words)
}

func (p *person) startsTheirOwn() {
	p.use("#own-open")
	p.until(`document.getElementById("own").open`)
	p.write("#own-tank\\.bore", "90 cm")
	p.write("#own-tank\\.height", "1.2 m")
	p.pick("#own-tank\\.outlet\\.size", "2 in (BS 4825-1)")
	p.write("#own-pump\\.away", "a stride")
	p.write("#own-pump\\.height", "240 mm")
	p.use("#own-start")
	p.sees(".field:has(#own-pump\\.away) #own-fault", "Does not begin with a number")
	p.keep("asked-"+strings.ReplaceAll(p.t.Name(), "/", "-")+".png", get(p.page, chromedp.CaptureScreenshot()))
	p.write("#own-pump\\.away", "1.8 m")
	p.use("#own-start")
	p.until(`!document.getElementById("own").open`)
	p.sees("#message", "Here is your plant")
	p.untilValue("tank.bore", "90 cm")
	p.settled()
}

// looksAtWhatIsAssumed says of one thing that it is right, changes another, and
// then says of all the rest that it is right, too.
func (p *person) looksAtWhatIsAssumed() {
	const list = `#assumed li`
	left := func() int { return js[int](p.page, `document.querySelectorAll(%s).length`, list) }
	p.sees(`#verdicts,#verdicts-later`, "things here are assumed")
	p.use(`.verdict[data-rule="assumed"] a[href="#assumed-title"]`)
	n := left()
	p.use(list + " button")
	p.until(`document.querySelectorAll("#assumed li").length < ` + count(n))
	p.settled()
	n = left()
	p.write(field("stand.bucket"), "150 mm")
	p.until(`document.querySelectorAll("#assumed li").length < ` + count(n))
	p.settled()
	p.use(`#assumed > button`)
	p.sees("#assumed", "Nothing here is assumed")
	p.settled()
}

// takesWaysOutUntilAllIsSound takes the first way out that is offered, again
// and again, and returns how many it took.
func (p *person) takesWaysOutUntilAllIsSound() (taps int) {
	const offer = `.verdict:not(.sound) .ways button`
	for ; !strings.Contains(p.text("#tally"), "Sound as drawn"); taps++ {
		require.Less(p.t, taps, 10, "too many taps")
		p.until(`document.querySelector(%s) !== null`, offer)
		what := js[string](p.page, `document.querySelector(%s).textContent`, offer)
		p.use(offer)
		p.sees("#message", what)
		assert.True(p.t, js[bool](p.page, `(() => { const at = document.querySelector("#message p").getBoundingClientRect(); return at.top >= 0 && at.bottom <= innerHeight; })()`), "what was done is told in sight")
		p.keep("mended-"+strings.ReplaceAll(p.t.Name(), "/", "-")+".png", get(p.page, chromedp.CaptureScreenshot()))
		p.settled()
	}
	p.sees("#tally", "Sound as drawn: every rule that Drawoff knows is met")
	p.use("#message button")
	p.until(`document.querySelector(%s) !== null`, offer)
	p.settled()
	p.use("#redo")
	p.sees("#tally", "Sound as drawn")
	p.settled()
	return taps
}

// seesWhatIsWrongWithANumber is told beside the field, and undoes it.
func (p *person) seesWhatIsWrongWithANumber() {
	was := p.value("pump.height")
	p.write(field("pump.height"), "knee high")
	p.sees(".field:has("+field("pump.height")+")", "oes not begin with a number")
	p.sees("#pending", "not taken yet")
	p.use("#undo")
	p.untilValue("pump.height", was)
	p.until(`document.getElementById("pending").textContent === ""`)
	p.settled()
}

func (p *person) prints() {
	js[bool](p.page, `(window.print = () => { window.printed = true; }, addEventListener("beforeprint", () => { window.paper = document.getElementById("sheets").textContent; }), true)`)
	p.use("#print-sheet")
	p.until(`window.printed === true`)
	pdf := get(p.page, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	assert.GreaterOrEqual(p.t, bytes.Count(pdf, []byte("/Type /Page\n")), 7, "a page for each sheet")
	paper := js[string](p.page, `window.paper`)
	for _, words := range []string{"rules are met", "butterfly valve, 2 in (BS 4825-1)"} {
		assert.True(p.t, strings.Contains(paper, words), words)
	}
	assert.False(p.t, strings.Contains(paper, "to be looked at before it is built"), "every rule was met")
}

func (p *person) copiesTheLink() string {
	js[bool](p.page, `(navigator.clipboard.writeText = async (text) => { window.copied = text; }, true)`)
	p.use("#copy-link")
	p.sees("#message", "The link is copied")
	return js[string](p.page, `window.copied`)
}

func (p *person) readsWhatWasSent() {
	p.sees("#sent", "You are looking at a plant that was sent to you")
	p.settled()
	p.sees("#tally", "Sound as drawn")
	p.use("#sent button")
	p.until(`!("sent" in document.documentElement.dataset)`)
	p.untilValue("tank.bore", "90 cm")
}

// comparesWithAChange keeps the plant as A, lets the outflow be higher, and
// sees both beside each other.
func (p *person) comparesWithAChange() {
	p.settled()
	p.use("#keep-a")
	p.sees("#compare", "B is A")
	p.write(field("delivery.height"), "2.35 m")
	p.sees("#compare", "2.35 m")
	p.sees("#compare", "2 m")
	p.until(`document.querySelectorAll("#compare .pair svg").length === 2`)
}
