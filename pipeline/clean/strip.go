package clean

import (
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/route"
)

// Joint is a joint of the line as it is, faults and all.
type Joint struct {
	Ref    string // of what is downstream, as in route.Junction
	Family string // slug; "weld", or "none" where nothing closes
	Name   string // "2 in clamp"
	Seal   string // its seal by name; "" for none
	Faulty bool   // something is wrong with it: a step in the bore, ends that do not mate
}

// Strip is what comes apart to be cleaned, and what can stay.
type Strip struct {
	Apart []Part `json:"apart"` // in the order of the flow, which is that in which it drains
	Seals []Seal `json:"seals"` // to lay out for it
	Stays []Part `json:"stays"`
}

// Part is a joint or a piece of the line.
type Part struct {
	Ref  string `json:"ref"`
	Name string `json:"name"`
	Why  string `json:"why"`
	Seal string `json:"seal,omitempty"` // what to lay out for it
}

// Seal is how many of one seal to lay out.
type Seal struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
}

const (
	gapAtSeal  = "there is a gap at its seal that no flow rinses"
	inPlace    = "clean in place"
	byMaker    = "as the maker says"
	behindBall = "the space behind its ball is out of the flow; common practice, no source"
	handHose   = "rinsed, brushed through, looked into for cracks and hung up to drain; common practice, no source"
)

// strip sorts joints and pieces, in the order of the flow.
func (in *Input) strip() Strip {
	var s Strip
	pieces := in.Layout.Pieces()
	at := map[string]int{}
	for i := range pieces {
		at[pieces[i].Ref] = i
	}
	next := 0
	upTo := func(end int) {
		for ; next < end; next++ {
			s.piece(&pieces[next])
		}
	}
	for _, j := range in.Joints {
		i, ok := at[j.Ref]
		if ok {
			upTo(i)
		}
		if !ok && j.Ref == "pump" { // the pieces before it come first
			upTo(len(in.Layout.ToPump()))
		}
		s.joint(j, where(j.Ref, pieces, i, ok))
	}
	upTo(len(pieces))
	return s
}

// where says at what a joint is.
func where(ref string, pieces []route.Piece, i int, ok bool) string {
	switch {
	case ref == "pump":
		return "at the pump's inlet"
	case ref == "under.0" || !ok:
		return "at the tank's outlet"
	case ref == "delivery.pieces.0":
		return "at the pump's outlet"
	}
	return "before piece " + strconv.Itoa(pieces[i].Number) + ", " + pieces[i].Label
}

func (s *Strip) joint(j Joint, place string) {
	f, ok := catalog.FindFamily(j.Family)
	if !ok {
		return // a weld comes clean and stays, and what does not close is told elsewhere
	}
	p := Part{Ref: j.Ref, Name: j.Name + " " + place, Seal: j.Seal}
	switch {
	case f.Clean == "strip":
		p.Why = gapAtSeal
		s.apart(p)
	case f.Clean != "in place" && j.Faulty: // only if the bores match
		p.Why = "it comes " + inPlace + " only if the bores match, and they do not"
		s.apart(p)
	default:
		p.Why, p.Seal = inPlace, ""
		s.Stays = append(s.Stays, p)
	}
}

// piece sorts a piece that is more than tube.
func (s *Strip) piece(p *route.Piece) {
	part := Part{Ref: p.Ref, Name: "piece " + strconv.Itoa(p.Number) + ", " + p.Label}
	switch p.Kind {
	case design.Hose:
		part.Why = handHose
		s.apart(part)
	case design.Ball:
		part.Why = behindBall
		s.apart(part)
	case design.Device:
		part.Why = byMaker
		s.Stays = append(s.Stays, part)
	case design.Butterfly, design.Seat, design.Diaphragm, design.NonReturn, design.SightGlass:
		part.Why = inPlace + " if the maker says so; worked while the wash goes round"
		if p.Kind == design.SightGlass {
			part.Why = inPlace + " if the maker says so"
		}
		s.Stays = append(s.Stays, part)
	case design.Pocket, design.Cock:
		part.Why = "stays if its branch is short: see the verdict on it"
		s.Stays = append(s.Stays, part)
	}
}

func (s *Strip) apart(p Part) {
	s.Apart = append(s.Apart, p)
	if p.Seal == "" {
		return
	}
	for i := range s.Seals {
		if s.Seals[i].Name == p.Seal {
			s.Seals[i].Count++
			return
		}
	}
	s.Seals = append(s.Seals, Seal{p.Seal, 1})
}
