// Command drawoff checks a tank, what hangs under it and its run to the pump
// before anything is cut or ordered: as a page on this machine, as a page for
// any web host, or as a report in the terminal.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"
	"unicode"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/tokens"
	"drawoff/www/site"
	"drawoff/www/view"
)

const usage = `Drawoff checks a tank, what hangs under it and its run to the pump,
before anything is cut or ordered.

  drawoff [serve] [-addr HOST:PORT]   the page, on this machine
  drawoff build [-edge] -o FOLDER     the page as files, for any web host, or as an edge worker
  drawoff check [-json] FILE...       a report on saved designs, "-" for standard input
  drawoff route [-from pump] FILE     runs from the tank to the pump, or from there on, found for a saved design
  drawoff catalog [QUERY]             the catalogue, or what in it fits the words: 2 inch rjt liner
  drawoff files -o FOLDER FILE        templates to print at full size, and DXF

check ends with 0 when nothing says stop, 1 when something does, and 2 when a
design could not be read. "drawoff COMMAND -h" lists what a command takes.
`

// What the command ends with.
const (
	fine   = 0
	stop   = 1 // a verdict says stop; nothing was found
	failed = 2 // it could not be done, or was asked for wrongly
)

func main() {
	ctx, cancel := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := terminal{os.Stdin, os.Stdout, os.Stderr}.run(ctx, os.Args[1:])
	cancel()
	os.Exit(code)
}

// terminal is where a command reads and writes.
type terminal struct {
	in       io.Reader
	out, err io.Writer
}

func (t terminal) run(ctx context.Context, args []string) int {
	command := "serve"
	if len(args) > 0 && (!strings.HasPrefix(args[0], "-") || isHelp(args[0])) {
		command, args = args[0], args[1:]
	}
	switch command {
	case "serve":
		return t.serve(ctx, args)
	case "build":
		return t.build(ctx, args)
	case "check":
		return t.check(args)
	case "route":
		return t.route(func() bool { return ctx.Err() == nil }, args)
	case "catalog":
		return t.catalog(args)
	case "files":
		return t.files(args)
	}
	if command == "help" || isHelp(command) {
		if len(args) > 0 && args[0] != "help" && !isHelp(args[0]) {
			return t.run(ctx, []string{args[0], "-h"})
		}
		fmt.Fprint(t.out, usage)
		return fine
	}
	fmt.Fprintf(t.err, "drawoff: there is no command %q\n\n%s", command, usage)
	return failed
}

func isHelp(arg string) bool { return arg == "-h" || arg == "-help" || arg == "--help" }

// flags parses args. When done is true the command ends with code: help was
// asked for and given, or an argument is wrong and has been spoken of.
func (t terminal) flags(set *flag.FlagSet, takes string, args []string) (done bool, code int) {
	var said strings.Builder
	set.SetOutput(&said)
	set.Usage = func() {
		fmt.Fprintf(&said, "drawoff %s %s\n", set.Name(), takes)
		set.PrintDefaults()
	}
	err := parse(set, args)
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(t.out, said.String())
		return true, fine
	}
	fmt.Fprint(t.err, said.String())
	return err != nil, failed
}

// parse parses args, whose flags may stand behind the names of files, too, but
// for those behind "--".
func parse(set *flag.FlagSet, args []string) error {
	var names []string
	rest := []string{}
	if i := slices.Index(args, "--"); i >= 0 {
		args, rest = args[:i], args[i+1:]
	}
	for {
		if err := set.Parse(args); err != nil {
			return err
		}
		if args = set.Args(); len(args) == 0 {
			return set.Parse(slices.Concat([]string{"--"}, names, rest))
		}
		names, args = append(names, args[0]), args[1:]
	}
}

// fail says why a command could not be done.
func (t terminal) fail(err error) int {
	fmt.Fprintln(t.err, "drawoff:", plain(err.Error()))
	return failed
}

// plain returns text with nothing in it that a terminal obeys: a fault repeats
// what stands in a file, and the file may be anybody's.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

