package main

import (
	"encoding/json"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
)

// TestMain makes the test binary be the command when it is told to, so that
// the tests run the real thing, exit code and all, without building it twice.
func TestMain(m *testing.M) {
	if os.Getenv("BE_DRAWOFF") == "1" {
		main()
	}
	os.Exit(m.Run())
}

// drawoff runs the command with stdin and returns what came of it.
func drawoff(t *testing.T, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, err strings.Builder
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), "BE_DRAWOFF=1")
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(stdin), &out, &err
	_ = cmd.Run() // its exit code is looked at
	require.NotNil(t, cmd.ProcessState, "the command did not start")
	return cmd.ProcessState.ExitCode(), out.String(), err.String()
}

// file writes a file and returns its name.
func file(t *testing.T, name, content string) string {
	t.Helper()
	name = filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(name, []byte(content), 0o600))
	return name
}

// code is what check must end with for a report at level.
func code(level finding.Level) int {
	if level == finding.Stop {
		return 1
	}
	return 0
}

func TestCheckReports(t *testing.T) {
	t.Parallel()
	demo := design.Demo()
	level := pipeline.Check(demo).Level
	name := file(t, "demo.json", string(design.WriteFile(demo)))

	got, out, errs := drawoff(t, "", "check", name)
	assert.Equal(t, code(level), got)
	assert.Contains(t, out, demo.Title)
	assert.Empty(t, errs)

	got, same, _ := drawoff(t, string(design.WriteFile(demo)), "check", "-")
	assert.Equal(t, code(level), got)
	assert.Equal(t, out, same, "standard input gives the same report")

	got, out, _ = drawoff(t, "", "check", "-json", name, name)
	assert.Equal(t, code(level), got)
	reports := json.NewDecoder(strings.NewReader(out))
	for range 2 {
		var report struct {
			Title    string
			Verdicts []map[string]any
			Figures  []map[string]any
		}
		require.NoError(t, reports.Decode(&report))
		assert.Equal(t, demo.Title, report.Title)
		assert.NotEmpty(t, report.Verdicts)
		assert.NotEmpty(t, report.Figures)
	}
	assert.False(t, reports.More(), "one report for each file and nothing else")
}

func TestCheckEndsWithOneWhenToldToStop(t *testing.T) {
	t.Parallel()
	d, faults := design.Demo().Apply(design.Edit{Path: "site.ceiling", Value: "1.2 m"})
	require.Empty(t, faults)
	got, out, _ := drawoff(t, string(design.WriteFile(d)), "check", "-")
	assert.Equal(t, 1, got, "a tank higher than the ceiling cannot be built")
	assert.Contains(t, strings.ToLower(out), "stop")
}

func TestCheckSaysWhatCannotBeRead(t *testing.T) {
	t.Parallel()
	bad := file(t, "bad.json", "{\n  \"tank\": {\n    \"bore\": \"wide\",\n    \"hieght\": \"1 m\"\n  }\n}\n")
	got, out, errs := drawoff(t, "", "check", bad)
	assert.Equal(t, 2, got)
	assert.Empty(t, out, "there is nothing to report on")
	lines := strings.Split(strings.TrimSpace(errs), "\n")
	require.GreaterOrEqual(t, len(lines), 2, "each fault has its line: %s", errs)
	assert.Contains(t, errs, bad+`:3: tank.bore: "wide": `, "where, and what was given")
	assert.Contains(t, errs, bad+":4: ", "the member that no design has")
	for _, line := range lines {
		_, hint, _ := strings.Cut(line, "; ")
		assert.NotEmptyf(t, hint, "what would be right: %s", line)
	}

	got, out, errs = drawoff(t, "", "check", "-json", bad)
	assert.Equal(t, 2, got)
	assert.NotEmpty(t, errs)
	var report struct{ Faults []design.Fault }
	require.NoError(t, json.Unmarshal([]byte(out), &report))
	require.NotEmpty(t, report.Faults)
	assert.Equal(t, "tank.bore", report.Faults[0].Field)
	assert.Equal(t, 3, report.Faults[0].Line)
}

