package app

import (
	"math"
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// slide puts the field of a grip where it was dragged to: a height over the
// floor, or a distance from the tank's axis, in metres. It is written in the
// unit that the field was typed in, as fine as a hand can hold it.
func (a *App) slide(req Request) Response {
	metres, err := strconv.ParseFloat(req.Value, 64)
	if err != nil || math.Abs(metres) > 1000 {
		return Response{Message: "The drawing sent a place that is not one: " + first(req.Value), Problem: true}
	}
	s := a.report.Scene
	switch req.Path {
	case "tank.fill":
		level := q.Length(metres) - s.TankFoot
		brim := s.Vessel.BottomDepth() + s.Vessel.Straight
		litres := float64(s.Vessel.VolumeAt(min(max(level, 0), brim)) / q.Litre)
		step := 5.0
		if litres < 100 {
			step = 1
		}
		return a.slid(req, strconv.FormatFloat(max(step, step*math.Floor(litres/step)), 'f', -1, 64)+" L")
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
	return a.slid(req, inUnitOf(typed, metres))
}

func (a *App) slid(req Request, value string) Response {
	return Response{Message: a.edit([]design.Edit{{Path: req.Path, Value: value}}, req.Typing)}
}

// inUnitOf writes a length in the unit of one that was typed: to 5 mm, to a
// quarter of an inch, and to a hundredth of a metre or a foot.
func inUnitOf(typed string, metres float64) string {
	write := func(x, step float64, unit string) string {
		return strconv.FormatFloat(math.Round(math.Round(x/step)*step*1e6)/1e6, 'f', -1, 64) + " " + unit
	}
	typed = strings.TrimSpace(typed)
	switch {
	case strings.HasSuffix(typed, "in"), strings.HasSuffix(typed, "\""), strings.HasSuffix(typed, "″"):
		return write(metres/0.0254, 0.25, "in")
	case strings.HasSuffix(typed, "ft"):
		return write(metres/0.3048, 0.01, "ft")
	case strings.HasSuffix(typed, "cm"):
		return write(metres*100, 0.5, "cm")
	case strings.HasSuffix(typed, " m"), strings.HasSuffix(typed, "0m"):
		return write(metres, 0.01, "m")
	}
	return write(metres*1000, 5, "mm")
}
