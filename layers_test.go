package foilwright_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// This file is policy. A build that it stops is wrong in its imports; the
// policy is not edited to make a build pass. Adding a package means giving it a
// line here, in the same commit, with a reason in its message.

const module = "foilwright"

// layers is the order of the packages, lowest line last. A package imports
// only from lines below its own; packages on one line are strangers. Lines may
// name packages that are still to be written.
var layers = [][]string{
	{"cmd/foilwright"},
	{"cli"},
	{"web", "worker"},
	{"job"},
	{"report"},
	{"figure"},
	{"study"},
	{"course", "sailed"},
	{"odds", "why", "compare", "polar", "rule", "photo"},
	{"boatfile", "trim", "batch"},
	{"balance"},
	{"foil", "sail", "hull"},
	{"boat"},
	{"lattice", "wave"},
	{"section"},
	{"fluid"},
	{"solve", "quantity"},
	{"frame"},
	{"si", "accuracy"},
}

// testSupport are packages for tests alone: any test may import them, no program
// does, and so they may read files.
var testSupport = []string{"accuracy"}

// outsideWorld is what no package below the file format imports: they know no
// screen, no file and no network. The same holds for the file format itself and
// for trim, which get text and answers through plain functions and values.
var outsideWorld = []string{
	"C", "database", "flag", "html", "io/fs", "io/ioutil", "log", "net", "os", "path/filepath", "plugin", "syscall", "text/template",
}

// alsoShutIn are packages on the file format's own line that know no outside
// world either.
var alsoShutIn = []string{"boatfile", "trim"}

func TestLayers(t *testing.T) {
	for _, f := range goFiles(t) {
		own, listed := line(f.folder)
		if f.folder == "." {
			continue // tests of the module as a whole stand above every line
		}
		if !listed {
			t.Errorf("%s: package %s has no line in layers", f.name, f.folder)
			continue
		}
		for _, imported := range f.modules() {
			other, known := line(imported)
			switch {
			case !known:
				t.Errorf("%s: imports %s, which has no line in layers", f.name, imported)
			case slices.Contains(testSupport, imported) && !f.isTest():
				t.Errorf("%s: imports %s, which is for tests alone", f.name, imported)
			case imported == f.folder && f.isTest():
			case other > own:
			case other == own && f.isTest() && imported != f.folder:
				// A test may set up what it needs with a stranger: trim's tests read
				// a boat file. The packages themselves stay strangers.
			default:
				t.Errorf("%s: %s imports %s, which is not below it", f.name, f.folder, imported)
			}
		}
	}
}

func TestNoOutsideWorldBelowTheFileFormat(t *testing.T) {
	format, _ := line("boatfile")
	for _, f := range goFiles(t) {
		own, listed := line(f.folder)
		if f.isTest() || !listed || slices.Contains(testSupport, f.folder) || own < format || own == format && !slices.Contains(alsoShutIn, f.folder) {
			continue
		}
		for _, imported := range f.imports() {
			for _, banned := range outsideWorld {
				if imported == banned || strings.HasPrefix(imported, banned+"/") {
					t.Errorf("%s: %s imports %s: nothing here knows a screen, a file or a network", f.name, f.folder, imported)
				}
			}
		}
	}
}

// line returns how far down a package's line stands, the highest being 0.
func line(folder string) (int, bool) {
	for i, packages := range layers {
		if slices.Contains(packages, folder) {
			return i, true
		}
	}
	return 0, false
}

// goFile is one Go file of the module.
type goFile struct {
	name   string // slash path from the module's root
	folder string // its package's path in the module, "." for the root
	text   []byte
	syntax *ast.File
	set    *token.FileSet
}

func (f *goFile) isTest() bool { return strings.HasSuffix(f.name, "_test.go") }

func (f *goFile) imports() []string {
	var all []string
	for _, s := range f.syntax.Imports {
		if p, err := strconv.Unquote(s.Path.Value); err == nil {
			all = append(all, p)
		}
	}
	return all
}

// modules returns which packages of this module a file imports, as folders.
func (f *goFile) modules() []string {
	var all []string
	for _, p := range f.imports() {
		switch {
		case p == module:
			all = append(all, ".")
		case strings.HasPrefix(p, module+"/"):
			all = append(all, strings.TrimPrefix(p, module+"/"))
		}
	}
	return all
}

// goFiles parses every Go file of the module, in order of name.
func goFiles(t *testing.T) []goFile {
	t.Helper()
	set := token.NewFileSet()
	var all []goFile
	err := filepath.WalkDir(".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := entry.Name()
		if entry.IsDir() {
			if name != "." && (strings.HasPrefix(base, ".") || strings.HasPrefix(base, "_") || base == "testdata" || base == "node_modules") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(base, ".go") || strings.HasPrefix(base, ".") || strings.HasPrefix(base, "_") {
			return nil
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		syntax, err := parser.ParseFile(set, name, text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		slash := filepath.ToSlash(name)
		all = append(all, goFile{name: slash, folder: path.Dir(slash), text: text, syntax: syntax, set: set})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 20 {
		t.Fatalf("only %d Go files found: the walk misses the module", len(all))
	}
	return all
}
