package mend

import (
	"math"
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// tall is how far anything is raised or lowered at most: more is another plant.
const tall = 1 * q.Metre

// raise proposes to stand the tank higher, lower to stand it lower; target is
// the height of the outlet face that may do, 0 where it is not known.
func (m *mender) raise(target q.Length) []proposal {
	return m.length("stand.height", m.report.Scene.Outlet, true, tall, target).moved(func(to, by string) string {
		return "Raise the tank by " + by + ": its outlet face to " + to + " over the floor."
	})
}

func (m *mender) lower(target q.Length) []proposal {
	return m.length("stand.height", m.report.Scene.Outlet, false, tall, target).moved(func(to, by string) string {
		return "Lower the tank by " + by + ": its outlet face to " + to + " over the floor."
	})
}

// pumpBy proposes to set the pump higher or lower, by about that much.
func (m *mender) pumpBy(by q.Length) []proposal {
	if m.report.Scene.Layout.Gravity || by == 0 {
		return nil
	}
	now, word := m.filled.Pump.Height.Value(), "higher"
	if by < 0 {
		word = "lower"
	}
	return m.length("pump.height", now, by > 0, tall/2, now+by).moved(func(to, by string) string {
		return "Set the pump " + by + " " + word + ": its inlet " + to + " over the floor."
	})
}

// outflowBy proposes to let the liquid out higher or lower.
func (m *mender) outflowBy(by q.Length) []proposal {
	if m.design.Delivery.Height.IsZero() || by == 0 {
		return nil
	}
	now, word := m.design.Delivery.Height.Value(), "Raise"
	if by < 0 {
		word = "Lower"
	}
	return m.length("delivery.height", now, by > 0, tall, now+by).moved(func(to, by string) string {
		return word + " the outflow by " + by + ", to " + to + " over the floor."
	})
}

// height answers a need of the stand that is not met, or one that doubt about
// the parts leaves in the air.
func (m *mender) height() (out []proposal) {
	now := m.report.Scene.Outlet
	target, short := q.Length(0), q.Length(0)
	for _, d := range m.report.Drivers {
		if t := topic(m.verdict); t == "" || t == d.Name {
			target, short = max(target, d.Needed+d.Either), max(short, d.Needed+d.Either-now)
			switch d.Slug {
			case "fall-to-pump":
				out = append(out, m.pumpBy(-short)...)
			case "fall-to-outflow":
				out = append(out, m.outflowBy(-short)...)
			case "suction-head":
				out = append(out, m.slower()...)
			case "bucket":
				out = append(out, m.smallerBucket(short)...)
			}
		}
	}
	raised := m.raise(target)
	if m.verdict.Measure != "" && len(raised) > 0 {
		at := raised[0].dial.at
		raised[0].dial.at = func(step int) proposal {
			p := at(step)
			p.sentence = strings.TrimSuffix(p.sentence, ".") + ", enough for the parts at their worst."
			return p
		}
	}
	return append(raised, out...)
}

func (m *mender) smallerBucket(by q.Length) []proposal {
	now := m.filled.Stand.Bucket.Value()
	return m.length("stand.bucket", now, false, now-20*q.Millimetre, now-by).moved(func(to, _ string) string {
		return "Use a bucket no higher than " + to + "."
	})
}

// floor answers a line that lies too near to the floor at the pump or beyond it.
func (m *mender) floor() []proposal {
	return append(append(m.pumpBy(m.filled.Limits.FloorSpace.Value()), m.outflowBy(m.filled.Limits.FloorSpace.Value())...), m.raise(0)...)
}

func (m *mender) bucket() []proposal {
	return append(append(m.smallerBucket(0), m.pumpBy(q.Millimetre)...), m.raise(0)...)
}

func (m *mender) ceiling() []proposal {
	over := q.Length(0)
	for _, b := range m.report.Bounds {
		if b.Slug == "ceiling" {
			over = -b.Slack
		}
	}
	return append(m.lower(m.report.Scene.Outlet-over), m.shorterTank(over)...)
}

func (m *mender) shorterTank(by q.Length) []proposal {
	now := m.filled.Tank.Height.Value()
	return m.length("tank.height", now, false, now, now-by).moved(func(to, by string) string {
		return "Build the tank " + by + " lower, its straight side " + to + "."
	})
}

func (m *mender) legs() []proposal {
	legTop := m.report.Scene.Stand.LegTop
	out := m.length("stand.legTop", legTop, true, tall, 0).moved(func(to, by string) string {
		return "Fix the legs " + by + " higher up: their top " + to + " over the outlet face."
	})
	stock := m.filled.Stand.Stock.Value()
	longer := scale{path: "stand.stock", now: float64(stock), step: 0.5, most: 12, write: func(x float64) string { return q.Text(q.Length(x)) }}
	out = append(out, longer.moved(func(to, _ string) string { return "Buy leg tube in lengths of " + to + "." })...)
	return append(append(out, m.raise(0)...), m.lower(0)...)
}

func (m *mender) reach() []proposal {
	over := q.Length(0)
	for _, b := range m.report.Bounds {
		if b.Slug == "reach" {
			over = -b.Slack
		}
	}
	manway := m.report.Scene.Stand.Tank.Manway
	return append(m.lower(m.report.Scene.Outlet-over), m.length("tank.manway", manway, false, manway, manway-over).moved(func(to, by string) string {
		return "Put the manway " + by + " lower, " + to + " over the lowest inside point."
	})...)
}

func (m *mender) door() []proposal {
	_, feet := m.report.Scene.Stand.LegsAt()
	in := m.length("stand.feet", feet, false, feet/2, 0).moved(func(to, _ string) string {
		return "Set the feet nearer: " + to + " from the axis."
	})
	return append(append(m.lower(0), in...), m.shorterTank(0)...)
}

// tip answers a stand that tips too soon, or is pushed over too lightly.
func (m *mender) tip() []proposal {
	top, feet := m.report.Scene.Stand.LegsAt()
	target, soonest := q.Length(0), math.Inf(1)
	for _, p := range m.report.Stability().Curve {
		soonest = math.Min(soonest, float64(p.Tip))
	}
	if soonest > 0 && m.verdict.Rule == "tipping" {
		target = feet * q.Length(math.Tan(float64(m.filled.Limits.Tip.Value()))/math.Tan(soonest))
	}
	held := ""
	if m.design.Stand.Feet.IsZero() { // now they stand right under the shell
		held = ", the legs held by brackets that reach as far"
	}
	out := m.splayed(top, target)
	out = append(out, m.length("stand.feet", feet, true, tall, target).moved(func(to, by string) string {
		return "Set the feet " + by + " further out: " + to + " from the tank's axis" + held + "."
	})...)
	if n := m.filled.Stand.Legs; n < 6 {
		legs := strconv.Itoa(n + 1)
		out = append(out, change("Stand it on "+legs+" legs.", set("stand.legs", legs)))
	}
	return append(append(out, m.lower(0)...), change("Anchor it: fix its feet to the floor, or the tank to a wall, by something made for that.", set("stand.anchored", "true")))
}

// under answers legs that brackets hold beside the shell.
func (m *mender) under() []proposal {
	return []proposal{change("Set the legs under the tank, flush with its shell.", set("stand.feet", ""))}
}

// widest is how far legs are splayed at most: beyond it they are struts. Ours,
// no source.
const widest = 30

// splayed proposes to splay legs that stand where they meet the shell, so that
// they still do; target is where their feet may have to be.
func (m *mender) splayed(top, target q.Length) []proposal {
	rise := m.report.Scene.Stand.Rise()
	if !m.design.Stand.Feet.IsZero() || rise <= 0 {
		return nil
	}
	degrees := func(x q.Angle) float64 { return float64(x / q.Degree) }
	now := degrees(m.filled.Stand.Splay.Value())
	s := scale{path: "stand.splay", now: now, step: 1, most: int(widest - now), target: degrees(q.Angle(math.Atan(float64((target - top) / rise)))),
		write: func(x float64) string { return q.Text(q.Angle(x) * q.Degree) }}
	return dialled(s.most, s.guess(), func(steps int) proposal {
		x := s.value(steps)
		feet := top + rise*q.Length(math.Tan(x*float64(q.Degree)))
		return change("Splay the legs by "+s.write(x)+": their feet "+q.Text(feet)+" from the tank's axis.", set(s.path, s.write(x)))
	})
}

func (m *mender) rock() []proposal {
	adjust, need := m.filled.Stand.Adjust.Value(), q.Length(0)
	if m.verdict.Limit != nil {
		need = q.Length(m.verdict.Limit.SI)
	}
	out := m.length("stand.adjust", adjust, true, 0.5*q.Metre, need).moved(func(to, _ string) string {
		return "Give each foot an adjuster that screws out by " + to + "."
	})
	return append(out, change("Stand it on three legs.", set("stand.legs", "3")))
}

// Tubes that legs are made of, outside and wall, as stainless tube is sold:
// EN ISO 1127, from memory.
var (
	legTubes = []string{"21.3 mm", "26.9 mm", "33.7 mm", "42.4 mm", "48.3 mm", "60.3 mm", "76.1 mm", "88.9 mm", "114.3 mm", "139.7 mm"}
	legWalls = []string{"1.6 mm", "2 mm", "2.6 mm", "3.2 mm", "4 mm", "5 mm"}
)

// above leaves out the lengths that are not over now.
func above(lengths []string, now q.Length) (out []string) {
	for _, l := range lengths {
		if q.MustParse[q.Length](l).Value() > now*1.001 {
			out = append(out, l)
		}
	}
	return out
}

func (m *mender) load() []proposal {
	s := m.filled.Stand
	out := among("stand.legOD", above(legTubes, s.LegOD.Value()), func(v string) string { return "Make the legs of tube " + q.KindLength.Told(v) + " across." })
	out = append(out, among("stand.legWall", above(legWalls, s.LegWall.Value()), func(v string) string { return "Make the legs of tube with a wall of " + q.KindLength.Told(v) + "." })...)
	if s.Brace != design.DiagonalBrace {
		out = append(out, change("Brace the legs diagonally, from foot to top between all of them.", set("stand.brace", design.DiagonalBrace)))
	}
	if s.Splay.Value() > 0 {
		out = append(out, change("Stand the legs upright.", set("stand.splay", "0°")))
	}
	if s.Legs < 6 {
		legs := strconv.Itoa(s.Legs + 1)
		out = append(out, change("Stand it on "+legs+" legs.", set("stand.legs", legs)))
	}
	return append(out, m.lower(0)...)
}
