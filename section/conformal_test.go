package section

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
	"foilwright/si"
)

// Pressure peaks from 4 to 25 % of thickness, with cusped and with open tails,
// against the map itself: within 1 % by the panels that tables are made of, though
// a thin nose at 8° has a peak of 26 dynamic pressures.
func TestPeaksThinAndThick(t *testing.T) {
	for _, c := range []conformal{{-0.03, 2}, {-0.03, 2 - 12.0/180}, {-0.05, 2}, {-0.1, 2 - 12.0/180}, {-0.15, 2}, {-0.2, 2 - 12.0/180}} {
		s := c.section(t)
		f := mustFlow(t, s, Flap{}, PanelCount)
		for _, degrees := range []float64{0, 4, 8} {
			angle := si.Angle(degrees) * si.Degree
			exact := math.Round(1e5*c.peak(angle.Radians())) / 1e5
			accuracy.Check(t, accuracy.Row{
				ID: "5.34", Quantity: "pressure peak of a Kármán–Trefftz section", Unit: "-",
				Conditions: fmt.Sprintf("t/c=%.3f, tail of %.0f°, at %g°, %d panels", s.Thickness, 180*(2-c.kappa), degrees, PanelCount),
				Source:     "exact conformal map", Evidence: "derived", Published: exact, Computed: f.Peak(angle), Tolerance: 0.01 * -exact,
			})
		}
	}
}
