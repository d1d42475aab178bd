package figure

import (
	"strings"
	"testing"

	"foilwright/polar"
	"foilwright/quantity"
	"foilwright/si"
)

// A chart in SI says metres a second and newtons wherever one of the trade says knots
// and kilonewtons, and both place their marks by the same physics.
func TestChartsInBothUnits(t *testing.T) {
	up := point(48, 13.5)
	r := answer(&polar.Result{Boat: "Spindle", WindFrom: "port", Winds: []polar.Wind{{Speed: 6, Points: []polar.Point{point(50, 14), point(70, 16)},
		Windward: polar.Best{Point: up, From: &polar.BandEnd{Angle: 45 * si.Degree}, To: &polar.BandEnd{Angle: 51 * si.Degree}}}}})
	trade, err := In(quantity.Trade, Polar, r)
	if err != nil {
		t.Fatal(err)
	}
	metric, err := In(quantity.SI, Polar, r)
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range append([]string{metric.Title, metric.Under, metric.Summary, metric.Angles.Axis}, metric.Table.Head...) {
		if strings.Contains(text, "kn") {
			t.Errorf("in SI: %q", text)
		}
	}
	knots, metres := trade.Angles.Winds[0].Runs[0][0].Speed, metric.Angles.Winds[0].Runs[0][0].Speed
	if got := metres / knots; got < 0.514 || got > 0.515 {
		t.Errorf("a speed of %g kn is shown as %g m/s", knots, metres)
	}
}
