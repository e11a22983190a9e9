//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// Runs are found when asked for, shown side by side, put in with one tap and
// taken out with one undo; what stands in the way is marked with a button.
func TestRunsAreFound(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(design.Edit{Path: "stand.height", Value: "950 mm"}, design.Edit{Path: "pump.aside", Value: "300 mm"}, design.Edit{Path: "finder.other", Value: "bs-4825/2in"})
	require.Empty(t, faults)
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.given(d)
			js[bool](p, `(() => { for (let e = document.querySelector("[data-from]"); e; e = e.parentElement) if (e.nodeName === "DETAILS") e.open = true; return true; })()`)
			before := p.value("run.2.kind")
			p.click(`button[data-path="keepOuts.0"]`)
			p.untilValue("keepOuts.0.long", "100 mm")
			js[bool](p, `(document.querySelector(%s).scrollIntoView({block: "center"}), true)`, field("keepOuts.0.long"))
			p.keep("finder-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.click(`[data-from="tank"]`)
			p.until(`document.querySelectorAll("#runs .run").length > 1`)
			js[bool](p, `(document.getElementById("runs-title").scrollIntoView(), true)`)
			p.keep("runs-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")

			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.withAxe()
			p.holds("the runs", "#runs")
			p.click(`#runs .run button`)
			p.until(`document.querySelector("#message").textContent.includes("Run 1 is in. Undo takes it back.")`)
			p.until(`document.querySelector("#runs .run") === null`)
			assert.Contains(t, p.text("#verdicts"), "The line meets the pump inlet")
			p.keep("run-in-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.click("#undo")
			p.untilValue("run.2.kind", before)

			// From the pump on there are others.
			js[bool](p, `(document.querySelector('[data-from="pump"]').scrollIntoView({block: "center"}), true)`)
			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.click(`[data-from="pump"]`)
			p.until(`document.querySelectorAll("#runs .run").length > 1`)
			js[bool](p, `(document.getElementById("runs-title").scrollIntoView(), true)`)
			p.keep("runs-from-pump-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.click(`#runs .run button`)
			p.until(`document.querySelector("#message").textContent.includes("Run 1 is in. Undo takes it back.")`)
			assert.Contains(t, p.text("#verdicts"), "The line meets the outflow")
		})
	}
}

// A search that goes on shows that it does, and is stopped by a button; the
// page is alive meanwhile and after.
func TestFindingIsStopped(t *testing.T) {
	t.Parallel()
	edits := []design.Edit{{Path: "pump.away", Value: "4 m"}, {Path: "pump.aside", Value: "1500 mm"}, {Path: "stand.height", Value: "1 m"}}
	for i := range design.MaxKeepOuts {
		at := "keepOuts." + strconv.Itoa(i)
		edits = append(edits, design.Edit{Op: "insert", Path: at})
		for name, mm := range map[string]int{
			"away": 500 + i*379%3000, "aside": -1500 + i*997%3500, "above": i * 61 % 500,
			"long": 50 + i*83%300, "wide": 50 + i*149%500, "high": 100 + i*113%600,
		} {
			edits = append(edits, design.Edit{Path: at + "." + name, Value: strconv.Itoa(mm) + " mm"})
		}
	}
	d, faults := design.Demo().Apply(edits...)
	require.Empty(t, faults)
	p := openAs(t, look{1280, 900, "light"})
	p.given(d)
	js[bool](p, `(() => { for (let e = document.querySelector("[data-from]"); e; e = e.parentElement) if (e.nodeName === "DETAILS") e.open = true; return true; })()`)
	p.until(`document.documentElement.dataset.shop === "idle"`)
	p.click(`[data-from="tank"]`)
	p.until(`getComputedStyle(document.getElementById("finding")).visibility === "visible" && document.getElementById("finding").offsetHeight > 0`)
	p.keep("finding.png", get(p, chromedp.CaptureScreenshot()))
	p.click("#stop-finding")
	p.until(`document.querySelector("#message").textContent.includes("Stopped looking for runs.")`)
	assert.Zero(t, js[int](p, `document.querySelectorAll("#runs .run").length`))
	p.until(`document.documentElement.dataset.shop === "idle"`)
	assert.Contains(t, js[string](p, `(dispatchEvent(new Event("beforeprint")), document.getElementById("sheets").textContent)`), "Legs", "all else is worked out again: the sheets can be printed")
}