func (t terminal) serve(ctx context.Context, args []string) int {
	set := flag.NewFlagSet("serve", flag.ContinueOnError)
	addr := set.String("addr", "127.0.0.1:8080", "`address` to serve on; port 0 takes a free one")
	if done, code := t.flags(set, "[-addr HOST:PORT]", args); done {
		return code
	}
	if set.NArg() > 0 {
		return t.fail(fmt.Errorf("serve takes no %q", set.Arg(0)))
	}
	// The port first: to compile and only then find it taken wastes a minute.
	listener, err := net.Listen("tcp", *addr)
	if errors.Is(err, syscall.EADDRINUSE) {
		return t.fail(fmt.Errorf("%s: address in use: try -addr 127.0.0.1:8081", *addr))
	}
	if err != nil {
		return t.fail(fmt.Errorf("cannot serve on %q: %w", *addr, err))
	}
	defer listener.Close()

	fmt.Fprintln(t.out, "Compiling the module…")
	files, err := site.Build(ctx)
	if err != nil {
		return t.fail(err)
	}
	server := &http.Server{Handler: site.Handler(files), ReadHeaderTimeout: 10 * time.Second}
	context.AfterFunc(ctx, func() { _ = server.Close() }) // pages in the making can be asked for again
	fmt.Fprintf(t.out, "Drawoff is on http://%s/ until you press Ctrl-C.\n", listener.Addr())
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return t.fail(err)
	}
	return fine
}

func (t terminal) build(ctx context.Context, args []string) int {
	set := flag.NewFlagSet("build", flag.ContinueOnError)
	folder := set.String("o", "", "`folder` to build into: empty, or built before")
	edge := set.Bool("edge", false, "build the edge worker, which serves the page, short links and checks, for Cloudflare Workers")
	if done, code := t.flags(set, "[-edge] -o FOLDER", args); done {
		return code
	}
	if *folder == "" || set.NArg() > 0 {
		return t.fail(errors.New("say where to build: drawoff build -o FOLDER"))
	}
	if err := site.MayWrite(*folder); err != nil {
		return t.fail(err)
	}
	fmt.Fprintln(t.out, "Compiling and packing…")
	files, err := site.Build(ctx)
	write := site.Write
	if *edge && err == nil {
		files, err = site.Worker(ctx, files)
		write = site.WritePlain
	}
	if err == nil {
		err = write(*folder, files)
	}
	if err != nil {
		return t.fail(err)
	}
	if *edge {
		fmt.Fprintf(t.out, "Built into %s. Put it on the edge with: npx wrangler@4 deploy -c %s\n", *folder, filepath.Join(*folder, "wrangler.json"))
		return fine
	}
	fmt.Fprintf(t.out, "Built into %s. Put all of it on any web host, under any address.\n", *folder)
	return fine
}

func (t terminal) check(args []string) int {
	set := flag.NewFlagSet("check", flag.ContinueOnError)
	asJSON := set.Bool("json", false, "print each report as JSON, one after the other")
	lines := set.Bool("lines", false, "print a line of JSON for each design as soon as it is checked: {\"file\": …, \"report\": …}")
	units := set.String("units", q.AsTyped.String(), "show everything in the `units` that go with mm or with in, or typed: each kind of quantity in those that most of it was typed in; JSON is in mm unless this is said")
	explain := set.String("explain", "", "show the working of one figure, named as the report names it: -explain flow-full")
	shelfFile := set.String("shelf", "", "`file` of the shelf, as the page saves it: parts and offcuts in hand, prices")
	if done, code := t.flags(set, `[-json | -lines | -explain FIGURE] [-shelf FILE] FILE... ("-" reads standard input)`, args); done {
		return code
	}
	if set.NArg() == 0 {
		return t.fail(errors.New(`say which design to check: drawoff check FILE, or "-" for standard input`))
	}
	system := q.SystemOf(*units)
	if system.String() != *units {
		return t.fail(fmt.Errorf("there are no units %q: -units mm, -units in or -units typed", *units))
	}
	said := false
	set.Visit(func(f *flag.Flag) { said = said || f.Name == "units" })
	if (*asJSON || *lines) && !said {
		system = q.Metric // as the service and the module have it
	}
	q.Show(system)
	shelf, err := t.shelf(*shelfFile)
	if err != nil {
		return t.fail(err)
	}
	worst := fine
	for i, name := range set.Args() {
		d, report := t.report(name)
		work := report.Work(shelf)
		var err error
		switch {
		case *explain != "" && len(report.Faults) == 0:
			figure, ok := figure(report, work, *explain)
			if !ok {
				figure, ok = report.Transfer().Figure(*explain)
			}
			if !ok {
				return t.fail(fmt.Errorf("%s has no figure %q: the report names them in its last column", name, *explain))
			}
			_, err = io.WriteString(t.out, view.Working(figure))
		case *asJSON:
			_, err = t.out.Write(asjson.Indent(asjson.Report(report, work)))
		case *lines:
			_, err = io.WriteString(t.out, asLine(name, report, work))
		case len(report.Faults) == 0:
			if set.NArg() > 1 {
				fmt.Fprintf(t.out, "%s%s\n\n", strings.Repeat("\n", min(i, 1)), name)
			}
			_, err = io.WriteString(t.out, view.Text(d, report, shelf))
		}
		if err != nil {
			return t.fail(err)
		}
		t.faults(name, report.Faults)
		switch {
		case len(report.Faults) > 0:
			worst = failed
		case report.Level == finding.Stop:
			worst = max(worst, stop)
		}
	}
	return worst
}

