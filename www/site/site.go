// Package site makes the page into files: the first screen as HTML, the style
// sheet, the script, the module and the glue that starts it. The files refer
// to each other by relative address only, so that they work under any path of
// any host. It needs the go tool and the source of Drawoff.
package site

import (
	"bytes"
	"context"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"drawoff/pipeline/design"
	"drawoff/www"
	"drawoff/www/app"
	"drawoff/www/view"
)

// File is one file of the site.
type File struct {
	Name string // relative to where the site is put, with slashes
	Body []byte
}

// Index is the name of the page itself, the last of the files: whoever writes
// them in order never shows a page whose parts are not there yet.
const Index = "index.html"

// Catalogue is the name of the page of the catalogue.
const Catalogue = "catalogue.html"

// Build compiles the module and returns the files of the site. A file that
// the page refers to carries a hash of what is in it in its name, so that a
// browser never joins the parts of two versions.
func Build(ctx context.Context) ([]File, error) {
	files, err := static()
	if err != nil {
		return nil, err
	}
	start, err := glue(ctx)
	if err != nil {
		return nil, err
	}
	module, err := compile(ctx, "page", small)
	if err != nil {
		return nil, err
	}
	workshop, err := compile(ctx, "workshop", small)
	if err != nil {
		return nil, err
	}
	files = append(files, File{"wasm_exec.js", start}, File{"drawoff.wasm", module}, File{"workshop.wasm", workshop})
	for _, e := range design.Examples() {
		files = append(files, File{e.Slug + ".json", design.WriteFile(e.Design)})
	}

	at := slices.IndexFunc(files, func(f File) bool { return f.Name == Offline })
	keeper := files[at].Body
	files = slices.Delete(files, at, at+1)
	hashed := make(map[string]string, len(files))
	for i, f := range files {
		hashed[f.Name] = withHash(f)
		files[i].Name = hashed[f.Name]
	}
	install, err := manifest(hashed)
	if err != nil {
		return nil, err
	}
	assets := view.Assets{
		Style:           hashed["style.css"],
		Script:          hashed["page.js"],
		Glue:            hashed["wasm_exec.js"],
		Designs:         hashed["designs.js"],
		Module:          hashed["drawoff.wasm"],
		Starter:         hashed["start.js"],
		Thread:          hashed["thread.js"],
		Workshop:        hashed["workshop.wasm"],
		Catalogue:       Catalogue,
		CatalogueStyle:  hashed["catalogue.css"],
		CatalogueScript: hashed["catalogue.js"],
		Icon:            hashed["icon.svg"],
		Manifest:        "drawoff.webmanifest",
		Offline:         Offline,
	}
	for _, e := range design.Examples() {
		assets.Examples = append(assets.Examples, view.Example{File: hashed[e.Slug+".json"], Name: e.Name})
	}
	page := File{Index, []byte(app.Page(assets))}
	files = append(files, File{assets.Manifest, install}, File{Catalogue, []byte(view.Catalogue(assets, Index))})
	keep, err := offline(keeper, append(files, page))
	if err != nil {
		return nil, err
	}
	modules, err := forPrograms(ctx, hashed)
	return slices.Concat(files, modules, []File{keep, page}), err
}

// Worker returns the files of the edge worker, with site, what Build returned,
// below the folder "site" for the worker to serve. They are all that the
// platform's own tool needs to put it there; it takes whatever lies in the
// folder "worker" for the worker's code.
func Worker(ctx context.Context, site []File) ([]File, error) {
	start, err := glue(ctx)
	if err != nil {
		return nil, err
	}
	module, err := compile(ctx, "edge", quick)
	if err != nil {
		return nil, err
	}
	files := []File{{"worker/wasm_exec.js", start}, {"worker/edge.wasm", module}}
	for as, name := range map[string]string{"worker/worker.js": "worker.js", "wrangler.json": "wrangler.json", "site/openapi.json": "openapi.json"} {
		body, err := worker.ReadFile("edge/" + name)
		if err != nil {
			return nil, err
		}
		files = append(files, File{as, body})
	}
	for _, name := range []string{"design.schema.json", "report.schema.json"} {
		body, err := described(ctx, name)
		if err != nil {
			return nil, err
		}
		files = append(files, File{"site/" + name, body})
	}
	for _, f := range site {
		files = append(files, File{"site/" + f.Name, f.Body})
	}
	return files, nil
}

//go:embed edge
var worker embed.FS

