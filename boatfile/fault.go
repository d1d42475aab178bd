package boatfile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Place is where something stands in a file. Lines and columns count from 1,
// columns in characters; a Line of 0 means the file as a whole.
type Place struct {
	File   string
	Line   int
	Column int
}

// String returns "boats/sorrel.yaml:41:12".
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Fault is one thing that is wrong with a file.
type Fault struct {
	File         string
	Line, Column int    // from 1; a Line of 0 means the file as a whole
	Path         string // "foils.main.moves.cant"; empty for the file as a whole
	Problem      string
	Hint         string // what would do instead; may be empty
}

// Error returns the fault in the house's style, with the hint on a second line.
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(Place{f.File, f.Line, f.Column}.String())
	b.WriteString(": ")
	if f.Path != "" {
		b.WriteString(f.Path)
		b.WriteString(": ")
	}
	b.WriteString(f.Problem)
	if f.Hint != "" {
		b.WriteString("\nhint: ")
		b.WriteString(f.Hint)
	}
	return b.String()
}

// Faults is all that is wrong with a file and what it pulls in, in the order of
// files, lines and columns. It is an error where it is not empty.
type Faults []Fault

// Error returns the faults one below the other.
func (f Faults) Error() string {
	texts := make([]string, len(f))
	for i := range f {
		texts[i] = f[i].Error()
	}
	return strings.Join(texts, "\n")
}

// sorted returns the faults by place, each once.
func (f Faults) sorted() Faults {
	slices.SortStableFunc(f, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column),
			cmp.Compare(a.Path, b.Path), cmp.Compare(a.Problem, b.Problem))
	})
	return slices.Compact(f)
}

// mostFaults is how many faults are told at once: with more, it is the wrong file.
const mostFaults = 200

// err returns the faults as an error, nil where there is none.
func (f Faults) err() error {
	if len(f) == 0 {
		return nil
	}
	f = f.sorted()
	if more := len(f) - mostFaults; more > 0 {
		last := f[mostFaults-1]
		f = append(f[:mostFaults:mostFaults], Fault{File: last.File, Line: last.Line, Column: last.Column,
			Problem: fmt.Sprintf("and %d more faults", more), Hint: "is this the right file?"})
	}
	return f
}
