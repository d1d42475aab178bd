package fluid

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// published returns the values of each row of a file in testdata/published, by
// the row's id; where a value is left blank, or is not a number, it is NaN.
func published(t *testing.T, file string) map[string][]float64 {
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
	values := map[string][]float64{}
	for _, row := range rows[1:] {
		for text := range strings.SplitSeq(row[3], ";") {
			text = strings.TrimSpace(strings.ReplaceAll(text, "−", "-"))
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				v = math.NaN()
			}
			values[row[0]] = append(values[row[0]], v)
		}
	}
	return values
}

// near fails where got lies further than tolerance from want, or is not a number.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.8g, want %.8g within %.2g (off by %.2g)", what, got, want, tolerance, got-want)
	}
}
