package study

import (
	"math"
	"os"
	"testing"

	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/si"
	"foilwright/trim"
)

// What a figure is worth agrees with solving again with that figure moved in the
// file, for figures of every kind that weigh most on the answer, of a boat of each kind.
func TestPerAgreesWithSolvingAgain(t *testing.T) {
	if testing.Short() {
		t.Skip("many trims from all starts take long: left out in short runs")
	}
	for _, c := range []struct {
		file         string
		knots, angle float64 // deg; 0 for best progress to windward
	}{
		{"../examples/dinghy/sloe.yaml", 15.5, 0},
		{"../examples/which-foil/sorrel.yaml", 17, 0},
		{"../examples/catamaran/bramble.yaml", 16, 0},
		{"../examples/keelboat/guelder.yaml", 20, 120},
	} {
		t.Run(c.file, func(t *testing.T) { perAgrees(t, c.file, c.knots, c.angle) })
	}
}

func perAgrees(t *testing.T, file string, knots, angle float64) {
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := boatfile.Read(file, text, os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	b, err := sheet.Boat(nil)
	if err != nil {
		t.Fatal(err)
	}
	r := trim.Request{WindSpeed: si.Speed(knots) * si.Knot, Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir()}
	if angle > 0 {
		r.Aim, r.WindAngle = trim.AtAngle, si.Angle(angle)*si.Degree
	}
	res, err := trim.Best(t.Context(), b, r, nil)
	if err != nil || res.Answer != trim.Found {
		t.Fatalf("%v, %v", res, err)
	}
	rows, err := worths(t.Context(), sheet, res)
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 20 {
		t.Errorf("%d figures are worth something, want more", len(rows))
	}
	r.From, r.Starts = res, trim.OnlyFrom
	// solved is not ok for a figure that cannot be moved that way: a mass below 0.
	solved := func(figure string, by float64) (progress float64, ok bool) {
		moved, err := sheet.Nudged(figure, by)
		if err != nil {
			return 0, false
		}
		res, err := trim.Best(t.Context(), moved, r, nil)
		if err != nil || res.Answer != trim.Found {
			t.Fatalf("%s: %v, %v", figure, res, err)
		}
		return res.Progress().MetresPerSecond(), true
	}
	checked := map[string]int{}
	for _, row := range rows {
		if checked[row.Step] == 3 {
			continue
		}
		// A tenth of a step either side: what a figure is worth is a slope.
		size := 0.1 * map[string]float64{"1 kg": 1, "1 mm": 1e-3, "1 deg": si.Degree.Radians()}[row.Step]
		if row.Step == "1 %" {
			for _, f := range sheet.Figures() {
				if f.Path == row.Figure {
					size = 1e-3 * math.Abs(f.Quantity.Likely)
				}
			}
		}
		more, ok1 := solved(row.Figure, size/2)
		less, ok2 := solved(row.Figure, -size/2)
		if !ok1 || !ok2 {
			continue
		}
		checked[row.Step]++
		got := 10 * (more - less)
		t.Logf("%s, %s: %+.6f m/s, by solving again %+.6f", row.Figure, row.Step, row.Gain, got)
		if math.Abs(got-row.Gain) > 0.02*math.Abs(got)+1e-5 {
			t.Errorf("%s, %s: worth %+.6f m/s, by solving again %+.6f", row.Figure, row.Step, row.Gain, got)
		}
	}
	if len(checked) < 3 {
		t.Errorf("figures of %d kinds were checked, want three at least of masses, lengths, angles and shares", len(checked))
	}
}
