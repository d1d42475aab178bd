package lattice

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"foilwright/accuracy"
)

// published returns the figures of one row of testdata/published, in the order
// in which the row lists them.
func published(t *testing.T, file, id string) []float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", "published", file+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		if row[0] == id {
			return figures(t, row[3])
		}
	}
	t.Fatalf("%s has no row %s", file, id)
	return nil
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
func held(t *testing.T, f figure, got, tolerance float64) {
	t.Helper()
	accuracy.Check(t, accuracy.Row{
		File: f.file + ".csv", ID: f.id, Quantity: f.quantity, Conditions: f.conditions, Unit: f.unit,
		Published: published(t, f.file, f.id)[f.part], Computed: got, Tolerance: tolerance,
	})
}

// figures reads the numbers of a list parted by semicolons or commas; a label
// before a colon is not a figure.
func figures(t *testing.T, list string) []float64 {
	t.Helper()
	var out []float64
	for _, part := range regexp.MustCompile(`\s*[;,]\s*`).Split(list, -1) {
		part = regexp.MustCompile(`^.*:\s*`).ReplaceAllString(part, "")
		v, err := strconv.ParseFloat(part, 64)
		if err != nil {
			v = math.NaN() // a dash where the source gives none
		}
		out = append(out, v)
	}
	return out
}

// near fails unless got is within the tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) <= tolerance {
		t.Logf("%s: %.6f, published %.6f, off by %.2g", what, got, want, got-want)
		return
	}
	t.Errorf("%s: %.6f, published %.6f, off by %.2g, more than %.2g", what, got, want, got-want, tolerance)
}
