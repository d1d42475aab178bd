package foilwright_test

import (
	"cmp"
	"errors"
	"flag"
	"fmt"
	"go/ast"
	"math"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"foilwright/accuracy"
)

var writePhysics = flag.Bool("write-physics", false, "renew the accuracy table in docs/physics.md")

const (
	physicsDoc = "docs/physics.md"
	tableBegin = "<!-- accuracy table: go test -run TestPhysicsDoc -write-physics . -->"
	tableEnd   = "<!-- end of the accuracy table -->"
)

// topics are the parts of the table, by the number that row ids begin with.
var topics = []string{
	1: "Water and air", 2: "Friction, form and junctions", 3: "Lifting surfaces away from the water surface",
	4: "Lifting surfaces under the water surface, and their waves", 5: "Sections, cavitation number", 6: "Wind and sails", 7: "Wind triangle, course theorem, frames", 8: "Odds",
}

// The accuracy table of docs/physics.md is what the tests themselves say. A
// last digit that differs by one is another machine's rounding. Rows of tests
// that are skipped here, for want of open data, are not compared.
func TestPhysicsDoc(t *testing.T) {
	if testing.Short() {
		t.Skip("it runs the tests of several packages")
	}
	rows, skipped := notedRows(t)
	text := readDoc(t, physicsDoc)
	before, rest, found := strings.Cut(text, tableBegin+"\n")
	table, after, closed := strings.Cut(rest, tableEnd)
	if !found || !closed {
		t.Fatalf("%s has no table between %q and %q", physicsDoc, tableBegin, tableEnd)
	}
	if *writePhysics {
		if len(skipped) > 0 {
			t.Fatalf("%v were skipped: the table would lack their rows", skipped)
		}
		if err := os.WriteFile(physicsDoc, []byte(before+tableBegin+"\n"+accuracyTable(rows)+tableEnd+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	compareTable(t, table, rows, skipped)
}

// notedRows runs the tests that note rows and returns what they note, in the
// table's order, and the tests that were skipped.
func notedRows(t *testing.T) (rows []accuracy.Noted, skipped []string) {
	t.Helper()
	packages, tests := noting(t)
	if len(packages) < 6 || len(tests) < 40 {
		t.Fatalf("only %d tests in %v note rows", len(tests), packages)
	}
	args := []string{"test", "-v", "-run", "^(" + strings.Join(tests, "|") + ")$"}
	for _, p := range packages {
		args = append(args, "./"+p)
	}
	output, err := exec.Command("go", args...).CombinedOutput()
	if errors.Is(err, exec.ErrNotFound) {
		t.Skip("there is no go command here to run the tests with")
	}
	if err != nil {
		t.Fatalf("the tests that note rows: %v\n%s", err, failures(string(output)))
	}
	if rows, err = accuracy.Parse(string(output)); err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^\s*--- SKIP: (\S+)`).FindAllStringSubmatch(string(output), -1) {
		skipped = append(skipped, m[1])
	}
	slices.SortFunc(rows, func(a, b accuracy.Noted) int {
		return cmp.Or(cmp.Compare(topic(a), topic(b)), compareIDs(a.ID, b.ID), cmp.Compare(a.Package, b.Package),
			cmp.Compare(a.Test, b.Test), cmp.Compare(a.Quantity, b.Quantity), compareWords(a.Conditions, b.Conditions), cmp.Compare(a.Published, b.Published))
	})
	for i := 1; i < len(rows); i++ {
		if key(rowCells(rows[i])) == key(rowCells(rows[i-1])) {
			t.Errorf("two rows are %q: say in their conditions what sets them apart", key(rowCells(rows[i])))
		}
	}
	return rows, skipped
}

func failures(output string) string {
	return strings.Join(regexp.MustCompile(`(?m)^.*(FAIL|_test\.go:\d+: row |\[build failed\]).*$`).FindAllString(output, 40), "\n")
}

// noting returns the packages and the tests that note rows: those whose code, or
// a function of their package that they name, calls package accuracy.
func noting(t *testing.T) (packages, tests []string) {
	calls := map[string]map[string][]string{} // package, function, names in it
	for _, f := range goFiles(t) {
		if !f.isTest() || f.folder == "." || f.folder == "accuracy" {
			continue
		}
		if calls[f.folder] == nil {
			calls[f.folder] = map[string][]string{}
		}
		for _, d := range f.syntax.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Body == nil || fn.Recv != nil {
				continue
			}
			ast.Inspect(fn.Body, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					calls[f.folder][fn.Name.Name] = append(calls[f.folder][fn.Name.Name], id.Name)
				}
				return true
			})
		}
	}
	for folder, names := range calls {
		notes := map[string]struct{}{"accuracy": {}} // the package's own name, then whoever leads to it
		for grown := true; grown; {
			grown = false
			for fn, named := range names {
				if _, known := notes[fn]; known {
					continue
				}
				if slices.ContainsFunc(named, func(n string) bool { _, leads := notes[n]; return leads }) {
					notes[fn], grown = struct{}{}, true
				}
			}
		}
		for fn := range notes {
			if strings.HasPrefix(fn, "Test") {
				tests = append(tests, fn)
			}
		}
		if len(notes) > 1 {
			packages = append(packages, folder)
		}
	}
	slices.Sort(packages)
	slices.Sort(tests)
	return packages, slices.Compact(tests)
}

// topic returns the part of the table that a row belongs to.
func topic(r accuracy.Noted) int {
	if r.Topic > 0 {
		return r.Topic
	}
	number, err := strconv.ParseFloat(r.ID, 64)
	if err != nil || int(number) < 1 || int(number) >= len(topics) {
		return len(topics) - 1
	}
	return int(number)
}

// compareIDs orders 4.9 after 4.52 as the ids are written with two places, and
// rows that have no number after those that do.
func compareIDs(a, b string) int {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	switch {
	case errX != nil && errY != nil:
		return cmp.Compare(a, b)
	case errX != nil:
		return 1
	case errY != nil:
		return -1
	}
	return cmp.Compare(x, y)
}

var firstNumber = regexp.MustCompile(`-?\d+(\.\d+)?(e-?\d+)?`)

// compareWords orders texts by the numbers in them, where the words are alike.
func compareWords(a, b string) int {
	if c := cmp.Compare(firstNumber.ReplaceAllString(a, "#"), firstNumber.ReplaceAllString(b, "#")); c != 0 {
		return c
	}
	x, y := firstNumber.FindAllString(a, -1), firstNumber.FindAllString(b, -1)
	for i := range x {
		p, _ := strconv.ParseFloat(x[i], 64)
		q, _ := strconv.ParseFloat(y[i], 64)
		if c := cmp.Compare(p, q); c != 0 {
			return c
		}
	}
	return 0
}

// columns of the table; key and compareTable know their order.
var columns = []string{"row", "quantity", "conditions", "published", "computed", "unit", "held to ±", "source", "sure", "test"}

const (
	computedColumn = 4
	testColumn     = 9
)

func rowCells(r accuracy.Noted) []string {
	cells := []string{
		r.ID, r.Quantity, r.Conditions, accuracy.Number(r.Published), r.Shown(), strings.Trim(r.Unit, "- "), held(r),
		source(r), sure(r.Evidence), r.Package + " " + r.Test,
	}
	for i, c := range cells {
		cells[i] = strings.ReplaceAll(strings.Join(strings.Fields(c), " "), "|", "∣")
	}
	return cells
}

var aside = regexp.MustCompile(` ?\([^()]*(memory|[^()]{40})[^()]*\)`)

// source returns the first of a row's sources, in short; the published file has
// them whole.
func source(r accuracy.Noted) string {
	first, _, _ := strings.Cut(aside.ReplaceAllString(r.Source, ""), ";")
	if rest, own := strings.CutPrefix(first, "own "); own {
		first = "independent " + rest
	}
	return first
}

func held(r accuracy.Noted) string {
	if r.Tolerance == 0 {
		return "exact"
	}
	return strconv.FormatFloat(r.Tolerance, 'g', 2, 64)
}

// sure puts a published file's mark of evidence in full.
func sure(evidence string) string {
	switch evidence {
	case "c+b":
		return "derived; from memory"
	case "c+a":
		return "derived; published"
	}
	return evidence
}

// accuracyTable returns the table in Markdown, a part for each topic.
func accuracyTable(rows []accuracy.Noted) string {
	var b strings.Builder
	for number, name := range topics {
		part := slices.DeleteFunc(slices.Clone(rows), func(r accuracy.Noted) bool { return topic(r) != number })
		if len(part) == 0 {
			continue
		}
		fmt.Fprintf(&b, "\n### %d. %s: %d rows\n\n| %s |\n|%s\n", number, name, len(part), strings.Join(columns, " | "), strings.Repeat("---|", len(columns)))
		for _, r := range part {
			fmt.Fprintf(&b, "| %s |\n", strings.Join(rowCells(r), " | "))
		}
	}
	return b.String() + "\n"
}

// key is what a row is found by again.
func key(cells []string) string {
	return strings.Join([]string{cells[0], cells[1], cells[2], cells[testColumn]}, " | ")
}

// compareTable fails where the document's table is not what the rows say.
func compareTable(t *testing.T, table string, rows []accuracy.Noted, skipped []string) {
	t.Helper()
	shown := map[string][]string{}
	for line := range strings.Lines(table) {
		cells := strings.Split(strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(line), "| "), " |"), " | ")
		if len(cells) == len(columns) && cells[0] != columns[0] {
			shown[key(cells)] = cells
		}
	}
	var stale []string
	for _, r := range rows {
		cells := rowCells(r)
		old, found := shown[key(cells)]
		delete(shown, key(cells))
		if !found {
			stale = append(stale, "missing: "+key(cells))
			continue
		}
		before, errOld := strconv.ParseFloat(old[computedColumn], 64)
		now, errNow := strconv.ParseFloat(cells[computedColumn], 64)
		if errOld != nil || errNow != nil || math.Abs(before-now) > 1.01*r.Step() {
			stale = append(stale, fmt.Sprintf("%s: computed %s, table %s", key(cells), cells[computedColumn], old[computedColumn]))
		}
		old[computedColumn] = cells[computedColumn]
		if !slices.Equal(old, cells) {
			stale = append(stale, fmt.Sprintf("%s: now %v, table %v", key(cells), cells, old))
		}
	}
	for k, cells := range shown {
		_, test, _ := strings.Cut(cells[testColumn], " ")
		if !slices.Contains(skipped, test) {
			stale = append(stale, "no longer noted: "+k)
		}
	}
	if len(stale) > 0 {
		slices.Sort(stale)
		t.Errorf("%s is out of date in %d rows; go test -run TestPhysicsDoc -write-physics . renews it:\n%s", physicsDoc, len(stale), strings.Join(stale[:min(len(stale), 10)], "\n"))
	}
}
