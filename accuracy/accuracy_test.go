package accuracy

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const example = `id,quantity,conditions,value,unit,tolerance,source,evidence
9.01,width,at noon,1,m,0.1,Nobody 1900,derived
9.02,height,at noon,2,m,0.2,as above,derived
`

// recorder is a test that keeps what is said to it.
type recorder struct {
	testing.TB
	log    strings.Builder
	failed int
}

func (r *recorder) Helper()      {}
func (r *recorder) Name() string { return "TestIt/deep" }
func (r *recorder) Log(a ...any) { fmt.Fprintln(&r.log, a...) }
func (r *recorder) Error(...any) { r.failed++ }

func (r *recorder) Errorf(string, ...any) { r.failed++ }

// What is checked comes back from the log, filled from the published file; a
// value too far off fails, and so does one that is no number or has no line.
func TestCheckAndParse(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "accuracy")
	if err := os.MkdirAll(filepath.Join(folder, "testdata", "published"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "testdata", "published", "example.csv"), []byte(example), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Chdir(folder)
	r := &recorder{}
	row := Row{File: "example.csv", ID: "9.02", Published: 2, Computed: 2.1, Tolerance: 0.2}
	Check(r, row)
	if r.failed != 0 {
		t.Errorf("a value within its tolerance fails:\n%s", &r.log)
	}
	rows, err := Parse("=== RUN TestIt\n    x_test.go:7: " + r.log.String() + "--- PASS: TestIt\n")
	if err != nil || len(rows) != 1 {
		t.Fatalf("%d rows, error %v", len(rows), err)
	}
	want := Row{
		File: "example.csv", ID: "9.02", Quantity: "height", Conditions: "at noon", Unit: "m",
		Source: "Nobody 1900", Evidence: "derived", Asked: "0.2", Published: 2, Computed: 2.1, Tolerance: 0.2,
	}
	if got := rows[0]; got.Row != want || got.Package != "accuracy" || got.Test != "TestIt/deep" {
		t.Errorf("the log gives %+v", got)
	}
	for _, wrong := range []Row{
		{ID: "1", Published: 2, Computed: 2.3, Tolerance: 0.2},
		{ID: "1", Published: 2, Computed: math.NaN(), Tolerance: 0.2},
		{File: "example.csv", ID: "9.99"},
		{File: "missing.csv", ID: "9.01"},
	} {
		r := &recorder{}
		Check(r, wrong)
		if r.failed == 0 {
			t.Errorf("%+v passes", wrong)
		}
	}
	if _, err := Parse(marker + "{"); err == nil {
		t.Error("half a row is read")
	}
}

func TestShown(t *testing.T) {
	for _, c := range []struct {
		value, tolerance float64
		want             string
	}{
		{1.56173, 2e-4, "1.5617"}, {0.00817, 3e-4, "0.0082"}, {1.51822e-6, 1.5e-9, "1.518e-06"}, {-3.6476, 0.005, "-3.648"},
		{2338.96, 0.5, "2339.0"}, {1234.6, 20, "1235"}, {-1e-9, 1e-4, "0"}, {2, 0, "2"}, {0.1, 0.1, "0.1"}, {1e-7, 1e-4, "0"}, {0.002832, 1e-6, "0.002832"},
	} {
		if got := shown(c.value, c.tolerance); got != c.want {
			t.Errorf("%g to %g is shown as %s, want %s", c.value, c.tolerance, got, c.want)
		}
	}
	if s := (&Row{Tolerance: 2e-4}).Step(); math.Abs(s-1e-4) > 1e-12 {
		t.Errorf("the last digit of 2e-4 is %g", s)
	}
	if got := Number(0.001 * 1.51822e-6); got != "1.51822e-09" {
		t.Errorf("a tolerance is written %s", got)
	}
}
