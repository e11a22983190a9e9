//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// Purée told by its own figures, on a phone and on a desk: choosing the kind
// brings its fields, filled with something to start from, and takes the others
// away; what is typed over them changes how it runs.
func TestLiquidByItsOwnFigures(t *testing.T) {
	t.Parallel()
	for _, l := range []look{looks[0], looks[2]} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.typed("liquid.kind", "power-law")
			p.until(`document.querySelector(%s) !== null`, field("liquid.consistency"))
			assert.True(t, js[bool](p, `document.querySelector(%s) === null`, field("liquid.alcohol")), "a field of another kind is gone")
			p.until(`document.querySelector("#figures").textContent.includes("Consistency of the liquid")`)
			assert.Equal(t, "11.6 Pa·s^n", p.value("liquid.consistency"))
			before := p.text("#figures")
			p.typed("liquid.consistency", "3.2 Pa·s^n")
			p.until(`document.querySelector("#figures").textContent !== %s`, before)
			assert.Contains(t, p.text("#figures"), "3.2 Pa·sⁿ")
			p.shows("#verdicts", "published for water") // the workshop finds it
			assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
			js[bool](p, `(document.querySelector(%s).scrollIntoView({block: "center"}), true)`, field("liquid.consistency"))
			p.keep("liquid-"+l.String()+"-form.png", get(p, chromedp.CaptureScreenshot()))
		})
	}
}
