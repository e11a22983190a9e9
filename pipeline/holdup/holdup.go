// Package holdup answers what stays behind when a line is emptied, how it is
// got out, where air stays when it is filled, and which branches never see
// the cleaner.
//
// What stays is liquid at rest in a line that is open to the air at both
// ends: it stands up to the lower of the two heights that it would have to
// rise to, and its volume is the integral of the wet part of the bore along
// the centreline, bends included. What pump and tank hold, and the film on the
// walls, are told apart from that. Air on filling is the same question asked
// of the line upside down.
//
//	layout -> pools of liquid, pools of air, drains, dead ends -> steps to empty it
//
// Left out: sag of tube between its supports, what clings to a bore so narrow
// that the surface holds it (under some 15 mm), and the open middle of a tee or
// seat valve that the flow leaves by its branch, which counts as a mitre.
package holdup

import (
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
	"drawoff/pipeline/vessel"
)

// Input is what Check reads.
type Input struct {
	Layout route.Layout

	Vessel vessel.Vessel
	Full   q.Length // level when full, over the lowest inside point
	Lip    q.Length // of the outlet's lower edge, likewise; 0 for a bottom outlet

	Casing q.Volume // that the pump keeps; the user's figure, or the usual one
	Shut   bool     // the pump lets nothing through where it stands
	Limit  float64  // longest branch, in its own bores from the inner wall
	Time   q.Duration

	Density   q.Density
	Viscosity q.Viscosity
	Newtonian bool // the film is reckoned of such a liquid only

	Speeds map[string]q.Velocity // in each piece at the full level, by its ref; without an entry where it is not known
	Flow   q.Flow                // at the full level; 0 where it is not known
}

// Result is what the room has to say.
type Result struct {
	finding.Findings `json:"-"` // they are in the report
	Pools            []Pool     `json:"pools,omitempty"`    // with every drain valve shut: the stretches of each line in flow order, then its branches
	Rest             []Pool     `json:"drained,omitempty"`  // likewise with every drain valve open
	Air              []Trapped  `json:"air,omitempty"`      // in flow order
	Drains           []Drain    `json:"drains,omitempty"`   // with every drain valve open, the highest first
	Ends             []DeadEnd  `json:"deadEnds,omitempty"` // every branch, in flow order
	Steps            []string   `json:"steps,omitempty"`    // how to empty it, in order
	Blown            string     `json:"blown,omitempty"`    // what blowing through leaves
	Pigged           string     `json:"pigged,omitempty"`   // what a pig leaves

	Held  q.Volume `json:"held"`            // of all Pools
	Left  q.Volume `json:"left"`            // of all Pools, once the drain valves have been opened
	Heel  q.Volume `json:"heel"`            // of the tank, under the outlet's lip
	Vents q.Flow   `json:"vents,omitzero"`  // most that runs off while air rises past it, in the narrowest bore that falls; 0 where none does
	Films []Film   `json:"films,omitempty"` // of the tank and of each line, after Time

	Casing q.Volume   `json:"casing"` // as told
	Time   q.Duration `json:"drainTime"`

	shut bool // the pump lets nothing through
}

// Pool is liquid that stays at a low point; or, in a line upside down, air.
type Pool struct {
	Ref    string    `json:"ref"`              // the piece where it is deepest
	Name   string    `json:"name"`             // of that piece: "No 4 (hose, 2 in, 1.5 m)"
	Why    string    `json:"why,omitempty"`    // what makes it, in words
	Volume q.Volume  `json:"volume"`           // with every drain valve shut
	Left   q.Volume  `json:"left"`             // once all of them have been opened
	Depth  q.Length  `json:"depth"`            // where it is deepest
	Level  q.Length  `json:"level"`            // of its surface over the floor
	Parts  []Part    `json:"parts"`            // of Volume, piece by piece, in flow order
	Drain  string    `json:"drain,omitempty"`  // ref of the piece whose valve empties it or some of it, or ""
	Capped string    `json:"capped,omitempty"` // name of a piece in it with a closed branch that points down, or ""
	Lowest route.Vec `json:"lowest"`
	Along  q.Length  `json:"along"` // from the upstream end of Ref to the lowest point, along its centreline
	Bores  [][]Place `json:"-"`     // the wet bore, a stretch for the line and one for each wet branch, for drawing
	cuts   [2]int    // of its line, first and last
	hose   bool      // most of it hangs in a slack hose
	flap   bool      // a non-return valve holds it
}

// Part is what one piece holds of a pool.
type Part struct {
	Ref    string   `json:"ref"`
	Volume q.Volume `json:"volume"`
}

// Place is the bore at a point of a stretch.
type Place struct {
	At, Dir route.Vec
	Radius  q.Length
}

// Drain is a way out of a line, and what runs out there when every other is open.
type Drain struct {
	Ref    string   `json:"ref"`    // of the piece with the valve, or "pump", "outflow", "tank"
	Name   string   `json:"name"`   // "the drain valve of No 5 (tee, 2 in)"
	Height q.Length `json:"height"` // over the floor
	Volume q.Volume `json:"volume"` // that runs out there from a full line
	Valve  bool     `json:"valve"`  // it is a drain valve, and no end of the line
}

// Film is what wets a wall after the stated time.
type Film struct {
	Where  string   `json:"where"` // "the tank's wall", "the line to the pump"
	Volume q.Volume `json:"volume"`
}

// InAll is what stays behind with every drain valve opened, without the film.
func (r *Result) InAll() q.Volume { return r.Left + r.Casing + r.Heel }

// Findings are those of Check alone, without how to empty it, which takes longer.
func Findings(in Input) finding.Findings {
	r := in.judged(in.lines())
	return r.Findings
}

// Check works out what stays behind and how to get it out.
func Check(in Input) Result {
	lines := in.lines()
	r := in.judged(lines)
	r.shut = in.Shut
	for i := range lines {
		r.drains(&lines[i])
	}
	r.highestFirst()
	r.steps(&in)
	r.blow(&in, lines)
	r.pig(lines)
	return r
}

// judged is what stays, where air does, and the branches, with the findings on them.
func (in *Input) judged(lines []line) Result {
	r := Result{Casing: in.Casing, Time: in.Time}
	for i := range lines {
		l := &lines[i]
		shut, rest := l.pools(l.settle(false)), l.pools(l.settle(true))
		drained(shut, rest)
		r.Pools, r.Rest = append(r.Pools, shut...), append(r.Rest, rest...)
		r.Ends = append(r.Ends, l.ends()...)
		r.air(in, l)
	}
	for i := range r.Pools {
		r.Held += r.Pools[i].Volume
		r.Left += r.Pools[i].Left
	}
	r.Heel = in.Vessel.VolumeAt(max(0, in.Lip))
	r.films(in, lines)
	r.tell(in, lines)
	return r
}
