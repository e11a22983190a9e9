package draw

import (
	"strconv"

	q "drawoff/pipeline/quantity"
)

// grip is a place on the drawing that can be dragged, or moved with the keys
// of a slider, and the field of the design that follows it.
type grip struct {
	field, label string
	x, y         float64  // pixels
	at           q.Length // over the floor, or from the tank's axis
	level        bool     // it moves level; else up and down
}

// grips puts a grip on each end of a dimension, and on each level, that somebody may set.
func (e *elevation) grips() {
	left, right := e.leftmost()-16, e.x(e.right)+16
	e.grip(grip{"stand.height", "Outlet face over the floor", left, e.y(float64(e.Outlet)), e.Outlet, false})
	for _, l := range e.Levels {
		z := float64(l.Height)
		switch l.Slug {
		case "full":
			e.grip(grip{"tank.fill", "Full level, over the floor", e.x(e.widthAt(z)), e.y(z), l.Height, false})
		case "lowest":
			e.grip(grip{"tank.lowest", "Lowest level, over the floor", e.x(e.widthAt(z)), e.y(z), l.Height, false})
		}
	}
	if !e.Layout.Gravity {
		in := e.Layout.PumpIn.At
		e.grip(grip{"pump.height", "Pump inlet over the floor", right, e.y(in.Z), q.Length(in.Z), false})
		e.grip(grip{"pump.away", "Pump inlet from the tank's axis", e.x(in.X), e.y(0) + 30, q.Length(in.X), true})
	}
	if pieces := e.Layout.Pieces(); len(pieces) > 0 && e.Delivery > 0 {
		e.grip(grip{"delivery.height", "Outflow over the floor", right, e.y(pieces[len(pieces)-1].Out.At.Z), e.Delivery, false})
	}
}

func (e *elevation) grip(g grip) {
	e.Raw(`<g class="grip`)
	if g.level {
		e.Raw(" level")
	}
	e.Raw(`" tabindex="0" role="slider" aria-valuemin="-1000" aria-valuemax="100000"`)
	e.Attr("id", "grip-"+g.field)
	e.Attr("data-grip", g.field)
	e.Attr("data-at", strconv.FormatFloat(float64(g.at), 'f', 5, 64))
	e.Attr("aria-label", g.label)
	e.Attr("aria-valuenow", strconv.FormatFloat(g.at.Millimetres(), 'f', 0, 64))
	e.Attr("aria-valuetext", q.Text(g.at))
	e.Raw(">")
	e.circle("grip-room", g.x, g.y, 22)
	e.path("grip-mark") // two arrow heads, the way it goes
	for _, way := range [...]float64{-1, 1} {
		corner := func(along, across float64) {
			if g.level {
				along, across = across, along
			}
			e.pixel(g.x+across, g.y+along)
		}
		e.Raw("M")
		corner(way*10, 0)
		corner(way*3, -5)
		corner(way*3, 5)
		e.Raw("Z")
	}
	e.endPath()
	e.Close("g")
}
