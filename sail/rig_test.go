package sail

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"foilwright/boat"
	"foilwright/fluid"
	"foilwright/frame"
	"foilwright/si"
)

// published returns the values of each row of a file in testdata/published, by
// the row's id; what is not a number is left out.
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
		for _, text := range strings.FieldsFunc(row[3], func(r rune) bool { return r == ';' || r == ',' || r == ' ' || r == '=' }) {
			if v, err := strconv.ParseFloat(text, 64); err == nil {
				values[row[0]] = append(values[row[0]], v)
			}
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

// The controls of the test boat, and its sets.
const (
	mainSheet = iota
	mainTwist
	jibSheet
	jibTwist
	crewAcross

	mainAlone  = 0
	mainAndJib = 1
	barePoles  = -1
)

// testRig returns an invented boat with a main, a jib and two windages.
func testRig(t testing.TB) *boat.Boat {
	t.Helper()
	pick := func(name string) boat.SailCoefficients {
		c, err := Coefficients(name)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	controls := make([]boat.Control, 5)
	for i, name := range []string{"main sheet", "main twist", "jib sheet", "jib twist", "crew across"} {
		controls[i] = boat.Control{Name: name, Lower: -1, Upper: 1}
	}
	b := &boat.Boat{
		Name: "Test", Length: 12, Controls: controls, Model: boat.Defaults(),
		Weights: []boat.Weight{{
			Name: "crew", Mass: 500, At: frame.Point[frame.Boat]{X: -3.4, Z: 1.1},
			Shift: [3]int{-1, crewAcross, -1}, Swing: boat.Move{Control: -1},
		}},
		Sails: []boat.Sail{
			{
				Name: "main", Luff: 17.2, Foot: 5, Area: 66, Tack: frame.Point[frame.Boat]{X: -0.15, Z: 2.05},
				Coefficients: pick("fully battened main"), Sheet: mainSheet, Twist: mainTwist, Flatten: -1,
			},
			{
				Name: "jib", Luff: 13.4, Foot: 3.6, Area: 27, Tack: frame.Point[frame.Boat]{X: 4.9, Z: 1.25},
				Lean: 15 * si.Degree, Coefficients: pick("jib"), Sheet: jibSheet, Twist: jibTwist, Flatten: -1,
			},
		},
		Sets: []boat.Set{{Name: "main alone", Sails: []int{0}}, {Name: "working", Sails: []int{0, 1}}},
		Windages: []boat.Windage{
			{Name: "mast", Area: 7, Coefficient: 0.35, Bottom: frame.Point[frame.Boat]{Z: 1}, Top: frame.Point[frame.Boat]{Z: 19.6}, Follows: -1},
			{Name: "crew", Area: 2, Coefficient: 0.9, Bottom: frame.Point[frame.Boat]{X: -3.4, Z: 0.8}, Top: frame.Point[frame.Boat]{X: -3.4, Z: 1.6}, Follows: 0},
		},
	}
	if err := Check(b); err != nil {
		t.Fatal(err)
	}
	return b
}

// flying returns a state of the test boat, and its wind: port tack, 17 kn.
func flying() (boat.State, fluid.Wind) {
	return boat.State{
		Speed:    28 * si.Knot,
		Attitude: boat.Attitude{Heel: -2 * si.Degree, Pitch: 0.5 * si.Degree, Leeway: 1 * si.Degree, Height: 0.8},
		Settings: []float64{0.16, 0.10, 0.14, 0.08, 0.9},
	}, fluid.Wind{Speed: 17 * si.Knot, Angle: 48 * si.Degree, Profile: fluid.OpenSea()}
}

// sum returns the resultant of items about the track's origin: of one cause, or
// of all where causes is empty.
func sum(items []boat.Item, causes ...boat.Cause) frame.Load[frame.Track] {
	var total frame.Load[frame.Track]
	for _, i := range items {
		wanted := len(causes) == 0
		for _, c := range causes {
			wanted = wanted || i.Cause == c
		}
		if wanted {
			total = total.Plus(i.Load)
		}
	}
	return total
}

// totals returns lift and induced drag of all sails.
func totals(reports []Report) (lift, induced float64) {
	for _, r := range reports {
		lift += r.Lift
		induced += r.InducedDrag
	}
	return lift, induced
}
