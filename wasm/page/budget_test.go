//go:build !js

package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// banned are packages that the module for the browser must do without, each
// with the reason. A name that ends in "/" bans all below it.
var banned = map[string]string{
	"net/":             "there is no network in the module, and net/http alone is larger than all the rest",
	"crypto/":          "nothing here is secret, and comes in with much else",
	"html/template":    "heavy, and with text/template; views are written with a strings.Builder",
	"text/template":    "calls methods by name, so the linker can leave none out",
	"regexp":           "heavy; quantities are read by hand, and the errors are better for it",
	"html":             "its table of character names is heavy; five characters are escaped by hand",
	"log":              "nobody reads it; what is wrong goes into the answer",
	"log/":             "as log",
	"flag":             "there is no command line",
	"os":               "there are no files; comes in with fmt",
	"os/":              "there are no other programs, signals or users",
	"go/":              "no Go is read here",
	"runtime/pprof":    "profiles are taken of native code",
	"testing":          "a test has leaked into the program",
	"testing/":         "as testing",
	"math/rand":        "a check gives the same answer every time",
	"math/rand/":       "as math/rand",
	"fmt":              "81 kB packed with what it imports, 146 with reflect at work; sentences are joined with +",
	"compress/flate":   "refers to fmt.Errorf: 169 kB packed on a bare module; see pipeline/deflate",
	"encoding/json":    "125 kB packed beyond fmt; see pipeline/tokens",
	"reflect":          "20 kB packed; a design lists its fields, see pipeline/design/records.go",
	"encoding/csv":     "6 kB packed, and refers to fmt; the tables are split by hand",
	"embed":            "brings io/fs and time: 24 kB packed; see catalog/csv_files.go",
	"bufio":            "nothing is read in a stream",
	"encoding/gob":     "only JSON crosses the boundary",
	"encoding/xml":     "SVG is written, never read",
	"compress/gzip":    "links use raw DEFLATE, and the host packs the files",
	"image/":           "drawings are SVG",
	"drawoff/www":      "the module would carry the page's own files a second time",
	"drawoff/www/site": "it builds the page and never runs on it",
	"github.com/":      "the module stands on the standard library alone",
	"golang.org/":      "as github.com",
}

func TestImportBudget(t *testing.T) {
	t.Parallel()
	cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Dir,Standard", ".")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)

	count := 0
	for list := json.NewDecoder(strings.NewReader(string(out))); list.More(); count++ {
		var pkg struct {
			ImportPath, Dir string
			Standard        bool
		}
		require.NoError(t, list.Decode(&pkg))
		for name, why := range banned {
			isBanned := pkg.ImportPath == name || strings.HasSuffix(name, "/") && strings.HasPrefix(pkg.ImportPath, name)
			assert.Falsef(t, isBanned, "the module imports %s: %s", pkg.ImportPath, why)
		}
		if !pkg.Standard {
			// Looked at here, so that a remembered "ok" is forgotten when a file changes.
			_, err := os.ReadDir(pkg.Dir)
			require.NoError(t, err)
		}
	}
	assert.Greater(t, count, 10, "the list must be the whole of it")
}