// asLine returns the report on the design in the file name on one line.
func asLine(name string, r pipeline.Report, work pipeline.Work) string {
	var o tokens.Object
	o.Text("file", name)
	o.Raw("report", string(asjson.Report(r, work)))
	return o.String() + "\n"
}

// figure returns the figure of r named slug, of those too that are worked out
// only when they are asked for.
func figure(r pipeline.Report, w pipeline.Work, slug string) (finding.Figure, bool) {
	for _, f := range slices.Concat(r.Reserve().Figures, r.Stability().Figures, w.Figures, r.Wash().Figures, r.Breathing().Figures) {
		if f.Slug == slug {
			return f, true
		}
	}
	return r.Figure(slug)
}

// catalog prints the catalogue, or what in it fits a query. It ends with 1
// when nothing does.
func (t terminal) catalog(args []string) int {
	set := flag.NewFlagSet("catalog", flag.ContinueOnError)
	if done, code := t.flags(set, "[QUERY] (as you would say it: 2 inch rjt liner)", args); done {
		return code
	}
	query := strings.Join(set.Args(), " ")
	if _, err := io.WriteString(t.out, view.CatalogueText(query)); err != nil {
		return t.fail(err)
	}
	if query != "" && len(catalog.Search(query)) == 0 {
		return stop
	}
	return fine
}

// report reads the design in the file name and checks it.
func (t terminal) report(name string) (design.Design, pipeline.Report) {
	in := t.in
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return design.Design{}, unreadable(err)
		}
		defer file.Close()
		in = file
	}
	// One byte over the limit is enough for design.ReadFile to refuse it.
	data, err := io.ReadAll(io.LimitReader(in, design.MaxFile+1))
	if err != nil {
		return design.Design{}, unreadable(err)
	}
	d, faults := design.ReadFile(data)
	if len(faults) > 0 {
		return d, pipeline.Report{Title: d.Title, Faults: faults}
	}
	q.Speak(d.Typed)
	return d, pipeline.Check(d)
}

// shelf reads the shelf in the file name, "" for none. Anything in it that
// cannot be read is an error: an order must not be short of what was left out.
func (t terminal) shelf(name string) (design.Shelf, error) {
	if name == "" {
		return design.Shelf{}, nil
	}
	text, err := os.ReadFile(name)
	if err != nil {
		return design.Shelf{}, err
	}
	s, faults := design.ReadShelf(string(text))
	if len(faults) > 0 {
		return s, fmt.Errorf("%s: %w", name, faults)
	}
	return s, nil
}

// unreadable is the report on a design that could not be got at.
func unreadable(err error) pipeline.Report {
	var in *os.PathError
	if errors.As(err, &in) {
		err = in.Err // the name of the file is said already
	}
	return pipeline.Report{Faults: design.Faults{{
		What: "it cannot be read: " + err.Error(),
		Hint: "give the name of a saved design, or \"-\" for standard input",
	}}}
}

// faults lists what is wrong with the design in the file name, one a line:
// where, what was given, what is wrong, and what would be right.
func (t terminal) faults(name string, faults design.Faults) {
	for _, f := range faults {
		var line strings.Builder
		line.WriteString(name)
		if f.Line > 0 {
			fmt.Fprintf(&line, ":%d", f.Line)
		}
		line.WriteString(": ")
		if f.Field != "" {
			line.WriteString(f.Field + ": ")
		}
		if f.Given != "" {
			fmt.Fprintf(&line, "%q: ", f.Given)
		}
		line.WriteString(f.What)
		if f.Hint != "" {
			line.WriteString("; " + f.Hint)
		}
		fmt.Fprintln(t.err, plain(line.String()))
	}
}
