package site

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// long is a text that packs well.
func long(s string) []byte { return bytes.Repeat([]byte(s), 200) }

// listed returns the names in dir, the marker left out.
func listed(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		if e.Name() != marker {
			names = append(names, e.Name())
		}
	}
	return names
}

func TestWritePacksEachFile(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "not", "there", "yet")
	page := long("<p>a page</p>")
	require.NoError(t, Write(dir, []File{{"tiny.txt", []byte("ab")}, {"img/icon.png", long("png")}, {Index, page}}))

	assert.Equal(t, []string{"img", Index, Index + ".br", Index + ".gz", "tiny.txt"}, listed(t, dir), "what would not get smaller has no copies")
	assert.Equal(t, []string{"icon.png"}, listed(t, filepath.Join(dir, "img")), "a picture is packed already")
	for ext, unpack := range map[string]func(io.Reader) (io.Reader, error){
		".br": func(r io.Reader) (io.Reader, error) { return brotli.NewReader(r), nil },
		".gz": func(r io.Reader) (io.Reader, error) { return gzip.NewReader(r) },
	} {
		file, err := os.Open(filepath.Join(dir, Index+ext))
		require.NoError(t, err)
		defer file.Close()
		r, err := unpack(file)
		require.NoError(t, err)
		got, err := io.ReadAll(r)
		require.NoError(t, err)
		assert.Equal(t, string(page), string(got), ext)
	}
}

func TestWriteReplacesWhatItWrote(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	require.NoError(t, Write(dir, []File{{"page.old.js", long("old")}, {Index, []byte("1")}}))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "CNAME"), []byte("drawoff.example"), 0o644))
	require.NoError(t, Write(dir, []File{{"page.new.js", long("new")}, {Index, []byte("2")}}))
	assert.Equal(t, []string{"CNAME", Index, "page.new.js", "page.new.js.br", "page.new.js.gz"}, listed(t, dir), "the user's own file stays, the old version goes")
	page, err := os.ReadFile(filepath.Join(dir, Index))
	require.NoError(t, err)
	assert.Equal(t, "2", string(page))
}

func TestWriteTouchesNothingForeign(t *testing.T) {
	t.Parallel()
	t.Run("a folder with something else in it", func(t *testing.T) {
		t.Parallel()
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "accounts.ods"), []byte("mine"), 0o644))
		err := Write(dir, []File{{Index, []byte("1")}})
		require.Error(t, err)
		assert.Contains(t, err.Error(), "accounts.ods")
		assert.Contains(t, err.Error(), "empty folder")
		assert.Equal(t, []string{"accounts.ods"}, listed(t, dir))
	})
	t.Run("a file of the user's under a name that is needed", func(t *testing.T) {
		t.Parallel()
		dir := t.TempDir()
		require.NoError(t, Write(dir, []File{{Index, []byte("1")}}))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "about.html"), []byte("mine"), 0o644))
		err := Write(dir, []File{{"about.html", []byte("ours")}, {Index, []byte("2")}})
		require.Error(t, err)
		assert.Contains(t, err.Error(), "about.html")
		mine, err := os.ReadFile(filepath.Join(dir, "about.html"))
		require.NoError(t, err)
		assert.Equal(t, "mine", string(mine))
	})
	t.Run("a list that has been tampered with", func(t *testing.T) {
		t.Parallel()
		outer := t.TempDir()
		dir := filepath.Join(outer, "site")
		require.NoError(t, Write(dir, []File{{Index, []byte("1")}}))
		require.NoError(t, os.WriteFile(filepath.Join(outer, "accounts.ods"), []byte("mine"), 0o644))
		require.NoError(t, os.WriteFile(filepath.Join(dir, marker), []byte("index.html\n../accounts.ods\n"), 0o644))
		assert.Error(t, Write(dir, []File{{Index, []byte("2")}}))
		assert.FileExists(t, filepath.Join(outer, "accounts.ods"))
	})
	t.Run("a file where the folder should be", func(t *testing.T) {
		t.Parallel()
		name := filepath.Join(t.TempDir(), "site")
		require.NoError(t, os.WriteFile(name, []byte("mine"), 0o644))
		assert.Error(t, Write(name, []File{{Index, []byte("1")}}))
	})
}

func TestWriteCutShortCanBeDoneAgain(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	// A folder in the way of the second file stops the first Write half way.
	require.NoError(t, Write(dir, []File{{Index, []byte("1")}}))
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "b.txt.part", "x"), 0o755))
	require.Error(t, Write(dir, []File{{"a.txt", []byte("a")}, {"b.txt", []byte("b")}, {Index, []byte("2")}}))
	require.NoError(t, os.RemoveAll(filepath.Join(dir, "b.txt.part")))
	require.NoError(t, Write(dir, []File{{"a.txt", []byte("a")}, {"b.txt", []byte("b")}, {Index, []byte("2")}}))
	assert.Equal(t, "a.txt b.txt index.html", strings.Join(listed(t, dir), " "))
}
