package foil

import (
	"math"
	"testing"

	"foilwright/boat"
	"foilwright/frame"
)

// What is remembered is what would be found afresh, to the last bit, in whatever
// order it is asked for; and a memory does not grow without bound.
func TestMemoryIsTrue(t *testing.T) {
	f := inverted(t, frame.Point[frame.Boat]{}, 1.4, 0.8, 0.3, tapered(0.3, 0.12))
	f.Pieces[1].Twist = boat.Along{Share: []float64{0, 1}, Value: []float64{0.02, -0.05}}
	for i := range f.Pieces {
		var m memory
		for round := range 3 {
			for k := range 3 * mostKnown {
				share := math.Mod(float64(k)*(0.37+float64(round)), 1)
				if got, want := m.at(&f.Pieces[i], share), localAt(&f.Pieces[i], share); got != want {
					t.Fatalf("%s at %.3f: remembered %+v, found %+v", f.Pieces[i].Name, share, got, want)
				}
			}
		}
		if len(m.known) > mostKnown {
			t.Errorf("%s: %d sections remembered, at most %d may be", f.Pieces[i].Name, len(m.known), mostKnown)
		}
	}
}
