package design

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// Assumption is something in a design that nobody has said yet: a field, a
// piece, or a group of either. It is one until somebody has looked at it:
// setting it, or a field of it, or removing the assumption, says so.
type Assumption struct {
	Path string `json:"path"`
}

// MustKnow are the fields that Own cannot do without, in the order in which
// somebody is asked for them. The cone angle counts for a cone alone, all of
// the pump but its kind where there is one.
var MustKnow = []string{"tank.bore", "tank.height", "tank.bottom", "tank.coneAngle", "tank.outlet.size", "pump.kind", "pump.away", "pump.height", "pump.inSize"}

// Own returns a plant around what somebody knows of theirs, set by edits of
// MustKnow: a valve and a bend under the tank, the run to the pump, and a riser
// behind it, or without a pump a short line to a free outflow. Everything that
// it had to make up is among its Assumed, in the units that are shown. It
// returns the faults of what was said, by field, and nothing else then.
func Own(known ...Edit) (Design, Faults) {
	said := func(path string) string {
		i := slices.IndexFunc(known, func(e Edit) bool { return e.Path == path })
		if i < 0 {
			return ""
		}
		return known[i].Value
	}
	gravity, bottom := said("pump.kind") == NoPump, said("tank.bottom")
	uncounted := func(e Edit) bool {
		return gravity && strings.HasPrefix(e.Path, "pump.") || e.Path == "tank.coneAngle" && bottom != "" && bottom != "cone"
	}
	known = slices.DeleteFunc(slices.Clone(known), func(e Edit) bool {
		_, faults := Design{}.Apply(e)
		return len(faults) > 0 && uncounted(e)
	})
	d, faults := Design{Title: "My plant"}.Apply(known...)
	if len(faults) > 0 {
		return Design{}, faults
	}
	for _, path := range []string{"tank.bore", "tank.height", "tank.outlet.size"} {
		if s, _ := d.Get(path); s == "" {
			faults = append(faults, Fault{Field: path, What: "is missing", Hint: missing[path]})
		}
	}
	pump := d.Pump.Kind != NoPump
	if pump {
		for _, path := range []string{"pump.away", "pump.height"} {
			if s, _ := d.Get(path); s == "" {
				faults = append(faults, Fault{Field: path, What: "is missing", Hint: missing[path]})
			}
		}
	}
	if len(faults) > 0 {
		return Design{}, faults
	}
	outlet := d.Tank.Outlet.Size
	end := usualEnd(outlet)
	d.Tank.Outlet.End = end
	d.Under = []Piece{{Kind: Butterfly, In: catalog.Mate(end), Out: end}, {Kind: Bend, In: catalog.Mate(end), Out: end}}
	if q.InInches() { // tube comes in lengths of 20 ft there: common practice, no source
		d.Stand.Stock = length("20 ft")
		d.assume("stand.stock")
	}
	d.assume("tank.fill", "tank.wall", "tank.outlet.end", "tank.outlet.stub", "under.0", "under.1", "stand.legs", "stand.bucket", "liquid.kind", "liquid.temperature", "seal", "site.altitude")
	if !pump {
		d.Run = []Piece{{Kind: Straight, In: catalog.Mate(end), Length: length(q.KindLength.Start("500 mm")), Fall: fall("1:80")}}
		d.assume("run.0")
		return d, d.Validate()
	}
	d.Pump.InSize = either(d.Pump.InSize, outlet)
	d.Pump.InEnd = usualEnd(d.Pump.InSize)
	if d.Pump.InSize != outlet {
		d.Under = append([]Piece{{Kind: Reducer, To: d.Pump.InSize, In: catalog.Mate(end), Out: d.Pump.InEnd}}, d.Under...)
		d.Under[1].In, d.Under[1].Out = catalog.Mate(d.Pump.InEnd), d.Pump.InEnd
		d.Under[2].In, d.Under[2].Out = catalog.Mate(d.Pump.InEnd), d.Pump.InEnd
		d.assume("under.2")
	}
	end = d.Pump.InEnd
	d.Run = []Piece{{Kind: Straight, In: catalog.Mate(end), Out: end, Fit: true, Fall: fall("1:80")}}
	d.Delivery.Pieces = []Piece{{Kind: Straight, Name: "riser", In: catalog.Mate(end), Fit: true}, {Kind: Bend}, {Kind: Straight, Length: length(q.KindLength.Start("1 m")), Fall: fall("1:80")}}
	d.Delivery.Height = length(q.KindLength.Start("2 m"))
	d.Pump.madeUp()
	d.assume("run.0", "pump.inEnd", "pump.outUp", "delivery.pieces.0", "delivery.pieces.1", "delivery.pieces.2", "delivery.height")
	if Positive(d.Pump.Kind) {
		d.assume("pump.slip")
	} else {
		d.assume("pump.curve")
	}
	return d, d.Validate()
}

