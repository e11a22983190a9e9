package app

import (
	"strconv"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/tokens"
	"drawoff/www/view"
)

// store returns what the browser is to keep; file is the present design's.
func (a *App) store(file string) string { return stored{file, a.pending}.json() }

// shop returns what the workshop is asked: to work on file, the present
// design's; "" when it has been asked that already.
func (a *App) shop(file string) string {
	o := a.work(file)
	request := o.String()
	if request == a.shopped {
		return ""
	}
	a.shopped = request
	return request
}

// hear takes what the workshop tells of a plant beyond a glance: verdicts as
// finding.Pass writes them, or "" where it could not be had. After an edit they
// stand until it tells anew.
func (a *App) hear(verdicts, plant string) {
	if verdicts == "" {
		a.later = nil
	} else if told, ok := finding.Passed(verdicts); ok && plant == strconv.Itoa(a.plant) {
		a.later = told
	}
}

// another is said where another plant comes onto the bench: what was told of
// the one before does not hold of it.
func (a *App) another(home string) {
	a.home = home
	a.renew()
}

// renew is said where what the workshop told does not stand beside the rest.
func (a *App) renew() {
	a.later, a.anew = nil, true
	a.plant++
}

// find asks the workshop for runs from the tank or from the pump, beside all
// else: what it was asked before is answered again.
func (a *App) find(file, from string) string {
	o := a.work(file)
	a.shopped = o.String()
	o.Text("runs", from)
	return o.String()
}

// work is what every request to the workshop holds.
func (a *App) work(file string) tokens.Object {
	var o tokens.Object
	o.Raw("design", file)
	o.Int("plant", a.plant)
	o.Int("width", a.width)
	o.Text("units", q.Shown().String())
	o.Words("shelf", a.shelf.Write())
	var typed tokens.Object
	for _, p := range a.pending {
		if path, own := strings.CutPrefix(p.Path, view.StockPrefix); own {
			typed.Text(path, p.Value)
		}
	}
	if typed != nil {
		o.Raw("typed", typed.String())
	}
	o.Words("move", a.sweep[0])
	o.Words("watch", a.sweep[1])
	return o
}

// start opens what the user was working on, else the demo.
func (a *App) start(req Request) Response {
	if req.Text == "" {
		a.asBuilt()
	}
	a.another(req.Home)
	a.units(req.Value)
	res := a.readShelf(req.Shelf)
	if req.Text == "" {
		a.anew = false
		return res
	}
	c, pending, ok := restored(req.Text)
	if !ok {
		a.home = "" // what could not be read stays as it is there
		return Response{Message: "What this browser had kept could not be read, so the demo is shown. It was: " + first(req.Text), Problem: true}
	}
	a.put(c)
	a.pending = pending
	return res
}

// asBuilt says that the page, which was built with the demo and all that there
// is to say of it, need not be given less until the workshop has told the rest.
func (a *App) asBuilt() {
	a.changed(Request{See: []string{"tally", "verdicts"}})
}

// units shows everything in another system. What was typed stays as it was.
func (a *App) units(name string) {
	if s := q.SystemOf(name); s != q.Shown() {
		q.Show(s)
		a.put(check(a.present))
		a.recheck() // the reasons, too, are told in units
	}
}

// own starts a plant around what somebody knows of theirs. What is wrong with
// that is told beside its question, and changes nothing.
func (a *App) own(known []design.Edit, home string) Response {
	if said, faults := (design.Design{}).Apply(known...); len(faults) == 0 {
		q.Speak(said.Typed) // what is made up is in the units of what was said
	}
	d, faults := design.Own(known...)
	if len(faults) == 0 {
		c := check(d)
		if faults = c.report.Faults; len(faults) == 0 {
			a.enter(c, home)
			return Response{Message: "Here is your plant, as far as you have told it. What is marked as assumed was made up: look at each. Undo brings back what was here before.", Focus: "verdicts-title"}
		}
	}
	f := faults[0]
	res := Response{Message: f.String(), Problem: true, Focus: view.OwnPrefix + f.Field}
	for _, path := range design.MustKnow {
		if path == f.Field {
			res.Message = view.Sentence(f)
		}
	}
	return res
}

// restored reads what store wrote.
func restored(text string) (c checked, pending []view.Pending, ok bool) {
	s, ok := readStored(text)
	if !ok {
		return c, nil, false
	}
	d, faults := design.ReadFile([]byte(s.design))
	c = check(d)
	return c, s.pending, len(faults) == 0 && len(c.report.Faults) == 0
}

// take puts what the browser had kept of another design on the bench, or the
// demo where it has none. One that cannot be read changes nothing.
func (a *App) take(text, home string) Response {
	c, pending, ok := check(design.Demo()), []view.Pending(nil), true
	if text != "" {
		c, pending, ok = restored(text)
	}
	if !ok {
		return Response{Message: "That design could not be read; what you see is what was here before. It is: " + first(text), Problem: true}
	}
	a.enter(c, home)
	a.pending = append(a.pending, ofDesign(pending)...)
	return Response{}
}

// enter puts another design on the bench, which is kept under home.
func (a *App) enter(c checked, home string) {
	a.step(c)
	a.another(home)
}

// follow opens a link to be looked at: it has no home until the user wants it
// for their own. One that cannot be read changes nothing.
func (a *App) follow(link string) Response {
	d, faults := design.ReadLink(link)
	c := check(d)
	if len(faults) == 0 {
		faults = c.report.Faults
	}
	if len(faults) > 0 {
		return Response{Message: "That link could not be opened; what you see is what was here before. " + list(faults) + beyond(link, ""), Problem: true}
	}
	if string(design.WriteFile(d)) == string(design.WriteFile(a.present)) {
		return Response{Message: beyond(link, "This is the plant of that link.")}
	}
	a.enter(c, "")
	return Response{Message: beyond(link, "Opened.")}
}

// beyond tells what of a link's design a newer Drawoff wrote and this one does
// not know, after the sentence before; "" when there is no such thing.
func beyond(link, before string) string {
	left := design.LinkBeyond(link)
	if len(left) == 0 {
		return ""
	}
	return before + " The link comes from a newer Drawoff, and what this one does not know was left out of it: " +
		strings.Join(left, ", ") + ". Reload the page to bring it up to date, then open the link again."
}

// open opens a file. One that cannot be read changes nothing.
func (a *App) open(text, home string) Response {
	if design.IsShelf(text) {
		return a.joinShelf(text)
	}
	d, faults := design.ReadFile([]byte(text))
	c := check(d)
	if len(faults) == 0 {
		faults = c.report.Faults
	}
	if len(faults) > 0 {
		return Response{Message: "That file could not be opened; what you see is what was here before. " + list(faults), Problem: true}
	}
	a.enter(c, home)
	return Response{Message: "Opened, as a design of its own. Undo brings back what was here before."}
}

// list tells the first few faults.
func list(faults design.Faults) string {
	const told = 4
	var s []string
	for i, f := range faults {
		if i == told {
			s = append(s, "And more.")
			break
		}
		s = append(s, f.String())
	}
	return strings.Join(s, " ")
}

func first(s string) string {
	const most = 200
	r := []rune(s)
	if len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
