package pipeline

import (
	"sort"

	"drawoff/catalog"
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
	Verdicts   []finding.Verdict `json:"verdicts"`         // the gravest first, otherwise in the order of the flow
	Figures    []finding.Figure  `json:"figures"`
	Pieces     []Piece           `json:"pieces"`
	Drivers    []stand.Driver    `json:"heights"` // what the stand's height must satisfy
	Parts      []order.Line      `json:"parts"`
	Cuts       []order.Cut       `json:"cuts"`
	Welds      []order.Weld      `json:"welds"`
	Dimensions []Dimension       `json:"dimensions"` // every length of a part that the plant rests on, once, in the order of the flow
	Cautions   []string          `json:"cautions"`   // what can hurt somebody, always shown

	Scene Scene `json:"-"` // where everything is, for drawings

	plant *plant // what it was made from, for what is worked out only when it is asked for
}

// Piece is one piece of a line as a table shows it.
type Piece struct {
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

// Dimension is a length of a part, with how far it is to be trusted.
type Dimension struct {
	Dimension string    `json:"dimension"`        // slug, as design.Measurement.Part takes it
	Length    q.Amount  `json:"length"`           // taken for it
	Either    *q.Amount `json:"either,omitempty"` // half-width of the doubt, nil for none but tolerances
	Trust     string    `json:"trust"`            // a catalog.Trust
	Measure   string    `json:"measure"`          // where to put the caliper
	Source    string    `json:"source"`
}

// Name says in words which length it is.
func (d Dimension) Name() string { return catalog.DimensionName(d.Dimension) }

// Scene is where everything is, in metres over the floor and from the tank's axis.
type Scene struct {
	Layout    route.Layout
	Vessel    vessel.Vessel
	TankFoot  q.Length // lowest inside point of the tank over the floor
	Levels    []flow.Level
	Outlet    q.Length // outlet face over the floor
	LegTop    q.Length // top of the legs over the floor
	Legs      int
	Bucket    q.Length // height of the bucket, 0 for none
	Ceiling   q.Length // 0 where it is not known
	Delivery  q.Length // height of the outflow
	Points    []flow.Point
	System    []flow.CurvePoint
	PumpCurve flow.Curve
}

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

// Doubtful returns the dimensions that are in doubt until somebody measures
// them, those that may move an answer furthest first.
func (r Report) Doubtful() []Dimension {
	most := map[string]q.Length{}
	weigh := func(hangs []finding.Share) {
		for _, s := range hangs {
			most[s.Dimension] = max(most[s.Dimension], s.By)
		}
	}
	for i := range r.Figures {
		weigh(r.Figures[i].Hangs)
	}
	for i := range r.Drivers {
		weigh(r.Drivers[i].Hangs)
	}
	for i := range r.Cuts {
		weigh(r.Cuts[i].Hangs)
	}
	var out []Dimension
	for _, d := range r.Dimensions {
		if d.Either != nil {
			out = append(out, d)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return most[out[i].Dimension] > most[out[j].Dimension] })
	return out
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
