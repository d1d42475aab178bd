package section

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"foilwright/si"
)

// Bounds of drag tables that are read.
const (
	mostTableBytes = 1 << 20
	mostTableRows  = 20000
	mostFaults     = 20
	closest        = 1e-5 // lift, radian, share of a Reynolds number
)

// column is what a column of a drag table holds, with the bounds of its values
// in the file's own unit.
type column struct {
	heading     string
	least, most float64
	toSI        float64
}

// Columns by their place in a row: the three variables, then drag.
const (
	liftColumn = iota
	reynoldsColumn
	flapColumn
	dragColumn
	columnCount
)

// columnOf returns the place of a heading and what stands under it.
func columnOf(heading string) (int, column, error) {
	switch strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(heading), "_", " ")), " ") {
	case "lift":
		return liftColumn, column{"lift", -10, 10, 1}, nil
	case "reynolds":
		return reynoldsColumn, column{"reynolds", 1e3, 1e10, 1}, nil
	case "flap deg":
		return flapColumn, column{"flap deg", -90, 90, float64(si.Degree)}, nil
	case "flap rad":
		return flapColumn, column{"flap rad", -math.Pi / 2, math.Pi / 2, 1}, nil
	case "drag":
		return dragColumn, column{"drag", 1e-6, 10, 1}, nil
	}
	return 0, column{}, fmt.Errorf("column %q is not known\nhint: the columns are lift, reynolds, drag and perhaps flap deg or flap rad", heading)
}

// tableReader gathers rows and faults.
type tableReader struct {
	name    string
	csv     *csv.Reader
	columns []column // as in the file
	places  []int    // of the file's columns
	rows    [][columnCount]float64
	lines   []int
	faults  []error
}

// ReadDragTable reads a section's profile drag from comma- or
// semicolon-separated values. The first line names the columns, in any order:
// lift and drag, coefficients on the chord; reynolds, on the chord; and, if the
// table has flap angles, one of flap deg and flap rad, positive trailing edge
// towards the lower side. Every lift must stand with every Reynolds number and
// flap angle once, in any order: a full grid of at least two lifts. Lines that
// begin with # are left out.
//
// Every fault is told in one pass, up to 20, as name:line:column: what and what
// would do. A byte of UTF-8 text counts as a column.
func ReadDragTable(name string, r io.Reader) (*DragTable, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostTableBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(text) > mostTableBytes {
		return nil, fmt.Errorf("%s: more than %d bytes of drag table", name, mostTableBytes)
	}
	t := newTableReader(name, strings.TrimPrefix(string(text), "\ufeff"))
	if t.readHeader() {
		t.readRows()
	}
	var values []float64
	var axes [3]axis
	if len(t.faults) == 0 {
		axes, values = t.gridded()
	}
	if len(t.faults) > 0 {
		return nil, t.fault()
	}
	for i := range values {
		values[i] = math.Log(values[i])
	}
	for i, reynolds := range axes[reynoldsColumn] {
		axes[reynoldsColumn][i] = logReynolds(reynolds)
	}
	return &DragTable{Name: name, flapped: slices.Contains(t.places, flapColumn), drags: newGrid(axes, values)}, nil
}

func newTableReader(name, text string) *tableReader {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	r.TrimLeadingSpace = true
	r.FieldsPerRecord = -1
	r.ReuseRecord = true
	header := ""
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			header = line
			break
		}
	}
	if strings.Contains(header, ";") && !strings.Contains(header, ",") {
		r.Comma = ';'
	}
	return &tableReader{name: name, csv: r}
}

// add records a fault, with its place in front; a line of 0 is the whole file.
func (t *tableReader) add(line, column int, err error) {
	switch {
	case line == 0:
		err = fmt.Errorf("%s: %w", t.name, err)
	case column == 0:
		err = fmt.Errorf("%s:%d: %w", t.name, line, err)
	default:
		err = fmt.Errorf("%s:%d:%d: %w", t.name, line, column, err)
	}
	t.faults = append(t.faults, err)
}

func (t *tableReader) fault() error {
	if more := len(t.faults) - mostFaults; more > 0 {
		return errors.Join(append(t.faults[:mostFaults:mostFaults], fmt.Errorf("%s: %d more faults", t.name, more))...)
	}
	return errors.Join(t.faults...)
}

// next returns a record; nil at the end. What is no CSV is a fault, and the end.
func (t *tableReader) next() []string {
	record, err := t.csv.Read()
	var bad *csv.ParseError
	switch {
	case err == nil:
		return record
	case errors.As(err, &bad):
		t.add(bad.Line, bad.Column, bad.Err)
	case !errors.Is(err, io.EOF):
		t.add(0, 0, err)
	}
	return nil
}

