package joint

import (
	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// mostExpanded is how far a tube end is expanded cold, as a part of its
// diameter, in a small shop. Austenitic tube stands more; a roller or a swage
// takes it so far without thinning that shows. Common practice, no source.
const mostExpanded = 0.05

// Prepare returns how one of two tube ends is prepared to match the other
// before they are welded, as a clause ("turn the bore of the 38.1 mm end out
// to 35.6 mm"): its excess metal is turned off, or it is expanded, by no more
// than 5 % of its diameter, and then turned where that leaves a step. False
// where neither brings them within limit, a part of the thinner wall, or where
// nothing is to be done.
func Prepare(up, down catalog.Half, limit float64) (how string, ok bool) {
	if !up.Plain() || !down.Plain() || stepOf(up, down).within(allowed(up, down, limit), true) {
		return "", false
	}
	if how, ok = turned(up, down, limit); ok {
		return how, true
	}
	narrow, wide := up, down
	if narrow.Tube.OD > wide.Tube.OD {
		narrow, wide = wide, narrow
	}
	od, wall := narrow.Tube.OD, narrow.Tube.Wall
	if od <= wall || wide.Tube.OD > od*(1+mostExpanded) {
		return "", false
	}
	how = "expand the " + q.Caliper(od) + " end to " + q.Caliper(wide.Tube.OD)
	// The metal stays: the wall thins as the middle of it grows.
	narrow.Tube.OD = wide.Tube.OD
	narrow.Tube.Wall = wall * (od - wall) / (wide.Tube.OD - wall)
	if stepOf(narrow, wide).within(allowed(narrow, wide, limit), true) {
		return how, true
	}
	more, ok := turned(narrow, wide, limit)
	return how + " and " + more, ok
}

// turned returns how the excess of the thicker of two ends is turned off, where
// it stands out by more than is allowed.
func turned(a, b catalog.Half, limit float64) (how string, ok bool) {
	thick, thin := a, b
	if thick.Tube.Wall < thin.Tube.Wall {
		thick, thin = thin, thick
	}
	s, allow := stepOf(thick, thin), allowed(thick, thin, limit)
	outside, bore := thick.Tube.OD, thick.Tube.Bore()
	if s.bore > allow.bore {
		bore = max(bore, thin.Tube.Bore())
	}
	if s.outside > allow.outside {
		outside = min(outside, thin.Tube.OD)
	}
	left := thick
	left.Tube.OD, left.Tube.Wall = outside, (outside-bore)/2
	if left.Tube.Wall <= 0 || !stepOf(left, thin).within(allowed(left, thin, limit), true) {
		return "", false
	}
	if bore > thick.Tube.Bore() {
		how = "turn the bore of the " + q.Caliper(thick.Tube.OD) + " end out to " + q.Caliper(bore)
	}
	if outside < thick.Tube.OD {
		if how != "" {
			how += " and "
		}
		how += "turn the outside of the " + q.Caliper(thick.Tube.OD) + " end down to " + q.Caliper(outside)
	}
	return how, true
}

// prepared reports whether the ends at a welded joint that a design calls
// prepared can be, so that their step is taken up.
func prepared(up, down catalog.Half, limit float64, said bool) bool {
	if !said {
		return false
	}
	_, ok := Prepare(up, down, limit)
	return ok
}
