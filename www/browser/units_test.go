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

// inches is the demo as somebody types it who works in inches.
func inches(t *testing.T) design.Design {
	t.Helper()
	edits := []design.Edit{
		{Path: "tank.bore", Value: "37 3/4 in"}, {Path: "tank.height", Value: `45 1/4"`}, {Path: "tank.fill", Value: "238 US gal"},
		{Path: "stand.height", Value: "30 in"}, {Path: "stand.bucket", Value: "15 3/4 in"}, {Path: "run.4.length", Value: "7 3/4 in"},
		{Path: "pump.away", Value: "5 ft 11 in"}, {Path: "pump.height", Value: "9 1/2 in"}, {Path: "pump.outUp", Value: "4 1/4 in"},
		{Path: "delivery.pieces.2.length", Value: "4 ft"}, {Path: "delivery.height", Value: "6 ft 11 in"}, {Path: "liquid.temperature", Value: "54 °F"},
	}
	for i, point := range [][3]string{{"0", "27", "2.6"}, {"10.5", "25", "3"}, {"21", "21", "4"}, {"32", "14", "6"}, {"42", "4.6", "9"}} {
		at := "pump.curve." + strconv.Itoa(i)
		edits = append(edits, design.Edit{Path: at + ".flow", Value: point[0] + " US gal/min"}, design.Edit{Path: at + ".head", Value: point[1] + " ft"}, design.Edit{Path: at + ".headRequired", Value: point[2] + " ft"})
	}
	d, faults := design.Demo().Apply(edits...)
	require.Empty(t, faults)
	return d
}

// showsIn chooses the units that everything is shown in.
func (p *page) showsIn(units string) {
	p.t.Helper()
	js[bool](p, `(() => {
		const list = document.getElementById("units");
		list.value = %s;
		list.dispatchEvent(new Event("change", {bubbles: true}));
		return true;
	})()`, units)
	p.answered()
	p.until(`document.documentElement.dataset.shop === "idle"`)
}

// The page opens in the units that were typed; in others it says the same, back
// in them it is what it was, what was typed is as it was all the while, and the
// next visit is in the units that were chosen last.
func TestUnits(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.until(`document.documentElement.dataset.shop === "idle"`)
			assert.Equal(t, "typed", js[string](p, `document.getElementById("units").value`))
			all := `["drawing", "verdicts", "pieces", "figures", "parts", "cuts-part", "standing-part"].map(id => document.getElementById(id)?.textContent)`
			for _, name := range []string{"metric", "inches"} {
				d := design.Demo()
				if name == "inches" {
					d = inches(t)
					p.given(d)
				}
				p.showsIn("typed")
				before, figures := js[[]string](p, all), p.text("#figures")
				mine, other := "L/min", "US gal/min"
				if name == "inches" {
					mine, other = other, " L/min"
				}
				assert.Contains(t, figures, mine)
				assert.NotContains(t, figures, other)
				for _, units := range []string{"mm", "in", "typed"} {
					p.showsIn(units)
					assert.Equal(t, d.Tank.Bore.String(), p.value("tank.bore"))
					assert.Equal(t, units == "in" || units == "typed" && name == "inches", js[bool](p, `document.getElementById("figures").textContent.includes("US gal/min")`), units)
					assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), int(l.width), "scrolls sideways")
					p.keep("units-"+name+"-"+units+"-"+l.String()+".png", get(p, chromedp.FullScreenshot(100)))
				}
				assert.Equal(t, before, js[[]string](p, all))
			}
			p.showsIn("in")
			p.reload()
			assert.Equal(t, "in", js[string](p, `document.getElementById("units").value`))
			p.until(`document.getElementById("figures").textContent.includes("US gal/min")`)
		})
	}
}

// While the workshop works in other units nothing is to be read in the ones
// before: what it told is out of sight, from the first picture on that has the
// others, and all of it comes back in them.
func TestUnitsAreNeverMixed(t *testing.T) {
	t.Parallel()
	for _, l := range []look{{390, 844, "light"}, {1280, 900, "dark"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			p.until(`document.documentElement.dataset.shop === "idle"`)
			p.unfold("#emptying")
			js[bool](p, `(() => {
				const named = /\d+(\.\d+)? x \d+(\.\d+)? mm|[½¼¾\d] in\b/g;
				const units = { in: /\d (mm|m|L|L\/min|kg|N|kPa|°C|m\/s)\b/, mm: /\d (ft|US gal|US gal\/min|lb|lbf|psi|°F|ft\/s)\b/ };
				window.mixed = [];
				window.hidden = 0;
				const look = () => {
					const now = document.getElementById("figures").textContent.includes("US gal/min") ? "in" : "mm";
					for (const n of document.querySelectorAll(".part .gist, .group .gist, #emptying > *, .ways > *, .verdict.later > div > p:not(.basis)")) {
						if (!n.checkVisibility({visibilityProperty: true})) window.hidden++;
						else if (units[now].test(n.textContent.replace(named, ""))) window.mixed.push(now + ": " + n.textContent);
					}
					requestAnimationFrame(look);
				};
				look();
				return true;
			})()`)
			for _, units := range []string{"in", "mm"} {
				p.showsIn(units)
				assert.Empty(t, js[[]string](p, `window.mixed.splice(0)`), units)
				assert.Positive(t, js[int](p, `window.hidden`), units)
				assert.True(t, js[bool](p, `document.querySelector("#emptying > *").checkVisibility({visibilityProperty: true})`), "it is back")
				assert.Equal(t, units == "in", js[bool](p, `document.getElementById("emptying-gist").textContent.includes("US gal")||document.getElementById("emptying").textContent.includes("US gal")`), units)
			}
		})
	}
}
