package app

import (
	"math"
	"strconv"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// slide puts the field of a grip where it was dragged to: a height over the
// floor, or a distance from the tank's axis, in metres. It is written in the
// unit that the field was typed in, as fine as a hand can hold it.
func (a *App) slide(req Request) Response {
	metres, err := strconv.ParseFloat(req.Value, 64)
	if err != nil || !(math.Abs(metres) <= 1000) {
		return Response{Message: "The drawing sent a place that is not one: " + first(req.Value), Problem: true}
	}
	s := a.report.Scene
	switch req.Path {
	case "tank.fill":
		level := q.Length(metres) - s.TankFoot
		brim := s.Vessel.BottomDepth() + s.Vessel.Straight
		return a.slid(req, q.Of(s.Vessel.VolumeAt(min(max(level, 0), brim))).Under(a.present.Tank.Fill.String()))
	case "tank.lowest":
		metres -= float64(s.TankFoot)
		if a.present.Tank.Outlet.Place == "side" {
			metres -= float64(a.present.Tank.Outlet.Above.Value())
		}
		metres = max(metres, 0)
	case "stand.height", "pump.height", "pump.away", "delivery.height":
	default:
		return Response{Message: "Nothing on the drawing moves " + first(req.Path) + ".", Problem: true}
	}
	typed, _ := a.present.Get(req.Path)
	return a.slid(req, q.Of(q.Length(metres)).Near(typed))
}

func (a *App) slid(req Request, value string) Response {
	return Response{Message: a.edit([]design.Edit{{Path: req.Path, Value: value}}, req.Typing)}
}

// nudge moves the field at Path, in which Text stands, by the steps that Value
// says, from its usual value where it is empty. Where that leads too far, the
// field tells, as for what is typed.
func (a *App) nudge(req Request) Response {
	filled := a.present.Filled()
	amount, ok := filled.Amount(req.Path)
	if req.Text == "" {
		if req.Text, _ = filled.Get(req.Path); amount.Kind.Foreign(req.Text) {
			req.Text = amount.String() // as the field has it
		}
	}
	steps, _ := strconv.Atoi(req.Value)
	if ok {
		req.Value, ok = q.Stepped(amount.Kind, req.Text, steps)
	}
	if !ok {
		return Response{Message: "\"" + first(req.Text) + "\" is not moved in steps: type it.", Problem: true}
	}
	res := a.slid(req, req.Value)
	res.Value = req.Value
	return res
}
