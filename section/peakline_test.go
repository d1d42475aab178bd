package section

import (
	"math"
	"math/rand/v2"
	"testing"

	"foilwright/si"
)

// A line says what its table says, wherever it is set, in the table and beyond.
func TestPeakLine(t *testing.T) {
	s := mustParse(t, "naca 63-412")
	random := rand.New(rand.NewPCG(3, 4))
	for _, share := range []float64{0, 0.3} {
		table, err := s.PeakTable(share)
		if err != nil {
			t.Fatal(err)
		}
		var line PeakLine
		if line.Peak(0.3) != 0 {
			t.Error("a line at no table has a peak")
		}
		for range 20 {
			flap := si.Angle(random.NormFloat64()) * 12 * si.Degree
			line.Set(&table, flap)
			for range 50 {
				lift := 1.5 * random.NormFloat64()
				want := table.Peak(lift, flap)
				near(t, "peak on a line", line.Peak(lift), want, 1e-12*(1+math.Abs(want)))
				const h = 1e-6
				slope := (line.Peak(lift+h) - line.Peak(lift-h)) / (2 * h)
				peak, tangent := line.Tangent(lift)
				near(t, "slope of a line", tangent, slope, 1e-5*(1+math.Abs(slope)))
				near(t, "peak with its slope", peak, line.Peak(lift), 0)
			}
		}
	}
	var none PeakTable
	line := PeakLine{}
	line.Set(&none, 0.1)
	if line.Peak(0.3) != 0 {
		t.Error("the zero table has a peak")
	}
}
