// Package workshop does for the page what takes longer than a keystroke. In
// the browser it runs in a thread of its own, so that the page stays alive,
// and in a module of its own, which is fetched once the page stands: what
// only the workshop needs does not weigh on the first load.
//
// It remembers nothing: a request holds the whole design, and is a JSON
// object, and so is the answer.
package workshop

import (
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/compare"
	"drawoff/pipeline/design"
	"drawoff/pipeline/find"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/tokens"
	"drawoff/pipeline/workfile"
	"drawoff/www/paper"
	"drawoff/www/view"
)

// Handle does what a request asks:
//
//	design   the design, as in a file
//	plant    which of the page's plants that is
//	width    pixels that a drawing may be wide
//	units    the system that everything is shown in, see quantity.SystemOf
//	address  of the page, for the link on paper and the one to share
//	file     name of a file for the workshop that is wanted of the design, "design" for its own
//	find     what somebody looks for in the catalogue; there is then no design
//	against  a design to hold it against, as in a file
//	shelf    what the user has of their own, as in a file
//	typed    what could not be put on the shelf and waits in its fields, by path
//	move     path of the input that "what if" moves
//	watch    slug of the figure that it watches
//	runs     where runs that are to be found, too, begin: tank or pump
//	link     "" for the link to the design; a link, for the design in it
//	list     the designs that the browser keeps, for their list; there is then no design
//
// It answers with what the parts of the page hold, by the id of the element each
// fills, with the ways out of each verdict, with the sheets to be printed, and
// with what the page is to tell its own module first, which shows all verdicts in one list:
// {"tell": {"op": "later", …}, "regions": {"emptying": "<p>…"}, "sheets": "<table>…"}. A design that cannot be read or worked out gives empty regions: the
// page has told why already. What was looked for fills the region "found" of
// the catalogue's page, a list the region "designs-list". A file is answered as {"file": {"name": …, "type": …,
// "content": …}} and nothing else, an unknown one as {"error": …}.
func Handle(request string) string {
	req, ok := read(request)
	if !ok {
		return refusal("the workshop was sent something that is not a request")
	}
	if req.find != "" {
		var found tokens.Object
		found.Text("found", view.Hits(req.find, catalog.Search(req.find)))
		return answer("regions", found)
	}
	if req.linked {
		return linked(req)
	}
	if req.list != nil {
		var list tokens.Object
		list.Text("designs-list", view.Designs(req.list))
		return answer("regions", list)
	}
	q.Show(q.SystemOf(req.units))
	if req.file == workfile.ReportJSON {
		q.Show(q.Metric) // as the terminal and the service write it
	}
	bench := view.Bench{Width: req.width, Pending: req.typed, Shop: &view.Shop{}}
	bench.Shelf, _ = design.ReadShelf(req.shelf) // the page has told what is wrong with it
	for i := range bench.Pending {
		p := &bench.Pending[i]
		if _, f := bench.Shelf.Put(p.Path, p.Value); f != nil {
			p.Fault = *f
		}
		p.Path = view.StockPrefix + p.Path
	}
	d, faults := design.ReadFile([]byte(req.design))
	bench.Report.Faults = faults
	if len(faults) == 0 {
		q.Speak(d.Typed)
		bench.Design, bench.Report = d, pipeline.Check(d)
		bench.Work = bench.Report.Work(bench.Shelf)
	}
	if req.file != "" {
		return file(bench, req.file)
	}
	known := bench.Report.Verdicts != nil
	if known {
		bench.Sweep = req.sweep
		// Runs are for the plant as it was asked: an edit takes them away.
		if line, wanted := lines[req.runs]; wanted {
			question, why := find.Of(bench.Design, bench.Report, line)
			bench.Runs = &find.Answer{Why: why}
			if why == "" {
				*bench.Runs = find.Find(question, nil) // to stop it the page ends the thread
			}
		}
		if req.against != "" {
			if other, faults := design.ReadFile([]byte(req.against)); len(faults) == 0 {
				against := compare.Check(other)
				bench.Against = &against
			}
		}
	}
	var regions tokens.Object
	for _, p := range view.Parts() {
		write := p.Write
		if write == nil { // views know nothing of paper
			write = func(b view.Bench) (gist, content string) { return paper.Share(b, req.address) }
		}
		gist, content := "", ""
		if known {
			gist, content = write(bench)
		}
		regions.Text(p.Gist(), gist)
		regions.Text(p.Region(), content)
	}
	if known {
		for _, f := range append(view.Ways(bench), view.FormGists(bench)...) {
			regions.Text(f.ID, f.Content)
		}
	}
	var o tokens.Object
	o.Raw("regions", regions.String())
	if known {
		var tell tokens.Object
		tell.Text("op", "later")
		tell.Text("text", finding.Pass(bench.Report.Later().Verdicts))
		tell.Text("value", strconv.Itoa(req.plant))
		o.Raw("tell", tell.String())
		o.Text("sheets", paper.Sheets(bench, req.address))
	}
	return o.String()
}

