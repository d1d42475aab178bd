package lattice

import (
	"fmt"
	"math"
	"testing"
)

// Corners where strips of one width meet converge faster than those of
// heldEfficiency, whose sides have one number of strips each: with numbers that
// grow as the root of a side's length, winglets, boxes and the C-wing come within
// the tolerances of their rows.
func TestEfficiencyOfMatchedCorners(t *testing.T) {
	for _, c := range []struct {
		id     string
		height float64
	}{{"3.43", 0.05}, {"3.44", 0.1}, {"3.46", 0.3}, {"3.47", 0.5}} {
		left, right := [2]float64{-0.5, 0}, [2]float64{0.5, 0}
		topLeft, topRight := [2]float64{-0.5, c.height}, [2]float64{0.5, c.height}
		matched(t, of(c.id, 1, "winglets of %g", c.height), 2e-4,
			side{from: topLeft, to: left}, side{from: left, to: right}, side{from: right, to: topRight})
		matched(t, of(c.id, 3, "box of %g", c.height), 2e-4,
			side{from: topLeft, to: left}, side{from: left, to: right}, side{from: right, to: topRight}, side{from: topRight, to: topLeft})
	}
	matched(t, of("3.48", 0, "C-wing"), 1e-3,
		side{from: [2]float64{-0.4, 0.2}, to: [2]float64{-0.5, 0.2}}, side{from: [2]float64{-0.5, 0.2}, to: [2]float64{-0.5, 0}},
		side{from: [2]float64{-0.5, 0}, to: [2]float64{0.5, 0}},
		side{from: [2]float64{0.5, 0}, to: [2]float64{0.5, 0.2}}, side{from: [2]float64{0.5, 0.2}, to: [2]float64{0.4, 0.2}})
}

// matched holds an optimum of unit span, cut into strips of one width where two
// sides meet: 160 on a side of length one.
func matched(t *testing.T, f figure, tolerance float64, sides ...side) {
	t.Helper()
	var p Panels
	for _, s := range sides {
		length := math.Hypot(s.to[0]-s.from[0], s.to[1]-s.from[1])
		cut(&p, int(math.Round(160*math.Sqrt(length))), 0.1, CosineBoth, s)
	}
	e, _ := efficiency(t, &p, Unbounded, 1)
	f.quantity, f.unit, f.conditions = "largest efficiency e", "-", fmt.Sprintf("%s, %d strips of matched widths", f.conditions, p.Len())
	held(t, f, e, tolerance)
}
