package web

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The page is built from the sources as they are.
func TestPageIsFresh(t *testing.T) {
	names := []string{"build.mjs", "index.html", "package-lock.json", "package.json", "svelte.config.js", "tsconfig.json", "vite.config.ts"}
	for _, folder := range []string{"src", "../../figure/charts/src"} {
		if err := filepath.WalkDir(filepath.Join("ui", folder), func(name string, e fs.DirEntry, err error) error {
			if err == nil && !e.IsDir() {
				rest := strings.TrimPrefix(filepath.ToSlash(name), filepath.ToSlash(filepath.Join("ui", folder)))
				names = append(names, folder+rest)
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
	}
	slices.Sort(names)
	hash := sha256.New()
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join("ui", name))
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(hash, "%s %d\n", name, len(text))
		hash.Write(text)
	}
	told, err := fs.ReadFile(dist, "dist/sources.txt")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := strings.TrimSpace(string(told)), fmt.Sprintf("%x", hash.Sum(nil)); got != want {
		t.Errorf("web/dist was built from sources %.12s, and they are %.12s\nBuild it with npm ci and npm run build in web/ui.", got, want)
	}
}
