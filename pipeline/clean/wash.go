package clean

import (
	"math"
	"slices"

	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// place is a bore of the line and the piece that has it.
type place struct {
	bore q.Length
	ref  string
	name string
}

// wash is an Input with what depends on the line and the tank alone.
type wash struct {
	*Input
	widest, narrowest place
	line              q.Volume // that the line holds
	need              q.Flow   // for the speed in the widest bore
	least, most       q.Flow   // that wet the wall
	spray             q.Flow   // of the ball, or the most that wets the wall
	flow              q.Flow   // that goes round: the larger of need and spray
	wall              float64  // of the tank that is wet, m²
	steel             q.Mass
	runs              []Run // of the steps
	main              int   // the step that the figures are about
}

func newWash(in *Input) *wash {
	w := &wash{Input: in}
	bore := in.Layout.Outlet.Bore()
	w.see(bore, "tank", "the tank's outlet")
	w.line = Frustum(bore, bore, in.Stub)
	for _, p := range in.Layout.Pieces() {
		w.see(p.In.Bore(), p.Ref, p.Label)
		w.see(p.Out.Bore(), p.Ref, p.Label)
		w.line += Holds(&p)
	}
	if w.widest.bore <= 0 {
		return w
	}
	w.need = Flow(w.widest.bore, in.Speed)
	w.least, w.most = Wetting(in.Vessel.Bore, LeastWetting), Wetting(in.Vessel.Bore, MostWetting)
	w.spray = in.Spray
	if w.spray <= 0 {
		w.spray = w.most
	}
	w.flow = max(w.need, w.spray)
	bottom, _ := in.Vessel.BottomWall()
	w.wall = bottom + math.Pi*float64(in.Vessel.Bore)*float64(in.Vessel.Straight)
	middle := math.Pi * float64(in.Wall) * float64(in.Vessel.Straight) // of the plate, which is wider than the bore
	w.steel = q.Mass((w.wall + middle) * float64(in.Wall) * steelDensity)
	w.runs = make([]Run, len(in.Steps))
	for i, s := range in.Steps {
		if same := slices.IndexFunc(in.Steps[:i], s.like); same >= 0 { // a wash rinses more than once
			w.runs[i] = w.runs[same]
			continue
		}
		w.runs[i] = w.run(s)
	}
	w.main = mainStep(in.Steps)
	return w
}

// run returns how the line runs in a step. Of a pump that is taken for the
// wash nothing is known but what it gives: neither what it needs to draw from,
// nor what it leaves at a ball.
func (w *wash) run(s Step) Run {
	run := w.Line(s.Liquid, max(w.need, w.Fed), w.spray)
	if w.Fed > 0 {
		run = Run{Pump: run.Pump, Known: true, Flow: w.Fed, Asked: run.Asked, Boils: run.Boils}
	}
	return run
}

// see keeps the widest and the narrowest bore, the first of each.
func (w *wash) see(bore q.Length, ref, name string) {
	if bore <= 0 {
		return
	}
	if bore > w.widest.bore {
		w.widest = place{bore, ref, name}
	}
	if w.narrowest.bore == 0 || bore < w.narrowest.bore {
		w.narrowest = place{bore, ref, name}
	}
}

// Holds returns what a piece holds along its bore. Branches beside the line,
// and what is wider inside a valve or a device, do not count.
func Holds(p *route.Piece) q.Volume {
	sum := q.Volume(0)
	for i := range p.Path {
		s := &p.Path[i]
		sum += Frustum(s.BoreFrom, s.BoreTo, s.Length)
	}
	return sum
}

// Frustum returns what a bore holds that goes evenly from one width to another
// over a length. Bent, or with one side flat, it holds the same: the theorems
// of Pappus and Cavalieri.
func Frustum(from, to, length q.Length) q.Volume {
	a, b := float64(from), float64(to)
	return q.Volume(math.Pi / 12 * (a*a + a*b + b*b) * float64(max(length, 0)))
}

// mainStep is the step that figures are about: the first with caustic, else
// the first with any chemical, else the hottest.
func mainStep(steps []Step) int {
	best, rank := 0, -1.0
	for i, s := range steps {
		r := 0.0
		switch {
		case s.Agent.Slug == "caustic":
			r = 3e4
		case s.Strength > 0:
			r = 2e4
		default:
			r = float64(s.Temperature)
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

// like reports whether o runs with the same liquid.
func (s Step) like(o Step) bool {
	return s.Agent.Slug == o.Agent.Slug && s.Temperature == o.Temperature && s.Strength == o.Strength
}

// kinematic returns the kinematic viscosity of a step's liquid, m²/s.
func (s Step) kinematic() float64 {
	if s.Liquid.Density <= 0 {
		return 0
	}
	return float64(s.Liquid.Viscosity) / float64(s.Liquid.Density)
}

// pressure returns what a head of a step's liquid presses.
func (s Step) pressure(h q.Head) q.Pressure {
	return q.Pressure(float64(s.Liquid.Density) * gravity * float64(h))
}

// goes returns the flow of step i: what is wanted, or what runs where that is less.
func (w *wash) goes(i int) q.Flow {
	if run := w.runs[i]; run.Known && run.Flow > 0 && !run.AtLeast {
		return min(w.flow, run.Flow)
	}
	return w.flow
}

// film returns what hangs on the tank's wall in a step, and how thick.
func (w *wash) film(s Step) (q.Volume, q.Length) {
	thick := Film(float64(w.spray)/(math.Pi*float64(w.Vessel.Bore)), s.kinematic())
	return q.Volume(float64(thick) * w.wall), thick
}

// pool returns how high the wash stands in the tank while it runs off, and how
// much that is. A scavenge pump that keeps up leaves none.
func (w *wash) pool(s Step) (q.Length, q.Volume) {
	if w.Scavenge >= w.spray {
		return 0, 0
	}
	level := max(w.Level(s.Liquid, w.spray), 0)
	return level, w.Vessel.VolumeAt(level)
}

// batch returns what has to be made up for a step that goes round.
func (w *wash) batch(s Step) q.Volume {
	film, _ := w.film(s)
	_, pool := w.pool(s)
	return w.line + film + pool + w.Sump
}

// heat returns what brings a batch and the tank's steel from the supply to the
// step's temperature, kWh.
func (w *wash) heat(s Step, batch q.Volume) float64 {
	rise := float64(s.Temperature - w.Supply)
	if rise <= 0 {
		return 0
	}
	return (float64(s.Liquid.Density)*float64(batch)*heatCapacity + float64(w.steel)*steelCapacity) * rise / kilowattHour
}

// warming returns how long an element takes for so many kWh, 0 where there is none.
func (w *wash) warming(heat float64) q.Duration {
	if w.Element <= 0 {
		return 0
	}
	return q.Duration(heat * kilowattHour / float64(w.Element))
}
