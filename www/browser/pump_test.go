//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
)

// The points of a pump are typed into a table with the picture beside it, which
// follows; another kind of pump brings its own table.
func TestPumpTableAndPicture(t *testing.T) {
	t.Parallel()
	for _, l := range []look{looks[0], looks[2]} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			const picture = `document.querySelector("#pump-picture svg").outerHTML`
			before := js[string](p, picture)
			p.act("point", "pump.curve.1")
			p.until(`document.querySelectorAll(".curve-table tbody tr").length === Number(%s)`, strconv.Itoa(len(design.Demo().Pump.Curve)+1))
			assert.Equal(t, "in-pump.curve.1.flow", js[string](p, `document.activeElement.id`), "the new point is at hand")
			p.until(picture+` !== %s`, before)
			p.typed("pump.curve.1.efficiency", "25 %")
			p.act("remove", "pump.curve.1")
			p.until(picture+` === %s`, before)
			p.typed("delivery.flow", "60 L/min")
			p.until(`document.getElementById("figure-throttle-kv-full") !== null`)
			p.typed("liquid.temperature", "38 °C")
			p.typed("pump.kind", design.Lobe)
			p.until(`document.getElementById("in-pump.slip.1.pressure") !== null`)
			assert.Contains(t, p.text("#message"), "made up")
			assert.Contains(t, p.text("#verdicts"), "relief valve")
			js[any](p, `(document.getElementById("pump-picture").scrollIntoView({block: "end"}), null)`)
			p.keep("pump-lobe-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.typed("pump.kind", design.Centrifugal)
			p.until(picture + ` !== ""`)
			js[any](p, `(document.getElementById("pump-picture").scrollIntoView({block: "end"}), null)`)
			p.keep("pump-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
			p.until(`document.querySelector("#suction svg.curve") !== null`)
			p.unfold("#suction")
			js[any](p, `(document.getElementById("suction-title").scrollIntoView({block: "start"}), null)`)
			p.keep("suction-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
		})
	}
}
