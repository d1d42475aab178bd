package polar

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"foilwright/si"
	"foilwright/trim"
)

// words are the columns that hold no figures.
var words = []string{"row", "answer", "mode", "set", "active_limits", "note"}

var withUnit = regexp.MustCompile(`_(mps|rad|m)$`)

// tableHolds checks a table against the polar that it comes from: every column of
// figures names its unit, every row is full, figures read back to the same bits.
func tableHolds(t *testing.T, r *Result) {
	t.Helper()
	header, rows := r.Table()
	if len(slices.Compact(slices.Sorted(slices.Values(header)))) != len(header) {
		t.Errorf("a column stands twice: %v", header)
	}
	points := 0
	for i := range r.Winds {
		points += len(r.Winds[i].Points)
	}
	asked := 0
	for _, row := range rows {
		if len(row) != len(header) {
			t.Fatalf("%d cells under %d columns: %v", len(row), len(header), row)
		}
		for k, name := range header {
			switch {
			case slices.Contains(words, name):
			case !withUnit.MatchString(name):
				t.Errorf("column %s names no unit", name)
			case row[k] != "":
				if _, err := strconv.ParseFloat(row[k], 64); err != nil {
					t.Errorf("column %s: %v", name, err)
				}
			}
		}
		if row[2] == "asked" {
			asked++
		}
	}
	if asked != points {
		t.Errorf("%d rows for %d points", asked, points)
	}
}

// With the wind from starboard the same sailing is the same table.
func TestTableByTheWind(t *testing.T) {
	point := Point{
		Angle: 45 * si.Degree, Answer: trim.Found, Way: Way{"sailing", "main alone"}, Speed: 9, VMG: 6.4, Heel: -0.3, Leeway: 0.02,
		Controls: []trim.Setting{
			{Name: "starboard main cant", Called: "leeward main cant", Value: 0.4, Unit: "rad", State: "free"},
			{Name: "port main flap", Called: "windward main flap", Value: 0.1, Unit: "rad", State: notInUse},
		},
		Active: []Active{{"tip depth", 0.03, "m", LowerEnd}, {"helm y", 1.45, "m", UpperEnd}},
	}
	none := Point{Angle: 20 * si.Degree, Answer: trim.NoAnswer, Speed: 3, Reason: &trim.Reason{Words: "drive is short"}}
	port := &Result{WindFrom: "port", Winds: []Wind{{Speed: 6, Points: []Point{none, point}, Windward: Best{Point: none}, Leeward: Best{Point: none},
		Crossovers: []Crossover{{Angle: 1, Below: Branch{Way{"a", "b"}, 8}, Above: Branch{Way{"a", "c"}, 8}}}}}}
	header, rows := port.Table()
	tableHolds(t, port)
	want := []string{"6", "0.7853981633974483", "asked", "found", "sailing", "main alone", "9", "6.4", "0", "0", "0.02", "-0.3", "0", "0",
		"tip depth (lower); helm y (upper)", "", "0.4"}
	if got := rows[1]; !slices.Equal(got, want) {
		t.Errorf("row %q, want %q", got, want)
	}
	if last := header[len(header)-1]; last != "leeward_main_cant_rad" {
		t.Errorf("last column %s", last)
	}
	if got := strings.Join(rows[0], ","); got != "6,0.3490658503988659,asked,none,,,,,,,,,,,,drive is short," {
		t.Errorf("row without an answer: %s", got)
	}
	if got := strings.Join(rows[4], ","); got != "6,1,crossover,found,a,c,8,,,,,,,,,below it a, b," {
		t.Errorf("row of a crossover: %s", got)
	}
	point.Heel, point.Leeway = 0.3, -0.02
	starboard := &Result{WindFrom: "starboard", Winds: []Wind{{Speed: 6, Points: []Point{none, point}, Windward: Best{Point: none}, Leeward: Best{Point: none}}}}
	if _, mirrored := starboard.Table(); !slices.Equal(mirrored[1], rows[1]) {
		t.Errorf("from starboard %q, from port %q", mirrored[1], rows[1])
	}
}
