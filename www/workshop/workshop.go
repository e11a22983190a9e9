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
	"drawoff/pipeline/design"
	"drawoff/pipeline/find"
	"drawoff/pipeline/tokens"
	"drawoff/pipeline/workfile"
	"drawoff/www/view"
)

// Regions are the parts of the page that the workshop fills, in the order of the page.
var Regions = []view.Region{
	{ID: "heights", Write: view.Heights},
	{ID: "stability", Write: view.Stability},
	{ID: "suction", Write: view.Suction},
	{ID: "emptying", Write: view.Emptying},
	{ID: "files", Write: view.Files},
}

// Handle does what a request asks:
//
//	design   the design, as in a file
//	width    pixels that a drawing may be wide
//	file     name of a file for the workshop that is wanted of the design
//	find     what somebody looks for in the catalogue; there is then no design
//	runs     whether runs to the pump are to be found, too
//
// It answers with the content of the Regions, by the id of the element each
// fills, and with the ways out of each verdict: {"regions": {"emptying":
// "<p>…"}}. A design that cannot be read or worked out gives empty regions: the
// page has told why already. What was looked for fills the region "found" of
// the catalogue's page. A file is answered as {"file": {"name": …, "type": …,
// "content": …}} and nothing else, an unknown one as {"error": …}.
func Handle(request string) string {
	req, ok := read(request)
	if !ok {
		return string(append(tokens.AppendString([]byte(`{"error":`), "the workshop was sent something that is not a request"), '}'))
	}
	if req.find != "" {
		found := tokens.AppendString([]byte(`{"regions":{"found":`), view.Hits(req.find, catalog.Search(req.find)))
		return string(append(found, "}}"...))
	}
	bench := view.Bench{Width: req.width}
	if d, faults := design.ReadFile([]byte(req.design)); len(faults) == 0 {
		bench.Design, bench.Report = d, pipeline.Check(d)
	}
	if req.file != "" {
		return file(bench.Report, req.file)
	}
	out := []byte(`{"regions":{`)
	fill := func(id, content string) {
		if out[len(out)-1] != '{' {
			out = append(out, ',')
		}
		out = append(tokens.AppendString(out, id), ':')
		out = tokens.AppendString(out, content)
	}
	known := bench.Report.Verdicts != nil
	for _, r := range Regions {
		content := ""
		if known {
			content = r.Write(bench)
		}
		fill(r.ID, content)
	}
	if known {
		for _, f := range view.Ways(bench) {
			fill(f.ID, f.Content)
		}
	}
	// Runs are for the plant as it was asked: an edit takes them away.
	runs := view.RunsIdle()
	if known && req.runs {
		question, why := find.Of(bench.Design, bench.Report)
		answer := find.Answer{Why: why}
		if why == "" {
			answer = find.Find(question, nil) // to stop it the page ends the thread
		}
		runs = view.Runs(bench, answer)
	}
	fill("runs", runs)
	return string(append(out, "}}"...))
}

type request struct {
	design string // a file's text
	width  int
	find   string
	runs   bool
	file   string
}

// file answers a request for the file called name.
func file(r pipeline.Report, name string) string {
	f, ok := workfile.Make(r, name)
	if !ok {
		return string(append(tokens.AppendString([]byte(`{"error":`), "no file "+name+" can be made of this design"), '}'))
	}
	out := tokens.AppendString([]byte(`{"file":{"name":`), f.Name)
	out = tokens.AppendString(append(out, `,"type":`...), f.Type)
	out = tokens.AppendString(append(out, `,"content":`...), f.Content)
	return string(append(out, "}}"...))
}

func read(text string) (req request, ok bool) {
	const deepest = 24 // more than the brackets of any design
	r := tokens.NewReader(text, deepest)
	if r.Next().Kind != tokens.Open {
		return req, false
	}
	for {
		name := r.Next()
		if name.Kind != tokens.Name {
			return req, name.Kind == tokens.Close && r.Next().Kind == tokens.End
		}
		value := r.Next()
		switch name.Text {
		case "design":
			req.design = r.Raw(value)
		case "find":
			req.find = value.Text
		case "file":
			req.file = value.Text
		case "width":
			req.width, _ = strconv.Atoi(value.Text)
		case "runs":
			req.runs = value.Text == "true"
		default:
			r.Skip(value)
		}
	}
}
