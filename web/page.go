package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"fmt"
	"io/fs"
	"net/http"
	"path"
	"strings"
	"time"
)

// dist is the page as it is built from ui, see ui/build.mjs.
//
//go:embed all:dist
var dist embed.FS

// kinds are the types of the page's files, set here since machines differ in what
// they think of an ending.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
	".svg": "image/svg+xml", ".woff2": "font/woff2", ".txt": "text/plain; charset=utf-8",
}

// page serves the built page. Embedded files have no times, so each carries the sum
// of its bytes, and a browser asks whether it still holds.
func page() http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(path.Clean(r.URL.Path), "/")
		if name == "" {
			name = "index.html"
		}
		text, err := fs.ReadFile(dist, "dist/"+name)
		if err != nil {
			http.Error(w, "there is no such page\nhint: the desk is at /", http.StatusNotFound)
			return
		}
		h := w.Header()
		if kind, known := kinds[path.Ext(name)]; known {
			h.Set("Content-Type", kind)
		}
		h.Set("Cache-Control", "no-cache")
		h.Set("ETag", fmt.Sprintf(`"%x"`, sha256.Sum256(text)))
		http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(text))
	})
}