var lines = map[string]find.Line{"tank": find.FromTank, "pump": find.FromPump}

type request struct {
	design  string // a file's text
	plant   int
	width   int
	units   string
	address string
	find    string
	runs    string
	file    string
	shelf   string
	typed   []view.Pending
	sweep   view.Sweep
	link    string
	linked  bool // whether the link was there, if only as ""
	list    []view.Listed
	against string // another file's text
}

// designFile is the name by which the design itself is asked for as a file.
const designFile = "design"

// file answers a request for the file called name.
func file(b view.Bench, name string) string {
	f, ok := workfile.List(b.Report, b.Work, name)
	switch {
	case ok:
	case name == workfile.ReportJSON:
		f, ok = workfile.File{Name: name, Type: "application/json", Content: string(asjson.Indent(asjson.Report(b.Report, b.Work)))}, true
	case name == designFile && b.Report.Verdicts != nil:
		f, ok = workfile.File{Name: view.FileName(b.Design.Title), Type: "application/json", Content: string(design.WriteFile(b.Design))}, true
	default:
		f, ok = workfile.Make(b.Report, name)
	}
	if !ok {
		return refusal("no file " + name + " can be made of this design")
	}
	var o tokens.Object
	o.Text("name", f.Name)
	o.Text("type", f.Type)
	o.Text("content", f.Content)
	return answer("file", o)
}

// linked answers a request for a link or for what is in one, which other
// programs send: {"link": "1.…"}, {"design": {…}} or, where it cannot be read,
// {"faults": […]}.
func linked(req request) string {
	var d design.Design
	var faults design.Faults
	if req.link == "" {
		d, faults = design.ReadFile([]byte(req.design))
	} else {
		d, faults = design.ReadLink(req.link)
	}
	var o tokens.Object
	switch {
	case len(faults) > 0:
		o.Raw("faults", string(asjson.Append(nil, faults)))
	case req.link == "":
		o.Text("link", design.WriteLink(d))
	default:
		o.Raw("design", string(design.WriteFile(d)))
	}
	return o.String()
}

// answer returns the one member that the workshop has to tell.
func answer(name string, value tokens.Object) string {
	var o tokens.Object
	o.Raw(name, value.String())
	return o.String()
}

func refusal(why string) string {
	var o tokens.Object
	o.Text("error", why)
	return o.String()
}

func read(text string) (req request, ok bool) {
	const deepest = 24 // more than the brackets of any design
	r := tokens.NewReader(text, deepest)
	ok = r.Members(r.Next(), func(name string, t tokens.Token) bool {
		switch name {
		case "design":
			req.design = r.Raw(t)
			return true
		case "against":
			req.against = r.Raw(t)
			return true
		case "find":
			return t.Take(&req.find)
		case "list":
			req.list = []view.Listed{}
			return r.Items(t, func(t tokens.Token) bool {
				d, ok := readListed(r, t)
				req.list = append(req.list, d)
				return ok
			})
		case "file":
			return t.Take(&req.file)
		case "units":
			return t.Take(&req.units)
		case "shelf":
			return t.Take(&req.shelf)
		case "typed":
			return r.Members(t, func(path string, t tokens.Token) bool {
				req.typed = append(req.typed, view.Pending{Path: path})
				return t.Take(&req.typed[len(req.typed)-1].Value)
			})
		case "address":
			return t.Take(&req.address)
		case "link":
			req.linked = true
			return t.Take(&req.link)
		case "plant":
			return t.TakeInt(&req.plant)
		case "width":
			return t.TakeInt(&req.width)
		case "move":
			return t.Take(&req.sweep.Move)
		case "watch":
			return t.Take(&req.sweep.Watch)
		case "runs":
			return t.Take(&req.runs)
		}
		r.Skip(t)
		return true
	})
	return req, ok && r.Next().Kind == tokens.End
}

// readListed reads one of the designs of a list and works it out.
func readListed(r *tokens.Reader, open tokens.Token) (l view.Listed, ok bool) {
	ok = r.Members(open, func(name string, t tokens.Token) bool {
		switch name {
		case "id":
			return t.Take(&l.ID)
		case "title":
			return t.Take(&l.Title)
		case "changed":
			return t.Take(&l.Changed)
		case "bench":
			l.Bench = t.Text == "true"
			return t.Kind == tokens.Bool
		case "design":
			var d design.Design
			if d, l.Faults = design.ReadFile([]byte(r.Raw(t))); len(l.Faults) == 0 {
				l.Report = pipeline.Check(d)
			}
			return true
		}
		r.Skip(t)
		return true
	})
	return l, ok
}