// A line is the report that -json prints, and says which file it is of; so
// does the line of a file that could not be read.
func TestCheckStreamsLines(t *testing.T) {
	t.Parallel()
	names, err := filepath.Glob(filepath.Join("testdata", "[a-z]*.json"))
	require.NoError(t, err)
	names = slices.DeleteFunc(names, func(name string) bool { return strings.HasSuffix(name, ".schema.json") })
	require.Len(t, names, len(design.Examples()))
	names = append(names, file(t, "bad.json", "{"))

	got, out, errs := drawoff(t, "", append([]string{"check", "-lines"}, names...)...)
	assert.Equal(t, 2, got)
	assert.Contains(t, errs, names[len(names)-1])
	lines := slices.Collect(strings.Lines(out))
	require.Len(t, lines, len(names))
	for i, name := range names {
		var line struct {
			File   string
			Report json.RawMessage
		}
		require.NoError(t, json.Unmarshal([]byte(lines[i]), &line))
		assert.Equal(t, name, line.File)
		_, whole, _ := drawoff(t, "", "check", "-json", name)
		assert.JSONEq(t, whole, string(line.Report))
	}
}

func TestCheckGoesOnAfterAFileItCannotRead(t *testing.T) {
	t.Parallel()
	good := file(t, "demo.json", string(design.WriteFile(design.Demo())))
	for name, missing := range map[string]string{
		"no such file": filepath.Join(t.TempDir(), "none.json"),
		"a folder":     t.TempDir(),
		"empty":        file(t, "empty.json", ""),
		"far too long": file(t, "long.json", strings.Repeat(" ", design.MaxFile+1)),
	} {
		got, out, errs := drawoff(t, "", "check", missing, good)
		assert.Equal(t, 2, got, name)
		assert.Contains(t, errs, missing, name)
		assert.Contains(t, out, design.Demo().Title, name)
	}
}

func TestAskedWrongly(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		args []string
		says string
	}{
		{[]string{"chek"}, `no command "chek"`},
		{[]string{"check"}, "say which design"},
		{[]string{"check", "-jsn", "-"}, "-jsn"},
		{[]string{"check", "-units", "ft", "-"}, "no units \"ft\""},
		{[]string{"build"}, "say where to build"},
		{[]string{"serve", "extra"}, `"extra"`},
		{[]string{"help", "chek"}, `no command "chek"`},
		{[]string{"check", "--", "-json"}, "-json: it cannot be read"},
		{[]string{"-addr", "nonsense"}, "nonsense"},
		{[]string{"-addr", "127.0.0.1:99999"}, "99999"},
	} {
		got, out, errs := drawoff(t, "", test.args...)
		assert.Equal(t, 2, got, test.args)
		assert.Empty(t, out, test.args)
		assert.Contains(t, errs, test.says, test.args)
	}
}

// What a command is to do may stand before the file or behind it.
func TestFlagsBehindTheFile(t *testing.T) {
	t.Parallel()
	_, before, _ := drawoff(t, "", "check", "-json", "-units", "in", "testdata/perry.json")
	code, behind, errs := drawoff(t, "", "check", "testdata/perry.json", "-json", "-units", "in")
	assert.Equal(t, 0, code)
	assert.Empty(t, errs)
	assert.Equal(t, before, behind)
}

func TestHelp(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{{"-h"}, {"--help"}, {"help"}, {"check", "-h"}, {"serve", "-help"}, {"build", "--help"}, {"help", "check"}, {"check", "-", "-h"}} {
		got, out, errs := drawoff(t, "", args...)
		assert.Equal(t, 0, got, args)
		assert.Contains(t, out, "drawoff", args)
		assert.Empty(t, errs, args)
	}
}

func TestServeSaysThatThePortIsTaken(t *testing.T) {
	t.Parallel()
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	got, _, errs := drawoff(t, "", "serve", "-addr", taken.Addr().String())
	assert.Equal(t, 2, got)
	assert.Contains(t, errs, "address in use: try -addr")
}

func TestBuildLeavesAForeignFolderAlone(t *testing.T) {
	t.Parallel()
	mine := file(t, "accounts.ods", "mine")
	got, _, errs := drawoff(t, "", "build", "-o", filepath.Dir(mine))
	assert.Equal(t, 2, got)
	assert.Contains(t, errs, "accounts.ods")
	kept, err := os.ReadFile(mine)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(kept))
}

func TestCheckExplains(t *testing.T) {
	t.Parallel()
	name := file(t, "perry.json", string(design.WriteFile(design.Demo())))
	exit, out, _ := drawoff(t, "", "check", "-explain", "flow-full", name)
	assert.Equal(t, 0, exit)
	assert.Contains(t, out, "Source:")
	exit, _, problem := drawoff(t, "", "check", "-explain", "nonsense", name)
	assert.Equal(t, 2, exit)
	assert.Contains(t, problem, "nonsense")
}