// pageScripts are what the page's script is joined of, for one request: each
// defines a function of its own, and the last calls them.
var pageScripts = []string{"idb.js", "keep.js", "put.js", "history.js", "shop.js", "drawing.js", "version.js", "page.js"}

// static returns the files that are served as they stand, but for what only
// their reader needs, and those of the page's script as one.
func static() ([]File, error) {
	var files []File
	page := File{"page.js", []byte("\"use strict\";\n")}
	for _, name := range pageScripts {
		body, err := www.Static.ReadFile("static/" + name)
		if err != nil {
			return nil, err
		}
		page.Body = append(page.Body, bare(name, body)...)
	}
	err := fs.WalkDir(www.Static, "static", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		if name = strings.TrimPrefix(name, "static/"); slices.Contains(pageScripts, name) {
			return nil
		}
		body, err := www.Static.ReadFile("static/" + name)
		files = append(files, File{name, bare(name, body)})
		return err
	})
	return append(files, page), err
}

// bare takes the indents out of a script or a style sheet of ours, and of a
// script the lines that are comments: a fifth of what they weigh on the first
// load. The library keeps its licence.
func bare(name string, body []byte) []byte {
	script := path.Ext(name) == ".js" && path.Base(name) != "idb.js"
	if !script && path.Ext(name) != ".css" {
		return body
	}
	var out bytes.Buffer
	for line := range bytes.Lines(body) {
		line = bytes.TrimSpace(line)
		if len(line) == 0 || script && bytes.HasPrefix(line, []byte("//")) {
			continue
		}
		out.Write(line)
		out.WriteByte('\n')
	}
	return out.Bytes()
}

// withHash returns "page.1f2e3d4c5b.js" for "page.js".
func withHash(f File) string {
	sum := sha256.Sum256(f.Body)
	ext := path.Ext(f.Name)
	return strings.TrimSuffix(f.Name, ext) + "." + hex.EncodeToString(sum[:5]) + ext
}

// ErrNoGo says that the go tool is missing.
var ErrNoGo = errors.New("the go tool is not on the PATH, and the page is compiled with it: install Go (https://go.dev/dl), then try again")

// ErrNoSource says that the working directory is not in Drawoff's source.
var ErrNoSource = errors.New(`the page is compiled from Drawoff's source, which is not here: change to the folder whose go.mod says "module drawoff", then try again`)

// glue returns what starts a module, from the toolchain that compiles it: the
// two must never drift apart.
func glue(ctx context.Context) ([]byte, error) {
	if _, err := exec.LookPath("go"); err != nil {
		return nil, ErrNoGo
	}
	root, err := goTool(ctx, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	body, err := os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return nil, fmt.Errorf("this Go has no glue for the browser: %w", err)
	}
	return body, nil
}

// small compiles without inlining, but for what is Go's own: that packs to 24
// kB more than none at all and takes a third off the work of an edit, where
// inlining in our packages too would cost another 58 kB and take a tenth more.
const small = "-gcflags=drawoff/...=-l"

// quick compiles with inlining, for a module that nobody waits to load: a
// check and its report take two thirds of the time.
const quick = "-gcflags="

// compile returns the module of a door, a package below wasm, made small or quick.
func compile(ctx context.Context, door, made string) ([]byte, error) {
	door = "drawoff/wasm/" + door
	if _, err := goTool(ctx, "list", "-find", door); err != nil {
		return nil, fmt.Errorf("%w (%w)", ErrNoSource, err)
	}
	dir, err := os.MkdirTemp("", "drawoff-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "module.wasm")
	// No version stamp: the same source must give the same module, and so the same name.
	if _, err = goTool(ctx, "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w", made, "-o", out, door); err != nil {
		return nil, fmt.Errorf("the module does not compile: %w", err)
	}
	module, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	light, err := Slim(module)
	if err != nil {
		return module, nil // of another Go: as right, and heavier than TestFirstLoadIsSmall lets it be
	}
	return light, nil
}

// goTool runs the go tool for the browser and returns what it printed.
func goTool(ctx context.Context, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	// The collector that Go 1.26 brought is made for large heaps on many cores;
	// the one before it weighs 5 kB less in a heap of a few megabytes. When Go
	// drops this switch, it goes.
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOEXPERIMENT=nogreenteagc")
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w: %s", args[0], err, bytes.TrimSpace(stderr.Bytes()))
	}
	return strings.TrimSpace(string(out)), nil
}
