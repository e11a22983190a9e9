//go:build browser

package browser

import (
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// trough is the demo with everything that holds something: a capped branch, the
// step of a reducer, a slack hose, a valve that lets nothing run back.
func trough() design.Design {
	d := design.Demo()
	half, level, down := q.MustParse[q.Length]("250 mm"), q.MustParse[q.Angle]("0°"), q.MustParse[q.Angle]("180°")
	d.Run = []design.Piece{
		{Kind: design.Straight, Length: half, In: "clamp/ferrule"},
		{Kind: design.Tee, Turn: down},
		{Kind: design.Straight, Length: half},
		{Kind: design.Reducer, To: "bs-4825/1in", Shape: "concentric"},
		{Kind: design.Bend, Turn: down}, {Kind: design.Straight, Length: half}, {Kind: design.Bend, Turn: level},
		{Kind: design.Tee, Third: "valve", Turn: down},
		{Kind: design.Bend, Turn: level}, {Kind: design.Bend, Turn: level},
		{Kind: design.Reducer, To: "bs-4825/1.5in", Shape: "concentric", Out: "clamp/ferrule"},
		{Kind: design.Hose, Fit: true, Length: q.MustParse[q.Length]("1.3 m"), In: "clamp/ferrule", Out: "clamp/ferrule"},
	}
	d.Pump.Away = q.MustParse[q.Length]("2.2 m")
	d.Delivery.Pieces = append([]design.Piece{{Kind: design.NonReturn, In: "clamp/ferrule", Out: "clamp/ferrule"}}, d.Delivery.Pieces...)
	return d
}

// What stays behind follows an edit, is drawn and tabled under one letter, and
// fits a phone and a screen.
func TestStaysFollowsAnEdit(t *testing.T) {
	t.Parallel()
	for _, width := range []int{390, 1280} {
		p := tab(t)
		call(p, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: int64(width), Height: 900, DeviceScaleFactor: 1})
		p.given(trough())
		p.until(`document.querySelector("#stays").textContent.includes("in the hose where it sags")`)
		assert.NotZero(t, js[int](p, `document.querySelectorAll("#stays svg .held.rest").length`))
		assert.NotZero(t, js[int](p, `document.querySelectorAll("#stays svg .held.air").length`))
		assert.LessOrEqual(t, js[int](p, `document.documentElement.scrollWidth`), width, "nothing runs out at the side")
		p.typed("pump.casing", "0.25 L")
		p.until(`document.querySelector("#stays").textContent.includes("250 mL in the pump's casing")`)
		p.unfold("#stays")
		p.keep("stays-"+strconv.Itoa(width)+".png", get(p, chromedp.Screenshot(chromedp.CSS("#stays"))))
	}
}
