package compare

import (
	"math"
	"testing"
)

// Common practice: wetted areas of 2.19, 1.97 and 1.83 m² are −10.0 %, then
// −7.1 % on the second or −16.4 % on the first: a percentage goes with its base.
func TestPercentagesGoWithTheirBase(t *testing.T) {
	areas := []float64{2.19, 1.97, 1.83}
	values := []*float64{&areas[0], &areas[1], &areas[2]}
	for _, c := range []struct {
		base, boat int
		want       float64
	}{{0, 1, -10.0}, {1, 2, -7.1}, {0, 2, -16.4}} {
		d := Differ("wetted area", "m²", Ratio, c.base, values)
		if got := 100 * *d.Shares[c.boat]; math.Abs(got-c.want) > 0.051 {
			t.Errorf("boat %d on boat %d: %.2f %%, common practice says %.1f", c.boat+1, c.base+1, got, c.want)
		}
	}
}
