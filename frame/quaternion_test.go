package frame

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"foilwright/accuracy"
	"foilwright/si"
)

// The rotation from boat to track of a leeway of 30°, a pitch of 10° and a heel of
// 20°, as a quaternion (Hamilton 1843): w is half the root of one plus the trace,
// the vector part the antisymmetric part over 4w.
func TestRotationAsQuaternion(t *testing.T) {
	m := TrackFromBoat(30*si.Degree, 10*si.Degree, 20*si.Degree).Matrix()
	w := math.Sqrt(1+m[0][0]+m[1][1]+m[2][2]) / 2
	got := [4]float64{w, (m[2][1] - m[1][2]) / (4 * w), (m[0][2] - m[2][0]) / (4 * w), (m[1][0] - m[0][1]) / (4 * w)}
	want := quaternionRow(t)
	for i, name := range []string{"w", "x", "y", "z"} {
		accuracy.Check(t, accuracy.Row{
			File: "hamilton-1843.csv", ID: "7.11", Quantity: "quaternion of boat to track, " + name, Unit: "-",
			Published: want[i], Computed: got[i], Tolerance: 1e-7,
		})
	}
}

// quaternionRow returns the four values of the published row.
func quaternionRow(t *testing.T) []float64 {
	t.Helper()
	f, err := os.Open("testdata/published/hamilton-1843.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var values []float64
	for text := range strings.SplitSeq(rows[1][3], ";") {
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		if err != nil {
			t.Fatal(err)
		}
		values = append(values, v)
	}
	return values
}
