package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"drawoff/pipeline/asjson"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/workfile"
)

// files writes the files for the workshop of one saved design into a folder.
func (t terminal) files(args []string) int {
	set := flag.NewFlagSet("files", flag.ContinueOnError)
	folder := set.String("o", "", "`folder` to write into; it is made where there is none, and files of the same names are replaced")
	shelfFile := set.String("shelf", "", "`file` of the shelf, as the page saves it: parts and offcuts in hand, prices")
	if done, code := t.flags(set, `-o FOLDER [-shelf FILE] FILE ("-" reads standard input)`, args); done {
		return code
	}
	if *folder == "" || set.NArg() != 1 {
		return t.fail(errors.New("say where to write and which design: drawoff files -o FOLDER FILE"))
	}
	shelf, err := t.shelf(*shelfFile)
	if err != nil {
		return t.fail(err)
	}
	name := set.Arg(0)
	q.Show(q.AsTyped)
	_, report := t.report(name)
	if len(report.Faults) > 0 {
		t.faults(name, report.Faults)
		return failed
	}
	if err := os.MkdirAll(*folder, 0o755); err != nil {
		return t.fail(err)
	}
	work := report.Work(shelf)
	offers, missing := workfile.Offers(report)
	for _, o := range offers {
		for _, f := range o.Files {
			file, _ := workfile.Make(report, f)
			if f == workfile.ReportJSON {
				file.Content = string(asjson.Indent(asjson.Report(report, work)))
			}
			path := filepath.Join(*folder, f)
			if err := os.WriteFile(path, []byte(file.Content), 0o644); err != nil {
				return t.fail(err)
			}
			fmt.Fprintf(t.out, "%s: %s\n", path, o.Title)
		}
	}
	for _, name := range workfile.Lists {
		file, ok := workfile.List(report, work, name)
		if !ok {
			continue
		}
		path := filepath.Join(*folder, name)
		if err := os.WriteFile(path, []byte(file.Content), 0o644); err != nil {
			return t.fail(err)
		}
		what, _, _ := strings.Cut(name, ".")
		fmt.Fprintf(t.out, "%s: list of %s, for a spreadsheet\n", path, what)
	}
	for _, m := range missing {
		fmt.Fprintln(t.out, "Not drawn. "+m)
	}
	fmt.Fprintln(t.out, "Print at 100 %, and measure the check line of 100 mm (3 15/16 in) before anything is cut.")
	return fine
}
