package joint

import (
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/route"
)

// A union of two unlike halves gives a line a direction: every length in it
// has a male part at one end and a liner at the other, all the same way round.
// Where that fails, two males or two liners meet. Where it fails twice, once
// each way, what lies between is the wrong way round.

// Round is a stretch of a line between two unions, of one piece or of several
// welded together, as indices of the junctions before its first and last piece.
type Round struct{ First, Last int }

// TurnRound returns the stretches which, each turned end for end, close the
// joint at junctions[at], where two halves of one kind meet, and another such
// joint with it; none where no turning does. Turning a stretch is the same as
// welding its two half unions on the other way round.
func TurnRound(junctions []route.Junction, at int) []Round {
	if at < 0 || at >= len(junctions) || !alike(junctions[at]) {
		return nil
	}
	// The other joint may lie either way. Upstream is downstream, read backwards.
	if rounds := turnsFrom(junctions, at); rounds != nil {
		return rounds
	}
	for from := at - 1; from >= 0; from-- {
		if !alike(junctions[from]) {
			continue
		}
		if rounds := turnsFrom(junctions, from); rounds != nil && rounds[len(rounds)-1].Last+1 == at {
			return rounds
		}
	}
	return nil
}

// turnsFrom looks downstream of junctions[at] for the next joint of two alike
// halves, over stretches that may be turned.
func turnsFrom(junctions []route.Junction, at int) (rounds []Round) {
	for first := at; ; {
		last, ok := stretch(junctions, first)
		if !ok {
			return nil
		}
		rounds = append(rounds, Round{first, last})
		next := junctions[last+1]
		switch {
		case alike(next):
			return rounds
		case next.Up.Half.Joint.Family != next.Down.Half.Joint.Family:
			return nil // turning would close nothing, and only move the fault
		}
		first = last + 1
	}
}

// stretch returns the junction before the last piece of the stretch that
// begins behind junctions[first]; false where it cannot be turned: it ends in
// the pump or in the open, or its ends are not two unlike halves of one joint.
func stretch(junctions []route.Junction, first int) (last int, ok bool) {
	for last = first; last+1 < len(junctions); last++ {
		if junctions[last].Ref == pump {
			return 0, false
		}
		if next := junctions[last+1]; !next.Up.Half.Plain() || !next.Down.Half.Plain() {
			in, out := junctions[first].Down.Half, next.Up.Half
			return last, in.Joint.Slug == out.Joint.Slug && in.Tube.Slug == out.Tube.Slug && in.Name != out.Name && !in.Plain()
		}
	}
	return 0, false
}

const pump = "pump"

// alike reports whether two halves of one kind meet where the union wants one of each.
func alike(j route.Junction) bool {
	if j.Up.Half.Plain() || j.Down.Half.Plain() || j.Up.Half.Joint.Family != j.Down.Half.Joint.Family {
		return false
	}
	_, fault := halvesFault(*j.Up.Half, *j.Down.Half)
	return fault
}

// turnAdvice says which pieces to turn round to close junctions[at], "" where none do.
func turnAdvice(junctions []route.Junction, at int) string {
	rounds := TurnRound(junctions, at)
	if rounds == nil {
		return ""
	}
	first, last := rounds[0].First, rounds[len(rounds)-1].Last
	what := "Turn piece " + strconv.Itoa(number(junctions, first)) + " round"
	if last > first {
		what = "Turn pieces " + strconv.Itoa(number(junctions, first)) + " to " + strconv.Itoa(number(junctions, last)) + " round, union for union"
	}
	up, down := junctions[first].Up.Half, junctions[last+1].Down.Half
	return what + ": two " + noun(up.Name) + "s meet on one side and two " + noun(down.Name) + "s on the other, and then both close."
}

// number returns the number on the drawing of the piece behind junctions[at].
func number(junctions []route.Junction, at int) int {
	n := at + 1
	for _, j := range junctions[:at] {
		if j.Ref == pump {
			n--
		}
	}
	return n
}

// partner returns the name of the half that h closes on.
func partner(h catalog.Half) string {
	if f, ok := catalog.FindFamily(h.Joint.Family); ok {
		return f.Partner(h.Name)
	}
	return h.Name
}
