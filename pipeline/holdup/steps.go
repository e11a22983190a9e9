package holdup

import (
	"math"
	"strconv"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// steps tells how to empty the plant: air first, then from the top down, what
// has to be lifted or taken apart last.
func (r *Result) steps(in *Input) {
	say := func(words string) { r.Steps = append(r.Steps, words) }
	l := &in.Layout
	pieces := l.Pieces()
	first := "Stop the pump when it draws air"
	if l.Gravity {
		first = "Let the tank run until nothing comes"
	}
	say(first + ". Let the pressure out before anything is opened, and let what is hot cool or what is caustic be rinsed first.")
	var vents []string
	for i := range pieces {
		for _, port := range pieces[i].Ports() {
			if port.End != nil && port.On == "valve" && port.Dir.Z > 0.5 {
				vents = append(vents, "No "+strconv.Itoa(pieces[i].Number))
			}
		}
	}
	vent := "Leave the tank's outlet and the outflow open, so that air follows the liquid"
	if len(vents) > 0 {
		vent += ", and open the valve that points up on " + listed(vents)
	}
	if r.Vents > 0 {
		vent += "; up to " + q.Text(r.Vents) + " it rises past it by itself, faster the line gulps"
	}
	say(vent + ".")
	for i := range r.Drains {
		if d := &r.Drains[i]; d.Valve {
			say("Open " + d.Name + ": " + q.Text(d.Volume) + " run out there. Stand a vessel under it first.")
		}
	}
	r.stepPump(in, say)
	for i := range r.Rest {
		p := &r.Rest[i]
		if p.Volume < least {
			continue
		}
		say(q.Text(p.Volume) + " then still stand at " + p.Name + ", " + p.Why + ". " + p.remedy())
	}
	if r.Heel >= least {
		say(q.Text(r.Heel) + " stay in the tank under the lower edge of its outlet: draw them off from above.")
	}
}

// stepPump opens the pump, where the lines on both sides run off to.
func (r *Result) stepPump(in *Input, say func(string)) {
	if in.Layout.Gravity {
		return
	}
	runs := q.Volume(0)
	for i := range r.Drains {
		if r.Drains[i].Ref == "pump" {
			runs = r.Drains[i].Volume
		}
	}
	words, from := "Open the pump's drain plug, or the joint at its inlet: ", " from its casing, as typed or as is usual."
	if in.Shut {
		words, from = "Open the joint at the pump's inlet and the one at its outlet, since it lets nothing through while it stands: ", " from its hose, as typed or as is usual, once the pump runs on air and pushes it out."
	}
	if runs >= least {
		words += q.Text(runs) + " run out there from the lines, and "
	}
	say(words + q.Text(in.Casing) + from)
}

// remedy says how a pool is emptied all the same, and where a drain valve would have to go.
func (p *Pool) remedy() string {
	if p.hose {
		return "Lift it at its upstream end and walk along it; a shorter one, or one led over a support, keeps none."
	}
	lift := ""
	if p.flap {
		lift = "Lift the flap, or open the line over it. "
	}
	if p.Capped != "" {
		return lift + "A valve in place of what closes the branch of " + p.Capped + ", which points down, would let them out."
	}
	return lift + "A drain valve would have to point down " + q.Text(p.Along) + " from the upstream end of it, " + q.Text(q.Length(p.Lowest.Z)) + " over the floor."
}

// Where a long bubble of gas follows liquid through a tube it runs ahead of it
// and leaves a part on the wall: the bubble's speed is C v + 0.54 √(g D) in a
// level tube (Bendiksen, Int. J. Multiphase Flow 10, 1984, with C = 1.2 of
// Nicklin, Wilkes and Davidson 1962; from memory).
const (
	bubbleAhead = 1.2
	bubbleDrift = 0.54
)

// blow tells what blowing the full lines through with gas leaves when the gas
// comes out at the end.
func (r *Result) blow(in *Input, lines []line) {
	stays, whole := 0.0, 0.0
	for i := range lines {
		l := &lines[i]
		for k := range l.pieces {
			v, ok := in.Speeds[l.pieces[k].Ref]
			if !ok || v <= 0 {
				r.Blown = "What blowing through leaves cannot be said, since the flow is not known. Never blow with more pressure than the weakest part stands, least of all into a tank."
				return
			}
			for j := range l.pieces[k].Path {
				s := &l.pieces[k].Path[j]
				held := volume(s, 0, 1, math.Inf(1))
				whole += held
				stays += held * (1 - swept(float64(v), float64(s.BoreFrom)))
			}
		}
	}
	if whole == 0 {
		return
	}
	few := "a few tenths of a bar"
	if q.KindPressure.Unit(q.Shown()) == "psi" {
		few = "a few psi"
	}
	r.Blown = "Blown through with gas as fast as the transfer runs, the full lines, " + q.Text(q.Volume(whole)) + ", keep some " + q.Text(q.Volume(stays)) +
		" when the gas first comes through, since it runs ahead over the liquid (in a level tube, from memory after Bendiksen 1984). Going on blowing takes more, down to what the low points hold. Use gas let down to " + few + " and blow into a vessel that is open: one that is shut bursts."
}

// swept returns the part of the bore that the gas front takes with it.
func swept(v, bore float64) float64 {
	return v / (bubbleAhead*v + bubbleDrift*math.Sqrt(gravity*bore))
}

// pig tells where a pig passes and what it leaves.
func (r *Result) pig(lines []line) {
	var stops []string
	stays := q.Volume(0)
	stopped := map[string]bool{}
	for i := range lines {
		for k := range lines[i].pieces {
			p := &lines[i].pieces[k]
			if pigPasses(p) {
				continue
			}
			stops = append(stops, "No "+strconv.Itoa(p.Number))
			stopped[p.Ref] = true
			for j := range p.Path {
				stays += q.Volume(volume(&p.Path[j], 0, 1, math.Inf(1)))
			}
		}
		for k := range lines[i].cuts {
			for _, b := range lines[i].cuts[k].branch {
				if !stopped[b.piece.Ref] {
					stays += q.Volume(b.holds(math.Inf(1)))
				}
			}
		}
	}
	if len(lines) == 0 || len(lines[0].pieces) == 0 {
		return
	}
	if len(stops) == 0 {
		r.Pigged = "A pig made for one bore passes every piece and leaves a film"
	} else {
		r.Pigged = "A pig made for one bore does not pass " + listed(stops) + ": it would have to be put in and taken out on either side, and leaves a film between"
	}
	if stays >= least {
		r.Pigged += ". What it cannot reach, such pieces and the branches it runs past, holds at most " + q.Text(stays)
	}
	r.Pigged += ". It needs a launcher and a catcher made for it: a pig that is shot out maims."
}

// pigPasses reports whether a pig passes p: full bore, one size, nothing across
// it, and no turn tighter than 1.5 bores. Common practice, no source.
func pigPasses(p *route.Piece) bool {
	switch p.Kind {
	case design.Straight, design.Ball, design.Hose, design.SightGlass:
		return true
	case design.Bend:
		return float64(p.Radius) >= 1.5*float64(p.In.Bore())*(1-1e-9)
	case design.Tee, design.Cross, design.Cock:
		return p.In.Dir.Dot(p.Out.Dir) > 0.5
	}
	return false
}
