package accuracy

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Row is one outside value beside the one computed.
//
// Where File is given, its line ID says what is left blank here of quantity,
// conditions, unit, source, evidence and asked tolerance.
type Row struct {
	File       string  `json:"file,omitempty"`  // in testdata/published of the package under test
	ID         string  `json:"id"`              // the line in File, as "4.52"
	Topic      int     `json:"topic,omitempty"` // where ID does not begin with it
	Quantity   string  `json:"quantity"`
	Conditions string  `json:"conditions"`
	Unit       string  `json:"unit"`   // of all three figures
	Source     string  `json:"source"` // author and year or document
	Evidence   string  `json:"evidence"`
	Asked      string  `json:"asked,omitempty"` // the published file's tolerance, in its words
	Published  float64 `json:"published"`
	Computed   float64 `json:"computed"`
	Tolerance  float64 `json:"tolerance"` // that the test holds it to, in Unit
}

// Noted is a row as a test's log has it.
type Noted struct {
	Row
	Package string `json:"package"` // folder under the module's root
	Test    string `json:"test"`    // with its subtests
}

// marker begins a row in a test's log.
const marker = "accuracy row: "

// Check fails the test where the computed value is further from the published
// one than the tolerance, or is no number, and notes the row either way.
func Check(t testing.TB, r Row) {
	t.Helper()
	Note(t, r)
	if !(math.Abs(r.Computed-r.Published) <= r.Tolerance) {
		t.Errorf("row %s, %s, %s: %.9g, published %.9g, off by %.2g, more than %.2g",
			r.ID, r.Quantity, r.Conditions, r.Computed, r.Published, r.Computed-r.Published, r.Tolerance)
	}
}

// Note writes the row to the test's log. It fails the test only where the row's
// file or line is missing.
func Note(t testing.TB, r Row) {
	t.Helper()
	if r.File != "" {
		if err := r.fill(filepath.Join("testdata", "published", r.File)); err != nil {
			t.Error(err)
			return
		}
	}
	folder, err := os.Getwd()
	if err != nil {
		t.Error(err)
		return
	}
	text, err := json.Marshal(Noted{Row: r, Package: filepath.Base(folder), Test: t.Name()})
	if err != nil {
		t.Errorf("row %s: %v", r.ID, err) // a figure that is no number
		return
	}
	t.Log(marker + string(text))
}

// fill takes from the published file what the row leaves blank. Its first
// column is the line's id; "as above" stands for what the line before says.
func (r *Row) fill(file string) error {
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return err
	}
	above := make([]string, len(lines[0]))
	for _, line := range lines[1:] {
		for i, cell := range line {
			if cell != "as above" {
				above[i] = cell
			}
		}
		if line[0] != r.ID {
			continue
		}
		for i, column := range lines[0] {
			r.take(column, above[i])
		}
		return nil
	}
	return fmt.Errorf("%s has no line %s", file, r.ID)
}

func (r *Row) take(column, cell string) {
	for _, c := range []struct {
		column string
		into   *string
	}{
		{"quantity", &r.Quantity}, {"conditions", &r.Conditions}, {"unit", &r.Unit},
		{"source", &r.Source}, {"evidence", &r.Evidence}, {"tolerance", &r.Asked},
	} {
		if c.column == column && *c.into == "" {
			*c.into = cell
		}
	}
}

// Parse returns the rows that a log of tests holds, in its order.
func Parse(log string) ([]Noted, error) {
	var rows []Noted
	for line := range strings.Lines(log) {
		_, text, found := strings.Cut(line, marker)
		if !found {
			continue
		}
		var r Noted
		if err := json.Unmarshal([]byte(text), &r); err != nil {
			return nil, fmt.Errorf("%q: %w", strings.TrimSpace(line), err)
		}
		rows = append(rows, r)
	}
	return rows, nil
}
