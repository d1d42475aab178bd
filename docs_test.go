package foilwright_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// citation is one or more surnames with a year, as comments write them: Fritsch
// and Carlson (1980), Sharqawy et al. 2010, Picard, Davis, Gläser, Fujii 2008.
var citation = regexp.MustCompile(
	`(\p{Lu}[\p{L}\d’'-]+)(?:(?:, and |, | and | & )(?:von )?\p{Lu}[\p{L}’'-]+)*(?: et al\.?)?,? \(?((?:18|19|20)\d\d)\b`)

// Every source that a comment names stands in the list of references.
func TestReferencesAreListed(t *testing.T) {
	var rows []string
	for row := range strings.Lines(readDoc(t, "docs/references.md")) {
		if strings.HasPrefix(row, "|") {
			rows = append(rows, row)
		}
	}
	cited := 0
	for _, f := range goFiles(t) {
		if f.folder == "." {
			continue // this file's own examples
		}
		for _, group := range f.syntax.Comments {
			text := strings.Join(strings.Fields(group.Text()), " ")
			for _, m := range citation.FindAllStringSubmatch(text, -1) {
				cited++
				name, year := strings.TrimRight(strings.TrimSuffix(strings.TrimSuffix(m[1], "'s"), "’s"), "'’"), m[2]
				listed := slices.ContainsFunc(rows, func(r string) bool { return strings.Contains(r, name) && strings.Contains(r, year) })
				if !listed {
					t.Errorf("%s: %q is not in docs/references.md", f.set.Position(group.Pos()), m[0])
				}
			}
		}
	}
	if cited < 50 {
		t.Errorf("only %d citations found in comments: the pattern misses them", cited)
	}
}

// Every file of published values stands there too, and every one named exists.
func TestPublishedValuesAreListed(t *testing.T) {
	text := readDoc(t, "docs/references.md")
	files, err := filepath.Glob("*/testdata/published/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no published values found: %v", err)
	}
	listed := map[string]struct{}{}
	for _, m := range regexp.MustCompile("(?m)^\\| (\\w+) \\| `([^`]+\\.csv)` \\|").FindAllStringSubmatch(text, -1) {
		listed[filepath.Join(m[1], "testdata", "published", m[2])] = struct{}{}
	}
	for _, f := range files {
		if _, ok := listed[f]; !ok {
			t.Errorf("%s is not listed in docs/references.md", f)
		}
		delete(listed, f)
	}
	for f := range listed {
		t.Errorf("docs/references.md lists %s, which does not exist", f)
	}
}

var link = regexp.MustCompile(`\]\(([^)#:\s]+)(?:#[^)]*)?\)`)

// Links between documents lead somewhere.
func TestLinksLeadSomewhere(t *testing.T) {
	for _, name := range documents(t) {
		for _, m := range link.FindAllStringSubmatch(readDoc(t, name), -1) {
			target := filepath.Join(filepath.Dir(name), filepath.FromSlash(m[1]))
			if _, err := os.Stat(target); err != nil {
				t.Errorf("%s: link to %s: there is no such file", name, m[1])
			}
		}
	}
}

// documents returns every Markdown file of the module.
func documents(t *testing.T) []string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && name != "." && (strings.HasPrefix(entry.Name(), ".") || entry.Name() == "node_modules" || entry.Name() == "testdata") {
			return fs.SkipDir
		}
		if strings.HasSuffix(name, ".md") {
			all = append(all, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func readDoc(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
