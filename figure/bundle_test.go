package figure

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The bundle is built from the sources as they are.
func TestBundleIsFresh(t *testing.T) {
	names := []string{"build.mjs", "package-lock.json", "package.json", "tsconfig.json"}
	sources, err := filepath.Glob("charts/src/*")
	if err != nil || len(sources) == 0 {
		t.Fatalf("no chart has a source: %v", err)
	}
	for _, s := range sources {
		names = append(names, "src/"+filepath.Base(s))
	}
	slices.Sort(names)
	hash := sha256.New()
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join("charts", name))
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(hash, "%s %d\n", name, len(text))
		hash.Write(text)
	}
	if want := fmt.Sprintf("/* sources %x;", hash.Sum(nil)); !strings.HasPrefix(bundle, want) {
		t.Errorf("charts/dist/charts.js begins %.80q, and its sources have %q\nBuild it with npm ci and npm run build in figure/charts.", bundle, want)
	}
}
