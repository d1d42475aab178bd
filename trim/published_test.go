package trim

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// numbers returns the values of one row of a file in testdata/published.
func numbers(t testing.TB, file, id string) []float64 {
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
	var values []float64
	for _, row := range rows {
		if row[0] != id {
			continue
		}
		for text := range strings.SplitSeq(row[3], ";") {
			v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
			if err != nil {
				t.Fatalf("%s, row %s: %v", file, id, err)
			}
			values = append(values, v)
		}
	}
	if len(values) == 0 {
		t.Fatalf("%s has no row %s", file, id)
	}
	return values
}
