package report

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"foilwright/si"
	"foilwright/study"
)

// A sweep's CSV is read back: a name with its unit for each column, numbers that
// are the result's own.
func TestCSV(t *testing.T) {
	r := ask(t, sweeping(study.Stance{Leeway: 1 * si.Degree}, "ride 1 to 3 m by 0.5"), sorrel)
	text, err := CSV(r)
	if err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	points := r.Results.(*study.SweepResult).Points
	if len(lines) != 1+len(points) {
		t.Fatalf("%d lines for %d states", len(lines), len(points))
	}
	cell := func(line int, name string) float64 {
		for i, n := range lines[0] {
			if n == name {
				v, err := strconv.ParseFloat(lines[line][i], 64)
				if err != nil {
					t.Errorf("%s: %v", name, err)
				}
				return v
			}
		}
		t.Errorf("no column %q in %q", name, lines[0])
		return 0
	}
	for i := range points[:4] {
		p := &points[i]
		for name, want := range map[string]float64{
			"ride height (m)": p.Value, "speed (kn)": float64(p.Speed / si.Knot), "leeway + to leeward (deg)": p.Leeway.Degrees(), "lift (N)": p.Forces.Up,
			"side force to windward (N)": p.Forces.Windward, "drag (N)": p.Forces.Drag, "ventilation margin (deg)": p.Ventilation.Degrees(),
			"hinge moment of leeward main (N·m)": p.Hinges[0].Moment, "line of action to leeward (m)": *p.LineLeeward,
		} {
			if got := cell(1+i, name); math.Abs(got-want) > 5.1e-6*math.Abs(want)+1e-9 { // six digits
				t.Errorf("%s: %v, want %v", name, got, want)
			}
		}
	}
	if last := strings.Join(lines[5], ","); !strings.HasSuffix(last, ",nothing is in the water") || strings.Contains(last, "none") {
		t.Errorf("a dry state is %q", last)
	}
	if _, err := CSV(ask(t, &study.Check{}, sorrel)); err == nil {
		t.Error("what is no sweep was written as CSV")
	}
}

// A plot keeps to a hundred columns; its axis runs over the sweep and its
// figures.
func TestPlot(t *testing.T) {
	r := ask(t, sweeping(study.Stance{}, "cant 8 to 22 deg by 2"), sorrel)
	page, err := Plot(r, []string{"lift", "cav", "hinge", "waves"})
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(page, "\n") {
		if n := utf8.RuneCountInString(line); n > 100 {
			t.Errorf("%d columns: %s", n, line)
		}
	}
	for _, want := range []string{"\nlift, kN\n", "\ncavitation margin\n", "\nhinge moment of leeward main, N·m\n", "leeward main cant, deg\n", "8.0 ", "22.0"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page has no %q", want)
		}
	}
}

func TestTickStep(t *testing.T) {
	for _, c := range []struct{ low, high, want float64 }{{0, 10, 1}, {20.2, 21.6, 0.1}, {0, 29, 5}, {-1e-3, 1e-3, 2e-4}, {3, 3, 0.5}, {0, 0, 0.1}} {
		if got := tickStep(c.low, c.high); math.Abs(got-c.want) > 1e-9*c.want {
			t.Errorf("%v to %v in steps of %v, want %v", c.low, c.high, got, c.want)
		}
	}
}
