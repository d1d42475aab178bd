package polar

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"foilwright/si"
	"foilwright/trim"
)

// tableHolds checks a table against the polar that it comes from: figures stand
// under a unit and words under none, every row is full, every point is told.
func tableHolds(t *testing.T, r *Result) {
	t.Helper()
	columns, rows := r.Table()
	units := []string{"m/s", "rad", "m", "1", ""}
	var names []string
	for _, c := range columns {
		names = append(names, c.Name)
		if !slices.Contains(units, c.Unit) {
			t.Errorf("column %s is in %q", c.Name, c.Unit)
		}
	}
	slices.Sort(names)
	if len(slices.Compact(names)) != len(columns) {
		t.Errorf("a column stands twice: %v", columns)
	}
	points, asked := 0, 0
	for i := range r.Winds {
		points += len(r.Winds[i].Points)
	}
	for _, row := range rows {
		if len(row) != len(columns) {
			t.Fatalf("%d cells under %d columns", len(row), len(columns))
		}
		for k, c := range columns {
			if c.Unit == "" && row[k].Figure != nil || c.Unit != "" && row[k].Words != "" {
				t.Errorf("column %s in %q holds %+v", c.Name, c.Unit, row[k])
			}
		}
		if row[2].Words == "asked" {
			asked++
		}
	}
	if asked != points {
		t.Errorf("%d rows for %d points", asked, points)
	}
}

// written puts a row's cells beside one another.
func written(row []Cell) string {
	var cells []string
	for _, c := range row {
		text := c.Words
		if c.Figure != nil {
			text = strconv.FormatFloat(*c.Figure, 'g', 6, 64)
		}
		cells = append(cells, text)
	}
	return strings.Join(cells, "|")
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
	tableHolds(t, port)
	columns, rows := port.Table()
	for k, want := range []string{
		"6|0.349066|asked|none||||||||||||drive is short|",
		"6|0.785398|asked|found|sailing|main alone|9|6.4|0|0|0.02|-0.3|0|0|tip depth (lower); helm y (upper)||0.4",
		"6||best to windward|none||||||||||||drive is short|",
		"6||best to leeward|none||||||||||||drive is short|",
		"6|1|crossover|found|a|c|8|||||||||below it a, b|",
	} {
		if got := written(rows[k]); got != want {
			t.Errorf("row %d: %s, want %s", k, got, want)
		}
	}
	if last := columns[len(columns)-1]; last != (Column{"leeward main cant", "rad"}) {
		t.Errorf("last column %v", last)
	}
	point.Heel, point.Leeway = 0.3, -0.02
	starboard := &Result{WindFrom: "starboard", Winds: []Wind{{Speed: 6, Points: []Point{none, point}, Windward: Best{Point: none}, Leeward: Best{Point: none}}}}
	if _, mirrored := starboard.Table(); written(mirrored[1]) != written(rows[1]) {
		t.Errorf("from starboard %s, from port %s", written(mirrored[1]), written(rows[1]))
	}
}