func TestCatalog(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"catalog", "2", "inch", "rjt", "liner"}, fine, "ring joint liner, 2 in, to weld"},
		{[]string{"catalog", "DN50 dairy nut"}, fine, "OD 92 mm"},
		{[]string{"catalog", "chocolate"}, stop, "Nothing in the catalogue"},
		{[]string{"catalog"}, fine, "Not for product: water tube"},
	} {
		var out, wrong strings.Builder
		code := terminal{strings.NewReader(""), &out, &wrong}.run(t.Context(), c.args)
		assert.Equal(t, c.code, code, c.args)
		assert.Contains(t, out.String(), c.says, c.args)
		assert.Empty(t, wrong.String(), c.args)
	}
}

// Each plant is told in the units that it was typed in, one after another, or
// all in the same where somebody says so.
func TestCheckInUnits(t *testing.T) {
	t.Parallel()
	demo := design.Demo()
	inches, faults := demo.Apply(design.Edit{Path: "tank.bore", Value: "38 in"}, design.Edit{Path: "tank.height", Value: "45 in"}, design.Edit{Path: "stand.height", Value: "30 in"},
		design.Edit{Path: "stand.bucket", Value: "16 in"}, design.Edit{Path: "pump.away", Value: "6 ft"}, design.Edit{Path: "pump.height", Value: "9 1/2 in"})
	require.Empty(t, faults)
	names := []string{file(t, "a.json", string(design.WriteFile(demo))), file(t, "b.json", string(design.WriteFile(inches))), file(t, "c.json", string(design.WriteFile(demo)))}
	height := regexp.MustCompile(`(?m)^  Outlet face over the floor +([\d /]+ (?:mm|in)) `)
	for units, want := range map[string][]string{"": {"760 mm", "30 in", "760 mm"}, "typed": {"760 mm", "30 in", "760 mm"}, "mm": {"760 mm", "762 mm", "760 mm"}, "in": {"29 29/32 in", "30 in", "29 29/32 in"}} {
		args := []string{"check", "-units", units}
		if units == "" {
			args = args[:1]
		}
		_, out, problem := drawoff(t, "", append(args, names...)...)
		assert.Empty(t, problem)
		var got []string
		for _, m := range height.FindAllStringSubmatch(out, -1) {
			got = append(got, m[1])
		}
		assert.Equal(t, want, got, units)
	}
	// For other programs it is mm, as the service has it, unless somebody says so.
	_, plain, _ := drawoff(t, "", "check", "-json", names[1])
	_, mm, _ := drawoff(t, "", "check", "-json", "-units", "mm", names[1])
	_, typed, _ := drawoff(t, "", "check", "-json", "-units", "typed", names[1])
	assert.Equal(t, mm, plain)
	assert.NotEqual(t, typed, plain)
	assert.Contains(t, typed, "outlet face stands 30 in over the floor")
}

// The demo has a run that drains, and taking it gives a design that checks.
func TestRouteListsRuns(t *testing.T) {
	t.Parallel()
	code, out, err := drawoff(t, "", "route", "testdata/perry.json")
	assert.Zero(t, code, err)
	assert.Contains(t, out, "Drains to      the pump")
	for file, to := range map[string]string{"perry": "the pump", "settling": "the outflow"} {
		from := "pump"
		if file == "settling" {
			from = "tank" // there is no pump: it goes all the way
		}
		code, out, err = drawoff(t, "", "route", "-from", from, "testdata/"+file+".json")
		assert.Zero(t, code, err)
		assert.Contains(t, out, "Drains to      "+to)
	}
	code, _, err = drawoff(t, "", "route", "-from", "cellar", "testdata/perry.json")
	assert.Equal(t, failed, code)
	assert.Contains(t, err, "cellar")
	code, out, _ = drawoff(t, "", "route", "-json", "-n", "1", "testdata/perry.json")
	assert.Zero(t, code)
	var read struct {
		Runs []struct{ Pieces []design.Piece }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &read))
	require.Len(t, read.Runs, 1)
	assert.NotEmpty(t, read.Runs[0].Pieces)
	code, out, _ = drawoff(t, "", "route", "-take", "1", "testdata/perry.json")
	assert.Zero(t, code)
	code, out, _ = drawoff(t, out, "check", "-")
	assert.Zero(t, code)
	assert.Contains(t, out, "The line meets the pump inlet")
	code, _, err = drawoff(t, "", "route", "-take", "9", "testdata/perry.json")
	assert.Equal(t, failed, code)
	assert.Contains(t, err, "there is no run 9")
}

