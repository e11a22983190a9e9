//go:build browser

package browser

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
)

// All verdicts stand in one list, in the order of the terminal's, when the
// page opens, after an edit, when it is taken back and where a plant is only
// looked at; one that the workshop finds goes up among the others, and leaves
// the keyboard, the fold and the ways out under the others as they were.
func TestVerdictsAreOneList(t *testing.T) {
	t.Parallel()
	high, faults := design.Demo().Apply(design.Edit{Path: "stand.height", Value: "3 m"})
	require.Empty(t, faults)
	first := pipeline.Check(high).Verdicts[0]
	require.Equal(t, "leg-strength", first.Rule)
	require.Contains(t, pipeline.Check(high).Later().Verdicts, first, "the page's module does not find it by itself")

	for _, l := range []look{{390, 844, "light"}, {1280, 900, "light"}} {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := tab(t)
			p.as(l)
			stands := func(d design.Design) {
				t.Helper()
				p.until(`document.documentElement.dataset.shop === "idle"`)
				var want []string
				for _, v := range pipeline.Check(d).Verdicts {
					want = append(want, v.Level.String()+" "+v.Rule)
				}
				assert.Equal(t, want, js[[]string](p, `Array.from(document.querySelectorAll("#verdicts .verdict"), v => v.classList[1] + " " + v.dataset.rule)`))
				assert.Equal(t, 1, js[int](p, `document.querySelectorAll(".part.verdicts details").length`))
				assert.False(t, js[bool](p, `Array.from(document.querySelectorAll(".verdict .ways")).some(w => !w.parentElement.id.startsWith("ways:" + w.closest(".verdict").dataset.rule + ":"))`))
			}
			p.goTo("")
			stands(design.Demo())
			js[bool](p, `(document.querySelector("#verdicts > details > summary").click(), true)`)

			p.typed("stand.height", "3 m")
			p.until(`document.querySelector("#verdicts .verdict").dataset.rule === "leg-strength"`)
			stands(high)
			assert.Contains(t, p.text("#tally"), "stop")
			assert.True(t, js[bool](p, `document.querySelector("#verdicts > details").open`))
			js[bool](p, `(document.getElementById("verdicts-title").scrollIntoView(), true)`)
			p.keep("one-list-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))

			const stays = `#verdicts .verdict[data-rule="suction-speed"]`
			js[bool](p, `(() => {
				const stays = window.stays = document.querySelector(%s);
				window.bare = 0;
				new MutationObserver(() => { if (!stays.isConnected || !stays.querySelector(".ways button")) window.bare++; }).observe(document.getElementById("verdicts"), {childList: true, subtree: true});
				stays.querySelector("a").focus();
				document.getElementById("undo").click();
				return true;
			})()`, stays)
			p.untilValue("stand.height", "760 mm")
			stands(design.Demo())
			assert.True(t, js[bool](p, `window.stays === document.querySelector(%s) && document.activeElement === window.stays.querySelector("a")`, stays), "the keyboard stays where it was")
			assert.Zero(t, js[int](p, `window.bare`), "its ways out were never gone")
			assert.True(t, js[bool](p, `document.querySelector("#verdicts > details").open`))

			p.goTo("#" + design.WriteLink(high))
			stands(high)
			other := design.Examples()[1]
			p.example(other.Name)
			p.until(`document.title.includes(%s)`, other.Design.Title)
			stands(other.Design)
		})
	}
}
