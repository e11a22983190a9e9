//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// wrong is a plant whose parts do not mate: a valve the wrong way round, one
// clamp over a ledge, one seal left out, seals that caustic attacks.
func wrong(t *testing.T) design.Design {
	t.Helper()
	d, faults := design.Demo().Apply(
		design.Edit{Path: "under.0.out", Value: "ring-joint/liner"}, design.Edit{Path: "under.1.in", Value: "ring-joint/liner"},
		design.Edit{Path: "under.1.out", Value: "ring-joint/male"}, design.Edit{Path: "under.2.in", Value: "ring-joint/male"},
		design.Edit{Path: "run.0.size", Value: "din-11866-a/dn40"}, design.Edit{Path: "pump.seal", Value: "none"},
		design.Edit{Path: "seal", Value: "fkm"},
		design.Edit{Op: "insert", Path: "cleaning.0"}, design.Edit{Path: "cleaning.0.agent", Value: "caustic"},
	)
	require.Empty(t, faults)
	return d
}

// A way out is one tap, on a phone and on a desk, and undo takes it back.
func TestWayOutIsOneTap(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.given(wrong(t))
			const turn = `button[data-value="Turn piece 2 round."]`
			p.until(`document.querySelector(%s) !== null`, turn)
			js[bool](p, `(document.getElementById("verdicts-title").scrollIntoView(), true)`)
			p.keep("ways-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")

			p.click(turn)
			p.until(`document.querySelector(%s) === null`, turn)
			p.untilValue("under.1.in", "ring-joint/male")
			p.untilValue("under.1.out", "ring-joint/liner")
			assert.Contains(t, p.text("#message"), "Turn piece 2 round. Undo takes it back.")
			assert.Equal(t, "verdicts-title", js[string](p, `document.activeElement.id`), "the keyboard goes on from the verdicts")
			p.click("#undo")
			p.untilValue("under.1.in", "ring-joint/liner")
		})
	}
}

// Whoever presses a way out, or says that what was assumed is right, while the
// workshop still thinks about what was done before, is not left without an answer.
func TestWhatIsPressedTooEarlyIsDoneLater(t *testing.T) {
	t.Parallel()
	d := wrong(t)
	d.Assumed = []design.Assumption{{Path: "tank.wall"}, {Path: "stand.legs"}, {Path: "pump.kind"}}
	p := open(t, "")
	p.given(d)
	const turn = `button[data-value="Turn piece 2 round."]`
	p.until(`document.querySelector(%s) !== null && document.documentElement.dataset.shop === "idle"`, turn)
	assert.Equal(t, "busy", js[string](p, `(() => {
		const right = document.querySelectorAll(".assumed button");
		right[0].click();
		right[1].click();
		return document.documentElement.dataset.shop;
	})()`))
	p.until(`document.querySelectorAll(".assumed button").length === 1`)
	assert.Equal(t, "busy", js[string](p, `(() => {
		const title = document.querySelector('[data-path="title"]');
		title.focus();
		title.value = "Early";
		title.dispatchEvent(new Event("input", {bubbles: true}));
		title.dispatchEvent(new Event("change", {bubbles: true}));
		document.querySelector(%s).click();
		return document.documentElement.dataset.shop;
	})()`, turn))
	p.untilValue("under.1.in", "ring-joint/male")
	p.untilValue("title", "Early")
	p.until(`document.documentElement.dataset.shop === "idle"`)

	// What is not offered any more is not done, and that is told.
	js[bool](p, `(document.querySelector("#undo").click(), true)`)
	p.until(`document.querySelector(%s) !== null && document.documentElement.dataset.shop === "idle"`, turn)
	js[bool](p, `(() => {
		const path = '[data-path="under.1.in"]', half = document.querySelector(path);
		half.value = "ring-joint/male";
		const offered = document.querySelector(%s);
		half.dispatchEvent(new Event("change", {bubbles: true}));
		offered.click();
		return true;
	})()`, turn)
	p.shows("#message", "not offered any more")
	assert.Equal(t, "ring-joint/male", p.value("under.1.in"))
}

// A press that waits is not done to what is on the bench by then, if somebody
// has gone back by the keyboard, or opened what was sent to them.
func TestPressThatWaitsGivesWay(t *testing.T) {
	t.Parallel()
	const turn = `button[data-value="Turn piece 2 round."]`
	for name, then := range map[string]string{
		"undo": `document.body.dispatchEvent(new KeyboardEvent("keydown", {key: "z", ctrlKey: true, bubbles: true}))`,
		"link": `location.hash = "#` + design.WriteLink(wrong(t)) + `"`,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := open(t, "")
			p.given(wrong(t))
			p.until(`document.querySelector(%s) !== null && document.documentElement.dataset.shop === "idle"`, turn)
			p.typed("title", "First")
			p.until(`document.querySelector(%s) !== null && document.documentElement.dataset.shop === "idle"`, turn)
			js[bool](p, `(() => {
				const title = document.querySelector('[data-path="title"]');
				title.value = "Second";
				title.dispatchEvent(new Event("change", {bubbles: true}));
				document.querySelector(%s).click();
				document.activeElement.blur();
				`+then+`;
				return true;
			})()`, turn)
			if name == "link" {
				p.until(`"sent" in document.documentElement.dataset`)
			}
			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.answered()
			assert.Equal(t, "ring-joint/liner", p.value("under.1.in"))
		})
	}
}

// What a line is cleaned with is added from a list and taken out again.
func TestCleaningIsSaid(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	js[bool](p, `(() => {
		const add = document.querySelector('select[data-add="cleaning.0"]');
		add.value = "peracetic";
		add.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`)
	p.untilValue("cleaning.6.agent", "peracetic")
	p.typed("cleaning.6.temperature", "60 °C")
	p.until(`document.querySelector("#verdicts").textContent.includes("of which nothing is known")`)
	js[bool](p, `(document.querySelector(%s).scrollIntoView({block: "center"}), true)`, field("cleaning.6.agent"))
	p.keep("cleaning.png", get(p, chromedp.CaptureScreenshot()))
	p.act("remove", "cleaning.6")
	p.until(`document.querySelector('[data-path="cleaning.6.agent"]') === null`)
}

// The demo's verdicts have their repairs: one tap makes it, undo takes it back.
func TestRepairIsOneTap(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			const raise = `#verdicts [data-rule="stand-height"] .ways button`
			p.until(`document.querySelector(%s) !== null`, raise)
			assert.Contains(t, p.text(raise), "Raise the tank by ")
			js[bool](p, `(document.getElementById("verdicts-title").scrollIntoView(), true)`)
			p.keep("repairs-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.GreaterOrEqual(t, js[float64](p, `document.querySelector(%s).getBoundingClientRect().height`, raise), 44.0)
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			p.click(raise)
			p.until(`!document.querySelector("#verdicts .look[data-rule='stand-height']")`)
			p.click("#undo")
			p.untilValue("stand.height", "760 mm")
			p.until(`document.querySelector("#verdicts .look[data-rule='stand-height']") !== null`)
		})
	}
}