// Templates and DXF of the demo, into a folder that is made for them.
func TestFiles(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "for", "the bench")
	code, out, wrong := drawoff(t, "", "files", "-o", folder, "testdata/perry.json")
	require.Equal(t, 0, code, wrong)
	assert.Contains(t, out, "measure the check line")
	for name, begins := range map[string]string{"parts.csv": "\ufeffPart,", "cuts.csv": "\ufeffTube,", "welds.csv": "\ufeffNo.,", "cone-flat.pdf": "%PDF-1.4", "leg-on-tank.svg": "<svg", "side-view.dxf": "999", "templates.pdf": "%PDF-1.4"} {
		data, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(data), begins), name)
	}
	code, _, wrong = drawoff(t, "", "files", "testdata/perry.json")
	assert.Equal(t, 2, code)
	assert.Contains(t, wrong, "say where to write")
	code, _, wrong = drawoff(t, "{}", "files", "-o", folder, "-")
	assert.Equal(t, 2, code)
	assert.Contains(t, wrong, "tank.bore")
}

// What is on the shelf comes off what is to be bought, and its offcuts are sawn
// first; a shelf that cannot be read in whole is refused, since an order would
// be wrong.
func TestShelfInTheTerminal(t *testing.T) {
	t.Parallel()
	shelf := file(t, "shelf.json", `{"shelf":1,"items":[{"part":"clamp/1.5in/ferrule","inHand":2}],"rack":[{"tube":"bs-4825/1.5in","length":"2.1 m"}]}`)
	_, without, _ := drawoff(t, "", "check", "testdata/perry.json")
	_, with, errs := drawoff(t, "", "check", "-shelf", shelf, "testdata/perry.json")
	assert.Empty(t, errs)
	assert.NotContains(t, without, "in hand")
	assert.Contains(t, with, "6, less 2 in hand")
	assert.Contains(t, with, "Off the rack, 2100 mm")

	_, out, _ := drawoff(t, "", "check", "-json", "-shelf", shelf, "testdata/perry.json")
	var report struct {
		Work struct {
			Buy []struct {
				Slug       string
				Buy, Shelf float64
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &report))
	found := false
	for _, b := range report.Work.Buy {
		if b.Slug == "clamp/1.5in/ferrule" {
			found = true
			assert.InDelta(t, 2, b.Shelf, 0)
			assert.InDelta(t, 4, b.Buy, 0)
		}
	}
	assert.True(t, found)
	_, out, _ = drawoff(t, "", "check", "-explain", "purge-sweeps", "testdata/perry.json")
	assert.Contains(t, out, "ln(x0/x)")

	for name, content := range map[string]string{"torn": "{", "wrong": `{"rack":[{"tube":"t","length":"long"}]}`} {
		code, _, errs := drawoff(t, "", "check", "-shelf", file(t, name, content), "testdata/perry.json")
		assert.Equal(t, 2, code, name)
		assert.NotEmpty(t, errs, name)
	}
}

// A file that somebody sent does not reach through to the terminal: names,
// values and titles are repeated without what ECMA-48 calls control functions.
func TestFilesDoNotCommandTheTerminal(t *testing.T) {
	dir := t.TempDir()
	design, shelf := filepath.Join(dir, "design.json"), filepath.Join(dir, "shelf.json")
	for file, text := range map[string]string{
		design: `{"title": "\u001b]0;x\u0007", "tank": {"bo\u001b[31mre": "x", "bore": "9\u001b[31m\u009b2J"}, "a\u001b]": 1, "two\nlines": 2}`,
		shelf:  `{"rack": [{"tu\u001bbe": "x\u001b"}], "items": [{"part": "\u001b[2J", "from": "\u009b2J\r"}]}`,
	} {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	}
	for _, args := range [][]string{{"check", design}, {"check", "-shelf", shelf, "testdata/perry.json"}} {
		var out, wrong strings.Builder
		assert.Equal(t, failed, terminal{strings.NewReader(""), &out, &wrong}.run(t.Context(), args))
		assert.NotEmpty(t, wrong.String())
		assert.Equal(t, -1, strings.IndexFunc(out.String()+wrong.String(), func(r rune) bool { return unicode.IsControl(r) && r != '\n' }), "%q", wrong.String())
	}
}
