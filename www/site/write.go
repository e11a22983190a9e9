package site

import (
	"bytes"
	"compress/gzip"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/andybalholm/brotli"
)

// marker is a file that Write leaves behind: the names of all that it wrote,
// one a line. It tells the next Write what it may replace.
const marker = ".drawoff-site"

// MayWrite returns why Write would refuse dir, or nil. It changes nothing.
func MayWrite(dir string) error {
	root, err := os.OpenRoot(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer root.Close()
	if _, err = written(root); err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}
	return nil
}

// Write puts files into dir, each with a copy packed by brotli (".br") and by
// gzip (".gz") beside it for hosts that send such copies. It makes dir if
// need be. It replaces and removes only what an earlier Write put there: in a
// folder with anything else under a name that it needs, or with other files
// and none of its own, it writes nothing and says so.
func Write(dir string, files []File) error {
	all, err := packed(files)
	if err != nil {
		return err
	}
	return WritePlain(dir, all)
}

// WritePlain is Write without the packed copies, for a host that packs by itself.
func WritePlain(dir string, all []File) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	defer root.Close()
	before, err := written(root)
	if err != nil {
		return fmt.Errorf("%s: %w", dir, err)
	}

	now := make(map[string]bool, len(all))
	var list strings.Builder
	for _, f := range all {
		now[f.Name] = true
		fmt.Fprintln(&list, f.Name)
		if _, err := root.Lstat(filepath.FromSlash(f.Name)); err == nil && !before[f.Name] {
			return fmt.Errorf("%s has a file %s that Drawoff did not write, and it will not be overwritten: move it away, or build into an empty folder", dir, f.Name)
		}
	}
	// Both lists first, so that a Write cut short leaves nothing that the next takes for foreign.
	for name := range before {
		if !now[name] {
			fmt.Fprintln(&list, name)
		}
	}
	if err := put(root, File{marker, []byte(list.String())}); err != nil {
		return err
	}
	for _, f := range all {
		if err := put(root, f); err != nil {
			return err
		}
	}
	for name := range before {
		if now[name] {
			continue
		}
		if err := root.Remove(filepath.FromSlash(name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// written returns the names that an earlier Write left in root: none when it
// is empty, an error when it is full of something else.
func written(root *os.Root) (map[string]bool, error) {
	list, err := root.ReadFile(marker)
	if errors.Is(err, fs.ErrNotExist) {
		entries, err := fs.ReadDir(root.FS(), ".")
		if err == nil && len(entries) > 0 {
			err = fmt.Errorf("the folder is not empty and holds no site that Drawoff built (it has %s): choose an empty folder", entries[0].Name())
		}
		return nil, err
	}
	names := make(map[string]bool)
	for name := range strings.Lines(string(list)) {
		names[strings.TrimSpace(name)] = true
	}
	return names, err
}

// packed returns files with the packed copies of each before it, so that the
// page, the last of files, comes last of all. What is packed already, and
// what would not get smaller, has no copies.
func packed(files []File) ([]File, error) {
	var all []File
	for _, f := range files {
		if path.Ext(f.Name) != ".png" {
			br, err := Brotli(f.Body)
			if err != nil {
				return nil, err
			}
			gz, err := gzipped(f.Body)
			if err != nil {
				return nil, err
			}
			for _, small := range []File{{f.Name + ".br", br}, {f.Name + ".gz", gz}} {
				if len(small.Body) < len(f.Body) {
					all = append(all, small)
				}
			}
		}
		all = append(all, f)
	}
	return all, nil
}

// Brotli returns body packed as small as brotli can.
func Brotli(body []byte) ([]byte, error) {
	var out bytes.Buffer
	const wide = 24 // a window of 16 MB, the widest that browsers take
	w := brotli.NewWriterOptions(&out, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: wide})
	if _, err := w.Write(body); err != nil {
		return nil, err
	}
	err := w.Close()
	return out.Bytes(), err
}

func gzipped(body []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(body); err != nil {
		return nil, err
	}
	err = w.Close()
	return out.Bytes(), err
}

// put writes f whole or not at all: a host may be serving the folder.
func put(root *os.Root, f File) error {
	name := filepath.FromSlash(f.Name)
	if dir := filepath.Dir(name); dir != "." {
		if err := root.MkdirAll(dir, 0o755); err != nil {
			return err
		}
	}
	if err := root.WriteFile(name+".part", f.Body, 0o644); err != nil {
		return err
	}
	return root.Rename(name+".part", name)
}
