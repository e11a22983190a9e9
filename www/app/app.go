// Package app is the page's memory: it holds the design that the user is
// working on, applies what they do to it, and answers with the parts of the
// page that changed. It runs in the browser behind one function, and knows
// nothing of browsers: a request is a JSON object, and so is the answer.
package app

import (
	"slices"
	"strconv"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/tokens"
	"drawoff/www/view"
)

// App is one user's bench. It is not safe for concurrent use; a page has one thread.
type App struct {
	past, future []kept
	present      design.Design
	at, steps    int               // which step made the present design, 0 for none, and how many there were
	home         string            // what the browser keeps the present design under
	report       pipeline.Report   // of present, at a glance
	later        []finding.Verdict // that the workshop told last of this plant, in these units; nil before it has
	spoken       string            // the units that all of this is told in
	anew         bool              // what the workshop told is of another plant, or in other units
	plant        int               // counts the plants that were on the bench, and the units each was told in: what the workshop tells of another is not taken
	pending      []view.Pending
	width        int
	zoom         float64
	shelf        design.Shelf      // what the user has of their own, whatever the design
	shelved      string            // the shelf as the browser has it
	typing       string            // path of the field that is being typed in: its keystrokes are one step
	refused      string            // path of the entry that could not be taken, when that was the last that was done
	midEntry     bool              // the last edit was a keystroke of an entry that is not finished
	sweep        [2]string         // path of the input that "what if" moves, and the figure that it watches
	shopped      string            // the last request to the workshop
	shown        map[string]string // regions as the page has them
	answer       tokens.Object     // the last, whose room the next one needs
}

// usualWidth is how wide a drawing is made before the page has said how much room it has.
const usualWidth = 720

// New returns a bench with the demo on it.
func New() *App {
	a := &App{width: usualWidth, shown: map[string]string{}, shelved: shelfText(design.Shelf{})}
	a.put(check(design.Demo()))
	a.spoken = q.Spoken()
	return a
}

// Page returns the whole page as it is before anybody has touched it.
func Page(assets view.Assets) string {
	a := New()
	whole := a.bench()
	whole.Report = a.report.Whole()
	whole.Shop = &view.Shop{Work: whole.Report.Work(whole.Shelf)}
	a.later = whole.Report.Later().Verdicts
	return view.Page(a.bench(), whole, assets)
}

// Handle does what a request asks:
//
//	start    open on what was stored in Text, else on the demo
//	follow   open Link to be looked at (undo brings back what was here): it has no home yet
//	take     put what was stored in Text on the bench, or the demo for none
//	move     what was kept under Path is kept under Home from now on; without a Path
//	         the present design, which has no home, is given that one
//	edit     make Edits; what cannot be taken stays pending in its field
//	add      put a piece of Kind before Path
//	point    put a point into the pump curve at Path
//	mend     make Edits, the way out that the workshop offered as Value
//	find     have the workshop find runs that begin where Value says: tank or pump
//	whatif   have the workshop move the input at Path and watch the figure Value
//	measure  take Value as the measured length of the dimension Path
//	recall   take every length in doubt that the shelf has as measured before
//	keep     put the piece at Path, with its neighbours of the same name, on the
//	         shelf as a part of the user's own; "made.0" puts one of the design's there
//	forget   take what is called Path off the shelf
//	stock    put Value on the shelf at Path, as design.Shelf.Put takes them
//	shelf    another window has changed the shelf to Text
//	own      start a plant around what Edits say
//	open     open a file's Text: a design or a shelf
//	save-shelf  answer with the shelf as a file
//	save     answer with the design as a file
//	link     answer with the design as a link
//	undo, redo
//	history  answer with the steps that can be gone to
//	go       go to the step Value: back to it or forth
//	units    show everything in the units that Value names, see quantity.SystemOf
//	slide    the grip of Path was dragged to Value
//	step     move the field at Path, in which Text stands, up by Value steps, or down
//	resize   draw again at Width and Zoom
//	rest     answer with what was out of sight before
//	later    the workshop has found the verdicts in Text of the plant that Value counts;
//	         without a Text it could not be had
//
// What own, open and take put on the bench is kept under Home, and so is what
// start does; every answer says where the present design belongs. Undo goes back
// over them, and so from one design to another.
//
// The answer to anything but rest holds the regions in sight, See,
// and says by More that the rest is to be asked for, once these are painted.
func (a *App) Handle(request string) string {
	var res Response
	if req, ok := readRequest(request); ok {
		res = a.do(req)
	} else {
		res = Response{Message: "The page sent something that is not a request: " + first(request) + " Reload the page.", Problem: true}
	}
	res.Undo, res.Redo, res.Title, res.Home = len(a.past) > 0 || a.refused != "", len(a.future) > 0, a.present.Title, a.home
	res.Step = a.at
	a.answer = a.answer[:0]
	res.write(&a.answer)
	return a.answer.String()
}

