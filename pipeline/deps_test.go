package pipeline_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What each group of packages may import of Drawoff, beside the group's own
// reasons for being there:
//
//	views -> pipeline -> rooms -> ground -> catalog -> quantity
//
// A room answers one question and knows no other room; package pipeline joins
// them. The ground is what every room may stand on.
var (
	ground = []string{
		"catalog",
		"pipeline/design",
		"pipeline/finding",
		"pipeline/liquid",
		"pipeline/quantity",
		"pipeline/route",
		"pipeline/vessel",
	}
	rooms = []string{
		"pipeline/clean",
		"pipeline/cut",
		"pipeline/drain",
		"pipeline/flow",
		"pipeline/holdup",
		"pipeline/joint",
		"pipeline/order",
		"pipeline/pressure",
		"pipeline/stand",
		"pipeline/surge",
		"pipeline/transfer",
		"pipeline/vent",
	}
	views = slices.Concat([]string{"pipeline"}, rooms, ground)
)

// imports says for each package of the module which others it may import. A
// new package needs a line here, and with it a thought about where it belongs.
var imports = map[string][]string{
	"pipeline/quantity": {},
	"catalog":           {"pipeline/quantity"},
	"pipeline/finding":  {"pipeline/quantity", "pipeline/tokens"},
	"pipeline/deflate":  {},
	"pipeline/tokens":   {},
	"pipeline/design":   {"catalog", "pipeline/deflate", "pipeline/quantity", "pipeline/tokens"},
	"pipeline/liquid":   {"pipeline/finding", "pipeline/quantity"},
	"pipeline/vessel":   {"pipeline/finding", "pipeline/quantity"},
	"pipeline/route":    {"catalog", "pipeline/design", "pipeline/finding", "pipeline/quantity"},

	"pipeline/design/designtest": {"catalog", "pipeline/design", "pipeline/quantity"}, // designs for tests; no program imports it

	"pipeline/clean":    ground,
	"pipeline/cut":      {"pipeline/quantity"},
	"pipeline/drain":    ground,
	"pipeline/flow":     ground,
	"pipeline/holdup":   ground,
	"pipeline/joint":    ground,
	"pipeline/order":    ground,
	"pipeline/pressure": ground,
	"pipeline/stand":    ground,
	"pipeline/surge":    ground,

	"pipeline/transfer": ground,
	"pipeline/vent":     ground,

	"pipeline": slices.Concat(rooms, ground),

	"pipeline/markup": {},

	"pipeline/plot":     {"pipeline/markup"},
	"pipeline/template": {"pipeline/plot"},
	"pipeline/workfile": append([]string{"pipeline/plot", "pipeline/template"}, views...),

	"pipeline/asjson": {"pipeline", "pipeline/clean", "pipeline/holdup", "pipeline/stand", "pipeline/tokens", "pipeline/vent"},

	"pipeline/compare": views,

	"pipeline/find": views,
	"pipeline/mend": views,

	"pipeline/whatif": views,

	"pipeline/draw":    append([]string{"pipeline/markup", "pipeline/whatif"}, views...),
	"www/view":         append([]string{"pipeline/compare", "pipeline/draw", "pipeline/find", "pipeline/markup", "pipeline/mend", "pipeline/tokens", "pipeline/whatif", "pipeline/workfile"}, views...),
	"www/app":          append([]string{"pipeline/draw", "pipeline/markup", "pipeline/mend", "pipeline/tokens", "www/view"}, views...),
	"www/paper":        append([]string{"pipeline/draw", "pipeline/markup", "www/view"}, views...),
	"www/workshop":     {"catalog", "pipeline", "pipeline/asjson", "pipeline/compare", "pipeline/find", "pipeline/design", "pipeline/finding", "pipeline/quantity", "pipeline/tokens", "pipeline/workfile", "www/paper", "www/view"},
	"www/edge":         {"pipeline", "pipeline/asjson", "pipeline/design", "pipeline/markup", "pipeline/tokens"},
	"www":              {},
	"www/site":         {"pipeline/design", "www", "www/app", "www/view"},
	"www/site/slimmed": {"www/site"},
	"www/browser":      {"www/site"},
	"wasm/door":        {"pipeline/tokens"},
	"wasm/edge":        {"wasm/door", "www/edge"},
	"wasm/page":        {"wasm/door", "www/app"},
	"wasm/workshop":    {"wasm/door", "www/workshop"},
	".":                {"catalog", "pipeline", "pipeline/asjson", "pipeline/find", "pipeline/design", "pipeline/finding", "pipeline/quantity", "pipeline/tokens", "pipeline/workfile", "www/site", "www/view"},
}

// pure are the packages that compute: whoever asks twice gets the same answer.
func pure(pkg string) bool {
	return pkg == "catalog" || pkg == "pipeline" || strings.HasPrefix(pkg, "pipeline/") || pkg == "www/view"
}

// impure are packages that a pure one must not import itself, with the reason.
var impure = map[string]string{
	"os":           "reading and writing is for the doors: main, www/site and wasm",
	"time":         "a check has no clock",
	"math/rand":    "a check has no chance in it",
	"math/rand/v2": "a check has no chance in it",
	"log":          "what is wrong goes into the report",
	"syscall/js":   "only the door knows that there is a browser",
	"unsafe":       "nothing here needs it",
}

func TestImportsRunOneWay(t *testing.T) {
	t.Parallel()
	found := importsOf(t, "..")
	require.Contains(t, found, "pipeline/quantity", "the module's packages were not found")
	for pkg, imported := range found {
		may, known := imports[pkg]
		if !assert.Truef(t, known, "package %s has no line in the table of imports", pkg) {
			continue
		}
		for _, name := range imported {
			if own, ok := strings.CutPrefix(name, "drawoff/"); ok {
				assert.Containsf(t, may, own, "%s must not import %s", pkg, own)
			}
			if why, ok := impure[name]; ok && pure(pkg) {
				assert.Failf(t, "a package that computes must be pure", "%s must not import %s: %s", pkg, name, why)
			}
		}
	}
}

// TestTableRunsOneWay holds the table itself to one way: no package may reach
// itself through what it may import.
func TestTableRunsOneWay(t *testing.T) {
	t.Parallel()
	var reach func(from string, trail []string)
	reach = func(from string, trail []string) {
		require.NotContains(t, trail, from, "imports run in a circle")
		for _, to := range imports[from] {
			reach(to, append(trail, from))
		}
	}
	for pkg := range imports {
		reach(pkg, nil)
	}
}

// importsOf returns what every package under root imports, its tests left
// out. It reads the files itself, without the go tool, so that a remembered
// "ok" of this test is forgotten when one of them changes.
func importsOf(t *testing.T, root string) map[string][]string {
	t.Helper()
	found := make(map[string][]string)
	err := filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := entry.Name()
		if entry.IsDir() {
			if name != root && (strings.HasPrefix(base, ".") || base == "testdata" || base == "dist") {
				return fs.SkipDir
			}
			return nil
		}
		if path.Ext(base) != ".go" || strings.HasSuffix(base, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		dir, err := filepath.Rel(root, filepath.Dir(name))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(dir)
		found[pkg] = slices.Grow(found[pkg], len(file.Imports)) // a package without imports counts too
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			found[pkg] = append(found[pkg], imported)
		}
		return nil
	})
	require.NoError(t, err)
	return found
}
