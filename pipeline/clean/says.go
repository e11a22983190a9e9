package clean

import (
	"slices"
	"strconv"

	q "drawoff/pipeline/quantity"
)

// says tells what matters of the programme beside its figures.
func (w *wash) says(r *Result) {
	say := func(s string) { r.Says = append(r.Says, s) }
	if w.need > w.spray {
		say("The line asks for " + q.Text(w.need) + " and the spray ball for " + q.Text(w.spray) + ": let the rest past the ball, or wash the line and the tank one after the other.")
	}
	for i, s := range w.Steps {
		row := r.Programme.Rows[i]
		number := "Step " + strconv.Itoa(i+1) + ", " + row.Name
		if s.Rinse() && row.Displaced < w.Rinses {
			say(number + ": " + q.Text(s.Time) + " displace what the line holds " + q.Text(q.Number(row.Displaced)) + " times; " + q.Text(q.Number(w.Rinses)) + " times take " + q.Text(q.Duration(w.Rinses*float64(w.line)/float64(row.Flow))) + ".")
		}
		if row.Contact == 0 && !s.Rinse() {
			say(number + ": it ends before it has reached the end of the line.")
		}
		if i > 0 && clash(w.Steps[i-1], s) {
			say(number + ": there is no rinse between it and the step before. What the one leaves the other meets" + gas(w.Steps[i-1], s) + ".")
		}
		if len(s.Liquid.Outside) > 0 {
			o := s.Liquid.Outside[0]
			say(number + ": for its " + o.Property + " the source covers " + o.Range + "; " + o.Used + " is used.")
		}
	}
	if w.Fed > 0 {
		say("Where the pump for the wash is connected is not told: what it has at its suction, where in the line the wash would boil and whether a hose folds flat are not judged.")
	} else if i := slices.IndexFunc(w.runs, func(r Run) bool { return !r.Boils && !(r.Known && r.Flow > 0) }); i >= 0 {
		say("How fast the line runs with " + w.Steps[i].With() + ", is not known: where that would boil in the line and whether a hose folds flat are not judged.")
	}
	if w.Scavenge > 0 {
		say("Where the pump that draws the wash off stands is not told: whether hot wash boils at its suction is not judged.")
	}
	if w.Element <= 0 && r.Programme.Totals.Heat > 0 {
		say("Say what the heating element takes up, and the time to warm each batch is told.")
	}
}

// clash reports whether two steps of different chemicals follow on each other.
func clash(a, b Step) bool {
	return a.Strength > 0 && b.Strength > 0 && a.Agent.Slug != b.Agent.Slug
}

// gas says where what is left of one chemical meets another and hurts.
func gas(a, b Step) string {
	is := func(slug string) bool { return a.Agent.Slug == slug || b.Agent.Slug == slug }
	if is("hypochlorite") && (is("nitric") || is("phosphoric") || is("peracetic")) {
		return ": hypochlorite and acid give off chlorine, which kills"
	}
	return ""
}
