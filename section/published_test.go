package section

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"foilwright/accuracy"
)

// published returns the values of each row of a file in testdata/published, by
// the row's id; what is not a number is NaN. Commas, semicolons and blanks part values.
func published(t testing.TB, file string) map[string][]float64 {
	t.Helper()
	values := map[string][]float64{}
	for _, row := range publishedRows(t, file) {
		text := strings.NewReplacer("−", "-", "≈", "", "°", "", "/", " ", ";", " ", ",", " ", "(", " ", ")", " ").Replace(row[3])
		for _, field := range strings.Fields(text) {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil {
				v = math.NaN()
			}
			values[row[0]] = append(values[row[0]], v)
		}
	}
	return values
}

// figure is one of the figures of a published row, and what it is told as.
type figure struct {
	file, id   string
	part       int // which of the row's figures, from zero
	quantity   string
	conditions string // in place of the row's own
	unit       string // in place of the row's own
}

// held checks what is computed against the figure, and notes both.
func held(t testing.TB, f figure, got, tolerance float64) {
	t.Helper()
	accuracy.Check(t, f.row(published(t, f.file)[f.id][f.part], got, tolerance))
}

func (f figure) row(want, got, tolerance float64) accuracy.Row {
	return accuracy.Row{
		File: f.file, ID: f.id, Quantity: f.quantity, Conditions: f.conditions, Unit: f.unit,
		Published: want, Computed: got, Tolerance: tolerance,
	}
}

func publishedRows(t testing.TB, file string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "published", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// near fails where got lies further than tolerance from want, or is not a number.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.8g, want %.8g within %.2g (off by %.2g)", what, got, want, tolerance, got-want)
	}
}

func mustParse(t testing.TB, name string) Section {
	t.Helper()
	s, err := Parse(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// openData returns a file of the open data sets; where it is missing the test is
// skipped, unless FOILWRIGHT_NEEDS asks for data.
func openData(t testing.TB, name string) *os.File {
	t.Helper()
	root := os.Getenv("FOILWRIGHT_DATA")
	if root == "" {
		root = filepath.Join("..", "..", "shared", "data")
	}
	f, err := os.Open(filepath.Join(root, name))
	if errors.Is(err, fs.ErrNotExist) && !strings.Contains(os.Getenv("FOILWRIGHT_NEEDS"), "data") {
		t.Skipf("the open data set %s is not here; set FOILWRIGHT_DATA to its folder", name)
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func fromData(t testing.TB, file string) Section {
	t.Helper()
	s, err := FromCoordinates(strings.TrimSuffix(file, ".dat"), openData(t, filepath.Join("airfoils", file)))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// zones reads the tables of a data file in which each "zone" line opens one.
func zones(t testing.TB, f *os.File, columns int) [][][]float64 {
	t.Helper()
	text, err := os.ReadFile(f.Name())
	if err != nil {
		t.Fatal(err)
	}
	var all [][][]float64
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "zone") {
			all = append(all, nil)
			continue
		}
		fields := strings.Fields(line)
		if len(fields) != columns || len(all) == 0 {
			continue
		}
		row := make([]float64, columns)
		for i, field := range fields {
			if row[i], err = strconv.ParseFloat(field, 64); err != nil {
				t.Fatal(fmt.Errorf("%s: %w", f.Name(), err))
			}
		}
		all[len(all)-1] = append(all[len(all)-1], row)
	}
	return all
}