// readHeader tells whether the columns are what a table needs.
func (t *tableReader) readHeader() (usable bool) {
	headings := t.next()
	if headings == nil {
		if len(t.faults) == 0 {
			t.add(0, 0, errors.New("no columns\nhint: begin with a line lift,reynolds,drag"))
		}
		return false
	}
	for i, heading := range headings {
		line, at := t.csv.FieldPos(i)
		place, what, err := columnOf(heading)
		if err == nil && slices.Contains(t.places, place) {
			err = fmt.Errorf("a second column for %s", strings.Fields(what.heading)[0])
		}
		if err != nil {
			t.add(line, at, err)
		}
		t.places, t.columns = append(t.places, place), append(t.columns, what)
	}
	if len(t.faults) > 0 {
		return false
	}
	line, _ := t.csv.FieldPos(0)
	for place, heading := range [columnCount]string{"lift", "reynolds", "", "drag"} {
		if heading != "" && !slices.Contains(t.places, place) {
			t.add(line, 0, fmt.Errorf("no column %s\nhint: the columns are lift, reynolds, drag and perhaps flap deg or flap rad", heading))
		}
	}
	return len(t.faults) == 0
}

func (t *tableReader) readRows() {
	for record := t.next(); record != nil; record = t.next() {
		line, _ := t.csv.FieldPos(0)
		if len(t.rows) == mostTableRows {
			t.add(line, 0, fmt.Errorf("more than %d rows", mostTableRows))
			return
		}
		if len(record) != len(t.columns) {
			t.add(line, 0, fmt.Errorf("%d values, the header names %d columns", len(record), len(t.columns)))
			continue
		}
		var row [columnCount]float64
		for i, field := range record {
			v, err := t.columns[i].number(field)
			if err != nil {
				line, at := t.csv.FieldPos(i)
				t.add(line, at, err)
			}
			row[t.places[i]] = v * t.columns[i].toSI
		}
		t.rows, t.lines = append(t.rows, row), append(t.lines, line)
	}
}

// number reads a value in the file's unit.
func (c column) number(field string) (float64, error) {
	field = strings.TrimSpace(field)
	v, err := strconv.ParseFloat(field, 64)
	switch {
	case err != nil && strings.Count(field, ",") == 1:
		return 0, fmt.Errorf("%s: %q is not a number\nhint: write a decimal point", c.heading, field)
	case err != nil:
		return 0, fmt.Errorf("%s: %q is not a number", c.heading, field)
	case !(v >= c.least && v <= c.most):
		return 0, fmt.Errorf("%s: %s, allowed is %.4g to %.4g", c.heading, field, c.least, c.most)
	}
	return v + 0, nil // no negative zero
}

// gridded orders the rows into a full grid.
func (t *tableReader) gridded() (axes [3]axis, values []float64) {
	for d := range axes {
		for _, row := range t.rows {
			axes[d] = append(axes[d], row[d])
		}
		slices.Sort(axes[d])
		axes[d] = slices.Compact(axes[d])
		t.apart(d, axes[d])
	}
	if len(t.faults) > 0 {
		return axes, nil
	}
	if len(axes[liftColumn]) < 2 {
		t.add(0, 0, fmt.Errorf("%d lifts, needed are at least 2", len(axes[liftColumn])))
		return axes, nil
	}
	n, m := len(axes[0]), len(axes[1])
	size := n * m * len(axes[2])
	if size > 2*mostTableRows {
		t.add(0, 0, fmt.Errorf("%d lifts, %d Reynolds numbers and %d flap angles make %d rows, here are %d\nhint: give drag at the same lifts for each Reynolds number and flap angle",
			n, m, len(axes[2]), size, len(t.rows)))
		return axes, nil
	}
	values = make([]float64, size)
	first := make([]int, size) // line of each place, 0 for none yet
	for i, row := range t.rows {
		at := 0
		for d := 2; d >= 0; d-- {
			k, _ := slices.BinarySearch(axes[d], row[d])
			at = at*len(axes[d]) + k
		}
		if first[at] != 0 {
			t.add(t.lines[i], 0, fmt.Errorf("%s stands on line %d already", t.place(row), first[at]))
			continue
		}
		first[at], values[at] = t.lines[i], row[dragColumn]
	}
	for at, line := range first {
		if line == 0 {
			row := [columnCount]float64{axes[0][at%n], axes[1][at/n%m], axes[2][at/n/m]}
			t.add(0, 0, fmt.Errorf("no row for %s: every lift stands with every Reynolds number and flap angle", t.place(row)))
		}
	}
	return axes, values
}

// apart finds places along one variable that differ by what looks like rounding.
func (t *tableReader) apart(d int, places axis) {
	for i := 1; i < len(places); i++ {
		near := closest
		if d == reynoldsColumn {
			near *= places[i]
		}
		if places[i]-places[i-1] < near {
			c := t.columns[slices.Index(t.places, d)]
			t.add(0, 0, fmt.Errorf("%s: %.9g and %.9g are closer than can be told apart\nhint: write them alike", c.heading, places[i-1]/c.toSI, places[i]/c.toSI))
		}
	}
}

// place writes the variables of a row as its file has them.
func (t *tableReader) place(row [columnCount]float64) string {
	var parts []string
	for i, c := range t.columns {
		if t.places[i] != dragColumn {
			parts = append(parts, fmt.Sprintf("%s %.6g", c.heading, row[t.places[i]]/c.toSI))
		}
	}
	return strings.Join(parts, ", ")
}
