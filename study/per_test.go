package study

import (
	"math"
	"os"
	"testing"

	"foilwright/boatfile"
	"foilwright/fluid"
	"foilwright/trim"
)

// What a figure is worth agrees with solving again with that figure moved in the
// file, for some that weigh on the answer in different ways.
func TestPerAgreesWithSolvingAgain(t *testing.T) {
	const file = "../examples/dinghy/sloe.yaml"
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
	r := trim.Request{WindSpeed: 8, Profile: fluid.OpenSea(), Water: fluid.StandardSea(), Air: fluid.StandardAir(), Starts: 1}
	res, err := trim.Best(t.Context(), b, r, nil)
	if err != nil || res.Answer != trim.Found {
		t.Fatalf("%v, %v", res, err)
	}
	rows := worths(sheet, res)
	if len(rows) < 20 {
		t.Errorf("%d figures are worth something, want more", len(rows))
	}
	checked := 0
	for _, row := range rows {
		if row.Step != "1 kg" && row.Step != "1 %" || checked == 5 {
			continue
		}
		checked++
		size := 1.0
		if row.Step == "1 %" {
			for _, f := range sheet.Figures() {
				if f.Path == row.Figure {
					size = 0.01 * math.Abs(f.Quantity.Likely)
				}
			}
		}
		solved := func(by float64) float64 {
			moved, err := sheet.Nudged(row.Figure, by)
			if err != nil {
				t.Fatal(err)
			}
			res, err := trim.Best(t.Context(), moved, r, nil)
			if err != nil || res.Answer != trim.Found {
				t.Fatalf("%s: %v, %v", row.Figure, res, err)
			}
			return res.Progress().MetresPerSecond()
		}
		got := (solved(size/2) - solved(-size/2))
		t.Logf("%s, %s: %+.6f m/s, by solving again %+.6f", row.Figure, row.Step, row.Gain, got)
		if math.Abs(got-row.Gain) > 0.02*math.Abs(got)+1e-5 {
			t.Errorf("%s, %s: worth %+.6f m/s, by solving again %+.6f", row.Figure, row.Step, row.Gain, got)
		}
	}
	if checked < 3 {
		t.Errorf("%d figures were checked", checked)
	}
}
