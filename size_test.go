package foilwright_test

import (
	"bytes"
	"go/ast"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Sizes that a reader can hold in the head. Longer ones need a reason here.
const (
	longestFunction = 80  // lines
	longestFile     = 500 // lines
)

// exemption lets one file or function be longer, with the reason why.
type exemption struct {
	file     string
	function string // empty: the file itself
	reason   string
}

// exemptions are all there are.
var exemptions = []exemption{}

func exempt(file, function string) bool {
	return slices.ContainsFunc(exemptions, func(e exemption) bool { return e.file == file && e.function == function })
}

func TestSizes(t *testing.T) {
	seen := map[exemption]struct{}{}
	for _, f := range goFiles(t) {
		if lines := bytes.Count(f.text, []byte("\n")); lines > longestFile {
			if exempt(f.name, "") {
				seen[exemption{file: f.name}] = struct{}{}
			} else {
				t.Errorf("%s has %d lines, allowed are %d: split it by what it talks about", f.name, lines, longestFile)
			}
		}
		for _, d := range f.syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Body == nil {
				continue
			}
			first, last := f.set.Position(fn.Pos()), f.set.Position(fn.End())
			if lines := last.Line - first.Line + 1; lines > longestFunction {
				if exempt(f.name, fn.Name.Name) {
					seen[exemption{file: f.name, function: fn.Name.Name}] = struct{}{}
				} else {
					t.Errorf("%s: %s has %d lines, allowed are %d", first, fn.Name.Name, lines, longestFunction)
				}
			}
		}
	}
	for _, e := range exemptions {
		if _, needed := seen[exemption{file: e.file, function: e.function}]; !needed || e.reason == "" {
			t.Errorf("exemption for %s %s is not needed, or has no reason", e.file, e.function)
		}
	}
}

// vagueNames are package names that say nothing about what is inside.
var vagueNames = []string{"util", "utils", "common", "helper", "helpers", "types", "models", "pkg", "misc", "base", "shared", "tools"}

// oneFile are packages of a single file, read from its first line, where the
// package comment stands.
var oneFile = []string{"si"}

func TestPackagesSayWhatTheyAre(t *testing.T) {
	type told struct{ comment, file string }
	doc := map[string]told{}
	folders := map[string]string{} // folder to package name
	for _, f := range goFiles(t) {
		for part := range strings.SplitSeq(f.folder, "/") {
			if slices.Contains(vagueNames, part) {
				t.Errorf("%s: %q says nothing about what is inside", f.name, part)
			}
		}
		if f.isTest() || f.folder == "." {
			continue
		}
		folders[f.folder] = f.syntax.Name.Name
		if f.syntax.Doc == nil {
			continue
		}
		if d, twice := doc[f.folder]; twice {
			t.Errorf("%s: package comment stands in %s already", f.name, d.file)
		}
		doc[f.folder] = told{f.syntax.Doc.Text(), f.name}
	}
	for folder, name := range folders {
		d := doc[folder]
		begin := "Package " + name + " "
		if name == "main" {
			begin = "Command " + path.Base(folder) + " "
		}
		switch {
		case d.comment == "":
			t.Errorf("%s has no package comment", folder)
		case !strings.HasPrefix(d.comment, begin):
			t.Errorf("%s: the package comment begins %q, want %q", d.file, firstWords(d.comment), begin)
		case name == "main":
		case path.Base(d.file) != "doc.go" && !slices.Contains(oneFile, folder):
			t.Errorf("%s: the package comment stands in %s, want doc.go", folder, d.file)
		case !tells(d.comment):
			t.Errorf("%s: say in the package comment what goes in, what comes out, and what the package refuses to know", d.file)
		}
	}
}

var (
	goesIn   = regexp.MustCompile(`(?i)\bgo(es)? in\b|\bin go(es)?\b`)
	comesOut = regexp.MustCompile(`(?i)\bout come|\bcomes? out\b`)
	refuses  = regexp.MustCompile(`(?i)\b(refuses?|knows? no(thing)?|does not (know|look)|do not know)\b`)
)

// tells tells whether a package comment says the three things that it owes.
func tells(comment string) bool {
	flat := strings.Join(strings.Fields(comment), " ")
	return goesIn.MatchString(flat) && comesOut.MatchString(flat) && refuses.MatchString(flat)
}

func firstWords(s string) string {
	words := strings.Fields(s)
	return strings.Join(words[:min(3, len(words))], " ")
}

var unfinished = regexp.MustCompile(`\b(` + "TO" + "DO|FIX" + "ME|XX" + `X)\b`)

func TestNothingIsLeftForLater(t *testing.T) {
	for _, f := range goFiles(t) {
		for _, group := range f.syntax.Comments {
			for _, c := range group.List {
				if word := unfinished.FindString(c.Text); word != "" {
					t.Errorf("%s: %s: do it, or file it as an issue", f.set.Position(c.Pos()), word)
				}
			}
		}
	}
}
