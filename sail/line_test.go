package sail

import (
	"fmt"
	"math"
	"testing"

	"foilwright/accuracy"
)

// The lifting line itself, at more strips than a boat's, against the converged
// series at the tolerances that the rows ask (Glauert 1926). A sum over strips
// closes on its integral with the square of their number, so that two numbers
// give the elliptic wing's slope and centroid without strips.
func TestLiftingLineConverges(t *testing.T) {
	want := published(t, "lifting-line.csv")
	check := func(id, quantity, conditions string, part int, got, tolerance float64) {
		accuracy.Check(t, accuracy.Row{
			File: "lifting-line.csv", ID: id, Quantity: quantity, Conditions: conditions, Unit: "-",
			Published: want[id][part], Computed: got, Tolerance: tolerance,
		})
	}
	for i, aspect := range []float64{6, 10} {
		var slope, centre [2]float64
		for k, strips := range []int{256, 512} {
			w := wing(strips, far, far+1, func(s float64) float64 { return 8 / (math.Pi * aspect) * math.Sqrt(s*(1-s)) })
			lift, _, circulation := flown(t, w, even)
			slope[k], centre[k] = lift*aspect, centroid(w, circulation)
		}
		conditions := fmt.Sprintf("elliptic wing, A=%g, from 256 and 512 strips", aspect)
		check("3.01", "lift slope of an elliptic wing", conditions, i, (4*slope[1]-slope[0])/3, 1e-6)
		check("3.14", "half-span centroid of the load", conditions, 0, (4*centre[1]-centre[0])/3, 1e-6)
	}
	for _, c := range []struct {
		id     string
		aspect float64
		skip   int
	}{{"3.02", math.Pi, 0}, {"3.03", 1.5 * math.Pi, 0}, {"3.05", 2.5 * math.Pi, 0}, {"3.07", 3.5 * math.Pi, 0}, {"3.08", 4, 1}, {"3.10", 8, 1}, {"3.11", 10, 1}} {
		lift, e, _ := flown(t, wing(128, far, far+1, func(float64) float64 { return 1 / c.aspect }), even)
		slope := lift * c.aspect
		conditions := fmt.Sprintf("A=%.4g, 128 strips", c.aspect)
		check(c.id, "rectangular lifting line, τ", conditions, c.skip, (liftSlope/slope-1)*math.Pi*c.aspect/liftSlope-1, 2e-4)
		check(c.id, "rectangular lifting line, δ", conditions, c.skip+1, 1/e-1, 2e-4)
		if c.skip == 1 {
			check(c.id, "rectangular lifting line, lift slope", conditions, 0, slope, 2e-4)
		}
	}
	for k, taper := range []float64{0.25, 0.3, 0.35, 0.4, 0.5, 0.75, 1} {
		const aspect = 2 * math.Pi
		root := 2 / (aspect * (1 + taper))
		_, e, _ := flown(t, wing(128, far, far+1, func(s float64) float64 { return root * (1 - (1-taper)*math.Abs(2*s-1)) }), even)
		check("3.12", "tapered lifting line, δ", fmt.Sprintf("A=2π, taper %g, 128 strips", taper), k, 1/e-1, 1e-4)
	}
}
