package site

import (
	"context"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"path"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// built is the real site, compiled once for all tests.
var built = sync.OnceValues(func() ([]File, error) { return Build(context.Background()) })

func TestBuildRefersOnlyToItsOwnFiles(t *testing.T) {
	t.Parallel()
	files, err := built()
	require.NoError(t, err)
	names := make(map[string]bool)
	for _, f := range files {
		assert.Truef(t, fs.ValidPath(f.Name), "%q is no path under the site", f.Name)
		assert.NotEmptyf(t, f.Body, "%s is empty", f.Name)
		names[f.Name] = true
	}
	last := files[len(files)-1]
	require.Equal(t, Index, last.Name, "the page comes after all that it refers to")

	var page string // both of them
	for _, f := range files {
		if path.Ext(f.Name) == ".html" {
			page += string(f.Body)
		}
	}
	addresses := regexp.MustCompile(`(?:src|href|data-module|data-glue|data-thread|data-workshop|data-designs|data-offline|value)="([^"]*)"`).FindAllStringSubmatch(page, -1)
	for _, address := range addresses {
		if strings.HasPrefix(address[0], "value=") && path.Ext(address[1]) != ".json" {
			continue // what stands in a field
		}
		address := address[1]
		if strings.HasPrefix(address, "#") || strings.HasPrefix(address, "data:") {
			continue
		}
		assert.Truef(t, names[address], "the page refers to %q, which is no file of the site", address)
	}
	for _, ext := range []string{".css", ".js", ".wasm", ".json"} {
		for name := range names {
			if path.Ext(name) == ext {
				assert.Containsf(t, page, name, "nothing on the page loads %s", name)
			}
		}
	}
}

func TestBuildNamesFilesByWhatIsInThem(t *testing.T) {
	t.Parallel()
	one, same, other := File{"a/page.js", []byte("1")}, File{"a/page.js", []byte("1")}, File{"a/page.js", []byte("2")}
	assert.Regexp(t, `^a/page\.[0-9a-f]{10}\.js$`, withHash(one))
	assert.Equal(t, withHash(one), withHash(same))
	assert.NotEqual(t, withHash(one), withHash(other))
}

func TestBuildSaysWhatIsMissing(t *testing.T) {
	t.Run("the go tool", func(t *testing.T) {
		t.Setenv("PATH", t.TempDir())
		_, err := Build(context.Background())
		assert.ErrorIs(t, err, ErrNoGo)
	})
	t.Run("the source", func(t *testing.T) {
		t.Chdir(t.TempDir())
		_, err := Build(context.Background())
		assert.ErrorIs(t, err, ErrNoSource)
	})
}

func TestHandler(t *testing.T) {
	t.Parallel()
	server := httptest.NewServer(Handler([]File{
		{"page.js", []byte("let a")}, {"drawoff.wasm", []byte("\x00asm")}, {"icon.svg", []byte("<svg/>")}, {Index, []byte("<!doctype html>")},
	}))
	t.Cleanup(server.Close)
	ask := func(method, address, etag string) (*http.Response, string) {
		request, err := http.NewRequest(method, server.URL+address, nil)
		require.NoError(t, err)
		request.Header.Set("If-None-Match", etag)
		response, err := server.Client().Do(request)
		require.NoError(t, err)
		defer response.Body.Close()
		body, err := io.ReadAll(response.Body)
		require.NoError(t, err)
		return response, string(body)
	}

	for address, kind := range map[string]string{
		"/":             "text/html; charset=utf-8",
		"/index.html":   "text/html; charset=utf-8",
		"/page.js":      "text/javascript; charset=utf-8",
		"/icon.svg":     "image/svg+xml",
		"/drawoff.wasm": "application/wasm", // what WebAssembly.instantiateStreaming asks for
	} {
		response, body := ask("GET", address, "")
		assert.Equal(t, 200, response.StatusCode, address)
		assert.Equal(t, kind, response.Header.Get("Content-Type"), address)
		assert.NotEmpty(t, body, address)
		again, body := ask("GET", address, response.Header.Get("ETag"))
		assert.Equal(t, http.StatusNotModified, again.StatusCode, address)
		assert.Empty(t, body, address)
	}
	for _, address := range []string{"/nothing", "/page.js/", "/../site.go"} {
		response, _ := ask("GET", address, "")
		assert.Equal(t, 404, response.StatusCode, address)
	}
	response, _ := ask("POST", "/", "")
	assert.Equal(t, http.StatusMethodNotAllowed, response.StatusCode)
}
