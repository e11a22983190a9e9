package pipeline

import (
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/stand"
	"drawoff/pipeline/vessel"
)

// Report is everything that Drawoff has to say about a design: every view,
// on a page, on paper or in a terminal, is a pure function of it.
//
// Its JSON is stable: figures and rules keep their slugs, amounts are written
// as a value and a metric unit.
type Report struct {
	Title      string            `json:"title,omitempty"`
	Faults     design.Faults     `json:"faults,omitempty"` // why nothing could be worked out; all else is then empty
	Level      finding.Level     `json:"level"`            // the gravest verdict's
	Verdicts   []finding.Verdict `json:"verdicts"`         // what to do first: the gravest, of those what can hurt or moves the rest, otherwise in the order of the flow
	Figures    []finding.Figure  `json:"figures"`
	Pieces     []Piece           `json:"pieces"`
	Drivers    []stand.Driver    `json:"heights"` // what the stand's height must satisfy
	Bounds     []stand.Bound     `json:"heightsAtMost,omitempty"`
	Parts      []order.Line      `json:"parts"`
	Cuts       []order.Cut       `json:"cuts"`
	Welds      []order.Weld      `json:"welds"`
	Dimensions []Dimension       `json:"dimensions"` // every length of a part that the plant rests on, once, in the order of the flow
	Cautions   []string          `json:"cautions"`   // what can hurt somebody, always shown

	Scene Scene `json:"-"` // where everything is, for drawings

	plant *plant // what it was made from, for what is worked out only when it is asked for
	later finding.Findings
}

// Piece is one piece of a line as a table shows it.
type Piece struct {
	_        [0]func()     // no ==: the page would load it
	Ref      string        `json:"ref"` // its path in the design
	Number   int           `json:"number"`
	Label    string        `json:"label"`
	Name     string        `json:"name,omitempty"` // the user's own
	Length   q.Amount      `json:"length"`         // along its centreline
	Fall     *q.Amount     `json:"fall,omitempty"` // nil where it stands upright
	Velocity *q.Amount     `json:"velocity,omitempty"`
	Loss     *q.Amount     `json:"loss,omitempty"` // head
	From     route.Vec     `json:"from"`           // metres; x from the tank's axis to the pump, y to the left, z up from the floor
	To       route.Vec     `json:"to"`
	Level    finding.Level `json:"level"` // the gravest verdict about it
}

// Scene is where everything is, in metres over the floor and from the tank's axis.
type Scene struct {
	Layout    route.Layout
	Vessel    vessel.Vessel
	TankFoot  q.Length // lowest inside point of the tank over the floor
	Levels    []flow.Level
	Outlet    q.Length // outlet face over the floor
	LegTop    q.Length // top of the legs over the floor
	Bucket    q.Length // height of the bucket, 0 for none
	KeepOuts  []design.KeepOut
	Ceiling   q.Length // 0 where it is not known
	Delivery  q.Length // height of the outflow
	Points    []flow.Point
	System    []flow.CurvePoint
	FlowInput flow.Input // what the flow was worked out from
	Stand     stand.Input
	Seam      q.Length // weld gap at the seam of a cone
}

// Reserve returns how far the pump is from the end of its suction head. It is
// worked out when it is asked for.
func (r Report) Reserve() flow.Reserve { return flow.Reserves(r.Scene.FlowInput) }

// Stability returns how the stand carries the tank and what tips it, with the
// working of each figure. It is worked out when it is asked for; the verdicts
// on it are in the report, too. A report on a design that could not be worked out has none.
func (r Report) Stability() stand.Stability {
	if r.plant == nil {
		return stand.Stability{}
	}
	return r.plant.stability()
}

func (p plant) stability() stand.Stability { return stand.Stable(p.standInput()) }

// Figure returns the figure named slug.
func (r Report) Figure(slug string) (finding.Figure, bool) { return figureNamed(r.Figures, slug) }

func figureNamed(figures []finding.Figure, slug string) (finding.Figure, bool) {
	for _, f := range figures {
		if f.Slug == slug {
			return f, true
		}
	}
	return finding.Figure{}, false
}

// About returns the verdicts on the piece at ref, those that are not sound first.
func (r Report) About(ref string) []finding.Verdict {
	var out []finding.Verdict
	for _, v := range r.Verdicts {
		if v.Piece == ref {
			out = append(out, v)
		}
	}
	return out
}