func (a *App) do(req Request) Response {
	if req.Op == "later" { // nobody did anything
		a.hear(req.Text, req.Value)
		return Response{Regions: a.changed(req)}
	}
	if req.Width > 0 {
		a.width = min(max(req.Width, 280), 1600)
	}
	if req.Zoom > 0 {
		a.zoom = min(max(float64(req.Zoom)/100, 1), 6)
	}
	if req.Op != "edit" && req.Op != "slide" && req.Op != "rest" && req.Op != "history" {
		a.typing = ""
	}
	switch req.Op {
	case "undo", "redo", "rest", "resize", "find", "units", "whatif", "save", "link", "shelf", "history":
	default:
		a.refused = ""
	}
	var res Response
	switch req.Op {
	case "start":
		res = a.start(req)
	case "follow":
		res = a.follow(req.Link)
	case "take":
		res = a.take(req.Text, req.Home)
	case "move":
		a.moveHome(req.Path, req.Home)
	case "edit":
		res.Message = a.edit(req.Edits, req.Typing)
	case "add":
		res = a.add(req.Kind, req.Path)
	case "point":
		res = a.point(req.Path)
	case "mend":
		res = a.mend(req.Edits, req.Value)
	case "measure":
		a.measure(req.Path, req.Value)
	case "recall":
		res = a.recall()
	case "keep":
		res = a.keep(req.Path)
	case "forget":
		a.stack(a.shelf.Forget(req.Path))
	case "stock":
		a.stock(req.Path, req.Value)
	case "shelf":
		res = a.readShelf(req.Text)
	case "save-shelf":
		res = Response{File: a.shelf.Write(), Name: "shelf.drawoff.json"}
	case "own":
		res = a.own(req.Edits, req.Home)
	case "open":
		res = a.open(req.Text, req.Home)
	case "save":
		res = Response{File: string(design.WriteFile(a.present)), Name: view.FileName(a.present.Title)}
	case "link":
		res = Response{Link: design.WriteLink(a.present)}
	case "undo":
		res.Message = a.undo()
	case "redo":
		res.Message = a.redo()
	case "history":
		return Response{Steps: a.history()}
	case "go":
		a.goTo(req.Value)
	case "units":
		a.units(req.Value)
	case "slide":
		res = a.slide(req)
	case "step":
		res = a.nudge(req)
	case "whatif":
		a.sweep = [2]string{req.Path, req.Value}
	case "resize", "rest", "find":
	default:
		return Response{Message: "The page asked for \"" + req.Op + "\", which this version does not know. Reload the page.", Problem: true}
	}
	// What was typed stands in the page, whatever this gave it last.
	switch req.Op {
	case "edit", "step":
		delete(a.shown, "form")
	case "measure":
		delete(a.shown, "form")
		delete(a.shown, "doubts")
	case "stock":
		delete(a.shown, "shelf")
	}
	if req.Op != "rest" {
		a.midEntry = req.Typing
		q.Speak(a.present.Typed) // what was worked out last may have been refused
	}
	if s := q.Spoken(); s != a.spoken {
		a.spoken = s
		a.renew()
	}
	res.Anew, a.anew = a.anew, false
	res.Regions = a.changed(req)
	file := string(design.WriteFile(a.present))
	if req.Op != "rest" {
		res.Store = a.store(file)
	}
	if res.More = len(req.See) > 0; !res.More {
		if req.Op == "find" {
			res.Shop = a.find(file, req.Value)
		} else {
			res.Shop = a.shop(file)
		}
	}
	if text := shelfText(a.shelf); text != a.shelved {
		a.shelved, res.Shelf = text, text
	}
	return res
}

// checked is a design with its report.
type checked struct {
	design design.Design
	report pipeline.Report
}

// check works d out, in the units that it speaks where that is what was chosen.
func check(d design.Design) checked {
	q.Speak(d.Typed)
	return checked{d, pipeline.Glance(d)}
}

// kept is a design that undo or redo brings back, and where it belongs. What
// was pending in it comes back with it, and the shelf where the step changed
// that, with the design or alone.
type kept struct {
	design  design.Design
	home    string
	pending []view.Pending
	later   []finding.Verdict // that the workshop had told of it
	plant   int               // on the bench then: of another that does not hold
	shelf   *design.Shelf
	alone   bool   // only the shelf was changed
	step    int    // which made it
	entry   string // path of the entry that alone was undone, "" where the design was
}

func (a *App) now() kept {
	return kept{design: a.present, home: a.home, pending: ofDesign(a.pending), later: slices.Clone(a.later), plant: a.plant, step: a.at}
}

// put makes c the present design.
func (a *App) put(c checked) { a.present, a.report = c.design, c.report }