var missing = map[string]string{
	"tank.bore":        "write the inside diameter of the shell, like 900 mm or 36 in",
	"tank.height":      "write the straight side of the shell, like 1.2 m or 4 ft",
	"tank.outlet.size": "choose the tube of the outlet",
	"pump.away":        "write how far the pump's inlet is from the tank's axis, like 1.8 m or 6 ft",
	"pump.height":      "write how high the pump's inlet is over the floor, like 240 mm or 9 1/2 in",
}

// usualEnd is the union that a tube called size is given: a clamp, which is
// sold for nearly every series, or else a plain end to weld.
func usualEnd(size string) string {
	if t, ok := catalog.FindTube(size); ok {
		for _, end := range endsFor(t, false) {
			if strings.HasSuffix(end, "/ferrule") {
				return end
			}
		}
	}
	return Weld
}

// madeUp gives p points to begin with, which nobody has published: as much as
// runs at 1 and 2 m/s in its inlet, and the heads of small pumps.
func (p *Pump) madeUp() {
	t, _ := catalog.FindTube(p.InSize)
	at := func(speed float64) q.Entered[q.Flow] {
		litres := speed * math.Pi / 4 * float64(t.Bore()) * float64(t.Bore()) * 60e3
		return flow(q.KindFlow.Start(strconv.Itoa(5*int(math.Ceil(litres/5))) + " L/min"))
	}
	high := func(metres string) q.Entered[q.Head] { return head(q.KindHead.Start(metres)) }
	if Positive(p.Kind) {
		p.Slip = []SlipPoint{
			{Pressure: q.MustParse[q.Pressure](q.KindPressure.Start("0 bar")), Flow: at(1), HeadRequired: high("1.5 m")},
			{Pressure: q.MustParse[q.Pressure](q.KindPressure.Start("3 bar")), Flow: at(0.9), HeadRequired: high("1.5 m")},
		}
		return
	}
	p.Curve = []CurvePoint{
		{Flow: flow(q.KindFlow.Start("0 L/min")), Head: high("12 m"), HeadRequired: high("0.8 m")},
		{Flow: at(1), Head: high("10 m"), HeadRequired: high("1.2 m")},
		{Flow: at(2), Head: high("4 m"), HeadRequired: high("2.5 m")},
	}
}

// assume notes that nobody has said what is at paths.
func (d *Design) assume(paths ...string) {
	for _, p := range paths {
		d.Assumed = append(d.Assumed, Assumption{p})
	}
}

// Assumes reports whether what is at path, or what it belongs to, is assumed.
func (d *Design) Assumes(path string) bool {
	for _, a := range d.Assumed {
		if a.Path == path || strings.HasPrefix(path, a.Path+".") {
			return true
		}
	}
	return false
}

// looked brings the assumptions up to date with e: what it sets or takes out
// has been looked at, what it moves is elsewhere.
func (d *Design) looked(e Edit) {
	var left []Assumption
	for _, a := range d.Assumed {
		switch moved := e.Moved(a.Path); {
		case moved == "", e.Op == "" && (e.Path == a.Path || strings.HasPrefix(e.Path, a.Path+".")):
		default:
			left = append(left, Assumption{moved})
		}
	}
	d.Assumed = left
}
