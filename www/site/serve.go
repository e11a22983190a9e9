package site

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"path"
	"strings"
	"time"
)

// types are the media types of what a site may hold. The system's own table
// is not asked: it differs from machine to machine, and a module under any
// other type than its own does not start.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".mjs":         "text/javascript; charset=utf-8",
	".mts":         "text/plain; charset=utf-8", // there is no type for TypeScript, and "video/mp2t" helps nobody
	".wasm":        "application/wasm",
	".json":        "application/json",
	".webmanifest": "application/manifest+json",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".ico":         "image/x-icon",
	".txt":         "text/plain; charset=utf-8",
}

// Handler serves files from memory. A browser asks each time whether its copy
// is still good, so that a page under work is never a mix of old and new.
func Handler(files []File) http.Handler {
	type entry struct {
		body []byte
		etag string
	}
	entries := make(map[string]entry, len(files))
	for _, f := range files {
		sum := sha256.Sum256(f.Body)
		entries[f.Name] = entry{f.Body, `"` + hex.EncodeToString(sum[:12]) + `"`}
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "only GET and HEAD", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = Index
		}
		e, ok := entries[name]
		if !ok {
			http.NotFound(w, r)
			return
		}
		h := w.Header()
		kind, ok := types[path.Ext(name)]
		if !ok {
			kind = "application/octet-stream"
		}
		h.Set("Content-Type", kind)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Cache-Control", "no-cache")
		h.Set("ETag", e.etag)
		http.ServeContent(w, r, name, time.Time{}, bytes.NewReader(e.body))
	})
}