// step makes c the present design and remembers the one before.
func (a *App) step(c checked) {
	const remembered = 200
	a.past = append(a.past, a.now())
	if len(a.past) > remembered {
		a.past = a.past[1:]
	}
	a.future = nil
	a.forgetPending()
	a.put(c)
	a.steps++
	a.at = a.steps
}

// undo goes a step back. An entry that could not be taken is a step, too, when
// nothing was done since: it alone goes then. It returns what the user must be
// told: the shelf may be out of sight.
func (a *App) undo() string {
	if a.refused == "" {
		shelf := len(a.past) > 0 && a.past[len(a.past)-1].alone
		a.past, a.future = a.move(a.past, a.future)
		return markup.If(shelf, "Taken back: your shelf is as it was before.")
	}
	k := a.now()
	k.entry, k.pending = a.refused, slices.Clone(a.pending)
	a.future = append(a.future, k)
	a.drop(a.refused)
	a.refused = ""
	return ""
}

// redo takes the last undo back.
func (a *App) redo() string {
	n := len(a.future) - 1
	if n < 0 || a.future[n].entry == "" {
		shelf := n >= 0 && a.future[n].alone
		a.future, a.past = a.move(a.future, a.past)
		return markup.If(shelf, "Done again on your shelf.")
	}
	a.refused = a.future[n].entry
	for _, p := range a.future[n].pending {
		if p.Path == a.refused {
			a.drop(p.Path)
			a.pending = append(a.pending, p)
		}
	}
	a.future = a.future[:n]
	return ""
}

// history returns the steps that can be gone to, with the present one, the
// first before the last.
func (a *App) history() []int {
	var steps []int
	for i := range a.past {
		steps = append(steps, a.past[i].step)
	}
	steps = append(steps, a.at)
	for i := len(a.future) - 1; i >= 0; i-- {
		if a.future[i].entry == "" { // else it is only what could not be taken
			steps = append(steps, a.future[i].step)
		}
	}
	return steps
}

// goTo goes to a step, or as near as can be.
func (a *App) goTo(step string) {
	n, err := strconv.Atoi(step)
	if err != nil {
		return
	}
	for a.at > n && len(a.past) > 0 {
		a.past, a.future = a.move(a.past, a.future)
	}
	for a.at < n && len(a.future) > 0 {
		if last := len(a.future) - 1; a.future[last].entry != "" {
			a.future = a.future[:last]
		} else {
			a.future, a.past = a.move(a.future, a.past)
		}
	}
}

// move takes the last of from, keeps the present in to, and returns both.
func (a *App) move(from, to []kept) ([]kept, []kept) {
	if len(from) == 0 {
		return from, to
	}
	here, k := a.now(), from[len(from)-1]
	if k.shelf != nil {
		shelf := a.shelf
		here.shelf, here.alone = &shelf, k.alone
		a.shelf = *k.shelf
	}
	to = append(to, here)
	if k.alone && k.home == a.home {
		a.at = k.step
		return from[:len(from)-1], to
	}
	a.forgetPending()
	if k.home != a.home || k.home == "" { // what has no home is only looked at
		a.another(k.home)
	}
	a.pending = append(a.pending, k.pending...)
	a.put(check(k.design))
	if a.later = nil; k.plant == a.plant {
		a.later = k.later // of these pieces; what was told since is of others
	}
	a.at = k.step
	return from[:len(from)-1], to
}

// moveHome lets every step that belongs to one home belong to another. Steps
// without a home are each a plant of its own: only the present one gets a home.
func (a *App) moveHome(from, to string) {
	for _, steps := range [][]kept{a.past, a.future} {
		for i := range steps {
			if from != "" && steps[i].home == from {
				steps[i].home = to
			}
		}
	}
	if a.home == from {
		a.home = to
	}
}

func (a *App) bench() view.Bench {
	return view.Bench{Design: a.present, Report: a.report.With(a.later), Pending: a.pending, Shelf: a.shelf, Width: a.width, Zoom: a.zoom, Glance: a.later == nil}
}

// changed returns the regions that differ from what the page has, of those
// that are in sight where the request says which.
//
// In the middle of an entry the form, which holds that entry, waits until it
// is finished, all but the picture of the pump's curve.
func (a *App) changed(req Request) map[string]string {
	out := map[string]string{}
	bench := a.bench()
	for _, r := range view.Regions {
		if len(req.See) > 0 && !slices.Contains(req.See, r.ID) {
			continue
		}
		if r.ID == "form" && a.midEntry {
			r = view.Region{ID: view.PumpPictureID, Write: view.PumpPicture}
		}
		if content := r.Write(bench); a.shown[r.ID] != content {
			a.shown[r.ID] = content
			out[r.ID] = content
			switch r.ID { // the one holds the other as it then was
			case "form":
				delete(a.shown, view.PumpPictureID)
			case view.PumpPictureID:
				delete(a.shown, "form")
			}
		}
	}
	return out
}
